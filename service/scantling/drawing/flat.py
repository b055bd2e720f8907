"""The drawing of one part with every size needed to cut it: the face that lies up, its edge, an end if need be.

Places are counted from one datum, the start/near corner of the long-point blank, marked with a dot.
"""

from collections.abc import Iterable, Sequence
from typing import Literal

from scantling.board import Part, Recess

from .dimension import LETTER_MM, Sizes, level_chain, places_of, upright_chain
from .flat_marks import face_marks, face_word
from .flat_notes import notes
from .flat_sheet import NOTE_MM, ON_MM, VIEW_GAP, Place, Sheet
from .lettering import wrapped
from .shapes import Drawing, Text
from .view import View

TITLE_MM = 4.4
GRAIN = {"along": "; grain along the length", "across": "; grain across the length", "any": ""}

FACE_UP = View.of("show face up", (0.0, 0.0, 1.0), (0.0, 1.0, 0.0))
BACK_UP = View.of("show face down", (0.0, 0.0, -1.0), (0.0, -1.0, 0.0))
EDGE = View.of("edge", (0.0, -1.0, 0.0))
EDGE_BACK_UP = View.of("edge", (0.0, 1.0, 0.0), (0.0, 0.0, -1.0))
END = View.of("end", (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
END_BACK_UP = View.of("end", (1.0, 0.0, 0.0), (0.0, -1.0, 0.0))


def part_drawing(
    part: Part,
    sizes: Sizes,
    *,
    heading: str = "",
    more: Sequence[str] = (),
    up: Literal["face", "back"] = "face",
    width: float = 180.0,
) -> Drawing:
    """Return the drawing of a part, `width` mm wide and as high as it needs.

    `heading` stands at its top (the part's id if empty), `more` are further lines below the notes; `up` is the face
    that lies up on the saw: with "back" the part is drawn turned over along its length.
    """
    sheet = Sheet(part, sizes, up, width)
    y = _title(sheet, heading or part.id)
    y = _face(sheet, y)
    y = _edge(sheet, y)
    y = _words(sheet, y, [*notes(part, sizes, up), *more])
    return Drawing(width, y, heading or part.id, tuple(sheet.shapes), tuple(sheet.chains))


def _title(sheet: Sheet, heading: str) -> float:
    y = 0.0
    for line in wrapped(heading, sheet.width, TITLE_MM, True):
        sheet.shapes.append(Text(0, y + TITLE_MM * 0.7, line, TITLE_MM, bold=True))
        y += TITLE_MM * 1.4
    p, show = sheet.part, sheet.sizes.show
    words = (
        f"{show(p.length)} long × {show(p.width)} wide × {p.thickness:g} mm {p.material.material}; "
        f"{face_word(p, sheet.up)}{GRAIN[p.grain] if p.material.has_grain else ''}"
    )
    for line in wrapped(words, sheet.width, NOTE_MM + 0.2):
        sheet.shapes.append(Text(0, y + NOTE_MM * 0.7, line, NOTE_MM + 0.2))
        y += NOTE_MM * 1.5
    return y + 2.0


def _face(sheet: Sheet, y: float) -> float:
    """Draw the face that lies up with its chains, and return where the edge view begins."""
    part, sizes = sheet.part, sheet.sizes
    back_up = sheet.up == "back"
    on_top = [v for v in sheet.vertices if abs(v[2] - (0.0 if back_up else part.thickness)) < ON_MM]
    cuts = [c for c in part.cuts if isinstance(c, Recess)]
    across = [v for c in cuts for v in (c.x0, c.x1) if 0 < v < part.length]
    near = places_of([0.0, part.length], across, [v[0] for v in on_top if v[1] < part.width / 2 - ON_MM])
    far = places_of([0.0, part.length], [v[0] for v in on_top if v[1] >= part.width / 2 - ON_MM])
    far = [] if all(any(abs(p - q) < 0.06 for q in near) for p in far) else far
    above, below = (near, far) if back_up else (far, near)
    room = (2.0, sheet.right + sheet.side - 2)
    y += 1.5
    if len(above) > 2:
        row = level_chain("", above, sizes, sheet.x, 0.0, lambda _: 0.0, down=False, room=room)
        y += row.depth + 2.5
        top = y
        name = "along the top edge"
        sheet.add(level_chain(name, above, sizes, sheet.x, top - 3.5, lambda _: top, down=False, room=room))
    height = part.width * sheet.scale
    sheet.view(BACK_UP if back_up else FACE_UP, sheet.left, y)

    def at(place: float) -> float:
        return y + (place if back_up else part.width - place) * sheet.scale

    face_marks(sheet, at, y, height)
    ys = places_of(
        [0.0, part.width],
        [v for c in cuts for v in (c.y0, c.y1) if 0 < v < part.width],
        [v[1] for v in on_top],
    )
    span = (y - 4.0, y + height + 4.0)
    if len(ys) > 2:
        sheet.add(upright_chain("across", ys, sizes, at, sheet.left - 4.0, lambda _: sheet.left, left=True, room=span))
    whole = [0.0, part.width]
    sheet.add(upright_chain("width", whole, sizes, at, sheet.right + 4.0, lambda _: sheet.right, left=False, room=span))
    if sheet.wants_end:
        _end(sheet, y, at)
    y += height
    rows = [("along the bottom edge", below)] if len(below) > 2 else []
    return _below(sheet, y, [*rows, ("length", [0.0, part.length])], room)


def _below(sheet: Sheet, bottom: float, rows: Sequence[tuple[str, list[float]]], room: tuple[float, float]) -> float:
    """Draw level chains below a view, the longest outermost and first, so that no line runs through a text."""
    y, placed = bottom, []
    for name, places in rows:
        row = level_chain(name, places, sheet.sizes, sheet.x, y + 4.0, lambda _: bottom, down=True, room=room)
        placed.append(row)
        y += 4.0 + row.depth
    for row in reversed(placed):
        sheet.add(row)
    return y + 3.0


def _end(sheet: Sheet, y: float, at: Place) -> None:
    """Draw the end beside the face, with the chain of what a rip bevel or a groove leaves on the other face."""
    part, back_up = sheet.part, sheet.up == "back"
    x = sheet.right + sheet.side + VIEW_GAP
    sheet.view(END_BACK_UP if back_up else END, x, y)
    thick = part.thickness * sheet.scale
    under = [v for v in sheet.vertices if abs(v[2] - (part.thickness if back_up else 0.0)) < ON_MM]
    ys = places_of([0.0, part.width], [v[1] for v in under])
    right = x + thick
    span = (y - 4.0, y + part.width * sheet.scale + 4.0)
    if len(ys) > 2:
        side = "on the face below" if not back_up else "on the show face"
        sheet.add(upright_chain(side, ys, sheet.sizes, at, right + 4.0, lambda _: right, left=False, room=span))


def _edge(sheet: Sheet, y: float) -> float:
    """Draw the edge below the face, with its thickness, depths of housings and what a bevel takes."""
    part, sizes, back_up = sheet.part, sheet.sizes, sheet.up == "back"
    under = [v for v in sheet.vertices if abs(v[2] - (part.thickness if back_up else 0.0)) < ON_MM]
    top = [v[0] for v in sheet.vertices if v not in under]
    xs = places_of([0.0, part.length], [v[0] for v in under if all(abs(v[0] - t) > ON_MM for t in top)])
    depths = [v for c in part.cuts if isinstance(c, Recess) for v in (c.z0, c.z1) if 0 < v < part.thickness]
    zs = places_of([0.0, part.thickness], depths)
    texts = len(zs) - 1
    y += max(0.0, (texts * LETTER_MM * 1.2 - part.thickness * sheet.scale) / 2)
    sheet.view(EDGE_BACK_UP if back_up else EDGE, sheet.left, y)
    height = part.thickness * sheet.scale

    def at(place: float) -> float:
        return y + (place if back_up else part.thickness - place) * sheet.scale

    middle, half = y + height / 2, max(height, texts * LETTER_MM * 1.2) / 2 + 0.1
    span = (middle - half, middle + half)
    depth_sizes = Sizes(sizes.tape) if len(zs) == 2 else sizes
    sheet.add(
        upright_chain("thickness", zs, depth_sizes, at, sheet.left - 4.0, lambda _: sheet.left, left=True, room=span)
    )
    y = span[1]
    room = (2.0, sheet.right + sheet.side - 2)
    return _below(sheet, y, [("below the bevel", xs)] if len(xs) > 2 else [], room)


def _words(sheet: Sheet, y: float, lines: Iterable[str]) -> float:
    for note in lines:
        for line in wrapped(note, sheet.width, NOTE_MM):
            sheet.shapes.append(Text(0, y + NOTE_MM * 0.6, line, NOTE_MM))
            y += NOTE_MM * 1.4
    return y + 1.0
