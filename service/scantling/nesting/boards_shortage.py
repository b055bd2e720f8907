"""When boards run out: the least that cutting what is placed can cost, what is missing and what to buy for it."""

from collections import Counter
from collections.abc import Callable
from dataclasses import replace

from .boards_problem import Bin, Problem, Solution
from .boards_search import BoardSearch, least_cost
from .boards_start import fit_decreasing, preferences
from .nouns import Job, Unplaced

_SHARE = 4  # one part in so many of the effort looks at what is placed alone


def settle(search: BoardSearch, job: Job, out_of_time: Callable[[], bool]) -> tuple[Solution, int, int]:
    """Return the solution of a search that has ended, the least cost of what it places, and the work that took.

    Where boards have run out, what is placed is searched once more as if nothing else had been asked for: its bound
    holds for the answer, and the same pieces may come from cheaper boards.
    """
    missing = search.best.missing
    if not any(missing):
        return search.best, search.bound, 0
    problem = search.problem
    placed = [n - m for n, m in zip(problem.demand, missing, strict=True)]
    kinds = tuple(replace(k, demand=n) for k, n in zip(problem.kinds, placed, strict=True))
    again = BoardSearch(replace(problem, kinds=kinds), job.seed)
    work = 0
    for spent in again.steps():
        work += spent
        if work > job.effort // _SHARE or out_of_time():
            break
    again.offer(Solution(search.best.boards, tuple(0 for _ in missing)))
    bound = max(again.bound, least_cost(problem, placed))
    best = Solution(again.best.boards, missing)
    return best, min(best.rank(problem)[1], bound), work


def run_out(problem: Problem, solution: Solution, missing: Counter[str], job: Job) -> list[Unplaced]:
    """Name the parts for which no board is left, with what would have to be bought for all of them."""
    if not missing:
        return []
    on_hand = {s.id for s in job.stock if s.offcut}
    for_sale: list[int | None] = [0 if b.stock in on_hand else None for b in problem.bins]
    more = fit_decreasing(problem, list(solution.missing), for_sale, preferences(problem)[0])
    wanted: Counter[str] = Counter()
    for (b, _), n in more.boards:
        wanted[problem.bins[b].stock] += n
    buy = " and ".join(f"{n} more of {stock}" for stock, n in sorted(wanted.items()))
    reason = "no board is left for it" + (f"; everything missing would come from {buy}" if buy else "")
    return [Unplaced(part, n, reason, _nearest(part, problem, on_hand)) for part, n in missing.items()]


def _nearest(part: str, problem: Problem, on_hand: set[str]) -> str | None:
    """Return the cheapest board a part fits that can be bought, or else the cheapest there is."""
    for kind in problem.kinds:
        if any(m.part == part for m in (*kind.members, *kind.together)):
            boards = [problem.bins[b] for b in kind.bins]
            return min(boards, key=lambda b: (b.stock in on_hand, *_price(b))).stock
    return None


def _price(board: Bin) -> tuple[int, int, str]:
    return board.cost, board.length, board.stock
