"""Things that move: lids and doors swung, drawers slid from shut to open, with all that is fixed to them.

What they run into on the way, how near they pass what (fingers), what room they take, how heavy they are to hold.
A slide is computed exactly; of a swing no clash deeper than the fit and a quarter of a millimetre can stay unseen
(swing.py). What already stands in each other when shut is told by the dry fit itself and not again.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import inf, isfinite, radians
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scantling.board import Assembly, Cushion, JointKind, Motion, Part, RoleMaterial, moving_parts
from scantling.board.frame import Frame
from scantling.board.vector import Vector

from .arcs import Arc
from .arrays import Floats, Ints, Soup, soup
from .distance import parts_distance
from .glide import Passing, glide
from .settings import DryfitSettings
from .swing import TOLERANCE_MM, pinned, swing

# EN 581-1:2017, furniture outdoors, screens gaps that a finger enters but may not leave: 7 to 12 mm; screening only
FINGER_MM = (7.0, 12.0)
REACH_MM = FINGER_MM[1] + 1.0
Wall = tuple[Vector, float]  # a normal into the room and an offset: nothing may go where n·p < offset
WALL = "wall"


@dataclass(frozen=True, slots=True)
class Gap:
    """The least gap between a part that moves and what it passes, in mm, and where along the way that is."""

    part: str
    beside: str
    gap: float
    at: float


@dataclass(frozen=True, slots=True)
class Swept:
    """What came of a motion. `free` is how far it opens, in degrees or mm from shut, before it runs into something.

    `clashes` names what it meets first, `hits` the part that does, `depth` about how deep it would go, mm.
    `narrow` are the gaps that take a finger. `low` and `high` bound the room that its parts pass through. `tolerance`
    is how deep a clash must be, over the fit, to be found for certain. `least_gap` of a swing is known to a quarter
    of a millimetre from the beginning of the finger band on; of what passes closer it tells only that it does.
    """

    motion: Motion
    parts: tuple[str, ...]
    free: float
    clashes: tuple[str, ...]
    hits: str
    depth: float
    at_mm: Vector | None
    least_gap: float
    narrow: tuple[Gap, ...]
    low: Vector
    high: Vector
    tolerance: float

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        return {
            "motion": self.motion.id,
            "kind": self.motion.kind,
            "parts": list(self.parts),
            "travel": round(self.motion.travel, 2),
            "free": round(self.free, 2),
            "clashes_with": list(self.clashes),
            "depth_mm": round(self.depth, 2),
            "at_mm": None if self.at_mm is None else [round(c, 1) for c in self.at_mm],
            "least_gap_mm": round(self.least_gap, 2) if isfinite(self.least_gap) else None,
            "finger_gaps": [
                {"part": g.part, "beside": g.beside, "gap_mm": round(g.gap, 2), "at": round(g.at, 2)}
                for g in self.narrow
            ],
            "low_mm": [round(c, 1) for c in self.low],
            "high_mm": [round(c, 1) for c in self.high],
            "held_by": self.motion.held_by,
            "tolerance_mm": round(self.tolerance, 2),
        }


@dataclass(frozen=True, slots=True)
class _Way:
    """A motion as arithmetic: what it carries, and how far, in radians or mm, always forwards from 0."""

    motion: Motion
    body: Soup
    axis: Floats
    point: Floats
    length: float

    @classmethod
    def of(cls, motion: Motion, body: Soup, travel: float) -> "_Way":
        axis = np.array(motion.axis) * (1.0 if travel > 0 else -1.0)
        return cls(
            motion, body, axis, np.array(motion.point), radians(abs(travel)) if motion.kind == "swing" else abs(travel)
        )

    def least(self, direction: Floats) -> Floats:
        """Return the least height of every cell along a direction on the whole way, (cells,)."""
        found = np.empty(len(self.body.cells))
        for i, block in enumerate(self.body.blocks):
            mine = self.body.block_of == i
            if not mine.any():
                continue
            if self.motion.kind == "swing":
                arc = Arc.of(block.corners, self.axis, self.point)
                heights = arc.least(direction, np.zeros(1), np.full(1, self.length))
            else:
                heights = block.corners @ direction + min(0.0, float(self.axis @ direction) * self.length)
            found[mine] = heights.min(axis=1)[self.body.row_of[mine]]
        return found

    def pass_by(self, still: Soup, pairs: tuple[Ints, Ints], fit: float) -> Passing:
        """Carry the parts past what stands still."""
        if self.motion.kind == "slide":
            return glide(self.body, still, *pairs, self.axis, self.length, fit)
        return swing(self.body, still, pairs, (self.axis, self.point), self.length, fit, FINGER_MM)

    def place(self, part: Part, at: float) -> Part:
        """Return a part where it is at a place of the way."""
        copy = part.copied(part.id, (0.0, 0.0, 0.0))
        x, y, z = (float(v) for v in self.axis)
        if self.motion.kind == "swing":
            return copy.turn((x, y, z), float(np.degrees(at)), self.motion.point)
        return copy.shift((x * at, y * at, z * at))

    def told(self, at: float) -> float:
        """Return a place of the way in degrees or mm, with the sign of the travel."""
        size = float(np.degrees(at)) if self.motion.kind == "swing" else at
        return size if self.motion.travel > 0 else -size


def sweep(
    assembly: Assembly,
    motion: Motion,
    settings: DryfitSettings,
    walls: Sequence[Wall] = (),
    neighbours: Mapping[str, Sequence[Part]] | None = None,
    *,
    beyond: float = 0.0,
) -> Swept:
    """Carry what moves from shut to open (and `beyond`, degrees or mm) and return what it meets first.

    `walls` and `neighbours` (parts by the name of their piece) stand in the piece's own frame. Raises KeyError for a
    part that is not there.
    """
    ids = moving_parts(assembly.parts, assembly.joints.values(), motion)
    others = [(p.id, p) for p in assembly.parts.values() if p.id not in ids]
    others += [(name, part) for name, row in (neighbours or {}).items() for part in row]
    carried = [assembly.parts[p] for p in dict.fromkeys((*ids, *motion.parts))]
    carried += [as_part(c) for c in assembly.cushions if c.id in motion.cushions]
    travel = motion.travel + (beyond if motion.travel > 0 else -beyond)
    way = _Way.of(motion, soup(carried), travel)
    still = soup([p for _, p in others])
    low, high = _room(way)
    pairs = _near(way, still, low, high)
    found = way.pass_by(still, pairs, settings.fit)
    names = [name for name, _ in others]
    shut = _shut(way.body, still, pairs, found)
    wall, wall_at = _walls(way, walls, settings.fit)
    first = float(min(np.where(shut, np.inf, found.starts).min(initial=inf), wall))
    box = _box(low, high)
    tolerance = TOLERANCE_MM / 2 if motion.kind == "swing" else 0.0
    if first == inf:
        filled = {frozenset(j.parts) for j in assembly.joints.values() if j.kind is JointKind.SLIDING}
        narrow = _narrow(way, still, names, pairs, found, filled)
        least = float(found.least.min(initial=inf)) if not shut.any() else 0.0
        least = least if least < FINGER_MM[1] else inf  # further off it was not measured
        return Swept(motion, ids, way.told(way.length), (), "", 0.0, None, max(0.0, least), narrow, *box, tolerance)
    if wall <= first:
        return Swept(motion, ids, way.told(first), (WALL,), ids[0], 0.0, wall_at, inf, (), *box, tolerance)
    k = int(np.where(shut, np.inf, found.starts).argmin())
    mover, met = int(way.body.part_of[pairs[0][k]]), int(still.part_of[pairs[1][k]])
    depth = float(found.depth[k])
    if motion.kind == "swing":
        pair = (int(pairs[0][k]), int(pairs[1][k]))
        first, depth = pinned(way.body, still, pair, (way.axis, way.point), first, way.length, settings.fit)
    _, place = parts_distance(way.place(carried[mover], first), others[met][1])
    return Swept(motion, ids, way.told(first), (names[met],), carried[mover].id, depth, place, inf, (),
                 *box, tolerance)  # fmt: skip


def room_of(assembly: Assembly, motion: Motion) -> tuple[Vector, Vector]:
    """Return the box that what moves stays in from shut to open, exactly: least and greatest corner, mm."""
    ids = moving_parts(assembly.parts, assembly.joints.values(), motion)
    carried = [assembly.parts[p] for p in ids] + [as_part(c) for c in assembly.cushions if c.id in motion.cushions]
    return _box(*_room(_Way.of(motion, soup(carried), motion.travel)))


def _box(low: Floats, high: Floats) -> tuple[Vector, Vector]:
    floor, top = low.min(axis=0), high.max(axis=0)
    return (float(floor[0]), float(floor[1]), float(floor[2])), (float(top[0]), float(top[1]), float(top[2]))


def as_part(cushion: Cushion) -> Part:
    """Return a cushion as a block, so that it can be carried along."""
    foam = RoleMaterial("cushion", "cushion", cushion.thickness, cushion.thickness, cushion.thickness, False, 0.0)
    frame = Frame(cushion.origin)
    return Part(cushion.id, cushion.id, foam, cushion.width, cushion.depth, cushion.thickness, frame)


def _room(way: _Way) -> tuple[Floats, Floats]:
    """Return the boxes that the cells stay in on the whole way, exactly: least and greatest corners (cells, 3)."""
    unit = np.eye(3)
    low = np.stack([way.least(unit[k]) for k in range(3)], axis=1)
    high = np.stack([-way.least(-unit[k]) for k in range(3)], axis=1)
    return low, high


def _near(way: _Way, still: Soup, low: Floats, high: Floats) -> tuple[Ints, Ints]:
    """Return the pairs of cells that come within reach of each other's boxes on the way."""
    meets = np.ones((len(way.body.cells), len(still.cells)), dtype=bool)
    for k in range(3):
        meets &= low[:, None, k] <= still.high[None, :, k] + REACH_MM
        meets &= still.low[None, :, k] <= high[:, None, k] + REACH_MM
    a, b = np.nonzero(meets)
    return a, b


