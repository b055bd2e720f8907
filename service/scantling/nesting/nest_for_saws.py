"""The plan for a shop: several ways to cut a job, held to what its saws can do, and one chosen by the caller's aims."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from .alike import cut_alike
from .arrange import arranged
from .checker import check_nesting
from .fault import NestingFault
from .measuring import measure
from .nouns import Job, Nesting, StoppedBy
from .pins import with_pins, without_pins
from .plans import Candidate, choose
from .saws import Saws

# First cuts across let a short guide do; along let a fence do; fewer stages make longer, simpler cuts.
_WAYS: tuple[tuple[str, int | None], ...] = (
    ("across", None),
    ("along", None),
    ("across", 3),
    ("along", 3),
    ("along", 2),
)
_EASIER: tuple[tuple[str, int | None], ...] = (("along", 3), ("across", 3), ("along", 2), ("across", 2))
_SHARE = 40  # one part in so many of the effort for each easier way
_MOST_PIECES = 600  # of a job that is nested in other ways as well

Nest = Callable[..., Nesting]
Densities = Mapping[str, float] | None
Progress = Callable[[float | None, float | None, float | None], None]


def nest_for_saws(
    job: Job, saws: Saws | None, nest: Nest, densities: Densities = None, progress: Progress | None = None
) -> Nesting:
    """Return the nesting of a job that is best by its aims among several, with the plans it was chosen from.

    `nest` nests a job; its first call, the long one, is handed `progress` where that is given. Most of the effort goes
    into the least cost; a tenth goes into ways that are easier to cut (fewer stages, the first cut held to one
    direction), where the caller allows them. Where these saws cannot cut the best one, further ways are tried with a
    quarter of the effort each; where none can be cut, the least bad comes back, and `find_cutting` says which part
    stops it and what would help.
    """
    rest = without_pins(job)
    easier = [] if sum(p.quantity for p in rest.pieces) > _MOST_PIECES else list(_others(rest, _EASIER, _SHARE))
    most = replace(job, effort=max(1, job.effort - sum(other.effort for other in easier)))
    first = nest(most) if progress is None else nest(most, progress=progress)
    nestings = [first]
    if first.stopped_by is not StoppedBy.TIME and any(len(x.placements) > 1 for x in first.layouts if x.tree):
        for other in easier:
            nestings.append(_bounded(with_pins(job, nest(other)), first))
    candidates = [c for nesting in nestings for c in _candidates(job, nesting, saws, densities)]
    if min(c.measures.beyond for c in candidates):
        for other in _others(rest, _WAYS, 4):
            nestings.append(_bounded(with_pins(job, nest(other)), first))
            candidates += _candidates(job, nestings[-1], saws, densities)
    chosen = replace(choose(job, candidates), work=sum(n.work for n in nestings))
    faults = check_nesting(job, chosen)
    if faults:
        raise NestingFault("; ".join(faults[:5]))
    return chosen


def _candidates(job: Job, nesting: Nesting, saws: Saws | None, densities: Densities) -> list[Candidate]:
    """Return the nesting, and itself with alike sheets cut alike and rows in an order that sets the saw less often."""
    found: list[Candidate] = []
    for number, other in enumerate((nesting, cut_alike(job, nesting))):
        if number and other is nesting:
            continue
        for layouts in (other, arranged(job, other)):
            if any(c.nesting.layouts == layouts.layouts for c in found) or check_nesting(job, layouts):
                continue
            found.append(Candidate(layouts, measure(job, layouts, saws, densities)))
    return found


def _others(job: Job, ways: tuple[tuple[str, int | None], ...], share: int) -> Iterator[Job]:
    """Return the job held to other ways of cutting, each with a share of the effort; none the caller rules out."""
    for first_cut, stages in ways:
        cutting = job.cutting
        if cutting.first_cut not in ("either", first_cut):
            continue
        if stages is None:
            stages = cutting.stages  # noqa: PLW2901 - the caller's own limit stands
        elif cutting.stages is not None and cutting.stages <= stages:
            continue
        if (first_cut, stages) != (cutting.first_cut, cutting.stages):
            held = replace(cutting, first_cut=first_cut, stages=stages)
            yield replace(job, cutting=held, effort=max(1, job.effort // share))


def _bounded(nesting: Nesting, first: Nesting) -> Nesting:
    """Keep the bound that holds whatever the way of cutting, and why the long search ended."""
    bound = nesting.objective_bound
    if nesting.unplaced == first.unplaced:
        bound = first.objective_bound
    bound = min(nesting.objective, bound)
    return replace(
        nesting,
        objective_bound=bound,
        bound=None if nesting.cost is None else bound,
        proven_minimal=nesting.objective == bound and not nesting.unplaced,
        stopped_by=first.stopped_by,
    )
