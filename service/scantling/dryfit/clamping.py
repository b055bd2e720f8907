"""What clamps must reach round: the stack between the caul faces, and how far in from its edge the joint begins.

A clamp straddles all that stands along its line with no room for a jaw between, so joints that lie in one stack share
their clamps. Room for a jaw and the thickness of cauls are assumptions, said as such.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from scantling.board import Patch
from scantling.board.vector import Vector, along, cross, dot, norm, scale, sub, unit

from .scene import Scene

JAW_ROOM_MM = 40.0  # a jaw and its pad want this much room behind a face: assumed
CAUL_MM = 18.0  # cauls from the sheet most parts are of: assumed
INSET = 0.3  # how far lines lie from a patch's corners towards its middle
SHARED_MM = 1.0
LEAST_MM = 1e-3
SAME = 0.999
Stretch = tuple[float, float, int]
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Press:
    """What a clamp on one joint meets: stretches of every part on lines through it, along `axis` from the world's zero.

    `across` is the joint's own box square to the axis (least u, greatest u, least v, greatest v).
    """

    axis: Vector
    plane: float
    lines: tuple[tuple[Stretch, ...], ...]
    across: Box
    sides: tuple[Vector, Vector]


def press_of(scene: Scene, patch: Patch) -> Press:
    """Return what lies on the lines of a clamp that presses a patch."""
    axis = _upright(patch.normal)
    u = unit(cross(axis, (0.0, 0.0, 1.0) if abs(axis[2]) < SAME else (1.0, 0.0, 0.0)))
    v = cross(axis, u)
    points = [patch.centre, *(along(c, sub(patch.centre, c), INSET) for c in patch.corners)]
    us, vs = [dot(c, u) for c in patch.corners], [dot(c, v) for c in patch.corners]
    lines = tuple(tuple(_stretches(scene, p, axis)) for p in points)
    return Press(axis, dot(patch.centre, axis), lines, (min(us), max(us), min(vs), max(vs)), (u, v))


def _upright(normal: Vector) -> Vector:
    """Return one of a direction and its opposite, the same whichever is given."""
    leading = next(c for c in normal if abs(c) > LEAST_MM)
    return normal if leading > 0 else scale(normal, -1.0)


def _stretches(scene: Scene, point: Vector, axis: Vector) -> Iterable[Stretch]:
    """Yield where a line runs inside each part."""
    at = dot(point, axis)
    soup = scene.soup
    cells = np.arange(len(soup.cells))
    for which, block in soup.cells_by_block(cells):
        closing = block.normals @ np.array(axis)
        height = block.normals @ np.array(point) - block.offsets
        with np.errstate(divide="ignore", invalid="ignore"):
            crossing = -height / closing
        enter = np.where(closing < -1e-9, crossing, -np.inf).max(axis=1)
        leave = np.where(closing > 1e-9, crossing, np.inf).min(axis=1)
        beside = ((np.abs(closing) <= 1e-9) & (height > 1e-6)).any(axis=1)
        for k in np.flatnonzero((leave - enter > LEAST_MM) & ~beside):
            yield at + float(enter[k]), at + float(leave[k]), int(soup.part_of[which[k]])


def stack(press: Press, built: frozenset[int]) -> tuple[float, float]:
    """Return from where to where clamps must open to press a joint, of the parts that stand there, along its axis."""
    low, high = press.plane, press.plane
    for line in press.lines:
        begin, end = press.plane, press.plane
        standing = sorted(s for s in line if s[2] in built)
        for enter, leave, _ in standing:
            if enter <= end + JAW_ROOM_MM and leave > end and enter >= begin - JAW_ROOM_MM:
                end = max(end, leave)
        for enter, leave, _ in sorted(standing, key=lambda s: -s[1]):
            if leave >= begin - JAW_ROOM_MM and enter < begin:
                begin = enter
        low, high = min(low, begin), max(high, end)
    return low, high


def inwards(scene: Scene, press: Press, reach: tuple[float, float], built: frozenset[int]) -> float:
    """Return how far in from the nearest edge of all that stands there a joint begins: what a throat must reach."""
    boxes = [_box(scene, i, press) for i in sorted(built)]
    low_u, high_u, low_v, high_v = press.across
    best = float("inf")
    for k, (near, far) in enumerate(((low_u, high_u), (low_v, high_v))):
        other = (low_v, high_v) if k == 0 else (low_u, high_u)
        inside = [
            b for b in boxes if _laps(b[0], reach) and _laps(b[2 - k], other)
        ]  # what stands between the bar and the joint
        best = min(best, max((b[1 + k][1] for b in inside), default=far) - far)
        best = min(best, near - min((b[1 + k][0] for b in inside), default=near))
    return max(0.0, best)


def _box(scene: Scene, part: int, press: Press) -> tuple[tuple[float, float], ...]:
    corners = [c for cell in scene.parts[part].cells() for c in cell.corners]
    found = []
    for d in (press.axis, *press.sides):
        heights = [dot(c, d) for c in corners]
        found.append((min(heights), max(heights)))
    return tuple(found)


def _laps(a: tuple[float, float], b: tuple[float, float]) -> bool:
    return min(a[1], b[1]) - max(a[0], b[0]) > SHARED_MM


def one_stack(a: Press, b: Press, reach_a: tuple[float, float], reach_b: tuple[float, float]) -> bool:
    """Whether two joints lie in one stack, so that the clamps across it press both."""
    if abs(dot(a.axis, b.axis)) < SAME or not all(
        abs(x - y) <= SHARED_MM for x, y in zip(reach_a, reach_b, strict=True)
    ):
        return False
    return _laps(a.across[:2], b.across[:2]) and _laps(a.across[2:], b.across[2:])


def run_of(patch: Patch) -> float:
    """Return the longest distance between two corners of a patch."""
    return max(norm(sub(p, q)) for p in patch.corners for q in patch.corners)
