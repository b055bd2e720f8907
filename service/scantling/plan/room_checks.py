"""What stands in what's way: pieces in each other, walkways, lids, drawers and doors that need room to open."""

from collections.abc import Sequence
from dataclasses import replace
from math import inf

from scantling.findings import Finding
from scantling.mechanics.figures import figure
from scantling.mechanics.floor_plan import Outline, clear_in_front, overlap_depth
from scantling.mechanics.notice import notice
from scantling.mechanics.place import check_walkway

from .arrangement import FLUSH_MM, Arrangement
from .footprint import Opened, opened_of
from .poses import Stood
from .room import Room

NICHE_MM = 150.0  # what is left in front of a piece that fills its niche is no walkway; practice
LOW_MM = 550.0  # what is no taller and is lifted by one is moved aside with a foot; practice
ENDLESS = 1e6


def overlap_findings(arrangement: Arrangement) -> list[Finding]:
    """Say which two pieces stand in each other, by how much; a chair may stand under a table."""
    found = []
    standing = list(arrangement.stood)
    for i, one in enumerate(standing):
        for other in standing[i + 1 :]:
            if one.assembly.hung_by or other.assembly.hung_by:
                continue  # what hangs on a wall takes no floor
            deep = 0.0 if overlap_depth(one.outline, other.outline) <= FLUSH_MM else _in_each_other(one, other)
            if deep > FLUSH_MM:
                text = f"{one.name} and {other.name} stand {deep:.0f} mm in each other."
                said = notice("stands-in-another", text, value=deep, limit=0.0, unit="mm", source="geometry")
                found.append(replace(said, parts=(one.name, other.name)))
    return found


def _in_each_other(one: Stood, other: Stood) -> float:
    """Return how deep the parts of two pieces stand in each other, those that meet in height alone, mm."""
    mine, theirs = one.parts_on_plan(), other.parts_on_plan()
    return max(
        (
            overlap_depth(outline, across)
            for outline, low, high in mine
            for across, floor, top in theirs
            if low < top - FLUSH_MM and floor < high - FLUSH_MM
        ),
        default=0.0,
    )


def clear_fronts(arrangement: Arrangement, room: Room) -> list[tuple[float, str]]:
    """Return, for each piece, how far it is to what stands in front of it, mm (inf where nothing does), and what."""
    return [_clear(stood, arrangement, room) for stood in arrangement.stood]


def _clear(stood: Stood, arrangement: Arrangement, room: Room) -> tuple[float, str]:
    if stood.stand.corner and stood.left is not None:
        return inf, ""  # its neighbour stands against its front
    front = (stood.corner(False, False), stood.corner(True, False))
    nearest = (inf, "")
    for other in arrangement.stood:
        if other is stood or _moved_aside(other):
            continue
        nearest = min(nearest, (clear_in_front(front, other.outline), other.name))
    for name, outline in (*_edges(room), *_behind_walls(arrangement)):
        nearest = min(nearest, (clear_in_front(front, outline), name))
    return nearest


def _moved_aside(other: Stood) -> bool:
    """Whether a piece is so low and light that it is pushed out of the way."""
    height = other.assembly.bounds()[1][2] - other.assembly.bounds()[0][2]
    return height <= LOW_MM and other.assembly.mass_and_centre()[0] <= figure("lift-one-person").value


def _edges(room: Room) -> list[tuple[str, Outline]]:
    """Return what lies outside the place where its width and depth are given."""
    far = ENDLESS
    found: list[tuple[str, Outline]] = []
    if room.depth is not None:
        found.append(("the far edge of the place", ((-far, room.depth), (far, room.depth), (far, far), (-far, far))))
    if room.width is not None:
        found.append(("the left edge of the place", ((-far, -far), (0.0, -far), (0.0, far), (-far, far))))
        wide = room.width
        found.append(("the right edge of the place", ((wide, -far), (far, -far), (far, far), (wide, far))))
    return found


def _behind_walls(arrangement: Arrangement) -> list[tuple[str, Outline]]:
    """Return every wall with a strip of the house behind it."""
    found: list[tuple[str, Outline]] = []
    for line in arrangement.lines:
        (ax, ay), (bx, by), (ox, oy) = line.at, line.end, line.out
        deep = 100.0
        found.append(
            (line.wall.id, ((ax, ay), (bx, by), (bx - ox * deep, by - oy * deep), (ax - ox * deep, ay - oy * deep)))
        )
    return found


def walkway_findings(arrangement: Arrangement, room: Room, fronts: Sequence[tuple[float, str]]) -> list[Finding]:
    """Say in front of which pieces less is left than is wanted to walk."""
    found: list[Finding] = []
    for stood, (left, what) in zip(arrangement.stood, fronts, strict=True):
        if left == inf or (left <= NICHE_MM and room.walkway is None):
            continue
        if room.walkway is None:
            found += [
                replace(f, message=f"In front of {stood.name}, to {what}: {f.message}", parts=(stood.name,))
                for f in check_walkway("walkway-secondary", left).findings()
            ]
        elif left < room.walkway - FLUSH_MM:
            text = f"In front of {stood.name} {left:.0f} mm are left to {what}; {room.walkway:.0f} mm were asked for."
            found.append(_said("walkway-narrow", stood, text, left, room.walkway))
    return found


def _said(code: str, stood: Stood, text: str, value: float, limit: float) -> Finding:
    return notice(code, text, parts=(stood.name,), value=value, limit=limit, unit="mm", source="geometry")


def opening_findings(
    arrangement: Arrangement, room: Room, fronts: Sequence[tuple[float, str]], opened: Sequence[Opened]
) -> list[Finding]:
    """Say which lids have no room behind or above, and which doors and drawers none in front."""
    found = []
    for stood, (clear, what), wide in zip(arrangement.stood, fronts, opened, strict=True):
        if wide.front > clear + FLUSH_MM:
            text = (
                f"The {wide.what} of {stood.name} needs {wide.front:.0f} mm to open and has {clear:.0f} mm to {what}."
            )
            found.append(_said("opening-blocked", stood, text, clear, wide.front))
        behind = _behind(stood, arrangement)
        if wide.behind > behind + FLUSH_MM:
            text = (
                f"The open lid of {stood.name} reaches {wide.behind:.0f} mm behind it; the wall is {behind:.0f} mm off."
            )
            found.append(_said("lid-hits-wall", stood, text, behind, wide.behind))
        if room.ceiling is not None and wide.up > room.ceiling:
            text = f"The open lid of {stood.name} stands {wide.up:.0f} mm high under {room.ceiling:.0f} mm."
            found.append(_said("lid-hits-wall", stood, text, wide.up, room.ceiling))
    return found


def _behind(stood: Stood, arrangement: Arrangement) -> float:
    """Return how far the back of a piece is from the nearest wall straight behind it; inf where none is."""
    back = (stood.corner(True, True), stood.corner(False, True))
    return min((clear_in_front(back, outline) for _, outline in _behind_walls(arrangement)), default=inf)


def opened_pieces(arrangement: Arrangement) -> list[Opened]:
    """Return how far each piece reaches out when all that opens is open."""
    known = {id(s.assembly): opened_of(s.assembly) for s in arrangement.stood}
    return [known[id(s.assembly)] for s in arrangement.stood]
