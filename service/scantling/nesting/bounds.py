"""Lower bounds on what a set of rectangles must cost in sheets, whatever the cuts.

A dual feasible function f maps sizes to sizes so that whatever fits side by side in W still fits in f(W). A pair of
them (one along x, one along y) gives each piece a volume, and the volumes in one sheet never exceed one sheet:
S. P. Fekete and J. Schepers, "New classes of fast lower bounds for bin packing problems", Math. Programming 91
(2001); J. Carlier, F. Clautiaux and A. Moukrim, "New reduction procedures and lower bounds for the two-dimensional
bin packing problem with fixed orientation", Computers & Operations Research 34 (2007). All in integers.
"""

from dataclasses import dataclass
from math import gcd
from typing import Any

import numpy as np

from .kernel import best_pair
from .sheets import SheetProblem

_SHEET = 2**40  # one sheet's volume
CAREFUL = 160  # functions of one direction at most, thinned evenly above that
QUICK = 32  # the same before the first answer, which shall not wait
_MOST_NODES = 20_000  # of the search for the cheapest cover

Table = np.ndarray[Any, np.dtype[np.int64]]


@dataclass(frozen=True, slots=True)
class Bound:
    """The least a solution can cost, and how many sheets it needs at least."""

    cost: int
    sheets: int


