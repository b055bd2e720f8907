"""Column generation for bulk demand: which sheets, how often, priced by linear programming.

P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting stock problem", Operations Research 9
(1961) and 13 (1965). The dual prices of the pieces go to the kernel, which fills one sheet for the most value; any cut
tree it finds is a column, so stages, grain, kerf and groups need no model of their own. Because the kernel is a
heuristic, the linear programme is no bound. Whole numbers come from rounding down, fixing, and solving what is left
again (diving).
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from .search_part import PartSearch
from .sheet_numbers import Sheet, pieces_of

PRICE_UNITS = 400  # effort spent on pricing one sheet; four times as much before giving up
LINEAR_UNITS = 600  # effort that one linear programme counts for
REST_UNITS = 30_000  # effort spent on the last pieces together
_ROUNDS = 120  # of pricing at most before the next dive
_REST_PIECES = 90  # so few pieces are packed at once
_VALUE = 2**20  # what a piece as dear as a whole sheet is worth to the kernel
_GAIN = 1e-6
_MISSING = 50.0  # what a piece left out costs, in sheets


@dataclass(slots=True)
class ColumnSearch:
    """A resumable column generation; `sheets` and `left` hold the whole solution when `steps` has ended."""

    part: PartSearch
    sheets: list[Sheet] = field(default_factory=list)
    left: list[int] = field(default_factory=list)
    price_units: int = PRICE_UNITS
    _stock: list[int | None] = field(default_factory=list)
    _columns: dict[Sheet, Counter[int]] = field(default_factory=dict)
    _usage: list[float] = field(default_factory=list)

    def steps(self, known: set[Sheet]) -> Iterator[None]:
        """Work in short steps, starting from the sheets already known."""
        problem = self.part.problem
        self.sheets, self.left = [], [k.demand for k in problem.kinds]
        self._stock = list(problem.limits)
        self._columns.update((sheet, pieces_of(sheet)) for sheet in sorted(known) if sheet not in self._columns)
        while sum(self.left) > _REST_PIECES:
            yield from self._priced()
            if not self._fix():
                break
        yield
        self._pack_rest()

    def _priced(self) -> Iterator[None]:
        """Solve and price until no column helps; the use of each column stands in `_usage`."""
        linear = _Linear(self.part, self.left, self._stock, self._columns)
        units = self.price_units
        for _ in range(_ROUNDS):
            self._usage, duals, rents = linear.solve()
            self.part.work += LINEAR_UNITS
            yield
            fresh = self._price(duals, rents, units)
            for sheet in fresh:
                self._columns[sheet] = pieces_of(sheet)
                linear.add(sheet, self._columns[sheet])
            if fresh:
                continue
            if units > self.price_units:
                return
            units *= 4
        self._usage = linear.solve()[0]  # the rounds ended on columns that were not weighed yet

    def _price(self, duals: list[float], rents: list[float], units: int) -> list[Sheet]:
        """Fill a sheet of each stock for the most value; return those worth more than they cost."""
        values = [max(0, round(d * _VALUE)) for d in duals]
        fresh = []
        for t in range(len(self._stock)):
            if self._stock[t] == 0:
                continue
            sheet = self.part.fill(t, self.left, units, values)
            if sheet is None or sheet in self._columns:
                continue
            worth = sum(duals[k] * n for k, n in pieces_of(sheet).items())
            if worth > price_of(self.part, t) + rents[t] + _GAIN:
                fresh.append(sheet)
        return fresh

    def _fix(self) -> bool:
        """Commit what the linear programme uses in whole sheets, or else its largest part; False where nothing fits."""
        order = sorted(zip(self._usage, self._columns, strict=True), key=lambda x: (-x[0], x[1]))
        fixed = False
        for use, sheet in order:
            copies = int(use + _GAIN)
            if copies:
                fixed = self._commit(sheet, copies) or fixed
        if fixed:
            return True
        return any(self._commit(sheet, 1) for _, sheet in order)

    def _commit(self, sheet: Sheet, copies: int) -> bool:
        pieces = self._columns[sheet]
        copies = min(copies, *(self.left[k] // n for k, n in pieces.items()))
        limit = self._stock[sheet[0]]
        if limit is not None:
            copies = min(copies, limit)
            self._stock[sheet[0]] = limit - max(0, copies)
        if copies < 1:
            return False
        self.sheets.extend([sheet] * copies)
        for k, n in pieces.items():
            self.left[k] -= n * copies
        return True

    def _pack_rest(self) -> None:
        """Pack what is left with all the freedom of the kernel."""
        limits = tuple(-1 if q is None else q for q in self._stock)
        found, _ = self.part.pack(self.left, limits, max(1, sum(self.left)), REST_UNITS)
        for sheet in found:
            for k, n in pieces_of(sheet).items():
                self.left[k] -= n
        self.sheets.extend(found)


def price_of(part: PartSearch, stock: int) -> float:
    """Cost of a sheet, where the dearest costs one."""
    return part.problem.costs[stock] / max(1, *part.problem.costs)


class _Linear:
    """The linear programme over the columns so far, kept in the solver from one pricing to the next."""

    def __init__(
        self, part: PartSearch, left: list[int], stock: list[int | None], columns: dict[Sheet, Counter[int]]
    ) -> None:
        import highspy
        from highspy._core import _Highs  # the wrapper class around it greets on standard output

        self._part = part
        self._solver = _Highs()
        for option, value in (("output_flag", False), ("threads", 1), ("random_seed", 1), ("presolve", "off")):
            self._solver.setOptionValue(option, value)
        self._infinity = highspy.kHighsInf
        self._rows = [k for k, n in enumerate(left) if n]
        self._row_of = {k: r for r, k in enumerate(self._rows)}
        self._kinds, self._stocks = len(left), len(stock)
        for k in self._rows:
            self._solver.addRow(float(left[k]), self._infinity, 0, [], [])
        for limit in stock:
            self._solver.addRow(-self._infinity, self._infinity if limit is None else float(limit), 0, [], [])
        for row in range(len(self._rows)):
            self._solver.addCol(_MISSING, 0.0, self._infinity, 1, [row], [1.0])
        self._count = 0
        for sheet, pieces in columns.items():
            self.add(sheet, pieces)

    def add(self, sheet: Sheet, pieces: Counter[int]) -> None:
        """Add the column of a sheet."""
        entries = sorted((self._row_of[k], float(n)) for k, n in pieces.items() if k in self._row_of)
        entries.append((len(self._rows) + sheet[0], 1.0))
        rows, numbers = [r for r, _ in entries], [n for _, n in entries]
        self._solver.addCol(price_of(self._part, sheet[0]), 0.0, self._infinity, len(rows), rows, numbers)
        self._count += 1

    def solve(self) -> tuple[list[float], list[float], list[float]]:
        """Return the use of each column, the dual price of each kind, and the rent of each limited stock."""
        self._solver.run()
        solution = self._solver.getSolution()
        use, dual = list(solution.col_value), list(solution.row_dual)
        prices = [0.0] * self._kinds
        for row, k in enumerate(self._rows):
            prices[k] = dual[row]
        rents = [-dual[len(self._rows) + t] for t in range(self._stocks)]
        return use[len(self._rows) :], prices, rents
