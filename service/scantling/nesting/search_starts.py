"""The same sheets with less freedom: nothing turned, or one stock alone for what fits on it.

Whoever gives the search more freedom may not get a dearer answer for it, so the problems with less freedom are searched
beside the whole one, for as long as it lasts (search.py).
"""

from dataclasses import dataclass, replace

from .sheets import Kind, SheetProblem


@dataclass(frozen=True, slots=True)
class LessFreedom:
    """A problem whose solutions are solutions of the whole; `stock` are the numbers of its stocks in the whole."""

    problem: SheetProblem
    stock: tuple[int, ...]


def less_freedom(problem: SheetProblem) -> list[LessFreedom]:
    """Return the problem with nothing turned, then with each stock alone; those that change nothing are left out."""
    stocks = range(len(problem.stock))
    found = []
    locked = tuple(replace(k, allowed=tuple(bits & -bits for bits in k.allowed)) for k in problem.kinds)
    if locked != problem.kinds:
        found.append(LessFreedom(replace(problem, kinds=locked), tuple(stocks)))
    return found + [_alone(problem, t) for t in stocks if len(stocks) > 1]


def _alone(problem: SheetProblem, t: int) -> LessFreedom:
    """One stock for all that fits on it; where that is everything, the problem has no other stock."""
    if all(k.allowed[t] for k in problem.kinds):
        kinds = tuple(replace(k, allowed=(k.allowed[t],)) for k in problem.kinds)
        one = (problem.stock[t],), (problem.sizes[t],), (problem.costs[t],), (problem.limits[t],)
        return LessFreedom(SheetProblem(kinds, *one, problem.cutting), (t,))
    kinds = tuple(_confined(k, t) for k in problem.kinds)
    return LessFreedom(replace(problem, kinds=kinds), tuple(range(len(problem.stock))))


def _confined(kind: Kind, t: int) -> Kind:
    if not kind.allowed[t]:
        return kind
    return replace(kind, allowed=tuple(bits if i == t else 0 for i, bits in enumerate(kind.allowed)))
