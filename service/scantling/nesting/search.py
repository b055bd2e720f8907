"""The search for the cheapest sheets of one material and thickness, in slices of work that can be resumed.

The order of the slices never depends on how much effort there is in all, so more effort continues the same search
and never gives worse.

The problem with nothing turned, and with each stock alone (search_starts.py), is searched beside the whole one: each
of n such problems gets START_SLICE after FIRST_SLICE, and then keeps one part in SHARE x n of all the work. So an
answer is never dearer than that of the same problem with less freedom after a SHARE x n-th of the work (or after
START_SLICE, where that is more), once all have begun. This holds for jobs of up to BULK pieces.
"""

from collections import Counter
from dataclasses import dataclass, field, replace
from math import gcd
from typing import Protocol

from .bounds import QUICK, Bound, lower_bound
from .kernel import ANY_STAGES, RAW_STEPS, Search
from .search_starts import LessFreedom, less_freedom
from .sheet_numbers import on_stock
from .sheet_trees import Tree, read_solution
from .sheets import SheetProblem
from .yardstick import pack

FIRST_SLICE = 4_000  # units of effort before other starts are tried
START_SLICE = 2_000  # units of effort at a time for a problem with less freedom
SHARE = 64  # all problems with less freedom together have one part in so many of the work
YARDSTICK_UNITS = 60  # of effort for each piece the packing library places
BULK = 400  # above so many pieces whole sheets are searched instead of all pieces at once
_LARGEST = 2**52


class AnySearch(Protocol):
    """What the rest of the nesting needs of a search. `cost` and `bound` are in the objective's units."""

    problem: SheetProblem
    bound: Bound
    work: int

    @property
    def complete(self) -> bool:
        """True where everything is placed."""

    @property
    def cost(self) -> int:
        """Cost of the best solution."""

    @property
    def proven(self) -> bool:
        """True where nothing cheaper can exist."""

    @property
    def finished(self) -> bool:
        """True where more effort cannot help."""

    @property
    def gap(self) -> int:
        """What might still be saved."""

    def advance(self, units: int) -> None:
        """Spend up to `units` more of effort; a step once begun is finished."""

    def look_closer(self) -> None:
        """After the first answer: work out the bound with care, where the quick one does not prove that answer."""

    def polish(self, units: int, worth: tuple[int, int]) -> None:
        """Spend up to `units` on what is left over, at the same cost; `worth` is the least worth keeping."""

    def solution(self) -> list[tuple[int, Tree]]:
        """Return (stock index, tree of cuts) of each sheet."""

    def bound_of_placed(self, missing: Counter[int]) -> int:
        """A bound for what is placed alone, where some pieces (by index) are missing."""


def make_search(problem: SheetProblem, seed: int) -> AnySearch:
    """Return the search that suits the number of pieces."""
    from .search_bulk import BulkSearch

    if sum(k.demand for k in problem.kinds) > BULK:
        return BulkSearch(problem, seed)
    return SheetSearch(problem, seed)


