"""Cutting layouts as drawings: the stock, its parts with ids and sizes, offcuts worth keeping, waste hatched."""

from collections.abc import Mapping
from typing import Any

from scantling.drawing import Drawing, Line, Rectangle, Text, to_svg
from scantling.drawing.shapes import Shape
from scantling.measure import Tape

BOARD_DRAWN_MM = 100.0  # a board has no width in its layout; it is drawn as a strip of this height
MARGIN_SHARE = 0.02  # of the length, below the stock, for the grain arrow


def layout_svgs(nesting: Mapping[str, Any], tape: Tape) -> dict[str, str]:
    """Return file name → SVG for every layout of a nesting answer."""
    return {
        f"layout-{i + 1:02d}.svg": to_svg(layout_drawing(layout, i + 1, len(nesting["layouts"]), tape))
        for i, layout in enumerate(nesting["layouts"])
    }


def layout_drawing(layout: Mapping[str, Any], number: int, of: int, tape: Tape) -> Drawing:
    """Return one layout as a drawing; x runs along the stock's length, y down the page across it."""
    length, width = layout["length_mm"], layout.get("width_mm") or BOARD_DRAWN_MM
    shapes: list[Shape] = [Rectangle(0, 0, length, width, "stock")]
    for offcut in layout["offcuts"]:
        x, y, w, h = offcut["x_mm"], offcut.get("y_mm", 0.0), offcut["length_mm"], offcut.get("width_mm") or width
        shapes += [Rectangle(x, y, w, h, "offcut"), _label(x, y, w, h, "keep")]
    for placed in layout["placements"]:
        shapes += _placed(placed, width, tape)
    below = width + length * MARGIN_SHARE / 2
    shapes.append(Line(0, below, length / 8, below, "grain"))
    shapes.append(Text(length / 4, below, "grain", (length / 8, length * MARGIN_SHARE)))
    count = f"{layout['count']} × " if layout["count"] > 1 else ""
    parts = len(layout["placements"])
    heading = (
        f"Layout {number} of {of}: {count}{layout['stock']}, {tape.show(length)}"
        + (f" × {tape.show(layout['width_mm'])}" if layout.get("width_mm") else ""),
        f"{parts} part{'' if parts == 1 else 's'}, {len(layout['cuts'])} cuts; hatched is waste, dashed is kept",
    )
    return Drawing(length, width + length * MARGIN_SHARE, heading, tuple(shapes))


def _placed(placed: Mapping[str, Any], sheet_width: float, tape: Tape) -> list[Shape]:
    long, wide = placed["length_mm"], placed.get("width_mm") or sheet_width
    w, h = (wide, long) if placed.get("turned") else (long, wide)
    x, y = placed["x_mm"], placed.get("y_mm", 0.0)
    size = tape.show(long) if not placed.get("width_mm") else f"{tape.show(long)} × {tape.show(wide)}"
    return [Rectangle(x, y, w, h, "part"), *_named(x, y, w, h, placed["part"], size)]


def _named(x: float, y: float, w: float, h: float, name: str, size: str) -> list[Shape]:
    """Return a part's id and size along its longer side, on two lines or on one: whichever can be written larger."""
    upright = h > w
    across, run = (w, h) if upright else (h, w)
    both = f"{name}  {size}"
    two = min(across / 2, run / max(len(name), len(size)))
    if min(across, run / len(both)) > two:
        return [Text(x + w / 2, y + h / 2, both, (w, h), upright)]
    middle = (x + w / 2, y + h / 2)
    shares = (0.3, 0.7)
    places = [(x + w * k, middle[1]) if upright else (middle[0], y + h * k) for k in shares]
    room = (across / 2, run) if upright else (run, across / 2)
    return [Text(px, py, text, room, upright) for (px, py), text in zip(places, (name, size), strict=True)]


def _label(x: float, y: float, w: float, h: float, text: str) -> Text:
    return Text(x + w / 2, y + h / 2, text, (w, h), h > w)
