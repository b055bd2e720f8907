"""The search for jobs of many pieces: fill sheets one pattern at a time, then mend a few sheets together.

A sheet filled well is repeated as long as its pieces last (sequential heuristic, after R. Haessler, "A heuristic
programming solution to a nonlinear cutting stock problem", Management Science 17 (1971)). After that a few sheets at
a time are given to the kernel's ruin and recreate with one sheet less; what does not fit goes on a sheet of its own,
so that the free room gathers until a sheet is saved.
"""

from collections import Counter
from dataclasses import dataclass, field, replace

from .kernel import RAW_STEPS, UNLIMITED, Search
from .search import SearchState, kernel_costs
from .sheet_trees import Tree, read_solution

Sheet = tuple[int, ...]  # the kernel's numbers for one sheet

FILL_UNITS = 1_500  # effort spent on filling one sheet
FIRST_FILL_UNITS = 100  # of the first answer
MEND_UNITS = 8_000  # effort spent on a few sheets
_MEND_MOST = 9  # sheets mended together
_MEND_PIECES = 160  # pieces mended together, roughly
_MASK = 0xFFFFFFFFFFFFFFFF


def split_sheets(numbers: list[int]) -> list[Sheet]:
    """Split a kernel solution into sheets."""
    sheets, at = [], 0
    while at < len(numbers):
        end = _end_of_branch(numbers, at + 1)
        sheets.append(tuple(numbers[at:end]))
        at = end
    return sheets


def _end_of_branch(numbers: list[int], at: int) -> int:
    pending = 1
    while pending:
        if numbers[at] >= 0:
            at += 2
        else:
            pending += numbers[at + 2]
            at += 3
        pending -= 1
    return at


def pieces_of(sheet: Sheet) -> Counter[int]:
    """How many pieces of each kind lie on a sheet."""
    found: Counter[int] = Counter()
    at = 1
    while at < len(sheet):
        if sheet[at] >= 0:
            found[sheet[at]] += 1
            at += 2
        else:
            at += 3
    return found


