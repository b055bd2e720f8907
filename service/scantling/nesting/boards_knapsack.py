"""The fullest or most valuable filling of one length: an exact bounded knapsack in integers.

Two exact methods, chosen by the size of the capacity: a table over every length up to the capacity, and a list of
undominated (weight, value) states cut down by a bound (Nemhauser and Ullmann, "Discrete dynamic programming and
capital allocation", Management Science 15, 1969; the bound is Dantzig's, Operations Research 5, 1957).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

_TABLE_LIMIT = 6_000  # capacities up to here are filled by the table
MANY_STATES = 20_000  # more states than this are thinned out, and the answer is no longer called exact
_BRANCHING_STEPS = 4_000
SOME_STATES = 4_000  # for a closer look
_ONE_NUMBER = 2**62
FEW_STATES = 1_000  # for a quick look, exact only when it was enough

Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Filling:
    """Counts by item, the value they add up to, whether no filling can be worth more, and the work it took."""

    counts: tuple[tuple[int, int], ...]  # (item, count), only counts above zero
    value: int
    exact: bool
    work: int


@dataclass(frozen=True, slots=True)
class _Copies:
    """Some copies of one item taken together, so that few of these make any number up to its limit."""

    item: int
    count: int
    weight: int
    value: int


def best_filling(
    weights: list[int],
    values: list[int],
    limits: list[int],
    capacity: int,
    states: int = MANY_STATES,
    above: int = 0,
) -> Filling:
    """Return the most valuable choice of at most `limits[i]` of each item whose weights fit the capacity.

    All arguments are integers; weights are above zero. Items worth nothing are left out. More than `states`
    undominated states are thinned out: then the answer may miss the best and says so. Only a value greater than
    `above` is of interest: where there is none the filling is empty and its value `above`, a bound.
    """
    useful = [i for i in range(len(weights)) if values[i] > 0 and limits[i] > 0 and weights[i] <= capacity]
    useful.sort(key=lambda i: (-values[i] / weights[i], -weights[i], i))
    if not useful:
        return Filling((), above, True, 1)
    if sum(weights[i] * limits[i] for i in useful) <= capacity:
        value = sum(values[i] * limits[i] for i in useful)
        return Filling(tuple((i, limits[i]) for i in useful) if value > above else (), max(value, above), True, 1)
    if capacity > _TABLE_LIMIT:
        quick = _Branching([(weights[i], values[i], limits[i], i) for i in useful], above).fill(capacity)
        if quick.exact:
            return quick
    copies = [c for i in useful for c in _split(i, weights[i], values[i], min(limits[i], capacity // weights[i]))]
    if capacity <= _TABLE_LIMIT:
        return _by_table(copies, capacity, above)
    return _by_states(copies, capacity, states, above)


class _Branching:
    """Fill by taking as many as fit of each item in turn and fewer when coming back, within Dantzig's bound.

    Quick where few pieces fill a board; it gives up after a number of steps.
    """

    def __init__(self, items: list[tuple[int, int, int, int]], above: int) -> None:
        self._items = items  # (weight, value, limit, item), by value per weight
        self._best = above
        self._chosen: list[tuple[int, int]] = []
        self._path: list[tuple[int, int]] = []
        self._steps = 0

    def fill(self, capacity: int) -> Filling:
        """Return the best filling, or the best so far where it takes too many steps."""
        done = self._search(0, capacity, 0)
        return Filling(tuple(sorted(self._chosen)), self._best, done, 5 + self._steps // 2)

    def _search(self, start: int, room: int, value: int) -> bool:
        if value > self._best:
            self._best, self._chosen = value, list(self._path)
        items, best = self._items, self._best
        for at in range(start, len(items)):
            weight, worth, limit, item = items[at]
            if (value - best) * weight + room * worth <= 0:
                break
            self._steps += 1
            if weight > room:
                continue
            if self._steps > _BRANCHING_STEPS:
                return False
            for n in range(min(limit, room // weight), 0, -1):
                self._path.append((item, n))
                done = self._search(at + 1, room - n * weight, value + n * worth)
                self._path.pop()
                if not done:
                    return False
            best = self._best
        return True


def _split(item: int, weight: int, value: int, limit: int) -> list[_Copies]:
    """Split up to `limit` copies into 1, 2, 4, … and a rest, from which every number up to it can be made."""
    copies, size = [], 1
    while limit > 0:
        taken = min(size, limit)
        copies.append(_Copies(item, taken, taken * weight, taken * value))
        limit -= taken
        size *= 2
    return copies


def _collect(chosen: list[_Copies]) -> tuple[tuple[int, int], ...]:
    counts: dict[int, int] = {}
    for c in chosen:
        counts[c.item] = counts.get(c.item, 0) + c.count
    return tuple(sorted(counts.items()))


def _by_table(copies: list[_Copies], capacity: int, above: int) -> Filling:
    """Fill by a table: best[c] is the greatest value within weight c, taken one lot of copies at a time."""
    best = np.zeros(capacity + 1, dtype=np.int64)
    taken = np.zeros((len(copies), capacity + 1), dtype=np.bool_)
    for row, c in enumerate(copies):
        candidate = best[: capacity + 1 - c.weight] + c.value
        tail = best[c.weight :]
        np.greater(candidate, tail, out=taken[row, c.weight :])
        np.maximum(candidate, tail, out=tail)
    work = len(copies) * (4 + capacity // 500)
    if int(best[capacity]) <= above:
        return Filling((), above, True, work)
    chosen, room = [], capacity
    for row in range(len(copies) - 1, -1, -1):
        if taken[row, room]:
            chosen.append(copies[row])
            room -= copies[row].weight
    return Filling(_collect(chosen), int(best[capacity]), True, work)


def _ceiling(copies: list[_Copies], capacity: int) -> int:
    """Return a value no filling can exceed: the last lot is cut to fit (copies come by value per weight)."""
    value = 0
    for c in copies:
        if c.weight > capacity:
            return value + capacity * c.value // c.weight
        capacity -= c.weight
        value += c.value
    return value


def _greedy(copies: list[_Copies], capacity: int) -> tuple[list[_Copies], int]:
    """Take lots in order of value per weight while they fit."""
    chosen, value = [], 0
    for c in copies:
        if c.weight <= capacity:
            chosen.append(c)
            capacity -= c.weight
            value += c.value
    return chosen, value


def _by_states(copies: list[_Copies], capacity: int, states: int, above: int) -> Filling:
    """Fill by undominated states; a state that cannot beat the best known filling is dropped."""
    chosen, best = _greedy(copies, capacity)
    if (_ceiling(copies, capacity) + 1) * (capacity + 1) >= _ONE_NUMBER * 2:  # products would no longer be whole
        return Filling(_collect(chosen), best, False, len(copies))
    if best <= above:
        chosen, best = [], above
    weight: Ints = np.zeros(1, dtype=np.int64)
    value: Ints = np.zeros(1, dtype=np.int64)
    history: list[tuple[Ints, int]] = []  # per lot: the states kept, and how many of all were without the lot
    found: tuple[int, int] | None = None  # lot and state of the best filling, None while `chosen` leads
    exact, work, ceiling = True, len(copies), _ceiling(copies, capacity)
    for lot, c in enumerate(copies):
        if best >= ceiling:
            exact = True
            break
        fits = int(np.searchsorted(weight, capacity - c.weight, side="right"))
        work += 12 + (len(weight) + fits) // 30
        both_weight = np.concatenate((weight, weight[:fits] + c.weight))
        both_value = np.concatenate((value, value[:fits] + c.value))
        order = _by_weight(both_weight, both_value, capacity, ceiling)
        ordered = both_value[order]
        most = np.maximum.accumulate(ordered)
        keep = np.ones(len(order), dtype=np.bool_)
        keep[1:] = ordered[1:] > most[:-1]
        better = int(most[-1]) > best
        if better:
            best = int(most[-1])
        # Lots come in order of value per weight, so nothing after the next one is worth more.
        ahead = copies[min(lot + 1, len(copies) - 1)]
        kept, ordered = order[keep], ordered[keep]
        promise = ordered * ahead.weight - both_weight[kept] * ahead.value
        promising = promise > best * ahead.weight - capacity * ahead.value
        last = not promising.any()
        if better:
            promising[-1] = True  # the most valuable of all comes last
        if not promising.all():
            kept, promise = kept[promising], promise[promising]
        if len(kept) > states:
            exact = False
            kept = _thin(kept, promise, states)
        history.append((kept, len(weight)))
        weight, value = both_weight[kept], both_value[kept]
        if better:
            found = (lot, len(kept) - 1)
        if last:
            break
    if found is None:
        return Filling(_collect(chosen), best, exact, work)
    return Filling(_collect(_trace(copies, history, *found)), best, exact, work)


def _by_weight(weight: Ints, value: Ints, most_weight: int, most_value: int) -> Ints:
    """Return the order of states by weight, the more valuable first where weights are equal.

    Both halves come sorted so; as one number a state, a stable sort only has to merge them.
    """
    span = most_value + 1
    if (most_weight + 1) * span >= _ONE_NUMBER:
        by_two: Ints = np.lexsort((-value, weight))
        return by_two
    order: Ints = np.argsort(weight * span - value, kind="stable")
    return order


def _thin(kept: Ints, promise: Ints, states: int) -> Ints:
    """Keep the most promising states, in order, when there are too many; the last is worth most and always stays."""
    promise[-1] = np.iinfo(np.int64).max
    least = np.partition(promise, len(promise) - states)[len(promise) - states]
    taken: NDArray[np.bool_] = promise > least
    taken[np.flatnonzero(promise == least)[: states - int(taken.sum())]] = True
    return kept[taken]


def _trace(copies: list[_Copies], history: list[tuple[Ints, int]], lot: int, state: int) -> list[_Copies]:
    chosen = []
    for row in range(lot, -1, -1):
        kept, without = history[row]
        state = int(kept[state])
        if state >= without:
            chosen.append(copies[row])
            state -= without
    return chosen