def _shut(body: Soup, still: Soup, pairs: tuple[Ints, Ints], found: Passing) -> NDArray[np.bool_]:
    """Return which pairs are of parts that stand in each other already when shut."""
    mover, met = body.part_of[pairs[0]], still.part_of[pairs[1]]
    told = {(int(mover[k]), int(met[k])) for k in np.flatnonzero(found.starts == 0.0)}
    return np.array([(int(i), int(j)) in told for i, j in zip(mover, met, strict=True)], dtype=bool)


def _walls(way: _Way, walls: Sequence[Wall], fit: float) -> tuple[float, Vector | None]:
    """Return where on the way something first stands in a wall, exactly, and which place that is."""
    first, where = inf, None
    for normal, offset in walls:
        n = np.array(normal)
        for block in way.body.blocks:
            points = block.corners.reshape(-1, 3)
            if not block.normals.shape[0]:
                continue
            at = _reaches(way, points, n, offset - fit)
            k = int(at.argmin())
            if at[k] < first:
                arc = Arc.of(points[k : k + 1], way.axis, way.point)
                moved = arc.at(at[k : k + 1])[0] if way.motion.kind == "swing" else points[k] + way.axis * at[k]
                first, where = float(at[k]), (float(moved[0]), float(moved[1]), float(moved[2]))
    return first, where


