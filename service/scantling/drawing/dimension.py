"""Dimension chains on paper. Every place is rounded to the tape from one datum, and a link is the difference of two
rounded places: what is written adds up exactly, and no rounding piles up along the chain.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from scantling.measure import Tape

from .lettering import text_width
from .shapes import Box, DrawnChain, Path, Segment, Segments, Shape, Text, rectangle
from .spacing import spread

LETTER_MM = 2.8
TICK_MM = 0.9
GAP_MM = 1.0  # between a dimension line and its text, and between two texts
OVERSHOOT_MM = 1.2
BESIDE_MM = 1.7
SAME_MM = 0.05


@dataclass(frozen=True, slots=True)
class Sizes:
    """How sizes are written: on one tape, or on two with the second in brackets."""

    tape: Tape
    also: Tape | None = None

    def show(self, mm: float) -> str:
        """Return a size as text."""
        text = self.tape.show(mm)
        return f"{text} ({self.also.show(mm)})" if self.also else text

    def links(self, places: Sequence[float]) -> list[str]:
        """Return the texts of the links between places counted from the first: on each tape they add up."""
        rows = [[tape.marks(p - places[0]) for p in places] for tape in (self.tape, self.also) if tape]
        texts = [self.tape.show((b - a) * self.tape.step_mm) for a, b in pairwise(rows[0])]
        if self.also is None:
            return texts
        more = [self.also.show((b - a) * self.also.step_mm) for a, b in pairwise(rows[1])]
        return [f"{a} ({b})" for a, b in zip(texts, more, strict=True)]


def places_of(*groups: Sequence[float]) -> list[float]:
    """Return places in order, those nearer than 0.05 mm to the one before left out."""
    found: list[float] = []
    for place in sorted(p for group in groups for p in group):
        if not found or place - found[-1] > SAME_MM:
            found.append(place)
    return found


@dataclass(frozen=True, slots=True)
class Row:
    """A chain as laid out: its shapes, what it says, and how much paper it takes beside its dimension line."""

    shapes: tuple[Shape, ...]
    chain: DrawnChain
    depth: float


def level_chain(
    name: str,
    places: Sequence[float],
    sizes: Sizes,
    at: Callable[[float], float],
    y: float,
    reach: Callable[[float], float],
    *,
    down: bool,
    room: tuple[float, float],
) -> Row:
    """Return a chain along a level line at `y`; `at` gives the x of a place and `reach` the y its extension line
    starts from; texts stand below the line (`down`) or above it, inside `room`.
    """
    way = 1.0 if down else -1.0
    xs = [at(p) for p in places]
    texts = sizes.links(places)
    widths = [text_width(t, LETTER_MM) + GAP_MM for t in texts]
    middles = [(a + b) / 2 for a, b in pairwise(xs)]
    upright = crowded(widths, middles, room)
    across = [LETTER_MM * 1.15] * len(texts) if upright else widths
    placed = spread(middles, across, *room)
    start = 1.5 + (0.0 if not upright else 1.0)
    depth = start + (max(widths) if upright else LETTER_MM)
    lines: list[Segment] = [(xs[0], y, xs[-1], y)]
    lines += [(x, reach(p) + way * 0.6, x, y + way * OVERSHOOT_MM) for p, x in zip(places, xs, strict=True)]
    lines += [(x - TICK_MM, y + TICK_MM, x + TICK_MM, y - TICK_MM) for x in xs]
    shapes: list[Shape] = []
    for text, middle, x, low, high in zip(texts, middles, placed, xs[:-1], xs[1:], strict=True):
        if not low <= x <= high or upright:
            shapes.append(Path(((middle, y), (x, y + way * (start - 0.2))), "leader"))
        if upright:
            shapes += masked(Text(x, y + way * start, text, LETTER_MM, "end" if down else "start", True))
        else:
            shapes += masked(Text(x, y + way * (start + LETTER_MM / 2), text, LETTER_MM, "middle"))
    shapes.insert(0, Segments(tuple(lines), "dimension"))
    return Row(tuple(shapes), _drawn(name, places, texts, sizes), depth)


def upright_chain(
    name: str,
    places: Sequence[float],
    sizes: Sizes,
    at: Callable[[float], float],
    x: float,
    reach: Callable[[float], float],
    *,
    left: bool,
    room: tuple[float, float],
) -> Row:
    """Return a chain along an upright line at `x`; its texts are level, to the left of it or to the right."""
    way = -1.0 if left else 1.0
    ys = [at(p) for p in places]
    texts = sizes.links(places)
    middles = [(a + b) / 2 for a, b in pairwise(ys)]
    step = LETTER_MM * 1.2
    order = sorted(range(len(texts)), key=lambda i: middles[i])
    spots = dict(zip(order, spread([middles[i] for i in order], [step] * len(order), *room), strict=True))
    lines: list[Segment] = [(x, ys[0], x, ys[-1])]
    lines += [(reach(p) + way * 0.6, y, x + way * OVERSHOOT_MM, y) for p, y in zip(places, ys, strict=True)]
    lines += [(x - TICK_MM, y + TICK_MM, x + TICK_MM, y - TICK_MM) for y in ys]
    shapes: list[Shape] = [Segments(tuple(lines), "dimension")]
    for i, text in enumerate(texts):
        moved = abs(spots[i] - middles[i]) > abs(ys[i + 1] - ys[i]) / 2
        start = BESIDE_MM + 2.0 if moved else BESIDE_MM
        if moved:
            shapes.append(Path(((x, middles[i]), (x + way * (start - 0.3), spots[i])), "leader"))
        shapes.append(Text(x + way * start, spots[i], text, LETTER_MM, "end" if left else "start"))
    widest = max(text_width(t, LETTER_MM) for t in texts)
    return Row(tuple(shapes), _drawn(name, places, texts, sizes), BESIDE_MM + 2.0 + widest)


def masked(text: Text) -> list[Shape]:
    """Return a text on a white ground, so that no line runs through it."""
    x0, y0, x1, y1 = text.box()
    return [rectangle(x0, y0, x1 - x0, y1 - y0, "none", "white"), text]


def meet(a: Box, b: Box) -> bool:
    """Return whether two boxes share space."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def crowded(widths: Sequence[float], middles: Sequence[float], room: tuple[float, float]) -> bool:
    """Return whether texts beside each other do not fit, or would stand far from what they measure."""
    if sum(widths) > room[1] - room[0]:
        return True
    return any(abs(a - b) > 14.0 for a, b in zip(spread(middles, widths, *room), middles, strict=True))


def _drawn(name: str, places: Sequence[float], texts: Sequence[str], sizes: Sizes) -> DrawnChain:
    links = tuple(b - a for a, b in pairwise(places))
    return DrawnChain(name, tuple(texts), sizes.show(places[-1] - places[0]), links, places[-1] - places[0])
