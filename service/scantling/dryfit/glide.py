"""Does a straight slide run into anything? Exact for convex bodies, with no steps on the way.

While a body slides along d, its gap to another along any fixed axis changes evenly; the axes that can part the two do
not turn. So the time in which no axis parts them by less than `fit` is one interval, found from straight lines.
"""

from dataclasses import dataclass

import numpy as np

from .arcs import axes_between
from .arrays import Block, Floats, Ints, Soup

ROWS = 2000  # pairs in one go, which bounds memory
HALVINGS = 48
LEVEL = 1e-9


@dataclass(frozen=True, slots=True)
class Passing:
    """What came of carrying pairs of cells past each other, a row for each pair.

    `starts` is where along the way it first stands over `fit` deep in the other (infinite: never), `depth` how deep
    at most, `least` the least gap on the way (a lower bound of the distance), and `least_at` where that is.
    """

    starts: Floats
    depth: Floats
    least: Floats
    least_at: Floats


def glide(moving: Soup, still: Soup, a: Ints, b: Ints, d: Floats, travel: float, fit: float) -> Passing:
    """Carry cells a[k] of the moving parts past cells b[k] by `travel` mm along a unit direction d."""
    n = a.size
    found = Passing(np.full(n, np.inf), np.zeros(n), np.full(n, np.inf), np.zeros(n))
    for first in range(0, n, ROWS):
        rows = np.arange(first, min(n, first + ROWS))
        for i, one in enumerate(moving.blocks):
            for j, other in enumerate(still.blocks):
                which = rows[(moving.block_of[a[rows]] == i) & (still.block_of[b[rows]] == j)]
                if which.size:
                    pair = one.take(moving.row_of[a[which]]), other.take(still.row_of[b[which]])
                    _pass(found, which, *_lines(*pair, d), travel, fit)
    return found


def _lines(a: Block, b: Block, d: Floats) -> tuple[Floats, Floats]:
    """Return the gap along every axis and its opposite as a line in time: value at 0 and slope, (m, 2X) each."""
    axes = axes_between(a, b)
    on_a, on_b = axes @ a.corners.transpose(0, 2, 1), axes @ b.corners.transpose(0, 2, 1)
    speed = axes @ d
    speed = np.where(np.abs(speed) < LEVEL, 0.0, speed)
    ahead = on_b.min(axis=2) - on_a.max(axis=2)
    behind = on_a.min(axis=2) - on_b.max(axis=2)
    return np.concatenate([ahead, behind], axis=1), np.concatenate([-speed, speed], axis=1)


def _pass(found: Passing, which: Ints, gap: Floats, slope: Floats, travel: float, fit: float) -> None:
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = (-fit - gap) / slope
    enter = np.where(slope < 0, crossing, 0.0).max(axis=1)
    leave = np.where(slope > 0, crossing, travel).min(axis=1)
    never = ((slope == 0) & (gap >= -fit)).any(axis=1)
    enter, leave = np.maximum(enter, 0.0), np.minimum(leave, travel)
    hits = ~never & (enter < leave)
    at, least = _lowest(gap, slope, travel)
    found.starts[which] = np.where(hits, enter, np.inf)
    found.depth[which] = np.where(hits, np.maximum(0.0, -least), 0.0)
    found.least[which], found.least_at[which] = least, at


def _lowest(gap: Floats, slope: Floats, travel: float) -> tuple[Floats, Floats]:
    """Return where the greatest of straight lines is least on the way, and its value there: halved on its slope."""
    low, high = np.zeros(len(gap)), np.full(len(gap), travel)
    rows = np.arange(len(gap))
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        rising = slope[rows, (gap + slope * middle[:, None]).argmax(axis=1)] > 0
        high, low = np.where(rising, middle, high), np.where(rising, low, middle)
    ends = np.stack([np.zeros(len(gap)), (low + high) / 2, np.full(len(gap), travel)])
    values = (gap[None] + slope[None] * ends[:, :, None]).max(axis=2)
    best = values.argmin(axis=0)
    return ends[best, rows], values[best, rows]
