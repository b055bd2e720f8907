"""A whole nesting: the job split by material and thickness, searched side by side, put together again."""

from collections.abc import Callable
from dataclasses import replace
from time import monotonic

from scantling.findings import Finding, ranked

from .advice import advise
from .checker import check_nesting
from .fault import NestingFault
from .layouts import build_layouts
from .materials import Material, Report, bound_two_stages, is_priced, materials_of, polish_all, search_all
from .nest_findings import find_all
from .nouns import Job, Layout, Nesting, Piece, StoppedBy, Unplaced
from .pins import with_pins, without_pins
from .sheets import matches
from .shortage import explain_missing

_POLISH = 8  # one part in so many of the effort goes into what is left over
_POLISH_MOST = 50_000
_USABLE = 0.9  # of the time; the rest is for putting the answer together


def nest(job: Job, progress: Report | None = None, seconds: float | None = None) -> Nesting:
    """Cut a job's pieces from its stock for the least objective and return the best nesting found.

    Minimised, in order: what is missing, the money (the area bought, where a price is missing). Deterministic for a
    given job; more effort continues the same search and never gives worse. `progress` is told the share of the
    effort used, the best objective so far and its bound; the search ends early, with `stopped_by` time, where it
    would last longer than `seconds`. The two-stage bound comes after the search and takes up to half as much effort
    on top; where no more than two stages of cuts are allowed it is the bound.
    """
    started = monotonic()

    def out_of_time() -> bool:
        return seconds is not None and monotonic() - started > seconds * _USABLE

    rest = without_pins(job) if job.pinned else job
    nesting = _nest_once(rest, progress, out_of_time)
    advice, work = advise(rest, nesting, lambda other: _nest_once(other, None, out_of_time))
    nesting = with_pins(job, nesting)
    found = tuple(ranked([*nesting.findings, *find_all(job, nesting), *advice]))
    nesting = replace(nesting, findings=found, work=nesting.work + work)
    faults = check_nesting(job, nesting)
    if faults:
        raise NestingFault("; ".join(faults[:5]))
    return nesting


def _nest_once(job: Job, progress: Report | None, out_of_time: Callable[[], bool]) -> Nesting:
    board_pieces, sheet_pieces = _split(job)
    boards = _nest_boards(job, board_pieces, not sheet_pieces, out_of_time)
    spent = 0 if boards is None else boards.work
    materials = materials_of(job, sheet_pieces)
    kept_back = min(job.effort // _POLISH, _POLISH_MOST)

    def prove() -> bool:
        return bound_two_stages(materials, job, out_of_time)

    timely = search_all(materials, job.effort - spent - kept_back, progress, out_of_time, prove)
    if timely:
        polish_all(materials, job, kept_back)
        timely = prove()
    return _gather(job, boards, materials, timely)


def _split(job: Job) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Pieces to come from boards and pieces to come from sheets: a sheet piece has a width, and a sheet to match."""
    boards, sheets = [], []
    for piece in sorted(job.pieces, key=lambda p: p.id):
        on_sheets = any(matches(piece, s) for s in job.stock)
        on_boards = any(matches(piece, replace(s, width=1)) for s in job.stock if s.width is None)
        if piece.width is not None and (on_sheets or not on_boards):
            sheets.append(piece)
        else:
            boards.append(piece)
    return tuple(boards), tuple(sheets)


def _nest_boards(job: Job, pieces: tuple[Piece, ...], alone: bool, out_of_time: Callable[[], bool]) -> Nesting | None:
    if not pieces:
        return None
    from .boards import nest_boards

    share = job.effort if alone else job.effort // 4
    return nest_boards(replace(job, pieces=pieces, effort=share), out_of_time)


def _gather(job: Job, boards: Nesting | None, materials: list[Material], timely: bool) -> Nesting:
    layouts: list[Layout] = [] if boards is None else list(boards.layouts)
    unplaced: list[Unplaced] = [] if boards is None else list(boards.unplaced)
    findings: list[Finding] = [] if boards is None else list(boards.findings)
    objective, bound = (0, 0) if boards is None else (boards.objective, boards.objective_bound)
    two_stages = bound
    work = (0 if boards is None else boards.work) + sum(m.search.work for m in materials)
    ended = boards is None or boards.stopped_by is StoppedBy.PROOF
    for material in materials:
        search = material.search
        found, missing = build_layouts(search.problem, search.solution(), job, material.pieces)
        layouts += found
        unplaced += material.unplaced
        unplaced += explain_missing(search.problem, found, missing, material.pieces)
        objective += search.cost
        own = min(search.cost, search.bound.cost if search.complete else search.bound_of_placed(missing))
        least = own if material.two_stages is None else material.two_stages.cost
        work += 0 if material.two_stages is None else material.two_stages.work
        bound += least if material.held else own
        two_stages += least
        ended = ended and material.proven
    complete = not unplaced
    priced = is_priced(job)
    stopped = StoppedBy.PROOF if ended else StoppedBy.EFFORT if timely else StoppedBy.TIME
    return Nesting(
        layouts=tuple(layouts),
        unplaced=tuple(sorted(unplaced, key=lambda u: (u.part, u.reason))),
        cost=objective if priced else None,
        bound=bound if priced else None,
        proven_minimal=complete and objective == bound,
        work=work,
        stopped_by=stopped,
        objective=objective,
        objective_bound=bound,
        seed=job.seed,
        findings=tuple(findings),
        two_stage_bound=two_stages if priced and any(m.two_stages for m in materials) else None,
    )
