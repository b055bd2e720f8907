"""Hatching: slanted lines clipped to rectangles, so that a writer needs lines only."""

from collections.abc import Iterator

from .shapes import Segment


def hatched(x: float, y: float, width: float, height: float, step: float = 2.5) -> tuple[Segment, ...]:
    """Return lines at 45° through a rectangle, on one grid for the whole paper so that neighbours join."""
    return tuple(_lines(x, y, x + width, y + height, step))


def _lines(x0: float, y0: float, x1: float, y1: float, step: float) -> Iterator[Segment]:
    n = int((x0 + y0) // step) + 1
    while n * step < x1 + y1:
        total = n * step  # the line x + y = total
        a, b = max(x0, total - y1), min(x1, total - y0)
        if b - a > 0.05:
            yield (a, total - a, b, total - b)
        n += 1
