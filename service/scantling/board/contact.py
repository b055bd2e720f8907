"""Where two parts touch: the patch of one face that lies against a face of the other, with its gaps.

The face of one cell is cut to the outline of the other's face; the distances of the corners of what is left to the
other's plane are the gaps. Gaps are judged by distance, not by angle, so that a mitre half a degree off shows as the
gap it opens and not as a lost joint.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from .cell import Cell, Face, Plane, clip_polygon, polygon_area, polygon_centre
from .part import Part
from .vector import Vector, cross, dot, sub, unit

REACH_MM = 1.0  # faces further apart than this do not make a joint
FACING = -0.9  # cosine between outward normals; beyond about 25° two faces do not meet
LEAST_PATCH_MM2 = 1.0


@dataclass(frozen=True, slots=True)
class Patch:
    """A flat patch where part `a` meets part `b`.

    `corners` lie on a's surface, `normal` points out of a; gaps are in mm, negative where the parts overlap.
    """

    a: str
    b: str
    corners: tuple[Vector, ...]
    normal: Vector
    side_a: str
    side_b: str
    least_gap: float
    greatest_gap: float

    @property
    def area(self) -> float:
        """Area in mm²."""
        return polygon_area(self.corners)

    @property
    def centre(self) -> Vector:
        """Centroid of the patch."""
        return polygon_centre(self.corners)


def patches(a: Part, b: Part, reach: float = REACH_MM) -> list[Patch]:
    """Return all patches where two parts lie within `reach` mm of each other, largest first."""
    low_a, high_a = a.bounds()
    low_b, high_b = b.bounds()
    if any(low_a[i] > high_b[i] + reach or low_b[i] > high_a[i] + reach for i in range(3)):
        return []
    found = [
        patch
        for cell_a, cell_b in product(a.cells(), b.cells())
        for patch in _cell_patches(a.id, cell_a, b.id, cell_b, reach)
    ]
    return sorted(found, key=lambda p: (-round(p.area, 3), p.side_a, p.side_b))


def _cell_patches(a: str, cell_a: Cell, b: str, cell_b: Cell, reach: float) -> list[Patch]:
    found = []
    for fa in cell_a.faces:
        if fa.name == "inner" or _separate(fa.plane, cell_b, reach):
            continue
        for fb in cell_b.faces:
            if fb.name == "inner" or dot(fa.plane.normal, fb.plane.normal) > FACING:
                continue
            patch = face_patch(a, fa, b, fb, reach)
            if patch is not None:
                found.append(patch)
    return found


def _separate(plane: Plane, cell: Cell, reach: float) -> bool:
    """Whether a cell lies wholly further out than `reach` from a face, or wholly behind it."""
    (nx, ny, nz), offset = plane.normal, plane.offset
    heights = [nx * x + ny * y + nz * z - offset for f in cell.faces for x, y, z in f.corners]
    return min(heights) > reach or max(heights) < -reach


def within(corners: Sequence[Vector], outline: Sequence[Vector], normal: Vector) -> list[Vector]:
    """Return the part of a convex polygon inside the prism over a convex outline; `normal` is the outline's own.

    Empty where nothing is left.
    """
    kept = list(corners)
    for here, there in pairwise((*outline, outline[0])):
        wall = cross(sub(there, here), normal)
        if dot(wall, wall) < 1e-12:
            continue
        out = unit(wall)
        kept, _ = clip_polygon(kept, Plane(out, dot(out, here)))
        if len(kept) < 3:
            return []
    return kept


def face_patch(a: str, fa: Face, b: str, fb: Face, reach: float) -> Patch | None:
    """Return the patch of face `fa` of part `a` that lies within `reach` mm of face `fb` of part `b`, or None."""
    corners = within(fa.corners, fb.corners, fb.plane.normal)
    if not corners or polygon_area(corners) < LEAST_PATCH_MM2:
        return None
    gaps = [fb.plane.height(c) for c in corners]
    if min(gaps) > reach or max(gaps) < -reach:
        return None
    return Patch(a, b, tuple(corners), fa.plane.normal, fa.name, fb.name, min(gaps), max(gaps))


def ray_through(part: Part, origin: Vector, direction: Vector) -> list[tuple[float, float]]:
    """Return the stretches (enter, leave) in mm along a line where it runs inside a part, joined where they meet."""
    stretches = []
    for cell in part.cells():
        enter, leave = float("-inf"), float("inf")
        for face in cell.faces:
            closing = dot(face.plane.normal, direction)
            height = face.plane.height(origin)
            if abs(closing) < 1e-12:
                if height > 1e-9:
                    enter, leave = 1.0, 0.0
                    break
            elif closing > 0:
                leave = min(leave, -height / closing)
            else:
                enter = max(enter, -height / closing)
        if leave - enter > 1e-6:
            stretches.append((enter, leave))
    joined: list[tuple[float, float]] = []
    for enter, leave in sorted(stretches):
        if joined and enter <= joined[-1][1] + 1e-6:
            joined[-1] = (joined[-1][0], max(joined[-1][1], leave))
        else:
            joined.append((enter, leave))
    return joined
