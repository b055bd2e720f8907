"""Every screw's axis through every part: where it enters and leaves, and how far the sides of the part are from it."""

from dataclasses import dataclass

import numpy as np

from scantling.board import Fastener, Part, ray_through
from scantling.board.part import SIDES
from scantling.board.vector import Vector, along, dot, norm, scale, sub

from .arrays import Floats, Ints, Soup

BEHIND_MM = 2.0  # how far behind the head wood is looked for
AHEAD_MM = 0.5
JOINED_MM = 1e-6
FACES_ALONG = 0.75  # a side whose normal runs along the axis is entered or left, not an edge beside it
CUT = len(SIDES)


@dataclass(frozen=True, slots=True)
class Passage:
    """A screw's axis inside a part: from `enter` to `leave` mm ahead of the head's surface (the whole line).

    `end_gap` and `edge_gap` are how far the part's ends (across the grain) and its other sides lie from the axis, over
    the length the screw is in it; infinite where there is none. `edge` names the nearest side.
    """

    part: int
    enter: float
    leave: float
    end_gap: float
    edge_gap: float
    edge: str


@dataclass(frozen=True, slots=True)
class Axes:
    """Screws as arrays: heads and unit directions (n, 3), depth of the points (n,) in mm below the head's surface."""

    heads: Floats
    directions: Floats
    points: Floats


def axes_of(fasteners: tuple[Fastener, ...]) -> Axes:
    """Return the arrays of some fasteners."""
    if not fasteners:
        return Axes(np.zeros((0, 3)), np.zeros((0, 3)), np.zeros(0))
    return Axes(
        np.array([f.head for f in fasteners]),
        np.array([f.direction for f in fasteners]),
        np.array([f.head_depth + f.length for f in fasteners]),
    )


def passages(soup: Soup, fasteners: tuple[Fastener, ...], axes: Axes) -> list[list[Passage]]:
    """Return for each fastener the stretches of its axis inside parts, from 2 mm behind the head to its point."""
    screw, cell = _candidates(soup, axes)
    pieces: list[dict[int, list[tuple[float, float, float, float, int]]]] = [{} for _ in fasteners]
    kinds = [[_kind(f.name) for f in c.faces] for c in soup.cells]
    for which, block in soup.cells_by_block(cell):
        s, c = screw[which], cell[which]
        d, head = axes.directions[s], axes.heads[s]
        closing = (block.normals @ d[:, :, None])[:, :, 0]
        height = (block.normals @ head[:, :, None])[:, :, 0] - block.offsets
        enter, leave = _crossings(closing, height)
        hit = np.flatnonzero((leave - enter > JOINED_MM) & (leave >= -BEHIND_MM) & (enter <= axes.points[s] + AHEAD_MM))
        ends, edges, nearest = _beside(closing[hit], height[hit], enter[hit], leave[hit], axes.points[s[hit]],
                                       _names(kinds, c[hit], closing.shape[1]))  # fmt: skip
        for n, k in enumerate(hit):
            rows = pieces[int(s[k])].setdefault(int(soup.part_of[c[k]]), [])
            rows.append((float(enter[k]), float(leave[k]), float(ends[n]), float(edges[n]), int(nearest[n])))
    return [
        sorted(_joined(soup, f, float(axes.points[i]), pieces[i]), key=lambda p: (round(p.enter, 6), p.part))
        for i, f in enumerate(fasteners)
    ]


def _candidates(soup: Soup, axes: Axes) -> tuple[Ints, Ints]:
    """Return the pairs (screw, cell) whose boxes meet."""
    start = axes.heads - BEHIND_MM * axes.directions
    end = axes.heads + (axes.points + AHEAD_MM)[:, None] * axes.directions
    low, high = np.minimum(start, end), np.maximum(start, end)
    meets = np.ones((len(axes.points), len(soup.cells)), dtype=bool)
    for k in range(3):
        meets &= (low[:, None, k] <= soup.high[None, :, k]) & (soup.low[None, :, k] <= high[:, None, k])
    screw, cell = np.nonzero(meets)
    return screw, cell


