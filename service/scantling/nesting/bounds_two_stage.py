"""The least that a plan cut in two stages can cost: strips first, then pieces across them, trimmed where narrower.

P. C. Gilmore and R. E. Gomory, "Multistage cutting stock problems of two and more dimensions", Operations Research 13
(1965), 94-120: one linear programme balances pieces against strips and strips against sheets, and two nested knapsacks
find the strips and sheets it lacks. Its worths are smoothed after P. Wentges, "Weighted Dantzig-Wolfe decomposition for
linear mixed-integer programming", International Transactions in Operational Research 4 (1997). Every round gives a
bound of its own in whole numbers (A. A. Farley, "A note on bounding a class of linear programming problems, including
cutting stock problems", Operations Research 38 (1990)): no rounding error can make it too high, and the rounds may end
at any time.

A plan with more stages may cost less. Groups are left out, which can only lower the bound.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, gcd

from .bounds_strip_programme import StripProgramme, Worths
from .bounds_strips import Strips, dearest, strips_of
from .sheets import SheetProblem

_MOST_PIECES = 10_000  # n each worth ten sheets, either way round, in 2n strips: 40 n^2 x 2^30 stays below 2^63
_LEAST_ROUNDS = 10  # fewer than so many, or than one for two kinds, are not worth beginning (measured)


@dataclass(frozen=True, slots=True)
class TwoStageBound:
    """The least cost, in the objective's units, and the units of effort it took."""

    cost: int
    work: int


def two_stage_bound(
    problem: SheetProblem, known: int, units: int, stop: Callable[[], bool] = lambda: False
) -> TwoStageBound | None:
    """Return the least cost of any complete two-stage plan; None where so many units of effort do not go far enough.

    `known` is a cost that no plan at all goes below. Between two rounds `stop` may end them.
    """
    strips = strips_of(problem)
    pieces = sum(k.demand for k in problem.kinds)
    rounds = max(_LEAST_ROUNDS, len({i.kind for s in strips for i in s.items}) // 2)
    long = sum(s.work for s in strips) * rounds > units
    if not strips or not any(problem.costs) or pieces > _MOST_PIECES or long:
        return None
    return bound_by_strips(problem, strips, known, units, stop)


def bound_by_strips(
    problem: SheetProblem,
    strips: tuple[Strips, ...],
    known: int,
    units: int,
    stop: Callable[[], bool] = lambda: False,
) -> TwoStageBound:
    """Return the least cost of any complete plan whose sheets are all cut in one of the ways given."""
    return _Rounds(problem, strips, known).run(units, stop)


class _Rounds:
    """The rounds of column generation and the best bound so far."""

    def __init__(self, problem: SheetProblem, strips: tuple[Strips, ...], known: int) -> None:
        self._problem = problem
        self._strips = strips
        self._step = gcd(*problem.costs)
        self._best = Fraction(known)
        self._highest = Fraction(-1)  # of the bounds found here
        self._centre: list[int] = []  # the worths that gave it
        self._filling = sum(s.work for s in strips)  # units for all ways once
        self._work = 0

    def run(self, units: int, stop: Callable[[], bool]) -> TwoStageBound:
        """Go on until the bound cannot rise to a further amount that can be paid, or the effort is spent."""
        programme = StripProgramme(self._problem, self._strips)
        while self._work + programme.work + self._filling <= units and not stop():
            self._work += programme.work
            worths = programme.solve()
            if worths is None or self._payable(self._best) >= self._payable(worths.cost):
                break
            if not any(self._price(programme, worths, w) for w in (self._smoothed(worths), worths.pieces)):
                break
        return TwoStageBound(self._payable(self._best), self._work)

    def _smoothed(self, worths: Worths) -> list[int]:
        """Half way from the worths that gave the best bound."""
        return [(a + b) // 2 for a, b in zip(self._centre or worths.pieces, worths.pieces, strict=True)]

    def _price(self, programme: StripProgramme, worths: Worths, worth: list[int]) -> bool:
        """Fill sheets at these worths: keep the bound they prove, and add what is new; False where nothing is."""
        fillings = [dearest(s, worth) for s in self._strips]
        self._work += self._filling
        most = [0] * len(self._problem.costs)
        for s, filling in zip(self._strips, fillings, strict=True):
            most[s.stock] = max(most[s.stock], filling.value)
        bound = dual_bound(self._problem, worth, most)
        if bound > self._highest:
            self._highest, self._centre = bound, worth
            self._best = max(self._best, bound)
        new = [programme.add(way, filling, worths) for way, filling in enumerate(fillings)]
        return any(new)

    def _payable(self, cost: Fraction) -> int:
        """Round up to the next amount that sheets can cost, as far as one price divides all."""
        return ceil(cost / self._step) * self._step


def dual_bound(problem: SheetProblem, worth: list[int], most: list[int]) -> Fraction:
    """Return a cost that no complete plan goes below, if no sheet of stock t can hold more than `most[t]` worth.

    Worths are shrunk or grown alike, at most until a sheet in unlimited supply holds as much as it costs (Farley's
    bound); one in limited supply may gain its number times the excess. Between the shares at which some sheet holds
    just what it costs the bound is a straight line, so the best share is one of these.
    """
    total = sum(w * k.demand for w, k in zip(worth, problem.kinds, strict=True))
    stock = list(zip(problem.costs, most, problem.limits, strict=True))
    shares = [Fraction(cost, m) for cost, m, _ in stock if m]
    highest = min(
        (Fraction(cost, m) for cost, m, limit in stock if m and limit is None), default=max(shares, default=0)
    )
    best = Fraction(0)
    for share in shares:
        if share <= highest:
            excess = sum(q * max(Fraction(0), share * m - cost) for cost, m, q in stock if q is not None)
            best = max(best, share * total - excess)
    return best
