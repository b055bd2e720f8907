"""The joints between neighbours: holes that line up, bolts long enough, room for their nuts, fronts and tops flush."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import dist

from scantling.board import Assembly, Hole, JointKind, Part, ray_through
from scantling.board.vector import Vector, add, dot, scale
from scantling.findings import Finding
from scantling.mechanics.bolts import Bolt, bolt_play, bolt_size, bolt_through, check_bolt
from scantling.mechanics.notice import notice

from .arrangement import Arrangement
from .poses import Stood

TOUCH_MM = 1.0  # how near a hole's mouth lies to the side of the piece that meets its neighbour
PAIR_MM = 60.0  # holes farther apart than this were never meant for each other; practice
ROOM_MM = 25.0  # a head or nut, its washer and a spanner; practice
SPANNER_MM = 10.0  # half across the corners of what is turned, with its washer; practice
FRONT, RIGHT, LEFT = ("y", 0), ("x", 1), ("x", 0)
Side = tuple[str, int]


@dataclass(frozen=True, slots=True)
class BoltHole:
    """A bolt hole that opens at a side of a piece: its part, its mouth and its inner end in the piece, its size, mm."""

    part: Part
    mouth: Vector
    inner: Vector
    diameter: float


@dataclass(frozen=True, slots=True)
class Beside:
    """Two pieces that stand flush beside each other, by place in the list, with the sides that meet and their holes."""

    left: int
    right: int
    sides: tuple[Side, Side]
    holes: tuple[tuple[BoltHole, ...], tuple[BoltHole, ...]]
    pairs: tuple[tuple[BoltHole, BoltHole, float], ...]


@dataclass(frozen=True, slots=True)
class PlaceJoint:
    """A joint made at the place: the two pieces, the parts bolted, how many bolts of which size and length."""

    between: tuple[str, str]
    places: tuple[int, int]
    parts: tuple[str, ...]
    count: int
    size: str
    bolt: Bolt | None
    stack: float
    heights: tuple[float, ...]
    apart: float


def beside_of(arrangement: Arrangement) -> list[Beside]:
    """Return every two pieces that stand flush beside each other, left one first, with the bolt holes between them."""
    found = []
    for k, stood in enumerate(arrangement.stood):
        if stood.left is None:
            continue
        other = arrangement.stood[stood.left]
        sides = (RIGHT, FRONT if stood.stand.corner else LEFT)
        holes = (holes_at(other.assembly, sides[0]), holes_at(stood.assembly, sides[1]))
        found.append(Beside(stood.left, k, sides, holes, _pairs(other, stood, holes)))
    return found


def holes_at(assembly: Assembly, side: Side) -> tuple[BoltHole, ...]:
    """Return the bolt holes that open at a side of a piece; holes of the piece's own bolted joints are left out."""
    axis = "xy".index(side[0])
    level = assembly.bounds()[side[1]][axis]
    own = {id for j in assembly.joints.values() if j.kind is JointKind.BOLTED for id in j.parts}
    found = []
    for part in assembly.parts.values():
        if part.id in own or abs(part.frame.through[axis]) < 0.999:
            continue
        for cut in part.cuts:
            if isinstance(cut, Hole) and cut.purpose == "bolt" and cut.depth is None:
                ends = [part.frame.point((cut.x, cut.y, z)) for z in (0.0, part.thickness)]
                mouth, inner = sorted(ends, key=lambda p: abs(p[axis] - level))
                if abs(mouth[axis] - level) <= TOUCH_MM:
                    found.append(BoltHole(part, mouth, inner, cut.diameter))
    return tuple(found)


def _on_plan(stood: Stood, point: Vector) -> Vector:
    x, y = stood.pose.point(point[0], point[1])
    return (x, y, point[2])


def _pairs(
    left: Stood, right: Stood, holes: tuple[Sequence[BoltHole], Sequence[BoltHole]]
) -> tuple[tuple[BoltHole, BoltHole, float], ...]:
    """Return the holes of two neighbours that belong to each other, nearest first, and how far apart their axes lie."""
    along = (*left.pose.along, 0.0)
    spots = sorted(
        (_axes_apart(_on_plan(left, a.mouth), _on_plan(right, b.mouth), along), i, j)
        for i, a in enumerate(holes[0])
        for j, b in enumerate(holes[1])
    )
    used: tuple[set[int], set[int]] = (set(), set())
    found = []
    for apart, i, j in spots:
        if apart <= PAIR_MM and i not in used[0] and j not in used[1]:
            used[0].add(i)
            used[1].add(j)
            found.append((holes[0][i], holes[1][j], apart))
    return tuple(found)


def _axes_apart(a: Vector, b: Vector, along: Vector) -> float:
    away = (b[0] - a[0], b[1] - a[1], b[2] - a[2])
    return dist(away, scale(along, dot(away, along)))


