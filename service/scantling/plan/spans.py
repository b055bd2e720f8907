"""How far a part spans: where its supports lie along it, the clear stretches between them, and what overhangs."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from scantling.board import Part
from scantling.board.vector import Vector, dot, sub

from .structure import Structure, Support

LEAST_SPAN_MM = 20.0  # a shorter stretch bends too little to matter
NARROW_MM = 120.0  # a slim part up to this width is not looked at across its length
SLIM = 3.0  # length over width from which a part spans lengthways, however narrow what it rests on
ASIDE = 0.1  # of half the width: supports that meet at a corner leave the middle itself free
COVERED = 0.5  # share of the width a line of supports must reach over to carry the whole width


@dataclass(frozen=True, slots=True)
class Rest:
    """One place a part rests along an axis: from, to in mm along the part, and the parts that carry it there."""

    start: float
    end: float
    by: tuple[str, ...]

    @property
    def middle(self) -> float:
        """Return the middle of the place in mm along the part."""
        return (self.start + self.end) / 2


@dataclass(frozen=True, slots=True)
class Spans:
    """A part along one axis (`length` or `width`): its supports in order and its own extent, mm along the part.

    `lies` says that it rests on them; else joints at its sides carry it.
    """

    part: Part
    axis: str
    rests: tuple[Rest, ...]
    lies: bool = True

    @property
    def size(self) -> float:
        """Return the part's size along the axis, mm."""
        return self.part.length if self.axis == "length" else self.part.width

    @property
    def direction(self) -> Vector:
        """Return the world direction of the axis."""
        return self.part.frame.along if self.axis == "length" else self.part.frame.across

    def clear(self) -> list[tuple[float, float]]:
        """Return the clear stretches between supports, mm along the part."""
        gaps = [(a.end, b.start) for a, b in pairwise(self.rests)]
        return [(a, b) for a, b in gaps if b - a >= LEAST_SPAN_MM]

    def overhangs(self) -> tuple[float, float]:
        """Return how far the part stands out beyond its first and its last support, mm."""
        if not self.rests:
            return 0.0, 0.0
        return max(0.0, self.rests[0].start), max(0.0, self.size - self.rests[-1].end)

    def at(self, point: Vector) -> float:
        """Return where a world point lies along the axis, mm from the part's start."""
        frame = self.part.frame
        axis = frame.along if self.axis == "length" else frame.across
        return dot(sub(point, frame.origin), axis)

    def neighbours(self, at: float) -> list[Rest]:
        """Return the supports next to a place: the one it lies on, or the two on either side of it."""
        here = [r for r in self.rests if r.start - 1 <= at <= r.end + 1]
        if here:
            return here[:1]
        before = [r for r in self.rests if r.end < at]
        after = [r for r in self.rests if r.start > at]
        return [*before[-1:], *after[:1]]


def spans_of(structure: Structure, id: str, supports: Sequence[Support] | None = None) -> Spans | None:
    """Return the way a part spans: between supports that cross it, the shorter of two ways; None where nothing does."""
    part = structure.part(id)
    held = structure.supports(id) if supports is None else supports
    outlines = [(_outline(part, s), s.by) for s in held]
    lies = all(s.rests for s in held)
    narrow = part.length >= SLIM * part.width and part.width < NARROW_MM
    axes = ("length",) if narrow else ("length", "width")
    ways = [w for axis in axes if (w := _along(part, outlines, axis, lies)) is not None]
    spanning = [w for w in ways if len(w.rests) > 1]
    if spanning:
        return min(spanning, key=_widest)
    return max(ways, key=lambda w: max(w.overhangs()), default=None)


def _widest(way: Spans) -> float:
    return max((b - a for a, b in way.clear()), default=0.0)


Box = tuple[float, float, float, float, str]
Outline = tuple[tuple[float, float], ...]


def _outline(part: Part, support: Support) -> Outline:
    """Return where a support lies in the part's own frame: its corners along the length and the width, mm."""
    return tuple(part.frame.local(c)[:2] for c in support.patch.corners)


def _box(outline: Outline, along: int, by: str) -> Box:
    """Return from and to along an axis (0: the length), from and to across it, and by whom."""
    us, vs = [p[along] for p in outline], [p[1 - along] for p in outline]
    return min(us), max(us), min(vs), max(vs), by


def _crossed(outline: Outline, along: int, middle: float, by: str) -> Box | None:
    """Return where the line along the middle crosses a support, which may lie aslant; None where it misses it."""
    met = []
    for p, q in pairwise((*outline, outline[0])):
        a, b = p[1 - along] - middle, q[1 - along] - middle
        if min(a, b) <= 0 <= max(a, b):
            met += [p[along], q[along]] if a == b else [p[along] + (q[along] - p[along]) * a / (a - b)]
    _, _, low, high, _ = _box(outline, along, by)
    return (min(met), max(met), low, high, by) if met else None


def _along(part: Part, outlines: Sequence[tuple[Outline, str]], axis: str, lies: bool) -> Spans | None:
    """Return the supports along one axis: those a line along the middle crosses, or rows that reach over the width."""
    along = 0 if axis == "length" else 1
    middle = (part.length if along else part.width) / 2
    rests: list[Rest] = []
    for line in (middle, middle * (1 - ASIDE), middle * (1 + ASIDE)):
        crossing = [_crossed(o, along, line, by) for o, by in outlines]
        found = [row[0] for row in _rows([b for b in crossing if b is not None])]
        rests = found if len(found) > len(rests) else rests
        if len(rests) > 1:
            break
    if len(rests) < 2:
        boxes = [_box(o, along, by) for o, by in outlines]
        slim = part.length >= SLIM * part.width
        wide = [r for r, low, high in _rows(boxes) if slim or high - low >= COVERED * 2 * middle]
        rests = wide if len(wide) > len(rests) else rests
    return Spans(part, axis, tuple(rests), lies) if rests else None


def _rows(boxes: Sequence[Box]) -> list[tuple[Rest, float, float]]:
    """Join boxes that overlap along the axis into rows: the rest, and how far it reaches across the part."""
    rows: list[tuple[Rest, float, float]] = []
    for u0, u1, v0, v1, by in sorted(boxes):
        if rows and u0 <= rows[-1][0].end + 1.0:
            rest, low, high = rows[-1]
            names = tuple(dict.fromkeys((*rest.by, by)))
            rows[-1] = (Rest(rest.start, max(rest.end, u1), names), min(low, v0), max(high, v1))
        else:
            rows.append((Rest(u0, u1, (by,)), v0, v1))
    return rows


def lies_along(spans: Spans) -> bool:
    """Whether the supports carry a part nearly all along, so that it does not bend as a beam."""
    return sum(r.end - r.start for r in spans.rests) >= 0.6 * spans.size


@dataclass(frozen=True)
class Ways:
    """The spans of the parts of a piece, each worked out once."""

    structure: Structure
    known: dict[str, Spans | None] = field(default_factory=dict)

    def of(self, id: str) -> Spans | None:
        """Return the spans of a part."""
        if id not in self.known:
            self.known[id] = spans_of(self.structure, id)
        return self.known[id]
