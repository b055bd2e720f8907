"""The most valuable filling of a board on which sloped ends may share cuts: exact by branching, else within a bound.

What a set of pieces needs depends on which of them can meet (boards_chain), so the filling is searched by taking
pieces in turn and coming back. No joint needs less than the mean of the joints of both ends with their like, so
lengths made shorter by that are an ordinary knapsack that can only hold more: Dantzig's bound ("Discrete-variable
extremum problems", Operations Research 5, 1957) on it cuts the search down, and its own optimum is the bound where
the search gives up.
"""

from dataclasses import dataclass, replace

from .boards_ends import Ends
from .boards_knapsack import Filling, best_filling
from .boards_problem import Problem

_WORK_A_STEP = 4


@dataclass(frozen=True, slots=True)
class _Item:
    """One kind that may be taken: its length at best and as a blank, its worth, how many there are."""

    kind: int
    light: int
    weight: int
    worth: int
    limit: int
    ends: Ends


@dataclass(frozen=True, slots=True)
class SlopedFilling:
    """A filling that fits, a value none can exceed, whether that bound is sure, and the work it took."""

    counts: tuple[tuple[int, int], ...]
    value: int
    most: int
    exact: bool
    work: int


def best_sloped_filling(
    problem: Problem, b: int, room: int, worth: list[int], limits: list[int], states: int, above: int = 0
) -> SlopedFilling:
    """Return the filling of one stretch of board kind `b` that is worth most; `worth` and `limits` are by kind.

    `states` is the care taken; only a value greater than `above` is of interest.
    """
    items = [
        _Item(k, problem.light(k, b), kind.weight, worth[k], limits[k], kind.ends)
        for k, kind in enumerate(problem.kinds)
        if b in kind.bins and worth[k] > 0 and limits[k] > 0
    ]
    items.sort(key=lambda i: (-i.worth / i.light, -i.light, i.kind))
    search = _Search(problem, b, room, items, above, 2 * states)
    done = search.take(0, 0, 0, 0)
    counts = tuple(sorted(search.chosen))
    if done and search.sure:
        return SlopedFilling(counts, search.best, search.best, True, 5 + search.steps * _WORK_A_STEP)
    relaxed = _relaxed(items, problem.light_room(b, room), states, above)
    most = max(search.best, relaxed.value)
    return SlopedFilling(counts, search.best, most, relaxed.exact, search.steps * _WORK_A_STEP + relaxed.work)


def _relaxed(items: list[_Item], room: int, states: int, above: int) -> Filling:
    rows = [replace(i, limit=min(i.limit, room // i.light)) for i in items if i.light <= room]
    columns = ([i.light for i in rows], [i.worth for i in rows], [i.limit for i in rows])
    return best_filling(*columns, room, states, above)


class _Search:
    """Takes as many of each kind as fit, and fewer when coming back."""

    def __init__(self, problem: Problem, b: int, room: int, items: list[_Item], above: int, most_steps: int) -> None:
        self.problem = problem
        self.b = b
        self.room = room
        self.light_room = problem.light_room(b, room)
        self.items = items
        self.best = above
        self.chosen: list[tuple[int, int]] = []
        self.steps = 0
        self.sure = True
        self._most_steps = most_steps
        self._path: list[tuple[int, int]] = []
        self._ends: dict[Ends, int] = {}

    def take(self, start: int, weight: int, light: int, value: int) -> bool:
        """Try everything from item `start` on; False when the steps are used up."""
        if value > self.best:
            self.best, self.chosen = value, list(self._path)
        left = self.light_room - light
        for at in range(start, len(self.items)):
            item = self.items[at]
            if (value - self.best) * item.light + left * item.worth <= 0:
                break
            self.steps += 1
            if self.steps > self._most_steps:
                return False
            most = min(item.limit, left // item.light)
            if most > 0 and not self._take_some(at, item, most, (weight, light, value)):
                return False
        return True

    def _take_some(self, at: int, item: _Item, most: int, taken: tuple[int, int, int]) -> bool:
        weight, light, value = taken
        before = self._ends.get(item.ends, 0)
        done = True
        for n in range(most, 0, -1):
            self._ends[item.ends] = before + n
            self.steps += 1
            if self._fits(weight + n * item.weight):
                self._path.append((item.kind, n))
                done = self.take(at + 1, weight + n * item.weight, light + n * item.light, value + n * item.worth)
                self._path.pop()
                if not done:
                    break
        self._ends[item.ends] = before
        return done

    def _fits(self, weight: int) -> bool:
        rows = self.problem.bins[self.b].rows
        if rows is None:
            return weight <= self.room
        row = rows.row(tuple(sorted((ends, n) for ends, n in self._ends.items() if n)))
        self.sure = self.sure and row.exact
        return weight + row.more <= self.room
