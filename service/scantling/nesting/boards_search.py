"""The search for the cheapest boards: first answers, column generation, then diving, until proof or end of effort.

Column generation: Gilmore and Gomory 1961. Diving: rounding the relaxed answer column by column and generating new
columns for what is left (Vanderbeck, "Computational study of a column generation algorithm for bin packing and
cutting stock problems", Mathematical Programming 86, 1999). Branching is on the number of boards of each kind.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil
from random import Random

from .boards_bound import WORTH_UNIT, PossibleCosts, dual_bound
from .boards_knapsack import MANY_STATES, SOME_STATES
from .boards_master import Answer, Master
from .boards_pricing import most_worth
from .boards_problem import Pattern, Problem, Solution
from .boards_start import FillInTurn, fit_decreasing, preferences, totals

_NEARLY = 1e-6
_GAIN = WORTH_UNIT // 1_000_000  # a column must promise more than this part of a board
_FEW_BOARDS = 12  # what is left of a dive is filled board by board when it is this small
_DIVES_IN_VAIN = 10  # when boards run out no proof can end the search, so this many dives without gain do
_FIRST_STATES = 300  # while the worths of the lengths are still rough, patterns need not be the best
_BRANCHES = 4  # branches looked at after each dive
_THRESHOLDS = (0.7, 0.85, 0.6, 0.95, 0.5)


def least_cost(problem: Problem, demand: list[int]) -> int:
    """Return a cost that cutting `demand` cannot go below, from lengths and the best price per length alone."""
    bound = _plain_bound(problem, demand, [b.limit for b in problem.bins])
    return -(-bound.numerator // bound.denominator)


def _plain_bound(problem: Problem, demand: list[int], limits: list[int | None]) -> Fraction:
    """Value every length at one price per length, for each board's own price, and take the best bound."""
    scale = max([1, *(b.cost for b in problem.bins)])
    room = [sum(max(0, problem.light_room(i, r)) for _, r in b.stretches) for i, b in enumerate(problem.bins)]
    unit = Fraction(scale, WORTH_UNIT)
    bounds = [Fraction(0)]
    light = [min(problem.light(k, b) for b in kind.bins) for k, kind in enumerate(problem.kinds)]
    for rate in sorted({Fraction(b.cost, r) for b, r in zip(problem.bins, room, strict=True) if r}):
        worth = [int(rate * weight / unit) for weight in light]
        most = [int(rate * r / unit) + 1 for r in room]
        bounds.append(dual_bound(problem, demand, limits, worth, most, scale))
    return max(bounds)


@dataclass(frozen=True, slots=True, order=True)
class Branch:
    """Solutions that use at least and at most so many boards of each kind, and what they cost at least."""

    bound: int
    number: int
    least: tuple[int, ...] = field(compare=False)
    most: tuple[int | None, ...] = field(compare=False)

    def split(self, b: int, n: int, bound: int) -> list["Branch"]:
        """Return the two halves: at most n, or more than n, boards of kind b."""
        fewer = tuple(n if i == b else most for i, most in enumerate(self.most))
        more = tuple(n + 1 if i == b else least for i, least in enumerate(self.least))
        return [
            Branch(bound, 2 * self.number + 1, self.least, fewer),
            Branch(bound, 2 * self.number + 2, more, self.most),
        ]