def joint_of(arrangement: Arrangement, beside: Beside) -> PlaceJoint | None:
    """Return the joint two neighbours make with their bolt holes; None where no two holes belong to each other."""
    if not beside.pairs:
        return None
    left, right = arrangement.stood[beside.left], arrangement.stood[beside.right]
    first = beside.pairs[0]
    stack = max(a.part.thickness + b.part.thickness for a, b, _ in beside.pairs)
    size = bolt_size(first[0].diameter) or ""
    parts = tuple(
        dict.fromkeys(f"{s.name}: {h.part.id}" for a, b, _ in beside.pairs for s, h in ((left, a), (right, b)))
    )
    heights = tuple(sorted(round(a.mouth[2], 2) for a, _, _ in beside.pairs))
    bolt = bolt_through(size, stack) if size else None
    apart = max(apart for _, _, apart in beside.pairs)
    return PlaceJoint(
        (left.name, right.name),
        (beside.left, beside.right),
        parts,
        len(beside.pairs),
        size,
        bolt,
        stack,
        heights,
        apart,
    )


def joint_findings(arrangement: Arrangement, beside: Beside, joint: PlaceJoint | None) -> list[Finding]:
    """Say where holes do not line up or are missing, no bolt is sold, or a nut has no room."""
    left, right = arrangement.stood[beside.left], arrangement.stood[beside.right]
    names = (left.name, right.name)
    found: list[Finding] = []
    lone = [(s, len(h) - len(beside.pairs)) for s, h in zip((left, right), beside.holes, strict=True)]
    for (stood, count), other in zip(lone, (right, left), strict=True):
        if count > 0:
            text = f"{stood.name} has {count} bolt holes towards {other.name}, which has none on those lines."
            found.append(notice("joint-holes-missing", text, parts=names, value=float(count), limit=0.0))
    if joint is None:
        return found
    title = f"{left.name} to {right.name}"
    if joint.size:
        play = bolt_play(joint.size, beside.pairs[0][0].diameter)
        if joint.apart > play:
            text = f"{title}: the bolt holes lie {joint.apart:.1f} mm apart; {joint.size} has {play:.1f} mm of play."
            found.append(
                notice(
                    "joint-holes-apart", text, parts=names, value=joint.apart, limit=play, unit="mm", source="geometry"
                )
            )
        found += check_bolt(title, joint.size, joint.stack, parts=names)
    else:
        text = f"{title}: a hole of {beside.pairs[0][0].diameter:.1f} mm is none for a bolt of M5 to M12."
        found.append(notice("joint-without-bolt", text, parts=names, source="ISO 273, medium series"))
    found += _room(left, [a for a, _, _ in beside.pairs], title)
    found += _room(right, [b for _, b, _ in beside.pairs], title)
    return found


def _room(stood: Stood, holes: Sequence[BoltHole], title: str) -> list[Finding]:
    """Say where another part of a piece stands in the way of a head, a nut or a spanner."""
    for hole in holes:
        inwards = scale(add(hole.inner, scale(hole.mouth, -1.0)), 1 / dist(hole.inner, hole.mouth))
        for part in stood.assembly.parts.values():
            near = (
                []
                if part is hole.part
                else [r for s in _round(hole.inner, inwards) for r in ray_through(part, s, inwards)]
            )
            room = min((max(0.0, enter) for enter, leave in near if leave > 0), default=ROOM_MM)
            if room < ROOM_MM:
                text = f"{title}: {part.id} of {stood.name} leaves {room:.0f} mm behind a bolt hole of {hole.part.id}."
                parts = (f"{stood.name}: {part.id}", f"{stood.name}: {hole.part.id}")
                return [notice("joint-without-room", text, parts=parts, value=room, limit=ROOM_MM, unit="mm")]
    return []


def _round(centre: Vector, axis: Vector) -> list[Vector]:
    """Return the middle of a bolt's end and four points round it as far as a spanner reaches; axes lie level."""
    across = (-axis[1], axis[0], 0.0)
    ways = (across, scale(across, -1.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0))
    return [centre, *(add(centre, scale(way, SPANNER_MM)) for way in ways)]


def unused_holes(pieces: Mapping[str, Assembly], used: Mapping[str, int], copies: Mapping[str, int]) -> list[Finding]:
    """Say which pieces have bolt holes towards a neighbour that nobody named; `used` counts those that found one."""
    found = []
    for id, assembly in pieces.items():
        holes = sum(len(holes_at(assembly, side)) for side in (FRONT, RIGHT, LEFT, ("y", 1))) * copies[id]
        left = holes - used.get(id, 0)
        if left > 0:
            text = f"{id} has {left} bolt holes for neighbours that were not named; no bolts for them are on the list."
            found.append(notice("bolt-holes-unused", text, parts=(id,), value=float(left), limit=0.0))
    return found