@dataclass(slots=True)
class BulkSearch(SearchState):
    """A resumable search over whole sheets, for more pieces than one kernel search should hold."""

    _sheets: list[Sheet] = field(default_factory=list)
    _missing: tuple[int, ...] = ()
    _draws: int = 0
    _refill: bool = True
    _areas: dict[Sheet, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.prepare()
        self._missing = tuple(k.demand for k in self.problem.kinds)
        self._draws = (self.seed * 0x9E3779B97F4A7C15 + 1) & _MASK or 1

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
            self._sheets, self._missing = self._fill_all(FIRST_FILL_UNITS)
        while self.work < goal and not self.proven:
            if self._refill:
                self._refill = False
                self._take(*self._fill_all(FILL_UNITS))
            elif len(self._sheets) < 2 or not self.complete:
                break
            else:
                self._mend()

    def polish(self, units: int, worth: tuple[int, int]) -> None:
        """Do nothing: mending gathers the free room already."""

    def solution(self) -> list[tuple[int, Tree]]:
        """Return (stock index, tree of cuts) of each sheet of the best solution."""
        return read_solution([n for s in self._sheets for n in s], self.problem)

    def _take(self, sheets: list[Sheet], missing: tuple[int, ...]) -> None:
        """Keep a whole solution where it misses less, or misses the same and costs less."""
        costs = self.problem.costs
        new = (self._area_of(Counter(dict(enumerate(missing)))), sum(costs[s[0]] for s in sheets))
        if new < (self._area_of(Counter(dict(enumerate(self._missing)))), self.cost):
            self._sheets, self._missing = sheets, missing

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
                sheet = self._fill_one(t, left, units)
                if sheet is None:
                    continue
                rate = self.problem.costs[t] * 2**24 // self._area_of(pieces_of(sheet))
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

    def _fill_one(self, stock: int, left: list[int], units: int) -> Sheet | None:
        """Fill one sheet of a stock as well as the units allow; None where nothing fits."""
        x, y = self.problem.sizes[stock]
        demand = []
        for kind, n in zip(self.problem.kinds, left, strict=True):
            fits = [s for bit, s in enumerate(kind.shapes) if kind.allowed[stock] >> bit & 1]
            demand.append(min(n, max((x // a) * (y // b) for a, b in fits)) if fits else 0)
        limits = tuple(1 if t == stock else 0 for t in range(len(self.problem.stock)))
        found = self._search(demand, limits, 1, units)
        return found[0][0] if found[0] else None

    def _search(self, demand: list[int], limits: tuple[int, ...], sheets: int, units: int) -> tuple[list[Sheet], bool]:
        """Search a part of the problem; returns its sheets and whether everything is placed."""
        keep = [k for k, n in enumerate(demand) if n]
        template = self.problem.kernel_problem(kernel_costs(self.problem)[0], -1, ())
        part = replace(
            template,
            shapes=tuple(template.shapes[k] for k in keep),
            allowed=tuple(self.problem.kinds[k].allowed for k in keep),
            demand=tuple(demand[k] for k in keep),
            stock_limits=limits,
            sheets=sheets,
        )
        search = Search(part, self._draw())
        search.run(units * RAW_STEPS)
        self.work += max(1, -(-search.work // RAW_STEPS))
        found = [_renamed(s, keep) for s in split_sheets(search.best())]
        complete = search.missing == 0
        search.close()
        return found, complete

    def _draw(self) -> int:
        """A 64-bit xorshift generator (Marsaglia 2003), kept within 64 bits by masking."""
        x = self._draws
        x ^= x >> 12
        x ^= (x << 25) & _MASK
        x ^= x >> 27
        self._draws = x
        return (x * 0x2545F4914F6CDD1D) & _MASK

    def _area_of(self, pieces: Counter[int]) -> int:
        return sum(self.problem.kinds[k].area * n for k, n in pieces.items())

    def _fullness(self, sheet: Sheet) -> int:
        if sheet not in self._areas:
            x, y = self.problem.sizes[sheet[0]]
            self._areas[sheet] = self._area_of(pieces_of(sheet)) * 1_000_000 // (x * y)
        return self._areas[sheet]

    def _choose(self) -> list[int]:
        """A few sheets to mend together: one of the emptiest, the rest by chance."""
        order = sorted(range(len(self._sheets)), key=lambda i: (self._fullness(self._sheets[i]), i))
        chosen = [order[self._draw() % min(len(order), 3)]]
        pieces = sum(pieces_of(self._sheets[chosen[0]]).values())
        for _ in range(4 * _MEND_MOST):
            if len(chosen) >= min(_MEND_MOST, len(order)) or pieces >= _MEND_PIECES:
                break
            i = order[self._draw() % len(order)]
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
        found, complete = self._search(demand, limits, len(sheets) - 1, MEND_UNITS)
        if not complete:
            placed: Counter[int] = Counter()
            for sheet in found:
                placed += pieces_of(sheet)
            rest = [n - placed[k] for k, n in enumerate(demand)]
            area = self._area_of(Counter(dict(enumerate(rest))))
            if area >= min(self._area_of(pieces_of(s)) for s in sheets):
                return
            extra, complete = self._search(rest, limits, 1, FIRST_FILL_UNITS)
            found += extra
        if complete:
            drop = set(chosen)
            self._sheets = [s for i, s in enumerate(self._sheets) if i not in drop] + found


def _renamed(sheet: Sheet, keep: list[int]) -> Sheet:
    """Give the kinds of a part of the problem their numbers in the whole."""
    numbers, at = list(sheet), 1
    while at < len(numbers):
        if numbers[at] >= 0:
            numbers[at] = keep[numbers[at]]
            at += 2
        else:
            at += 3
    return tuple(numbers)
