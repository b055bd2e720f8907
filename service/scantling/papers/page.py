"""Lays text, tables and drawings out on pages, one under another; what does not fit goes on the next page."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from scantling.drawing.lettering import shortened, wrapped
from scantling.drawing.pdf import Page
from scantling.drawing.shapes import Blocks, Circle, Drawing, Path, Segments, Shape, Text, shifted

TEXT_MM = 3.3
SMALL_MM = 2.8
TABLE_MM = 2.9
HEADING_MM = (6.2, 4.6)
PARAGRAPH_GAP_MM = 1.0
LINE = 1.4  # from line to line, in letter heights
MARGIN_MM = 14.0
FOOT_MM = 9.0
PUNCH_MM = 4.0  # more on the left, where the sheets are held


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper, in mm."""

    name: str
    width: float
    height: float


LETTER = Paper("Letter", 215.9, 279.4)
A4 = Paper("A4", 210.0, 297.0)
PAPERS = {"letter": LETTER, "a4": A4}


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its head, its share of the width, and how it is set."""

    head: str
    share: float
    anchor: Literal["start", "end"] = "start"
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Words that stand beside a drawing, and how they are set."""

    words: str
    bold: bool = False
    size: float = TEXT_MM


@dataclass
class Flow:
    """Pages while they are being filled from top to bottom."""

    paper: Paper
    footer: str = ""
    done: list[tuple[Paper, list[Shape], list[tuple[str, int]]]] = field(default_factory=list)
    shapes: list[Shape] = field(default_factory=list)
    marks: list[tuple[str, int]] = field(default_factory=list)
    y: float = MARGIN_MM

    @property
    def left(self) -> float:
        """Where text begins."""
        return MARGIN_MM + PUNCH_MM

    @property
    def width(self) -> float:
        """Width that text may take."""
        return self.paper.width - self.left - MARGIN_MM

    @property
    def bottom(self) -> float:
        """Where the page ends."""
        return self.paper.height - MARGIN_MM - FOOT_MM

    @property
    def room(self) -> float:
        """Height left on this page."""
        return self.bottom - self.y

    def new_page(self) -> None:
        """Begin a page, unless this one is still empty."""
        if self.shapes:
            self.done.append((self.paper, self.shapes, self.marks))
            self.shapes, self.marks = [], []
        self.y = MARGIN_MM

    def turn(self) -> None:
        """Begin a page and lay the paper on its long side, or stand it up again."""
        self.new_page()
        self.paper = Paper(self.paper.name, self.paper.height, self.paper.width)

    def need(self, height: float) -> None:
        """Begin a page unless so much room is left."""
        if height > self.room and self.shapes:
            self.new_page()

    def section(self, title: str, *, level: int = 0, bookmark: bool = True, room: float = 30.0) -> None:
        """Write a heading with a bookmark; it keeps `room` mm with it."""
        size = HEADING_MM[min(level, 1)]
        lines = wrapped(title, self.width, size, True)
        self.need(len(lines) * size * LINE + 4.5 + room)  # a heading never stands alone at the foot of a page
        if self.shapes:
            self.y += 3.0
        if bookmark:
            self.marks.append((title, level))
        for line in lines:
            self.shapes.append(Text(self.left, self.y + size * 0.7, line, size, bold=True))
            self.y += size * LINE
        self.y += 1.5

    def text(self, words: str, *, size: float = TEXT_MM, bold: bool = False, indent: float = 0.0) -> None:
        """Write a paragraph."""
        for line in wrapped(words, self.width - indent, size, bold):
            self.need(size * LINE)
            self.shapes.append(Text(self.left + indent, self.y + size * LINE / 2, line, size, bold=bold))
            self.y += size * LINE
        self.y += size * 0.25

    def bullet(self, words: str, *, size: float = TEXT_MM, box: bool = False) -> None:
        """Write a paragraph behind a dot, or behind a box to tick."""
        self.need(size * LINE)
        middle = self.y + size * LINE / 2
        if box:
            a, b = self.left + 0.3, self.left + 2.8
            ring = ((a, middle - 1.25), (b, middle - 1.25), (b, middle + 1.25), (a, middle + 1.25))
            self.shapes.append(Path(ring, "thin", True))
        else:
            self.shapes.append(Circle(self.left + 1.2, middle, 0.5, "none", "black"))
        self.text(words, size=size, indent=4.5)

    def space(self, height: float) -> None:
        """Leave some room."""
        self.y += height

    def put(self, drawing: Drawing, *, centred: bool = False, gap: float = 4.0) -> None:
        """Place a drawing; it goes whole on the next page where it does not fit here."""
        self.need(drawing.height)
        x = self.left + ((self.width - drawing.width) / 2 if centred else 0.0)
        self.shapes += [shifted(s, x, self.y) for s in drawing.shapes]
        self.y += drawing.height + gap

    def row(self, drawings: Sequence[Drawing], gap: float = 3.0) -> None:
        """Place drawings side by side, spread over the width."""
        self.need(max(d.height for d in drawings))
        spare = self.width - sum(d.width for d in drawings)
        x = self.left
        for drawing in drawings:
            self.shapes += [shifted(s, x, self.y) for s in drawing.shapes]
            x += drawing.width + spare / max(1, len(drawings) - 1)
        self.y += max(d.height for d in drawings) + gap

    def beside(self, drawing: Drawing, paragraphs: Sequence[Paragraph], gap: float = 5.0) -> None:
        """Place a drawing with paragraphs to its right."""
        x, room = drawing.width + 4.0, self.width - drawing.width - 4.0
        rows = [(p, wrapped(p.words, room, p.size, p.bold)) for p in paragraphs]
        self.need(max(drawing.height, sum(len(lines) * p.size * LINE + PARAGRAPH_GAP_MM for p, lines in rows)))
        self.shapes += [shifted(s, self.left, self.y) for s in drawing.shapes]
        y = self.y
        for p, lines in rows:
            for line in lines:
                self.shapes.append(Text(self.left + x, y + p.size * LINE / 2, line, p.size, bold=p.bold))
                y += p.size * LINE
            y += PARAGRAPH_GAP_MM
        self.y = max(self.y + drawing.height, y) + gap

    def table(self, columns: Sequence[Column], rows: Sequence[Sequence[str]], *, size: float = TABLE_MM) -> None:
        """Write a table; its head is repeated on every page it runs over."""
        total = sum(c.share for c in columns)
        widths = [self.width * c.share / total for c in columns]
        head = [Column(c.head, c.share, c.anchor, True) for c in columns]
        titles = [c.head for c in columns]
        first = True
        for row in rows:
            cells = [wrapped(t, w - 1.6, size, c.bold) for t, w, c in zip(row, widths, columns, strict=True)]
            height = max(len(c) for c in cells) * size * LINE + 1.2
            if first or height > self.room:
                if height + 2 * size * LINE > self.room:
                    self.new_page()
                self._row(
                    head, [wrapped(t, w - 1.6, size, True) for t, w in zip(titles, widths, strict=True)], widths, size
                )
                first = False
            self._row(columns, cells, widths, size)
        self.y += 3.0

    def _row(
        self, columns: Sequence[Column], cells: Sequence[Sequence[str]], widths: Sequence[float], size: float
    ) -> None:
        height = max(len(c) for c in cells) * size * LINE + 1.2
        x = self.left
        for column, lines, width in zip(columns, cells, widths, strict=True):
            at = x + width - 1.8 if column.anchor == "end" else x + 0.8
            for i, line in enumerate(lines):
                y = self.y + 0.6 + size * LINE * (i + 0.5)
                self.shapes.append(Text(at, y, line, size, column.anchor, bold=column.bold))
            x += width
        self.y += height
        self.shapes.append(Segments(((self.left, self.y, self.left + self.width, self.y),), "rule"))

    def pages(self) -> list[Page]:
        """Return the finished pages with their numbers."""
        self.new_page()
        count = len(self.done)
        return [self._footed(*page, i, count) for i, page in enumerate(self.done, 1)]

    def _footed(self, paper: Paper, shapes: list[Shape], marks: list[tuple[str, int]], number: int, count: int) -> Page:
        y = paper.height - MARGIN_MM
        words = f"page {number} of {count}"
        foot = [
            Text(self.left, y, shortened(self.footer, paper.width - 80, SMALL_MM), SMALL_MM),
            Text(paper.width - MARGIN_MM, y, words, SMALL_MM, "end"),
        ]
        title = marks[0][0] if marks else words
        return Page(Drawing(paper.width, paper.height, title, (*shapes, *foot)), tuple(marks))


def scaled_to(drawing: Drawing, width: float, height: float) -> Drawing:
    """Return a drawing shrunk, letters and all, to fit a size; drawings that fit come back as they are."""
    k = min(1.0, width / drawing.width, height / drawing.height)
    if k == 1.0:
        return drawing
    return replace(
        drawing, width=drawing.width * k, height=drawing.height * k, shapes=tuple(_scaled(s, k) for s in drawing.shapes)
    )


def _scaled(shape: Shape, k: float) -> Shape:
    if isinstance(shape, Path):
        return replace(shape, points=tuple((x * k, y * k) for x, y in shape.points))
    if isinstance(shape, Segments):
        return replace(shape, lines=tuple((a * k, b * k, c * k, d * k) for a, b, c, d in shape.lines))
    if isinstance(shape, Blocks):
        return Blocks(tuple((a * k, b * k, c * k, d * k) for a, b, c, d in shape.boxes))
    if isinstance(shape, Circle):
        return replace(shape, x=shape.x * k, y=shape.y * k, radius=shape.radius * k)
    return replace(shape, x=shape.x * k, y=shape.y * k, size=shape.size * k)
