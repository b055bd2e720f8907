"""The rims of drilled holes as edges, so that pictures in space show where a part is drilled."""

from collections.abc import Iterator
from itertools import pairwise
from math import cos, pi, sin

from scantling.board import Hole, Part

from .edges import Edge

SIDES = 16  # of the polygon a rim is drawn as


def rims(part: Part) -> tuple[Edge, ...]:
    """Return the rims of a part's holes where they enter it and, where they go through, leave it; in space, mm."""
    return tuple(edge for cut in part.cuts if isinstance(cut, Hole) for edge in _rims(part, cut))


def _rims(part: Part, hole: Hole) -> Iterator[Edge]:
    levels = [part.thickness if hole.side == "face" else 0.0]
    if hole.depth is None:
        levels.append(part.thickness - levels[0])
    radius = hole.diameter / 2
    turns = [2 * pi * i / SIDES for i in range(SIDES)]
    for z in levels:
        ring = [part.frame.point((hole.x + radius * cos(t), hole.y + radius * sin(t), z)) for t in turns]
        yield from pairwise((*ring, ring[0]))
