"""Where parts meet: for every pair of parts, the patches of their faces that lie within reach of each other.

Faces that look at each other and come close are picked out with arrays; only those few are clipped one by one.
Gaps are judged by distance, never by angle, so a mitre half a degree off shows as the gap it opens.
"""

from collections import defaultdict
from dataclasses import dataclass

import numpy as np

from scantling.board import Patch
from scantling.board.contact import FACING, face_patch

from .arrays import Floats, Ints, Soup

Pair = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Faces:
    """All outer faces of a soup: (n, 3) normals, (n,) offsets, (n, C, 3) corners, the boxes round them, their cells.

    `start` and `count` (cells,) tell which faces are those of a cell; `names` holds (cell, face) for each.
    """

    normals: Floats
    offsets: Floats
    corners: Floats
    low: Floats
    high: Floats
    start: Ints
    count: Ints
    names: tuple[tuple[int, int], ...]


def faces_of(soup: Soup) -> Faces:
    """Return the outer faces of all cells; boundaries between cells of one part are left out."""
    names = [(i, j) for i, c in enumerate(soup.cells) for j, f in enumerate(c.faces) if f.name != "inner"]
    faces = [soup.cells[i].faces[j] for i, j in names]
    most = max(len(f.corners) for f in faces)
    corners = np.array([[*f.corners, *([f.corners[0]] * (most - len(f.corners)))] for f in faces])
    count = np.bincount([i for i, _ in names], minlength=len(soup.cells)).astype(np.int64)
    start = np.concatenate(([0], np.cumsum(count)[:-1]))
    return Faces(
        np.array([f.plane.normal for f in faces]),
        np.array([f.plane.offset for f in faces]),
        corners,
        corners.min(axis=1),
        corners.max(axis=1),
        start,
        count,
        tuple(names),
    )


def contacts(soup: Soup, a: Ints, b: Ints, reach: float) -> dict[Pair, list[Patch]]:
    """Return the patches of every pair of parts that come within `reach` mm, largest first; keys are part indexes.

    A pair's patches lie on the part with the lower index, and their normals point out of it.
    """
    faces = faces_of(soup)
    found: dict[Pair, list[Patch]] = defaultdict(list)
    for i, j in zip(*_facing(faces, a, b, reach), strict=True):
        (cell_a, face_a), (cell_b, face_b) = faces.names[i], faces.names[j]
        pa, pb = int(soup.part_of[cell_a]), int(soup.part_of[cell_b])
        first, second = soup.cells[cell_a].faces[face_a], soup.cells[cell_b].faces[face_b]
        patch = face_patch(soup.parts[pa].id, first, soup.parts[pb].id, second, reach)
        if patch is not None:
            found[(pa, pb)].append(patch)
    for patches in found.values():
        patches.sort(key=lambda p: (-round(p.area, 3), p.side_a, p.side_b))
    return dict(sorted(found.items()))


def _facing(faces: Faces, a: Ints, b: Ints, reach: float) -> tuple[list[int], list[int]]:
    """Return the pairs of faces that look at each other and come within reach, of pairs of cells."""
    combos = faces.count[a] * faces.count[b]
    which = np.repeat(np.arange(a.size), combos)
    within = np.arange(which.size) - np.repeat(np.cumsum(combos) - combos, combos)
    i = faces.start[a[which]] + within // faces.count[b[which]]
    j = faces.start[b[which]] + within % faces.count[b[which]]
    keep = np.einsum("pk,pk->p", faces.normals[i], faces.normals[j]) < FACING
    i, j = i[keep], j[keep]
    keep = np.all(faces.low[i] <= faces.high[j] + reach, axis=1) & np.all(faces.low[j] <= faces.high[i] + reach, axis=1)
    i, j = i[keep], j[keep]
    heights = (faces.corners[i] @ faces.normals[j][:, :, None])[:, :, 0] - faces.offsets[j][:, None]
    keep = (heights.min(axis=1) <= reach) & (heights.max(axis=1) >= -reach)
    return i[keep].tolist(), j[keep].tolist()
