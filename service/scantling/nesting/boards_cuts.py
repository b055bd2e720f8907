"""The cuts of a board whose pieces have sloped ends: the slope of each, where its long point lies, how it is held.

The board is worked from its start on. Where two facing ends agree one cut makes both; where they do not, the first
cut frees the piece and a second one gives the next piece its start. A cut leaning the other way is made at the same
setting with the board turned over; a piece with one good face keeps that face up, and the saw is set the other way.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import ceil, cos, radians

from .boards_ends import SQUARE, End, Joints, lie_of
from .boards_problem import ends_of
from .nouns import Job, Layout, Stock
from .saws import Choice, Operation, SawKind, Saws
from .sequence_steps import Fall, Held, Step

_FLUSH = 2  # 0.01 mm: the rounding of one joint
TURNED_OVER = "board turned over"
OTHER_WAY = "saw set the other way"


@dataclass(frozen=True, slots=True)
class _Item:
    """One thing to come off the board, between the long points of its ends as it lies."""

    kind: str
    name: str | None
    x: int
    length: int
    start: End = SQUARE
    end: End = SQUARE
    one_face: bool = False

    @property
    def fall(self) -> Fall:
        return Fall(self.kind, self.name, self.x, 0, self.length, 0)


def has_slopes(layout: Layout, job: Job) -> bool:
    """Tell whether any piece of a layout has an end that is not square."""
    sloped = {p.id for p in job.pieces if not ends_of(p).square}
    return any(p.part in sloped for p in layout.placements)


def board_steps(layout: Layout, stock: Stock, job: Job, saws: Saws | None, kg_per_unit: float | None) -> list[Step]:
    """Return every cut of a board with sloped ends, in the order they are made.

    `kg_per_unit` is the mass of 0.01 mm × 0.01 mm of the stock, None where it is not known.
    """
    choose = None if saws is None else saws.choose
    bench = _Bench(stock, Joints(job.cutting.kerf, stock.board_width, stock.thickness), choose, kg_per_unit)
    items = _items(layout, job)
    for at, item in enumerate(items):
        bench.true_start(item)
        bench.cut_off(item, items[at + 1] if at + 1 < len(items) else None)
    return bench.steps


def _items(layout: Layout, job: Job) -> list[_Item]:
    pieces = {p.id: p for p in job.pieces}
    items = [_Item("offcut", None, o.x, o.along_x) for o in layout.offcuts]
    for p in layout.placements:
        lie = lie_of(ends_of(pieces[p.part]), p.end_for_end, p.face_down)
        items.append(_Item("part", p.part, p.x, p.length, lie.start, lie.end, pieces[p.part].one_face))
    return sorted(items, key=lambda item: item.x)


class _Bench:
    """What is left of the board, from the long point of its start on, and the slope of that start."""

    def __init__(
        self, stock: Stock, joints: Joints, choose: Callable[[Operation], Choice] | None, kg_per_unit: float | None
    ) -> None:
        self.steps: list[Step] = []
        self._stock = stock
        self._joints = joints
        self._choose = choose
        self._kg_per_unit = kg_per_unit
        self._begin = 0
        self._facing: End = SQUARE
        self._set: dict[tuple[int, int], End] = {}  # the slope each setting was first used for
        self._fresh = True
        self._seller_cuts = 0

    def true_start(self, item: _Item) -> None:
        """Give an item its start, unless the last cut (or the board's own end) has made it already."""
        agrees = self._facing == item.start
        if agrees and abs(item.x - self._begin) <= _FLUSH:
            return
        if item.kind == "offcut":  # what is left is kept as the last cut leaves it
            return
        kerf = self._joints.cut(item.start)
        waste = item.x + self._joints.reach(item.start) - kerf - self._begin
        falls = Fall("waste", None, self._begin, 0, waste, 0) if waste > 0 else None
        width = kerf if waste > 0 else item.x - self._begin
        rest = self._rest(item.x)
        self._make(item.x - width, width, item.start, (rest.along_x, max(waste, 0)), (falls, rest), item, trims=True)
        self._begin, self._facing = item.x, item.start

    def cut_off(self, item: _Item, following: _Item | None) -> None:
        """Cut an item off the start of what is left; one that reaches the board's end is what is left."""
        end = item.x + item.length
        if self._stock.length - end <= 0 and item.end == SQUARE:
            return
        if item.kind == "offcut":
            return
        kerf = self._joints.cut(item.end)
        begin = end + kerf - self._joints.reach(item.end)
        left = self._stock.length - begin
        if left <= 0 or (left <= self._joints.reach(item.end) and following is None and item.end == SQUARE):
            self._make(end, self._stock.length - end, item.end, (item.length, 0), (None, item.fall), item, trims=True)
            return
        rest = self._rest(begin)
        if following is not None and following.kind == "offcut":
            rest = replace(rest, kind="offcut", name=None)
        elif following is not None and self._is_all(following, item.end, begin):
            rest = following.fall
        elif following is None:
            rest = replace(rest, kind="waste", name=None)
        self._make(end, kerf, item.end, (item.length, left), (item.fall, rest), item, following)
        self._begin, self._facing = begin, item.end

    def _is_all(self, following: _Item, facing: End, begin: int) -> bool:
        """Tell whether what is left needs no further cut to be the next item."""
        whole = following.x + following.length == self._stock.length and following.end == SQUARE
        return whole and following.start == facing and abs(following.x - begin) <= _FLUSH

    def _rest(self, begin: int) -> Fall:
        return Fall("piece", "board", begin, 0, self._stock.length - begin, 0)

    def _make(
        self, at: int, width: int, end: End, sizes: tuple[int, int], left: tuple[Fall | None, Fall], item: _Item,
        following: _Item | None = None, *, trims: bool = False,
    ) -> None:  # fmt: skip
        falls, rest = left
        held = self._held()
        angles = (abs(end[0]), abs(end[1]))
        operation = Operation(
            rip=False, travel=self._travel(end), wanted=sizes[0], other=sizes[1], thickness=self._stock.thickness,
            mass_kg=held.mass_kg, bevel=angles[1] / 100, fresh=self._fresh, seller_cuts=self._seller_cuts,
            mitre=angles[0] / 100,
        )  # fmt: skip
        choice = None if self._choose is None else self._choose(operation)
        starts = at <= item.x  # at it, where a kerf wider than the slope leans runs out over the end of the board
        near, far = self._joints.marks(end, item.x if starts else at, starts)
        marks = (near - width, far - width) if starts else (near, far)
        one_face = item.one_face or (following is not None and following.one_face)
        self.steps.append(
            Step(
                "x", at, width, operation, choice, held, falls, rest, 0, len(self.steps) - 1 if self.steps else None,
                trims, end=end, marks=marks, lie=self._lie(end, one_face),
            )
        )  # fmt: skip
        by_seller = choice is not None and choice.saw.kind is SawKind.PANEL
        self._seller_cuts += by_seller
        self._fresh = self._fresh and by_seller

    def _lie(self, end: End, one_face: bool) -> str | None:
        """Return how the board is held for a slope, once its setting has been used leaning one way."""
        if end == SQUARE:
            return None
        first = self._set.setdefault((abs(end[0]), abs(end[1])), end)
        if end == first:
            return None
        return OTHER_WAY if one_face or end != (-first[0], -first[1]) else TURNED_OVER

    def _travel(self, end: End) -> int:
        return ceil((self._stock.board_width or 0) / cos(radians(end[0] / 100)) - 1e-6)

    def _held(self) -> Held:
        length = self._stock.length - self._begin
        mass = None if self._kg_per_unit is None else self._kg_per_unit * length * (self._stock.board_width or 0)
        return Held("board", self._begin, 0, length, 0, mass)
