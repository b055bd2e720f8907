"""Writes a drawing as SVG: one user unit is one millimetre on paper."""

from collections.abc import Iterable
from functools import cache
from xml.sax.saxutils import escape

from .shapes import Blocks, Circle, Drawing, Path, Segments, Shape, Text
from .style import FILLS, STROKES

FONT = "Helvetica, Arial, 'Liberation Sans', sans-serif"
BASELINE = 0.35  # from the middle of a line to its baseline, in letter heights
_UNPRINTABLE = dict.fromkeys((*range(9), 11, 12, *range(14, 32), 65534, 65535))


def to_svg(drawing: Drawing) -> str:
    """Return the drawing as an SVG document; the same drawing gives the same text."""
    w, h = number(drawing.width), number(drawing.height)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}" '
        f'font-family="{FONT}" stroke-linecap="round" stroke-linejoin="round">'
        f"<title>{words(drawing.title)}</title>"
        f'<rect width="{w}" height="{h}" fill="#fff"/>{"".join(_shapes(drawing.shapes))}</svg>\n'
    )


def number(value: float) -> str:
    """Return a coordinate with at most two decimals."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def words(text: str) -> str:
    """Return text as XML holds it; characters XML cannot hold are left out."""
    return escape(text.translate(_UNPRINTABLE).encode("utf-8", "ignore").decode("utf-8"))


def _shapes(shapes: Iterable[Shape]) -> Iterable[str]:
    for shape in shapes:
        if isinstance(shape, Text):
            yield _text(shape)
        elif isinstance(shape, Circle):
            at = f'cx="{number(shape.x)}" cy="{number(shape.y)}" r="{number(shape.radius)}"'
            yield f"<circle {at}{_look(shape.stroke, shape.fill)}/>"
        elif isinstance(shape, Segments):
            d = "".join([f"M{a:.2f} {b:.2f}L{c:.2f} {e:.2f}" for a, b, c, e in shape.lines])
            yield f'<path d="{d}"{_look(shape.stroke, "none")}/>'
        elif isinstance(shape, Blocks):
            d = "".join(f"M{number(a)} {number(b)}H{number(c)}V{number(e)}H{number(a)}Z" for a, b, c, e in shape.boxes)
            yield f'<path d="{d}" fill="#000"/>'
        else:
            yield _path(shape)


def _path(path: Path) -> str:
    d = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in path.points) + ("Z" if path.closed else "")
    return f'<path d="{d}"{_look(path.stroke, path.fill)}/>'


@cache
def _look(stroke: str, fill: str) -> str:
    grey = FILLS[fill]
    look = ' fill="none"' if grey is None else f' fill="{_grey(grey)}"'
    style = STROKES[stroke]
    if style.width:
        look += f' stroke="{_grey(style.grey)}" stroke-width="{number(style.width)}"'
    if style.dash:
        look += f' stroke-dasharray="{" ".join(number(d) for d in style.dash)}"'
    return look


def _grey(level: float) -> str:
    return f"#{round(level * 255):02x}" + f"{round(level * 255):02x}" * 2


def _text(text: Text) -> str:
    x, y = (text.x + text.size * BASELINE, text.y) if text.upright else (text.x, text.y + text.size * BASELINE)
    # textLength holds the line to the room it was given, whatever sans-serif font the reader has
    look = f' font-size="{number(text.size)}" textLength="{number(text.width)}" lengthAdjust="spacingAndGlyphs"'
    if text.anchor != "start":
        look += f' text-anchor="{text.anchor}"'
    if text.bold:
        look += ' font-weight="bold"'
    if text.upright:
        look += f' transform="rotate(-90 {number(x)} {number(y)})"'
    return f'<text x="{number(x)}" y="{number(y)}"{look}>{words(text.text)}</text>'
