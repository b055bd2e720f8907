"""Which parts come near each other, and which share space: boxes first, then separating axes in two stages.

Two convex bodies are apart when some axis separates them; the axes to try are the face normals of both and the cross
products of their edges (the separating axis theorem). Face normals go first; edge by edge only for what is still not
apart. The least overlap over all axes is how deep the bodies stand in each other, in mm: the shortest push that
parts them.
"""

from dataclasses import dataclass

import numpy as np

from scantling.board import Cell
from scantling.board.cell import clip, volume_and_centre

from .arrays import Block, Floats, Ints, Soup

AT_ONCE = 20_000  # pairs of cells in one go, which bounds memory
AXIS_LENGTH = 1e-6  # cross products shorter than this come from edges that run alike


@dataclass(frozen=True, slots=True)
class Overlap:
    """Parts `a` and `b` (indexes) share space: `depth` mm deep, `volume` mm³, about the point `at`."""

    a: int
    b: int
    depth: float
    volume: float
    at: tuple[float, float, float]


def near_pairs(soup: Soup, reach: float) -> tuple[Ints, Ints]:
    """Return the pairs of cells of different parts whose boxes come within `reach` mm of each other, first < second."""
    n = len(soup.cells)
    near = np.ones((n, n), dtype=bool)
    for axis in range(3):
        near &= soup.low[:, None, axis] <= soup.high[None, :, axis] + reach
    near &= near.T & (soup.part_of[:, None] != soup.part_of[None, :])
    a, b = np.nonzero(np.triu(near, 1))
    return a, b


def penetrations(soup: Soup, a: Ints, b: Ints, fit: float) -> Floats:
    """Return for pairs of cells how far they are apart, in mm along the best axis; negative is the depth.

    Exact below `fit` only: pairs further apart may be further still.
    """
    gap = np.empty(a.size)
    for first in range(0, a.size, AT_ONCE):
        rows = slice(first, first + AT_ONCE)
        part = gap[rows]
        for which, one, other in soup.pairs_by_block(a[rows], b[rows]):
            part[which] = separation(one, other, -fit)
    return gap


def deepest_pairs(soup: Soup, a: Ints, b: Ints, gap: Floats, fit: float) -> list[tuple[int, int, float, int]]:
    """Return the pairs of parts that stand more than `fit` mm in each other: parts, depth, and which pair of cells."""
    worst: dict[tuple[int, int], tuple[float, int]] = {}
    for k in np.flatnonzero(gap < -fit):
        i, j = int(soup.part_of[a[k]]), int(soup.part_of[b[k]])
        pair = (min(i, j), max(i, j))
        if -gap[k] > worst.get(pair, (0.0, 0))[0]:
            worst[pair] = (float(-gap[k]), int(k))
    return [(i, j, depth, k) for (i, j), (depth, k) in sorted(worst.items())]


def overlaps(soup: Soup, a: Ints, b: Ints, fit: float) -> list[Overlap]:
    """Return the pairs of parts that stand more than `fit` mm in each other, of the given pairs of cells."""
    gap = penetrations(soup, a, b, fit)
    return [described(soup, *found[:3], int(a[found[3]]), int(b[found[3]]))
            for found in deepest_pairs(soup, a, b, gap, fit)]  # fmt: skip


def described(soup: Soup, i: int, j: int, depth: float, a: int, b: int) -> Overlap:
    """Return an overlap of parts i and j with its volume and place; a and b are the cells that are deepest."""
    shared = [common(x, y) for x in soup.parts[i].cells() for y in soup.parts[j].cells()]
    volume, _ = volume_and_centre(c for c in shared if c is not None)
    deepest = common(soup.cells[a], soup.cells[b])
    if deepest is None:  # thinner than the clipping tolerance: the middle of the boxes will do
        low, high = np.maximum(soup.low[a], soup.low[b]), np.minimum(soup.high[a], soup.high[b])
        x, y, z = (float(v) for v in (low + high) / 2)
        return Overlap(i, j, depth, volume, (x, y, z))
    return Overlap(i, j, depth, volume, volume_and_centre([deepest])[1])


def common(a: Cell, b: Cell) -> Cell | None:
    """Return the convex body two cells share, or None."""
    shared: Cell | None = a
    for face in b.faces:
        if shared is None:
            return None
        shared = clip(shared, face.plane, face.name)
    return shared


def separation(a: Block, b: Block, enough: float) -> Floats:
    """Return how far apart bodies a[k] and b[k] are in mm along the best axis; negative is the depth of the overlap.

    Edge by edge axes are tried only where the faces leave less than `enough`. Positive values are a lower bound of
    the distance. Shapes: (m,) from blocks of m bodies each.
    """
    gap = np.maximum(beyond_faces(a, b), beyond_faces(b, a))
    left = np.flatnonzero(gap < enough)
    if left.size:
        gap[left] = np.maximum(gap[left], _beyond_edges(a.take(left), b.take(left)))
    return gap


def beyond_faces(a: Block, b: Block) -> Floats:
    """Return the greatest distance by which all of b[k] lies outside one face of a[k], in mm (negative: inside)."""
    heights = (a.normals @ b.corners.transpose(0, 2, 1)).min(axis=2) - a.offsets
    best: Floats = heights.max(axis=1)
    return best


def _beyond_edges(a: Block, b: Block) -> Floats:
    axes = np.cross(a.edges[:, :, None, :], b.edges[:, None, :, :]).reshape(a.edges.shape[0], -1, 3)
    return along_axes(axes, a, b)


def along_axes(axes: Floats, a: Block, b: Block) -> Floats:
    """Return the widest gap between a[k] and b[k] along axes (m, X, 3) of any length; too short ones are left out."""
    length = np.sqrt((axes * axes).sum(axis=2))
    usable = length > AXIS_LENGTH
    axes = axes / np.where(usable, length, 1.0)[:, :, None]
    on_a = axes @ a.corners.transpose(0, 2, 1)
    on_b = axes @ b.corners.transpose(0, 2, 1)
    gap = np.maximum(on_b.min(axis=2) - on_a.max(axis=2), on_a.min(axis=2) - on_b.max(axis=2))
    best: Floats = np.where(usable, gap, -np.inf).max(axis=1)
    return best
