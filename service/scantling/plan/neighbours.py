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

    def lone(self) -> tuple[list[BoltHole], list[BoltHole]]:
        """Return the holes of the left and of the right piece that found no hole across from them."""
        met = [h for a, b, _ in self.pairs for h in (a, b)]
        left, right = ([h for h in holes if not any(h is m for m in met)] for holes in self.holes)
        return left, right


@dataclass(frozen=True, slots=True)
class Bored:
    """A hole of one neighbour that the other is bored through from: the part it goes through there, and how thick."""

    hole: BoltHole
    part: Part
    thickness: float


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
    bored: int = 0


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
    """Return the joint two neighbours make with their bolt holes; None where there is nothing to bolt.

    Where only one of them has a hole, the other is bored through from it at the place.
    """
    left, right = arrangement.stood[beside.left], arrangement.stood[beside.right]
    bored = [(left, b) for b in bored_through(left, right, beside.lone()[0])]
    bored += [(right, b) for b in bored_through(right, left, beside.lone()[1])]
    through = [(a, a.part.thickness + b.part.thickness, left, b.part, right) for a, b, _ in beside.pairs]
    through += [
        (b.hole, b.hole.part.thickness + b.thickness, of, b.part, right if of is left else left) for of, b in bored
    ]
    if not through:
        return None
    stack = max(row[1] for row in through)
    size = bolt_size(through[0][0].diameter) or ""
    parts = tuple(
        dict.fromkeys(n for h, _, s, p, o in through for n in (f"{s.name}: {h.part.id}", f"{o.name}: {p.id}"))
    )
    return PlaceJoint(
        (left.name, right.name), (beside.left, beside.right), parts, len(through), size,
        bolt_through(size, stack) if size else None, stack, tuple(sorted(round(row[0].mouth[2], 2) for row in through)),
        max((apart for _, _, apart in beside.pairs), default=0.0), len(bored),
    )  # fmt: skip


def bored_through(of: Stood, other: Stood, holes: Sequence[BoltHole]) -> list[Bored]:
    """Return the holes of a piece whose neighbour has wood across from them, to be bored through."""
    found = []
    for hole in holes:
        x, y, z = _on_plan(of, hole.mouth)
        mouth = other.pose.local((x, y))
        towards = other.pose.local_direction(_level(of, hole))
        for part in other.assembly.parts.values():
            hits = ray_through(part, (mouth[0], mouth[1], z), (towards[0], towards[1], 0.0))
            thick = next((leave - enter for enter, leave in hits if abs(enter) <= TOUCH_MM), None)
            if thick is not None:
                found.append(Bored(hole, part, thick))
                break
    return found


def _level(stood: Stood, hole: BoltHole) -> tuple[float, float]:
    """Return the direction out of a hole's mouth on the plan."""
    (x1, y1, _), (x2, y2, _) = _on_plan(stood, hole.inner), _on_plan(stood, hole.mouth)
    length = dist((x1, y1), (x2, y2))
    return (x2 - x1) / length, (y2 - y1) / length


def joint_findings(arrangement: Arrangement, beside: Beside, joint: PlaceJoint | None) -> list[Finding]:
    """Say where holes do not line up or are missing, no bolt is sold, or a nut has no room."""
    left, right = arrangement.stood[beside.left], arrangement.stood[beside.right]
    names = (left.name, right.name)
    found: list[Finding] = []
    for stood, other, holes in zip((left, right), (right, left), beside.lone(), strict=True):
        if holes:
            text = f"{stood.name} has {len(holes)} bolt holes towards {other.name}, which has none on those lines."
            found.append(notice("joint-holes-missing", text, parts=names, value=float(len(holes)), limit=0.0))
    if joint is None:
        return found
    title = f"{left.name} to {right.name}"
    if joint.size:
        hole = next(h for holes in beside.holes for h in holes).diameter
        play = bolt_play(joint.size, hole)
        if joint.apart > play:
            text = f"{title}: the bolt holes lie {joint.apart:.1f} mm apart; {joint.size} has {play:.1f} mm of play."
            found.append(
                notice(
                    "joint-holes-apart", text, parts=names, value=joint.apart, limit=play, unit="mm", source="geometry"
                )
            )
        found += check_bolt(title, joint.size, joint.stack, parts=names)
    else:
        text = f"{title}: their bolt holes are none for a bolt of M5 to M12."
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
