"""From where pieces lie on a sheet to the through-cuts that part them: for layouts that a person laid out."""

from dataclasses import dataclass

from .nouns import Cutting, Node, Placement, Stock
from .sheet_trees import Placer, worth_keeping

Box = tuple[int, int, int, int]  # x, y, along_x, along_y
_AXES = "xy"


class Locked(ValueError):
    """No through-cut parts these pieces without touching one."""

    def __init__(self, parts: tuple[str, ...]) -> None:
        super().__init__(f"no through-cut takes {', '.join(parts[:4])} apart")
        self.parts = parts


def tree_of(
    placements: tuple[Placement, ...], stock: Stock, cutting: Cutting, least_offcut: tuple[int, int], first: str
) -> Node:
    """Return the tree of cuts of a sheet, the trim first; what is left over is kept where it is worth it.

    `first` is the axis to try first, "x" or "y". Raises Locked where the pieces cannot be sawn apart.
    """
    trim, width = cutting.trim, stock.width or 0
    room = (trim.start, trim.near, stock.length - trim.start - trim.end, width - trim.near - trim.far)
    inner = _Splitter(cutting.kerf, least_offcut).split(room, list(placements), first)
    return Placer(cutting, least_offcut, []).trimmed_sheet(stock, inner)


@dataclass(frozen=True, slots=True)
class _Splitter:
    """Cuts boxes up until every piece lies in a box of its own size."""

    kerf: int
    least_offcut: tuple[int, int]

    def split(self, box: Box, inside: list[Placement], first: str) -> Node:
        """Return a box cut up; each cut that is free is taken at once, since it never locks another."""
        if not inside:
            return Node(*box, kept=worth_keeping((box[2], box[3]), self.least_offcut))
        only = inside[0]
        if len(inside) == 1 and box == (only.x, only.y, only.along_x, only.along_y):
            return Node(*box, part=only.part, turned=only.turned)
        for axis in (first, _AXES[1 - _AXES.index(first)]):
            boxes = self._boxes(box, inside, _AXES.index(axis))
            if len(boxes) > 1 or boxes[0][0] != box:
                other = _AXES[1 - _AXES.index(axis)]
                return Node(*box, axis=axis, children=tuple(self.split(b, own, other) for b, own in boxes))
        raise Locked(tuple(sorted({p.part for p in inside})))

    def _boxes(self, box: Box, inside: list[Placement], axis: int) -> list[tuple[Box, list[Placement]]]:
        """Cut a box into slices along an axis, waste between them where a blade leaves any."""
        slices = self._slices(inside, axis)
        begin, end = box[axis], box[axis] + box[2 + axis]
        boxes: list[tuple[Box, list[Placement]]] = []
        for index, (low, reach, own) in enumerate(slices):
            high = reach
            if low - begin > self.kerf:
                boxes.append((_cut(box, axis, begin, low - self.kerf), []))
            following = slices[index + 1][0] if index + 1 < len(slices) else None
            if following is not None and following - reach <= 2 * self.kerf:
                high = following - self.kerf  # no room for waste between: the slice takes it, cut off later
            boxes.append((_cut(box, axis, low, high), own))
            begin = high + self.kerf
        if end - begin > 0:
            boxes.append((_cut(box, axis, begin, end), []))
        return boxes

    def _slices(self, inside: list[Placement], axis: int) -> list[tuple[int, int, list[Placement]]]:
        """Part pieces wherever a blade of the kerf passes between them; each slice as (begin, end, pieces)."""
        slices: list[tuple[int, int, list[Placement]]] = []
        for p in sorted(inside, key=lambda p: ((p.x, p.y)[axis], p.part, (p.y, p.x)[axis])):
            low = (p.x, p.y)[axis]
            high = low + (p.along_x, p.along_y)[axis]
            if slices and low < slices[-1][1] + self.kerf:
                begin, reach, own = slices[-1]
                slices[-1] = (begin, max(reach, high), [*own, p])
            else:
                slices.append((low, high, [p]))
        return slices


def _cut(box: Box, axis: int, begin: int, end: int) -> Box:
    if axis == 0:
        return begin, box[1], end - begin, box[3]
    return box[0], begin, box[2], end - begin
