"""Does it go through the way in: doors, hatches and turns, upright, turned, tilted or on end."""

import math
from dataclasses import dataclass
from itertools import permutations

from .figures import figure
from .notice import notice
from .place import PlaceResult
from .validity import not_negative, positive, within


@dataclass(frozen=True, slots=True)
class Way:
    """One hole on the way in, a door, a hatch or a stair head: name, clear width and height mm.

    `turn_mm` the width of the passage behind it where one turns at once; None where it runs straight on. `inside_mm`
    the clear depth of a lift, where what goes in must fit inside; None for anything else.
    """

    name: str
    width_mm: float
    height_mm: float
    turn_mm: float | None = None
    inside_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Passage:
    """How a piece goes through one way: whether, how (upright, turned, on end, tilted), with what to spare mm."""

    way: Way
    passes: bool
    how: str
    spare_mm: float


def pass_through(width_mm: float, depth_mm: float, height_mm: float, way: Way, play_mm: float | None = None) -> Passage:
    """Return how a piece (its three outer sizes) goes through a door, hatch or turn.

    Units: mm. Valid: a box; a real sofa may do better tilted round its hollow. `play_mm` for hands, 25 mm by default.
    Raises: OutOfValidity. Source: geometry: two sizes through the hole, the third along it; round a turn the third
    must fit the diagonal room of the passage.
    """
    play = figure("door-play").si if play_mm is None else not_negative("play", play_mm, "mm")
    sizes = {
        "width": positive("width", width_mm, "mm"),
        "depth": positive("depth", depth_mm, "mm"),
        "height": positive("height", height_mm, "mm"),
    }
    hole = (positive("clear width", way.width_mm, "mm"), positive("clear height", way.height_mm, "mm"))
    best: tuple[float, str] | None = None
    for across, up, along in permutations(sizes):
        spare = min(hole[0] - sizes[across], hole[1] - sizes[up]) - play
        if way.turn_mm is not None and sizes[along] > turn_length(way.width_mm, way.turn_mm, sizes[across]):
            continue
        if way.inside_mm is not None and sizes[along] + play > way.inside_mm:
            continue
        how = _posture(across, up)
        if spare >= 0 and (best is None or (spare, how == "upright") > (best[0], best[1] == "upright")):
            best = (spare, how)
    if best is not None:
        upright = min(hole[0] - min(sizes["width"], sizes["depth"]), hole[1] - sizes["height"]) - play
        if upright >= 0 and way.turn_mm is None and way.inside_mm is None:
            return Passage(way, True, "upright", upright)
        return Passage(way, True, best[1], best[0])
    closest = max(min(hole[0] - sizes[a], hole[1] - sizes[u]) - play for a, u, _ in permutations(sizes))
    return Passage(way, False, "no way", closest)


def profile_width(outline_mm: tuple[tuple[float, float], ...]) -> float:
    """Return the least width of an outline seen from its end, however it is tilted; a sofa's L is less than its box.

    Units: mm. Valid: outlines by their outer corners, three or more. Raises: ValueError for fewer.
    Source: geometry: the least width of a hull lies square to one of its sides.
    """
    if len(outline_mm) < 3:
        raise ValueError("an outline has three corners or more")
    widths = []
    for (x1, y1), (x2, y2) in permutations(outline_mm, 2):
        length = math.hypot(x2 - x1, y2 - y1)
        if length == 0:
            continue
        off = [((x - x1) * (y2 - y1) - (y - y1) * (x2 - x1)) / length for x, y in outline_mm]
        if min(off) >= -1e-9:
            widths.append(max(off))
    return min(widths, default=0.0)


def sofa_outline(depth_mm: float, height_mm: float, seat_mm: float, back_mm: float) -> tuple[tuple[float, float], ...]:
    """Return the end outline of a sofa: depth, height, height of its front (seat or arm), depth of its back at the top.

    Units: mm. Valid: a front lower than the back. Raises: OutOfValidity. Source: geometry.
    """
    depth, height = positive("depth", depth_mm, "mm"), positive("height", height_mm, "mm")
    front = within("front height", seat_mm, 0, height, "mm", "the front is not higher than the back")
    top = within("depth of the back", back_mm, 0, depth, "mm", "the back is not deeper than the sofa")
    return ((0.0, 0.0), (depth, 0.0), (depth, front), (top, height), (0.0, height))


def turn_length(first_mm: float, second_mm: float, thickness_mm: float) -> float:
    """Return the longest straight piece of a thickness that turns a square corner between two passages.

    Units: mm. Valid: a flat turn; the piece thinner than both passages. Raises: OutOfValidity.
    Source: geometry of the moving ladder: ((a^(2/3) + b^(2/3))^(3/2)) for no thickness, found by search with it.
    """
    a, b = positive("first passage", first_mm, "mm"), positive("second passage", second_mm, "mm")
    t = not_negative("thickness", thickness_mm, "mm")
    if t >= min(a, b):
        return 0.0
    lengths = []
    for step in range(1, 900):
        angle = math.radians(step / 10)
        s, c = math.sin(angle), math.cos(angle)
        lengths.append((a * c + b * s - t) / (s * c))
    return max(0.0, min(lengths))


def check_way_in(
    width_mm: float,
    depth_mm: float,
    height_mm: float,
    ways: tuple[Way, ...],
    *,
    outline_mm: tuple[tuple[float, float], ...] | None = None,
    parts: tuple[str, ...] = (),
) -> PlaceResult:
    """Check whether a piece goes through every hole on its way in, as a box or tilted by its end outline.

    Units: mm. Valid: as `pass_through`; with `outline_mm` a straight way is also tried with the outline tilted.
    Raises: OutOfValidity. Source: geometry; IRC R311 and ADA sizes are presets.
    """
    found = []
    for way in ways:
        passage = pass_through(width_mm, depth_mm, height_mm, way)
        if not passage.passes and outline_mm is not None and way.turn_mm is None and way.inside_mm is None:
            spare = way.width_mm - profile_width(outline_mm) - figure("door-play").si
            if spare >= 0 and math.hypot(depth_mm, height_mm) <= way.height_mm:
                passage = Passage(way, True, "tilted by its end", spare)
        if not passage.passes:
            hole = f"{way.name} ({way.width_mm:.0f} by {way.height_mm:.0f} mm)"
            text = f"{hole}: {-passage.spare_mm:.0f} mm short, however it is turned."
            found.append(
                notice(
                    "will-not-go-in", text, parts=parts, value=-passage.spare_mm, limit=0, unit="mm", source="geometry"
                )
            )
        elif passage.how != "upright":
            text = f"{way.name}: goes through {passage.how}, {passage.spare_mm:.0f} mm to spare."
            found.append(
                notice("goes-in-tilted", text, parts=parts, value=passage.spare_mm, unit="mm", source="geometry")
            )
    return PlaceResult(tuple(found))


def _posture(across: str, up: str) -> str:
    """Return how a piece is carried, by which of its sizes goes across the hole and which stands up in it."""
    if up == "height":
        return "upright"
    if up == "width":
        return "standing on end"
    return "lying on its back" if across == "height" else "on its front edge"
