"""Parts of a nesting problem given to the kernel: one sheet filled, a few sheets packed again."""

from collections import Counter
from dataclasses import dataclass, field, replace

from .kernel import RAW_STEPS, Search
from .search import kernel_costs
from .sheet_numbers import Sheet, pieces_of, renamed, split_sheets
from .sheets import SheetProblem

_MASK = 0xFFFFFFFFFFFFFFFF


@dataclass(slots=True)
class PartSearch:
    """Searches parts of a problem, each with its own draw of the seed, and counts the work in units of effort."""

    problem: SheetProblem
    seed: int
    work: int = 0
    _state: int = field(init=False)

    def __post_init__(self) -> None:
        self._state = (self.seed * 0x9E3779B97F4A7C15 + 1) & _MASK or 1

    def draw(self) -> int:
        """A 64-bit xorshift generator (Marsaglia 2003), kept within 64 bits by masking."""
        x = self._state
        x ^= x >> 12
        x ^= (x << 25) & _MASK
        x ^= x >> 27
        self._state = x
        return (x * 0x2545F4914F6CDD1D) & _MASK

    def fill(self, stock: int, left: list[int], units: int, values: list[int] | None = None) -> Sheet | None:
        """Fill one sheet of a stock for the most area (or value) the units allow; None where nothing fits."""
        x, y = self.problem.sizes[stock]
        demand = []
        for k, (kind, n) in enumerate(zip(self.problem.kinds, left, strict=True)):
            fits = [s for bit, s in enumerate(kind.shapes) if kind.allowed[stock] >> bit & 1]
            wanted = bool(fits) and (values is None or values[k] > 0)
            demand.append(min(n, max((x // a) * (y // b) for a, b in fits)) if wanted else 0)
        limits = tuple(1 if t == stock else 0 for t in range(len(self.problem.stock)))
        found, _ = self.pack(demand, limits, 1, units, values)
        return found[0] if found else None

    def pack(
        self, demand: list[int], limits: tuple[int, ...], sheets: int, units: int, values: list[int] | None = None
    ) -> tuple[list[Sheet], bool]:
        """Pack the demand on at most `sheets` sheets; returns the sheets and whether everything is placed."""
        keep = [k for k, n in enumerate(demand) if n]
        if not keep:
            return [], True
        search = self._search(keep, demand, limits, sheets, values)
        search.run(units * RAW_STEPS)
        self.work += max(1, -(-search.work // RAW_STEPS))
        found = [renamed(s, keep) for s in split_sheets(search.best())]
        complete = search.missing == 0
        search.close()
        return found, complete

    def polished(self, sheet: Sheet, units: int, worth: tuple[int, int]) -> Sheet:
        """Return the pieces of a sheet on the same stock, so that remainders of at least `worth` grow."""
        pieces = pieces_of(sheet)
        demand = [pieces[k] for k in range(len(self.problem.kinds))]
        keep = [k for k, n in enumerate(demand) if n]
        limits = tuple(1 if t == sheet[0] else 0 for t in range(len(self.problem.stock)))
        search = self._search(keep, demand, limits, 1, None)
        search.run(0)
        search.offer(renamed(sheet, {k: i for i, k in enumerate(keep)}))
        if search.missing == 0:
            search.polish(search.work + units * RAW_STEPS, worth)
            sheet = renamed(tuple(search.best()), keep)
        self.work += max(1, -(-search.work // RAW_STEPS))
        search.close()
        return sheet

    def _search(
        self, keep: list[int], demand: list[int], limits: tuple[int, ...], sheets: int, values: list[int] | None
    ) -> Search:
        """Make a search for the kinds to keep."""
        template = self.problem.kernel_problem(kernel_costs(self.problem)[0], -1, ())
        part = replace(
            template,
            shapes=tuple(template.shapes[k] for k in keep),
            allowed=tuple(self.problem.kinds[k].allowed for k in keep),
            demand=tuple(demand[k] for k in keep),
            stock_limits=limits,
            sheets=sheets,
            values=None if values is None else tuple(values[k] for k in keep),
        )
        return Search(part, self.draw())

    def area_of(self, pieces: Counter[int]) -> int:
        """Area of pieces by kind, kerf included."""
        return sum(self.problem.kinds[k].area * n for k, n in pieces.items())
