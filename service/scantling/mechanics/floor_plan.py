"""Convex outlines on a floor plan: do they meet, what does a door's leaf reach, how far is it to what stands in front.

Plan frame: x to the right along the first wall as one faces it, y out of that wall into the room, both in mm.
"""

import math
from collections.abc import Sequence

from .validity import OutOfValidity, positive

Point = tuple[float, float]
Outline = tuple[Point, ...]
FULL_CIRCLE = 360.0


def unit(degrees: float) -> Point:
    """Return the direction an angle clockwise from x points in, as seen from above with y down the page.

    Units: degrees in, a vector of length 1 (of no unit) out. Valid: any angle. Raises: nothing. Source: geometry.
    """
    quarter, rest = divmod(degrees % FULL_CIRCLE, 90.0)
    if rest == 0.0:  # exact, so that pieces along a straight wall stand exactly level
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter)]
    angle = math.radians(degrees)
    return math.cos(angle), math.sin(angle)


def kept(outline: Outline, at: Point, towards: Point) -> Outline:
    """Return what of a convex outline lies on the side of a line that `towards` points to.

    Units: mm. Valid: convex outlines in order; `at` a point of the line. Raises: nothing.
    Source: geometry, clipping a polygon by a half plane.
    """
    found: list[Point] = []
    heights = [(x - at[0]) * towards[0] + (y - at[1]) * towards[1] for x, y in outline]
    for i, (p, h) in enumerate(zip(outline, heights, strict=True)):
        q, k = outline[(i + 1) % len(outline)], heights[(i + 1) % len(outline)]
        if h >= 0:
            found.append(p)
        if (h < 0 < k) or (k < 0 < h):
            share = h / (h - k)
            found.append((p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share))
    return tuple(found)


def overlap_depth(one: Outline, other: Outline) -> float:
    """Return how deep two convex outlines stand in each other; less than nothing where they stand apart.

    Units: mm. Valid: convex outlines of three corners or more. Raises: ValueError for fewer.
    Source: geometry, the separating axis theorem: the least overlap over the directions square to their sides.
    """
    if min(len(one), len(other)) < 3:
        raise ValueError("an outline has three corners or more")
    least = math.inf
    for outline in (one, other):
        for (x1, y1), (x2, y2) in _sides(outline):
            length = math.hypot(x2 - x1, y2 - y1)
            if length == 0:
                continue
            axis = ((y2 - y1) / length, (x1 - x2) / length)
            a0, a1 = _shadow(one, axis)
            b0, b1 = _shadow(other, axis)
            least = min(least, min(a1, b1) - max(a0, b0))
    return least


def distance_to(point: Point, outline: Outline) -> float:
    """Return how far a point is from an outline, 0 inside it.

    Units: mm. Valid: convex outlines in either order. Raises: ValueError for fewer than three corners.
    Source: geometry.
    """
    if len(outline) < 3:
        raise ValueError("an outline has three corners or more")
    turns = [(x2 - x1) * (point[1] - y1) - (y2 - y1) * (point[0] - x1) for (x1, y1), (x2, y2) in _sides(outline)]
    if min(turns) >= 0 or max(turns) <= 0:
        return 0.0
    return min(_to_side(point, a, b) for a, b in _sides(outline))


def leaf_clearance(hinge: Point, shut: Point, opened: Point, outline: Outline) -> float:
    """Return how near an outline comes to a door's hinge inside the quarter its leaf sweeps; inf where it does not.

    A door is free where this is not less than the width of its leaf.
    Units: mm. Valid: `shut` and `opened` are the directions of the leaf, square to each other. Raises: nothing.
    Source: geometry: what is in the quarter between the shut and the open leaf.
    """
    inside = kept(kept(outline, hinge, opened), hinge, shut)
    if len(inside) < 3 or area(inside) < 1.0:
        return math.inf
    return distance_to(hinge, inside)


def area(outline: Outline) -> float:
    """Return the area of an outline, mm2.

    Units: mm in, mm2 out. Valid: outlines that do not cross themselves. Raises: nothing.
    Source: geometry, the surveyor's formula.
    """
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in _sides(outline))) / 2


def clear_in_front(front: tuple[Point, Point], outline: Outline) -> float:
    """Return how far an outline lies in front of an edge, straight ahead of it; inf where it does not stand ahead.

    Units: mm. Valid: `front` from the left end of the edge to the right as one faces it from the front, so that ahead
    is on the right hand of the way from left to right in a plan with y down. Raises: OutOfValidity for no length.
    Source: geometry.
    """
    (x0, y0), (x1, y1) = front
    length = positive("front edge", math.hypot(x1 - x0, y1 - y0), "mm")
    along = ((x1 - x0) / length, (y1 - y0) / length)
    ahead = (-along[1], along[0])
    strip = kept(outline, (x0 + along[0], y0 + along[1]), along)
    strip = kept(strip, (x1 - along[0], y1 - along[1]), (-along[0], -along[1])) if len(strip) > 1 else ()
    distances = [(x - x0) * ahead[0] + (y - y0) * ahead[1] for x, y in strip]
    if not distances or max(distances) <= 0:
        return math.inf
    return max(0.0, min(distances))


def floor_plane(readings: Sequence[tuple[float, float, float]]) -> tuple[float, float, float]:
    """Return the plane nearest to readings of a floor below one level line: fall per mm along x and y, and at 0, 0.

    Units: mm in; mm per mm and mm out, positive where the floor is lower. Valid: three readings or more that do not
    stand in one line. Raises: ValueError for fewer, OutOfValidity for readings in one line.
    Source: geometry, least squares by the normal equations.
    """
    n = len(readings)
    if n < 3:
        raise ValueError("a plane needs three readings or more")
    mean_x, mean_y, mean_z = (sum(r[i] for r in readings) / n for i in range(3))
    xx = sum((x - mean_x) ** 2 for x, _, _ in readings)
    yy = sum((y - mean_y) ** 2 for _, y, _ in readings)
    xy = sum((x - mean_x) * (y - mean_y) for x, y, _ in readings)
    xz = sum((x - mean_x) * (z - mean_z) for x, _, z in readings)
    yz = sum((y - mean_y) * (z - mean_z) for _, y, z in readings)
    spread = xx * yy - xy * xy
    if spread <= 1e-6 * max(xx + yy, 1.0) ** 2:
        raise OutOfValidity(
            "spread of the readings", spread, 1e-6, math.inf, "mm4", "readings in one line give no plane"
        )
    along_x, along_y = (xz * yy - yz * xy) / spread, (yz * xx - xz * xy) / spread
    return along_x, along_y, mean_z - along_x * mean_x - along_y * mean_y


def _sides(outline: Outline) -> list[tuple[Point, Point]]:
    return [(outline[i], outline[(i + 1) % len(outline)]) for i in range(len(outline))]


def _shadow(outline: Outline, axis: Point) -> Point:
    along = [x * axis[0] + y * axis[1] for x, y in outline]
    return min(along), max(along)


def _to_side(point: Point, a: Point, b: Point) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    squared = dx * dx + dy * dy
    share = 0.0 if squared == 0 else ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / squared
    share = min(1.0, max(0.0, share))
    return math.hypot(point[0] - a[0] - dx * share, point[1] - a[1] - dy * share)
