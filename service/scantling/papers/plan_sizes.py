"""Sizes along the walls of a floor plan: a chain outside each wall that is square to the paper, and its name."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import hypot

from scantling.drawing.dimension import Row, Sizes, level_chain, meet, places_of, upright_chain
from scantling.drawing.lettering import shortened
from scantling.drawing.shapes import Path, Point, Text

from .dossier import Plain

NAME_MM = 3.2
WALL_TO_CHAIN_MM = 9.0
LEVEL_DEG = 3.0  # a wall turned no more than this off square is dimensioned as one


@dataclass(frozen=True, slots=True)
class Sheet:
    """Where the plan lies on the paper: its own corner, where that corner is drawn, the scale, the paper's width."""

    low: Point
    left: float
    top: float
    scale: float
    width: float

    def at(self, point: Sequence[float]) -> Point:
        """Return where a point of the plan is drawn."""
        return self.left + (point[0] - self.low[0]) * self.scale, self.top + (point[1] - self.low[1]) * self.scale

    def ring(self, points: Iterable[Sequence[float]], stroke: str, fill: bool = False) -> Path:
        """Return a closed line through points of the plan."""
        return Path(tuple(self.at(p) for p in points), stroke, True, "tint" if fill else "none")


def letters(row: Row) -> list[Text]:
    """Return the texts of a chain."""
    return [shape for shape in row.shapes if isinstance(shape, Text)]


def free(text: Text, texts: Iterable[Text], width: float) -> bool:
    """Whether a text lies on the paper and over no other."""
    box = text.box()
    return box[0] >= 0 and box[1] >= 0 and box[2] <= width and not any(meet(box, t.box()) for t in texts)


def wall_sizes(
    place: Plain, sheet: Sheet, sizes: Sizes, width: float, texts: list[Text], legend: list[str]
) -> list[Row]:
    """Return a chain for each wall it can be drawn at, outside the room; others are told in the legend.

    The names of the walls are added to `texts` where there is room, else to the legend.
    """
    rows: list[Row] = []
    taken = [*texts]
    for wall in place["walls"]:
        quarter = round(wall["turn_deg"] / 90.0)
        level = abs(wall["turn_deg"] - 90.0 * quarter) <= LEVEL_DEG
        row = (_above if quarter % 2 == 0 else _beside)(place, wall, sheet, sizes, quarter % 4, width)
        if not level or not all(free(t, taken, width) for t in letters(row)):
            length = hypot(wall["to_mm"][0] - wall["from_mm"][0], wall["to_mm"][1] - wall["from_mm"][1])
            legend.append(f"{wall['id']}: {sizes.show(length)} long, not dimensioned here")
            continue
        rows.append(row)
        taken += letters(row)
        name = _name(wall, sheet, quarter % 4)
        if name.text == wall["id"] and free(name, taken, width):
            texts.append(name)
            taken.append(name)
        else:
            legend.append(f"Along {wall['id']}: {' + '.join(row.chain.links)}")
    return rows


def _name(wall: Plain, sheet: Sheet, quarter: int) -> Text:
    (x0, y0), (x1, y1) = sheet.at(wall["from_mm"]), sheet.at(wall["to_mm"])
    out = WALL_TO_CHAIN_MM / 2 * (-1.0 if quarter in (0, 3) else 1.0)
    upright = quarter % 2 == 1
    words = shortened(wall["id"], abs(y1 - y0) if upright else abs(x1 - x0), NAME_MM)
    middle = (x0 + out, (y0 + y1) / 2) if upright else ((x0 + x1) / 2, y0 + out)
    return Text(*middle, words, NAME_MM, "middle", upright)


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


def _above(place: Plain, wall: Plain, sheet: Sheet, sizes: Sizes, quarter: int, width: float) -> Row:
    places = _places(place, wall, 0)
    line = sheet.at(wall["from_mm"])[1]
    down = quarter == 2
    way = 1.0 if down else -1.0
    return level_chain(
        f"along {wall['id']}", places, sizes, lambda p: sheet.at((p, 0.0))[0], line + way * WALL_TO_CHAIN_MM,
        lambda _: line, down=down, room=(2.0, width - 2.0),
    )  # fmt: skip


def _beside(place: Plain, wall: Plain, sheet: Sheet, sizes: Sizes, quarter: int, width: float) -> Row:
    places = _places(place, wall, 1)
    line = sheet.at(wall["from_mm"])[0]
    left = quarter == 3
    way = -1.0 if left else 1.0
    span = (sheet.at((0.0, places[0]))[1], sheet.at((0.0, places[-1]))[1])
    return upright_chain(
        f"along {wall['id']}", places, sizes, lambda p: sheet.at((0.0, p))[1], line + way * WALL_TO_CHAIN_MM,
        lambda _: line, left=left, room=(span[0], max(span[1], span[0] + 4.0)),
    )  # fmt: skip
