"""What else a finished nesting is asked: would it survive real saw cuts, and what would save a sheet."""

from collections.abc import Callable
from dataclasses import replace

from scantling.findings import Finding

from .exact_fit import exact_fit_findings, has_tight_rows, with_margin
from .nearly_fits import Shrink, least_shrink, nearly_fits_finding, shrunk, smaller_parts, without_kerf
from .nouns import Job, Layout, Nesting, Piece, StoppedBy

_SHARE = 20  # one part in so many of the effort for each further question
_MOST_CAREFUL = 250  # pieces of a job that is nested again with a margin
_MOST_PIECES = 60  # of a job that is asked what would save a sheet
_MOST_SHEETS = 6
_TRIAL_UNITS = 4_000  # of effort for each size tried

Nest = Callable[[Job], Nesting]


def advise(job: Job, nesting: Nesting, nest: Nest) -> tuple[list[Finding], int]:
    """Return further findings and the work they took; `nest` nests another job."""
    effort = max(1, job.effort // _SHARE)
    sheets_only = replace(job, pieces=_sheet_pieces(job, nesting), effort=effort, with_two_stage_bound=False)
    if nesting.stopped_by is StoppedBy.TIME or not sheets_only.pieces:
        return [], 0
    findings: list[Finding] = []
    work = 0
    if has_tight_rows(job, nesting):
        pieces = sum(p.quantity for p in sheets_only.pieces)
        careful = nest(with_margin(sheets_only)) if pieces <= _MOST_CAREFUL else None
        work += 0 if careful is None else careful.work
        findings += exact_fit_findings(job, nesting, careful)
    sheets = sum(layout.count for layout in nesting.layouts if layout.tree is not None)
    few = sum(p.quantity for p in sheets_only.pieces) <= _MOST_PIECES and sheets <= _MOST_SHEETS
    if few and job.cutting.kerf and sheets > 1 and not nesting.unplaced:
        near, spent = _nearly(sheets_only, nesting, nest)
        findings += near
        work += spent
    return findings, work


def _sheet_pieces(job: Job, nesting: Nesting) -> tuple[Piece, ...]:
    placed = {p.part for layout in nesting.layouts if layout.tree is not None for p in layout.placements}
    return tuple(p for p in job.pieces if p.id in placed)


def _nearly(job: Job, nesting: Nesting, nest: Nest) -> tuple[list[Finding], int]:
    """Look for slightly smaller sizes that would cost less, and nest them before claiming it."""
    stocks = {s.id: s for s in job.stock}
    own = [x for x in nesting.layouts if x.tree is not None]

    def cost(layouts: list[Layout]) -> int:
        priced = nesting.cost is not None
        return sum(
            x.count
            * ((stocks[x.stock].price or 0) if priced else stocks[x.stock].length * (stocks[x.stock].width or 0))
            for x in layouts
            if priced or not stocks[x.stock].offcut
        )

    drawn = nest(without_kerf(job))
    if drawn.unplaced or cost(list(drawn.layouts)) >= cost(own):
        return [], drawn.work
    shrink = smaller_parts(job, drawn)
    if not shrink:
        return [], drawn.work
    work = drawn.work

    def saves(changes: Shrink) -> Nesting | None:
        nonlocal work
        smaller = nest(replace(shrunk(job, changes), effort=min(job.effort, _TRIAL_UNITS)))
        work += smaller.work
        return None if smaller.unplaced or cost(list(smaller.layouts)) >= cost(own) else smaller

    smaller = saves(shrink)
    if smaller is None:
        return [], work
    shrink = least_shrink(job, shrink, lambda changes: saves(changes) is not None)
    return [nearly_fits_finding(job, nesting, smaller, shrink)], work
