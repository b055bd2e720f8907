"""The edges a part really has: those of its one cell, or of the union of its cells without the seams between them."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, pi

from scantling.board import Cell
from scantling.board.cell import plane_axes
from scantling.board.vector import Vector, along, dot, norm, scale, sub

Edge = tuple[Vector, Vector]
ON_MM = 1e-5  # a point this near a plane lies on it
TURN = 1e-6  # radians; sectors that meet this closely are one
LEAST_MM = 1e-3


def real_edges(cells: Sequence[Cell]) -> list[Edge]:
    """Return the edges of the union of convex cells that touch but do not overlap, each once."""
    if len(cells) == 1:
        return list(_own_edges(cells))
    found: dict[tuple[Vector, Vector], Edge] = {}
    for a, b in _own_edges(cells):
        for edge in _where_real(a, b, cells):
            found.setdefault(_key(*edge), edge)
    return list(found.values())


# Every edge of a cell is met twice, once each way; the way that rises along the first of these lines is taken.
SLANTED = ((0.5137, 0.6491, 0.5611), (0.8419, -0.3307, 0.4261), (-0.2917, 0.4603, 0.8387))


def _own_edges(cells: Sequence[Cell]) -> Iterator[Edge]:
    for cell in cells:
        for face in cell.faces:
            for a, b in pairwise((*face.corners, face.corners[0])):
                if _rises(a, b):
                    yield a, b


def _rises(a: Vector, b: Vector) -> bool:
    x, y, z = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    for i, j, k in SLANTED:
        rise = x * i + y * j + z * k
        if abs(rise) > LEAST_MM / 10:
            return rise > 0
    return False  # the edge has no length


def _key(a: Vector, b: Vector) -> tuple[Vector, Vector]:
    p = (round(a[0], 4) + 0.0, round(a[1], 4) + 0.0, round(a[2], 4) + 0.0)
    q = (round(b[0], 4) + 0.0, round(b[1], 4) + 0.0, round(b[2], 4) + 0.0)
    return (p, q) if p <= q else (q, p)


def _where_real(a: Vector, b: Vector, cells: Sequence[Cell]) -> Iterator[Edge]:
    """Yield the stretches of a cell's edge where the union of all cells has an edge too."""
    length = norm(sub(b, a))
    if length < LEAST_MM:
        return
    way = scale(sub(b, a), 1 / length)
    stops = sorted({0.0, length, *_crossings(a, way, length, cells)})
    start: float | None = None
    for here, there in pairwise(stops):
        if there - here < LEAST_MM:
            continue
        if _is_edge(along(a, way, (here + there) / 2), way, cells):
            start = here if start is None else start
        elif start is not None:
            yield along(a, way, start), along(a, way, here)
            start = None
    if start is not None:
        yield along(a, way, start), b


def _crossings(a: Vector, way: Vector, length: float, cells: Sequence[Cell]) -> Iterator[float]:
    for cell in cells:
        for face in cell.faces:
            closing = dot(face.plane.normal, way)
            if abs(closing) > 1e-9:
                t = -face.plane.height(a) / closing
                if LEAST_MM < t < length - LEAST_MM:
                    yield t


def _is_edge(p: Vector, way: Vector, cells: Sequence[Cell]) -> bool:
    """Return whether the wood round a point of a line is neither all, nothing, nor exactly half of what is round it."""
    u, v = plane_axes(way)
    sectors = sorted(s for cell in cells for s in _sector(p, u, v, cell))
    joined: list[list[float]] = []
    for low, high in sectors:
        if joined and low <= joined[-1][1] + TURN:
            joined[-1][1] = max(joined[-1][1], high)
        else:
            joined.append([low, high])
    if len(joined) > 1 and joined[-1][1] >= joined[0][0] + 2 * pi - TURN:
        joined[0][0] = joined.pop()[0] - 2 * pi
    if not joined:
        return False
    filled = joined[0][1] - joined[0][0]
    return len(joined) > 1 or not (filled > 2 * pi - TURN or abs(filled - pi) < TURN)


def _sector(p: Vector, u: Vector, v: Vector, cell: Cell) -> list[tuple[float, float]]:
    """Return the sector of directions round a line that lies in a cell, as (low, high) with 0 ≤ low < 2π."""
    low, high = 0.0, 2 * pi
    narrowed = False
    for face in cell.faces:
        height = face.plane.height(p)
        if height > ON_MM:
            return []
        if height < -ON_MM:
            continue
        outwards = atan2(dot(face.plane.normal, v), dot(face.plane.normal, u))
        a, b = outwards + pi / 2, outwards + 3 * pi / 2  # the half turn on the wood's side
        if not narrowed:
            low, high, narrowed = a, b, True
        else:
            shift = 2 * pi * round((low + high - a - b) / (4 * pi))
            low, high = max(low, a + shift), min(high, b + shift)
            if high - low < TURN:
                return []
    turns = 2 * pi * (low // (2 * pi))
    return [(low - turns, high - turns)]
