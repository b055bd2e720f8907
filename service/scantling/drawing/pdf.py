"""Writes pages as PDF: one drawing a page, bookmarks, attached files; the same pages give the same bytes.

The library keeps the file: objects, fonts, outline. What stands on a page is written here as operators of ISO 32000-1
(8.5 paths, 9.4 text), which takes a fifth of the time of its drawing calls.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Any
from unicodedata import normalize

from .shapes import Blocks, Circle, Drawing, Path, Segments, Shape, Text
from .style import FILLS, STROKES

POINT_MM = 25.4 / 72
BASELINE = 0.35  # from the middle of a line to its baseline, in letter heights
ROUND = 0.5522847498  # control points of a quarter circle, in radii
FONTS = {False: "Helvetica", True: "Helvetica-Bold"}


@dataclass(frozen=True, slots=True)
class Page:
    """One page: its drawing, as large as the paper, and the bookmarks (title, level) that lead to it."""

    drawing: Drawing
    bookmarks: tuple[tuple[str, int], ...] = ()


def to_pdf(
    pages: Sequence[Page], title: str, *, author: str = "", attachments: Mapping[str, bytes] | None = None
) -> bytes:
    """Return the pages as a PDF file in black and greys, with a bookmark tree and files attached to it."""
    from reportlab.pdfbase import pdfdoc
    from reportlab.pdfbase.pdfmetrics import stringWidth
    from reportlab.pdfgen.canvas import Canvas

    out = BytesIO()
    canvas = Canvas(out, invariant=1)
    canvas.setTitle(printable(title))
    canvas.setAuthor(printable(author) or "anonymous")
    canvas.setCreator("scantling")
    fonts = {bold: canvas._doc.getInternalFontName(name) for bold, name in FONTS.items()}
    for number, page in enumerate(pages):
        drawing = page.drawing
        canvas.setPageSize((drawing.width / POINT_MM, drawing.height / POINT_MM))
        for i, (text, level) in enumerate(page.bookmarks):
            key = f"p{number}.{i}"
            canvas.bookmarkPage(key)
            canvas.addOutlineEntry(printable(text), key, level)
        canvas.showPage()
        content = "\n".join(_Pen(drawing.height, fonts, stringWidth).operators(drawing.shapes))
        sheet = canvas._doc.Pages.pages[-1]
        sheet.Contents = pdfdoc.PDFStream(content=content, filters=[pdfdoc.PDFZCompress])
    if any(page.bookmarks for page in pages):
        canvas.showOutline()
    if attachments:
        _attach(canvas, attachments)
    canvas.save()
    return out.getvalue()


def printable(text: str) -> str:
    """Return text in the characters the standard fonts have; others by their plain letter, else a question mark."""
    try:
        text.encode("cp1252")
    except UnicodeEncodeError:
        text = "".join(_nearest(c) for c in text)
    return text if text.isprintable() else "".join(c if c.isprintable() else " " for c in text)


def _nearest(character: str) -> str:
    try:
        character.encode("cp1252")
    except UnicodeEncodeError:
        return normalize("NFKD", character).encode("ascii", "ignore").decode("ascii") or "?"
    return character


_ESCAPES = {ord(c): f"\\{ord(c):03o}" for c in "()\\"}
_ESCAPES |= {ord(bytes([b]).decode("cp1252", "replace")): f"\\{b:03o}" for b in range(128, 256)}


def _literal(text: str) -> str:
    """Return a string as PDF writes it, characters beyond ASCII by their octal code in WinAnsiEncoding."""
    return printable(text).translate(_ESCAPES)


class _Pen:
    """Turns shapes into operators; y is turned to run up, as PDF has it."""

    def __init__(self, height: float, fonts: Mapping[bool, str], width: Callable[[str, str, float], float]) -> None:
        self.height = height
        self.fonts = fonts
        self.width = width
        self.stroke: str | None = None
        self.fill: float | None = None

    def operators(self, shapes: Iterable[Shape]) -> Iterable[str]:
        """Yield the operators that draw shapes in order."""
        yield "1 J 1 j"
        for shape in shapes:
            if isinstance(shape, Text):
                yield from self._text(shape)
            elif isinstance(shape, Segments):
                yield from self._look(shape.stroke, "none")
                yield "".join(f"{self._at(a, b)} m {self._at(c, d)} l " for a, b, c, d in shape.lines) + "S"
            elif isinstance(shape, Blocks):
                yield from self._look("none", "black")
                yield "".join(self._block(*box) for box in shape.boxes) + "f"
            else:
                outline = self._circle(shape) if isinstance(shape, Circle) else self._points(shape)
                closed = isinstance(shape, Circle) or shape.closed
                yield from self._look(shape.stroke, shape.fill)
                yield outline + _paint(closed, STROKES[shape.stroke].width > 0, FILLS[shape.fill] is not None)

    def _at(self, x: float, y: float) -> str:
        return f"{x / POINT_MM:.2f} {(self.height - y) / POINT_MM:.2f}"

    def _block(self, x0: float, y0: float, x1: float, y1: float) -> str:
        return f"{self._at(x0, y1)} {(x1 - x0) / POINT_MM:.3f} {(y1 - y0) / POINT_MM:.3f} re "

    def _points(self, path: Path) -> str:
        first, *rest = path.points
        return f"{self._at(*first)} m " + "".join(f"{self._at(*p)} l " for p in rest)

    def _circle(self, circle: Circle) -> str:
        x, y, r, k = circle.x, circle.y, circle.radius, circle.radius * ROUND
        quarters = (
            ((x + r, y + k), (x + k, y + r), (x, y + r)),
            ((x - k, y + r), (x - r, y + k), (x - r, y)),
            ((x - r, y - k), (x - k, y - r), (x, y - r)),
            ((x + k, y - r), (x + r, y - k), (x + r, y)),
        )
        curves = "".join(" ".join(self._at(*p) for p in quarter) + " c " for quarter in quarters)
        return f"{self._at(x + r, y)} m {curves}"

    def _look(self, stroke: str, fill: str) -> Iterable[str]:
        style, grey = STROKES[stroke], FILLS[fill]
        if style.width and stroke != self.stroke:
            self.stroke = stroke
            dash = " ".join(f"{d / POINT_MM:.2f}" for d in style.dash)
            yield f"{style.width / POINT_MM:.3f} w [{dash}] 0 d {style.grey:g} G"
        if grey is not None and grey != self.fill:
            self.fill = grey
            yield f"{grey:g} g"

    def _text(self, text: Text) -> Iterable[str]:
        if self.fill != 0.0:
            self.fill = 0.0
            yield "0 g"
        size = text.size / POINT_MM
        back = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
        if back:
            back *= self.width(printable(text.text), FONTS[text.bold], size) * POINT_MM
        drop = text.size * BASELINE
        if text.upright:
            place = f"0 1 -1 0 {self._at(text.x + drop, text.y + back)} Tm"
        else:
            place = f"{self._at(text.x - back, text.y + drop)} Td"
        yield f"BT {self.fonts[text.bold]} {size:.2f} Tf {place} ({_literal(text.text)}) Tj ET"


def _paint(closed: bool, stroked: bool, filled: bool) -> str:
    if filled:
        return ("b" if closed else "B") if stroked else "f"
    return ("s" if closed else "S") if stroked else "n"


def _attach(canvas: Any, files: Mapping[str, bytes]) -> None:  # noqa: ANN401 - the library is untyped
    """Attach files to the document (ISO 32000-1, 7.11.4 embedded file streams and 7.7.4 the name dictionary)."""
    from reportlab.pdfbase import pdfdoc

    document = canvas._doc
    names: list[object] = []
    for name in sorted(files):
        stream = pdfdoc.PDFStream(content=files[name].decode("latin-1"), filters=[pdfdoc.PDFZCompress])
        stream.dictionary["Type"] = pdfdoc.PDFName("EmbeddedFile")
        held = pdfdoc.PDFDictionary({"F": document.Reference(stream)})
        label = pdfdoc.PDFString(printable(name))
        spec = pdfdoc.PDFDictionary({"Type": pdfdoc.PDFName("Filespec"), "F": label, "UF": label, "EF": held})
        names += [label, document.Reference(spec)]
    tree = pdfdoc.PDFDictionary({"EmbeddedFiles": pdfdoc.PDFDictionary({"Names": pdfdoc.PDFArray(names)})})
    document.Catalog.Names = tree
