"""The most valuable filling of a board that is no plain knapsack: sloped ends that share cuts, or several stretches.

What a set of pieces needs of a stretch depends on which of them can meet (boards_chain), and the stretches of a board
with defects compete for the same pieces, so the filling is searched by taking pieces in turn and coming back. No
joint needs less than the mean of the joints of both ends with their like, so lengths made shorter by that are an
ordinary knapsack that can only hold more: Dantzig's bound ("Discrete-variable extremum problems", Operations Research
5, 1957) on it, and each later stretch filled as if it were alone, cut the search down; where the search gives up,
those knapsacks are the bound.
"""

from bisect import bisect_right
from dataclasses import dataclass
from itertools import accumulate

from .boards_ends import Ends
from .boards_knapsack import Filling, best_filling
from .boards_problem import Fill, Problem

_WORK_A_STEP = 2
_WORK_A_ROW = 8  # for each set of pieces whose shortest row is found
_STEPS_A_STATE = 2


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
class BranchedFilling:
    """Fills that fit, stretch by stretch, a value none can exceed, whether that bound is sure, and the work it took."""

    fills: tuple[Fill, ...]
    value: int
    most: int
    exact: bool
    work: int


def best_branched_filling(
    problem: Problem, b: int, rooms: list[int], worth: list[int], limits: list[int], states: int, above: int = 0
) -> BranchedFilling:
    """Return the filling of stretches of board kind `b` that is worth most in all; `worth` and `limits` are by kind.

    `states` is the care taken; only a value greater than `above` is of interest.
    """
    items = [
        _Item(k, problem.light(k, b), kind.weight, worth[k], limits[k], kind.ends)
        for k, kind in enumerate(problem.kinds)
        if b in kind.bins and worth[k] > 0 and limits[k] > 0
    ]
    items.sort(key=lambda i: (-i.worth / i.light, -i.light, i.kind))
    alone = [] if len(rooms) == 1 else [_relaxed(items, problem.light_room(b, r), states, 0) for r in rooms]
    search = _Search(problem, b, rooms, items, [f.value for f in alone], above)
    done = search.fill(_STEPS_A_STATE * states)
    work = 5 + search.steps * _WORK_A_STEP + search.row_work + sum(f.work for f in alone)
    sure = all(f.exact for f in alone)
    if done and search.sure and sure:
        return BranchedFilling(search.fills, search.best, search.best, True, work)
    if len(rooms) == 1:
        alone = [_relaxed(items, problem.light_room(b, rooms[0]), states, above)]
    most = max(search.best, sum(f.value for f in alone))
    return BranchedFilling(search.fills, search.best, most, all(f.exact for f in alone), work + alone[0].work)


def _relaxed(items: list[_Item], room: int, states: int, above: int) -> Filling:
    """Fill a stretch with lengths as short as they are at best."""
    columns = ([i.light for i in items], [i.worth for i in items], [min(i.limit, room // i.light) for i in items])
    return best_filling(*columns, room, states, above)


class _Search:
    """Takes as many of each kind as fit, and fewer when coming back; then goes on to the next stretch."""

    def __init__(
        self, problem: Problem, b: int, rooms: list[int], items: list[_Item], alone: list[int], above: int
    ) -> None:
        self.best = above
        self.fills: tuple[Fill, ...] = tuple(() for _ in rooms)
        self.steps = 0
        self.row_work = 0
        self.sure = True
        self._rows = problem.bins[b].rows
        self._rooms = rooms
        self._light_rooms = [problem.light_room(b, room) for room in rooms]
        self._later = [sum(alone[s + 1 :]) for s in range(len(rooms))]
        self._items = items
        self._left = [i.limit for i in items]
        self._sorts = sorted({i.ends for i in items})
        self._sort_of = [self._sorts.index(i.ends) for i in items]
        self._counts = [0] * len(self._sorts)
        self._more: dict[tuple[int, ...], int] = {}
        self._lengths = [0, *accumulate(i.light * i.limit for i in items)]  # of all items before each
        self._worths = [0, *accumulate(i.worth * i.limit for i in items)]
        self._stretch = 0
        self._path: list[tuple[int, int, int]] = []  # (stretch, item, how many)
        self._most_steps = 0

    def fill(self, most_steps: int) -> bool:
        """Search; False where the steps were used up before the end."""
        self._most_steps = most_steps
        return self._take(0, 0, 0, 0)

    def _take(self, start: int, weight: int, light: int, value: int) -> bool:
        """Try everything from item `start` on, in this stretch and those after it."""
        left, later = self._light_rooms[self._stretch] - light, self._later[self._stretch]
        for at in range(start, len(self._items)):
            item = self._items[at]
            if value + self._most_of(at, left) + later <= self.best:
                break
            self.steps += 1
            if self.steps > self._most_steps:
                return False
            most = min(self._left[at], left // item.light)
            if most > 0 and not self._take_some(at, item, most, (weight, light, value)):
                return False
        return self._go_on(value)

    def _go_on(self, value: int) -> bool:
        """Keep what is taken where it is the best so far, or fill the next stretch."""
        if self._stretch == len(self._rooms) - 1:
            if value > self.best:
                self.best, self.fills = value, self._taken()
            return True
        if value + self._later[self._stretch] <= self.best:
            return True
        counts, self._counts = self._counts, [0] * len(self._sorts)
        self._stretch += 1
        done = self._take(0, 0, 0, value)
        self._stretch -= 1
        self._counts = counts
        return done

    def _taken(self) -> tuple[Fill, ...]:
        fills: list[list[tuple[int, int]]] = [[] for _ in self._rooms]
        for stretch, at, n in self._path:
            fills[stretch].append((self._items[at].kind, n))
        return tuple(tuple(sorted(fill)) for fill in fills)

    def _most_of(self, at: int, left: int) -> int:
        """Return what the items from `at` on cannot be worth more than: all that fit in turn, the last one cut."""
        lengths, worths = self._lengths, self._worths
        last = bisect_right(lengths, lengths[at] + left) - 1
        most = worths[last] - worths[at]
        if last < len(self._items):
            most += (left - lengths[last] + lengths[at]) * self._items[last].worth // self._items[last].light
        return most

    def _take_some(self, at: int, item: _Item, most: int, taken: tuple[int, int, int]) -> bool:
        weight, light, value = taken
        sort = self._sort_of[at]
        before, left = self._counts[sort], self._left[at]
        done = True
        for n in range(most, 0, -1):
            self._counts[sort] = before + n
            self.steps += 1
            if self._fits(weight + n * item.weight):
                self._left[at] = left - n
                self._path.append((self._stretch, at, n))
                done = self._take(at + 1, weight + n * item.weight, light + n * item.light, value + n * item.worth)
                self._path.pop()
                if not done:
                    break
        self._counts[sort], self._left[at] = before, left
        return done

    def _fits(self, weight: int) -> bool:
        key = tuple(self._counts)
        more = self._more.get(key)
        if more is None:
            more = self._more[key] = self._more_of(key)
        return weight + more <= self._rooms[self._stretch]

    def _more_of(self, counts: tuple[int, ...]) -> int:
        if self._rows is None:
            return 0
        before = self._rows.work
        row = self._rows.row(tuple((ends, n) for ends, n in zip(self._sorts, counts, strict=True) if n))
        self.row_work += 5 + (self._rows.work - before) * _WORK_A_ROW
        self.sure = self.sure and row.exact
        return row.more
