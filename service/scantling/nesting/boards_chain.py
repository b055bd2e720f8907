"""The shortest row of pieces with sloped ends on one board: which lies where, turned how, and what it saves.

A piece is an edge between the slopes of its two ends, a joint of unlike slopes a jump between two slopes; a row is a
trail that uses every edge once. Where every piece may be turned end for end, the number of like pieces counts only
by whether it is odd and whether there are any at all, since two more of them can be slipped in (or left out) without
another jump (Euler's condition; compare the sequencing of Gilmore and Gomory, "Sequencing a one state-variable
machine", Operations Research 12, 1964). What is left is small enough to try every order, once for each set of pieces
(dynamic programming over sets: Held and Karp, "A dynamic programming approach to sequencing problems", J. SIAM 10,
1962).
"""

from dataclasses import dataclass
from functools import lru_cache
from math import prod

from .boards_ends import SQUARE, End, Ends, Joints, Lie, lies

Counts = tuple[tuple[Ends, int], ...]  # how many of each sort of ends, sorted
_MOST_STATES = 20_000
_MOST_IN_A_ROW = 300

_Cost = tuple[int, int]  # beyond the kerfs of square ends, and the number of cuts


_Set = tuple[int, ...]
_START = 0  # the number of the board's own start among the ends


@dataclass(frozen=True, slots=True)
class _Step:
    """The least cost of what is left, and the sort and lie of the piece that comes first."""

    cost: _Cost
    sort: int
    lie: int


@dataclass(frozen=True, slots=True)
class Row:
    """What a row of pieces needs beyond the kerfs of square ends, and whether no order needs less."""

    more: int
    exact: bool


