"""Layouts that the saws of the shop can cut: where the best ones cannot be cut, others are looked for."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from .cutting_findings import beyond_saws
from .nouns import Job, Nesting
from .saws import Saws
from .sequence import cut_sequence

# First cuts across let a short guide do; along let a fence do; fewer stages make longer, simpler cuts.
_WAYS: tuple[tuple[str, int | None], ...] = (
    ("across", None),
    ("along", None),
    ("across", 3),
    ("along", 3),
    ("along", 2),
)


def nest_for_saws(
    job: Job, saws: Saws | None, nest: Callable[[Job], Nesting], densities: Mapping[str, float] | None = None
) -> Nesting:
    """Return the nesting of a job, or where these saws cannot cut it the least costly other one they can cut.

    `nest` nests a job. The other ways are tried with a quarter of the effort each and only when needed: first cuts
    across or along, and fewer stages, within what the caller allows. Where no way can be cut the first nesting comes
    back, and `find_cutting` says which part stops it and what would help.
    """
    first = nest(job)
    if saws is None or _cannot_cut(job, first, saws, densities) == 0:
        return first
    best: tuple[tuple[int, int, int], Nesting] | None = None
    for number, (first_cut, stages) in enumerate(_WAYS):
        other = _restricted(job, first_cut, stages)
        if other is None:
            continue
        nesting = nest(other)
        missing = sum(u.quantity for u in nesting.unplaced)
        if _cannot_cut(job, nesting, saws, densities) or missing > sum(u.quantity for u in first.unplaced):
            continue
        rank = (missing, nesting.objective, number)
        if best is None or rank < best[0]:
            best = (rank, nesting)
    return first if best is None else _bounded(best[1], first)


def _restricted(job: Job, first_cut: str, stages: int | None) -> Job | None:
    """Return the job held to a first cut and stages, or None where the caller asked for something else."""
    cutting = job.cutting
    if cutting.first_cut not in ("either", first_cut):
        return None
    if stages is None:
        stages = cutting.stages
    elif cutting.stages is not None and cutting.stages <= stages:
        return None
    if (first_cut, stages) == (cutting.first_cut, cutting.stages):
        return None
    return replace(job, cutting=replace(cutting, first_cut=first_cut, stages=stages), effort=job.effort // 4)


def _cannot_cut(job: Job, nesting: Nesting, saws: Saws, densities: Mapping[str, float] | None) -> int:
    return sum(len(beyond_saws(cut_sequence(layout, job, saws, densities))) for layout in nesting.layouts)


def _bounded(nesting: Nesting, first: Nesting) -> Nesting:
    """Keep the bound that holds whatever the saws, and the whole of the work."""
    proven = nesting.objective == first.objective_bound and not nesting.unplaced
    bound = min(nesting.objective, first.objective_bound)
    return replace(
        nesting,
        objective_bound=bound,
        bound=None if nesting.cost is None else bound,
        proven_minimal=proven,
        work=nesting.work + first.work,
    )
