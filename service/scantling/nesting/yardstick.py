"""A general-purpose packing library (rectpack) as one of the starts, so that no answer is worse than the library's.

Its best single guillotine mode on published instances is used, one for pieces that may turn and one for pieces that
may not. It knows one rotation rule for all pieces, one size of bin and no price, so it is asked only where that fits:
with several sizes it is asked for each size alone on which everything fits (search_starts.py). It is not asked above
MOST_PIECES, with limited stock, a limit on stages or a first cut that is laid down; there nothing is promised about it.
"""

from .kernel import SHAPES, Problem

Box = tuple[int, int, int, int, int, int]  # x, y, extent along x and y, kind, shape
MOST_PIECES = 250  # it is written in Python: about a tenth of a second at that


def pack(problem: Problem) -> list[int] | None:
    """Return the library's layouts as a kernel solution, or None where the problem is beyond it or it fails."""
    if len(problem.stock_sizes) != 1 or problem.stock_limits[0] >= 0 or sum(problem.demand) > MOST_PIECES:
        return None
    if problem.first_axis != 2:
        return None
    boxes_by_sheet = _pack(problem)
    if boxes_by_sheet is None:
        return None
    numbers: list[int] = []
    for boxes in boxes_by_sheet:
        tree = _root(boxes, problem.stock_sizes[0])
        if tree is None:
            return None
        numbers += [0, *tree]
    return numbers


def _pack(problem: Problem) -> list[list[Box]] | None:
    """Run the library; None where it leaves a piece out or turns one that may not be turned."""
    import rectpack

    turning = all(row[0] == 3 or len(shapes) == 1 for row, shapes in zip(problem.allowed, problem.shapes, strict=True))
    algorithm = rectpack.GuillotineBlsfLas if turning else rectpack.GuillotineBafMinas
    order = rectpack.SORT_SSIDE if turning else rectpack.SORT_PERI
    packer = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline,
        bin_algo=rectpack.PackingBin.BBF,
        pack_algo=algorithm,
        sort_algo=order,
        rotation=turning,
    )
    for kind, (shapes, row) in enumerate(zip(problem.shapes, problem.allowed, strict=True)):
        lying = next(s for s in range(SHAPES) if row[0] >> s & 1)
        for _ in range(problem.demand[kind]):
            packer.add_rect(*shapes[lying], rid=kind)
    packer.add_bin(*problem.stock_sizes[0], count=sum(problem.demand))
    packer.pack()
    sheets: dict[int, list[Box]] = {}
    for sheet, x, y, width, height, kind in packer.rect_list():
        shape = _shape_of((width, height), problem, kind)
        if shape is None:
            return None
        sheets.setdefault(sheet, []).append((x, y, width, height, kind, shape))
    if sum(len(boxes) for boxes in sheets.values()) != sum(problem.demand):
        return None
    return [sheets[i] for i in sorted(sheets)]


def _shape_of(size: tuple[int, int], problem: Problem, kind: int) -> int | None:
    for shape, own in enumerate(problem.shapes[kind]):
        if own == size and problem.allowed[kind][0] >> shape & 1:
            return shape
    return None


def _root(boxes: list[Box], size: tuple[int, int]) -> list[int] | None:
    """The numbers of a whole sheet; the first cut is tried both ways."""
    for axis in (0, 1):
        groups = _groups(boxes, axis)
        if len(groups) > 1 or len(boxes) == 1:
            return _branch(groups, axis, size[1 - axis])
    return None


def _groups(boxes: list[Box], axis: int) -> list[list[Box]]:
    """Split boxes wherever a straight line across `axis` passes between them."""
    ordered = sorted(boxes, key=lambda b: (b[axis], b))
    groups, reach = [[ordered[0]]], ordered[0][axis] + ordered[0][2 + axis]
    for box in ordered[1:]:
        if box[axis] >= reach:
            groups.append([box])
        else:
            groups[-1].append(box)
        reach = max(reach, box[axis] + box[2 + axis])
    return groups


def _branch(groups: list[list[Box]], axis: int, cross: int) -> list[int] | None:
    """The numbers of a branch whose children are the groups, each as wide as the branch (`cross`)."""
    children: list[int] = []
    for group in groups:
        extent = max(b[axis] + b[2 + axis] for b in group) - min(b[axis] for b in group)
        if len(group) == 1 and group[0][3 - axis] == cross:
            children += [group[0][4], group[0][5]]
            continue
        inner = _groups(group, 1 - axis)
        if len(inner) == 1 and len(group) > 1:
            return None
        child = _branch(inner, 1 - axis, extent)
        if child is None:
            return None
        children += child
    return [-1 - axis, cross, len(groups), *children]
