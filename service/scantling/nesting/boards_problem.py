"""Cutting boards as a problem in integers: kinds of length to cut, kinds of board to cut them from.

The blade is taken into account once: every length and every usable stretch of board is made one kerf longer, and
then lengths simply add up (n pieces need n lengths and n - 1 kerfs). Where ends slope, what the pieces of a board
need beyond that, or less, depends on which of them can meet (boards_ends, boards_chain).
"""

from dataclasses import dataclass, replace
from itertools import pairwise

from .boards_chain import Rows
from .boards_ends import SQUARE, Ends, Joints, alike_to_the_saw, cut_width
from .nouns import Grain, Job, Piece, Stock, StockGrain, Unplaced

Fill = tuple[tuple[int, int], ...]  # (kind of length, how many), in order of kind
Pattern = tuple[Fill, ...]  # one fill for each stretch of the board


@dataclass(frozen=True, slots=True, order=True)
class Member:
    """A named length to be cut, with its own ends."""

    part: str
    length: int
    ends: Ends = Ends()


@dataclass(frozen=True, slots=True)
class Kind:
    """Lengths that are alike to the saw. `weight` is the length and one kerf; `bins` are the boards it may come from.

    `members` are whose lengths these are, one entry for each; a group that must stay together is one long length
    and its members lie in `together`, in sequence. `ends` are its ends, in a form common to all that can be turned
    into each other.
    """

    weight: int
    demand: int
    bins: tuple[int, ...]
    members: tuple[Member, ...] = ()
    together: tuple[Member, ...] = ()
    ends: Ends = Ends()

    def apart(self, kerf: int) -> int:
        """Return the length, one kerf, and what its ends' own cuts need more, wherever it lies."""
        return self.weight + sum(cut_width(kerf, end) - kerf for end in (self.ends.start, self.ends.end))


@dataclass(frozen=True, slots=True)
class Bin:
    """A kind of board: its cost, how many there are, and its clear stretches as (start, room with one kerf).

    `rows` knows what sloped ends save on it; it is None where no length has one.
    """

    stock: str
    cost: int
    limit: int | None
    stretches: tuple[tuple[int, int], ...]
    length: int
    rows: Rows | None = None

    def more(self, counts: dict[Ends, int]) -> int:
        """Return what lengths with these ends need beyond their kerfs in one stretch; below 0 they save."""
        if self.rows is None:
            return 0
        return self.rows.row(tuple(sorted((ends, n) for ends, n in counts.items() if n))).more


@dataclass(frozen=True, slots=True)
class Problem:
    """One set of kinds and the boards they compete for; kinds come longest first."""

    kinds: tuple[Kind, ...]
    bins: tuple[Bin, ...]
    kerf: int = 0

    @property
    def demand(self) -> list[int]:
        """How many of each kind are asked for."""
        return [k.demand for k in self.kinds]

    def used(self, b: int, fill: Fill) -> int:
        """Return what the lengths of one stretch take of its room, cuts shared where ends agree."""
        total = sum(self.kinds[k].weight * n for k, n in fill)
        if self.bins[b].rows is None:
            return total
        counts: dict[Ends, int] = {}
        for k, n in fill:
            counts[self.kinds[k].ends] = counts.get(self.kinds[k].ends, 0) + n
        return total + self.bins[b].more(counts)

    def light(self, k: int, b: int) -> int:
        """Return the least a length of kind k takes of a board of kind b, both its ends meeting their like."""
        kind, rows = self.kinds[k], self.bins[b].rows
        if rows is None:
            return kind.weight
        return kind.weight + sum(rows.joints.half_at_best(end) for end in (kind.ends.start, kind.ends.end))

    def light_room(self, b: int, room: int) -> int:
        """Return the room for lengths that count as `light`: the first and the last end of a row meet nothing."""
        rows = self.bins[b].rows
        if rows is None:
            return room
        own = [k.ends for k in self.kinds if b in k.bins]
        return room + 2 * max(rows.joints.half_at_best(end) for ends in own for end in (ends.start, ends.end))


@dataclass(frozen=True, slots=True)
class Solution:
    """Boards cut: (kind of board, pattern) → how many, and how many of each kind are missing."""

    boards: tuple[tuple[tuple[int, Pattern], int], ...]
    missing: tuple[int, ...]

    def rank(self, problem: Problem) -> tuple[int, int, int, int]:
        """Return what is minimised, in order: length missing, cost, boards, length of the boards used."""
        missing = sum(n * (k.weight - problem.kerf) for n, k in zip(self.missing, problem.kinds, strict=True))
        cost = sum(problem.bins[b].cost * n for (b, _), n in self.boards)
        count = sum(n for _, n in self.boards)
        return missing, cost, count, sum(problem.bins[b].length * n for (b, _), n in self.boards)


