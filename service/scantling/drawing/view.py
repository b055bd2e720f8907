"""The direction a piece is looked at from, and how points of space fall on the paper."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.board.vector import Vector, cross, unit

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class View:
    """A parallel projection: `towards` points to the eye, `right` and `up` lie in the picture; all of length 1."""

    name: str
    towards: Vector
    right: Vector
    up: Vector

    @classmethod
    def of(cls, name: str, towards: Vector, up: Vector = (0.0, 0.0, 1.0)) -> "View":
        """Return the view from a direction; `up` is what stands upright in the picture, not along `towards`."""
        eye = unit(towards)
        right = unit(cross(up, eye))
        return cls(name, eye, right, cross(eye, right))

    def flat(self, points: Array) -> Array:
        """Return points (n, 3) as (n, 2): x to the right and y down the page, in mm of the piece."""
        found: Array = points @ np.array([self.right, tuple(-c for c in self.up)]).T
        return found


FRONT_RIGHT = View.of("from the front right", (1.0, -1.0, 1.0))
FRONT_LEFT = View.of("from the front left", (-1.0, -1.0, 1.0))
BACK_RIGHT = View.of("from behind, right", (1.0, 1.0, 1.0))
BACK_LEFT = View.of("from behind, left", (-1.0, 1.0, 1.0))
BELOW = View.of("from the front right and below", (1.0, -1.0, -1.0))
ISOMETRIC = (FRONT_RIGHT, FRONT_LEFT, BACK_RIGHT, BACK_LEFT, BELOW)
PLAN = View.of("from above", (0.0, 0.0, 1.0), (0.0, 1.0, 0.0))
FRONT = View.of("from the front", (0.0, -1.0, 0.0))
SIDE = View.of("from the right", (1.0, 0.0, 0.0))


def as_array(points: Sequence[Vector]) -> Array:
    """Return points as an array (n, 3)."""
    return np.array(points, dtype=np.float64).reshape(-1, 3)
