"""The search for jobs of many pieces: fill sheets one pattern at a time, then mend a few sheets together.

A sheet filled well is repeated as long as its pieces last (sequential heuristic, after R. Haessler, "A heuristic
programming solution to a nonlinear cutting stock problem", Management Science 17 (1971)). After that a few sheets at
a time are given to the kernel's ruin and recreate with one sheet less; what does not fit goes on a sheet of its own,
so that the free room gathers until a sheet is saved.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from .kernel import UNLIMITED
from .search import SearchState
from .search_columns import ColumnSearch
from .search_part import PartSearch
from .sheet_numbers import Sheet, pieces_of
from .sheet_trees import Tree, read_solution

FILL_UNITS = 1_500  # effort spent on filling one sheet
FIRST_FILL_UNITS = 100  # of the first answer
ONE_PASS_KINDS = 100  # from so many the first answer is one pass over all pieces, which is quicker than sheet by sheet
MEND_UNITS = 8_000  # effort spent on a few sheets
POLISHED = 4  # sheets whose remainder is looked after
_MEND_MOST = 9  # sheets mended together
_MEND_PIECES = 160  # pieces mended together, roughly
_COLUMN_PASSES = 5  # of column generation, each pricing four times as carefully: gcut6d needs the fifth
_COLUMNS_FROM = 8  # pieces of a kind on average, from which column generation pays


@dataclass(slots=True)
class BulkSearch(SearchState):
    """A resumable search over whole sheets, for more pieces than one kernel search should hold."""

    _sheets: list[Sheet] = field(default_factory=list)
    _missing: tuple[int, ...] = ()
    _refill: bool = True
    _columns: Iterator[None] | None = None
    _passes: int = 0
    _column_search: ColumnSearch | None = None
    _part: PartSearch = field(init=False)
    _areas: dict[Sheet, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.prepare()
        self._missing = tuple(k.demand for k in self.problem.kinds)
        self._part = PartSearch(self.problem, self.seed)
        demand = sum(k.demand for k in self.problem.kinds)
        if demand >= _COLUMNS_FROM * max(1, len(self.problem.kinds)):
            self._column_search = ColumnSearch(self._part)

    @property
    def complete(self) -> bool:
        """True where everything is placed."""
        return not any(self._missing)

    @property
    def cost(self) -> int:
        """Cost of the best solution, in the objective's units."""
        return sum(self.problem.costs[s[0]] for s in self._sheets)

    def advance(self, units: int) -> None:
        """Spend about `units` more of effort; a step once begun is finished."""
        goal = self.work + units
        if not self._sheets:
            many = len(self.problem.kinds) >= ONE_PASS_KINDS
            self._sheets, self._missing = self._one_pass() if many else self._fill_all(FIRST_FILL_UNITS)
            self.work = self._part.work
        while self.work < goal and not self.finished:
            self._step()
            self.work = self._part.work

    def _step(self) -> None:
        """Do the next piece of work: fill again with care, then column generation, then mending for ever."""
        if self._refill:
            self._refill = False
            self._take(*self._fill_all(FILL_UNITS))
            if self._column_search is not None:
                self._columns = self._column_search.steps(set(self._sheets))
        elif self._columns is not None and self._column_search is not None:
            if next(self._columns, "done") == "done":
                self._take(self._column_search.sheets, tuple(self._column_search.left))
                self._passes += 1
                self._column_search.price_units *= 4
                again = self._passes < _COLUMN_PASSES
                self._columns = self._column_search.steps(set(self._sheets)) if again else None
        elif len(self._sheets) < 2 or not self.complete:
            self.exhausted = True
        else:
            self._mend()

    def polish(self, units: int, worth: tuple[int, int]) -> None:
        """Spend up to `units` on what is left over on the emptiest sheets that are alike to no other."""
        count = Counter(self._sheets)
        single = [i for i, s in enumerate(self._sheets) if count[s] == 1]
        emptiest = sorted(single, key=lambda i: (self._fullness(self._sheets[i]), i))[:POLISHED]
        kerf = self.problem.cutting.kerf  # a remainder of the kernel's measure loses one kerf when it is cut off
        for i in emptiest if units >= len(emptiest) else ():
            sheet = self._part.polished(self._sheets[i], units // len(emptiest), (worth[0] + kerf, worth[1] + kerf))
            self._sheets[i] = sheet
        self.work = max(self.work, self._part.work)

    def solution(self) -> list[tuple[int, Tree]]:
        """Return (stock index, tree of cuts) of each sheet of the best solution."""
        return read_solution([n for s in self._sheets for n in s], self.problem)

    def _take(self, sheets: list[Sheet], missing: tuple[int, ...]) -> None:
        """Keep a whole solution where it misses less, or misses the same and costs less."""
        costs = self.problem.costs
        new = (self._part.area_of(Counter(dict(enumerate(missing)))), sum(costs[s[0]] for s in sheets))
        if new < (self._part.area_of(Counter(dict(enumerate(self._missing)))), self.cost):
            self._sheets, self._missing = sheets, missing

    def _one_pass(self) -> tuple[list[Sheet], tuple[int, ...]]:
        """Place every piece once, large pieces first."""
        demand = [k.demand for k in self.problem.kinds]
        limits = tuple(UNLIMITED if q is None else q for q in self.problem.limits)
        found, _ = self._part.pack(demand, limits, sum(demand), 0)
        for sheet in found:
            for k, n in pieces_of(sheet).items():
                demand[k] -= n
        return found, tuple(demand)

    def _fill_all(self, units: int) -> tuple[list[Sheet], tuple[int, ...]]:
        """Fill sheets one pattern at a time until everything is placed or the stock has run out."""
        left = [k.demand for k in self.problem.kinds]
        stock = [UNLIMITED if q is None else q for q in self.problem.limits]
        sheets: list[Sheet] = []
        while any(left):
            best: tuple[int, Sheet] | None = None
            for t in range(len(stock)):
                if stock[t] == 0:
                    continue
                sheet = self._part.fill(t, left, units)
                if sheet is None:
                    continue
                rate = self.problem.costs[t] * 2**24 // self._part.area_of(pieces_of(sheet))
                if best is None or rate < best[0]:
                    best = (rate, sheet)
            if best is None:
                break
            used = pieces_of(best[1])
            copies = min(left[k] // n for k, n in used.items())
            t = best[1][0]
            if stock[t] != UNLIMITED:
                copies = min(copies, stock[t])
                stock[t] -= copies
            sheets.extend([best[1]] * copies)
            for k, n in used.items():
                left[k] -= n * copies
        return sheets, tuple(left)

    def _fullness(self, sheet: Sheet) -> int:
        if sheet not in self._areas:
            x, y = self.problem.sizes[sheet[0]]
            self._areas[sheet] = self._part.area_of(pieces_of(sheet)) * 1_000_000 // (x * y)
        return self._areas[sheet]

    def _choose(self) -> list[int]:
        """A few sheets to mend together: one of the emptiest, the rest by chance."""
        order = sorted(range(len(self._sheets)), key=lambda i: (self._fullness(self._sheets[i]), i))
        chosen = [order[self._part.draw() % min(len(order), 3)]]
        pieces = sum(pieces_of(self._sheets[chosen[0]]).values())
        for _ in range(4 * _MEND_MOST):
            if len(chosen) >= min(_MEND_MOST, len(order)) or pieces >= _MEND_PIECES:
                break
            i = order[self._part.draw() % len(order)]
            if i not in chosen and self._sheets[i][0] == self._sheets[chosen[0]][0]:
                chosen.append(i)
                pieces += sum(pieces_of(self._sheets[i]).values())
        return chosen

    def _mend(self) -> None:
        """Try to put the pieces of a few sheets of one stock on one sheet less."""
        chosen = self._choose()
        if len(chosen) < 2:
            self.work += 1
            return
        sheets = [self._sheets[i] for i in chosen]
        stock = sheets[0][0]
        demand = [0] * len(self.problem.kinds)
        for sheet in sheets:
            for k, n in pieces_of(sheet).items():
                demand[k] += n
        limits = tuple(len(sheets) if t == stock else 0 for t in range(len(self.problem.stock)))
        found, complete = self._part.pack(demand, limits, len(sheets) - 1, MEND_UNITS)
        if not complete:
            placed: Counter[int] = Counter()
            for sheet in found:
                placed += pieces_of(sheet)
            rest = [n - placed[k] for k, n in enumerate(demand)]
            area = self._part.area_of(Counter(dict(enumerate(rest))))
            if area >= min(self._part.area_of(pieces_of(s)) for s in sheets):
                return
            extra, complete = self._part.pack(rest, limits, 1, FIRST_FILL_UNITS)
            found += extra
        if complete:
            drop = set(chosen)
            self._sheets = [s for i, s in enumerate(self._sheets) if i not in drop] + found
