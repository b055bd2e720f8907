"""The restricted master programme of column generation for boards, solved by HiGHS.

Gilmore and Gomory, "A linear programming approach to the cutting stock problem", Operations Research 9, 1961. One
thread, a fixed seed and no clock: the same columns give the same numbers on the same platform.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .boards_problem import Pattern, Problem
from .boards_start import totals

_MISSING = 100.0  # cost of leaving a length out, in costs of the dearest board


@dataclass(frozen=True, slots=True)
class Answer:
    """The relaxed answer: how often each pattern, the worth of one more of each kind, and the work it took."""

    times: NDArray[np.float64]
    worth: NDArray[np.float64]
    shadow: NDArray[np.float64]  # cost of one more board of each kind that must be used (or, below 0, may not)
    objective: float
    work: int


class Master:
    """Patterns in use and how often each is cut, relaxed to fractions. Costs are in units of the dearest board."""

    def __init__(self, problem: Problem) -> None:
        import highspy
        from highspy._core import _Highs  # the wrapper class around it greets on standard output

        self._h = _Highs()
        self._inf = highspy.kHighsInf
        for option, value in (("output_flag", False), ("threads", 1), ("random_seed", 1), ("presolve", "off")):
            self._h.setOptionValue(option, value)
        self._h.setOptionValue("solver", "simplex")
        self._h.setOptionValue("simplex_strategy", 4)  # primal: new columns leave the last basis usable
        self.problem = problem
        self.scale = max([b.cost for b in problem.bins] + [1])
        self.columns: list[tuple[int, Pattern]] = []
        self._known: set[tuple[int, Pattern]] = set()
        self._kinds: list[int] = []
        self._counts: list[int] = []
        self._starts: list[int] = []
        self._open = np.zeros(0, dtype=np.bool_)
        rows = len(problem.kinds) + len(problem.bins)
        demand = np.array([float(n) for n in problem.demand])
        limits = np.array([self._inf if b.limit is None else float(b.limit) for b in problem.bins])
        for lower in demand:
            self._h.addRow(lower, self._inf, 0, np.zeros(0, dtype=np.int32), np.zeros(0))
        for upper in limits:
            self._h.addRow(-self._inf, upper, 0, np.zeros(0, dtype=np.int32), np.zeros(0))
        for kind in range(len(problem.kinds)):
            self._h.addCol(
                _cost_of_missing(problem, kind), 0.0, self._inf, 1, np.array([kind], dtype=np.int32), np.ones(1)
            )
        self._rows = rows

    def add(self, b: int, pattern: Pattern) -> bool:
        """Add a pattern of a kind of board; False when it is there already."""
        if (b, pattern) in self._known:
            return False
        counts = totals(pattern)
        self._known.add((b, pattern))
        self.columns.append((b, pattern))
        self._starts.append(len(self._kinds))
        self._kinds.extend(counts)
        self._counts.extend(counts.values())
        rows = np.array([*counts, len(self.problem.kinds) + b], dtype=np.int32)
        values = np.array([*map(float, counts.values()), 1.0])
        self._h.addCol(self.problem.bins[b].cost / self.scale, 0.0, self._inf, len(rows), rows, values)
        self._open = np.append(self._open, True)
        return True

    def ask_for(self, demand: list[int], left: list[int | None], least: list[int]) -> None:
        """Set what is still to be cut, how many boards are left and how many must be used.

        Patterns holding more than is still to be cut are shut.
        """
        kinds = len(self.problem.kinds)
        for kind, n in enumerate(demand):
            self._h.changeRowBounds(kind, float(n), self._inf)
        for b, limit in enumerate(left):
            used = float(least[b]) if least[b] else -self._inf
            self._h.changeRowBounds(kinds + b, used, self._inf if limit is None else float(limit))
        if not self.columns:
            return
        within = np.array(self._counts) <= np.array(demand)[np.array(self._kinds)]
        fits = np.logical_and.reduceat(within, np.array(self._starts))
        for column in np.flatnonzero(fits != self._open).tolist():
            self._h.changeColBounds(kinds + column, 0.0, self._inf if fits[column] else 0.0)
        self._open = fits

    def boards_used(self, answer: Answer) -> list[float]:
        """Return how many boards of each kind a relaxed answer uses."""
        used = [0.0] * len(self.problem.bins)
        for (b, _), times in zip(self.columns, answer.times.tolist(), strict=False):  # newer patterns are not in it
            used[b] += times
        return used

    def solve(self) -> Answer:
        """Solve the relaxed programme from the last basis."""
        before = len(self.columns)
        self._h.run()
        solution = self._h.getSolution()
        info = self._h.getInfo()
        kinds = len(self.problem.kinds)
        dual = np.array(solution.row_dual)
        times = np.array(solution.col_value)[kinds:]
        work = 250 + int(info.simplex_iteration_count) * (10 + self._rows // 4) + before // 2 + self._rows
        worth = np.maximum(dual[:kinds], 0.0)
        shadow = dual[kinds:]
        return Answer(times, worth, shadow, float(info.objective_function_value), work)


def _cost_of_missing(problem: Problem, kind: int) -> float:
    """Return what leaving out one length costs; where all its boards may run out, more for a longer one."""
    if any(problem.bins[b].limit is None for b in problem.kinds[kind].bins):
        return _MISSING
    longest = max(k.weight for k in problem.kinds) - problem.kerf
    return _MISSING * (0.1 + 10 * (problem.kinds[kind].weight - problem.kerf) / max(longest, 1))
