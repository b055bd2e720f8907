"""Hidden lines, exactly, for bodies made of convex cells.

What a convex cell hides is what lies behind its front faces and inside the hull of its corners as seen from the eye:
again a convex body. So a cell hides one stretch of a straight edge, and what is seen of an edge is the edge less the
union of those stretches. Front faces are taken `NEAR_MM` deeper than they are, so that faces that touch do not hide
each other's edges; outlines are not, since two cells side by side must hide what runs behind their seam.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from scantling.board import Cell
from scantling.board.vector import Vector

from .edges import Edge, real_edges
from .view import Array, View

NEAR_MM = 0.02
CLOSED_MM = 1e-6
SLIVER_MM = 0.1  # what is seen of an edge for less than this is not drawn
FACING = 1e-9
MOST_NUMBERS = 3_000_000  # in one array; larger scenes go in slices
LEVEL = 1e-12
Flags = NDArray[np.bool_]
Plane4 = tuple[float, float, float, float]
EVERYTHING: Plane4 = (0.0, 0.0, 0.0, 1.0)  # a half-space that holds every point
NOWHERE: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Body:
    """Something solid to draw: an id, its convex cells, its real edges, and how far it is moved for the view, mm.

    `seen` keeps what was worked out for a view, since the steps of an assembly draw the same bodies again and again.
    """

    id: str
    cells: tuple[Cell, ...]
    edges: tuple[Edge, ...]
    offset: Vector = NOWHERE
    seen: dict[View, tuple[Array, Array]] = field(default_factory=dict, compare=False, repr=False)

    @classmethod
    def of(cls, id: str, cells: tuple[Cell, ...], offset: Vector = NOWHERE, lines: tuple[Edge, ...] = ()) -> "Body":
        """Return the body of some cells, with `lines` that lie on their faces."""
        return cls(id, cells, (*real_edges(cells), *lines), offset)

    def moved(self, offset: Vector) -> "Body":
        """Return the body elsewhere, sharing what was worked out."""
        return replace(self, offset=offset)

    def planes(self, view: View) -> tuple[Array, Array]:
        """Return what the unmoved cells hide: (planes, cells, 4), and its edges as (edges, 2, 3)."""
        if view not in self.seen:
            rows = [_shadow(cell, view) for cell in self.cells]
            most = max(len(row) for row in rows)
            array = np.array([row + [EVERYTHING] * (most - len(row)) for row in rows])
            self.seen[view] = (array.transpose(1, 0, 2), np.array(self.edges, dtype=np.float64).reshape(-1, 2, 3))
        return self.seen[view]


@dataclass(frozen=True, slots=True)
class Stretch:
    """A straight piece of an edge on the paper (x0, y0, x1, y1 in mm of the piece) and the body it belongs to."""

    body: int
    line: tuple[float, float, float, float]


class Shadows:
    """What the cells of some bodies hide, as half-spaces in arrays."""

    def __init__(self, bodies: Sequence[Body], view: View) -> None:
        parts = [body.planes(view)[0] for body in bodies]
        most = max((p.shape[0] for p in parts), default=0)
        planes = np.empty((most, sum(p.shape[1] for p in parts), 4))
        planes[:] = EVERYTHING
        at = 0
        for body, part in zip(bodies, parts, strict=True):
            place = planes[: part.shape[0], at : at + part.shape[1]]
            place[:] = part
            if body.offset != NOWHERE:
                place[:, :, 3] += part[:, :, :3] @ np.array(body.offset)
            at += part.shape[1]
        self.shape = planes.shape[:2]
        self.normals = np.ascontiguousarray(planes[:, :, :3].reshape(-1, 3))
        self.offsets = planes[:, :, 3].reshape(-1, 1)

    def heights(self, points: Array) -> Array:
        """Return how far points (n, 3) lie outside each half-space: (planes, cells, n), in mm."""
        found: Array = (self.normals @ points.T - self.offsets).reshape(*self.shape, len(points))
        return found

    def stretches(self, a: Array, b: Array) -> tuple[Array, Array]:
        """Return where edges from a to b enter and leave what each cell hides, as parts of 1: two (cells, edges)."""
        starts, ends = self.heights(a), self.heights(b)
        enter, leave = np.zeros(starts.shape[1:]), np.ones(starts.shape[1:])
        with np.errstate(divide="ignore", invalid="ignore"):
            for h0, h1 in zip(starts, ends, strict=True):
                change = h1 - h0
                at = h0 / -change
                np.maximum(enter, at, out=enter, where=change < -LEVEL)
                np.minimum(leave, at, out=leave, where=change > LEVEL)
                leave[(np.abs(change) <= LEVEL) & (h0 > 0)] = -1.0
        return enter, leave

    def hides(self, points: Array) -> Flags:
        """Return whether each point (n, 3) is hidden."""
        if not len(points) or not len(self.normals):
            return np.zeros(len(points), dtype=np.bool_)
        step = max(1, MOST_NUMBERS // len(self.normals))
        slices = (points[i : i + step] for i in range(0, len(points), step))
        return np.concatenate([(self.heights(part) <= 0).all(axis=0).any(axis=0) for part in slices])


def _shadow(cell: Cell, view: View) -> list[Plane4]:
    """Return what a cell hides: its front faces, a little deeper, and the walls of its outline, as planes."""
    ex, ey, ez = view.towards
    planes: list[Plane4] = []
    for face in cell.faces:
        nx, ny, nz = face.plane.normal
        if nx * ex + ny * ey + nz * ez > FACING:
            planes.append((nx, ny, nz, face.plane.offset - NEAR_MM))
    (rx, ry, rz), (ux, uy, uz) = view.right, view.up
    corners = {corner for face in cell.faces for corner in face.corners}
    ring = hull(sorted((x * rx + y * ry + z * rz, x * ux + y * uy + z * uz) for x, y, z in corners))
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        if length > 1e-6:
            a, b = (y1 - y0) / length, (x0 - x1) / length
            planes.append((a * rx + b * ux, a * ry + b * uy, a * rz + b * uz, a * x0 + b * y0 + CLOSED_MM))
    return planes


def hull(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return the convex hull of sorted points, anticlockwise (monotone chain, A. M. Andrew 1979)."""

    def half(run: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        kept: list[tuple[float, float]] = []
        for p in run:
            while len(kept) > 1 and _turn(kept[-2], kept[-1], p) <= 1e-9:
                kept.pop()
            kept.append(p)
        return kept[:-1]

    return half(points) + half(points[::-1])


def _turn(o: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])