class Rows:
    """The shortest rows on one kind of board, remembered; `work` counts what finding them took.

    Inside, sorts of ends and ends go by number, and a set of pieces is the sorted numbers of their sorts.
    """

    def __init__(self, joints: Joints) -> None:
        self.joints = joints
        self.work = 0
        self._rows: dict[Counts, Row] = {}
        self._best: dict[tuple[_Set, int], _Step] = {}
        self._sorts: dict[Ends, int] = {}
        self._lies: list[list[tuple[int, int, Lie]]] = []  # by sort: the numbers of start and end, and the lie
        self._ends: dict[End, int] = {}
        self._costs: list[list[_Cost]] = []  # by left and right end; a row of its own for the board's start

    def row(self, counts: Counts) -> Row:
        """Return what the shortest row of these pieces needs."""
        known = self._rows.get(counts)
        if known is None:
            known = self._rows[counts] = self._row(counts)
        return known

    def order(self, counts: Counts) -> list[tuple[Ends, Lie]]:
        """Return the pieces of the shortest row in order; of equally short ones the one with the fewest cuts."""
        fewer = _fewer(counts)
        if not _small(fewer):
            return self._one_by_one(counts)[1]
        extra = {ends: n - left for (ends, n), (_, left) in zip(counts, fewer, strict=True)}
        order: list[tuple[Ends, Lie]] = []
        left, facing = self._set(fewer), _START
        names = list(self._sorts)
        while left:
            step = self._shortest(left, facing)
            _, facing, lie = self._lies[step.sort][step.lie]
            ends = names[step.sort]
            order += [(ends, lie), *self._slipped_in(ends, lie, extra.pop(ends, 0))]
            at = left.index(step.sort)
            left = left[:at] + left[at + 1 :]
        return order

    def _row(self, counts: Counts) -> Row:
        fewer = _fewer(counts)
        if not _small(fewer):
            return Row(self._one_by_one(counts)[0], False)
        more = self._shortest(self._set(fewer), _START).cost[0]
        for (ends, n), (_, left) in zip(counts, fewer, strict=True):
            both = sum(self.joints.more_than_kerf(end, end) for end in (ends.start, ends.end))
            more += (n - left) * both // 2  # pairs are left out, or pieces with like ends: `both` is then even
        return Row(more, True)

    def _shortest(self, left: _Set, facing: int) -> _Step:
        """Return the least cost of laying all pieces behind an end, and which one comes first, lying how."""
        if not left:
            return _Step((0, 0), 0, 0)
        known = self._best.get((left, facing))
        if known is not None:
            return known
        self.work += 1
        costs, best, last = self._costs[facing], None, -1
        for at, sort in enumerate(left):
            if sort == last:
                continue
            last, rest = sort, left[:at] + left[at + 1 :]
            for lie, (start, end, _) in enumerate(self._lies[sort]):
                here, ahead = costs[start], self._shortest(rest, end).cost
                cost = (here[0] + ahead[0], here[1] + ahead[1])
                if best is None or cost < best.cost:
                    best = _Step(cost, sort, lie)
        assert best is not None  # noqa: S101 - for the type checker; there is a best one while pieces are left
        self._best[left, facing] = best
        return best

    def _set(self, counts: Counts) -> _Set:
        """Return pieces as the sorted numbers of their sorts, numbering those that are new."""
        for ends, _ in counts:
            if ends not in self._sorts:
                self._sorts[ends] = len(self._lies)
                self._lies.append([(self._number(x.start), self._number(x.end), x) for x in lies(ends)])
        return tuple(sorted(self._sorts[ends] for ends, n in counts for _ in range(n)))

    def _number(self, end: End) -> int:
        """Return the number of an end; a new one is given its costs against all others."""
        if not self._costs:
            self._costs.append([(0, 0)])  # the board's own start, facing nothing
        if end not in self._ends:
            self._ends[end] = len(self._costs)
            ends = list(self._ends)
            self._costs[_START].append(self._joint(None, end))
            for other, costs in zip(ends[:-1], self._costs[1:], strict=True):
                costs.append(self._joint(other, end))
            self._costs.append([(0, 0), *(self._joint(end, other) for other in ends)])
        return self._ends[end]

    def _joint(self, left: End | None, right: End) -> _Cost:
        if left is None:
            return 0, int(right != SQUARE)
        return self.joints.more_than_kerf(left, right), 1 if left == right else 2

    def _slipped_in(self, ends: Ends, lie: Lie, extra: int) -> list[tuple[Ends, Lie]]:
        """Return `extra` pieces to follow one that lies so, each meeting its like: back and forth."""
        back = next((x for x in lies(ends) if x.ends == (lie.end, lie.start)), lie)
        return [(ends, back if i % 2 == 0 else lie) for i in range(extra)]

    def _one_by_one(self, counts: Counts) -> tuple[int, list[tuple[Ends, Lie]]]:
        """Lay the pieces so that each next one needs the least: any order, where there are too many to try all."""
        left, facing, more, order = counts, None, 0, []
        while left:
            choices = [
                (self._joint(facing, lie.start), i, lie) for i, (ends, _) in enumerate(left) for lie in lies(ends)
            ]
            (needed, _), i, lie = min(choices)
            ends = left[i][0]
            order.append((ends, lie))
            more, facing, left = more + needed, lie.end, _without(left, ends)
        return more, order


def _without(counts: Counts, ends: Ends) -> Counts:
    return tuple((e, n - (e == ends)) for e, n in counts if n > (e == ends))


def _small(counts: Counts) -> bool:
    return sum(n for _, n in counts) <= _MOST_IN_A_ROW and prod(n + 1 for _, n in counts) <= _MOST_STATES


@lru_cache(maxsize=4096)
def _fewer(counts: Counts) -> Counts:
    """Return the numbers that decide the shortest row: at most a few of each sort where all can be turned round."""
    if not all(_turns_round(ends) for ends, _ in counts):
        return counts
    return tuple((ends, _enough(ends, n)) for ends, n in counts)


def _turns_round(ends: Ends) -> bool:
    return any(x.ends == (ends.end, ends.start) for x in lies(ends))


def _enough(ends: Ends, n: int) -> int:
    """Return how many of n like pieces decide the row.

    Lying one way or turned over they join one pair of slopes or another. Of three that join the same two slopes a
    pair can be left out, of two that join a slope with itself one.
    """
    ways = len({frozenset(x.ends) for x in lies(ends)})
    if ends.start == ends.end:
        return min(n, ways)
    most = 2 * ways
    return n if n <= most else most - (n - most) % 2