def lower_bound(problem: SheetProblem, functions: int = CAREFUL) -> Bound:
    """Return the best of the bounds known here: volume under dual feasible functions, covered at least price.

    `functions` is about how many of one direction are tried: with fewer the bound is quicker, and may be lower.
    """
    if not problem.kinds:
        return Bound(0, 0)
    volumes = [_volumes_on(problem, t, functions) for t in range(len(problem.stock))]
    largest = max(x * y for x, y in problem.sizes)
    sheets = max(1, -(-sum(k.area * k.demand for k in problem.kinds) // largest))
    cost = max(cheapest_cover(problem, subset) for subset in _stock_sets(problem))
    if len(problem.stock) == 1:
        sheets = max(sheets, volumes[0].sheets)
        cost = max(cost, sheets * problem.costs[0])
    else:
        cost = max(cost, _priced(problem, volumes))
    return Bound(_payable(problem, cost), sheets)


def _stock_sets(problem: SheetProblem) -> list[frozenset[int]]:
    """All sheets, and every set of sheets to which some kind is confined."""
    stocks = range(len(problem.stock))
    sets = {frozenset(t for t in stocks if k.allowed[t]) for k in problem.kinds}
    return sorted({*sets, frozenset(stocks)}, key=sorted)


def _payable(problem: SheetProblem, cost: int) -> int:
    """Round a bound up to the next amount that whole sheets can cost, as far as one price divides all."""
    step = gcd(*problem.costs)
    return -(-cost // step) * step if step else cost


@dataclass(frozen=True, slots=True)
class _Volumes:
    """For one stock: the volume of each kind (None: not allowed there) in 2^40ths of a sheet, and the sheets needed."""

    volume: tuple[int | None, ...]
    sheets: int


def _priced(problem: SheetProblem, volumes: list[_Volumes]) -> int:
    """Price every piece by its volume on the sheet where that is cheapest; limited sheets are priced up and paid back.

    For prices p that do not exceed the cost of an unlimited sheet, the sum over pieces of the least p x volume, less
    quantity x (p - cost) for every limited sheet priced above its cost, is a lower bound (Lagrangian duality).
    """
    areas = [x * y for x, y in problem.sizes]
    unlimited = [t for t, q in enumerate(problem.limits) if q is None]
    best = 0
    for rate in sorted({(problem.costs[t], areas[t]) for t in unlimited} or {(0, 1)}):
        prices = []
        for t, cost in enumerate(problem.costs):
            level = rate[0] * areas[t] // rate[1]
            prices.append(min(cost, level) if problem.limits[t] is None else max(cost, level))
        for candidate in (prices, list(problem.costs)):
            best = max(best, _dual_value(problem, volumes, candidate))
    return best


def _dual_value(problem: SheetProblem, volumes: list[_Volumes], prices: list[int]) -> int:
    total = 0
    for k, kind in enumerate(problem.kinds):
        total += kind.demand * min(
            p * v for p, v in ((prices[t], w.volume[k]) for t, w in enumerate(volumes)) if v is not None
        )
    value = -(-total // _SHEET)
    for price, cost, limit in zip(prices, problem.costs, problem.limits, strict=True):
        if limit is not None:
            value -= limit * max(0, price - cost)
    return value


def _functions(capacity: int, sizes: Table, counts: Table, most: int = CAREFUL) -> tuple[Table, Table]:
    """Rows of f(size) and the column of f(capacity) for a family of functions; `counts`: pieces of each size.

    About `most` rows, and those that need no mark to begin at.
    """
    marks = sorted(
        {int(s) for s in sizes if 2 * s <= capacity} | {int(capacity - s) for s in sizes if 2 * s > capacity}
    )
    marks = [m for m in marks if m > 0 and 2 * m <= capacity]
    if len(marks) > most // 2:
        marks = [marks[i * len(marks) // (most // 2)] for i in range(most // 2)]
    rows, caps = [sizes], [capacity]
    for k in range(1, 9):
        many = (k + 1) * sizes
        rows.append(np.where(many % capacity == 0, k * sizes, many // capacity * capacity))
        caps.append(k * capacity)
    for m in marks:
        rows.append(np.where(sizes > capacity - m, capacity, np.where(sizes < m, 0, sizes)))
        caps.append(capacity)
        whole = capacity // m
        small = np.where(2 * sizes == capacity, whole, 2 * (sizes // m))
        rows.append(np.where(2 * sizes > capacity, 2 * (whole - (capacity - sizes) // m), small))
        caps.append(2 * whole)
        beside, fitting = _counting(capacity, sizes, counts, m)
        if fitting:
            rows.append(beside)
            caps.append(fitting)
    return np.stack(rows), np.array(caps, dtype=np.int64)


def _counting(capacity: int, sizes: Table, counts: Table, m: int) -> tuple[Table, int]:
    """Count pieces of at least `m` and at most half the capacity: one each; a larger one counts how many it ousts.

    How many fit at most beside each other is known because the smallest fit best (Carlier, Clautiaux and Moukrim's
    function that depends on the data). Returns f(size) and f(capacity).
    """
    small = (sizes >= m) & (2 * sizes <= capacity)
    order = np.argsort(sizes[small], kind="stable")
    own, count = sizes[small][order], np.minimum(counts[small][order], capacity // m)
    reach = np.concatenate([[0], np.cumsum(own * count)])
    so_far = np.concatenate([[0], np.cumsum(count)])
    next_size = np.append(own, 2 * capacity + 1)  # none beyond the last

    def fitting(room: Table) -> Table:
        at = np.searchsorted(reach, room, side="right") - 1
        return np.asarray(so_far[at] + (room - reach[at]) // next_size[at], dtype=np.int64)

    most = fitting(np.array([capacity], dtype=np.int64))
    ousted = most - fitting(np.maximum(capacity - sizes, 0))
    return np.where(2 * sizes > capacity, ousted, np.where(small, 1, 0)), int(most[0])


def _volumes_on(problem: SheetProblem, stock: int, functions: int) -> _Volumes:
    """The volumes under the pair of functions that asks for most sheets, were all pieces to lie on this stock."""
    indices, shapes, seconds, demand = [], [], [], []
    volume: list[int | None] = [0 if k.allowed[stock] else None for k in problem.kinds]
    for index, kind in enumerate(problem.kinds):
        permitted = [s for bit, s in enumerate(kind.shapes) if kind.allowed[stock] >> bit & 1]
        if permitted and len(kind.blocks[0].members) == 1:
            indices.append(index)
            shapes.append(permitted[0])
            seconds.append(permitted[-1])
            demand.append(kind.demand)
    if not shapes:
        return _Volumes(tuple(volume), 0)
    width, height = problem.sizes[stock]
    both = np.array([*shapes, *seconds], dtype=np.int64)
    n, count = len(shapes), np.array(demand, dtype=np.int64)
    f, f_cap = _functions(width, both[:, 0], _either_way(both[:, 0], count), functions)
    g, g_cap = _functions(height, both[:, 1], _either_way(both[:, 1], count), functions)
    sheets, row, column = best_pair(f, f_cap, g, g_cap, count)
    capacity = int(f_cap[row]) * int(g_cap[column])
    for i, index in enumerate(indices):
        least = min(int(f[row, i]) * int(g[column, i]), int(f[row, n + i]) * int(g[column, n + i]))
        volume[index] = least * _SHEET // capacity
    return _Volumes(tuple(volume), sheets)


def _either_way(extents: Table, count: Table) -> Table:
    """How many pieces have each extent, lying and turned; a piece with one extent either way is counted once."""
    lying, turned = np.split(extents, 2)
    return np.concatenate([count, np.where(lying == turned, 0, count)])


def cheapest_cover(problem: SheetProblem, stocks: frozenset[int]) -> int:
    """The least cost of sheets of `stocks` with at least the area of the pieces that can come from no other.

    A covering knapsack, solved by branching. Gives up after a fixed number of nodes with the fractional bound, which
    is lower. Stock that cannot cover the area at all is taken as unlimited.
    """
    area = 0
    for kind in problem.kinds:
        if all(t in stocks for t, bits in enumerate(kind.allowed) if bits):
            area += kind.area * kind.demand
    own = sorted(stocks)
    areas = [problem.sizes[t][0] * problem.sizes[t][1] for t in own]
    costs = [problem.costs[t] for t in own]
    limits: list[int] = []
    for size, t in zip(areas, own, strict=True):
        most, limit = -(-area // size), problem.limits[t]
        limits.append(most if limit is None else min(limit, most))
    if sum(a * q for a, q in zip(areas, limits, strict=True)) < area:
        limits = [-(-area // a) for a in areas]
    order = sorted(range(len(areas)), key=lambda i: (costs[i] * 10**12 // areas[i], -areas[i]))
    cover = _Cover([areas[i] for i in order], [costs[i] for i in order], [limits[i] for i in order])
    return cover.solve(area)


@dataclass(slots=True)
class _Cover:
    """Covering knapsack over stocks in order of price by area."""

    areas: list[int]
    costs: list[int]
    limits: list[int]
    nodes: int = 0
    best: int | None = None

    def solve(self, need: int) -> int:
        floor = self._fraction(0, need)
        self._branch(0, need, 0)
        return floor if self.nodes > _MOST_NODES or self.best is None else self.best

    def _fraction(self, first: int, need: int) -> int:
        """The least cost when sheets may be cut up and paid for by area, rounded up."""
        cost = 0
        for t in range(first, len(self.areas)):
            if need <= 0:
                break
            take = min(need, self.areas[t] * self.limits[t])
            cost += -(-take * self.costs[t] // self.areas[t]) if take == need else self.costs[t] * self.limits[t]
            need -= take
        return cost if need <= 0 else 10**18

    def _branch(self, first: int, need: int, cost: int) -> None:
        self.nodes += 1
        if self.nodes > _MOST_NODES:
            return
        if need <= 0:
            self.best = cost if self.best is None else min(self.best, cost)
            return
        if first == len(self.areas):
            return
        if self.best is not None and cost + self._fraction(first, need) >= self.best:
            return
        most = min(self.limits[first], -(-need // self.areas[first]))
        for n in range(most, -1, -1):
            self._branch(first + 1, need - n * self.areas[first], cost + n * self.costs[first])
