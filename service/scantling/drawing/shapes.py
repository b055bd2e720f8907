"""Plain shapes a view is made of, in millimetres on paper; y runs down the page.

A view decides what is drawn and how large the letters are; a writer only puts shapes on paper. What may overlap or
run off the page can therefore be checked on the shapes, before any file is written.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from .lettering import text_width

Point = tuple[float, float]
Segment = tuple[float, float, float, float]
Box = tuple[float, float, float, float]
Fill = Literal["none", "white", "black", "tint", "waste"]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Path:
    """A line through points, closed or open; `stroke` and `fill` name a style (see `style`)."""

    points: tuple[Point, ...]
    stroke: str = "outline"
    closed: bool = False
    fill: Fill = "none"


@dataclass(frozen=True, slots=True)
class Segments:
    """Many straight lines (x0, y0, x1, y1) of one style."""

    lines: tuple[Segment, ...]
    stroke: str = "outline"


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle by its centre and radius."""

    x: float
    y: float
    radius: float
    stroke: str = "outline"
    fill: Fill = "none"


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text of a height of `size` mm; y is the middle of the line, x its start, middle or end.

    `upright` text runs up the page: x is then the middle of the line and y its start, middle or end.
    """

    x: float
    y: float
    text: str
    size: float = 3.0
    anchor: Anchor = "start"
    upright: bool = False
    bold: bool = False

    @property
    def width(self) -> float:
        """Length of the line in mm."""
        return text_width(self.text, self.size, self.bold)

    def box(self) -> Box:
        """Return the box (x0, y0, x1, y1) the letters stand in."""
        back = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * self.width
        half = self.size / 2
        if self.upright:
            return (self.x - half, self.y + back - self.width, self.x + half, self.y + back)
        return (self.x - back, self.y - half, self.x - back + self.width, self.y + half)


@dataclass(frozen=True, slots=True)
class Blocks:
    """Many black rectangles (x0, y0, x1, y1), such as the dark modules of a code."""

    boxes: tuple[Box, ...]


Shape = Path | Segments | Circle | Text | Blocks


@dataclass(frozen=True, slots=True)
class DrawnChain:
    """A dimension chain as drawn: the texts of its links and of its whole, with the same values in mm."""

    name: str
    links: tuple[str, ...]
    whole: str
    links_mm: tuple[float, ...]
    whole_mm: float


@dataclass(frozen=True, slots=True)
class Drawing:
    """A view on paper: its size in mm, its title, its shapes from back to front, and the chains it dimensions."""

    width: float
    height: float
    title: str
    shapes: tuple[Shape, ...]
    chains: tuple[DrawnChain, ...] = ()

    def texts(self) -> Iterator[Text]:
        """Yield the texts in the order they are drawn."""
        return (s for s in self.shapes if isinstance(s, Text))


def shifted(shape: Shape, dx: float, dy: float) -> Shape:
    """Return a shape moved on the paper."""
    if isinstance(shape, Text):
        return Text(shape.x + dx, shape.y + dy, shape.text, shape.size, shape.anchor, shape.upright, shape.bold)
    if isinstance(shape, Path):
        return Path(tuple((x + dx, y + dy) for x, y in shape.points), shape.stroke, shape.closed, shape.fill)
    if isinstance(shape, Segments):
        return Segments(tuple((a + dx, b + dy, c + dx, d + dy) for a, b, c, d in shape.lines), shape.stroke)
    if isinstance(shape, Blocks):
        return Blocks(tuple((a + dx, b + dy, c + dx, d + dy) for a, b, c, d in shape.boxes))
    return Circle(shape.x + dx, shape.y + dy, shape.radius, shape.stroke, shape.fill)


def rectangle(x: float, y: float, width: float, height: float, stroke: str = "outline", fill: Fill = "none") -> Path:
    """Return a rectangle by its top left corner and size."""
    return Path(((x, y), (x + width, y), (x + width, y + height), (x, y + height)), stroke, True, fill)


def bounds(shape: Shape) -> Box:
    """Return the box round a shape, without the width of its line."""
    if isinstance(shape, Text):
        return shape.box()
    if isinstance(shape, Circle):
        return (shape.x - shape.radius, shape.y - shape.radius, shape.x + shape.radius, shape.y + shape.radius)
    if isinstance(shape, Path):
        points = list(shape.points)
    else:
        rows = shape.boxes if isinstance(shape, Blocks) else shape.lines
        points = [p for a, b, c, d in rows for p in ((a, b), (c, d))]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return (min(xs), min(ys), max(xs), max(ys))


def stacked(title: str, drawings: list[Drawing], gap: float = 8.0) -> Drawing:
    """Return several views under each other as one."""
    if len(drawings) == 1:
        return drawings[0]
    y, shapes = 0.0, []
    for one in drawings:
        shapes += [shifted(s, 0.0, y) for s in one.shapes]
        y += one.height + gap
    width = max((d.width for d in drawings), default=10.0)
    return Drawing(width, max(y - gap, 10.0), title, tuple(shapes), tuple(c for d in drawings for c in d.chains))