def _crossings(closing: Floats, height: Floats) -> tuple[Floats, Floats]:
    """Return where lines enter and leave convex bodies, from closing speed and height over each face (p, F)."""
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = -height / closing
    enter = np.where(closing < -1e-12, crossing, -np.inf).max(axis=1)
    leave = np.where(closing > 1e-12, crossing, np.inf).min(axis=1)
    misses = ((np.abs(closing) <= 1e-12) & (height > 1e-9)).any(axis=1)
    leave = np.where(misses, -np.inf, leave)
    return enter, leave


def _kind(name: str) -> int:
    return SIDES.index(name) if name in SIDES else CUT


def _names(kinds: list[list[int]], cells: Ints, width: int) -> Ints:
    """Return the kinds of the faces of some cells as rows of equal width, padded as the blocks are."""
    return np.array([(kinds[c] + [kinds[c][0]] * width)[:width] for c in cells], dtype=np.int64).reshape(-1, width)


def _beside(
    closing: Floats, height: Floats, enter: Floats, leave: Floats, point: Floats, kinds: Ints
) -> tuple[Floats, Floats, Ints]:
    """Return the distances of the ends and of the other sides of convex bodies from lines inside them, and which."""
    across = np.sqrt(np.maximum(1e-12, 1 - closing**2))
    first, last = np.maximum(enter, 0.0)[:, None], np.minimum(leave, point)[:, None]
    gap = np.minimum(-(height + closing * first), -(height + closing * last)) / across
    gap = np.where(np.abs(closing) < FACES_ALONG, gap, np.inf)
    is_end = kinds < 2
    ends = np.where(is_end, gap, np.inf).min(axis=1, initial=np.inf)
    others = np.where(is_end, np.inf, gap)
    nearest = kinds[np.arange(len(kinds)), others.argmin(axis=1)] if len(kinds) else np.zeros(0, dtype=np.int64)
    return ends, others.min(axis=1, initial=np.inf), nearest


def _joined(
    soup: Soup, fastener: Fastener, point: float, by_part: dict[int, list[tuple[float, float, float, float, int]]]
) -> list[Passage]:
    """Join the stretches of a part's cells where they meet; measure the sides of many-celled parts afresh."""
    found = []
    for part, rows in by_part.items():
        rows.sort()
        runs = [rows[0][:2]]
        for enter, leave, *_ in rows[1:]:
            if enter <= runs[-1][1] + JOINED_MM:
                runs[-1] = (runs[-1][0], max(runs[-1][1], leave))
            else:
                runs.append((enter, leave))
        whole = len(soup.parts[part].cells()) == 1
        for enter, leave in runs:
            if whole:
                _, _, end_gap, edge_gap, kind = rows[0]
            else:
                end_gap, edge_gap, kind = _beside_many(soup.parts[part], fastener, max(0.0, enter), min(leave, point))
            name = SIDES[kind] if kind < CUT else "cut side"
            found.append(Passage(part, enter, leave, end_gap, edge_gap, name))
    return found


def _beside_many(part: Part, fastener: Fastener, first: float, last: float) -> tuple[float, float, int]:
    """Return the distances to the first air sideways of an axis in a notched or grooved part: ends, others, which."""
    ends, edges, kind = float("inf"), float("inf"), CUT
    axes: tuple[Vector, ...] = (part.frame.along, part.frame.across, part.frame.through)
    for k, axis in enumerate(axes):
        side = sub(axis, scale(fastener.direction, dot(axis, fastener.direction)))
        if norm(side) < 0.6:
            continue
        side = scale(side, 1 / norm(side))
        for t in (first + 0.01, (first + last) / 2, last - 0.01):
            at = along(fastener.head, fastener.direction, t)
            for enter, leave in ray_through(part, at, side):
                if enter < 1e-6 and leave > -1e-6:
                    gap, towards = (leave, 1) if leave <= -enter else (-enter, 0)
                    if k == 0:
                        ends = min(ends, gap)
                    elif gap < edges:
                        edges, kind = gap, 2 * k + towards
    return ends, edges, kind
