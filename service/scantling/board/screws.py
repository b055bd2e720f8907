"""Laying out a row of screws: the patch where two parts touch, the line on it, the way through, and the length.

The length comes from the stack: long enough to bite for its role, short enough to stay inside, and one that is sold.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil

from scantling.tables import screw_gauge
from scantling.tables.screw_lengths import chosen_length, screw_window, stocked_length, stocked_lengths

from .contact import Patch, patches, ray_through, within
from .joint import ScrewRole
from .part import Part
from .vector import Vector, along, cross, dot, norm, scale, sub, unit

TOUCHING_MM = 0.05
LEVEL = 1 - 1e-9
ACROSS_MM = 5.0  # wood wanted on both sides of a row's line on every piece of a split patch: practice
ALONG_MM = 10.0  # and before the end of such a piece along the line; shorter pieces than 3 of it take no screw
INSET_MM = 45.0


@dataclass(frozen=True, slots=True)
class Spot:
    """Where one screw goes: its head on the surface, its direction, and its length and diameter in mm."""

    head: Vector
    direction: Vector
    length: float
    diameter: float


def place_screws(
    head: Part,
    into: Part,
    through: tuple[Part, ...],
    n: int | None,
    pitch: float | None,
    gauge: int,
    role: ScrewRole,
    inset: float | None,
    off: float,
    shift: float,
    length: float | None,
    head_depth: float,
    side: str | None,
    sold: Sequence[tuple[int, float]] = (),
) -> list[Spot]:
    """Return the spots of a row of screws. Raises ValueError, in words, where they cannot be placed."""
    level = _touching(through[-1] if through else head, into, side)
    patch = level[0]
    for before, after in pairwise((head, *through)):
        patch = _common(patch, _touching(before, after, None)[0])
    direction = patch.normal
    diameter = screw_gauge(gauge).diameter_mm
    spots = []
    rest = [] if through else [p for p in level[1:] if _as_thick(head, p, patch)]
    for point in _row(patch, rest, n, pitch, inset, off, shift):
        surface = _surface(head, point, direction)
        depth = _depth(into, point, direction)
        stack = dot(sub(point, surface), direction)
        chosen = length if length is not None else _length(stack, depth, gauge, role, head_depth, sold)
        spots.append(Spot(surface, direction, chosen, diameter))
    return spots


def _touching(head: Part, into: Part, side: str | None) -> list[Patch]:
    """Return the patch where two parts touch; a dado or notch splits it, so all pieces in its plane, largest first."""
    touching = [p for p in patches(head, into) if p.least_gap <= TOUCHING_MM and (side is None or p.side_a == side)]
    if not touching:
        near = patches(head, into)
        gap = f"; the nearest faces are {near[0].least_gap:.2f} mm apart" if near else ""
        raise ValueError(f"the two parts do not touch{gap}")
    largest = touching[0]
    height = dot(largest.corners[0], largest.normal)
    return [
        p for p in touching
        if dot(p.normal, largest.normal) > LEVEL and abs(dot(p.corners[0], largest.normal) - height) <= TOUCHING_MM
    ]  # fmt: skip


def _as_thick(head: Part, piece: Patch, patch: Patch) -> bool:
    """Whether a screw passes as much of the head part behind a piece of a patch: no head goes into a groove."""
    deep = [norm(sub(p.centre, _surface(head, p.centre, p.normal))) for p in (piece, patch)]
    return abs(deep[0] - deep[1]) <= TOUCHING_MM


def _common(patch: Patch, above: Patch) -> Patch:
    """Return the part of a patch that lies under another patch of the stack, so that a screw passes both."""
    corners = within(patch.corners, above.corners, above.normal)
    if not corners:
        raise ValueError(f"{above.a} does not lie over where {patch.a} meets {patch.b}")
    return replace(patch, corners=tuple(corners))


def _row(
    patch: Patch,
    rest: list[Patch],
    n: int | None,
    pitch: float | None,
    inset: float | None,
    off: float,
    shift: float,
) -> list[Vector]:
    """Return evenly spaced points on the centre line along the patch's longest edge.

    The row runs on over the other pieces of a split patch that the line crosses; a point that falls in the gap
    between two pieces moves to the nearer one.
    """
    ring = (*patch.corners, patch.corners[0])
    longest = max(pairwise(ring), key=lambda e: round(norm(sub(e[1], e[0])), 6))
    run = _forwards(unit(sub(longest[1], longest[0])))
    aside = _forwards(cross(patch.normal, run))
    us = [dot(c, aside) for c in patch.corners]
    middle_u = (max(us) + min(us)) / 2 + off
    crossed = [patch, *(p for p in rest if _spans(p, run, aside, middle_u))]
    ts = [dot(c, run) for p in crossed for c in p.corners]
    reach = max(ts) - min(ts)
    back = inset if inset is not None else min(INSET_MM, reach / 4)
    span = reach - 2 * back
    if span < 0:
        raise ValueError(f"an inset of {back:.1f} mm at both ends leaves nothing of a patch {reach:.1f} mm long")
    if n is None:
        n = 1 if span == 0 else max(2, ceil(span / pitch - 1e-9) + 1) if pitch else 2
    middle_t = (max(ts) + min(ts)) / 2 + shift
    if not min(us) < middle_u < max(us):
        raise ValueError(f"{off:.1f} mm off the centre line lies outside a patch {max(us) - min(us):.1f} mm wide")
    level = dot(patch.corners[0], patch.normal)
    places = [middle_t] if n == 1 else [middle_t - span / 2 + span * i / (n - 1) for i in range(n)]
    origin = along(along((0.0, 0.0, 0.0), patch.normal, level), aside, middle_u)
    if len(crossed) > 1:
        places = [_onto(t, [[dot(c, run) for c in p.corners] for p in crossed]) for t in places]
    return [along(origin, run, t) for t in places]


def _spans(patch: Patch, run: Vector, aside: Vector, at: float) -> bool:
    us, ts = [dot(c, aside) for c in patch.corners], [dot(c, run) for c in patch.corners]
    return min(us) + ACROSS_MM < at < max(us) - ACROSS_MM and max(ts) - min(ts) >= 3 * ALONG_MM


def _onto(t: float, pieces: list[list[float]]) -> float:
    """Return a place on the line moved, if it must be, to the nearest piece of a split patch, a little inside it."""
    moved = []
    for ts in pieces:
        inside = min(ALONG_MM, (max(ts) - min(ts)) / 2)
        moved.append(min(max(t, min(ts) + inside), max(ts) - inside))
    return min(moved, key=lambda m: abs(m - t))


def _forwards(direction: Vector) -> Vector:
    """Return a direction or its opposite, whichever runs right, back or up along the axis it follows most."""
    lead = max(direction, key=lambda c: round(abs(c), 9))
    return direction if lead > 0 else scale(direction, -1.0)


def _surface(head: Part, point: Vector, direction: Vector) -> Vector:
    """Return where a line backwards from the patch leaves the head part: that is where the screw's head sits."""
    behind = [s for s in ray_through(head, point, direction) if s[0] < -1e-6]
    if not behind:
        raise ValueError(f"no way back through {head.id} from where it touches")
    return along(point, direction, max(behind)[0])


