"""Which way up the work lies: the six attitudes, and whether what is built so far stands in one by itself."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .arrays import Floats
from .scene import Scene

SETTLED_MM = 0.5  # corners this near the lowest one touch the bench
MARGIN_MM = 5.0  # how far inside its footing the centre of gravity must lie to stand without a hand


@dataclass(frozen=True, slots=True)
class Attitude:
    """A way for the work to lie: `down` is the direction of the piece that points to the floor."""

    id: str
    says: str
    down: tuple[float, float, float]


ATTITUDES = (
    Attitude("upright", "as it will stand", (0.0, 0.0, -1.0)),
    Attitude("on-its-back", "on its back", (0.0, 1.0, 0.0)),
    Attitude("on-its-front", "on its front", (0.0, -1.0, 0.0)),
    Attitude("on-its-left-side", "on its left side", (-1.0, 0.0, 0.0)),
    Attitude("on-its-right-side", "on its right side", (1.0, 0.0, 0.0)),
    Attitude("upside-down", "upside down", (0.0, 0.0, 1.0)),
)


class Footing:
    """Tells whether groups of parts stand by themselves; corners and masses of all parts are gathered once."""

    def __init__(self, scene: Scene) -> None:
        self.corners = [np.array([c for cell in p.cells() for c in cell.corners]) for p in scene.parts]
        found = [p.volume_and_centre() for p in scene.parts]
        self.masses = np.array(
            [v * 1e-9 * p.material.density_kg_m3 for (v, _), p in zip(found, scene.parts, strict=True)]
        )
        self.centres = np.array([c for _, c in found])

    def stands(self, parts: Sequence[int], attitude: Attitude) -> bool:
        """Return whether a group of parts (indexes) stands in an attitude without being held."""
        down = np.array(attitude.down)
        points = np.concatenate([self.corners[i] for i in parts])
        depth = points @ down
        resting = points[depth > depth.max() - SETTLED_MM]
        weights = self.masses[list(parts)]
        centre = (weights[:, None] * self.centres[list(parts)]).sum(axis=0) / weights.sum()
        return _inside(_flat(resting, down), _flat(centre[None], down)[0])

    def lowest(self, some: Sequence[int], all_: Sequence[int], attitude: Attitude) -> bool:
        """Return whether some parts reach as far down as all of a group does: they lie on the bench themselves."""
        down = np.array(attitude.down)
        deepest = [float((self.corners[i] @ down).max()) for i in all_]
        own = max(float((self.corners[i] @ down).max()) for i in some)
        return own > max(deepest) - SETTLED_MM


def _flat(points: Floats, down: Floats) -> Floats:
    """Drop the coordinate along `down`, which is an axis."""
    return np.delete(points, int(np.argmax(np.abs(down))), axis=1)


def _inside(footing: Floats, centre: Floats) -> bool:
    """Return whether a point lies inside the hull of others with a margin: no direction leaves them all on one side."""
    angles = np.arange(0.0, 2 * np.pi, np.pi / 36)  # every 5°: coarse, but the margin is coarser
    ways = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    reach = ((footing - centre) @ ways.T).max(axis=0)
    return bool(reach.min() >= MARGIN_MM)
