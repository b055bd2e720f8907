"""From the tree of cuts to single cuts: what is held, where the blade goes, what falls off, and which saw does it."""

from dataclasses import dataclass, replace

from .nouns import Job, Layout, Node, Stock
from .saws import Choice, Operation, SawKind, Saws
from .sequence_tree import begin_of, end_of, is_waste, shop_tree, size_of

_MM = 100
ALLOWANCE = 300  # a break-down cut leaves 3 mm for the finish cut; common practice (1/8 in)


@dataclass(frozen=True, slots=True)
class Held:
    """The piece on the saw: its name, its place and size on the whole stock, its weight where it is known."""

    name: str
    x: int
    y: int
    along_x: int
    along_y: int
    mass_kg: float | None = None

    def to_plain(self) -> dict[str, object]:
        """Return it as JSON members, lengths in mm."""
        return {
            "name": self.name,
            "x_mm": self.x / _MM,
            "y_mm": self.y / _MM,
            "along_x_mm": self.along_x / _MM,
            "along_y_mm": self.along_y / _MM,
            "mass_kg": None if self.mass_kg is None else round(self.mass_kg, 2),
        }


@dataclass(frozen=True, slots=True)
class Fall:
    """What a cut leaves: a part (`name` is its id), a piece to cut further (its name), an offcut, or waste."""

    kind: str
    name: str | None
    x: int
    y: int
    along_x: int
    along_y: int

    def to_plain(self) -> dict[str, object]:
        """Return it as JSON members, lengths in mm."""
        return {
            "kind": self.kind,
            "name": self.name,
            "x_mm": self.x / _MM,
            "y_mm": self.y / _MM,
            "along_x_mm": self.along_x / _MM,
            "along_y_mm": self.along_y / _MM,
        }


@dataclass(frozen=True, slots=True)
class Step:
    """One cut before it has its number: `after` is the index of the step that freed the held piece."""

    axis: str
    at: int
    kerf: int
    operation: Operation
    choice: Choice | None
    held: Held
    falls: Fall | None
    rest: Fall
    level: int
    after: int | None
    trims: bool = False
    allowance: int = 0
    finish: bool = False
    end: tuple[int, int] = (0, 0)  # slope and bevel of the cut
    marks: tuple[int, int] | None = None  # where its kerf begins on the near and the far edge
    lie: str | None = None  # how the board is held for it, where that is not as it lies

    @property
    def by_hand(self) -> bool:
        """Only a hand saw can make this cut."""
        return self.choice is not None and self.choice.by_hand


@dataclass(frozen=True, slots=True)
class _Piece:
    """A piece of the stock still to be cut up; `freed_by` is the index of the step that freed it."""

    node: Node
    name: str
    level: int
    freed_by: int | None
    fresh: bool


def steps_of(layout: Layout, stock: Stock, job: Job, saws: Saws | None, kg_per_unit: float | None) -> list[Step]:
    """Return every cut that turns the whole stock into a layout's parts and offcuts, pieces as they come free.

    `kg_per_unit` is the mass of 0.01 mm × 0.01 mm of the stock, None where it is not known.
    """
    plans = []
    for true_first in (True, False):
        tree = shop_tree(layout, stock, job.cutting, true_first)
        plans.append(_Shop(stock, job, saws, kg_per_unit).cut_up(tree))
        if saws is None or not any(step.by_hand for step in plans[-1]):
            return plans[-1]
    return min(plans, key=_cut_by_hand)


def _cut_by_hand(steps: list[Step]) -> int:
    """Return how long the cuts are in all that no power saw can make."""
    return sum(step.operation.travel for step in steps if step.by_hand)


