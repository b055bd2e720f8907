"""First answers for boards: best fit decreasing from every kind of board, and filling board by board.

Best fit decreasing: Johnson et al., "Worst-case performance bounds for simple one-dimensional packing algorithms",
SIAM J. Computing 3, 1974. Filling board by board: the sequential heuristic of Haessler, Operations Research 23, 1975.
"""

from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Iterator

from .boards_branching import best_branched_filling
from .boards_knapsack import FEW_STATES, best_filling
from .boards_problem import Bin, Fill, Pattern, Problem, Solution

_LONGEST = 20
_SPREAD = 60
_MANY_LENGTHS = 2_000  # with more than this left, a board is filled with a fifth of the care


class _Boards:
    """Boards being filled by best fit: the open stretches sorted by room, and what each board holds."""

    def __init__(self, problem: Problem, stock: list[int | None], preference: list[int]) -> None:
        self.problem = problem
        self.left = list(stock)
        self.preference = preference
        self.opened: list[int] = []
        self.fills: list[list[Counter[int]]] = []
        self.rooms: list[tuple[int, int, int]] = []  # (room, board, stretch)

    def put(self, kind: int) -> bool:
        """Put one length into the tightest open stretch that takes it, else into a new board.

        Sloped ends count apart here, each with a cut of its own; only the first length of a stretch needs none.
        """
        k = self.problem.kinds[kind]
        apart = k.apart(self.problem.kerf)
        at = bisect_left(self.rooms, (apart, -1, -1))
        while at < len(self.rooms) and self.opened[self.rooms[at][1]] not in k.bins:
            at += 1
        if at == len(self.rooms):
            if not self._open(kind):
                return False
            board = len(self.opened) - 1
            at = bisect_left(self.rooms, (k.weight, -1, -1))
            while self.rooms[at][1] != board:
                at += 1
        room, board, stretch = self.rooms.pop(at)
        self.fills[board][stretch][kind] += 1
        insort(self.rooms, (room - apart, board, stretch))
        return True

    def _open(self, kind: int) -> bool:
        k = self.problem.kinds[kind]
        for b in self.preference:
            stretches = self.problem.bins[b].stretches
            if b in k.bins and self.left[b] != 0:
                left = self.left[b]
                self.left[b] = None if left is None else left - 1
                self.opened.append(b)
                self.fills.append([Counter() for _ in stretches])
                for s, (_, room) in enumerate(stretches):
                    insort(self.rooms, (room, len(self.opened) - 1, s))
                return True
        return False

    def patterns(self) -> Counter[tuple[int, Pattern]]:
        """Return the boards as they were filled."""
        return Counter(
            (b, tuple(tuple(sorted(f.items())) for f in fills))
            for b, fills in zip(self.opened, self.fills, strict=True)
        )


def preferences(problem: Problem) -> list[list[int]]:
    """Return the orders in which to reach for boards: by cost per length, then each kind of board first once."""
    by_value = sorted(range(len(problem.bins)), key=lambda b: _cost_per_room(problem.bins[b]))
    return [by_value, *([b, *(o for o in by_value if o != b)] for b in range(len(problem.bins)))]


def _cost_per_room(b: Bin) -> tuple[float, int]:
    room = sum(r for _, r in b.stretches)
    return (b.cost / max(room, 1), -room)


def fit_decreasing(problem: Problem, demand: list[int], stock: list[int | None], preference: list[int]) -> Solution:
    """Put the lengths, longest first, each into the tightest stretch; boards are opened in the preferred order."""
    boards = _Boards(problem, stock, preference)
    missing = [0] * len(problem.kinds)
    for kind, n in enumerate(demand):
        for done in range(n):
            if not boards.put(kind):
                missing[kind] = n - done
                break
    return _cheapened(problem, boards.patterns(), boards.left, missing)


