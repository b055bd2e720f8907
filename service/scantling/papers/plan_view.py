"""The set from above where it stands: walls, pieces, what opens, doors and their swing, walkways, sizes."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import atan2, cos, hypot, pi, sin

from scantling.drawing.dimension import Row, Sizes, level_chain, masked, meet, places_of, upright_chain
from scantling.drawing.lettering import shortened, wrapped
from scantling.drawing.shapes import Box, Drawing, Path, Point, Shape, Text
from scantling.mechanics.figures import figure

from .dossier import Dossier, Plain

TITLE_MM, NAME_MM, NOTE_MM = 4.0, 3.2, 2.8
SIDE_MM, HEAD_MM, FOOT_MM = 34.0, 26.0, 10.0
MOST_SCALE, TALLEST_MM = 0.1, 130.0
WALL_TO_CHAIN_MM = 9.0
LEVEL_DEG = 3.0  # a wall turned no more than this off square is dimensioned as one


@dataclass(frozen=True, slots=True)
class Sheet:
    """Where the plan lies on the paper: its own corner, where that corner is drawn, and the scale."""

    low: Point
    left: float
    top: float
    scale: float

    def at(self, point: Sequence[float]) -> Point:
        """Return where a point of the plan is drawn."""
        return self.left + (point[0] - self.low[0]) * self.scale, self.top + (point[1] - self.low[1]) * self.scale

    def ring(self, points: Iterable[Sequence[float]], stroke: str, fill: bool = False) -> Path:
        """Return a closed line through points of the plan."""
        return Path(tuple(self.at(p) for p in points), stroke, True, "tint" if fill else "none")


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
    for wall in place["walls"]:
        shapes.append(Path((sheet.at(wall["from_mm"]), sheet.at(wall["to_mm"])), "heavy"))
        for door in wall["doors"]:
            shapes += _door(sheet, door, texts)
    legend: list[str] = []
    for number, piece in enumerate(place["pieces"], 1):
        shapes.append(sheet.ring(piece["outline_mm"], "outline", True))
        if piece["opened_mm"]:
            shapes.append(sheet.ring(piece["opened_mm"], "cut"))
        _name(sheet, piece, number, texts, legend)
    rows = _chains(place, sheet, dossier.options.sizes, width, texts)
    for row in rows:
        shapes += row.shapes
    for text in texts:
        shapes += masked(text)
    below = any(round(wall["turn_deg"] / 90.0) % 4 == 2 for wall in place["walls"])
    y = sheet.top + height + (HEAD_MM if below else FOOT_MM)
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
    return Sheet((min(xs), min(ys)), SIDE_MM, HEAD_MM + TITLE_MM, scale), deep * scale


def _aisle(sheet: Sheet, piece: Plain, walkway: float) -> list[Shape]:
    """Return the walkway in front of a piece that stands at a wall, where something may walk."""
    if piece["wall"] is None or piece["clear_in_front_mm"] is None:
        return []
    (x, y), turn = (piece["x_mm"], piece["y_mm"]), piece["turn_deg"] * pi / 180
    along, out = (cos(turn), sin(turn)), (-sin(turn), cos(turn))
    spots = [(px - x) * along[0] + (py - y) * along[1] for px, py in piece["outline_mm"]]
    ends = [(min(spots), 0.0), (max(spots), 0.0), (max(spots), walkway), (min(spots), walkway)]
    return [sheet.ring([(x + along[0] * s + out[0] * d, y + along[1] * s + out[1] * d) for s, d in ends], "kept")]


def _door(sheet: Sheet, door: Plain, texts: list[Text]) -> list[Shape]:
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
    if not any(meet(name.box(), t.box()) for t in texts):
        texts.append(name)
    return [Path((hinge, opened), "outline"), Path(arc, "thin")]


def _name(sheet: Sheet, piece: Plain, number: int, texts: list[Text], legend: list[str]) -> None:
    """Write a piece's name on it, level or upright; a number with a legend where there is no room for it."""
    x0, y0, x1, y1 = _box([sheet.at(p) for p in piece["outline_mm"]])
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    name = piece["module"] if piece["copy_number"] == 1 else f"{piece['module']} {piece['copy_number']}"
    for upright, room in ((False, x1 - x0), (True, y1 - y0)):
        text = Text(*middle, name, NAME_MM, "middle", upright)
        if text.width <= room - 1.5 and not any(meet(text.box(), t.box()) for t in texts):
            texts.append(text)
            return
    texts.append(Text(*middle, str(number), NAME_MM, "middle"))
    legend.append(f"{number}: {name}")


