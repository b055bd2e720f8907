"""The plan for a shop: several ways to cut a job, held to what its saws can do, and one chosen by the caller's aims."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

from .alike import cut_alike
from .arrange import arranged
from .checker import check_nesting
from .fault import NestingFault
from .measuring import measure
from .nouns import Aim, Job, Nesting, StoppedBy
from .pins import with_pins, without_pins
from .plans import Candidate, choose, within_worth
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
_MEASURING = 5  # one part in so many of the effort may go into looking at what plans are like to cut
_PER_PIECE = 250  # units of effort that takes for each piece

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
    shop = _Shop(job, saws, densities)
    candidates = shop.look_at(nestings)
    if min(c.measures.beyond for c in candidates):
        further = [_bounded(with_pins(job, nest(other)), first) for other in _others(rest, _WAYS, 4)]
        candidates += [shop.measured(nesting) for nesting in [*nestings[1:], *further]]
        nestings += further
    chosen = replace(choose(job, candidates), work=sum(n.work for n in nestings))
    faults = check_nesting(job, chosen)
    if faults:
        raise NestingFault("; ".join(faults[:5]))
    return chosen


@dataclass(frozen=True, slots=True)
class _Shop:
    """Looks at what nestings are like to cut on these saws."""

    job: Job
    saws: Saws | None
    densities: Densities

    def look_at(self, nestings: list[Nesting]) -> list[Candidate]:
        """Measure nestings in the order of their cost, each in other orders of its sheets and rows as well.

        How many are measured depends on the effort: measuring takes time too. Where money comes first, only what is
        within its worth of the cheapest is looked at.
        """
        ordered = sorted(nestings, key=_cost)
        level = [n for n in ordered if _cost(n)[0] == _cost(ordered[0])[0]]
        if self.job.aims.order[0] is Aim.MONEY:
            level = [n for n in level if within_worth(self.job, n.objective, ordered[0].objective)]
        found: list[Candidate] = []
        for nesting in self._variants(level):
            if len(found) >= self._most:
                break
            known = any(c.nesting.layouts == nesting.layouts for c in found)
            if not known and not check_nesting(self.job, nesting):
                found.append(self.measured(nesting))
        return found or [self.measured(ordered[0])]

    def measured(self, nesting: Nesting) -> Candidate:
        """Return a nesting with what it is like to cut."""
        return Candidate(nesting, measure(self.job, nesting, self.saws, self.densities))

    @property
    def _most(self) -> int:
        pieces = max(1, sum(p.quantity for p in self.job.pieces))
        return 1 if pieces > _MOST_PIECES else max(2, self.job.effort // (_MEASURING * _PER_PIECE * pieces))

    def _variants(self, nestings: list[Nesting]) -> Iterator[Nesting]:
        """Return the nestings as they will most likely be easiest to cut, and then as they are."""
        alike = [cut_alike(self.job, n) for n in nestings]
        yield from (arranged(self.job, n) for n in alike)
        yield from (arranged(self.job, n) for n in nestings)
        yield from alike
        yield from nestings


def _cost(nesting: Nesting) -> tuple[int, int]:
    return sum(u.quantity for u in nesting.unplaced), nesting.objective


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
            yield replace(job, cutting=held, effort=max(1, job.effort // share), with_two_stage_bound=False)


def _bounded(nesting: Nesting, first: Nesting) -> Nesting:
    """Keep the bound that holds whatever the way of cutting, and why the long search ended."""
    same = nesting.unplaced == first.unplaced
    bound = min(nesting.objective, first.objective_bound if same else nesting.objective_bound)
    return replace(
        nesting,
        objective_bound=bound,
        bound=None if nesting.cost is None else bound,
        proven_minimal=nesting.objective == bound and not nesting.unplaced,
        stopped_by=first.stopped_by,
        two_stage_bound=first.two_stage_bound if same else None,
    )
