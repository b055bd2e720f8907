"""The materials of a job, searched side by side: each has its own pieces, sheets and bounds; they share the effort."""

from collections.abc import Callable
from dataclasses import dataclass

from .bounds_two_stage import TwoStageBound, two_stage_bound
from .nouns import Job, Piece, Stock, Unplaced
from .search import AnySearch, make_search
from .sheets import build_problem, matches

ROUND = 8_000  # units of effort shared out in the first round; each round is half as large again
SLICE = 40_000  # at most so much between two looks at the clock
_BOUND_LEAST = 20_000  # units of effort for the two-stage bound, on top of the search: half as much again up to
_BOUND_MOST = 500_000  # so many, a fifth above that
_PROVE_AFTER = 100_000  # units of effort, where that bound may end the search; the same whatever the effort in all

Report = Callable[[float | None, float | None, float | None], None]


@dataclass(slots=True)
class Material:
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


def materials_of(job: Job, pieces: tuple[Piece, ...]) -> list[Material]:
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
        materials.append(Material(ordered, make_search(problem, job.seed), unplaced, held))
    return materials


def is_priced(job: Job) -> bool:
    """True where every stock has a price, so that money is the objective."""
    return all(s.price is not None for s in job.stock)


def search_all(
    materials: list[Material],
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


def _tell(progress: Report, materials: list[Material], left: int, effort: int) -> None:
    """Tell the share of the effort used, the best objective so far and its bound."""
    cost, bound = sum(m.search.cost for m in materials), sum(m.bound for m in materials)
    progress(min(1.0, 1 - left / max(1, effort)), float(cost), float(min(cost, bound)))


def polish_all(materials: list[Material], job: Job, units: int) -> None:
    """Spend a part of the effort on what is left over, shared alike; the search for the cost has ended."""
    if materials:
        for material in materials:
            material.search.polish(units // len(materials), job.least_offcut)


def bound_two_stages(materials: list[Material], job: Job, out_of_time: Callable[[], bool]) -> bool:
    """Work out what two stages of cuts cost at least, for materials whose answer is whole but not proved.

    False where time ran out.
    """
    if not job.with_two_stage_bound or not (is_priced(job) or _held_to_two_stages(job)):
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
