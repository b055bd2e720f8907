"""What is missing when the stock runs out: which parts, why, and what to buy for them."""

from collections import Counter
from dataclasses import replace

from .kernel import RAW_STEPS, UNLIMITED, Search
from .nouns import Layout, Piece, Unplaced
from .sheet_trees import read_solution
from .sheets import SheetProblem

_UNITS = 1_000  # effort spent on saying what to buy


def explain_missing(
    problem: SheetProblem, layouts: list[Layout], missing: Counter[int], pieces: tuple[Piece, ...]
) -> list[Unplaced]:
    """Return the pieces a solution leaves out, with the sheets that would have to be bought for all of them."""
    if not missing:
        return []
    used: Counter[str] = Counter()
    for layout in layouts:
        used[layout.stock] += layout.count
    short = [q is not None and used[s.id] >= q for s, q in zip(problem.stock, problem.limits, strict=True)]
    wanted = _to_buy(problem, missing)
    buy = " and ".join(f"{n} more of “{stock}”" for stock, n in sorted(wanted.items()))
    unplaced = []
    for index, count in sorted(missing.items()):
        kind = next(k for k in problem.kinds if any(i == index for i, _ in k.owners))
        nearest = next((s.id for s, bits in zip(problem.stock, kind.allowed, strict=True) if bits), None)
        if all(s for s, bits in zip(short, kind.allowed, strict=True) if bits):
            reason = "the stock runs out" + (f"; everything missing would come from {buy}" if buy else "")
        else:
            reason = f"no sheet takes it with the first cut {problem.cutting.first_cut} the sheet"
        quantity = pieces[index].quantity if pieces[index].group is not None else count
        unplaced.append(Unplaced(pieces[index].id, quantity, reason, nearest))
    return unplaced


def _to_buy(problem: SheetProblem, missing: Counter[int]) -> Counter[str]:
    """Nest the missing pieces as if every stock but offcuts could be bought, and count the sheets."""
    demand = []
    for kind in problem.kinds:
        count = sum(missing[i] for i, _ in kind.owners)
        demand.append(min(kind.demand, count))
    allowed = tuple(k.allowed for k in problem.kinds)
    costs = tuple(max(1, x * y >> 16) for x, y in problem.sizes)
    template = problem.kernel_problem(costs, 0, allowed)
    limits = tuple(0 if s.offcut else UNLIMITED for s in problem.stock)
    search = Search(replace(template, demand=tuple(demand), stock_limits=limits), seed=1)
    search.run(_UNITS * RAW_STEPS)
    wanted = Counter(problem.stock[stock].id for stock, _ in read_solution(search.best(), problem))
    search.close()
    return wanted
