"""Can a part slide away along a straight line? The body is swept to infinity and tried against every other part.

Two convex bodies that do not share space are parted by an axis n. Where the motion does not close the gap along n they
never meet. Where it does, and their shadows along d overlap, they do: a line along d passes both, the moving one first.
So the axes are found once for all directions, and each direction asks for shadows only.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from .arcs import cross, parted_by
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
        meets &= self.parting.towards(d)
        a, b = np.nonzero(meets)
        for which, moving, still in soup.pairs_by_block(a, b):
            shaded = ~shadows_apart(moving, still, d, self.fit)
            hits[a[which[shaded]], b[which[shaded]]] = True
        found = [0] * len(soup.parts)
        for i, j in zip(*np.nonzero(hits), strict=True):
            found[int(soup.part_of[i])] |= 1 << int(soup.part_of[j])
        return found

    @cached_property
    def parting(self) -> "Parting":
        """The axes that part the cells where they stand; they are the same for all directions."""
        return Parting.of(self.soup, self.fit)


@dataclass(frozen=True, slots=True)
class Parting:
    """For every two cells an axis (n, n, 3) that parts them, from the first to the second; `none` where none does."""

    axes: Floats
    none: Truths

    @classmethod
    def of(cls, soup: Soup, fit: float) -> "Parting":
        """Part all cells: their boxes first, and what boxes do not part by its own faces and edges."""
        ahead = soup.low[None, :, :] - soup.high[:, None, :]  # the second lies this far beyond the first along x, y, z
        both = np.concatenate([ahead, ahead.transpose(1, 0, 2)], axis=2)
        best = both.argmax(axis=2)
        signs = np.vstack([np.eye(3), -np.eye(3)])
        axes = signs[best]
        parted = np.take_along_axis(both, best[:, :, None], axis=2)[:, :, 0] >= -fit
        parted |= soup.part_of[:, None] == soup.part_of[None, :]
        a, b = np.nonzero(np.triu(~parted, 1))
        for which, one, other in soup.pairs_by_block(a, b):
            gap, way = parted_by(one, other)
            k = which[gap >= -fit]
            way = way[gap >= -fit]
            axes[a[k], b[k]], axes[b[k], a[k]] = -way, way
            parted[a[k], b[k]] = parted[b[k], a[k]] = True
        return cls(axes, ~parted)

    def towards(self, d: Floats) -> Truths:
        """Return whether the first of every two cells comes nearer to the second along a direction (n, n)."""
        found: Truths = (self.axes @ d > CLOSES) | self.none
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


def shadows_apart(moving: Block, still: Block, d: Floats, fit: float) -> Truths:
    """Return for pairs of bodies whether their shadows along d share no more than `fit` mm.

    Shadows are convex and flat, so an axis square to an edge of one of them parts them if any does.
    """
    axes = np.concatenate([cross(moving.edges, d), cross(still.edges, d)], axis=1)
    length = np.sqrt((axes * axes).sum(axis=2))
    usable = length > 1e-6
    axes = axes / np.where(usable, length, 1.0)[:, :, None]
    on_moving = axes @ moving.corners.transpose(0, 2, 1)
    on_still = axes @ still.corners.transpose(0, 2, 1)
    gap = np.maximum(on_still.min(axis=2) - on_moving.max(axis=2), on_moving.min(axis=2) - on_still.max(axis=2))
    found: Truths = (usable & (gap >= -fit)).any(axis=1)
    return found
