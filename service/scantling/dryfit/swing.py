"""Does a swing run into anything? Ranges of the angle are proven clear or halved; nothing is left to luck.

For a pair of bodies and a range of angles the least height of every corner over every face of the other is known
exactly over the whole range (arcs.py). Where one face, or the way the outermost corner can move, proves them apart, the
range is done; else it is halved, until no corner moves more than TOLERANCE_MM within it. So a clash deeper than `fit` +
half of that is always found, and what is found is really there.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from .arcs import Arc, parted_by, turned
from .arrays import Block, Floats, Ints, Soup
from .glide import Passing

TOLERANCE_MM = 0.5
FIRST_RANGES = 4
CLOSE_ENOUGH_MM = 0.25  # how well the least gap is known where it matters
MOST_ROWS = 4000
LOOKS = 64


@dataclass(slots=True)
class _Search:
    """The pairs looked at, what is known of each, and what a range must prove to be done."""

    moving: Soup
    still: Soup
    a: Ints
    b: Ints
    axis: Floats
    through: Floats
    fit: float
    reach: float
    narrow: float
    arcs: tuple[Arc, ...] = field(init=False)
    back: tuple[Arc, ...] = field(init=False)
    found: Passing = field(init=False)

    def __post_init__(self) -> None:
        self.arcs = tuple(Arc.of(block.corners, self.axis, self.through) for block in self.moving.blocks)
        # seen from what moves, what stands still turns the other way
        self.back = tuple(Arc.of(block.corners, -self.axis, self.through) for block in self.still.blocks)
        n = self.a.size
        self.found = Passing(np.full(n, np.inf), np.zeros(n), np.full(n, np.inf), np.zeros(n))

    def wanted(self, pairs: Ints) -> Floats:
        """Return what gap proves a range of these pairs done: none, or less than the least gap already seen."""
        seen = self.found.least[pairs]
        asked = np.where(seen < self.narrow, -self.fit, np.minimum(self.reach, seen - CLOSE_ENOUGH_MM))
        proven: Floats = np.maximum(asked, -self.fit)
        return proven

    def blocks(self, pairs: Ints) -> Iterator[tuple[Ints, Block, Arc, Block, Arc]]:
        """Split pairs by shape: (which, moving bodies when shut, their arcs, still bodies, their arcs)."""
        cells, others = self.a[pairs], self.b[pairs]
        for i, one in enumerate(self.moving.blocks):
            mine = self.moving.block_of[cells] == i
            for j, other in enumerate(self.still.blocks):
                which = np.flatnonzero(mine & (self.still.block_of[others] == j))
                if which.size:
                    rows, beside = self.moving.row_of[cells[which]], self.still.row_of[others[which]]
                    yield which, one.take(rows), self.arcs[i].take(rows), other.take(beside), self.back[j].take(beside)


def swing(
    moving: Soup, still: Soup, pairs: tuple[Ints, Ints], line: tuple[Floats, Floats], angle: float, fit: float,
    band: tuple[float, float],
) -> Passing:  # fmt: skip
    """Turn cells a[k] of the moving parts past cells b[k] about a line (unit axis, point) by an angle in radians.

    `band` is the gap of interest, mm: pairs that never come within its end are not measured further, and of pairs
    that come closer than its beginning only clashes matter. Answers as `glide`; places are angles from 0 to |angle|.
    """
    axis, through = line
    if angle < 0:
        axis = -axis
    search = _Search(moving, still, *pairs, axis, through, fit, band[1], band[0])
    n, whole = pairs[0].size, abs(angle)
    edges = np.linspace(0.0, whole, FIRST_RANGES + 1)
    rows = np.repeat(np.arange(n), FIRST_RANGES)
    low, high = np.tile(edges[:-1], n), np.tile(edges[1:], n)
    _measure(search, np.arange(n), np.zeros(n))
    while rows.size:
        rows, low, high = _halved(search, rows, low, high)
    return search.found


def pinned(
    moving: Soup,
    still: Soup,
    pair: tuple[int, int],
    line: tuple[Floats, Floats],
    found: float,
    angle: float,
    fit: float,
) -> tuple[float, float]:
    """Return where a clash of two cells found at an angle begins, closer than the search had it, and how deep it goes.

    `line` is the unit axis, turned so that the swing is positive, and a point of it; `angle` is where the swing ends.
    """
    axis, through = line
    one, other = moving.blocks[moving.block_of[pair[0]]], still.blocks[still.block_of[pair[1]]]
    rows = np.zeros(LOOKS, dtype=np.int64)
    one, other = one.take(rows + moving.row_of[pair[0]]), other.take(rows + still.row_of[pair[1]])

    def gaps(at: Floats) -> Floats:
        return parted_by(turned(one, axis, through, at), other)[0]

    radius = float(Arc.of(one.corners[0], axis, through).radius.max())
    before = np.linspace(max(0.0, found - TOLERANCE_MM / radius), found, LOOKS)
    clash = np.flatnonzero(gaps(before) < -fit)
    first = float(before[clash[0]]) if clash.size else found
    return first, max(0.0, -float(gaps(np.linspace(first, angle, LOOKS)).min()))


def _halved(search: _Search, rows: Ints, low: Floats, high: Floats) -> tuple[Ints, Floats, Floats]:
    """Look at every range in its middle; return the halves of those that are not done, earliest first."""
    if rows.size > MOST_ROWS:
        parts = [_halved(search, rows[k : k + MOST_ROWS], low[k : k + MOST_ROWS], high[k : k + MOST_ROWS])
                 for k in range(0, rows.size, MOST_ROWS)]  # fmt: skip
        return (np.concatenate([p[0] for p in parts]), np.concatenate([p[1] for p in parts]),
                np.concatenate([p[2] for p in parts]))  # fmt: skip
    middle = (low + high) / 2
    gap, proven, sway = _measure(search, rows, middle, low, high)
    clash = gap < -search.fit
    first = search.found.starts[rows]
    open_ = np.where(clash, sway > TOLERANCE_MM / 2, (proven < search.wanted(rows)) & (sway > TOLERANCE_MM / 2))
    open_ &= low < first
    rows, low, high, middle, clash = rows[open_], low[open_], high[open_], middle[open_], clash[open_]
    later = ~clash  # past a clash nothing is asked any more
    return (
        np.concatenate([rows, rows[later]]),
        np.concatenate([low, middle[later]]),
        np.concatenate([middle, high[later]]),
    )


def _measure(
    search: _Search, pairs: Ints, angle: Floats, low: Floats | None = None, high: Floats | None = None
) -> tuple[Floats, Floats, Floats]:
    """Measure pairs at an angle each, and keep what is learnt; with a range, what is proven over it.

    Returns the gaps (negative: depth), the gap proven over the range, and how far a corner moves within half of it.
    """
    gap, proven, sway = np.empty(pairs.size), np.full(pairs.size, -np.inf), np.zeros(pairs.size)
    for which, shut, arcs, other, back in search.blocks(pairs):
        at = angle[which]
        here = turned(shut, search.axis, search.through, at)
        gap[which], _ = parted_by(here, other)
        if low is None or high is None:
            continue
        half = (high[which] - low[which]) / 2
        ends = low[which], high[which]
        sway[which] = arcs.radius.max(axis=1) * half
        faces = np.maximum(_beyond(arcs, other, *ends), _beyond(back, shut, *ends))
        proven[which] = np.maximum(faces, gap[which] - sway[which])
    _learn(search.found, pairs, angle, gap, search.fit)
    return gap, proven, sway


def _beyond(arcs: Arc, body: Block, low: Floats, high: Floats) -> Floats:
    """Return the gap that some one face of a body keeps to points that turn, over whole ranges of angles (m,)."""
    around = Arc(arcs.centre[:, None], arcs.arm[:, None], arcs.quarter[:, None])
    least = around.least(body.normals[:, :, None, :], low[:, None, None], high[:, None, None]).min(axis=2)
    found: Floats = (least - body.offsets).max(axis=1)
    return found


def _learn(found: Passing, pairs: Ints, angle: Floats, gap: Floats, fit: float) -> None:
    """Keep the earliest clash, the greatest depth and the least gap of every pair."""
    clash = gap < -fit
    np.minimum.at(found.starts, pairs[clash], angle[clash])
    np.maximum.at(found.depth, pairs, np.maximum(0.0, -gap))
    order = np.argsort(-gap, kind="stable")  # the last one written is the least
    closer = order[gap[order] < found.least[pairs[order]]]
    found.least[pairs[closer]], found.least_at[pairs[closer]] = gap[closer], angle[closer]
