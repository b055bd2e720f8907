"""The set from above where it stands: walls, pieces, what opens, doors and their swing, walkways, sizes."""

from collections.abc import Sequence
from math import atan2, cos, hypot, pi, sin

from scantling.drawing.dimension import masked
from scantling.drawing.lettering import wrapped
from scantling.drawing.shapes import Box, Drawing, Path, Point, Shape, Text
from scantling.mechanics.figures import figure

from .dossier import Dossier, Plain
from .plan_sizes import NAME_MM, Sheet, free, letters, wall_sizes

TITLE_MM, NOTE_MM = 4.0, 2.8
SIDE_MM, HEAD_MM, FOOT_MM = 34.0, 26.0, 10.0
MOST_SCALE, TALLEST_MM = 0.1, 130.0


def plan_view(dossier: Dossier, place: Plain, width: float) -> Drawing:
    """Return the set in its place from above, `width` mm wide."""
    asked = dossier.request.get("place") or {}
    walkway = asked.get("walkway") or figure("walkway-secondary").si
    points = _points(place)
    edge = _edge(asked, points)
    sheet, height = _sheet([*points, *edge], width)
    shapes: list[Shape] = [Text(0, TITLE_MM * 0.7, "From above, as it stands", TITLE_MM, bold=True)]
    if edge:
        shapes.append(Path(tuple(sheet.at(p) for p in edge), "fold"))
    for piece in place["pieces"]:
        shapes += _aisle(sheet, piece, walkway)
    texts: list[Text] = []
    legend: list[str] = []
    for wall in place["walls"]:
        shapes.append(Path((sheet.at(wall["from_mm"]), sheet.at(wall["to_mm"])), "heavy"))
        for door in wall["doors"]:
            shapes += _door(sheet, door, texts, legend)
    for number, piece in enumerate(place["pieces"], 1):
        shapes.append(sheet.ring(piece["outline_mm"], "outline", True))
        if piece["opened_mm"]:
            shapes.append(sheet.ring(piece["opened_mm"], "cut"))
        _name(sheet, piece, number, texts, legend)
    rows = wall_sizes(place, sheet, dossier.options.sizes, width, texts, legend)
    for row in rows:
        shapes += row.shapes
    for text in texts:
        shapes += masked(text)
    lowest = max((t.box()[3] for t in (*texts, *(t for row in rows for t in letters(row)))), default=0.0)
    y = max(sheet.top + height, lowest) + FOOT_MM
    for words in [*legend, _words(place, walkway, dossier)]:
        for line in wrapped(words, width, NOTE_MM):
            shapes.append(Text(0, y, line, NOTE_MM))
            y += NOTE_MM * 1.4
    return Drawing(width, y, "From above, in its place", tuple(shapes), tuple(r.chain for r in rows))


def _points(place: Plain) -> list[Sequence[float]]:
    found: list[Sequence[float]] = []
    for wall in place["walls"]:
        found += [wall["from_mm"], wall["to_mm"], *(p for door in wall["doors"] for p in door["swept_mm"])]
    for piece in place["pieces"]:
        found += [*piece["outline_mm"], *(piece["opened_mm"] or ())]
    return found


def _edge(asked: Plain, points: Sequence[Sequence[float]]) -> list[Sequence[float]]:
    """Return the far edge of the place where its depth was given, and its sides where its width was."""
    wide, deep = asked.get("width"), asked.get("depth")
    if deep is None:
        return []
    if wide is not None:
        return [(0.0, 0.0), (0.0, deep), (wide, deep), (wide, 0.0)]
    xs = [p[0] for p in points]
    return [(min(xs), deep), (max(xs), deep)]


def _sheet(points: Sequence[Sequence[float]], width: float) -> tuple[Sheet, float]:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    wide, deep = max(max(xs) - min(xs), 1.0), max(max(ys) - min(ys), 1.0)
    scale = min(MOST_SCALE, (width - 2 * SIDE_MM) / wide, TALLEST_MM / deep)
    return Sheet((min(xs), min(ys)), SIDE_MM, HEAD_MM + TITLE_MM, scale, width), deep * scale


