"""Writes a drawing as SVG: black on white first, hatching for waste, no colour needed to read it."""

from xml.sax.saxutils import escape

from .shapes import Drawing, Line, Rectangle, Text

PAGE_WIDTH = 1400.0  # user units across the drawing, so that text has one size whatever is drawn
MARGIN = 24.0
TEXT_SIZE = 20.0
LEAST_TEXT = 9.0
CHARACTER = 0.6  # width of a character in text sizes, a little more than a sans-serif needs

_STYLES = {
    "stock": 'fill="url(#waste)" stroke="#000" stroke-width="2"',
    "part": 'fill="#fff" stroke="#000" stroke-width="1.5"',
    "offcut": 'fill="#fff" stroke="#000" stroke-width="1" stroke-dasharray="6 4"',
    "waste": 'fill="url(#waste)" stroke="none"',
}
_LINES = {
    "cut": 'stroke="#000" stroke-width="1" stroke-dasharray="2 3"',
    "grain": 'stroke="#555" stroke-width="1" marker-end="url(#arrow)" marker-start="url(#arrow)"',
}
_DEFS = (
    '<defs><pattern id="waste" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<rect width="8" height="8" fill="#fff"/><line x1="0" y1="0" x2="0" y2="8" stroke="#999" stroke-width="1"/>'
    '</pattern><marker id="arrow" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="7" markerHeight="7" '
    'orient="auto-start-reverse"><path d="M0 0 8 4 0 8z" fill="#555"/></marker></defs>'
)


def to_svg(drawing: Drawing) -> str:
    """Return the drawing as an SVG document; the same drawing gives the same text."""
    scale = (PAGE_WIDTH - 2 * MARGIN) / drawing.width
    head = MARGIN + (TEXT_SIZE + 6) * len(drawing.heading)
    height = head + drawing.height * scale + 2 * MARGIN
    body = [_heading(i, line) for i, line in enumerate(drawing.heading)]
    for shape in drawing.shapes:
        if isinstance(shape, Rectangle):
            body.append(_rectangle(shape, scale, head))
        elif isinstance(shape, Line):
            body.append(_line(shape, scale, head))
        else:
            body.append(_text(shape, scale, head))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {PAGE_WIDTH:g} {height:.1f}" '
        'font-family="sans-serif" fill="#000">'
        f'<rect width="100%" height="100%" fill="#fff"/>{_DEFS}{"".join(body)}</svg>\n'
    )


def _heading(i: int, line: str) -> str:
    y = MARGIN + i * (TEXT_SIZE + 6)
    weight = ' font-weight="bold"' if i == 0 else ""
    return f'<text x="{MARGIN:g}" y="{y:.1f}" font-size="{TEXT_SIZE:g}"{weight}>{escape(line)}</text>'


def _rectangle(r: Rectangle, scale: float, head: float) -> str:
    x, y = MARGIN + r.x * scale, head + r.y * scale
    size = f'width="{r.width * scale:.2f}" height="{r.height * scale:.2f}"'
    return f'<rect x="{x:.2f}" y="{y:.2f}" {size} {_STYLES[r.style]}/>'


def _line(line: Line, scale: float, head: float) -> str:
    ends = (MARGIN + line.x0 * scale, head + line.y0 * scale, MARGIN + line.x1 * scale, head + line.y1 * scale)
    x0, y0, x1, y1 = (f"{v:.2f}" for v in ends)
    return f'<line x1="{x0}" y1="{y0}" x2="{x1}" y2="{y1}" {_LINES[line.style]}/>'


def _text(text: Text, scale: float, head: float) -> str:
    x, y = MARGIN + text.x * scale, head + text.y * scale
    run, rise = (text.box[1], text.box[0]) if text.upright else text.box
    fits = min(TEXT_SIZE, rise * scale * 0.8, run * scale * 0.95 / (CHARACTER * max(1, len(text.text))))
    if fits < LEAST_TEXT / 2 and not text.ringed:
        return ""  # unreadable; the table of placements has it
    size = max(fits, LEAST_TEXT) if text.ringed else fits
    turn = f' transform="rotate(-90 {x:.2f} {y:.2f})"' if text.upright else ""
    ring = f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{size * 0.85:.2f}" fill="#fff" stroke="#000"/>' if text.ringed else ""
    anchor = 'text-anchor="middle" dominant-baseline="central"'
    return f'{ring}<text x="{x:.2f}" y="{y:.2f}" font-size="{size:.1f}" {anchor}{turn}>{escape(text.text)}</text>'
