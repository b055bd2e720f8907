"""The dearest two-stage filling of one sheet at given worths of the pieces: two knapsacks, one inside the other.

P. C. Gilmore and R. E. Gomory, "Multistage cutting stock problems of two and more dimensions", Operations Research 13
(1965), 94-120: first the best strip of every width that some piece has, then the best set of strips for the sheet.
The strips of all widths come from one table, because a wider strip may hold whatever a narrower one may.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import gcd

import numpy as np
from numpy.typing import NDArray

from .sheets import FIRST_AXIS, Shape, SheetProblem

CELLS = 16_000  # of a table at most; longer sheets are measured more coarsely
_LOT_UNITS = 3  # of effort for one lot in a table, and one more for so many cells:
_CELLS_A_UNIT = 1_500

Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Item:
    """A kind in one permitted orientation: cells along a strip, which of the widths it has, how many there may be."""

    kind: int
    along: int
    width: int
    most: int


@dataclass(frozen=True, slots=True)
class Strips:
    """One stock cut into strips side by side. `widths` are those the strips may have, in cells, narrow first."""

    stock: int
    items: tuple[Item, ...]  # narrow first
    widths: tuple[int, ...]
    along: int  # cells of a strip's length
    across: int  # cells for all strips side by side

    @property
    def work(self) -> int:
        """Units of effort, about a microsecond each, that filling a sheet takes."""
        wide = [0] * len(self.widths)
        inner = 0
        for i in self.items:
            wide[i.width] += i.most
            inner += _most_lots(i.along, i.most, self.along)
        outer = sum(_most_lots(width, n, self.across) for width, n in zip(self.widths, wide, strict=True))
        units = _LOT_UNITS + self.along // _CELLS_A_UNIT, _LOT_UNITS + self.across // _CELLS_A_UNIT
        return inner * units[0] + outer * units[1]


def _most_lots(size: int, most: int, capacity: int) -> int:
    """In how many lots up to `most` of a thing are taken."""
    return (min(most, capacity // size) if size else most).bit_length()


def strips_of(problem: SheetProblem) -> tuple[Strips, ...]:
    """Return every way to begin a two-stage cutting of a sheet, for all pieces that are in no group.

    The first stage parts a sheet across x or across y. A first cut asked for in one direction may merely take waste
    off, at least 0.01 mm of it, because trimming counts as no stage; after that the first stage may go either way.
    """
    held = FIRST_AXIS[problem.cutting.first_cut]
    found = []
    for stock, (x, y) in enumerate(problem.sizes):
        for axis in (0, 1):
            trimmed = (x - (held == 0), y - (held == 1)) if held == 1 - axis else (x, y)
            strips = strips_across(problem, stock, axis, trimmed)
            if strips.items:
                found.append(strips)
    return tuple(found)


def strips_across(problem: SheetProblem, stock: int, axis: int, room: Shape) -> Strips:
    """Measure, in cells, the pieces of one stock whose first stage parts `room` along `axis` (0 x, 1 y).

    Cells are exact where a common divisor of all sizes allows. Otherwise pieces and room are rounded down to whole
    cells alike. What fits still fits then, because floors of summands never add up to more than the floor of their
    sum; so the dearest filling in cells is worth no less than the dearest one in 0.01 mm.
    """
    shapes = [
        (shape[1 - axis], shape[axis], k)
        for k, kind in enumerate(problem.kinds)
        if len(kind.blocks[0].members) == 1
        for bit, shape in enumerate(kind.shapes)
        if kind.allowed[stock] >> bit & 1 and shape[0] <= room[0] and shape[1] <= room[1]
    ]
    along = _cell(room[1 - axis], [length for length, _, _ in shapes])
    across = _cell(room[axis], [width for _, width, _ in shapes])
    widths = sorted({width // across for _, width, _ in shapes})
    items = [
        Item(k, length // along, widths.index(width // across), problem.kinds[k].demand) for length, width, k in shapes
    ]
    items.sort(key=lambda i: (i.width, i.kind, i.along))
    return Strips(stock, tuple(items), tuple(widths), room[1 - axis] // along, room[axis] // across)


def _cell(room: int, sizes: list[int]) -> int:
    """Return how many 0.01 mm one cell is."""
    exact = max(1, gcd(*sizes))
    return exact * max(1, -(-(room // exact) // CELLS))


@dataclass(slots=True)
class BestStrip:
    """The best strip of one width: what it is worth, how many there may be, the rows of the table it comes from."""

    width: int
    value: int
    most: int
    rows: int


@dataclass(frozen=True, slots=True)
class Filling:
    """The dearest filling of a sheet: its worth, the best strips there are, how many of which width it takes."""

    value: int
    strips: tuple[BestStrip, ...]
    used: dict[int, int]
    _table: "_Table"

    def pieces(self, strip: BestStrip) -> dict[int, int]:
        """How many of each kind are in one of the best strips."""
        counts: dict[int, int] = {}
        for kind, n in self._table.chosen(strip.rows):
            counts[kind] = counts.get(kind, 0) + n
        return counts


def dearest(strips: Strips, worth: list[int]) -> Filling:
    """Return the filling of a sheet that is worth most, where a strip holds no more of a kind than is asked for.

    Worths by kind, not negative. A sheet has no more strips of one width than there are pieces just as wide, because
    any strip may be narrowed to its widest piece of any worth.
    """
    inner, outer = _Table(strips.along), _Table(strips.across)
    best: list[BestStrip] = []
    items = iter(strips.items)
    item = next(items, None)
    for index, width in enumerate(strips.widths):
        pieces = 0
        while item is not None and item.width == index:
            if worth[item.kind] > 0:
                inner.add(item.kind, item.along, worth[item.kind], item.most)
                pieces += item.most
            item = next(items, None)
        if best and inner.value == best[-1].value:
            best[-1].most += pieces  # no better than the narrower strip, which stands for both
        elif pieces:
            best.append(BestStrip(width, inner.value, pieces, inner.rows))
    for strip in best:
        outer.add(strip.width, strip.width, strip.value, strip.most)
    used: dict[int, int] = {}
    for width, n in outer.chosen(outer.rows):
        used[width] = used.get(width, 0) + n
    return Filling(outer.value, tuple(best), used, inner)


@dataclass(slots=True)
class _Table:
    """A knapsack for every room up to a capacity, from which the things chosen can be read back."""

    capacity: int
    _best: Ints = field(init=False)
    _lots: list[tuple[int, int, int]] = field(default_factory=list)  # thing, how many of it, their size
    _taken: list[NDArray[np.bool_]] = field(default_factory=list)  # by lot, for every room not smaller than it

    def __post_init__(self) -> None:
        self._best = np.zeros(self.capacity + 1, dtype=np.int64)

    @property
    def value(self) -> int:
        """What the whole capacity can be filled with at most."""
        return int(self._best[-1])

    @property
    def rows(self) -> int:
        """How many lots there are so far."""
        return len(self._lots)

    def add(self, thing: int, size: int, value: int, most: int) -> None:
        """Allow up to `most` of a thing: in lots of 1, 2, 4, … and a rest, which make up any number."""
        left = min(most, self.capacity // size) if size else most
        lot = 1
        while left > 0:
            n = min(lot, left)
            candidate = self._best[: self.capacity + 1 - n * size] + n * value
            without = self._best[n * size :]
            self._taken.append(candidate > without)
            self._lots.append((thing, n, n * size))
            np.maximum(candidate, without, out=without)
            left -= n
            lot *= 2

    def chosen(self, rows: int) -> Iterator[tuple[int, int]]:
        """Yield (thing, how many) of the best filling from the first `rows` lots."""
        room = self.capacity
        for row in range(rows - 1, -1, -1):
            thing, n, size = self._lots[row]
            if room >= size and self._taken[row][room - size]:
                room -= size
                yield thing, n
