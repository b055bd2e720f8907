"""The drawing of one part while it is being made: its scale, where its views start, what is drawn so far."""

from collections.abc import Callable
from dataclasses import dataclass, field
from math import hypot
from typing import Literal

from scantling.board import Part, Recess, SawCut

from .dimension import Row, Sizes
from .flat_notes import features
from .hidden import Body, seen_and_hidden
from .shapes import DrawnChain, Segment, Segments, Shape, rectangle
from .view import View, as_array

NOTE_MM = 3.0
VIEW_GAP = 7.0
SIDE_MM = 26.0
SIDE_BOTH_MM = 36.0  # where sizes are written on two tapes
MOST_VIEW_MM = 68.0
MOST_SCALE = 1.0
ON_MM = 0.05
LEAST_DASHED_MM = 0.3
NEAR_LINE_MM = 0.15

Place = Callable[[float], float]


@dataclass
class Sheet:
    """The drawing while it is being made: scale, where the view starts, what is drawn so far."""

    part: Part
    sizes: Sizes
    up: Literal["face", "back"]
    width: float
    shapes: list[Shape] = field(default_factory=list)
    chains: list[DrawnChain] = field(default_factory=list)

    def __post_init__(self) -> None:
        part = self.part
        self.body = Body.of(part.id, part.cells_local())
        self.vertices = [p for edge in self.body.edges for p in edge]
        self.features = features(part)
        self.wants_end = wants_end(part)
        end = part.thickness + 1.0 if self.wants_end else 0.0
        self.side = SIDE_MM if self.sizes.also is None else SIDE_BOTH_MM
        room = self.width - 2 * self.side - (VIEW_GAP + self.side if self.wants_end else 0.0)
        self.scale = min(MOST_SCALE, room / (part.length + end), MOST_VIEW_MM / part.width)
        self.left = self.side
        self.right = self.left + part.length * self.scale

    def x(self, place: float) -> float:
        """Return where a place along the length falls on the paper."""
        return self.left + place * self.scale

    def add(self, row: Row) -> None:
        """Add a chain to the drawing."""
        self.shapes += row.shapes
        self.chains.append(row.chain)

    def view(self, view: View, x: float, y: float) -> None:
        """Draw the part from a view, the top left corner of its blank at (x, y)."""
        size = self.part.size
        wide, high = (abs(sum(s * a for s, a in zip(size, axis, strict=True))) for axis in (view.right, view.up))
        if len(self.body.edges) == 12 and not any(isinstance(c, SawCut) for c in self.part.cuts):
            self.shapes.append(rectangle(x, y, wide * self.scale, high * self.scale))
            return
        flat = view.flat(as_array([(0.0, 0.0, 0.0), size]))
        ox, oy = x - float(flat[:, 0].min()) * self.scale, y - float(flat[:, 1].min()) * self.scale
        seen, hidden = seen_and_hidden([self.body], view, both=True)
        drawn = [self._on_paper(s.line, ox, oy) for s in seen]
        dashed = [self._on_paper(s.line, ox, oy) for s in hidden]
        dashed = [s for s in dashed if abs(s[0] - s[2]) + abs(s[1] - s[3]) > LEAST_DASHED_MM and not _covered(s, drawn)]
        if dashed:
            self.shapes.append(Segments(tuple(dashed), "hidden"))
        self.shapes.append(Segments(tuple(drawn), "outline"))

    def _on_paper(self, line: Segment, ox: float, oy: float) -> Segment:
        x0, y0, x1, y1 = line
        return (x0 * self.scale + ox, y0 * self.scale + oy, x1 * self.scale + ox, y1 * self.scale + oy)


def _covered(line: Segment, drawn: list[Segment]) -> bool:
    """Return whether a hidden line runs along one that is drawn: its ends and its middle lie on it."""
    x0, y0, x1, y1 = line
    points = ((x0, y0), (x1, y1), ((x0 + x1) / 2, (y0 + y1) / 2))
    return any(all(_distance(p, other) < NEAR_LINE_MM for p in points) for other in drawn)


def _distance(p: tuple[float, float], line: Segment) -> float:
    x0, y0, x1, y1 = line
    dx, dy = x1 - x0, y1 - y0
    t = max(0.0, min(1.0, ((p[0] - x0) * dx + (p[1] - y0) * dy) / max(dx * dx + dy * dy, 1e-12)))
    return hypot(x0 + dx * t - p[0], y0 + dy * t - p[1])


def wants_end(part: Part) -> bool:
    """Return whether an end view says something: a bevel along the length, a groove or a rabbet."""
    for cut in part.cuts:
        if isinstance(cut, SawCut) and not cut.crosscut and cut.bevel > 0:
            return True
        if isinstance(cut, Recess) and cut.kind in ("groove", "rabbet"):
            return True
    return False