class _Shop:
    """Cuts up one sheet or board, step by step."""

    def __init__(self, stock: Stock, job: Job, saws: Saws | None, kg_per_unit: float | None) -> None:
        self.stock = stock
        self.kerf = job.cutting.kerf
        self.exact = job.cutting.cutting_error
        self.saws = saws
        self.kg_per_unit = kg_per_unit
        self.steps: list[Step] = []
        self.seller_cuts = 0

    def cut_up(self, root: Node) -> list[Step]:
        """Return the steps, level by level."""
        queue = [_Piece(root, "board" if self.stock.width is None else "sheet", 0, None, True)]
        for piece in queue:  # grows while it is walked
            if piece.node.axis is not None:
                queue.extend(self._cut_piece(piece, piece.node.axis))
        return self.steps

    def _cut_piece(self, piece: _Piece, axis: str) -> list[_Piece]:
        """Take the children off one by one from the start of a piece; return those that are to be cut further."""
        children = piece.node.children
        names = _names(piece)
        freed: list[int | None] = [piece.freed_by] * len(children)
        bench = _Bench(self, piece, axis)
        for index, child in enumerate(children):
            name = names[index]
            last = index == len(children) - 1
            ends_flush = end_of(child, axis) == bench.end
            if begin_of(child, axis) > bench.begin:
                alone = _fall(child, name) if last and ends_flush else None
                freed[index] = bench.shave_start(begin_of(child, axis), alone)
            if not last:
                following = children[index + 1]
                flush = begin_of(following, axis) == end_of(child, axis) + self.kerf
                final = index == len(children) - 2 and flush and end_of(following, axis) == bench.end
                rest = _fall(following, names[index + 1]) if final else None
                freed[index] = bench.take_off(child, _fall(child, name), rest, index == 0)
                freed[index + 1] = bench.freed_by
            elif not ends_flush:
                freed[index] = bench.shave_end(_fall(child, name))
        return [
            _Piece(child, names[i] or "", piece.level + 1, freed[i], bench.fresh)
            for i, child in enumerate(children)
            if child.axis is not None
        ]

    def width_of(self, along_y: int) -> int:
        """Return how wide a piece is: a board is as wide as it is, 0 where that is not known."""
        return along_y if self.stock.width is not None else self.stock.board_width or 0

    def choose(self, operation: Operation) -> Choice | None:
        """Return the saw for a cut, None where no saws are given."""
        return None if self.saws is None else self.saws.choose(operation)


