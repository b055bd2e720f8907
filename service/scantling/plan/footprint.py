"""What a piece covers of the floor: its outline with its lean, its span at a height, its feet, and what opens."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import cos, inf, radians, sin

from scantling.board import Assembly, Joint, JointKind, Part
from scantling.dryfit import lifts, room_of
from scantling.mechanics.floor_plan import Outline

from .standing import hull

# The bands a wall is measured in, mm above the floor: at the floor, about a seat, and from there up; practice.
BANDS = {"floor": (0.0, 200.0), "seat": (200.0, 550.0), "back": (550.0, inf)}
PAST_UPRIGHT_DEG = 10.0  # a lid leans back that far to stay open; practice
LID_SUPPORTS = ("lid support", "lid stay", "lid hinge")
LEVEL = 0.95  # cosine: a part whose thickness looks up this far is a lid, else a door
ON_FLOOR_MM = 0.5
LOW = -1e9


@dataclass(frozen=True, slots=True)
class Opened:
    """How far a piece reaches out when all that opens is open, mm: in front, behind and up, and what does it."""

    front: float = 0.0
    behind: float = 0.0
    up: float = 0.0
    what: str = ""
    lid: str = ""


def outline_of(assembly: Assembly) -> Outline:
    """Return the convex outline of a piece from above, with its lean, in its own x and y."""
    return tuple(
        hull([(c[0], c[1]) for part in assembly.parts.values() for cell in part.cells() for c in cell.corners])
    )


def span_at(assembly: Assembly, axis: int, low: float, high: float) -> tuple[float, float] | None:
    """Return the least and greatest x (axis 0) or y (axis 1) of a piece between two heights; None where it has none."""
    ends: list[float] = []
    for part in assembly.parts.values():
        if part.z1 < low or part.z0 > high:
            continue
        if part.z0 >= low and part.z1 <= high:
            ends += [part.bounds()[0][axis], part.bounds()[1][axis]]
            continue
        for cell in part.cells():
            ends += _between(hull([(c[axis], c[2]) for c in cell.corners]), low, high)
    return (min(ends), max(ends)) if ends else None


def _between(outline: list[tuple[float, float]], low: float, high: float) -> Iterable[float]:
    """Yield where along the level an outline (u, z) has its corners and edges between two heights."""
    for i, (u, z) in enumerate(outline):
        v, w = outline[(i + 1) % len(outline)]
        if low <= z <= high:
            yield u
        for level in (low, high):
            if min(z, w) < level < max(z, w):
                yield u + (v - u) * (level - z) / (w - z)


def stand_off(assembly: Assembly, skirting: tuple[float, float] | None, axis: int) -> float:
    """Return how far a skirting (height, depth) keeps a piece's back (axis 1) or left side (axis 0) off the wall, mm.

    A back that leans out over the skirting may stand off it anyway.
    """
    if skirting is None:
        return 0.0
    low = span_at(assembly, axis, LOW, skirting[0])
    whole = (assembly.bounds()[0][axis], assembly.bounds()[1][axis])
    if low is None:
        return 0.0
    out = whole[1] - low[1] if axis == 1 else low[0] - whole[0]
    return max(0.0, skirting[1] - out)


def feet_of(assembly: Assembly) -> tuple[float, float, float, float]:
    """Return the box of what touches the floor: least x, least y, greatest x, greatest y, mm."""
    low = assembly.bounds()[0][2]
    feet = [p for p in assembly.parts.values() if p.z0 <= low + ON_FLOOR_MM]
    corners = [c for p in feet for cell in p.cells() for c in cell.corners if c[2] <= low + ON_FLOOR_MM]
    xs, ys = [c[0] for c in corners], [c[1] for c in corners]
    return min(xs), min(ys), max(xs), max(ys)


def supports_of(assembly: Assembly) -> list[str]:
    """Return what is bought for a piece to hold its lid up."""
    return [h.what for h in assembly.hardware if any(word in h.what.casefold() for word in LID_SUPPORTS)]


def opened_of(assembly: Assembly) -> Opened:
    """Return how far lids, doors and drawers reach: what the piece says moves exactly, as far as it opens.

    Of hinges and runners that nothing is said of: a lid a little past upright, a door its width, a drawer its depth.
    """
    found = Opened()
    front, back = assembly.bounds()[0][1], assembly.bounds()[1][1]
    told: set[str] = set()
    for motion in assembly.motions:
        low, high = room_of(assembly, motion)
        lid = motion.parts[0] if motion.kind == "swing" and lifts(motion) else ""
        up = high[2] if lid else 0.0
        found = _wider(found, Opened(max(0.0, front - low[1]), max(0.0, high[1] - back), up, motion.id, lid))
        told.update(motion.parts)
    for joint in assembly.joints.values():
        if told.intersection(joint.parts):
            continue
        if joint.kind is JointKind.HINGED:
            found = _wider(found, _hinged(assembly, joint, front, back))
        elif joint.kind is JointKind.SLIDING:
            box = assembly.parts[joint.parts[0]]
            found = _wider(found, Opened(front=box.y1 - box.y0, what=box.name))
    return found


def _hinged(assembly: Assembly, joint: Joint, front: float, back: float) -> Opened:
    part, on = assembly.parts[joint.parts[0]], assembly.parts[joint.parts[1]]
    if abs(part.frame.through[2]) > LEVEL:
        return _lid(part, on, back, bool(supports_of(assembly)))
    return Opened(front=max(0.0, (part.x1 - part.x0) - (part.y0 - front)), what=part.name)


def _lid(lid: Part, on: Part, back: float, held: bool) -> Opened:
    """Return what a lid needs that is hinged on what stands under its back edge.

    Upright it stands its thickness behind its hinge; without supports that hold it there it leans on past upright.
    """
    if (on.y0 + on.y1) / 2 < (lid.y0 + lid.y1) / 2:
        return Opened(what=lid.name, lid=lid.id)  # hinged in front or at the side: not a lid against a wall
    lean = 0.0 if held else radians(PAST_UPRIGHT_DEG)
    deep = on.y1 - lid.y0
    behind = deep * sin(lean) + lid.thickness * cos(lean)
    return Opened(behind=max(0.0, on.y1 + behind - back), up=lid.z0 + deep, what=lid.name, lid=lid.id)


def _wider(a: Opened, b: Opened) -> Opened:
    what = b.what if b.front > a.front or not a.what else a.what
    return Opened(max(a.front, b.front), max(a.behind, b.behind), max(a.up, b.up), what, a.lid or b.lid)
