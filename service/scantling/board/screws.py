"""Laying out a row of screws: the patch where two parts touch, the line on it, the way through, and the length.

The length comes from the stack: long enough to bite for its role, short enough to stay inside, and one that is sold.
"""

from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil

from scantling.tables import screw_gauge
from scantling.tables.screw_lengths import screw_window, stocked_length, stocked_lengths

from .contact import Patch, patches, ray_through, within
from .joint import ScrewRole
from .part import Part
from .vector import Vector, along, cross, dot, norm, scale, sub, unit

TOUCHING_MM = 0.05
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
) -> list[Spot]:
    """Return the spots of a row of screws. Raises ValueError, in words, where they cannot be placed."""
    patch = _touching(through[-1] if through else head, into, side)
    for before, after in pairwise((head, *through)):
        patch = _common(patch, _touching(before, after, None))
    direction = patch.normal
    diameter = screw_gauge(gauge).diameter_mm
    spots = []
    for point in _row(patch, n, pitch, inset, off, shift):
        surface = _surface(head, point, direction)
        depth = _depth(into, point, direction)
        stack = dot(sub(point, surface), direction)
        chosen = length if length is not None else _length(stack, depth, gauge, role, head_depth)
        spots.append(Spot(surface, direction, chosen, diameter))
    return spots


def _touching(head: Part, into: Part, side: str | None) -> Patch:
    touching = [p for p in patches(head, into) if p.least_gap <= TOUCHING_MM and (side is None or p.side_a == side)]
    if not touching:
        near = patches(head, into)
        gap = f"; the nearest faces are {near[0].least_gap:.2f} mm apart" if near else ""
        raise ValueError(f"the two parts do not touch{gap}")
    return touching[0]


def _common(patch: Patch, above: Patch) -> Patch:
    """Return the part of a patch that lies under another patch of the stack, so that a screw passes both."""
    corners = within(patch.corners, above.corners, above.normal)
    if not corners:
        raise ValueError(f"{above.a} does not lie over where {patch.a} meets {patch.b}")
    return replace(patch, corners=tuple(corners))


def _row(
    patch: Patch, n: int | None, pitch: float | None, inset: float | None, off: float, shift: float
) -> list[Vector]:
    """Return evenly spaced points on the centre line along the patch's longest edge."""
    ring = (*patch.corners, patch.corners[0])
    longest = max(pairwise(ring), key=lambda e: round(norm(sub(e[1], e[0])), 6))
    run = _forwards(unit(sub(longest[1], longest[0])))
    aside = _forwards(cross(patch.normal, run))
    ts = [dot(c, run) for c in patch.corners]
    us = [dot(c, aside) for c in patch.corners]
    reach = max(ts) - min(ts)
    back = inset if inset is not None else min(INSET_MM, reach / 4)
    span = reach - 2 * back
    if span < 0:
        raise ValueError(f"an inset of {back:.1f} mm at both ends leaves nothing of a patch {reach:.1f} mm long")
    if n is None:
        n = 1 if span == 0 else max(2, ceil(span / pitch - 1e-9) + 1) if pitch else 2
    middle_t, middle_u = (max(ts) + min(ts)) / 2 + shift, (max(us) + min(us)) / 2 + off
    if not min(us) < middle_u < max(us):
        raise ValueError(f"{off:.1f} mm off the centre line lies outside a patch {max(us) - min(us):.1f} mm wide")
    level = dot(patch.corners[0], patch.normal)
    places = [middle_t] if n == 1 else [middle_t - span / 2 + span * i / (n - 1) for i in range(n)]
    origin = along(along((0.0, 0.0, 0.0), patch.normal, level), aside, middle_u)
    return [along(origin, run, t) for t in places]


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


def _length(stack: float, depth: float, gauge: int, role: ScrewRole, head_depth: float) -> float:
    """Return the stocked length for a role.

    Where no stocked screw pulls up as it should, the longest that stays inside is taken if its point still bites: the
    fastener check then says that the bite is slight.
    """
    window = screw_window(stack, depth, gauge, role.value, head_depth)
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
