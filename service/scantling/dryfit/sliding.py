"""Can a part slide away along a straight line? The body is swept to infinity and tried against every other part.

A body moving along d misses another for ever when an axis n parts them now and the motion does not close the gap
along n. The axes to try are the face normals of both, the cross products of their edges, and of their edges with d.
"""

import numpy as np
from numpy.typing import NDArray

from .arrays import Block, Floats, Soup

CLOSES = 1e-7
Direction = tuple[float, float, float]
Truths = NDArray[np.bool_]


class Sweeps:
    """For every direction asked for: which parts each part runs into when it slides that way, as bits by index."""

    def __init__(self, soup: Soup, fit: float) -> None:
        self.soup, self.fit = soup, fit
        self._known: dict[Direction, list[int]] = {}

    def blocked_by(self, part: int, direction: Direction) -> int:
        """Return the parts that `part` runs into on its way along a unit direction to infinity."""
        return self._table(direction)[part]

    def group_blocked_by(self, group: int, direction: Direction) -> int:
        """Return the parts outside a group (bits) that any of its parts runs into."""
        table, found, left = self._table(direction), 0, group
        while left:
            low = left & -left
            found |= table[low.bit_length() - 1]
            left ^= low
        return found & ~group

    def _table(self, direction: Direction) -> list[int]:
        if direction in self._known:
            return self._known[direction]
        key = (round(direction[0], 6) + 0.0, round(direction[1], 6) + 0.0, round(direction[2], 6) + 0.0)
        if key not in self._known:
            table = self._swept(np.array(direction))
            opposite = (0.0 - key[0], 0.0 - key[1], 0.0 - key[2])
            self._known[key], self._known[opposite] = table, _turned_round(table)
        return self._known[key]

    def _swept(self, d: Floats) -> list[int]:
        soup = self.soup
        n = len(soup.cells)
        meets = soup.part_of[:, None] != soup.part_of[None, :]
        for k in range(3):
            low, high = soup.low[:, k] + self.fit, soup.high[:, k] - self.fit
            if d[k] < CLOSES:  # not rising along k: what lies wholly above is never met
                meets &= high[:, None] >= soup.low[None, :, k]
            if d[k] > -CLOSES:  # not sinking along k
                meets &= low[:, None] <= soup.high[None, :, k]
        hits = np.zeros((n, n), dtype=bool)
        if np.abs(d).max() > 1 - CLOSES:  # along an axis, boxes that stand square have their answer already
            hits = meets & soup.square[:, None] & soup.square[None, :]
            meets &= ~hits
        a, b = np.nonzero(meets)
        for which, moving, still in soup.pairs_by_block(a, b):
            collide = ~misses(moving, still, d, self.fit)
            hits[a[which[collide]], b[which[collide]]] = True
        found = [0] * len(soup.parts)
        for i, j in zip(*np.nonzero(hits), strict=True):
            found[int(soup.part_of[i])] |= 1 << int(soup.part_of[j])
        return found


def _turned_round(table: list[int]) -> list[int]:
    """Return the table of the opposite direction: i runs into j one way as j runs into i the other way."""
    found = [0] * len(table)
    for i, met in enumerate(table):
        left = met
        while left:
            low = left & -left
            found[low.bit_length() - 1] |= 1 << i
            left ^= low
    return found


def misses(moving: Block, still: Block, d: Floats, fit: float) -> Truths:
    """Return for pairs of bodies whether the first, moving along d for ever, never enters the second by over `fit`."""
    away = moving.normals @ d <= CLOSES
    gap = (moving.normals @ still.corners.transpose(0, 2, 1)).min(axis=2) - moving.offsets
    free: Truths = (away & (gap >= -fit)).any(axis=1)
    off = still.normals @ d >= -CLOSES
    gap = (still.normals @ moving.corners.transpose(0, 2, 1)).min(axis=2) - still.offsets
    free |= (off & (gap >= -fit)).any(axis=1)
    left = np.flatnonzero(~free)
    if left.size:
        free[left] = _misses_by_edges(moving.take(left), still.take(left), d, fit)
    return free


def _misses_by_edges(moving: Block, still: Block, d: Floats, fit: float) -> Truths:
    m = moving.edges.shape[0]
    crossed = np.cross(moving.edges[:, :, None, :], still.edges[:, None, :, :]).reshape(m, -1, 3)
    axes = np.concatenate([crossed, np.cross(moving.edges, d), np.cross(still.edges, d)], axis=1)
    length = np.sqrt((axes * axes).sum(axis=2))
    usable = length > 1e-6
    axes = axes / np.where(usable, length, 1.0)[:, :, None]
    on_moving = axes @ moving.corners.transpose(0, 2, 1)
    on_still = axes @ still.corners.transpose(0, 2, 1)
    speed = axes @ d
    below = (on_still.min(axis=2) - on_moving.max(axis=2) >= -fit) & (speed <= CLOSES)
    above = (on_moving.min(axis=2) - on_still.max(axis=2) >= -fit) & (speed >= -CLOSES)
    found: Truths = (usable & (below | above)).any(axis=1)
    return found
