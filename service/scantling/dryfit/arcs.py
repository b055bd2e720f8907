"""Corners on their way: how far each reaches along a direction while it turns about a line or runs straight.

A corner that turns stays on a circle, so its height along any direction is k + ρ cos(θ − φ): its least value over a
range of angles is at an end of the range or, where the range holds it, at the bottom of the circle. No sampling.
"""

from dataclasses import dataclass
from math import pi

import numpy as np

from .arrays import Block, Floats, Ints

TURN = 2 * pi


@dataclass(frozen=True, slots=True)
class Arc:
    """Points on circles about a line: their centres, the arm of each and the arm a quarter turn on; all (…, 3)."""

    centre: Floats
    arm: Floats
    quarter: Floats

    @classmethod
    def of(cls, points: Floats, axis: Floats, through: Floats) -> "Arc":
        """Return the circles of points (…, 3) about the line along a unit axis through a point."""
        out = points - through
        along = (out @ axis)[..., None] * axis
        arm = out - along
        return cls(through + along, arm, np.cross(axis, arm))

    def take(self, rows: Ints) -> "Arc":
        """Return some rows of the points."""
        return Arc(self.centre[rows], self.arm[rows], self.quarter[rows])

    @property
    def radius(self) -> Floats:
        """Return how far the points are from the line."""
        found: Floats = np.sqrt((self.arm * self.arm).sum(axis=-1))
        return found

    def at(self, angle: Floats) -> Floats:
        """Return where the points are at an angle in radians, one for each row of points."""
        place: Floats = self.centre + np.cos(angle)[..., None] * self.arm + np.sin(angle)[..., None] * self.quarter
        return place

    def least(self, direction: Floats, low: Floats, high: Floats) -> Floats:
        """Return the least height of each point along directions over the angles from low to high (radians).

        `direction`, `low` and `high` broadcast against the points.
        """
        k = (self.centre * direction).sum(axis=-1)
        a, b = (self.arm * direction).sum(axis=-1), (self.quarter * direction).sum(axis=-1)
        ends = np.minimum(a * np.cos(low) + b * np.sin(low), a * np.cos(high) + b * np.sin(high))
        bottom = np.arctan2(b, a) + pi
        inside = low + np.mod(bottom - low, TURN) <= high
        found: Floats = k + np.where(inside, -np.hypot(a, b), ends)
        return found


def rotations(axis: Floats, angles: Floats) -> Floats:
    """Return the matrices (n, 3, 3) of turns about a unit axis by angles (n,) in radians (Rodrigues)."""
    x, y, z = axis
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    turned: Floats = (
        np.eye(3) + np.sin(angles)[:, None, None] * cross + (1 - np.cos(angles))[:, None, None] * (cross @ cross)
    )
    return turned


def turned(block: Block, axis: Floats, through: Floats, angles: Floats) -> Block:
    """Return bodies turned about a line, each by its own angle (m,) in radians."""
    back = rotations(axis, angles).transpose(0, 2, 1)
    shift = through - (through @ back)
    normals = block.normals @ back
    offsets = block.offsets + (normals @ shift[:, :, None])[:, :, 0]
    return Block(normals, offsets, block.corners @ back + shift[:, None, :], block.edges @ back)


def axes_between(a: Block, b: Block) -> Floats:
    """Return the axes that can part bodies a[k] and b[k], of length 1 (m, X, 3): normals, and edge by edge.

    Rows of edges that run alike are filled up with a normal, which changes no maximum.
    """
    m = a.edges.shape[0]
    crossed = cross(a.edges[:, :, None, :], b.edges[:, None, :, :]).reshape(m, -1, 3)
    length = np.sqrt((crossed * crossed).sum(axis=2))
    short = length < 1e-6
    crossed = np.where(short[:, :, None], a.normals[:, :1], crossed / np.where(short, 1.0, length)[:, :, None])
    found: Floats = np.concatenate([a.normals, b.normals, crossed], axis=1)
    return found


def parted_by(a: Block, b: Block) -> tuple[Floats, Floats]:
    """Return how far bodies are apart along the axis that parts them best, and that axis, from b towards a."""
    axes = axes_between(a, b)
    on_a, on_b = axes @ a.corners.transpose(0, 2, 1), axes @ b.corners.transpose(0, 2, 1)
    after, before = on_a.min(axis=2) - on_b.max(axis=2), on_b.min(axis=2) - on_a.max(axis=2)
    gaps = np.maximum(after, before)
    rows = np.arange(len(gaps))
    best = gaps.argmax(axis=1)
    way = np.where(after[rows, best] >= before[rows, best], 1.0, -1.0)
    return gaps[rows, best], axes[rows, best] * way[:, None]


def cross(a: Floats, b: Floats) -> Floats:
    """Return the vector products of arrays (…, 3) that broadcast; a third of the time numpy's own takes on few."""
    x, y, z = a[..., 0], a[..., 1], a[..., 2]
    u, v, w = b[..., 0], b[..., 1], b[..., 2]
    found: Floats = np.stack([y * w - z * v, z * u - x * w, x * v - y * u], axis=-1)
    return found
