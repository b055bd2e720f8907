"""One material and thickness as a problem in integers: kinds of rectangle, kinds of sheet.

The blade is taken into account once: every piece and every usable sheet is made one kerf larger, and then sizes
simply add up (n pieces in a row need n widths and n - 1 kerfs, exactly).
"""

from dataclasses import dataclass

from .kernel import ANY_STAGES, UNLIMITED, Problem
from .nouns import Cutting, Grain, Job, Piece, Stock, StockGrain, Trim, Unplaced
from .saw_profile import bevelled_kerf

FIRST_AXIS = {"across": 0, "along": 1, "either": 2}  # which axis the first cut splits

Shape = tuple[int, int]  # extent along x and along y, kerf included


@dataclass(frozen=True, slots=True)
class Block:
    """One way to lay down what a kind stands for: (piece index, turned) side by side along an axis, or one alone."""

    members: tuple[int, ...]
    axis: str
    turned: bool


@dataclass(frozen=True, slots=True)
class Kind:
    """Rectangles that are alike to the saw: a size with its permitted orientations, or a group kept together.

    `owners` are (piece index, quantity) of the parts that have this size; a group has one owner each.
    """

    shapes: tuple[Shape, ...]
    blocks: tuple[Block, ...]
    allowed: tuple[int, ...]
    demand: int
    owners: tuple[tuple[int, int], ...]
    member_sizes: tuple[Shape, ...]  # length and width of each member, kerf included
    area: int  # of the pieces themselves with one kerf added to each side; a bound may count on it


@dataclass(frozen=True, slots=True)
class SheetProblem:
    """Kinds and sheets of one material and thickness. `cost` is what each sheet adds to the objective."""

    kinds: tuple[Kind, ...]
    stock: tuple[Stock, ...]
    sizes: tuple[Shape, ...]
    costs: tuple[int, ...]
    limits: tuple[int | None, ...]
    cutting: Cutting

    def kernel_problem(self, costs: tuple[int, ...], target: int, allowed: tuple[tuple[int, ...], ...]) -> Problem:
        """Return the problem as the kernel takes it, with the given costs, target and permitted shapes."""
        stages = ANY_STAGES if self.cutting.stages is None else self.cutting.stages
        first_axis = FIRST_AXIS[self.cutting.first_cut]
        if any(len(b.members) > 1 for k in self.kinds for b in k.blocks):
            if stages == 1 and first_axis == 2:
                first_axis = 0  # the way the groups lie
            stages = max(1, stages - 1)  # parting a group takes a stage of its own
        return Problem(
            shapes=tuple(k.shapes for k in self.kinds),
            allowed=allowed,
            demand=tuple(k.demand for k in self.kinds),
            stock_sizes=self.sizes,
            stock_costs=costs,
            stock_limits=tuple(UNLIMITED if q is None else q for q in self.limits),
            stages=min(stages, ANY_STAGES),
            first_axis=first_axis,
            target=target,
        )


def usable(stock: Stock, trim: Trim) -> Shape:
    """Extent of a sheet inside its trim, without kerf; not positive where the trim takes all."""
    return stock.length - trim.start - trim.end, (stock.width or 0) - trim.near - trim.far


def build_problem(
    job: Job, pieces: tuple[Piece, ...], stock: tuple[Stock, ...], priced: bool
) -> tuple[SheetProblem, tuple[Unplaced, ...]]:
    """Make the integer problem of one material and thickness; pieces that fit no sheet come back as unplaced.

    Pieces of one size and grain become one kind, sheets are taken as they are; the order of the input does not
    matter to the result but for the names it carries.
    """
    in_stock = tuple(sorted((s for s in stock if s.quantity != 0), key=_stock_order))
    stock = tuple(s for s in in_stock if min(usable(s, job.cutting.trim)) > 0)
    kerf = job.cutting.kerf
    sizes = tuple((x + kerf, y + kerf) for x, y in (usable(s, job.cutting.trim) for s in stock))
    unplaced: list[Unplaced] = []
    kinds: list[Kind] = []
    for owners in _alike(pieces, kerf):
        kind = _make_kind([(i, pieces[i]) for i in owners], stock, sizes, job.cutting)
        if any(kind.allowed):
            kinds.append(kind)
        else:
            unplaced.extend(_fits_nowhere(pieces[i], in_stock, job.cutting) for i in owners)
    costs = tuple(_cost(s, priced) for s in stock)
    kinds.sort(key=lambda k: (-k.shapes[0][0] * k.shapes[0][1], k.shapes, k.allowed, k.owners))
    problem = SheetProblem(tuple(kinds), stock, sizes, costs, tuple(s.quantity for s in stock), job.cutting)
    return problem, tuple(unplaced)


def _stock_order(stock: Stock) -> tuple[bool, int, int, int, str]:
    return (not stock.offcut, -stock.length, -(stock.width or 0), stock.price or 0, stock.id)


def _cost(stock: Stock, priced: bool) -> int:
    if priced:
        return stock.price or 0
    return 0 if stock.offcut else stock.length * (stock.width or 0)


def _alike(pieces: tuple[Piece, ...], kerf: int) -> list[tuple[int, ...]]:
    """Indices of pieces alike to the saw; a group that must come from one sheet is one entry."""
    alike: dict[tuple[object, ...], list[int]] = {}
    for index, piece in enumerate(pieces):
        if piece.quantity < 1:
            continue
        key: tuple[object, ...] = (piece.group,)
        if piece.group is None:
            key = (cut_size(piece, kerf), piece.grain, piece.stock, piece.material, piece.thickness)
        alike.setdefault(key, []).append(index)
    return [tuple(sorted(v, key=lambda i: pieces[i].id)) for v in alike.values()]