def _aisle(sheet: Sheet, piece: Plain, walkway: float) -> list[Shape]:
    """Return the walkway in front of a piece that stands at a wall; none in front of one in a corner."""
    if piece["wall"] is None or piece["corner"]:
        return []
    (x, y), turn = (piece["x_mm"], piece["y_mm"]), piece["turn_deg"] * pi / 180
    along, out = (cos(turn), sin(turn)), (-sin(turn), cos(turn))
    spots = [(px - x) * along[0] + (py - y) * along[1] for px, py in piece["outline_mm"]]
    ends = [(min(spots), 0.0), (max(spots), 0.0), (max(spots), walkway), (min(spots), walkway)]
    return [sheet.ring([(x + along[0] * s + out[0] * d, y + along[1] * s + out[1] * d) for s, d in ends], "kept")]


def _door(sheet: Sheet, door: Plain, texts: list[Text], legend: list[str]) -> list[Shape]:
    """Return a door's opening, its leaf standing open, and the quarter its leaf sweeps."""
    hinge, shut, opened = (sheet.at(p) for p in door["swept_mm"])
    radius = hypot(shut[0] - hinge[0], shut[1] - hinge[1])
    start, end = atan2(shut[1] - hinge[1], shut[0] - hinge[0]), atan2(opened[1] - hinge[1], opened[0] - hinge[0])
    way = (end - start + pi) % (2 * pi) - pi
    arc = tuple(
        (hinge[0] + radius * cos(start + way * i / 12), hinge[1] + radius * sin(start + way * i / 12))
        for i in range(13)
    )
    name = Text(
        (hinge[0] + shut[0] + opened[0]) / 3, (hinge[1] + shut[1] + opened[1]) / 3, door["id"], NOTE_MM, "middle"
    )
    if free(name, texts, sheet.width):
        texts.append(name)
    else:
        legend.append(f"Door: {door['id']}")
    return [Path((hinge, opened), "outline"), Path(arc, "thin")]


def _name(sheet: Sheet, piece: Plain, number: int, texts: list[Text], legend: list[str]) -> None:
    """Write a piece's name on it, level or upright; a number with a legend where there is no room for it."""
    x0, y0, x1, y1 = _box([sheet.at(p) for p in piece["outline_mm"]])
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    name = piece["module"] if piece["copy_number"] == 1 else f"{piece['module']} {piece['copy_number']}"
    for upright, room in ((False, x1 - x0), (True, y1 - y0)):
        text = Text(*middle, name, NAME_MM, "middle", upright)
        if text.width <= room - 1.5 and free(text, texts, sheet.width):
            texts.append(text)
            return
    spots = [(x0 + (x1 - x0) * u, y0 + (y1 - y0) * v) for v in (0.5, 0.2, 0.8) for u in (0.5, 0.2, 0.8)]
    numbers = (Text(*spot, str(number), NAME_MM, "middle") for spot in spots)
    spot = next((n for n in numbers if free(n, texts, sheet.width)), None)
    if spot is not None:
        texts.append(spot)
    legend.append(f"{number}: {name}" if spot is not None else f"Under another: {name}")


def _box(points: Sequence[Point]) -> Box:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _words(place: Plain, walkway: float, dossier: Dossier) -> str:
    show = dossier.options.sizes.show
    asked = (dossier.request.get("place") or {}).get("walkway")
    source = "asked for" if asked else f"{figure('walkway-secondary').source}; a room planning figure, not a rule"
    opens = " Dotted: what opens." if any(p["opened_mm"] for p in place["pieces"]) else ""
    words = f"Dashed: walkway of {show(walkway)} ({source}).{opens}"
    corners = [
        f"{wall['id']} meets the next wall at {wall['corner_deg']:.1f}°"
        for wall in place["walls"]
        if wall["corner_deg"]
    ]
    gap = place["largest_gap"]
    if gap is not None:
        corners.append(
            f"the widest gap behind the set is {show(gap['gap_mm'])}, at {gap['wall']} behind {gap['module']}"
        )
    sentence = "; ".join(corners)
    return f"{words} {sentence[:1].upper()}{sentence[1:]}." if sentence else words