class FillInTurn:
    """Cut the board with the least cost per length used, as often as the demand allows, and again."""

    def __init__(self, problem: Problem, demand: list[int], stock: list[int | None]) -> None:
        self.problem = problem
        self.rest = list(demand)
        self.left = list(stock)
        self.boards: Counter[tuple[int, Pattern]] = Counter()

    def steps(self) -> Iterator[int]:
        """Fill one pattern at a time; each value is the work done."""
        while any(self.rest):
            best: tuple[tuple[float, int], int, Pattern] | None = None
            work = 0
            for b, kind_of_board in enumerate(self.problem.bins):
                if self.left[b] == 0:
                    continue
                pattern, used, spent = fullest(self.problem, b, self.rest)
                work += spent
                if used and (best is None or (kind_of_board.cost / used, -used) < best[0]):
                    best = ((kind_of_board.cost / used, -used), b, pattern)
            if best is not None:
                self._cut(best[1], best[2])
            yield work
            if best is None:
                return

    def _cut(self, b: int, pattern: Pattern) -> None:
        counts = totals(pattern)
        limit = self.left[b]
        times = min(self.rest[k] // n for k, n in counts.items())
        times = times if limit is None else min(times, limit)
        self.left[b] = None if limit is None else limit - times
        self.boards[b, pattern] += times
        for k, n in counts.items():
            self.rest[k] -= n * times

    def solution(self) -> Solution:
        """Return the boards cut, each pattern from the cheapest board that takes it, and what is missing."""
        return _cheapened(self.problem, self.boards, self.left, self.rest)


def fullest(problem: Problem, b: int, demand: list[int]) -> tuple[Pattern, int, int]:
    """Return a pattern of one board as full as a quick look finds it, the length used and the work done."""
    rest, fills, used, work = list(demand), [], 0, 0
    care = 5 if sum(demand) > _MANY_LENGTHS else 1
    own = _sample([k for k, kind in enumerate(problem.kinds) if b in kind.bins and demand[k]], _SPREAD // care)
    weights = [problem.kinds[k].weight for k in own]
    for _, room in problem.bins[b].stretches:
        if problem.bins[b].rows is None:
            filling = best_filling(weights, weights, [rest[k] for k in own], room, FEW_STATES // care)
            fill: Fill = tuple((own[i], n) for i, n in filling.counts)
            work += filling.work
        else:
            fill, spent = _fullest_sloped(problem, b, room, own, rest)
            work += spent
        for k, n in fill:
            rest[k] -= n
            used += n * problem.kinds[k].weight
        fills.append(fill)
    return tuple(fills), used, work


def _fullest_sloped(problem: Problem, b: int, room: int, own: list[int], rest: list[int]) -> tuple[Fill, int]:
    """Fill one stretch with as much length as a quick look finds, cuts shared where ends agree."""
    wanted = [0] * len(problem.kinds)
    for k in own:
        wanted[k] = rest[k]
    worth = [kind.weight for kind in problem.kinds]
    filling = best_branched_filling(problem, b, [room], worth, wanted, FEW_STATES)
    return filling.fills[0], filling.work


def _sample(kinds: list[int], spread: int) -> list[int]:
    """Return all kinds, or of very many the longest and some of every length: enough to fill a board."""
    if len(kinds) <= _LONGEST + spread:
        return kinds
    rest = kinds[_LONGEST:]
    return kinds[:_LONGEST] + [rest[i * len(rest) // spread] for i in range(spread)]


def totals(pattern: Pattern) -> dict[int, int]:
    """Return how many of each kind a pattern holds."""
    counts: dict[int, int] = {}
    for fill in pattern:
        for k, n in fill:
            counts[k] = counts.get(k, 0) + n
    return counts


def _cheapened(
    problem: Problem, boards: Counter[tuple[int, Pattern]], left: list[int | None], missing: list[int]
) -> Solution:
    """Cut each pattern of one stretch from the cheapest board still there that takes it, and return the solution."""
    left = list(left)
    changed: Counter[tuple[int, Pattern]] = Counter()
    for (b, pattern), n in sorted(boards.items()):
        here = n
        for target in _cheaper(problem, b, pattern):
            limit = left[target]
            moved = here if limit is None else min(here, limit)
            if moved:
                left[target] = None if limit is None else limit - moved
                own = left[b]
                left[b] = None if own is None else own + moved
                changed[target, pattern] += moved
                here -= moved
        if here:
            changed[b, pattern] += here
    return Solution(tuple(sorted(changed.items())), tuple(missing))


def _cheaper(problem: Problem, b: int, pattern: Pattern) -> list[int]:
    """Return the boards that could take a pattern for less, or for the same money from a shorter one."""
    if len(pattern) != 1:
        return []
    own = problem.bins[b]
    found = [
        t
        for t, other in enumerate(problem.bins)
        if (other.cost, other.length) < (own.cost, own.length)
        and len(other.stretches) == 1
        and all(t in problem.kinds[k].bins for k, _ in pattern[0])
        and other.stretches[0][1] >= problem.used(t, pattern[0])
    ]
    return sorted(found, key=lambda t: (problem.bins[t].cost, problem.bins[t].length))