class _Bench:
    """One piece being cut along one axis: what is left of it, from `begin` to `end`, and the step that left it."""

    def __init__(self, shop: _Shop, piece: _Piece, axis: str) -> None:
        self.shop = shop
        self.piece = piece
        self.axis = axis
        self.begin = begin_of(piece.node, axis)
        self.end = end_of(piece.node, axis)
        self.freed_by = piece.freed_by
        self.fresh = piece.fresh

    def take_off(self, child: Node, falls: Fall, rest: Fall | None, first: bool) -> int:
        """Cut a child off the start of what is left."""
        at = end_of(child, self.axis)
        left = rest or self._remainder(at + self.shop.kerf, self.end)
        size, other = size_of(child, self.axis), self.end - at - self.shop.kerf
        if is_waste(child):
            return self._make(at, self.shop.kerf, (other, size), falls, left, trims=first)
        finish = self._finish_saw(size, other, falls, rest)
        if finish is None:
            return self._make(at, self.shop.kerf, (size, other), falls, left)
        return self._in_two(at, size, falls, left, finish)

    def shave_start(self, at: int, alone: Fall | None) -> int:
        """True the start: the blade takes less than its kerf, nothing falls."""
        left = alone or self._remainder(at, self.end)
        return self._make(self.begin, at - self.begin, (self.end - at, 0), None, left, trims=True)

    def shave_end(self, rest: Fall) -> int:
        """True the end of the last child."""
        at = self.begin + (rest.along_x if self.axis == "x" else rest.along_y)
        return self._make(at, self.end - at, (at - self.begin, 0), None, rest, trims=True)

    def _finish_saw(self, size: int, other: int, falls: Fall, rest: Fall | None) -> Choice | None:
        """Return the exact saw for a second cut where the first one is rough and waste beside it leaves room."""
        held = self._held(self.piece.name, self._remainder(self.begin, self.end))
        rough = self.shop.choose(replace(self._operation(size, other), mass_kg=held.mass_kg))
        if rough is None or rough.saw.error <= self.shop.exact or rest is None or rest.kind != "waste":
            return None
        if other < ALLOWANCE:
            return None
        mass = self._held("", _stretched(falls, self.axis, size + ALLOWANCE)).mass_kg
        fine = self.shop.choose(replace(self._operation(size, ALLOWANCE), fresh=False, mass_kg=mass))
        return fine if fine is not None and fine.saw.error <= self.shop.exact and not fine.obstacles else None

    def _in_two(self, at: int, size: int, falls: Fall, waste: Fall, finish: Choice) -> int:
        """Cut a child off oversize and then, on the exact saw, to its size."""
        kerf, other = self.shop.kerf, self.end - at - self.shop.kerf
        rough = _stretched(falls, self.axis, size + ALLOWANCE)
        less = _stretched(waste, self.axis, other - ALLOWANCE, from_end=True)
        rough_piece = replace(rough, kind="piece", name=f"{self.piece.name}/oversize/{falls.name}")
        self._make(at + ALLOWANCE, kerf, (size + ALLOWANCE, other - ALLOWANCE), rough_piece, less, allowance=ALLOWANCE)
        width = min(kerf, ALLOWANCE)
        sliver = None
        if width < ALLOWANCE:
            sliver = replace(_stretched(rough, self.axis, ALLOWANCE - width, from_end=True), kind="waste", name=None)
        held = self._held(rough_piece.name or "", rough)
        operation = replace(self._operation(size, ALLOWANCE - width), mass_kg=held.mass_kg, fresh=False)
        step = Step(
            self.axis, at, width, operation, finish, held, sliver, falls, self.piece.level, self.freed_by, finish=True
        )
        self.shop.steps.append(step)
        return len(self.shop.steps) - 1

    def _make(
        self, at: int, width: int, sizes: tuple[int, int], falls: Fall | None, rest: Fall, *,
        trims: bool = False, allowance: int = 0,
    ) -> int:  # fmt: skip
        """Note one cut of what is left; `sizes` are the wanted side and the other. Return its index."""
        held = self._held(self.piece.name, self._remainder(self.begin, self.end))
        operation = replace(self._operation(*sizes), mass_kg=held.mass_kg)
        choice = self.shop.choose(operation)
        self.shop.steps.append(
            Step(
                self.axis, at, width, operation, choice, held, falls, rest, self.piece.level, self.freed_by,
                trims, allowance,
            )
        )  # fmt: skip
        by_seller = choice is not None and choice.saw.kind is SawKind.PANEL
        self.shop.seller_cuts += by_seller
        self.fresh = self.fresh and by_seller
        self.begin = at + width if falls is not None or at == self.begin else self.begin
        self.freed_by = len(self.shop.steps) - 1
        return self.freed_by

    def _operation(self, wanted: int, other: int) -> Operation:
        node = self.piece.node
        rip = self.axis == "y"
        return Operation(
            rip=rip,
            travel=node.along_x if rip else self.shop.width_of(node.along_y),
            wanted=wanted,
            other=other,
            thickness=self.shop.stock.thickness,
            fresh=self.fresh,
            seller_cuts=self.shop.seller_cuts,
        )

    def _remainder(self, begin: int, end: int) -> Fall:
        node = self.piece.node
        if self.axis == "x":
            return Fall("piece", self.piece.name, begin, node.y, end - begin, node.along_y)
        return Fall("piece", self.piece.name, node.x, begin, node.along_x, end - begin)

    def _held(self, name: str, fall: Fall) -> Held:
        per_unit = self.shop.kg_per_unit
        mass = None if per_unit is None else per_unit * fall.along_x * self.shop.width_of(fall.along_y)
        return Held(name, fall.x, fall.y, fall.along_x, fall.along_y, mass)


def _stretched(fall: Fall, axis: str, size: int, from_end: bool = False) -> Fall:
    """Return a fall made longer or shorter along an axis, keeping its start or, `from_end`, its end."""
    if axis == "x":
        x = fall.x + fall.along_x - size if from_end else fall.x
        return replace(fall, x=x, along_x=size)
    y = fall.y + fall.along_y - size if from_end else fall.y
    return replace(fall, y=y, along_y=size)


def _fall(node: Node, name: str | None) -> Fall:
    kind = "part" if node.part is not None else "offcut" if node.kept else "waste" if is_waste(node) else "piece"
    return Fall(kind, name, node.x, node.y, node.along_x, node.along_y)


def _names(piece: _Piece) -> list[str | None]:
    """Name the children: a part by its id, a piece to cut further by its way down the tree.

    What is left when only waste is cut off is still the same piece and keeps its name.
    """
    kept = [c for c in piece.node.children if not is_waste(c)]
    names: list[str | None] = []
    for index, child in enumerate(piece.node.children):
        if child.axis is None:
            names.append(child.part)
        else:
            names.append(piece.name if len(kept) == 1 else f"{piece.name}/{index}")
    return names
