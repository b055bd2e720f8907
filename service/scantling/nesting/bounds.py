"""Lower bounds on what a set of rectangles must cost in sheets, whatever the cuts.

A dual feasible function f maps sizes to sizes so that whatever fits side by side in W still fits in f(W). A pair of
them (one along x, one along y) gives each piece a volume, and the volumes in one sheet never exceed one sheet:
S. P. Fekete and J. Schepers, "New classes of fast lower bounds for bin packing problems", Math. Programming 91
(2001); J. Carlier, F. Clautiaux and A. Moukrim, "New reduction procedures and lower bounds for the two-dimensional
bin packing problem with fixed orientation", Computers & Operations Research 34 (2007). All in integers.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np

from .sheets import SheetProblem

_MOST_FUNCTIONS = 160  # of one direction; thinned evenly above that
_MOST_NODES = 20_000  # of the search for the cheapest cover
_CHUNK = 2_000_000  # cells of one block of pairs

Table = np.ndarray[Any, np.dtype[np.int64]]


@dataclass(frozen=True, slots=True)
class Bound:
    """The least a solution can cost, and how many sheets it needs at least."""

    cost: int
    sheets: int


def lower_bound(problem: SheetProblem) -> Bound:
    """Return the best of the bounds known here: volume under dual feasible functions, covered at least price."""
    if not problem.kinds:
        return Bound(0, 0)
    single = [_sheets_alone(problem, t) for t in range(len(problem.stock))]
    largest = max(x * y for x, y in problem.sizes)
    area = sum(k.area * k.demand for k in problem.kinds)
    cost = cheapest_cover(problem, area)
    sheets = -(-area // largest)
    if len(problem.stock) == 1:
        sheets = max(sheets, single[0])
        cost = max(cost, single[0] * problem.costs[0])
    return Bound(cost, max(1, sheets))


def _functions(capacity: int, sizes: Table) -> tuple[Table, Table]:
    """Rows of f(size) and the column of f(capacity) for a family of dual feasible functions."""
    marks = sorted(
        {int(s) for s in sizes if 2 * s <= capacity} | {int(capacity - s) for s in sizes if 2 * s > capacity}
    )
    marks = [m for m in marks if m > 0 and 2 * m <= capacity]
    if len(marks) > _MOST_FUNCTIONS // 2:
        marks = [marks[i * len(marks) // (_MOST_FUNCTIONS // 2)] for i in range(_MOST_FUNCTIONS // 2)]
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
    return np.stack(rows), np.array(caps, dtype=np.int64)


def _sheets_alone(problem: SheetProblem, stock: int) -> int:
    """How many sheets of one stock the pieces that may lie on it need at least."""
    shapes, seconds, demand = [], [], []
    for kind in problem.kinds:
        if len(kind.blocks[0].members) > 1:
            continue
        permitted = [s for bit, s in enumerate(kind.shapes) if kind.allowed[stock] >> bit & 1]
        if permitted:
            shapes.append(permitted[0])
            seconds.append(permitted[-1])
            demand.append(kind.demand)
    if not shapes:
        return 0
    width, height = problem.sizes[stock]
    first, second = np.array(shapes, dtype=np.int64), np.array(seconds, dtype=np.int64)
    count = np.array(demand, dtype=np.int64)
    both = np.concatenate([first, second])
    f, f_cap = _functions(width, both[:, 0])
    g, g_cap = _functions(height, both[:, 1])
    return _best_pair(f, f_cap, g, g_cap, count)


def _best_pair(f: Table, f_cap: Table, g: Table, g_cap: Table, count: Table) -> int:
    """The largest number of sheets over all pairs; a piece that may turn counts with its smaller volume."""
    n = len(count)
    best = 0
    step = max(1, _CHUNK // (len(g) * n))
    for start in range(0, len(f), step):
        part = f[start : start + step]
        lying = part[:, None, :n] * g[None, :, :n]
        turned = part[:, None, n:] * g[None, :, n:]
        volume = (np.minimum(lying, turned) * count).sum(axis=2)
        capacity = f_cap[start : start + step, None] * g_cap[None, :]
        best = max(best, int((-(-volume // capacity)).max()))
    return best


def cheapest_cover(problem: SheetProblem, area: int) -> int:
    """The least cost of sheets that together have at least `area`: a covering knapsack, solved by branching.

    Gives up after a fixed number of nodes with the fractional bound, which is lower. Stock that cannot cover the
    area at all is taken as unlimited.
    """
    areas = [x * y for x, y in problem.sizes]
    limits: list[int] = []
    for size, limit in zip(areas, problem.limits, strict=True):
        most = -(-area // size)
        limits.append(most if limit is None else min(limit, most))
    if sum(a * q for a, q in zip(areas, limits, strict=True)) < area:
        limits = [-(-area // a) for a in areas]
    order = sorted(range(len(areas)), key=lambda t: (problem.costs[t] * 10**12 // areas[t], -areas[t]))
    cover = _Cover([areas[t] for t in order], [problem.costs[t] for t in order], [limits[t] for t in order])
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
