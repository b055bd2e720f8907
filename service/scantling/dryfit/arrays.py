"""The convex cells of an assembly as numpy arrays, in blocks of equal shape.

Cells are sorted into blocks by their number of faces, so that one many-sided cell does not pad all the others. Within
a block, faces, corners and edge directions are padded by repeating the first one, which changes no maximum.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.board import Cell, Part

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

BLOCK_FACES = (6, 10, 16)  # the last block takes what has more
PARALLEL = 1 - 1e-9


@dataclass(frozen=True, slots=True)
class Block:
    """m convex bodies: faces (m, F, 3) and (m, F), corners (m, V, 3), directions of their edges (m, E, 3)."""

    normals: Floats
    offsets: Floats
    corners: Floats
    edges: Floats

    def take(self, rows: Ints) -> "Block":
        """Return the bodies at some rows, in that order."""
        return Block(self.normals[rows], self.offsets[rows], self.corners[rows], self.edges[rows])


@dataclass(frozen=True, slots=True)
class Soup:
    """All cells of some parts. `part_of` (n,) is the part of each cell; `low`, `high` (n, 3) are their boxes in mm.

    `block_of` and `row_of` (n,) say where a cell stands in `blocks`; `square` (n,) whether it is its own box.
    """

    parts: tuple[Part, ...]
    cells: tuple[Cell, ...]
    part_of: Ints
    low: Floats
    high: Floats
    block_of: Ints
    row_of: Ints
    blocks: tuple[Block, ...]
    square: NDArray[np.bool_]

    def pairs_by_block(self, a: Ints, b: Ints) -> Iterator[tuple[Ints, Block, Block]]:
        """Split pairs of cells by the blocks they lie in: (which pairs, bodies a, bodies b)."""
        for i, first in enumerate(self.blocks):
            in_first = self.block_of[a] == i
            for j, second in enumerate(self.blocks):
                which = np.flatnonzero(in_first & (self.block_of[b] == j))
                if which.size:
                    yield which, first.take(self.row_of[a[which]]), second.take(self.row_of[b[which]])

    def cells_by_block(self, cells: Ints) -> Iterator[tuple[Ints, Block]]:
        """Split cells by block: (which, bodies)."""
        for i, block in enumerate(self.blocks):
            which = np.flatnonzero(self.block_of[cells] == i)
            if which.size:
                yield which, block.take(self.row_of[cells[which]])


def soup(parts: Sequence[Part]) -> Soup:
    """Return the arrays of the parts where they stand. Raises CutError when a cut leaves nothing of a part."""
    cells: list[Cell] = []
    part_of: list[int] = []
    for i, part in enumerate(parts):
        for cell in part.cells():
            cells.append(cell)
            part_of.append(i)
    corners = [cell.corners for cell in cells]
    edges = [edge_directions(cell) for cell in cells]
    sizes = np.array([len(cell.faces) for cell in cells], dtype=np.int64)
    block_of = np.searchsorted(np.array(BLOCK_FACES), sizes)
    row_of = np.zeros(len(cells), dtype=np.int64)
    blocks = []
    for b in range(len(BLOCK_FACES) + 1):
        rows = [int(i) for i in np.flatnonzero(block_of == b)]
        row_of[rows] = range(len(rows))
        blocks.append(_block([cells[i] for i in rows], [corners[i] for i in rows], [edges[i] for i in rows]))
    low = np.array([[min(v) for v in zip(*ring, strict=True)] for ring in corners]).reshape(-1, 3)
    high = np.array([[max(v) for v in zip(*ring, strict=True)] for ring in corners]).reshape(-1, 3)
    square = np.zeros(len(cells), dtype=bool)
    square[block_of == 0] = np.all(np.abs(blocks[0].normals).max(axis=2) > PARALLEL, axis=1)
    owners = np.array(part_of, dtype=np.int64)
    return Soup(tuple(parts), tuple(cells), owners, low, high, block_of, row_of, tuple(blocks), square)


def _block(cells: Sequence[Cell], corners: Sequence[Sequence[object]], edges: Sequence[Sequence[object]]) -> Block:
    normals = [[f.plane.normal for f in cell.faces] for cell in cells]
    offsets = [[f.plane.offset for f in cell.faces] for cell in cells]
    if not cells:
        nothing = np.zeros((0, 1, 3))
        return Block(nothing, np.zeros((0, 1)), nothing, nothing)
    return Block(_padded(normals), _padded(offsets), _padded(corners), _padded(edges))


def _padded(rows: Sequence[Sequence[object]]) -> Floats:
    """Return rows of unequal length as one array, short rows filled up with their first entry."""
    most = max(len(r) for r in rows)
    return np.array([[*r, *([r[0]] * (most - len(r)))] for r in rows], dtype=np.float64)


def edge_directions(cell: Cell) -> list[tuple[float, float, float]]:
    """Return the directions of a cell's edges, each once up to its sign, as unit vectors."""
    normals = [f.plane.normal for f in cell.faces]
    if len(normals) == 6 and _is_box(normals):
        return [normals[0], normals[2], normals[4]]
    found: list[tuple[float, float, float]] = []
    for face in cell.faces:
        ring = face.corners
        for (ax, ay, az), (bx, by, bz) in zip(ring, (*ring[1:], ring[0]), strict=True):
            x, y, z = bx - ax, by - ay, bz - az
            size = (x * x + y * y + z * z) ** 0.5
            if size < 1e-6:
                continue
            x, y, z = x / size, y / size, z / size
            if all(abs(x * p + y * q + z * r) < PARALLEL for p, q, r in found):
                found.append((x, y, z))
    return found


def _is_box(normals: Sequence[tuple[float, float, float]]) -> bool:
    """Whether six normals are three opposite pairs square to each other, in the order a blank has them."""
    (a, a2, b, b2, c, c2) = normals
    return (
        _dot(a, a2) < -PARALLEL
        and _dot(b, b2) < -PARALLEL
        and _dot(c, c2) < -PARALLEL
        and abs(_dot(a, b)) + abs(_dot(a, c)) + abs(_dot(b, c)) < 1e-9
    )


def _dot(a: tuple[float, float, float], b: tuple[float, float, float]) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
