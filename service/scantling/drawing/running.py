"""Running dimensions: every place written as its distance from one datum, so that marking out piles up no error.

The datum bears a ring and each place a tick with its own distance from it, as ISO 129-1 shows them.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from .dimension import BESIDE_MM, GAP_MM, LETTER_MM, OVERSHOOT_MM, TICK_MM, Sizes, crowded, masked
from .lettering import text_width
from .shapes import Circle, Path, Segment, Segments, Shape, Text
from .spacing import spread

DATUM_MM = 1.0
ROW_MM = 1.2  # from text to text, in letter heights
MOVED_MM = 0.8  # a text further than this from its tick gets a leader


@dataclass(frozen=True, slots=True)
class Run:
    """A row of running dimensions as laid out: its shapes, and how much paper it takes beside its line."""

    shapes: tuple[Shape, ...]
    depth: float


def level_run(
    places: Sequence[float],
    sizes: Sizes,
    at: Callable[[float], float],
    y: float,
    reach: float,
    *,
    room: tuple[float, float],
) -> Run:
    """Return distances from the first of `places` along a level line at `y`, the texts below it, inside `room`.

    `at` gives the x of a place and `reach` the y the extension lines start from.
    """
    datum, far = places[0], places[1:]
    xs = [at(p) for p in far]
    texts = [sizes.show(p - datum) for p in far]
    widths = [text_width(t, LETTER_MM) + GAP_MM for t in texts]
    upright = crowded(widths, xs, room)
    placed = spread(xs, [LETTER_MM * 1.15] * len(texts) if upright else widths, *room)
    start = 2.5 if upright else 1.8
    lines: list[Segment] = [(at(datum), y, max(xs, key=lambda x: abs(x - at(datum))), y)]
    lines += [(x, reach + 0.6, x, y + OVERSHOOT_MM) for x in xs]
    lines += [(x - TICK_MM, y + TICK_MM, x + TICK_MM, y - TICK_MM) for x in xs]
    shapes: list[Shape] = [Segments(tuple(lines), "dimension"), Circle(at(datum), y, DATUM_MM, "thin", "white")]
    for text, x, spot in zip(texts, xs, placed, strict=True):
        if abs(spot - x) > MOVED_MM or upright:
            shapes.append(Path(((x, y + OVERSHOOT_MM), (spot, y + start - 0.2)), "leader"))
        if upright:
            shapes += masked(Text(spot, y + start, text, LETTER_MM, "end", True))
        else:
            shapes += masked(Text(spot, y + start + LETTER_MM / 2, text, LETTER_MM, "middle"))
    return Run(tuple(shapes), start + (max(widths) if upright else LETTER_MM))


def upright_run(
    places: Sequence[float],
    sizes: Sizes,
    at: Callable[[float], float],
    x: float,
    reach: float,
    *,
    room: tuple[float, float],
) -> Run:
    """Return distances from the first of `places` along an upright line at `x`, the texts level to the left of it."""
    datum, far = places[0], places[1:]
    ys = [at(p) for p in far]
    texts = [sizes.show(p - datum) for p in far]
    step = LETTER_MM * ROW_MM
    order = sorted(range(len(texts)), key=lambda i: ys[i])
    spots = dict(zip(order, spread([ys[i] for i in order], [step] * len(order), *room), strict=True))
    lines: list[Segment] = [(x, at(datum), x, max(ys, key=lambda y: abs(y - at(datum))))]
    lines += [(reach - 0.6, y, x - OVERSHOOT_MM, y) for y in ys]
    lines += [(x - TICK_MM, y + TICK_MM, x + TICK_MM, y - TICK_MM) for y in ys]
    shapes: list[Shape] = [Segments(tuple(lines), "dimension"), Circle(x, at(datum), DATUM_MM, "thin", "white")]
    for i, text in enumerate(texts):
        moved = abs(spots[i] - ys[i]) > MOVED_MM
        start = BESIDE_MM + 2.0 if moved else BESIDE_MM
        if moved:
            shapes.append(Path(((x - OVERSHOOT_MM, ys[i]), (x - start + 0.3, spots[i])), "leader"))
        shapes.append(Text(x - start, spots[i], text, LETTER_MM, "end"))
    return Run(tuple(shapes), BESIDE_MM + 2.0 + max(text_width(t, LETTER_MM) for t in texts))
