"""The search for the cheapest sheets of one material and thickness, in slices of work that can be resumed.

The order of the slices never depends on how much effort there is in all, so more effort continues the same search
and never gives worse.
"""

from collections import Counter
from dataclasses import dataclass, field, replace
from math import gcd

from .bounds import Bound, lower_bound
from .kernel import RAW_STEPS, Search
from .sheet_trees import Tree, read_solution
from .sheets import SheetProblem

FIRST_SLICE = 2_000  # units of effort: the first answer
START_SLICE = 6_000  # units of effort for each further start
_LARGEST = 2**62


@dataclass(slots=True)
class SheetSearch:
    """A resumable search. `cost` and `bound` are in the objective's units; `work` in units of effort."""

    problem: SheetProblem
    seed: int
    bound: Bound = field(init=False)
    work: int = 0
    _unit: int = 1  # kernel cost of one unit of the objective
    _shared: int = 1  # what all the objective's costs have in common
    _main: Search | None = None
    _starts: list[tuple[tuple[int, ...], ...]] = field(default_factory=list)
    _started: int = 0
    _target: int = 0

    def __post_init__(self) -> None:
        self.bound = lower_bound(self.problem)
        if not self.problem.kinds:
            return
        costs = self._kernel_costs()
        target = self.bound.cost // self._shared * self._unit + self._unit - 1
        allowed = tuple(k.allowed for k in self.problem.kinds)
        self._main = Search(self.problem.kernel_problem(costs, target, allowed), self.seed)
        self._starts = self._other_starts(allowed)
        self._target = target

    def _kernel_costs(self) -> tuple[int, ...]:
        """Cost first, then size: among equally cheap sheets fewer and smaller ones."""
        costs, sizes = self.problem.costs, self.problem.sizes
        self._shared = max(1, gcd(*costs))
        largest = max(x * y for x, y in sizes)
        small = [-(-x * y * 64 // largest) for x, y in sizes]
        sheets = sum(k.demand for k in self.problem.kinds)
        unit = sheets * 64 + 1
        if max(costs) // self._shared * sheets * unit > _LARGEST // 1024:
            unit, small = 1, [0] * len(costs)
        self._unit = unit
        return tuple(c // self._shared * unit + s for c, s in zip(costs, small, strict=True))

    def _other_starts(self, allowed: tuple[tuple[int, ...], ...]) -> list[tuple[tuple[int, ...], ...]]:
        """Starts with less freedom: nothing turned, and each stock alone for what fits on it."""
        starts = []
        locked = tuple(tuple(bits & -bits for bits in row) for row in allowed)
        if locked != allowed:
            starts.append(locked)
        stocks = len(self.problem.stock)
        for t in range(stocks if stocks > 1 else 0):
            starts.append(tuple(tuple(b if i == t or not row[t] else 0 for i, b in enumerate(row)) for row in allowed))
        return starts

    @property
    def complete(self) -> bool:
        """True where everything is placed."""
        return self._main is None or (self._main.work > 0 and self._main.missing == 0)

    @property
    def cost(self) -> int:
        """Cost of the best solution, in the objective's units."""
        return 0 if self._main is None else self._main.cost // self._unit * self._shared

    @property
    def proven(self) -> bool:
        """True where nothing cheaper can exist."""
        return self.complete and self.cost <= self.bound.cost

    @property
    def gap(self) -> int:
        """What might still be saved, in the objective's units."""
        return max(0, self.cost - self.bound.cost)

    def advance(self, units: int) -> None:
        """Spend up to `units` more of effort (a step is never cut in two, so the last one may run over)."""
        goal = self.work + units
        while self._main is not None and self.work < goal and not self.proven:
            if not self._main.work:
                self._run(self._main, min(goal - self.work, FIRST_SLICE))
            elif self._started < len(self._starts):
                self._try_start(self._starts[self._started])
            else:
                self._run(self._main, goal - self.work)

    def _run(self, search: Search, units: int) -> None:
        before = search.work
        search.run(before + units * RAW_STEPS)
        self.work += max(1, -(-(search.work - before) // RAW_STEPS))

    def _try_start(self, allowed: tuple[tuple[int, ...], ...]) -> None:
        assert self._main is not None  # noqa: S101 - for the type checker
        self._started += 1
        problem = self.problem.kernel_problem(self._kernel_costs(), self._target, allowed)
        start = Search(problem, self.seed)
        self._run(start, START_SLICE)
        self._main.offer(start.best())
        start.close()

    def bound_of_placed(self, missing: Counter[int]) -> int:
        """A bound for what is placed alone, where some pieces (by index) are missing."""
        kinds = tuple(
            replace(k, demand=max(0, k.demand - min(k.demand, sum(missing[i] for i, _ in k.owners))))
            for k in self.problem.kinds
        )
        return lower_bound(replace(self.problem, kinds=tuple(k for k in kinds if k.demand))).cost

    def solution(self) -> list[tuple[int, Tree]]:
        """Return (stock index, tree of cuts) of each sheet of the best solution."""
        return [] if self._main is None else read_solution(self._main.best(), self.problem)
