"""Nesting in one dimension: lengths cut from boards for the least money, proved where it can be proved."""

from collections.abc import Callable
from dataclasses import replace

from .boards_fit import full_board_findings, full_stretches, with_wider_cuts
from .boards_layouts import build_layouts
from .boards_problem import board_cost, build_problems
from .boards_remainder import gather_remainder
from .boards_search import BoardSearch
from .boards_shortage import run_out, settle
from .nouns import Job, Layout, Nesting, Stock, StoppedBy


def nest_boards(job: Job, out_of_time: Callable[[], bool] | None = None) -> Nesting:
    """Cut the pieces of a job from its boards (stock without a width) and return the best nesting found.

    Minimised, in order: the length that is missing, the money (without prices the length of the boards bought), the
    number of boards, their length; then the longest remainder is made longer where moves allow. `job.effort` is
    counted in units of about a microsecond of one core; the search does the same work in the same order whatever the
    effort, so more of it never gives a worse answer. Widths of pieces are not looked at: every board is as wide as
    it is. `out_of_time` is asked between steps; when it says so the best so far is returned, `stopped_by` time.

    Where a board is filled so full that the cutting error counts, a finding says what room for it would cost.
    """
    nesting = _nest(job, out_of_time)
    full = [f for layout in nesting.layouts for f in full_stretches(job, layout)]
    if not full:
        return nesting
    careful = _nest(with_wider_cuts(job), out_of_time)
    findings = full_board_findings(full, nesting, careful)
    return replace(nesting, work=nesting.work + careful.work, findings=findings)


def _nest(job: Job, out_of_time: Callable[[], bool] | None) -> Nesting:
    problems, unplaced = build_problems(job)
    searches = [BoardSearch(p, job.seed) for p in problems]
    late = out_of_time or (lambda: False)
    work, timely = _share(searches, job.effort, late)
    layouts: list[Layout] = []
    objective = bound = 0
    for search in searches:
        settled, least, more = settle(search, job, late)
        work += more
        best = gather_remainder(search.problem, settled, job.least_offcut[0] + job.cutting.kerf)
        found, missing = build_layouts(search.problem, best, job)
        layouts += found
        unplaced += run_out(search.problem, best, missing, job)
        objective += best.rank(search.problem)[1]
        bound += least
    priced = all(s.price is not None for s in job.stock)
    complete = not unplaced
    proven = complete and objective == bound
    ended = proven or all(s.proven for s in searches)
    return Nesting(
        layouts=tuple(sorted(layouts, key=_by_stock(job))),
        unplaced=tuple(sorted(unplaced, key=lambda u: (u.part, u.reason))),
        cost=objective if priced else None,
        bound=bound if priced else None,
        proven_minimal=proven,
        work=work,
        stopped_by=StoppedBy.PROOF if ended else StoppedBy.EFFORT if timely else StoppedBy.TIME,
        objective=objective,
        objective_bound=bound,
    )


def _share(searches: list[BoardSearch], effort: int, out_of_time: Callable[[], bool]) -> tuple[int, bool]:
    """Let the searches work in turn until all have ended or the effort is used; first answers are always made.

    Return the work done and whether it ended in time.
    """
    running = [search.steps() for search in searches]
    work = sum(next(steps, 0) for steps in running)
    while running and work < effort:
        if out_of_time():
            return work, False
        spent = next(running[0], None)
        if spent is None:
            del running[0]
        else:
            work += spent
            running.append(running.pop(0))
    return work, True


def _by_stock(job: Job) -> "_Key":
    return _Key({s.id: s for s in job.stock}, all(s.price is not None for s in job.stock))


class _Key:
    """Sorts layouts: what is on hand first, then the dearer and longer boards, alike boards together."""

    def __init__(self, stocks: dict[str, Stock], priced: bool) -> None:
        self._stocks = stocks
        self._priced = priced

    def __call__(self, layout: Layout) -> tuple[object, ...]:
        stock = self._stocks[layout.stock]
        return not stock.offcut, -board_cost(stock, self._priced), -stock.length, stock.id, -layout.count
