"""Lids, doors and drawers where the piece stands: swept against the walls, the ceiling and the pieces beside it."""

from collections.abc import Sequence
from dataclasses import replace

from scantling.board import Part
from scantling.board.frame import Frame
from scantling.board.vector import Vector
from scantling.dryfit import DryfitSettings, lifts, sweep
from scantling.findings import Finding, Severity
from scantling.mechanics.notice import notice

from .arrangement import Arrangement
from .poses import Pose, Stood
from .room import Room

NEAR_MM = 1500.0  # what stands further off than this no lid or door reaches
SQUARE_OPEN_DEG = 90.0  # a door that opens so far can be used: practice
PAST_MM = 1.0  # a piece that stands in a wall already is told of that elsewhere
Plane = tuple[Vector, float]


def swing_findings(arrangement: Arrangement, room: Room, said: Sequence[Finding]) -> list[Finding]:
    """Say what a lid, a door or a drawer runs into in its place; pieces of which the like was `said` are left out."""
    told = {part for f in said if f.code in ("opening-blocked", "lid-hits-wall") for part in f.parts}
    found = []
    for stood in arrangement.stood:
        if not stood.assembly.motions or stood.name in told:
            continue
        walls = [*_walls(arrangement, stood), *_ceiling(room)]
        beside = {o.name: _seen_from(stood.pose, o) for o in arrangement.stood if o is not stood and _near(stood, o)}
        for motion in stood.assembly.motions:
            swept = sweep(stood.assembly, motion, DryfitSettings(), walls, beside)
            met = swept.clashes[0] if swept.clashes else ""
            if met != "wall" and met not in beside:
                continue  # what it meets of its own piece the dry fit tells
            unit = "deg" if motion.kind == "swing" else "mm"
            sign = "°" if motion.kind == "swing" else " mm"
            text = (
                f"{motion.id} of {stood.name} opens {abs(swept.free):.0f}{sign} of {abs(motion.travel):.0f}{sign}, then"
                f" runs into {'the wall or the ceiling' if met == 'wall' else met}."
            )
            finding = notice(
                "opening-blocked", text, value=abs(swept.free), limit=abs(motion.travel), unit=unit, source="geometry"
            )
            enough = motion.kind == "swing" and not lifts(motion) and abs(swept.free) >= SQUARE_OPEN_DEG
            severity = Severity.NOTE if enough else finding.severity
            parts = (stood.name,) if met == "wall" else (stood.name, met)
            found.append(replace(finding, parts=parts, severity=severity))
    return found


def _walls(arrangement: Arrangement, stood: Stood) -> list[Plane]:
    """Return the walls as planes in the piece's own frame; those it stands in already are left out."""
    planes = []
    corners = [stood.corner(right, back) for right in (False, True) for back in (False, True)]
    for line in arrangement.lines:
        if min(line.off(c) for c in corners) < -PAST_MM:
            continue
        x, y = stood.pose.local_direction(line.out)
        away = (line.at[0] - stood.pose.at[0]) * line.out[0] + (line.at[1] - stood.pose.at[1]) * line.out[1]
        planes.append(((x, y, 0.0), away - PAST_MM))
    return planes


def _ceiling(room: Room) -> list[Plane]:
    return [] if room.ceiling is None else [((0.0, 0.0, -1.0), -room.ceiling)]


def _near(one: Stood, other: Stood) -> bool:
    """Whether two pieces stand so near that what opens out of one may reach the other."""
    ends = [[stood.corner(right, back) for right in (False, True) for back in (False, True)] for stood in (one, other)]
    return all(
        min(c[k] for c in ends[0]) - NEAR_MM < max(c[k] for c in ends[1])
        and min(c[k] for c in ends[1]) - NEAR_MM < max(c[k] for c in ends[0])
        for k in (0, 1)
    )


def _seen_from(pose: Pose, other: Stood) -> tuple[Part, ...]:
    """Return the parts of another piece in the frame of one that stands at a pose."""

    def point(p: Vector) -> Vector:
        x, y = pose.local(other.pose.point(p[0], p[1]))
        return (x, y, p[2])

    def way(v: Vector) -> Vector:
        (ax, ay), (bx, by) = other.pose.along, other.pose.back
        x, y = pose.local_direction((ax * v[0] + bx * v[1], ay * v[0] + by * v[1]))
        return (x, y, v[2])

    seen = []
    for part in other.assembly.parts.values():
        copy, f = part.copied(part.id, (0.0, 0.0, 0.0)), part.frame
        copy._place(Frame(point(f.origin), way(f.along), way(f.across), way(f.through)))
        seen.append(copy)
    return tuple(seen)
