"""Convex cells: the pieces of space a part is made of, as faces with outward normals.

A part is its blank less its cuts. Each cut is a half-space or a box taken away, so what is left falls into a few
convex cells by plane splitting. Every check on an assembly is then arithmetic on half-spaces and corners.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import atan2, sqrt

from .vector import Vector, add, cross, dot, scale, sub, unit

PLANE_TOLERANCE = 1e-7  # mm; for telling on which side of a plane a corner lies


@dataclass(frozen=True, slots=True)
class Plane:
    """The half-space `normal`·p ≤ `offset`; the normal points out of it and has length 1."""

    normal: Vector
    offset: float

    def height(self, point: Vector) -> float:
        """Return how far a point lies outside, in mm; negative inside."""
        return dot(self.normal, point) - self.offset

    def flipped(self) -> "Plane":
        """Return the other side of the same plane."""
        return Plane(scale(self.normal, -1.0), -self.offset)


@dataclass(frozen=True, slots=True)
class Face:
    """One flat side of a cell: its plane, its corners anticlockwise seen from outside, and the name of the side.

    The name is `start`, `end`, `near`, `far`, `back` or `face` for a side of the board, "cut" for a wall left by a
    cut, and "inner" for a boundary between two cells of one part, which is no surface at all.
    """

    plane: Plane
    corners: tuple[Vector, ...]
    name: str


@dataclass(frozen=True, slots=True)
class Cell:
    """A convex polyhedron."""

    faces: tuple[Face, ...]
    _corners: tuple[Vector, ...] | None = field(default=None, repr=False, compare=False)

    @property
    def corners(self) -> tuple[Vector, ...]:
        """All corners, each once, in a steady order."""
        if self._corners is None:
            seen: dict[tuple[float, float, float], Vector] = {}
            for face in self.faces:
                for corner in face.corners:
                    seen.setdefault((round(corner[0], 6), round(corner[1], 6), round(corner[2], 6)), corner)
            object.__setattr__(self, "_corners", tuple(seen.values()))
        return self._corners or ()


def box(low: Vector, high: Vector, names: Sequence[str]) -> Cell:
    """Return an axis-parallel box; `names` are those of the sides at low x, high x, low y, high y, low z, high z."""
    (x0, y0, z0), (x1, y1, z1) = low, high
    sides = (
        ((-1.0, 0.0, 0.0), -x0, ((x0, y0, z0), (x0, y0, z1), (x0, y1, z1), (x0, y1, z0))),
        ((1.0, 0.0, 0.0), x1, ((x1, y0, z0), (x1, y1, z0), (x1, y1, z1), (x1, y0, z1))),
        ((0.0, -1.0, 0.0), -y0, ((x0, y0, z0), (x1, y0, z0), (x1, y0, z1), (x0, y0, z1))),
        ((0.0, 1.0, 0.0), y1, ((x0, y1, z0), (x0, y1, z1), (x1, y1, z1), (x1, y1, z0))),
        ((0.0, 0.0, -1.0), -z0, ((x0, y0, z0), (x0, y1, z0), (x1, y1, z0), (x1, y0, z0))),
        ((0.0, 0.0, 1.0), z1, ((x0, y0, z1), (x1, y0, z1), (x1, y1, z1), (x0, y1, z1))),
    )
    return Cell(tuple(Face(Plane(n, d), c, name) for (n, d, c), name in zip(sides, names, strict=True)))


def clip(cell: Cell, plane: Plane, name: str) -> Cell | None:
    """Return the part of a cell inside a half-space, or None where nothing is left.

    The new side gets `name`. Corners within 1e-7 mm of the plane count as on it.
    """
    heights = [plane.height(c) for face in cell.faces for c in face.corners]
    if max(heights) <= PLANE_TOLERANCE:
        return cell
    if min(heights) >= -PLANE_TOLERANCE:
        return None
    faces: list[Face] = []
    rim: list[Vector] = []
    for face in cell.faces:
        corners, cut = clip_polygon(face.corners, plane)
        rim.extend(cut)
        if len(corners) >= 3:
            faces.append(Face(face.plane, tuple(corners), face.name))
    lid = _ring(rim, plane.normal)
    if len(lid) >= 3:
        faces.append(Face(plane, lid, name))
    return Cell(tuple(faces))


def subtract(cell: Cell, tool: Sequence[Plane], name: str) -> list[Cell]:
    """Return what is left of a cell when the convex body bounded by `tool` is taken away, as convex cells.

    Walls left by the tool are called `name`; the flat boundaries between the pieces are called "inner".
    """
    reach = cell
    for plane in tool:
        inside = clip(reach, plane, "inner")
        if inside is None:
            return [cell]
        reach = inside
    pieces: list[Cell] = []
    rest: Cell | None = cell
    for plane in tool:
        if rest is None:
            break
        outside = clip(rest, plane.flipped(), name)
        if outside is not None:
            pieces.append(_mark_inner(outside, plane, tool, name))
        rest = clip(rest, plane, "inner")
    return pieces


def _mark_inner(piece: Cell, plane: Plane, tool: Sequence[Plane], name: str) -> Cell:
    """Rename the new side "inner" where no part of it borders the tool: another piece lies against all of it."""
    faces = []
    for face in piece.faces:
        if face.name == name and face.plane.normal == scale(plane.normal, -1.0):
            bordering: Sequence[Vector] = face.corners
            for p in tool:
                bordering, _ = clip_polygon(bordering, p) if len(bordering) >= 3 else ([], [])
            borders = len(bordering) >= 3 and polygon_area(bordering) > PLANE_TOLERANCE
            faces.append(Face(face.plane, face.corners, name if borders else "inner"))
        else:
            faces.append(face)
    return Cell(tuple(faces))


def clip_polygon(corners: Sequence[Vector], plane: Plane) -> tuple[list[Vector], list[Vector]]:
    """Return the corners of a polygon inside a half-space, and those of them that lie on the plane."""
    kept: list[Vector] = []
    on_plane: list[Vector] = []
    (nx, ny, nz), offset = plane.normal, plane.offset  # written out: this is where most of the time of placing goes
    heights = [nx * x + ny * y + nz * z - offset for x, y, z in corners]
    for i, here in enumerate(corners):
        h0, h1, there = heights[i], heights[(i + 1) % len(corners)], corners[(i + 1) % len(corners)]
        if h0 <= PLANE_TOLERANCE:
            kept.append(here)
            if h0 >= -PLANE_TOLERANCE:
                on_plane.append(here)
        if (h0 < -PLANE_TOLERANCE and h1 > PLANE_TOLERANCE) or (h0 > PLANE_TOLERANCE and h1 < -PLANE_TOLERANCE):
            crossing = add(here, scale(sub(there, here), h0 / (h0 - h1)))
            kept.append(crossing)
            on_plane.append(crossing)
    return kept, on_plane


def _ring(points: Iterable[Vector], normal: Vector) -> tuple[Vector, ...]:
    """Return points of one plane ordered anticlockwise about its normal, near-duplicates dropped."""
    unique: list[Vector] = []
    for p in points:
        if all(abs(p[0] - q[0]) + abs(p[1] - q[1]) + abs(p[2] - q[2]) > 1e-6 for q in unique):
            unique.append(p)
    if len(unique) < 3:
        return ()
    centre = scale(_sum(unique), 1 / len(unique))
    u, v = plane_axes(normal)
    return tuple(sorted(unique, key=lambda p: atan2(dot(sub(p, centre), v), dot(sub(p, centre), u))))


def plane_axes(normal: Vector) -> tuple[Vector, Vector]:
    """Return two unit vectors u, v in the plane with u × v = normal."""
    helper = (1.0, 0.0, 0.0) if abs(normal[0]) < 0.9 else (0.0, 1.0, 0.0)
    u = unit(cross(helper, normal))
    return u, cross(normal, u)


def _sum(points: Sequence[Vector]) -> Vector:
    total = (0.0, 0.0, 0.0)
    for p in points:
        total = add(total, p)
    return total


def area_vector(corners: Sequence[Vector]) -> Vector:
    """Return the vector whose length is twice the area of a flat polygon, along its normal."""
    x, y, z = 0.0, 0.0, 0.0
    ox, oy, oz = corners[0]  # written out, as in clip_polygon
    for (ax, ay, az), (bx, by, bz) in pairwise(corners[1:]):
        ux, uy, uz, vx, vy, vz = ax - ox, ay - oy, az - oz, bx - ox, by - oy, bz - oz
        x, y, z = x + (uy * vz - uz * vy), y + (uz * vx - ux * vz), z + (ux * vy - uy * vx)
    return (x, y, z)


def polygon_area(corners: Sequence[Vector]) -> float:
    """Return the area of a flat polygon in mm²."""
    n = area_vector(corners)
    return 0.5 * sqrt(dot(n, n))


def polygon_centre(corners: Sequence[Vector]) -> Vector:
    """Return the centroid of a flat convex polygon."""
    origin, total, weight = corners[0], (0.0, 0.0, 0.0), 0.0
    for a, b in pairwise(corners[1:]):
        area = polygon_area((origin, a, b))
        total = add(total, scale(add(add(origin, a), b), area / 3))
        weight += area
    return scale(total, 1 / weight) if weight > 0 else origin


def volume_and_centre(cells: Iterable[Cell]) -> tuple[float, Vector]:
    """Return the volume in mm³ and the centre of gravity of some cells of even density."""
    volume, mx, my, mz = 0.0, 0.0, 0.0, 0.0
    for cell in cells:
        px, py, pz = cell.faces[0].corners[0]  # the common tip of all tetrahedra; written out, as in clip_polygon
        for face in cell.faces:
            fx, fy, fz = face.corners[0]
            ux, uy, uz, sx, sy, sz = fx - px, fy - py, fz - pz, px + fx, py + fy, pz + fz
            for (ax, ay, az), (bx, by, bz) in pairwise(face.corners[1:]):
                vx, vy, vz, wx, wy, wz = ax - px, ay - py, az - pz, bx - px, by - py, bz - pz
                tetra = (ux * (vy * wz - vz * wy) + uy * (vz * wx - vx * wz) + uz * (vx * wy - vy * wx)) / 6
                volume += tetra
                k = tetra / 4
                mx, my, mz = mx + (sx + (ax + bx)) * k, my + (sy + (ay + by)) * k, mz + (sz + (az + bz)) * k
    return volume, scale((mx, my, mz), 1 / volume) if volume > 0 else (mx, my, mz)