def visible_lines(bodies: Sequence[Body], view: View) -> list[Stretch]:
    """Return what is seen of the bodies' edges from a view, duplicates dropped."""
    return seen_and_hidden(bodies, view)[0]


def seen_and_hidden(bodies: Sequence[Body], view: View, *, both: bool = False) -> tuple[list[Stretch], list[Stretch]]:
    """Return what is seen of the bodies' edges from a view and, with `both`, what is not; duplicates dropped."""
    arrays = [body.planes(view)[1] + np.array(body.offset) for body in bodies]
    if not sum(len(a) for a in arrays):
        return [], []
    owners = [i for i, array in enumerate(arrays) for _ in range(len(array))]
    shadows = Shadows(bodies, view)
    ends = np.concatenate(arrays)
    a, b = np.ascontiguousarray(ends[:, 0]), np.ascontiguousarray(ends[:, 1])
    flat_a, flat_b = view.flat(a), view.flat(b)
    lengths = np.hypot(*(flat_b - flat_a).T)
    step = max(1, MOST_NUMBERS // len(shadows.normals))
    covered: list[list[tuple[float, float]]] = [[] for _ in owners]
    for start in range(0, len(owners), step):
        enter, leave = shadows.stretches(a[start : start + step], b[start : start + step])
        cells, rows = np.nonzero(leave > enter)
        found = zip(rows.tolist(), enter[cells, rows].tolist(), leave[cells, rows].tolist(), strict=True)
        for row, low, high in found:
            covered[start + row].append((low, high))
    drawn = [
        _drawn(owners, flat_a.tolist(), flat_b.tolist(), lengths.tolist(), covered, hidden)
        for hidden in ((False, True) if both else (False,))
    ]
    return drawn[0], drawn[1] if both else []


def _drawn(
    owners: list[int],
    a: list[list[float]],
    b: list[list[float]],
    lengths: list[float],
    covered: list[list[tuple[float, float]]],
    hidden: bool,
) -> list[Stretch]:
    found: list[Stretch] = []
    seen: set[tuple[float, ...]] = set()
    for i, (x0, y0), (x1, y1), length, stretches in zip(owners, a, b, lengths, covered, strict=True):
        if length < SLIVER_MM:
            continue
        least = SLIVER_MM / length
        for low, high in _hidden_parts(stretches, least) if hidden else _seen_parts(stretches, least):
            p = (x0 + (x1 - x0) * low, y0 + (y1 - y0) * low)
            q = (x0 + (x1 - x0) * high, y0 + (y1 - y0) * high)
            key = tuple(round(c, 1) + 0.0 for c in ((*p, *q) if p <= q else (*q, *p)))
            if key not in seen:
                seen.add(key)
                found.append(Stretch(i, (p[0], p[1], q[0], q[1])))
    return found


def _joined(stretches: list[tuple[float, float]], least: float) -> list[list[float]]:
    joined: list[list[float]] = []
    if len(stretches) == 1:
        return [list(stretches[0])]
    for low, high in sorted(stretches):
        if joined and low <= joined[-1][1] + least:
            joined[-1][1] = max(joined[-1][1], high)
        else:
            joined.append([low, high])
    return joined


def _seen_parts(stretches: list[tuple[float, float]], least: float) -> Iterator[tuple[float, float]]:
    at = 0.0
    for low, high in _joined(stretches, 0.0):
        if low - at > least:
            yield at, low
        at = max(at, high)
    if 1.0 - at > least:
        yield at, 1.0


def _hidden_parts(stretches: list[tuple[float, float]], least: float) -> Iterator[tuple[float, float]]:
    for low, high in _joined(stretches, least):
        if high - low > least:
            yield low, high