def ends_of(piece: Piece) -> Ends:
    """Return the ends of a piece as the request states them.

    One with a width of its own may be narrower than its board: it is cut from a blank with square ends.
    """
    if piece.width is not None:
        return Ends()
    start, end = (piece.start_slope, piece.start_bevel), (piece.end_slope, piece.end_bevel)
    return Ends(start, end, piece.one_face and (start, end) != (SQUARE, SQUARE))


def clear_stretches(stock: Stock, job: Job) -> tuple[tuple[int, int], ...]:
    """Return the stretches of a board free of trim and defects as (start, room with one kerf added).

    A defect narrower than the widest cut counts as that wide, so that pieces on both sides stay a cut apart.
    """
    kerf, trim = job.cutting.kerf, job.cutting.trim
    widest = max((cut_width(kerf, end) for p in job.pieces for end in (ends_of(p).start, ends_of(p).end)), default=kerf)
    stretches, start, end = [], trim.start, stock.length - trim.end
    for left, right in sorted(stock.defects):
        if min(left, end) > start:
            stretches.append((start, min(left, end) - start + kerf))
        start = max(start, right, left + widest)
    if end > start:
        stretches.append((start, end - start + kerf))
    return tuple(stretches)


def board_cost(stock: Stock, priced: bool) -> int:
    """Return what one board adds to the objective: its price, or its length when bought and prices are missing."""
    if priced:
        return stock.price or 0
    return 0 if stock.offcut else stock.length


def matches(piece: Piece, stock: Stock) -> bool:
    """Tell whether the piece may come from the board, whatever its length: material, thickness, grain, a pin."""
    same_material = piece.material is None or stock.material is None or piece.material == stock.material
    same_thickness = piece.thickness is None or stock.thickness is None or piece.thickness == stock.thickness
    grain = piece.grain is not Grain.ACROSS or stock.grain is StockGrain.NONE
    pinned = piece.stock is None or piece.stock == stock.id
    return stock.width is None and pinned and same_material and same_thickness and grain


def build_problems(job: Job) -> tuple[list[Problem], list[Unplaced]]:
    """Return the independent problems of a job and the parts that fit no board at all, each with its reason."""
    priced = all(s.price is not None for s in job.stock)
    boards = sorted(
        (s for s in job.stock if s.width is None and s.quantity != 0),
        key=lambda s: (board_cost(s, priced), s.length, s.defects, str(s.material), s.thickness or 0, s.id),
    )
    bins = tuple(_bin(s, job, priced) for s in boards)
    joints = [Joints(job.cutting.kerf, s.board_width, s.thickness) for s in boards]
    kinds: dict[tuple[int, Ends, tuple[int, ...], tuple[str, ...]], Kind] = {}
    unplaced: list[Unplaced] = []
    for piece, together in _lengths(job):
        weight = piece.length + piece.oversize + job.cutting.kerf
        ends = alike_to_the_saw(ends_of(piece))
        matching = [i for i, s in enumerate(boards) if matches(piece, s)]
        shaped = [i for i in matching if together or joints[i].can_hold(weight - job.cutting.kerf, ends_of(piece))]
        fitting = tuple(i for i in shaped if any(room >= weight for _, room in bins[i].stretches))
        if not fitting:
            members = together or (Member(piece.id, piece.length),) * piece.quantity
            named = [(boards[i], bins[i]) for i in shaped]
            if matching and not shaped:
                unplaced += _crossing(piece)
            else:
                unplaced += _explain(piece, members, weight, named, _sold_out(job, piece, weight))
            continue
        key = (-weight, ends, fitting, tuple(m.part for m in together))
        kind = kinds.get(key, Kind(weight, 0, fitting, ends=ends))
        members = (
            () if together else (Member(piece.id, piece.length + piece.oversize, ends_of(piece)),) * piece.quantity
        )
        kinds[key] = replace(
            kind, demand=kind.demand + piece.quantity, members=kind.members + members, together=together
        )
    ordered = [kinds[key] for key in sorted(kinds)]
    return [_with_rows(p, joints, bins) for p in _components(ordered, bins, job.cutting.kerf)], unplaced


def _bin(stock: Stock, job: Job, priced: bool) -> Bin:
    return Bin(stock.id, board_cost(stock, priced), stock.quantity, clear_stretches(stock, job), stock.length)


