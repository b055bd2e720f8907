"""From patterns back to named pieces on boards: layouts with places, offcuts and counts."""

from collections import Counter
from dataclasses import dataclass, replace

from .boards_chain import Rows
from .boards_ends import SQUARE, Ends, Lie, cut_width, lies, mirrored
from .boards_problem import Bin, Kind, Member, Pattern, Problem, Solution, gap
from .nouns import Job, Layout, Offcut, Placement

_Run = tuple[tuple[Member, ...], int]  # members of one length, on how many boards in a row
_AS_DRAWN = Lie(SQUARE, SQUARE)


@dataclass(frozen=True, slots=True)
class _Length:
    """One length to be laid: its members in sequence, and its ends in the form common to its kind."""

    members: tuple[Member, ...]
    ends: Ends

    @property
    def own_ends(self) -> Ends:
        """Return its ends as its members have them."""
        first, last = self.members[0], self.members[-1]
        return Ends(first.ends.start, last.ends.end, any(m.ends.one_face for m in self.members))


def build_layouts(problem: Problem, solution: Solution, job: Job) -> tuple[list[Layout], Counter[str]]:
    """Return the layouts of a solution, alike ones merged, and how many of each part are missing."""
    waiting = [_waiting(kind) for kind in problem.kinds]
    layouts: Counter[Layout] = Counter()
    for (b, pattern), times in sorted(solution.boards, key=lambda e: (-e[1], e[0])):
        for names, n in _name(pattern, times, waiting, problem.kinds):
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
    pattern: Pattern, times: int, waiting: list[Counter[tuple[Member, ...]]], kinds: tuple[Kind, ...]
) -> list[tuple[list[list[_Length]], int]]:
    """Give the lengths of `times` like boards their names, so that as many boards as possible stay alike."""
    slots: list[tuple[int, Ends, list[_Run]]] = [
        (stretch, kinds[kind].ends, _runs(waiting[kind], times))
        for stretch, fill in enumerate(pattern)
        for kind, count in fill
        for _ in range(count)
    ]
    named = []
    done = 0
    while done < times:
        n = min((runs[0][1] for _, _, runs in slots), default=times)
        names: list[list[_Length]] = [[] for _ in pattern]
        for stretch, ends, runs in slots:
            members, left = runs[0]
            names[stretch].append(_Length(members, ends))
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


def _lay_out(board: Bin, names: list[list[_Length]], job: Job) -> Layout:
    """Place the lengths of one board from the start of each stretch on, longest first, and find what is left.

    Where ends slope the order is the one that needs least; of lengths that take the same place the longest is first.
    """
    kerf = job.cutting.kerf
    placements: list[Placement] = []
    offcuts = []
    for (start, room), lengths in zip(board.stretches, names, strict=True):
        x, end = start, start + room - kerf
        ordered = sorted(lengths, key=lambda n: (-sum(m.length for m in n.members), [m.part for m in n.members]))
        row = [(n, _AS_DRAWN) for n in ordered] if board.rows is None else _in_row(board.rows, ordered)
        for at, (length, lie) in enumerate(row):
            placed = _place(length, lie, x, kerf)
            placements += placed
            x = placed[-1].x + placed[-1].length
            if board.rows is None or at == len(row) - 1:
                x += cut_width(kerf, lie.end)
            else:
                x += board.rows.joints.between(lie.end, row[at + 1][1].start)
        if end - x >= max(job.least_offcut[0], 1):
            offcuts.append(Offcut(x, 0, end - x, 0))
    return Layout(board.stock, 1, tuple(placements), tuple(offcuts))


def _in_row(rows: Rows, lengths: list[_Length]) -> list[tuple[_Length, Lie]]:
    """Put lengths, longest first, into the places of the shortest row."""
    counts = Counter(length.ends for length in lengths)
    waiting = {ends: [n for n in lengths if n.ends == ends] for ends in counts}
    row = [(waiting[ends].pop(0), lie) for ends, lie in rows.order(tuple(sorted(counts.items())))]
    turned_over = [(n, next((x for x in lies(n.own_ends) if x.ends == mirrored(lie)), None)) for n, lie in row]
    other = [(n, lie) for n, lie in turned_over if lie is not None]
    return other if len(other) == len(row) and _face_down(other) < _face_down(row) else row


def _face_down(row: list[tuple[_Length, Lie]]) -> int:
    """Return how many lengths of a row lie on their show side."""
    return sum(_as_it_lies(length, lie).face_down for length, lie in row)


def _as_it_lies(length: _Length, lie: Lie) -> Lie:
    """Return how a length must be turned for its ends to lie as they should."""
    return next(own for own in lies(length.own_ends) if own.ends == lie.ends)


def _place(length: _Length, lie: Lie, x: int, kerf: int) -> list[Placement]:
    """Place one length, turned so that its ends lie as they should; a group turned end for end runs backwards."""
    turned = _as_it_lies(length, lie)
    placed = []
    for at, m in enumerate(length.members):
        placed.append(
            Placement(m.part, x, 0, m.length, None, end_for_end=turned.end_for_end, face_down=turned.face_down)
        )
        x += m.length + (gap(kerf, m, length.members[at + 1]) if at + 1 < len(length.members) else 0)
    if turned.end_for_end:
        first, last = placed[0].x, placed[-1].x + placed[-1].length
        placed = [replace(p, x=first + last - p.x - p.length) for p in reversed(placed)]
    return placed


def _order(layout: Layout) -> tuple[object, ...]:
    return layout.stock, -layout.count, [(p.x, -p.length, p.part) for p in layout.placements]
