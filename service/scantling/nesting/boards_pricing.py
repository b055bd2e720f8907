"""The pattern of a board most worth cutting at given worths of the lengths: the pricing of column generation."""

from dataclasses import dataclass

from .boards_branching import best_branched_filling
from .boards_knapsack import best_filling
from .boards_problem import Pattern, Problem
from .boards_start import totals


@dataclass(frozen=True, slots=True)
class Priced:
    """The pattern of a board worth most as far as it was looked for, and the `most` any can be worth.

    `exact` says that `most` is sure; the look was complete where the two agree.
    """

    pattern: Pattern
    value: int
    most: int
    work: int
    exact: bool


def most_worth(problem: Problem, b: int, demand: list[int], worth: list[int], states: int, above: int) -> Priced:
    """Return the pattern of board kind b that holds most worth, of no more lengths than `demand`.

    `worth` is by kind of length, `states` the care taken; one worth no more than `above` is of no interest.
    """
    rooms = [room for _, room in problem.bins[b].stretches]
    above = above if len(rooms) == 1 else 0
    if problem.bins[b].rows is None:
        priced = _each_alone(problem, b, demand, worth, states, above)
        if all(n <= demand[k] for k, n in totals(priced.pattern).items()):
            return priced
    best = best_branched_filling(problem, b, rooms, worth, demand, states, above)
    return Priced(best.fills, best.value, best.most, best.work, best.exact)


def _each_alone(problem: Problem, b: int, demand: list[int], worth: list[int], states: int, above: int) -> Priced:
    """Fill each stretch as if it were the only one."""
    own = [k for k, kind in enumerate(problem.kinds) if b in kind.bins]
    columns = [problem.kinds[k].weight for k in own], [worth[k] for k in own], [demand[k] for k in own]
    fillings = [best_filling(*columns, room, states, above) for _, room in problem.bins[b].stretches]
    pattern = tuple(tuple((own[i], n) for i, n in f.counts) for f in fillings)
    value, work = sum(f.value for f in fillings), sum(f.work for f in fillings)
    return Priced(pattern, value, value, work, all(f.exact for f in fillings))