def kernel_costs(problem: SheetProblem) -> tuple[tuple[int, ...], int, int]:
    """Costs for the kernel: money first, then size, so that among equally cheap sheets fewer and smaller ones win.

    Returns the costs, the kernel's cost of one shared unit, and how much of the objective one shared unit is.
    """
    shared = max(1, gcd(*problem.costs))
    largest = max(x * y for x, y in problem.sizes)
    small = [-(-x * y * 64 // largest) for x, y in problem.sizes]
    sheets = sum(k.demand for k in problem.kinds)
    unit = sheets * 64 + 1
    if max(problem.costs) // shared * sheets * unit > _LARGEST:
        unit, small = 1, [0] * len(small)
    return tuple(c // shared * unit + s for c, s in zip(problem.costs, small, strict=True)), unit, shared


@dataclass(slots=True)
class SearchState:
    """What every search has in common: its problem, its bound, the work it did."""

    problem: SheetProblem
    seed: int
    bound: Bound = field(default=Bound(0, 0))
    work: int = 0
    exhausted: bool = False  # nothing more to try

    def prepare(self) -> None:
        """Work out a quick bound: the first answer does not wait for the careful one."""
        self.bound = lower_bound(self.problem, QUICK)

    def look_closer(self) -> None:
        """After the first answer: work out the bound with care, where the quick one does not prove that answer."""
        if self.proven:
            return
        quick, careful = self.bound, lower_bound(self.problem)
        self.bound = Bound(max(quick.cost, careful.cost), max(quick.sheets, careful.sheets))

    @property
    def complete(self) -> bool:
        """True where everything is placed."""
        raise NotImplementedError

    @property
    def cost(self) -> int:
        """Cost of the best solution, in the objective's units."""
        raise NotImplementedError

    @property
    def proven(self) -> bool:
        """True where nothing cheaper can exist."""
        return self.complete and self.cost <= self.bound.cost

    @property
    def finished(self) -> bool:
        """True where more effort cannot help: proven, or nothing more to try."""
        return self.proven or self.exhausted

    @property
    def gap(self) -> int:
        """What might still be saved, in the objective's units."""
        return max(0, self.cost - self.bound.cost)

    def bound_of_placed(self, missing: Counter[int]) -> int:
        """A bound for what is placed alone, where some pieces (by index) are missing."""
        kinds = tuple(
            replace(k, demand=k.demand - min(k.demand, sum(missing[i] for i, _ in k.owners)))
            for k in self.problem.kinds
        )
        return lower_bound(replace(self.problem, kinds=tuple(k for k in kinds if k.demand))).cost


@dataclass(slots=True)
class _Start:
    """A problem with less freedom, and its search once it has begun."""

    less: LessFreedom
    search: "SheetSearch | None" = None
    offered: int | None = None  # cost of the last solution handed over

    @property
    def work(self) -> int:
        return 0 if self.search is None else self.search.work

    @property
    def finished(self) -> bool:
        return self.search is not None and self.search.finished


@dataclass(slots=True)
class SheetSearch(SearchState):
    """A resumable search over all pieces at once; `work` counts units of effort."""

    _costs: tuple[int, ...] = ()
    _unit: int = 1  # kernel cost of one shared unit of the objective
    _shared: int = 1  # what all the objective's costs have in common
    _target: int = 0
    _main: Search | None = None
    _starts: list[_Start] = field(default_factory=list)
    _measured: bool = False

    def __post_init__(self) -> None:
        if self.bound.sheets == 0:
            self.prepare()
        if not self.problem.kinds:
            return
        self._costs, self._unit, self._shared = kernel_costs(self.problem)
        self._target = self._aim()
        allowed = tuple(k.allowed for k in self.problem.kinds)
        self._main = Search(self.problem.kernel_problem(self._costs, self._target, allowed), self.seed)
        self._starts = [_Start(less) for less in less_freedom(self.problem)]

    def _aim(self) -> int:
        """A cost for the kernel that nobody can beat."""
        return self.bound.cost // self._shared * self._unit + self._unit - 1

    def look_closer(self) -> None:
        """After the first answer: work out the bound with care, where the quick one does not prove that answer."""
        SearchState.look_closer(self)
        if self._main is not None and self._aim() > self._target:
            self._target = self._aim()
            self._main.aim(self._target)

    @property
    def complete(self) -> bool:
        """True where everything is placed."""
        return self._main is None or (self._main.work > 0 and self._main.missing == 0)

    @property
    def cost(self) -> int:
        """Cost of the best solution, in the objective's units."""
        return 0 if self._main is None else self._main.cost // self._unit * self._shared

    def advance(self, units: int) -> None:
        """Spend up to `units` more of effort (a step is never cut in two, so the last one may run over)."""
        goal = self.work + units
        while self._main is not None and self.work < goal and not self.proven:
            first = FIRST_SLICE - self._main.work // RAW_STEPS
            if first > 0:
                self._run(min(goal - self.work, first))
                continue
            due = [(self._due(s), i) for i, s in enumerate(self._starts) if not s.finished]
            when, which = min(due, default=(goal, 0))
            if when < self.work:
                self._continue(self._starts[which], min(START_SLICE, goal - self.work))
            elif not self._measured:
                self._try_yardstick()
            else:
                self._run(min(goal, when + 1) - self.work)

    def _due(self, start: _Start) -> int:
        """The work in all after which a problem with less freedom is searched on; its first slice is due at once."""
        return 0 if start.work < START_SLICE else start.work * SHARE * len(self._starts)

    def _run(self, units: int) -> None:
        assert self._main is not None  # noqa: S101 - for the type checker
        before = self._main.work
        self._main.run(before + units * RAW_STEPS)
        self.work += max(1, -(-(self._main.work - before) // RAW_STEPS))

    def _continue(self, start: _Start, units: int) -> None:
        """Search a problem with less freedom further, and take its solution where that is better."""
        assert self._main is not None  # noqa: S101 - for the type checker
        if start.search is None:
            start.search = SheetSearch(start.less.problem, self.seed, self.bound)
        before = start.work
        start.search.advance(units)
        self.work += max(1, start.work - before)
        cost = start.search.cost
        better = start.search.complete and (not self.complete or cost < self.cost)
        hopeful = not (start.search.complete or self.complete) and cost != start.offered
        if better or hopeful:
            start.offered = cost
            self._main.offer(on_stock(start.search.numbers(), start.less.stock))

    def _try_yardstick(self) -> None:
        assert self._main is not None  # noqa: S101 - for the type checker
        self._measured = True
        allowed = tuple(k.allowed for k in self.problem.kinds)
        template = self.problem.kernel_problem(self._costs, self._target, allowed)
        numbers = pack(template) if template.stages >= ANY_STAGES else None
        pieces = sum(template.demand)
        self.work += 1 if numbers is None else pieces * YARDSTICK_UNITS + pieces**2
        if numbers is not None:
            self._main.offer(numbers)

    def polish(self, units: int, worth: tuple[int, int]) -> None:
        """Spend up to `units` on what is left over, at the same cost; `worth` is the least worth keeping."""
        if self._main is None or units < 1:
            return
        kerf = self.problem.cutting.kerf  # a remainder of the kernel's measure loses one kerf when it is cut off
        before = self._main.work
        self._main.polish(before + units * RAW_STEPS, (worth[0] + kerf, worth[1] + kerf))
        self.work += -(-(self._main.work - before) // RAW_STEPS)

    def numbers(self) -> list[int]:
        """The best solution in the kernel's numbers."""
        return [] if self._main is None else self._main.best()

    def solution(self) -> list[tuple[int, Tree]]:
        """Return (stock index, tree of cuts) of each sheet of the best solution."""
        return read_solution(self.numbers(), self.problem)