def _box(points: Sequence[Point]) -> Box:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _chains(place: Plain, sheet: Sheet, sizes: Sizes, width: float, texts: list[Text]) -> list[Row]:
    """Return a chain of sizes along each wall that is square to the paper, outside the room, with the wall's name."""
    rows = []
    for wall in place["walls"]:
        quarter = round(wall["turn_deg"] / 90.0)
        if abs(wall["turn_deg"] - 90.0 * quarter) > LEVEL_DEG:
            continue
        row = (_above if quarter % 2 == 0 else _beside)(place, wall, sheet, sizes, quarter % 4, texts, width)
        rows.append(row)
    return rows


def _places(place: Plain, wall: Plain, axis: int) -> list[float]:
    """Return where along a wall its ends and those of the pieces at it are, on the plan's x (0) or y (1)."""
    ends = [wall["from_mm"][axis], wall["to_mm"][axis]]
    (ax, ay), (bx, by) = wall["from_mm"], wall["to_mm"]
    length = hypot(bx - ax, by - ay) or 1.0
    for piece in place["pieces"]:
        off = [((p[0] - ax) * (by - ay) - (p[1] - ay) * (bx - ax)) / length for p in piece["outline_mm"]]
        if piece["wall"] is not None and min(abs(o) for o in off) < 60.0 + (piece["off_wall_mm"] or 0.0):
            ends += [min(p[axis] for p in piece["outline_mm"]), max(p[axis] for p in piece["outline_mm"])]
    return places_of(ends)


def _above(place: Plain, wall: Plain, sheet: Sheet, sizes: Sizes, quarter: int, texts: list[Text], width: float) -> Row:
    places = _places(place, wall, 0)
    line = sheet.at(wall["from_mm"])[1]
    down = quarter == 2
    way = 1.0 if down else -1.0
    middle = (sheet.at(wall["from_mm"])[0] + sheet.at(wall["to_mm"])[0]) / 2
    name = shortened(wall["id"], sheet.scale * (places[-1] - places[0]), NAME_MM)
    texts.append(Text(middle, line + way * WALL_TO_CHAIN_MM / 2, name, NAME_MM, "middle"))
    return level_chain(
        f"along {wall['id']}", places, sizes, lambda p: sheet.at((p, 0.0))[0], line + way * WALL_TO_CHAIN_MM,
        lambda _: line, down=down, room=(2.0, width - 2.0),
    )  # fmt: skip


def _beside(
    place: Plain, wall: Plain, sheet: Sheet, sizes: Sizes, quarter: int, texts: list[Text], width: float
) -> Row:
    places = _places(place, wall, 1)
    line = sheet.at(wall["from_mm"])[0]
    left = quarter == 3
    way = -1.0 if left else 1.0
    middle = (sheet.at(wall["from_mm"])[1] + sheet.at(wall["to_mm"])[1]) / 2
    name = shortened(wall["id"], sheet.scale * (places[-1] - places[0]), NAME_MM)
    texts.append(Text(line + way * WALL_TO_CHAIN_MM / 2, middle, name, NAME_MM, "middle", True))
    span = (sheet.at((0.0, places[0]))[1], sheet.at((0.0, places[-1]))[1])
    return upright_chain(
        f"along {wall['id']}", places, sizes, lambda p: sheet.at((0.0, p))[1], line + way * WALL_TO_CHAIN_MM,
        lambda _: line, left=left, room=(span[0], max(span[1], span[0] + 4.0)),
    )  # fmt: skip


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
