"""Things that move: lids and doors swung, drawers slid from shut to open: clashes, and gaps that pinch fingers.

The motion is sampled: every degree of a swing, every 5 mm of a slide, and finer where parts are near. Between samples
a corner moves by less than the step, and clashes thinner than that may be missed; `step_mm` says how fine it was.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite, radians
from typing import Any, Literal

import numpy as np

from scantling.board import Assembly
from scantling.board.vector import Vector, dot, norm, scale, sub, unit
from scantling.findings import Finding, Severity

from .arrays import Block, Floats, Soup, soup
from .overlap import separation
from .settings import DryfitSettings

MOST_STEPS = 400
SLIDE_STEP_MM = 5.0
SWING_STEP_DEG = 1.0
# EN 581-1:2017, furniture outdoors, screens gaps that a finger enters but may not leave: 7 to 12 mm; screening only
FINGER_MM = (7.0, 12.0)


@dataclass(frozen=True, slots=True)
class Motion:
    """What moves and how: a swing about an axis through `point` by `travel` degrees, or a slide by `travel` mm.

    `axis` is the direction of the hinge line (right-handed) or of the slide. `walls` are planes nothing may pass: a
    normal pointing into the room and an offset, n·p ≥ offset. `held_by` says what keeps it open.
    """

    id: str
    kind: Literal["swing", "slide"]
    parts: tuple[str, ...]
    axis: Vector
    travel: float
    point: Vector = (0.0, 0.0, 0.0)
    walls: tuple[tuple[Vector, float], ...] = ()
    held_by: str = ""


@dataclass(frozen=True, slots=True)
class Swept:
    """What came of a motion: how far it goes before it clashes, with what, and the least gap to anything on its way.

    `free` is in degrees or mm from shut; `clashes` is empty where it opens freely; `least_gap` is infinite where it
    clashes at once.
    """

    motion: str
    free: float
    clashes: tuple[str, ...]
    depth: float
    at_mm: Vector | None
    least_gap: float
    step_mm: float

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        return {
            "motion": self.motion,
            "free": round(self.free, 2),
            "clashes_with": list(self.clashes),
            "depth_mm": round(self.depth, 2),
            "at_mm": None if self.at_mm is None else [round(c, 1) for c in self.at_mm],
            "least_gap_mm": round(self.least_gap, 2) if isfinite(self.least_gap) else None,
            "step_mm": round(self.step_mm, 2),
        }


def sweep(assembly: Assembly, motion: Motion, settings: DryfitSettings) -> Swept:
    """Carry the moving parts from shut to open and return the first clash, if there is one.

    Parts that already touch when shut may slide along each other; only what goes deeper counts. Raises KeyError for a
    part that is not there, ValueError for an axis without length or a travel of nothing.
    """
    if motion.travel == 0:
        raise ValueError(f"{motion.id}: a motion needs a travel other than 0")
    axis = unit(motion.axis)
    moving = [assembly.parts[p] for p in motion.parts]
    still = soup([p for p in assembly.parts.values() if p.id not in motion.parts])
    body = soup(moving)
    count, step_mm = _steps(motion, axis, body)
    least = float("inf")
    for k in range(1, count + 1):
        at = motion.travel * k / count
        moved = _moved(body, motion, axis, at)
        gap, cell, who = _nearest(moved, still)
        wall, where = _through_wall(moved, motion)
        if wall > settings.fit:
            return Swept(motion.id, _before(motion, k, count), ("wall",), wall, where, least, step_mm)
        if gap < -settings.fit:
            low, high = moved.low[cell], moved.high[cell]
            x, y, z = (float(v) for v in (low + high) / 2)
            return Swept(motion.id, _before(motion, k, count), (who,), -gap, (x, y, z), least, step_mm)
        least = min(least, gap)
    return Swept(motion.id, motion.travel, (), 0.0, None, max(0.0, least), step_mm)


def _before(motion: Motion, k: int, count: int) -> float:
    return motion.travel * (k - 1) / count


def _steps(motion: Motion, axis: Vector, body: Soup) -> tuple[int, float]:
    """Return how many samples to take and how far the outermost corner moves between two of them, in mm."""
    if motion.kind == "slide":
        count = min(MOST_STEPS, max(1, round(abs(motion.travel) / SLIDE_STEP_MM)))
        return count, abs(motion.travel) / count
    corners = [c for cell in body.cells for c in cell.corners]
    arms = (sub(c, motion.point) for c in corners)
    radius = max(norm(sub(a, scale(axis, dot(a, axis)))) for a in arms)
    count = min(MOST_STEPS, max(1, round(abs(motion.travel) / SWING_STEP_DEG)))
    return count, radius * radians(abs(motion.travel) / count)


def _moved(body: Soup, motion: Motion, axis: Vector, at: float) -> Soup:
    """Return the arrays of the moving parts at a place of their travel."""
    if motion.kind == "slide":
        turn, shift = np.eye(3), np.array(axis) * at
    else:
        turn = _rotation(np.array(axis), radians(at))
        point = np.array(motion.point)
        shift = point - turn @ point
    blocks = []
    for b in body.blocks:
        normals = b.normals @ turn.T
        blocks.append(Block(normals, b.offsets + normals @ shift, b.corners @ turn.T + shift, b.edges @ turn.T))
    low, high = np.empty_like(body.low), np.empty_like(body.high)
    for i, block in enumerate(blocks):
        rows = body.block_of == i
        if rows.any():
            corners = block.corners[body.row_of[rows]]
            low[rows], high[rows] = corners.min(axis=1), corners.max(axis=1)
    nothing_square = np.zeros_like(body.square)
    return Soup(
        body.parts, body.cells, body.part_of, low, high, body.block_of, body.row_of, tuple(blocks), nothing_square
    )


def _rotation(axis: Floats, angle: float) -> Floats:
    """Return the matrix of a turn about a unit axis (Rodrigues)."""
    x, y, z = axis
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    turn: Floats = np.eye(3) + np.sin(angle) * cross + (1 - np.cos(angle)) * (cross @ cross)
    return turn


def _nearest(moved: Soup, still: Soup) -> tuple[float, int, str]:
    """Return the least gap between moving and still cells (negative: depth), which moving cell, which still part."""
    reach = FINGER_MM[1] + 1.0
    meets = np.ones((len(moved.cells), len(still.cells)), dtype=bool)
    for k in range(3):
        meets &= moved.low[:, None, k] <= still.high[None, :, k] + reach
        meets &= still.low[None, :, k] <= moved.high[:, None, k] + reach
    a, b = np.nonzero(meets)
    best, cell, who = float("inf"), 0, ""
    for i, first in enumerate(moved.blocks):
        for j, second in enumerate(still.blocks):
            rows = np.flatnonzero((moved.block_of[a] == i) & (still.block_of[b] == j))
            if rows.size == 0:
                continue
            gap = separation(first.take(moved.row_of[a[rows]]), second.take(still.row_of[b[rows]]), np.inf)
            k = int(gap.argmin())
            if gap[k] < best:
                best, cell = float(gap[k]), int(a[rows[k]])
                who = still.parts[int(still.part_of[b[rows[k]]])].id
    return best, cell, who


def _through_wall(moved: Soup, motion: Motion) -> tuple[float, Vector | None]:
    """Return how far the moving parts stand in a wall, in mm, and where."""
    worst, where = 0.0, None
    for normal, offset in motion.walls:
        n = np.array(normal)
        for block in moved.blocks:
            if block.corners.size:
                heights = block.corners.reshape(-1, 3) @ n - offset
                k = int(heights.argmin())
                if -heights[k] > worst:
                    x, y, z = (float(v) for v in block.corners.reshape(-1, 3)[k])
                    worst, where = float(-heights[k]), (x, y, z)
    return worst, where


def motion_findings(motion: Motion, swept: Swept, settings: DryfitSettings) -> Iterator[Finding]:
    """Report a motion that clashes, gaps that pinch fingers on the way, and a lid that nothing holds open."""
    unit_word = "deg" if motion.kind == "swing" else "mm"
    degrees = "°" if motion.kind == "swing" else " mm"
    if swept.clashes:
        yield Finding(
            "motion-clashes", Severity.ERROR,
            f"{motion.id} opens {abs(swept.free):.0f}{degrees} of {abs(motion.travel):.0f}{degrees} and then runs into"
            f" {swept.clashes[0]}.", (*motion.parts, *(c for c in swept.clashes if c != "wall")), at_mm=swept.at_mm,
            value=abs(swept.free), limit=abs(motion.travel), unit=unit_word,
            remedy="Move the hinge, leave a gap, stop the motion before, or move what stands in the way.",
        )  # fmt: skip
    elif FINGER_MM[0] < swept.least_gap < FINGER_MM[1]:
        yield Finding(
            "moving-gap", Severity.WARNING,
            f"Between {motion.id} and what it passes a gap of {swept.least_gap:.1f} mm takes a finger and may not let"
            " it go.", motion.parts, value=swept.least_gap, limit=FINGER_MM[0], unit="mm",
            source="EN 581-1:2017, 7 to 12 mm; screening only, not conformity",
            remedy="Make the gap smaller than 7 mm or larger than 12 mm all the way.",
        )  # fmt: skip
    if motion.kind == "swing" and not motion.held_by and _lifts(motion):
        yield Finding(
            "nothing-holds-open", Severity.WARNING, f"Nothing holds {motion.id} open: it can fall on hands and heads.",
            motion.parts, source="practice", remedy="Fit a lid stay, a strap past upright, or soft-close hinges.",
        )  # fmt: skip


def _lifts(motion: Motion) -> bool:
    """Whether the hinge line lies level, so that the part is lifted and can fall shut."""
    return abs(unit(motion.axis)[2]) < 0.5
