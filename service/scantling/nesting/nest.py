"""A whole nesting: the job split by material and thickness, searched side by side, put together again."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from time import monotonic

from scantling.findings import Finding, ranked

from .advice import advise
from .bounds_two_stage import TwoStageBound, two_stage_bound
from .checker import check_nesting
from .fault import NestingFault
from .layouts import build_layouts
from .nest_findings import find_all
from .nouns import Job, Layout, Nesting, Piece, Stock, StoppedBy, Unplaced
from .pins import with_pins, without_pins
from .search import AnySearch, make_search
from .sheets import build_problem, matches
from .shortage import explain_missing

ROUND = 8_000  # units of effort shared out in the first round; each round is half as large again
_POLISH = 8  # one part in so many of the effort goes into what is left over
_POLISH_MOST = 50_000
_USABLE = 0.9  # of the time; the rest is for putting the answer together
SLICE = 40_000  # at most so much between two looks at the clock
_BOUND_LEAST = 20_000  # units of effort for the two-stage bound, on top of the search: half as much again up to
_BOUND_MOST = 500_000  # so many, a fifth above that
_PROVE_AFTER = 100_000  # units of effort, where that bound may end the search; the same whatever the effort in all


Report = Callable[[float | None, float | None, float | None], None]


@dataclass(slots=True)
class _Material:
    """One set of pieces and the sheets they compete for, with its search. `held`: to two stages of cuts or one."""

    pieces: tuple[Piece, ...]
    search: AnySearch
    unplaced: tuple[Unplaced, ...]
    held: bool
    two_stages: TwoStageBound | None = None

    @property
    def bound(self) -> int:
        """What a complete answer costs at least."""
        return self.two_stages.cost if self.held and self.two_stages is not None else self.search.bound.cost

    @property
    def proven(self) -> bool:
        """True where nothing cheaper can exist."""
        return self.search.proven or (self.search.complete and self.search.cost <= self.bound)


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
    materials = _materials(job, sheet_pieces)
    kept_back = min(job.effort // _POLISH, _POLISH_MOST)

    def prove() -> bool:
        return _bound_two_stages(materials, job, out_of_time)

    timely = _search(materials, job.effort - spent - kept_back, progress, out_of_time, prove)
    if timely:
        _polish(materials, job, kept_back)
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


def _materials(job: Job, pieces: tuple[Piece, ...]) -> list[_Material]:
    """Split into sets that share no sheet; each gets its own search."""
    priced, held = is_priced(job), _held_to_two_stages(job)
    sheets = [s for s in job.stock if s.width is not None]
    sets: list[tuple[list[Piece], list[Stock]]] = []
    for piece in pieces:
        own = [s for s in sheets if matches(piece, s)]
        joined = ([piece], own)
        for other in [x for x in sets if any(s in x[1] for s in own)]:
            sets.remove(other)
            joined = (other[0] + joined[0], joined[1] + [s for s in other[1] if s not in joined[1]])
        sets.append(joined)
    materials = []
    for members, own in sorted(sets, key=lambda x: x[0][0].id):
        ordered = tuple(sorted(members, key=lambda p: p.id))
        problem, unplaced = build_problem(job, ordered, tuple(own), priced)
        materials.append(_Material(ordered, make_search(problem, job.seed), unplaced, held))
    return materials


def is_priced(job: Job) -> bool:
    """True where every stock has a price, so that money is the objective."""
    return all(s.price is not None for s in job.stock)


def _search(
    materials: list[_Material],
    effort: int,
    progress: Report | None,
    out_of_time: Callable[[], bool],
    prove: Callable[[], bool],
) -> bool:
    """Share the effort in rounds, by what might still be saved. False where time ran out.

    `prove` looks for better bounds; here it is asked once, where they may end the search.
    """
    searches = [m.search for m in materials]
    may_end = any(m.held for m in materials)
    for search in searches:
        search.advance(1)  # a first answer is always made
    left, share = effort - sum(s.work for s in searches), ROUND
    if progress is not None:
        _tell(progress, materials, left, effort)
    for search in searches:
        search.look_closer()
    while left > 0:
        if may_end and effort - left >= _PROVE_AFTER:
            may_end = False
            if not prove():
                return False
        open_searches = [m.search for m in materials if not (m.search.finished or m.proven)]
        if not open_searches:
            break
        gaps = [max(1, s.gap) for s in open_searches]
        for search, gap in zip(open_searches, gaps, strict=True):
            goal = search.work + min(left, max(1, share * gap // sum(gaps)))
            while search.work < goal and not search.finished:
                if out_of_time():
                    return False
                before = search.work
                search.advance(min(SLICE, goal - search.work))
                left -= search.work - before
            if left <= 0:
                break
        share += share // 2
        if progress is not None:
            _tell(progress, materials, left, effort)
    return True


def _tell(progress: Report, materials: list[_Material], left: int, effort: int) -> None:
    """Tell the share of the effort used, the best objective so far and its bound."""
    cost, bound = sum(m.search.cost for m in materials), sum(m.bound for m in materials)
    progress(min(1.0, 1 - left / max(1, effort)), float(cost), float(min(cost, bound)))


def _polish(materials: list[_Material], job: Job, units: int) -> None:
    """Spend a part of the effort on what is left over, shared alike; the search for the cost has ended."""
    if materials:
        for material in materials:
            material.search.polish(units // len(materials), job.least_offcut)


def _bound_two_stages(materials: list[_Material], job: Job, out_of_time: Callable[[], bool]) -> bool:
    """Work out what two stages of cuts cost at least, for materials whose answer is whole but not proved.

    False where time ran out.
    """
    if not job.two_stage_bound or not (is_priced(job) or _held_to_two_stages(job)):
        return True
    left = max(_BOUND_LEAST, min(job.effort // 2, max(_BOUND_MOST, job.effort // 5)))
    left -= sum(m.two_stages.work for m in materials if m.two_stages is not None)
    for material in materials:
        search = material.search
        if not search.complete or search.proven or material.two_stages is not None:
            continue
        if not out_of_time():
            material.two_stages = two_stage_bound(search.problem, search.bound.cost, left, out_of_time)
            left -= 0 if material.two_stages is None else material.two_stages.work
        if out_of_time():
            return False
    return True


def _held_to_two_stages(job: Job) -> bool:
    return job.cutting.stages is not None and job.cutting.stages <= 2


def _gather(job: Job, boards: Nesting | None, materials: list[_Material], timely: bool) -> Nesting:
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