def _depth(into: Part, point: Vector, direction: Vector) -> float:
    """Return how much wood lies ahead in the part that holds the point, in mm."""
    ahead = [s for s in ray_through(into, point, direction) if s[1] > TOUCHING_MM and s[0] < 1.0]
    if not ahead:
        raise ValueError(f"nothing of {into.id} lies ahead of the screw")
    return min(ahead)[1]


def _length(
    stack: float,
    depth: float,
    gauge: int,
    role: ScrewRole,
    head_depth: float,
    sold: Sequence[tuple[int, float]],
) -> float:
    """Return the stocked length for a role: one that the caller's shop sells where one suits, else a usual one.

    Where no stocked screw pulls up as it should, the longest that stays inside is taken if its point still bites: the
    fastener check then says that the bite is slight.
    """
    window = screw_window(stack, depth, gauge, role.value, head_depth)
    on_sale = chosen_length(window, [length for one, length in sold if one == gauge])
    if on_sale is not None:
        return on_sale
    screw = stocked_length(window, gauge)
    if screw is None and role is ScrewRole.CLAMPS:
        biting = stocked_lengths(screw_window(stack, depth, gauge, ScrewRole.LOCATES.value, head_depth), gauge)
        screw = biting[-1] if biting else None
    if screw is None:
        raise ValueError(
            f"no stocked #{gauge} screw suits: through {stack:.1f} mm into {depth:.1f} mm of wood it must be"
            f" {window.shortest_mm:.1f} to {window.longest_mm:.1f} mm long"
        )
    return screw.length_mm
