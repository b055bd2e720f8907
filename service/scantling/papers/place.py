"""The set in its place on paper: where each piece stands, what fits, the work and the joints made there.

Where a request does not say where the pieces stand, they are drawn in a row along the back wall, to try them out.
"""

from collections.abc import Callable
from dataclasses import dataclass

from scantling.drawing.dimension import Row, Sizes, level_chain, upright_chain
from scantling.drawing.lettering import shortened, wrapped
from scantling.drawing.shapes import Drawing, DrawnChain, Path, Shape, Text, rectangle
from scantling.mechanics.figures import figure

from .dossier import Dossier, Plain
from .page import Column, Flow
from .plan_view import plan_view

SIDE_MM = 24.0
MOST_SCALE = 0.1
TITLE_MM = 4.0
NAME_MM = 3.2
NOTE_MM = 2.8


@dataclass(frozen=True, slots=True)
class Footprint:
    """What one piece covers of the floor: its name and its width and depth in mm."""

    name: str
    width: float
    depth: float


def footprints(dossier: Dossier) -> list[Footprint]:
    """Return the footprint of every single piece, copies too."""
    found = []
    for piece in dossier.pieces:
        low, high = piece.assembly.bounds()
        found += [Footprint(piece.id, high[0] - low[0], high[1] - low[1])] * piece.quantity
    return found


def in_its_place(flow: Flow, dossier: Dossier) -> None:
    """Write where the set stands, what fits, and the work that is done there."""
    flow.section("In its place", room=80)
    flow.put(place_drawing(dossier, flow.width))
    place = dossier.plan.get("place")
    if place is None:
        return
    show = dossier.options.sizes.show
    fits = [
        [
            wall["id"],
            fit["height"] + ("" if fit["measured"] else " (not measured)"),
            show(fit["run_mm"]),
            show(fit["set_mm"]),
            _left_over(fit, show),
        ]
        for wall in place["walls"]
        for fit in wall["fits"]
    ]
    if fits:
        heads = ("wall", "at height", "the run", "the set takes", "left over")
        flow.table([Column(h, 2, bold=h == "wall") for h in heads], fits)
    flow.section("Work at the place", level=1, room=30)
    for step in place["steps"]:
        flow.bullet(step, box=True)


def _left_over(fit: Plain, show: Callable[[float], str]) -> str:
    """Return the slack of a run in words; it is short where the set is longer than the run."""
    low, high = (show(s) if s >= 0 else f"{show(-s)} short" for s in (fit["slack_least_mm"], fit["slack_most_mm"]))
    return low if low == high else f"{low} to {high}"


def place_drawing(dossier: Dossier, width: float) -> Drawing:
    """Return the plan view of the place, `width` mm wide."""
    place = dossier.plan.get("place")
    return _row_drawing(dossier, width) if place is None else plan_view(dossier, place, width)


def _row_drawing(dossier: Dossier, width: float) -> Drawing:
    """Return the pieces in a row along the back wall, in the order they were asked for."""
    prints = footprints(dossier)
    place = dossier.request.get("place") or {}
    walk = figure("walkway-secondary")
    run = sum(p.width for p in prints)
    deep = max(p.depth for p in prints) + walk.si
    room = (place.get("width") or run, place.get("depth") or deep)
    scale = min(MOST_SCALE, (width - 2 * SIDE_MM) / max(run, room[0]), 120.0 / max(deep, room[1]))
    left, top = SIDE_MM, TITLE_MM * 2.6
    shapes: list[Shape] = [Text(0, TITLE_MM * 0.7, "From above: back wall at the top", TITLE_MM, bold=True)]
    wall = top + max(deep, room[1]) * scale
    shapes += _walls(left, top, room, scale, measured="width" in place or "depth" in place)
    x, edges = left, [0.0]
    for p in prints:
        shapes += _print(p, x, top, scale, walk.si)
        x += p.width * scale
        edges.append(edges[-1] + p.width)
    sizes = dossier.options.sizes
    rows = [_along(edges, sizes, left, scale, wall), _across(prints, sizes, left, top, scale)]
    chains: list[DrawnChain] = []
    for row in rows:
        shapes += row.shapes
        chains.append(row.chain)
    y = wall + 6.0 + rows[0].depth + 3.0
    words = (
        f"Dashed: walkway of {sizes.show(walk.si)} in front ({walk.source}; a room planning figure, not a rule). "
        "The pieces stand in a row in the order they were asked for: the request did not say where they stand."
    )
    for line in wrapped(words, width, NOTE_MM):
        shapes.append(Text(0, y, line, NOTE_MM))
        y += NOTE_MM * 1.4
    return Drawing(width, y, "From above, in its place", tuple(shapes), tuple(chains))


def _walls(left: float, top: float, room: tuple[float, float], scale: float, *, measured: bool) -> list[Shape]:
    wide, deep = room[0] * scale, room[1] * scale
    if measured:
        return [rectangle(left, top, wide, deep, "heavy")]
    return [Path(((left, top), (left + wide, top)), "heavy")]


def _print(p: Footprint, x: float, top: float, scale: float, walk: float) -> list[Shape]:
    wide, deep = p.width * scale, p.depth * scale
    shapes: list[Shape] = [
        rectangle(x, top + deep, wide, walk * scale, "kept"),
        rectangle(x, top, wide, deep, "outline", "tint"),
    ]
    upright = wide < Text(0, 0, p.name, NAME_MM).width + 2.0 and deep > wide
    name = shortened(p.name, (deep if upright else wide) - 1.5, NAME_MM)
    shapes.append(Text(x + wide / 2, top + deep / 2, name, NAME_MM, "middle", upright))
    return shapes


def _along(edges: list[float], sizes: Sizes, left: float, scale: float, wall: float) -> Row:
    room = (2.0, left + edges[-1] * scale + SIDE_MM - 2.0)
    return level_chain(
        "along the wall", edges, sizes, lambda p: left + p * scale, wall + 5.0, lambda _: wall, down=True, room=room
    )


def _across(prints: list[Footprint], sizes: Sizes, left: float, top: float, scale: float) -> Row:
    deep = max(p.depth for p in prints)
    span = (top, top + max(deep * scale, 4.0))
    return upright_chain(
        "depth", [0.0, deep], sizes, lambda p: top + p * scale, left - 5.0, lambda _: left, left=True, room=span
    )
