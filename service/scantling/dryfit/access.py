"""Which parts stand in the way of a driver: its barrels behind every screw's head, against every part.

Sets of parts are bits of an int by part index, which makes asking "is any of these in that group" one operation.

A barrel is taken as an eight-sided prism drawn round it, at most 8 % thicker than the barrel: on the safe side. The
tool is held straight on the screw's axis, which is on the safe side too.
"""

from functools import cache
from math import cos, pi, sin

import numpy as np

from scantling.board import Fastener

from .arrays import Block, Floats, Ints, Soup
from .overlap import separation
from .rays import axes_of
from .settings import Tool

SIDES = 8


@cache
def _ring() -> tuple[tuple[float, float], ...]:
    """Return the directions of the prism's sides."""
    return tuple((cos(2 * pi * k / SIDES), sin(2 * pi * k / SIDES)) for k in range(SIDES))


class Reach:
    """Which parts block which tool on which fastener, computed for a tool when first asked for."""

    def __init__(self, soup: Soup, fasteners: tuple[Fastener, ...], tools: tuple[Tool, ...], fit: float) -> None:
        self.tools = tools
        self._soup, self._fasteners, self._fit = soup, fasteners, fit
        self._known: dict[int, list[int]] = {}

    def blocked_by(self, fastener: int, tool: int) -> int:
        """Return the parts that keep a tool (by its place in the list) off a fastener, as bits."""
        if tool not in self._known:
            self._known[tool] = blockers(self._soup, self._fasteners, self.tools[tool], self._fit)
        return self._known[tool][fastener]


def blockers(soup: Soup, fasteners: tuple[Fastener, ...], tool: Tool, fit: float) -> list[int]:
    """Return for each fastener the parts that a tool on its head would run into, as bits by part index."""
    found = [0] * len(fasteners)
    axes = axes_of(fasteners)
    for barrel in tool.barrels:
        prisms = _prisms(axes.heads, axes.directions, barrel.start, barrel.end, barrel.radius)
        screw, cell = _near(prisms, soup, fit)
        for which, block in soup.cells_by_block(cell):
            gap = separation(prisms.take(screw[which]), block, -fit)
            for k in which[gap < -fit]:
                found[int(screw[k])] |= 1 << int(soup.part_of[cell[k]])
    return found


def _prisms(heads: Floats, directions: Floats, start: float, end: float, radius: float) -> Block:
    """Return an eight-sided prism behind every head, from `start` to `end` mm along the axis backwards."""
    helper = np.where(np.abs(directions[:, :1]) < 0.9, np.array([[1.0, 0.0, 0.0]]), np.array([[0.0, 1.0, 0.0]]))
    u = np.cross(helper, directions)
    u = u / np.linalg.norm(u, axis=1, keepdims=True)
    v = np.cross(directions, u)
    ring = np.array(_ring())
    sides = ring[None, :, :1] * u[:, None] + ring[None, :, 1:] * v[:, None]
    half = pi / SIDES
    turned = np.array([(c * cos(half) - s * sin(half), s * cos(half) + c * sin(half)) for c, s in _ring()])
    rim = (turned[None, :, :1] * u[:, None] + turned[None, :, 1:] * v[:, None]) * (radius / cos(half))
    near, far = heads - start * directions, heads - end * directions
    along = directions[:, None, :]
    normals = np.concatenate([sides, along, -along], axis=1)
    foot = np.concatenate([near[:, None] + radius * sides, near[:, None], far[:, None]], axis=1)
    offsets = np.einsum("pfk,pfk->pf", normals, foot)
    corners = np.concatenate([near[:, None] + rim, far[:, None] + rim], axis=1)
    return Block(normals, offsets, corners, np.concatenate([sides[:, : SIDES // 2], along], axis=1))


def _near(prisms: Block, soup: Soup, fit: float) -> tuple[Ints, Ints]:
    low, high = prisms.corners.min(axis=1) + fit, prisms.corners.max(axis=1) - fit
    meets = np.ones((len(low), len(soup.cells)), dtype=bool)
    for k in range(3):
        meets &= (low[:, None, k] <= soup.high[None, :, k]) & (soup.low[None, :, k] <= high[:, None, k])
    screw, cell = np.nonzero(meets)
    return screw, cell
