"""The least that boards can cost: an exact bound from the worth of the lengths, and rounding up to what can occur.

The bound is Farley's ("A note on bounding a class of linear programming problems, including cutting stock
problems", Operations Research 38, 1990), taken in whole numbers so that no rounding error can make it too high.
"""

from fractions import Fraction
from math import ceil, gcd

from .boards_problem import Problem

WORTH_UNIT = 10_000_000  # worths are rounded down to this part of the dearest board
_SUMS_LIMIT = 50_000


def dual_bound(
    problem: Problem,
    demand: list[int],
    left: list[int | None],
    worth: list[int],
    best_value: list[int],
    scale: int,
    least: list[int] | None = None,
) -> Fraction:
    """Return a cost that no way of cutting `demand` from the boards left can go below.

    `worth[i]` is the worth of one length of kind i and `best_value[b]` the most worth one board of kind b can hold,
    both in `scale / WORTH_UNIT`. Worths are shrunk until no board in unlimited supply holds more than it costs;
    a board in limited supply may gain at most its number times the excess, and one of which `least` must be used
    loses at least what it costs above what it can hold.
    """
    share = Fraction(1)
    for b, board in enumerate(problem.bins):
        if left[b] is None and best_value[b] > 0:
            share = min(share, Fraction(board.cost * WORTH_UNIT, scale * best_value[b]))
    unit = share * scale / WORTH_UNIT
    bound = unit * sum(w * n for w, n in zip(worth, demand, strict=True))
    for b, board in enumerate(problem.bins):
        limit = left[b]
        gain = unit * best_value[b] - board.cost
        if limit is not None and gain > 0:
            bound -= limit * gain
        elif least is not None and gain < 0:
            bound -= least[b] * gain
    return max(bound, Fraction(0))


class PossibleCosts:
    """What whole boards can cost in total, for rounding a bound up to the next cost that can occur at all."""

    def __init__(self, problem: Problem, most: int) -> None:
        self._step = 0
        for b in problem.bins:
            self._step = gcd(self._step, b.cost)
        self._sums = _possible_sums(problem, most)

    def round_up(self, bound: Fraction) -> int:
        """Return the least possible cost that is not below the bound."""
        if self._step == 0:
            return 0
        least = ceil(bound / self._step) * self._step
        if self._sums is None:
            return least
        return next((s for s in self._sums if s >= least), least)


def _possible_sums(problem: Problem, most: int) -> list[int] | None:
    """Return every total cost up to `most`, sorted, or None when there are too many to list."""
    sums = {0}
    for b in problem.bins:
        if b.cost == 0:
            continue
        grown = set(sums)
        layer, times = sums, 0
        while layer and (b.limit is None or times < b.limit):
            layer = {s + b.cost for s in layer if s + b.cost <= most}
            if b.limit is None:
                layer -= grown
            grown |= layer
            times += 1
            if len(grown) > _SUMS_LIMIT:
                return None
        sums = grown
    return sorted(sums)