def _reaches(way: _Way, points: Floats, normal: Floats, level: float) -> Floats:
    """Return where on the way each point first sinks below a level along a normal; infinite where it never does."""
    if way.motion.kind == "slide":
        height, speed = points @ normal, float(way.axis @ normal)
        at = np.where(height < level, 0.0, np.inf)
        if speed < 0:
            at = np.minimum(at, np.maximum(0.0, (height - level) / -speed))
        return np.where(at <= way.length, at, np.inf)
    arc = Arc.of(points, way.axis, way.point)
    k, a, b = arc.centre @ normal, arc.arm @ normal, arc.quarter @ normal
    size, top = np.hypot(a, b), np.arctan2(b, a)
    with np.errstate(divide="ignore", invalid="ignore"):
        opened = np.arccos((level - k) / size)  # the angle from its top at which it comes down to the level
    at = np.mod(top + opened, 2 * np.pi)
    at = np.where(k + a < level, 0.0, np.where(np.isnan(at), np.inf, at))
    return np.where(at <= way.length, at, np.inf)


def _narrow(
    way: _Way, still: Soup, names: list[str], pairs: tuple[Ints, Ints], found: Passing, filled: set[frozenset[str]]
) -> tuple[Gap, ...]:
    """Return the gaps that take a finger, the exact distance at the place where the lower bound of it is least.

    `filled` are pairs of parts with a runner between them: no finger goes in there, nor where a third part is near.
    """
    nearest: dict[tuple[int, int], int] = {}
    for k in range(found.least.size):
        key = (int(way.body.part_of[pairs[0][k]]), int(still.part_of[pairs[1][k]]))
        if key not in nearest or found.least[k] < found.least[nearest[key]]:
            nearest[key] = k
    gaps = []
    for (mover, met), k in nearest.items():
        part = way.body.parts[mover]
        if frozenset((part.id, names[met])) not in filled and FINGER_MM[0] < found.least[k] < FINGER_MM[1]:
            at = float(found.least_at[k])
            gap, middle = parts_distance(way.place(part, at), still.parts[met])
            if FINGER_MM[0] < gap < FINGER_MM[1] and not _crowded(way, still, middle, at, mover, met):
                gaps.append(Gap(part.id, names[met], gap, way.told(at)))
    return tuple(sorted(gaps, key=lambda g: (g.gap, g.part, g.beside)))


def _crowded(way: _Way, still: Soup, point: Vector, at: float, mover: int, met: int) -> bool:
    """Whether a third part stands so near a point, when the motion has come so far, that no finger goes in there."""
    others = [p for k, p in enumerate(still.parts) if k != met]
    others += [way.place(p, at) for k, p in enumerate(way.body.parts) if k != mover]
    near = FINGER_MM[0] / 2
    return any(all(f.plane.height(point) < near for f in c.faces) for p in others for c in p.cells())
