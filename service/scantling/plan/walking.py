"""Room to walk and to sit down: how far it is from each piece to what stands before it, and beside tables and beds."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import inf

from scantling.findings import Finding
from scantling.mechanics.figures import figure
from scantling.mechanics.floor_plan import Outline, clear_in_front
from scantling.mechanics.notice import notice
from scantling.mechanics.place import check_walkway

from .arrangement import FLUSH_MM, Arrangement
from .building import Built
from .poses import Edge, Stood
from .room import Room
from .sitting import under_table

NICHE_MM = 150.0  # what is left in front of a piece that fills its niche is no walkway; practice
LOW_MM = 550.0  # what is no taller is no table to sit at; what one lifts besides is moved aside with a foot; practice
ENDLESS = 1e6
WALL_MM = 100.0
# What is kept free round a piece by what it is: on which of its sides, and which published figure says so.
ROUND: Mapping[str, tuple[tuple[Edge, str], ...]] = {
    "table": (("front", "behind-diner"), ("back", "behind-diner")),
    "bed": (("left", "bed-side"), ("right", "bed-side"), ("front", "bed-foot")),
}


@dataclass(frozen=True, slots=True)
class Ahead:
    """How far it is straight ahead of a piece to the nearest thing, mm (inf where nothing known is), and what it is.

    `piece` is its place in the list where it is a piece.
    """

    clear: float = inf
    what: str = ""
    piece: int | None = None


def uses_of(pieces: Mapping[str, Built]) -> dict[str, str]:
    """Return what each piece is to somebody walking: seat, table (to sit at), low table, bed, or anything else."""
    return {id: _use(piece) for id, piece in pieces.items()}


def _use(piece: Built) -> str:
    family, assembly = piece.module.family, piece.assembly
    if family == "tables" and assembly.parts:
        low = assembly.bounds()[1][2] - assembly.bounds()[0][2] <= LOW_MM
        return "low table" if low else "table" if under_table(assembly) is not None else "other"
    return {"seating": "seat", "beds": "bed"}.get(family, "other")


def clear_fronts(arrangement: Arrangement, room: Room) -> list[Ahead]:
    """Return, for each piece, what stands in front of it; nothing for one in a corner, whose neighbour does."""
    return [
        Ahead() if stood.stand.corner and stood.left is not None else _ahead(k, "front", arrangement, room)
        for k, stood in enumerate(arrangement.stood)
    ]


def _ahead(k: int, side: Edge, arrangement: Arrangement, room: Room, leaving_out: Sequence[int] = ()) -> Ahead:
    edge = arrangement.stood[k].edge(side)
    found = [
        Ahead(clear_in_front(edge, other.outline), other.name, i)
        for i, other in enumerate(arrangement.stood)
        if i != k and i not in leaving_out and not _moved_aside(other)
    ]
    for what, outline in (*_edges(room), *walls_on_plan(arrangement)):
        found.append(Ahead(clear_in_front(edge, outline), what))
    return min(found, key=lambda a: (a.clear, a.what), default=Ahead())


def _moved_aside(other: Stood) -> bool:
    """Whether a piece is so low and light that it is pushed out of the way, or hangs over it."""
    low, high = other.assembly.bounds()
    light = other.assembly.mass_and_centre()[0] <= figure("lift-one-person").value
    return bool(other.assembly.hung_by) or (high[2] - low[2] <= LOW_MM and light)


def _edges(room: Room) -> Iterator[tuple[str, Outline]]:
    """Yield what lies outside the place where its width and depth are given."""
    far = ENDLESS
    if room.depth is not None:
        yield "the far edge of the place", ((-far, room.depth), (far, room.depth), (far, far), (-far, far))
    if room.width is not None:
        wide = room.width
        yield "the left edge of the place", ((-far, -far), (0.0, -far), (0.0, far), (-far, far))
        yield "the right edge of the place", ((wide, -far), (far, -far), (far, far), (wide, far))


def walls_on_plan(arrangement: Arrangement) -> Iterator[tuple[str, Outline]]:
    """Yield every wall with a strip of the house behind it."""
    for line in arrangement.lines:
        (ax, ay), (bx, by) = line.at, line.end
        dx, dy = line.out[0] * WALL_MM, line.out[1] * WALL_MM
        yield line.wall.id, ((ax, ay), (bx, by), (bx - dx, by - dy), (ax - dx, ay - dy))


def walkway_findings(
    arrangement: Arrangement, room: Room, fronts: Sequence[Ahead], uses: Mapping[str, str]
) -> list[Finding]:
    """Say where less is left than is wanted: to walk before a piece, behind who sits at a table, round a bed."""
    found: list[Finding] = []
    seats = [k for k, s in enumerate(arrangement.stood) if uses.get(s.stand.module) == "seat"]
    for k, (stood, ahead) in enumerate(zip(arrangement.stood, fronts, strict=True)):
        use = uses.get(stood.stand.module, "other")
        for side, kind in ROUND.get(use, ()):
            beside = _ahead(k, side, arrangement, room, seats)
            if NICHE_MM < beside.clear < inf:
                found += _narrow(kind, stood, side, beside)
        if use not in ROUND:
            found += _before(stood, ahead, room, use, uses, arrangement)
    return found


def _before(
    stood: Stood, ahead: Ahead, room: Room, use: str, uses: Mapping[str, str], arrangement: Arrangement
) -> list[Finding]:
    """Check what is left before a piece; a seat stands near its table."""
    other = None if ahead.piece is None else uses.get(arrangement.stood[ahead.piece].stand.module)
    if ahead.clear == inf or (use == "seat" and other == "table"):
        return []
    if use == "seat" and other == "low table":
        return _narrow("sofa-to-table-least", stood, "front", ahead)
    if room.walkway is None:
        return _narrow("walkway-secondary", stood, "front", ahead) if ahead.clear > NICHE_MM else []
    if ahead.clear >= room.walkway - FLUSH_MM:
        return []
    text = (
        f"In front of {stood.name} {ahead.clear:.0f} mm are left to {ahead.what}; {room.walkway:.0f} mm were asked for."
    )
    return [
        notice("walkway-narrow", text, parts=(stood.name,), value=ahead.clear, limit=room.walkway, unit="mm",
               source="asked for")
    ]  # fmt: skip


def _narrow(kind: str, stood: Stood, side: Edge, ahead: Ahead) -> list[Finding]:
    where = {"front": "In front", "back": "Behind", "left": "On the left", "right": "On the right"}[side]
    return [
        replace(f, message=f"{where} of {stood.name}, to {ahead.what}: {f.message}", parts=(stood.name,))
        for f in check_walkway(kind, ahead.clear).findings()
    ]
