"""The linear programme of two-stage cutting: pieces come from strips, strips from sheets. Solved by HiGHS.

P. C. Gilmore and R. E. Gomory, "Multistage cutting stock problems of two and more dimensions", Operations Research 13
(1965), 94-120. Every width a strip may have is a row of its own, so one round can add a better strip of each. One
thread, a fixed seed and no clock: the same columns give the same numbers on the same platform.
"""

from dataclasses import dataclass
from fractions import Fraction

from .bounds_strips import Filling, Strips
from .sheets import SheetProblem

WORTH = 2**30  # worths are rounded down to this part of the dearest sheet
_MISSING = 10.0  # what a piece left out costs, in dearest sheets
_GAIN = 1e-6  # of a dearest sheet; only how many rounds there are hangs on it
_EXACT = 1e-9


@dataclass(frozen=True, slots=True)
class Worths:
    """The relaxed answer: its cost, the worth of one more piece of each kind (never negative), and of other rows.

    `strips` holds by way of cutting what one more strip of each width is worth, `rents` by stock what one more sheet
    saves, both in dearest sheets.
    """

    cost: Fraction
    pieces: list[int]
    strips: list[dict[int, float]]
    rents: list[float]


class StripProgramme:
    """Strips and sheets in use and how often each is cut, relaxed to fractions. Costs are in dearest sheets."""

    def __init__(self, problem: SheetProblem, strips: tuple[Strips, ...]) -> None:
        import highspy
        from highspy._core import _Highs  # the wrapper class around it greets on standard output

        self._solver = _Highs()
        for option, value in (("output_flag", False), ("threads", 1), ("random_seed", 1), ("presolve", "off")):
            self._solver.setOptionValue(option, value)
        self._solver.setOptionValue("solver", "simplex")
        self._solver.setOptionValue("simplex_strategy", 4)  # primal: new columns leave the last basis usable
        self._optimal = highspy.HighsModelStatus.kOptimal
        self._infinity = highspy.kHighsInf
        self._problem = problem
        self._strips = strips
        self._dearest = max(problem.costs)
        self._sheets: set[tuple[int, tuple[tuple[int, int], ...]]] = set()
        self._rows = 0
        inf = self._infinity
        kinds = sorted({i.kind for s in strips for i in s.items})
        self._kind_rows = {k: self._add_row(float(problem.kinds[k].demand), inf) for k in kinds}
        self._stock_rows = [self._add_row(-inf, inf if q is None else float(q)) for q in problem.limits]
        self._width_rows = [{w: self._add_row(0.0, inf) for w in s.widths} for s in strips]
        self._begin()

    @property
    def work(self) -> int:
        """Units of effort, about a microsecond each, that solving it once more takes."""
        return 8 * self._rows

    def _begin(self) -> None:
        """Leave every piece out at a price, or cut strips of one kind and sheets of one width of strip."""
        for row in self._kind_rows.values():
            self._add_column(_MISSING, [row], [1.0])
        for way, s in enumerate(self._strips):
            pieces = dict.fromkeys(s.widths, 0)
            for i in s.items:
                width = s.widths[i.width]
                pieces[width] += i.most
                self._add_strip(way, width, {i.kind: min(i.most, s.along // i.along) if i.along else i.most})
            for width, n in pieces.items():
                self._add_sheet(way, {width: min(n, s.across // width) if width else n})

    def add(self, way: int, filling: Filling, worths: Worths) -> bool:
        """Add the strips of a filling worth more than the programme's, and its sheet; tell whether any is new."""
        added = False
        prices = worths.strips[way]
        for strip in filling.strips:
            pieces = filling.pieces(strip)
            if sum(worths.pieces[k] * n for k, n in pieces.items()) / WORTH > prices[strip.width] + _GAIN:
                self._add_strip(way, strip.width, pieces)
                added = True
        stock = self._strips[way].stock
        cost = self._problem.costs[stock] / self._dearest + worths.rents[stock]
        if filling.value / WORTH > cost + _GAIN:
            added = self._add_sheet(way, filling.used) or added
        return added

    def solve(self) -> Worths | None:
        """Solve the relaxed programme from the last basis; None where the solver finds no optimum."""
        self._solver.run()
        if self._solver.getModelStatus() != self._optimal:
            return None
        dual = list(self._solver.getSolution().row_dual)
        pieces = [0] * len(self._problem.kinds)
        for k, row in self._kind_rows.items():
            pieces[k] = int(min(max(dual[row], 0.0), _MISSING) * WORTH)
        cost = float(self._solver.getInfo().objective_function_value) * (1 - _EXACT)
        return Worths(
            Fraction(cost) * self._dearest,
            pieces,
            [{width: dual[row] for width, row in rows.items()} for rows in self._width_rows],
            [max(0.0, -dual[row]) for row in self._stock_rows],
        )

    def _add_strip(self, way: int, width: int, pieces: dict[int, int]) -> None:
        rows = [self._kind_rows[k] for k in pieces]
        self._add_column(0.0, [*rows, self._width_rows[way][width]], [*map(float, pieces.values()), -1.0])

    def _add_sheet(self, way: int, strips: dict[int, int]) -> bool:
        """Add a sheet of so many strips of each width, unless it is there."""
        sheet = (way, tuple(sorted(strips.items())))
        if sheet in self._sheets:
            return False
        self._sheets.add(sheet)
        stock = self._strips[way].stock
        rows = [self._width_rows[way][width] for width in strips]
        cost = self._problem.costs[stock] / self._dearest
        self._add_column(cost, [*rows, self._stock_rows[stock]], [*map(float, strips.values()), 1.0])
        return True

    def _add_row(self, lower: float, upper: float) -> int:
        self._solver.addRow(lower, upper, 0, [], [])
        self._rows += 1
        return self._rows - 1

    def _add_column(self, cost: float, rows: list[int], numbers: list[float]) -> None:
        self._solver.addCol(cost, 0.0, self._infinity, len(rows), rows, numbers)
