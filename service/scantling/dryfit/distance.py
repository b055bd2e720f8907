"""The exact distance between two parts that stand apart, and where it is shortest.

Between two convex bodies it is reached between a corner and a face, or between two edges. Used for a few pairs only.
"""

from itertools import product

import numpy as np

from scantling.board import Cell, Part

from .arrays import Floats

Point = tuple[float, float, float]


def parts_distance(a: Part, b: Part) -> tuple[float, Point]:
    """Return the shortest distance in mm between two parts and the point halfway across it.

    Parts that overlap have distance 0 there as far as edges or corners reach into faces.
    """
    best, at = float("inf"), (0.0, 0.0, 0.0)
    for x, y in product(a.cells(), b.cells()):
        gap, here = cells_distance(x, y)
        if gap < best:
            best, at = gap, here
    return best, at


def cells_distance(a: Cell, b: Cell) -> tuple[float, Point]:
    """Return the shortest distance between two cells and the point halfway across it."""
    found = [_edges(a, b), *_corners(a, b), *_corners(b, a)]
    gap, p, q = min(found, key=lambda f: f[0])
    x, y, z = (float(v) for v in (p + q) / 2)
    return gap, (x, y, z)


def _corners(a: Cell, b: Cell) -> list[tuple[float, Floats, Floats]]:
    """Return for every face of a the corner of b nearest to it, where its foot lies inside the face."""
    points = np.array(b.corners)
    found = []
    for face in a.faces:
        normal, ring = np.array(face.plane.normal), np.array(face.corners)
        height = points @ normal - face.plane.offset
        feet = points - height[:, None] * normal
        sides = np.roll(ring, -1, axis=0) - ring
        out = np.cross(sides, normal)
        inside = ((feet[:, None, :] - ring[None]) * out[None]).sum(axis=2).max(axis=1) <= 1e-9
        for k in np.flatnonzero(inside & (height >= 0)):
            found.append((float(height[k]), points[k], feet[k]))
    return found


def _edges(a: Cell, b: Cell) -> tuple[float, Floats, Floats]:
    p0, p1 = _segments(a)
    q0, q1 = _segments(b)
    gap, p, q = segment_distances(p0[:, None], p1[:, None], q0[None], q1[None])
    k = int(np.argmin(gap))
    i, j = np.unravel_index(k, gap.shape)
    return float(gap[i, j]), p[i, j], q[i, j]


def _segments(cell: Cell) -> tuple[Floats, Floats]:
    starts: list[Point] = []
    ends: list[Point] = []
    for face in cell.faces:
        starts.extend(face.corners)
        ends.extend((*face.corners[1:], face.corners[0]))
    return np.array(starts), np.array(ends)


def segment_distances(p0: Floats, p1: Floats, q0: Floats, q1: Floats) -> tuple[Floats, Floats, Floats]:
    """Return the distances between segments p0-p1 and q0-q1 (broadcast, last axis 3) and the nearest points of each."""
    u, v, w = p1 - p0, q1 - q0, p0 - q0
    a, b, c = (u * u).sum(-1), (u * v).sum(-1), (v * v).sum(-1)
    d, e = (u * w).sum(-1), (v * w).sum(-1)
    a, c = np.maximum(a, 1e-18), np.maximum(c, 1e-18)
    det = a * c - b * b
    s = np.where(det > 1e-12 * a * c, np.clip((b * e - c * d) / np.where(det > 0, det, 1.0), 0.0, 1.0), 0.0)
    t = np.clip((b * s + e) / c, 0.0, 1.0)
    s = np.clip((b * t - d) / a, 0.0, 1.0)
    p, q = p0 + s[..., None] * u, q0 + t[..., None] * v
    return np.linalg.norm(p - q, axis=-1), p, q
