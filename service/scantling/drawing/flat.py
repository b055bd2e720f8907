"""The drawing of one part with every size needed to cut it: the face that lies up, its edge, an end if need be.

Places are counted from one datum, the start/near corner of the long-point blank, marked with a dot.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Literal

from scantling.board import Curve, Easing, Hole, Part, Recess, SawCut

from .dimension import LETTER_MM, Row, Sizes, level_chain, places_of, upright_chain
from .flat_notes import Feature, features, notes
from .hidden import Body, seen_and_hidden
from .lettering import text_width, wrapped
from .shapes import Box, Circle, Drawing, DrawnChain, Path, Segment, Segments, Shape, Text, rectangle
from .view import View, as_array

TITLE_MM = 4.4
NOTE_MM = 3.0
VIEW_GAP = 7.0
SIDE_MM = 26.0
MOST_VIEW_MM = 68.0
MOST_SCALE = 1.0
ON_MM = 0.05
LEAST_DASHED_MM = 0.3
LEAST_WORD_MM = 1.9
GRAIN = {"along": "; grain along the length", "across": "; grain across the length", "any": ""}

Place = Callable[[float], float]

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
    sheet = _Sheet(part, sizes, up, width)
    y = _title(sheet, heading or part.id)
    y = _face(sheet, y)
    y = _edge(sheet, y)
    y = _words(sheet, y, [*notes(part, sizes, up), *more])
    return Drawing(width, y, heading or part.id, tuple(sheet.shapes), tuple(sheet.chains))


@dataclass
class _Sheet:
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
        self.wants_end = _wants_end(part)
        end = part.thickness + 1.0 if self.wants_end else 0.0
        room = self.width - 2 * SIDE_MM - (VIEW_GAP + SIDE_MM if self.wants_end else 0.0)
        self.scale = min(MOST_SCALE, room / (part.length + end), MOST_VIEW_MM / part.width)
        self.left = SIDE_MM
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
        dashed = [self._on_paper(s.line, ox, oy) for s in hidden]
        dashed = [s for s in dashed if abs(s[0] - s[2]) + abs(s[1] - s[3]) > LEAST_DASHED_MM]
        if dashed:
            self.shapes.append(Segments(tuple(dashed), "hidden"))
        self.shapes.append(Segments(tuple(self._on_paper(s.line, ox, oy) for s in seen), "outline"))

    def _on_paper(self, line: Segment, ox: float, oy: float) -> Segment:
        x0, y0, x1, y1 = line
        return (x0 * self.scale + ox, y0 * self.scale + oy, x1 * self.scale + ox, y1 * self.scale + oy)


def _title(sheet: _Sheet, heading: str) -> float:
    y = 0.0
    for line in wrapped(heading, sheet.width, TITLE_MM, True):
        sheet.shapes.append(Text(0, y + TITLE_MM * 0.7, line, TITLE_MM, bold=True))
        y += TITLE_MM * 1.4
    p, show = sheet.part, sheet.sizes.show
    words = (
        f"{show(p.length)} long × {show(p.width)} wide × {p.thickness:g} mm {p.material.material}; "
        f"{_face_word(p, sheet.up)}{GRAIN[p.grain] if p.material.has_grain else ''}"
    )
    for line in wrapped(words, sheet.width, NOTE_MM + 0.2):
        sheet.shapes.append(Text(0, y + NOTE_MM * 0.7, line, NOTE_MM + 0.2))
        y += NOTE_MM * 1.5
    return y + 2.0


def _face(sheet: _Sheet, y: float) -> float:
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
    room = (2.0, sheet.right + SIDE_MM - 2)
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

    _marks(sheet, at, y, height)
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


def _below(sheet: _Sheet, bottom: float, rows: Sequence[tuple[str, list[float]]], room: tuple[float, float]) -> float:
    """Draw level chains below a view, the longest outermost and first, so that no line runs through a text."""
    y, placed = bottom, []
    for name, places in rows:
        row = level_chain(name, places, sheet.sizes, sheet.x, y + 4.0, lambda _: bottom, down=True, room=room)
        placed.append(row)
        y += 4.0 + row.depth
    for row in reversed(placed):
        sheet.add(row)
    return y + 3.0


def _end(sheet: _Sheet, y: float, at: Place) -> None:
    """Draw the end beside the face, with the chain of what a rip bevel or a groove leaves on the other face."""
    part, back_up = sheet.part, sheet.up == "back"
    x = sheet.right + SIDE_MM + VIEW_GAP
    sheet.view(END_BACK_UP if back_up else END, x, y)
    thick = part.thickness * sheet.scale
    under = [v for v in sheet.vertices if abs(v[2] - (part.thickness if back_up else 0.0)) < ON_MM]
    ys = places_of([0.0, part.width], [v[1] for v in under])
    right = x + thick
    span = (y - 4.0, y + part.width * sheet.scale + 4.0)
    if len(ys) > 2:
        side = "on the face below" if not back_up else "on the show face"
        sheet.add(upright_chain(side, ys, sheet.sizes, at, right + 4.0, lambda _: right, left=False, room=span))


def _edge(sheet: _Sheet, y: float) -> float:
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
    room = (2.0, sheet.right + SIDE_MM - 2)
    return _below(sheet, y, [("below the bevel", xs)] if len(xs) > 2 else [], room)


def _marks(sheet: _Sheet, at: Place, y: float, height: float) -> None:
    """Draw datum, holes with their letters, sealed edges, easings, curves, grain arrow and the word for the face."""
    part = sheet.part
    place = at
    taken: list[Box] = []
    for feature in sheet.features:
        if isinstance(feature.cut, Hole):
            _hole(sheet, feature, place, taken)
    for feature in sheet.features:
        if isinstance(feature.cut, Recess):
            _recess_letter(sheet, feature, place, taken)
    _edges_treated(sheet, place)
    sheet.shapes.append(Circle(sheet.left, place(0.0), 1.0, "none", "black"))
    words = ("grain" if part.material.has_grain else "", _face_word(part, sheet.up))
    text = ", ".join(w for w in words if w)
    _grain(sheet, text, y, height, taken)


def _face_word(part: Part, up: str) -> str:
    if part.shows == "face":
        return "show face up" if up == "face" else "show face down"
    return "both faces show" if part.shows == "both" else "either face up"


def _hole(sheet: _Sheet, feature: Feature, place: Place, taken: list[Box]) -> None:
    """Draw a hole with its cross and its letter, the letter where it stands clear of the others."""
    hole = feature.cut
    assert isinstance(hole, Hole)  # noqa: S101 - the caller looked
    x, y = sheet.x(hole.x), place(hole.y)
    r = max(0.4, hole.diameter / 2 * sheet.scale)
    opens_here = hole.depth is None or hole.side == sheet.up
    sheet.shapes.append(Circle(x, y, r, "outline" if opens_here else "hidden"))
    sheet.shapes.append(Segments(((x - r - 0.8, y, x + r + 0.8, y), (x, y - r - 0.8, x, y + r + 0.8)), "thin"))
    taken.append((x - r - 1, y - r - 1, x + r + 1, y + r + 1))
    half = text_width(feature.letter, NOTE_MM, True) / 2
    aside = r + 1.2 + half
    rises = [rise for far in range(6) for rise in (-r - far * 3.2, r + far * 3.2)]
    spots = [(side, rise) for rise in rises for side in (aside, -aside)]
    for dx, dy in spots:
        text = Text(x + dx, y + dy, feature.letter, NOTE_MM, "middle", bold=True)
        if not any(_meet(text.box(), box) for box in taken[:-1]):
            break
    if abs(dy) > r + 3:
        sheet.shapes.append(Path(((x, y), (x + dx, y + dy - (NOTE_MM / 2 if dy > 0 else -NOTE_MM / 2))), "leader"))
    sheet.shapes.append(text)
    taken.append(text.box())


def _recess_letter(sheet: _Sheet, feature: Feature, place: Place, taken: list[Box]) -> None:
    recess = feature.cut
    assert isinstance(recess, Recess)  # noqa: S101 - the caller looked
    part = sheet.part
    x = sheet.x((max(0.0, recess.x0) + min(part.length, recess.x1)) / 2)
    low, high = max(0.0, recess.y0), min(part.width, recess.y1)
    y = place((low + high) / 2)
    for dy in (0.0, 4.0, -4.0, 8.0, -8.0):
        text = Text(x, y + dy, feature.letter, NOTE_MM, "middle", bold=True)
        if not any(_meet(text.box(), box) for box in taken):
            break
    sheet.shapes.append(text)
    taken.append(text.box())


def _meet(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _edges_treated(sheet: _Sheet, place: Place) -> None:
    part = sheet.part
    lines = {
        side: (sheet.x(a), place(b), sheet.x(c), place(d))
        for side, (a, b, c, d) in {
            "start": (0.0, 0.0, 0.0, part.width),
            "end": (part.length, 0.0, part.length, part.width),
            "near": (0.0, 0.0, part.length, 0.0),
            "far": (0.0, part.width, part.length, part.width),
        }.items()
    }
    inwards = {"start": (1.0, 0.0), "end": (-1.0, 0.0)}
    middle = place(part.width / 2)
    for side, (x0, y0, x1, y1) in lines.items():
        dx, dy = inwards.get(side, (0.0, 1.0 if y0 < middle else -1.0))
        if side in part.seal:
            sheet.shapes.append(Segments(((x0 - dx * 1.1, y0 - dy * 1.1, x1 - dx * 1.1, y1 - dy * 1.1),), "seal"))
        if any(
            isinstance(c, Easing) and side in c.edge.split("/") and sheet.up in c.edge.split("/") for c in part.cuts
        ):
            sheet.shapes.append(Segments(((x0 + dx * 0.8, y0 + dy * 0.8, x1 + dx * 0.8, y1 + dy * 0.8),), "thin"))
        for cut in part.cuts:
            if isinstance(cut, Curve) and cut.side == side:
                rise = cut.rise * sheet.scale
                points = tuple(
                    (x0 + (x1 - x0) * t + dx * rise * bow, y0 + (y1 - y0) * t + dy * rise * bow)
                    for t in (k / 24 for k in range(25))
                    for bow in (4 * t * (1 - t),)
                )
                sheet.shapes.append(Path(points, "outline"))


def _grain(sheet: _Sheet, text: str, y: float, height: float, taken: Sequence[Box]) -> None:
    """Draw the grain arrow and the words about the face inside the view, or nothing where there is no room."""
    size = min(NOTE_MM, height - 0.6)
    if text_width(text, size) + 14.0 > sheet.part.length * sheet.scale - 2:
        text = ""  # it stands in the second line too
    arrow = 12.0 if sheet.part.material.has_grain else 0.0
    width = text_width(text, size) + arrow + 2.0
    if size < LEAST_WORD_MM or width > sheet.part.length * sheet.scale - 2:
        return
    for share in (0.5, 0.3, 0.7, 0.2, 0.8):
        for up_share in (0.5, 0.25, 0.75):
            x = sheet.left + (sheet.right - sheet.left) * share - width / 2
            middle = y + height * up_share
            box = (x, middle - size / 2, x + width, middle + size / 2)
            inside = box[0] > sheet.left and box[2] < sheet.right and box[1] > y and box[3] < y + height
            if inside and not any(_meet(box, other) for other in taken):
                if arrow:
                    end = x + arrow - 1.5
                    heads = tuple(
                        (t, middle, t - w * 1.6, middle + r) for t, w in ((end, 1), (x, -1)) for r in (0.7, -0.7)
                    )
                    sheet.shapes.append(Segments(((x, middle, end, middle), *heads), "thin"))
                if text:
                    sheet.shapes.append(Text(x + arrow, middle, text, size))
                return


def _words(sheet: _Sheet, y: float, lines: Iterable[str]) -> float:
    for note in lines:
        for line in wrapped(note, sheet.width, NOTE_MM):
            sheet.shapes.append(Text(0, y + NOTE_MM * 0.6, line, NOTE_MM))
            y += NOTE_MM * 1.4
    return y + 1.0


def _wants_end(part: Part) -> bool:
    """Return whether an end view says something: a bevel along the length, a groove or a rabbet."""
    for cut in part.cuts:
        if isinstance(cut, SawCut) and not cut.crosscut and cut.bevel > 0:
            return True
        if isinstance(cut, Recess) and cut.kind in ("groove", "rabbet"):
            return True
    return False
