"""From patterns back to named pieces on boards: layouts with places, offcuts and counts."""

from collections import Counter

from .boards_problem import Bin, Kind, Member, Pattern, Problem, Solution
from .nouns import Job, Layout, Offcut, Placement

_Run = tuple[tuple[Member, ...], int]  # members of one length, on how many boards in a row


def build_layouts(problem: Problem, solution: Solution, job: Job) -> tuple[list[Layout], Counter[str]]:
    """Return the layouts of a solution, alike ones merged, and how many of each part are missing."""
    waiting = [_waiting(kind) for kind in problem.kinds]
    layouts: Counter[Layout] = Counter()
    for (b, pattern), times in sorted(solution.boards, key=lambda e: (-e[1], e[0])):
        for names, n in _name(pattern, times, waiting):
            layouts[_lay_out(problem.bins[b], names, job)] += n
    missing: Counter[str] = Counter()
    for kind in waiting:
        for members, n in kind.items():
            for m in members:
                missing[m.part] += n
    named = [Layout(x.stock, n, x.placements, x.offcuts) for x, n in layouts.items()]
    return sorted(named, key=_order), +missing


def _waiting(kind: Kind) -> Counter[tuple[Member, ...]]:
    """Return what still has to be given a place: members of one length → how many."""
    if kind.together:
        return Counter({kind.together: kind.demand})
    return Counter((m,) for m in kind.members)


def _name(
    pattern: Pattern, times: int, waiting: list[Counter[tuple[Member, ...]]]
) -> list[tuple[list[list[tuple[Member, ...]]], int]]:
    """Give the lengths of `times` like boards their names, so that as many boards as possible stay alike."""
    slots: list[tuple[int, list[_Run]]] = [
        (stretch, _runs(waiting[kind], times))
        for stretch, fill in enumerate(pattern)
        for kind, count in fill
        for _ in range(count)
    ]
    named = []
    done = 0
    while done < times:
        n = min((runs[0][1] for _, runs in slots), default=times)
        names: list[list[tuple[Member, ...]]] = [[] for _ in pattern]
        for stretch, runs in slots:
            members, left = runs[0]
            names[stretch].append(members)
            runs[:1] = [(members, left - n)] if left > n else []
        named.append((names, n))
        done += n
    return named


def _runs(waiting: Counter[tuple[Member, ...]], times: int) -> list[_Run]:
    """Take `times` lengths of one kind: of one name when there are enough, else of as few names as possible."""
    runs = []
    enough = [(n, m) for m, n in waiting.items() if n >= times]
    while times:
        members = min(enough)[1] if enough else max((n, m) for m, n in waiting.items() if n)[1]
        n = min(times, waiting[members])
        waiting[members] -= n
        runs.append((members, n))
        times -= n
    return runs


def _lay_out(board: Bin, names: list[list[tuple[Member, ...]]], job: Job) -> Layout:
    """Place the lengths of one board from the start of each stretch on, longest first, and find what is left."""
    kerf = job.cutting.kerf
    placements, offcuts = [], []
    for (start, room), lengths in zip(board.stretches, names, strict=True):
        x, end = start, start + room - kerf
        for members in sorted(lengths, key=lambda ms: (-sum(m.length for m in ms), [m.part for m in ms])):
            for m in members:
                placements.append(Placement(m.part, x, 0, m.length, None))
                x += m.length + kerf
        if end - x >= max(job.least_offcut[0], 1):
            offcuts.append(Offcut(x, 0, end - x, 0))
    return Layout(board.stock, 1, tuple(placements), tuple(offcuts))


def _order(layout: Layout) -> tuple[object, ...]:
    return layout.stock, -layout.count, [(p.x, -p.length, p.part) for p in layout.placements]
