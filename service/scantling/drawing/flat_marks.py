"""What is marked on the face of a part: datum, holes and housings with letters, sealed and eased edges, grain, face."""

from collections.abc import Sequence

from scantling.board import Curve, Easing, Hole, Part, Recess

from .dimension import masked, meet
from .flat_notes import Feature
from .flat_sheet import NOTE_MM, Place, Sheet
from .lettering import text_width
from .shapes import Box, Circle, Path, Segments, Text

LEAST_WORD_MM = 1.9


def face_marks(sheet: Sheet, place: Place, y: float, height: float) -> None:
    """Draw datum, holes with their letters, sealed edges, easings, curves, grain arrow and the word for the face."""
    part = sheet.part
    taken: list[Box] = []
    for feature in sheet.features:
        if isinstance(feature.cut, Hole):
            _hole(sheet, feature, place, taken)
    for feature in sheet.features:
        if isinstance(feature.cut, Recess):
            _recess_letter(sheet, feature, place, taken)
    _edges_treated(sheet, place)
    sheet.shapes.append(Circle(sheet.left, place(0.0), 1.0, "none", "black"))
    words = ("grain" if part.material.has_grain else "", face_word(part, sheet.up))
    text = ", ".join(w for w in words if w)
    _grain(sheet, text, y, height, taken)


def face_word(part: Part, up: str) -> str:
    """Return in words which faces show and which lies up."""
    if part.shows == "face":
        return "show face up" if up == "face" else "show face down"
    return "both faces show" if part.shows == "both" else "either face up"


def _hole(sheet: Sheet, feature: Feature, place: Place, taken: list[Box]) -> None:
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
        if not any(meet(text.box(), box) for box in taken[:-1]):
            break
    if abs(dy) > r + 3:
        sheet.shapes.append(Path(((x, y), (x + dx, y + dy - (NOTE_MM / 2 if dy > 0 else -NOTE_MM / 2))), "leader"))
    sheet.shapes.append(text)
    taken.append(text.box())


def _recess_letter(sheet: Sheet, feature: Feature, place: Place, taken: list[Box]) -> None:
    recess = feature.cut
    assert isinstance(recess, Recess)  # noqa: S101 - the caller looked
    part = sheet.part
    x = sheet.x((max(0.0, recess.x0) + min(part.length, recess.x1)) / 2)
    low, high = max(0.0, recess.y0), min(part.width, recess.y1)
    y = place((low + high) / 2)
    for dy in (0.0, 4.0, -4.0, 8.0, -8.0):
        text = Text(x, y + dy, feature.letter, NOTE_MM, "middle", bold=True)
        if not any(meet(text.box(), box) for box in taken):
            break
    sheet.shapes += masked(text)
    taken.append(text.box())


def _edges_treated(sheet: Sheet, place: Place) -> None:
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


def _grain(sheet: Sheet, text: str, y: float, height: float, taken: Sequence[Box]) -> None:
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
            if inside and not any(meet(box, other) for other in taken):
                if arrow:
                    end = x + arrow - 1.5
                    heads = tuple(
                        (t, middle, t - w * 1.6, middle + r) for t, w in ((end, 1), (x, -1)) for r in (0.7, -0.7)
                    )
                    sheet.shapes.append(Segments(((x, middle, end, middle), *heads), "thin"))
                if text:
                    sheet.shapes += masked(Text(x + arrow, middle, text, size))
                return
