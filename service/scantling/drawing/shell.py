"""The closed skin of convex cells that touch: what is left of their faces where no other cell lies against them.

Faces stay in convex pieces; a corner of one piece that lies on the side of another is a corner of both, so that every
side is shared by exactly two pieces, as a solid's boundary asks for.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from scantling.board import Cell
from scantling.board.vector import Vector, along, cross, dot, norm, sub, unit

SAME_MM = 1e-4  # corners nearer than this are one
OPPOSED = -1 + 1e-9  # cosine of two faces that lie against each other
LEAST_MM2 = 1e-4  # a piece of face smaller than this is none

Ring = tuple[Vector, ...]


@dataclass(frozen=True, slots=True)
class Skin:
    """Corners, and faces as (outward normal, name, numbers of corners anticlockwise seen from outside)."""

    corners: tuple[Vector, ...]
    faces: tuple[tuple[Vector, str, tuple[int, ...]], ...]


def skin(cells: Sequence[Cell]) -> Skin | None:
    """Return the skin of the union of cells that touch but do not overlap; None where it is not one closed surface."""
    pieces = [
        (face.plane.normal, face.name, ring)
        for i, cell in enumerate(cells)
        for face in cell.faces
        for ring in _exposed(face.corners, face.plane.normal, [c for k, c in enumerate(cells) if k != i])
    ]
    corners, rings = _numbered([ring for _, _, ring in pieces])
    whole = [_with_corners_between(ring, corners) for ring in rings]
    faces = [(n, name, tuple(r)) for (n, name, _), r in zip(pieces, whole, strict=True) if len(r) > 2]
    sides = Counter((a, b) for _, _, ring in faces for a, b in pairwise((*ring, ring[0])))
    if any(count != 1 or sides[b, a] != 1 for (a, b), count in sides.items()):
        return None
    return Skin(tuple(corners), tuple(faces))


def _exposed(ring: Ring, normal: Vector, others: Sequence[Cell]) -> list[Ring]:
    """Return what is left of a face where no other cell lies against it, in convex pieces."""
    pieces = [ring]
    for cell in others:
        for face in cell.faces:
            if dot(face.plane.normal, normal) < OPPOSED and abs(face.plane.height(ring[0])) < SAME_MM:
                pieces = [left for piece in pieces for left in _less(piece, face.corners, normal)]
    return pieces


def _less(ring: Ring, taken: Ring, normal: Vector) -> list[Ring]:
    """Return a convex ring less another in the same plane that is walked the other way round, in convex pieces."""
    left: list[Ring] = []
    inside = ring
    for a, b in pairwise((*taken, taken[0])):
        if norm(sub(b, a)) < SAME_MM:
            continue
        outwards = unit(cross(normal, sub(b, a)))  # walked the other way round, its outside lies to the left
        outer, inner = _parted(inside, a, outwards)
        if _area(outer, normal) > LEAST_MM2:
            left.append(outer)
        if _area(inner, normal) <= LEAST_MM2:
            return [ring]
        inside = inner
    return left


def _parted(ring: Ring, at: Vector, outwards: Vector) -> tuple[Ring, Ring]:
    """Return the pieces of a convex ring beyond a line and on its near side; corners within reach of it are on it."""
    heights = [dot(sub(p, at), outwards) for p in ring]
    beyond: list[Vector] = []
    near: list[Vector] = []
    for i, (p, h) in enumerate(zip(ring, heights, strict=True)):
        if h >= -SAME_MM:
            beyond.append(p)
        if h <= SAME_MM:
            near.append(p)
        q, k = ring[(i + 1) % len(ring)], heights[(i + 1) % len(ring)]
        if min(h, k) < -SAME_MM and max(h, k) > SAME_MM:
            met = along(p, sub(q, p), h / (h - k))
            beyond.append(met)
            near.append(met)
    return tuple(beyond), tuple(near)


def _area(ring: Ring, normal: Vector) -> float:
    """Return the area of a ring seen from its normal, in mm2; less than nothing where it is walked the other way."""
    if len(ring) < 3:
        return 0.0
    return sum(dot(cross(sub(a, ring[0]), sub(b, ring[0])), normal) for a, b in pairwise(ring)) / 2


def _numbered(rings: Sequence[Ring]) -> tuple[list[Vector], list[list[int]]]:
    """Return corners, each once, and the rings as their numbers."""
    corners: list[Vector] = []
    places: dict[tuple[int, int, int], int] = {}

    def number_of(p: Vector) -> int:
        cell = tuple(round(v / SAME_MM / 4) for v in p)
        for dx in (0, -1, 1):
            for dy in (0, -1, 1):
                for dz in (0, -1, 1):
                    found = places.get((cell[0] + dx, cell[1] + dy, cell[2] + dz))
                    if found is not None and norm(sub(corners[found], p)) < SAME_MM:
                        return found
        corners.append(p)
        places[cell[0], cell[1], cell[2]] = len(corners) - 1
        return len(corners) - 1

    numbered = [[number_of(p) for p in ring] for ring in rings]
    return corners, [[n for i, n in enumerate(ring) if n != ring[i - 1]] for ring in numbered]


def _with_corners_between(ring: Sequence[int], corners: Sequence[Vector]) -> list[int]:
    """Return a ring with every corner that lies on one of its sides."""
    full: list[int] = []
    for i, a in enumerate(ring):
        b = ring[(i + 1) % len(ring)]
        way = sub(corners[b], corners[a])
        length = norm(way)
        met = []
        for n, p in enumerate(corners):
            from_a = sub(p, corners[a])
            t = dot(from_a, way) / length
            if SAME_MM < t < length - SAME_MM and norm(cross(from_a, way)) / length < SAME_MM:
                met.append((t, n))
        full += [a, *(n for _, n in sorted(met))]
    return full
