"""The cuts of a layout on paper: lines on the middle of their kerfs, numbers in rings, no ring on another."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any

from scantling.drawing.shapes import Box, Circle, Path, Segment, Segments, Shape, Text

RING_MM = 2.3
RING_TEXT_MM = 2.7


@dataclass(frozen=True, slots=True)
class OnPaper:
    """Where the stock lies on the paper, and which way up."""

    x: float
    y: float
    scale_x: float
    scale_y: float
    length: float
    width: float
    mirrored: bool

    def box(self, x: float, y: float, along_x: float, along_y: float) -> tuple[float, float, float, float]:
        """Return a rectangle of the stock as x, y, width, height on the paper."""
        top = y if self.mirrored else self.width - y - along_y
        return (self.x + x * self.scale_x, self.y + top * self.scale_y, along_x * self.scale_x, along_y * self.scale_y)

    @property
    def bottom(self) -> float:
        """Where the stock ends on the paper."""
        return self.y + self.width * self.scale_y


def meet(a: Box, b: Box) -> bool:
    """Return whether two boxes overlap."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def ringed_cuts(layout: Mapping[str, Any], paper: OnPaper) -> tuple[list[Shape], list[Box]]:
    """Return the lines of the cuts with their ringed numbers, and the boxes of the rings."""
    shapes: list[Shape] = []
    taken: list[Box] = []
    rings: list[Shape] = []
    for cut in layout["cuts"]:
        held = cut["held"]
        middle = cut["at_mm"] + cut["kerf_mm"] / 2
        if cut["axis"] == "x":
            x, y, _, h = paper.box(middle, held["y_mm"], 0.0, held["along_y_mm"] or paper.width)
            line = (x, y + h, x, y)
            if cut.get("near_mm") is not None:  # a sloped end: the line leans, its number stands at its near end
                x, far = (paper.box(cut[m] + cut["kerf_mm"] / 2, 0.0, 0.0, 0.0)[0] for m in ("near_mm", "far_mm"))
                line = (x, y + h, far, y)
            outside = (x, y + h + RING_MM + 0.6) if y + h > paper.bottom - 0.1 else None
            outside = outside or ((x, y - RING_MM - 0.6) if y < paper.y + 0.1 else None)
        else:
            x, y, w, _ = paper.box(held["x_mm"], middle, held["along_x_mm"], 0.0)
            line = (x, y, x + w, y)
            outside = (x - RING_MM - 0.6, y) if x < paper.x + 0.1 else None
            right = paper.x + paper.length * paper.scale_x
            outside = outside or ((x + w + RING_MM + 0.6, y) if x + w > right - 0.1 else None)
        shapes.append(Segments((line,), "cut"))
        at = _free(line, outside, taken, paper)
        if _away(at, line) > 1.5 * RING_MM and at != outside:
            rings.append(Path((at, ((line[0] + line[2]) / 2, (line[1] + line[3]) / 2)), "leader"))
        taken.append((at[0] - RING_MM, at[1] - RING_MM, at[0] + RING_MM, at[1] + RING_MM))
        rings += [Circle(at[0], at[1], RING_MM, "thin", "white")]
        rings += [Text(at[0], at[1], str(cut["number"]), RING_TEXT_MM, "middle", bold=True)]
    return shapes + rings, taken


def _free(
    line: Segment, outside: tuple[float, float] | None, taken: Sequence[Box], paper: OnPaper
) -> tuple[float, float]:
    """Return where a cut's ring stands clear of the others: outside the stock where the cut begins at its edge, else
    on its line, else as near to the line as there is room.
    """
    x0, y0, x1, y1 = line
    length = max(abs(x1 - x0), abs(y1 - y0), 1e-6)
    first = min(0.5, (RING_MM + 0.4) / length)
    shares = [first + (1 - 2 * first) * k / 24 for k in range(25)]
    spots = [(x0 + (x1 - x0) * s, y0 + (y1 - y0) * s) for s in shares]
    spots += [(x + dx, y + dy) for x, y in spots for dx, dy in ((0.0, 2.0), (0.0, -2.0), (2.0, 0.0), (-2.0, 0.0))]
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    for spot in chain([outside] if outside else [], spots, _rings_round(middle, paper)):
        box = (spot[0] - RING_MM, spot[1] - RING_MM, spot[0] + RING_MM, spot[1] + RING_MM)
        if not any(meet(box, other) for other in taken):
            return spot
    return middle


def _rings_round(middle: tuple[float, float], paper: OnPaper) -> Iterator[tuple[float, float]]:
    """Yield places on the stock on a grid round a point, the nearest first."""
    step = 2 * RING_MM + 0.2
    grid = [(middle[0] + i * step, middle[1] + j * step) for i in range(-8, 9) for j in range(-8, 9)]
    right, bottom = paper.x + paper.length * paper.scale_x, paper.bottom
    on = [p for p in grid if paper.x + RING_MM < p[0] < right - RING_MM and paper.y + RING_MM < p[1] < bottom - RING_MM]
    yield from sorted(on, key=lambda p: (round((p[0] - middle[0]) ** 2 + (p[1] - middle[1]) ** 2, 6), p))


def _away(at: tuple[float, float], line: Segment) -> float:
    """Return how far a point lies from a level or upright line."""
    x0, y0, x1, y1 = line
    dx = max(min(x0, x1) - at[0], 0.0, at[0] - max(x0, x1))
    dy = max(min(y0, y1) - at[1], 0.0, at[1] - max(y0, y1))
    return max(dx, dy)
