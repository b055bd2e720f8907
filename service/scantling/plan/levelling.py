"""A floor that falls: how far each foot of a piece comes up, or is trimmed, for the set to stand level."""

from collections.abc import Sequence

from scantling.findings import Finding
from scantling.mechanics.notice import notice

from .arrangement import Arrangement
from .footprint import feet_of
from .poses import Stood

FELT_MM = 2.0  # less fall under a piece nobody sees or feels; practice
CORNERS = ("front left", "front right", "back right", "back left")


def raised_feet(arrangement: Arrangement, fall: tuple[float, float] | None) -> list[tuple[float, ...] | None]:
    """Return how far the four feet of each piece come up, mm, in the order of CORNERS; None where no fall is known.

    Pieces that stand flush beside each other are levelled as one: from the highest foot of them all.
    """
    if fall is None:
        return [None] * len(arrangement.stood)
    low = [tuple(x * fall[0] + y * fall[1] for x, y in _feet(s)) for s in arrangement.stood]
    highest = {}
    for k, group in enumerate(_sets(arrangement)):
        highest[k] = min(min(low[i]) for i in group)
    return [
        None if arrangement.stood[k].assembly.hung_by else tuple(round(h - highest[k], 6) for h in heights)
        for k, heights in enumerate(low)
    ]


def _feet(stood: Stood) -> list[tuple[float, float]]:
    x0, y0, x1, y1 = feet_of(stood.assembly)
    return [stood.pose.point(x, y) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))]


def _sets(arrangement: Arrangement) -> list[list[int]]:
    """Return, for each piece, all that stand flush in one row with it."""
    mine = list(range(len(arrangement.stood)))
    for k, stood in enumerate(arrangement.stood):
        if stood.left is not None:
            old, new = mine[k], mine[stood.left]
            mine = [new if m == old else m for m in mine]
    return [[i for i, m in enumerate(mine) if m == mine[k]] for k in range(len(mine))]


def level_findings(arrangement: Arrangement, raised: Sequence[tuple[float, ...] | None]) -> list[Finding]:
    """Say by how much the feet of the set come up: one finding for all pieces, the worst foot first."""
    rows = [(max(feet), s, feet) for s, feet in zip(arrangement.stood, raised, strict=True) if feet is not None]
    moved = [row for row in rows if row[0] > FELT_MM]
    if not moved:
        return []
    most, stood, feet = max(moved, key=lambda row: row[0])
    each = "; ".join(f"{s.name} up to {m:.0f} mm" for m, s, _ in moved)
    where = f"the {CORNERS[feet.index(most)]} foot of {stood.name}"
    text = f"For the set to stand level its feet come up: {each}. The most is at {where}."
    remedy = f"Take feet that screw out {most:.0f} mm or more, pack them, or trim those at the high side by as much."
    names = tuple(s.name for _, s, _ in moved)
    return [
        notice(
            "feet-to-level", text, parts=names, value=most, limit=FELT_MM, unit="mm", source="measured", remedy=remedy
        )
    ]