def matches(piece: Piece, stock: Stock) -> bool:
    """Tell whether material, thickness and pin allow the piece to come from the sheet, whatever its size."""
    same_material = piece.material is None or stock.material is None or piece.material == stock.material
    same_thickness = piece.thickness is None or stock.thickness is None or piece.thickness == stock.thickness
    pinned = piece.stock is None or piece.stock == stock.id
    return stock.width is not None and same_material and same_thickness and pinned


def _orientations(piece: Piece, stock: Stock) -> tuple[bool, ...]:
    """Which ways a piece may lie on a sheet: `False` its length along x, `True` turned."""
    if not matches(piece, stock):
        return ()
    if stock.grain is StockGrain.NONE or piece.grain is Grain.ANY:
        return (False, True)
    return (piece.grain is Grain.ACROSS,)


def cut_size(piece: Piece, kerf: int) -> Shape:
    """Return length and width to which a piece is cut from a sheet: its allowance and room for tilted blades added."""
    tilted = ((piece.start_bevel, piece.end_bevel), (piece.near_bevel, piece.far_bevel))
    room = [sum(bevelled_kerf(kerf, abs(bevel) / 100) - kerf for bevel in pair) for pair in tilted]
    return piece.length + piece.oversize + room[0], (piece.width or 0) + piece.oversize + room[1]


def _size(piece: Piece, kerf: int) -> Shape:
    length, width = cut_size(piece, kerf)
    return length + kerf, width + kerf


def _area(piece: Piece, kerf: int) -> int:
    length, width = _size(piece, kerf)
    return length * width


def _make_kind(
    owners: list[tuple[int, Piece]], stock: tuple[Stock, ...], sizes: tuple[Shape, ...], cutting: Cutting
) -> Kind:
    first = owners[0][1]
    grouped = first.group is not None
    blocks = (
        _group_blocks(owners, cutting)
        if grouped
        else (Block((owners[0][0],), "x", False), Block((owners[0][0],), "x", True))
    )
    pieces = dict(owners)
    shapes = tuple(_block_shape(b, pieces, cutting.kerf) for b in blocks)
    if not grouped and shapes[0] == shapes[1]:
        square = slice(1, 2) if first.grain is Grain.ACROSS else slice(0, 1)  # a square still has a grain
        shapes, blocks = shapes[square], blocks[square]
    allowed = []
    for sheet, size in zip(stock, sizes, strict=True):
        bits = 0
        permitted = set.intersection(*(set(_orientations(p, sheet)) for _, p in owners))
        if grouped and len(shapes) == 1 and permitted:
            permitted = {False}
        for bit, (block, shape) in enumerate(zip(blocks, shapes, strict=True)):
            fits = shape[0] <= size[0] and shape[1] <= size[1]
            if block.turned in permitted and fits and not _parts_wrongly(block, shape, size, cutting):
                bits |= 1 << bit
        allowed.append(bits)
    return Kind(
        shapes=shapes,
        blocks=blocks,
        allowed=tuple(allowed),
        demand=1 if grouped else sum(p.quantity for _, p in owners),
        owners=tuple((i, 1 if grouped else p.quantity) for i, p in owners),
        member_sizes=tuple(_size(pieces[i], cutting.kerf) for i in blocks[0].members),
        area=sum(_area(pieces[i], cutting.kerf) for i in blocks[0].members),
    )


def _parts_wrongly(block: Block, shape: Shape, size: Shape, cutting: Cutting) -> bool:
    """True for a group that fills the sheet and would be parted across the first cut asked for."""
    wanted = {"along": "y", "across": "x"}.get(cutting.first_cut)
    return len(block.members) > 1 and shape == size and wanted not in (None, block.axis)


def _group_blocks(owners: list[tuple[int, Piece]], cutting: Cutting) -> tuple[Block, ...]:
    """A group lies in one row, in sequence: along x or along y, its pieces turned or not.

    With a single stage of cuts the row can only lie across those cuts.
    """
    members = tuple(i for i, p in owners for _ in range(p.quantity))
    axes = ("x", "y") if cutting.stages != 1 else ("y" if cutting.first_cut == "along" else "x",)
    return tuple(Block(members, axis, turned) for turned in (False, True) for axis in axes)


def _block_shape(block: Block, pieces: dict[int, Piece], kerf: int) -> Shape:
    xs, ys = [], []
    for index in block.members:
        length, width = _size(pieces[index], kerf)
        xs.append(width if block.turned else length)
        ys.append(length if block.turned else width)
    return (sum(xs), max(ys)) if block.axis == "x" else (max(xs), sum(ys))


def _fits_nowhere(piece: Piece, stock: tuple[Stock, ...], cutting: Cutting) -> Unplaced:
    """Say why a piece fits no sheet, which sheet is nearest and by how much the piece is too large for it."""
    length, width = cut_size(piece, cutting.kerf)
    nearest: tuple[int, Shape, str] | None = None
    for sheet in stock:
        room = usable(sheet, cutting.trim)
        for turned in _orientations(piece, sheet):
            along = (width, length) if turned else (length, width)
            over = (max(0, along[0] - room[0]), max(0, along[1] - room[1]))
            excess = (over[1], over[0]) if turned else over
            if nearest is None or sum(over) < nearest[0]:
                nearest = (sum(over), excess, sheet.id)
    if nearest is None:
        return Unplaced(piece.id, piece.quantity, "there is no sheet of its material and thickness")
    if piece.group is not None and not any(nearest[1]):
        reason = f"group {piece.group} does not fit on one sheet in one row"
        return Unplaced(piece.id, piece.quantity, reason, nearest[2])
    return Unplaced(piece.id, piece.quantity, "it is larger than any sheet inside its trim", nearest[2], nearest[1])