def _with_rows(problem: Problem, joints: list[Joints], bins: tuple[Bin, ...]) -> Problem:
    """Return a problem that knows what sloped ends save on each of its boards, where it has any."""
    if all(kind.ends.square for kind in problem.kinds):
        return problem
    by_stock = {b.stock: j for b, j in zip(bins, joints, strict=True)}
    return replace(problem, bins=tuple(replace(b, rows=Rows(by_stock[b.stock])) for b in problem.bins))


def _lengths(job: Job) -> list[tuple[Piece, tuple[Member, ...]]]:
    """Return the pieces by name, with each group joined into one length whose members keep their order."""
    groups: dict[str, list[Piece]] = {}
    lengths: list[tuple[Piece, tuple[Member, ...]]] = []
    for piece in sorted(job.pieces, key=lambda p: p.id):
        if piece.quantity == 0:
            continue
        if piece.group is None:
            lengths.append((piece, ()))
        else:
            groups.setdefault(piece.group, []).append(piece)
    for _, pieces in sorted(groups.items()):
        together = tuple(Member(p.id, p.length + p.oversize, ends_of(p)) for p in pieces for _ in range(p.quantity))
        total = sum(m.length for m in together) + sum(gap(job.cutting.kerf, *two) for two in pairwise(together))
        lengths.append((_joined(pieces, total), together))
    return lengths


def gap(kerf: int, left: Member, right: Member) -> int:
    """Return what is left between two members of a group: room for the wider of both cuts, so figure runs on."""
    return max(cut_width(kerf, left.ends.end), cut_width(kerf, right.ends.start))


def _joined(pieces: list[Piece], length: int) -> Piece:
    """Return a group as one piece: it starts as its first member does and ends as its last."""
    first, last = pieces[0], pieces[-1]
    return replace(
        first,
        length=length,
        oversize=0,
        quantity=1,
        end_slope=last.end_slope,
        end_bevel=last.end_bevel,
        one_face=any(p.one_face for p in pieces),
    )


def _crossing(piece: Piece) -> list[Unplaced]:
    """Say that the sloped ends of a piece leave nothing of one of its edges on any board."""
    reason = "its sloped ends meet before they reach the other edge of every board there is"
    return [Unplaced(piece.id, piece.quantity, reason)]


def _sold_out(job: Job, piece: Piece, weight: int) -> str | None:
    """Return the shortest board of which there are none that would take a length, or None."""
    gone = [s for s in job.stock if s.quantity == 0 and matches(piece, s)]
    able = [s for s in gone if any(room >= weight for _, room in clear_stretches(s, job))]
    return min(((s.length, s.id) for s in able), default=(0, None))[1]


def _explain(
    piece: Piece, members: tuple[Member, ...], weight: int, matching: list[tuple[Stock, Bin]], sold_out: str | None
) -> list[Unplaced]:
    """Say why a length fits no board: none is left, no such board at all, or how much too short the longest one is."""
    nearest, excess = None, None
    if sold_out is not None:
        nearest = sold_out
        reason = f"it would come from {sold_out}, of which none is left"
    elif not matching:
        thick = "" if piece.thickness is None else f" {piece.thickness / 100:g} mm thick"
        reason = f"there is no board of {piece.material or 'this material'}{thick} to cut it from"
    else:
        room = [(max((r for _, r in b.stretches), default=0), s.id) for s, b in matching]
        longest, nearest = max(room, key=lambda r: (r[0], r[1]))
        excess = (weight - longest, 0)
        what = "together with its group it is" if len({m.part for m in members}) > 1 else "it is"
        reason = f"{what} {(weight - longest) / 100:g} mm longer than the longest clear stretch of any board"
    counts: dict[str, int] = {}
    for m in members:
        counts[m.part] = counts.get(m.part, 0) + 1
    return [Unplaced(part, n, reason, nearest, excess) for part, n in counts.items()]


def _components(kinds: list[Kind], bins: tuple[Bin, ...], kerf: int) -> list[Problem]:
    """Split into problems that share no board, each with its own numbering of boards."""
    label = list(range(len(bins)))
    for kind in kinds:
        joined = {label[b] for b in kind.bins}
        label = [min(joined) if x in joined else x for x in label]
    problems = []
    for component in sorted({label[k.bins[0]] for k in kinds}):
        members = [b for b, x in enumerate(label) if x == component]
        number = {b: i for i, b in enumerate(members)}
        own = tuple(replace(k, bins=tuple(number[b] for b in k.bins)) for k in kinds if label[k.bins[0]] == component)
        problems.append(Problem(own, tuple(bins[b] for b in members), kerf))
    return problems