class BoardSearch:
    """One problem being searched. `steps` does a little work at a time and yields how much; it ends at proof."""

    def __init__(self, problem: Problem, seed: int) -> None:
        self.problem = problem
        self.random = Random(seed)
        self.limits = [b.limit for b in problem.bins]
        self.best = Solution((), tuple(problem.demand))
        self.bound = 0
        self._open: list[Branch] = []
        self._whole: list[Branch] = []
        self._roughly = True
        self._sloped = any(b.rows is not None for b in problem.bins)
        self._rank = self.best.rank(problem)
        self._possible = PossibleCosts(problem, 0)

    @property
    def cost(self) -> int:
        """What the boards of the best answer cost."""
        return self._rank[1]

    @property
    def proven(self) -> bool:
        """Nothing is missing and the cost equals the bound."""
        return self._rank[0] == 0 and self._rank[1] == self.bound

    def steps(self) -> Iterator[int]:
        """Search; each value is the work done since the last one, the first of them for the first answers.

        Ends when proven, or when boards have run out and diving no longer helps.
        """
        yield self._start()
        if self.proven:
            return
        early = self._sloped or len(self.problem.bins) == 1  # then filling is cheap beside what it gives to start from
        if early:
            yield from self._fill()
        master = Master(self.problem)
        for (b, pattern), _ in self.best.boards:
            master.add(b, pattern)
        self._open = [Branch(self.bound, 0, tuple(0 for _ in self.limits), tuple(self.limits))]
        number, in_vain = 0, 0
        while not self.proven and in_vain < _DIVES_IN_VAIN:
            before = self._rank
            yield from self._dive(master, number)
            if number == 0 and not early and not self.proven:
                yield from self._fill()
            number += 1
            in_vain = in_vain + 1 if before == self._rank and self._rank[0] else 0
            for _ in range(_BRANCHES):
                if self._open and not self.proven and not self._rank[0]:
                    yield from self._branch(master)

    def offer(self, solution: Solution) -> None:
        """Keep a solution when it beats the best one."""
        rank = solution.rank(self.problem)
        if rank < self._rank:
            self.best, self._rank = solution, rank

    def _start(self) -> int:
        """Make the first answers, one reaching for each kind of board first, and the plain bound; return the work."""
        demand = self.problem.demand
        orders = preferences(self.problem)
        for preference in orders:
            self.offer(fit_decreasing(self.problem, demand, self.limits, preference))
        self._possible = PossibleCosts(self.problem, self._rank[1])
        self._raise_bound(_plain_bound(self.problem, demand, self.limits))
        return (sum(demand) + 5) * len(orders)

    def _fill(self) -> Iterator[int]:
        filling = FillInTurn(self.problem, self.problem.demand, self.limits)
        yield from filling.steps()
        self.offer(filling.solution())

    def _raise_bound(self, bound: Fraction) -> None:
        self.bound = max(self.bound, self._possible.round_up(bound))

    def _generate(
        self, master: Master, demand: list[int], left: list[int | None], least: list[int], goal: int | None
    ) -> Iterator[tuple[int, Answer, Fraction]]:
        """Add columns until none helps or the goal is out of reach; yield work, the relaxed answer and the bound."""
        master.ask_for(demand, left, least)
        bound = Fraction(0)
        while True:
            answer = master.solve()
            worth = [int(w * WORTH_UNIT) for w in answer.worth.tolist()]
            found, values, work, exact = self._price(master, demand, left, worth, answer)
            if exact:
                bound = max(bound, dual_bound(self.problem, demand, left, worth, values, master.scale, least))
            yield answer.work + work, answer, bound
            closed = float(bound) >= answer.objective * master.scale * (1 - _NEARLY)
            if not found or closed or (goal is not None and ceil(bound) >= goal):
                return

    def _price(
        self, master: Master, demand: list[int], left: list[int | None], worth: list[int], answer: Answer
    ) -> tuple[bool, list[int], int, bool]:
        """Find the pattern most worth cutting from each kind of board; add those that pay.

        A quick look comes first; only when it finds nothing that pays is every board looked at closely, and from then
        on always. Returned are
        whether a pattern was added, the most worth of each board, the work, and whether those are exact.
        """
        work = 0
        for states in (_FIRST_STATES, SOME_STATES, MANY_STATES) if self._roughly else (SOME_STATES, MANY_STATES):
            found, exact, closed, values = False, True, True, []
            for b, board in enumerate(self.problem.bins):
                if left[b] == 0:
                    values.append(0)
                    continue
                cost = board.cost * WORTH_UNIT / master.scale - float(answer.shadow[b]) * WORTH_UNIT
                best = most_worth(self.problem, b, demand, worth, states, max(0, int(cost)))
                values.append(best.most)
                work += best.work
                exact = exact and best.exact
                closed = closed and best.exact and best.value == best.most
                if best.value > cost + _GAIN and any(best.pattern):
                    found = master.add(b, best.pattern) or found
            if found or closed:
                break
            self._roughly = self._sloped  # a quick look costs little of what a close one does there
        return found, values, work, exact

    def _dive(self, master: Master, number: int) -> Iterator[int]:
        """Fix columns step by step, the surest first, and complete each step's rest; the first dive gives the bound."""
        demand, left, none = self.problem.demand, self._limits_of_dive(number), [0] * len(self.limits)
        fixed: Counter[tuple[int, Pattern]] = Counter()
        while any(demand):
            spent = sum(self.problem.bins[b].cost * n for (b, _), n in fixed.items())
            goal = None if self._rank[0] or not fixed else self._rank[1] - spent
            last: tuple[Answer, Fraction] | None = None
            for work, answer, bound in self._generate(master, demand, left, none, goal):
                last = answer, bound
                yield work
                if not fixed and not number:
                    self._raise_bound(bound)
                    if self.proven:
                        return
            if last is None or (goal is not None and ceil(last[1]) >= goal):
                return
            yield from self._complete(fixed, demand, left)
            chosen = self._choose(master, last[0], demand, left, number)
            if self.proven or not chosen:
                return
            fixed += chosen
            for (b, pattern), n in chosen.items():
                _use(b, pattern, n, demand, left)
        self.offer(Solution(tuple(sorted(fixed.items())), tuple(demand)))

    def _limits_of_dive(self, number: int) -> list[int | None]:
        """Dive among all boards and, in turn, within the numbers of boards that may still be cheaper."""
        places: list[tuple[int | None, ...]] = [tuple(self.limits), *(w.most for w in self._whole)]
        return list(places[number % len(places)])

    def _branch(self, master: Master) -> Iterator[int]:
        """Split the most promising branch by the number of boards of one kind: fewer, or more.

        The bound rises to the least of all branches. Branches whose relaxed answer uses whole boards of every kind
        are kept: diving looks for patterns within them.
        """
        branch = min(self._open)
        self._open.remove(branch)
        last: tuple[Answer, Fraction] | None = None
        demand, most = self.problem.demand, list(branch.most)
        for work, answer, bound in self._generate(master, demand, most, list(branch.least), self.cost):
            last = answer, bound
            yield work
        assert last is not None  # noqa: S101 - for the type checker; there is always a first answer
        least_cost_here = max(branch.bound, self._possible.round_up(last[1]))
        if least_cost_here < self.cost:
            used = master.boards_used(last[0])
            parts = [abs(n - round(n)) for n in used]
            b = max(range(len(parts)), key=lambda i: (parts[i], -i))
            if parts[b] <= _NEARLY:
                self._whole.append(Branch(least_cost_here, branch.number, branch.least, tuple(round(n) for n in used)))
            else:
                self._open += branch.split(b, int(used[b]), least_cost_here)
        bounds = [x.bound for x in (*self._open, *self._whole)]
        self.bound = max(self.bound, min([self.cost, *bounds]))

    def _choose(
        self, master: Master, answer: Answer, demand: list[int], left: list[int | None], number: int
    ) -> Counter[tuple[int, Pattern]]:
        """Choose the columns to fix: whole parts first, else those nearest to one."""
        rest, stock = list(demand), list(left)
        chosen: Counter[tuple[int, Pattern]] = Counter()
        times = answer.times.tolist()
        whole = [(c, int(t + _NEARLY)) for c, t in enumerate(times) if t >= 1 - _NEARLY]
        for column, n in whole:
            _take(master.columns[column], n, rest, stock, chosen)
        threshold = _THRESHOLDS[number % len(_THRESHOLDS)]
        part = [(t - int(t + _NEARLY), c) for c, t in enumerate(times) if t - int(t + _NEARLY) > _NEARLY]
        noise = 0.0 if number < len(_THRESHOLDS) else 0.3
        part = sorted(((t + noise * self.random.random(), c) for t, c in part), key=lambda p: (-p[0], p[1]))
        for t, column in part:
            if chosen and t < threshold:
                break
            _take(master.columns[column], 1, rest, stock, chosen)
            if not whole and t < threshold:
                break
        return chosen

    def _complete(
        self, fixed: Counter[tuple[int, Pattern]], demand: list[int], left: list[int | None]
    ) -> Iterator[int]:
        """Finish a partly fixed answer by the quick methods and offer the result."""
        rests = [fit_decreasing(self.problem, demand, left, preferences(self.problem)[0])]
        yield sum(demand) + 5
        if sum(n for _, n in rests[0].boards) <= _FEW_BOARDS:
            filling = FillInTurn(self.problem, demand, left)
            yield from filling.steps()
            rests.append(filling.solution())
        for rest in rests:
            boards = fixed + Counter(dict(rest.boards))
            self.offer(Solution(tuple(sorted(boards.items())), rest.missing))


def _take(
    column: tuple[int, Pattern], n: int, rest: list[int], stock: list[int | None], chosen: Counter[tuple[int, Pattern]]
) -> None:
    """Take a column up to n times, as often as the rest of the demand and of the boards allows."""
    b, pattern = column
    limit = stock[b]
    n = min([n, *(rest[k] // count for k, count in totals(pattern).items())])
    n = n if limit is None else min(n, limit)
    if n > 0:
        chosen[column] += n
        _use(b, pattern, n, rest, stock)


def _use(b: int, pattern: Pattern, n: int, demand: list[int], stock: list[int | None]) -> None:
    """Take n boards cut by a pattern off the boards left and their lengths off the demand."""
    limit = stock[b]
    stock[b] = None if limit is None else limit - n
    for k, count in totals(pattern).items():
        demand[k] -= count * n
