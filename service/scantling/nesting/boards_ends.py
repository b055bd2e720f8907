"""Sloped ends on a board: how a piece may lie, and what two neighbours need between them along the board.

An end is (slope, bevel) in whole 0.01 degrees: the plane x = c + y·tan(slope) + z·tan(bevel)/cos(slope), y across the
board's width and z through its thickness. Two ends that face each other share one cut where both angles agree; then
the pieces lie inside each other's long points by the width times the tangent, and the blade takes kerf / cos of the
board. Where they do not agree each end has its own cut, and room is left for either cut to pass both pieces.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, cos, floor, radians, tan

End = tuple[int, int]
SQUARE: End = (0, 0)
_TINY = 1e-6  # of 0.01 mm; what the tangents of exact slopes lose


@dataclass(frozen=True, slots=True, order=True)
class Ends:
    """Both ends of a length as the request states them, and whether it must not be turned over."""

    start: End = SQUARE
    end: End = SQUARE
    one_face: bool = False

    @property
    def square(self) -> bool:
        """Both ends are square."""
        return self.start == SQUARE == self.end


@dataclass(frozen=True, slots=True, order=True)
class Lie:
    """One way a piece may lie: its ends from the board's start on, and how it was turned to get there."""

    start: End
    end: End
    end_for_end: bool = False
    face_down: bool = False

    @property
    def ends(self) -> tuple[End, End]:
        """Return both ends, from the board's start on."""
        return self.start, self.end


def mirrored(lie: Lie) -> tuple[End, End]:
    """Return the ends of a piece that is turned over where it lies."""
    return _over(lie.start), _over(lie.end)


def lies(ends: Ends) -> tuple[Lie, ...]:
    """Return the ways a piece may lie that differ to the saw, the plainest first.

    Half a turn on its face swaps the ends, keeps the slopes and turns the bevels to the other side; turning it over
    along its length turns both to the other side.
    """
    found: dict[tuple[End, End], Lie] = {}
    for lie in _all_lies(ends):
        found.setdefault(lie.ends, lie)
    return tuple(found.values())


def lie_of(ends: Ends, end_for_end: bool, face_down: bool) -> Lie:
    """Return how ends lie that were turned half round on their face, turned over, or both."""
    loose = Ends(ends.start, ends.end)
    return next(x for x in _all_lies(loose) if (x.end_for_end, x.face_down) == (end_for_end, face_down))


def _all_lies(ends: Ends) -> Iterator[Lie]:
    half_round = (_half_round(ends.end), _half_round(ends.start))
    yield Lie(ends.start, ends.end)
    yield Lie(*half_round, end_for_end=True)
    if not ends.one_face:
        yield Lie(_over(ends.start), _over(ends.end), face_down=True)
        yield Lie(_over(half_round[0]), _over(half_round[1]), end_for_end=True, face_down=True)


def _half_round(end: End) -> End:
    return end[0], -end[1]


def _over(end: End) -> End:
    return -end[0], -end[1]


@lru_cache(maxsize=512)
def alike_to_the_saw(ends: Ends) -> Ends:
    """Return one form for all ends that can be turned into each other, so that such lengths count as one kind."""
    if ends.square:
        return Ends()
    start, end = min(lie.ends for lie in _all_lies(ends))
    return Ends(start, end, ends.one_face)


class Joints:
    """What neighbours need between their long points on a board of one width and thickness (0.01 mm).

    A width or thickness that is not known counts as 0: then sloped ends save nothing, and cost nothing wrong.
    """

    def __init__(self, kerf: int, width: int | None, thickness: int | None) -> None:
        self.kerf = kerf
        self._width = width or 0
        self._thickness = thickness or 0
        self._between: dict[tuple[End, End], int] = {}
        self._half: dict[End, int] = {}

    def cut(self, end: End) -> int:
        """Return what the blade takes of the board's length when it cuts an end: kerf / cos, rounded up."""
        return cut_width(self.kerf, end)

    def between(self, left: End, right: End) -> int:
        """Return the least distance from one piece's long point to the next one's; below 0 they overlap."""
        known = self._between.get((left, right))
        if known is None:
            known = max(self.cut(left), self.cut(right)) - floor(self._shared(left, right) + _TINY)
            self._between[left, right] = known
        return known

    def more_than_kerf(self, left: End, right: End) -> int:
        """Return `between` less the kerf that square ends need."""
        return self.between(left, right) - self.kerf

    def half_at_best(self, end: End) -> int:
        """Return half of what an end needs beyond the kerf where it meets its like: no neighbour lets it do with less.

        The widths two ends share is the smaller of theirs, and the cut the wider, so a joint never needs less than
        the mean of the joints of each end with its like.
        """
        known = self._half.get(end)
        if known is None:
            known = self._half[end] = (self.cut(end) - self.kerf - ceil(self._shared(end, end) - _TINY)) // 2
        return known

    def reach(self, end: End) -> int:
        """Return how far an end's short point lies behind its long point, rounded up."""
        return ceil(self._shared(end, end) - _TINY)

    def marks(self, end: End, long_point: int, starts: bool) -> tuple[int, int]:
        """Return where an end crosses the near and the far edge of the show face, given its long point on the board.

        `starts`: it is the end nearer the board's start, whose long point lies before the rest of it.
        """
        across, through = self._lean(end)
        corners = self._corners(end)
        base = long_point - (min(corners) if starts else max(corners)) + through
        return round(base), round(base + across)

    def can_hold(self, length: int, ends: Ends) -> bool:
        """Tell whether a piece is longer than nothing along each of its edges on this board."""
        at = [self._corners(end) for end in (ends.start, ends.end)]
        first, last = min(at[0]), max(at[1])
        return all(length - last + right - left + first > 0 for left, right in zip(*at, strict=True))

    def _lean(self, end: End) -> tuple[float, float]:
        slope, bevel = (radians(angle / 100) for angle in end)
        return self._width * tan(slope), self._thickness * tan(bevel) / cos(slope)

    def _corners(self, end: End) -> tuple[float, float, float, float]:
        across, through = self._lean(end)
        return 0.0, across, through, across + through

    def _shared(self, left: End, right: End) -> float:
        """Return how far two facing ends may lie within each other: what both lean the same way."""
        pairs = zip(self._lean(left), self._lean(right), strict=True)
        return sum(min(abs(a), abs(b)) for a, b in pairs if a * b > 0)


@lru_cache(maxsize=2048)
def cut_width(kerf: int, end: End) -> int:
    """Return how much of a board's length a cut at the slope and bevel of an end takes: kerf / cos, rounded up."""
    slope, bevel = (radians(angle / 100) for angle in end)
    return ceil(kerf / (cos(slope) * cos(bevel)) - _TINY)
