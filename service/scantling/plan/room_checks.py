"""What stands in what's way: pieces in each other, and lids, drawers and doors that need room to open."""

from collections.abc import Sequence
from dataclasses import replace
from math import inf

from scantling.findings import Finding
from scantling.mechanics.floor_plan import clear_in_front, overlap_depth
from scantling.mechanics.notice import notice

from .arrangement import FLUSH_MM, Arrangement
from .footprint import Opened, opened_of
from .poses import Stood
from .room import Room
from .walking import Ahead, walls_on_plan


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


def _said(code: str, stood: Stood, text: str, value: float, limit: float) -> Finding:
    return notice(code, text, parts=(stood.name,), value=value, limit=limit, unit="mm", source="geometry")


def opening_findings(
    arrangement: Arrangement, room: Room, fronts: Sequence[Ahead], opened: Sequence[Opened]
) -> list[Finding]:
    """Say which lids have no room behind or above, and which doors and drawers none in front."""
    found = []
    for stood, ahead, wide in zip(arrangement.stood, fronts, opened, strict=True):
        clear, what = ahead.clear, ahead.what
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
    back = stood.edge("back")
    return min((clear_in_front(back, outline) for _, outline in walls_on_plan(arrangement)), default=inf)


def opened_pieces(arrangement: Arrangement) -> list[Opened]:
    """Return how far each piece reaches out when all that opens is open."""
    known = {id(s.assembly): opened_of(s.assembly) for s in arrangement.stood}
    return [known[id(s.assembly)] for s in arrangement.stood]
