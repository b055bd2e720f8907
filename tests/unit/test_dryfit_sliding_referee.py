"""What a part runs into when it slides away, against a general-purpose solid library (manifold3d).

A convex body swept along a line is the hull of where it starts and where it ends. What that shares with another body
holds a ball of radius V/A, so more than half the fit of it must be found; and what is found must be shared.
"""

from itertools import permutations

import manifold3d
import numpy as np
import pytest

from dryfit_pieces import ROLES
from scantling.board import Part
from scantling.dryfit.arrays import soup
from scantling.dryfit.overlap import near_pairs, overlaps
from scantling.dryfit.sliding import Sweeps

FIT, FAR = 0.05, 3000.0


def boards(rng, n=7):
    """Boards with bevelled ends, square and tilted, that stand apart or touch."""
    kept = []
    while len(kept) < n:
        part = Part(f"p{len(kept)}", "p", ROLES["ply"], *rng.uniform(60, 260, 2), rng.uniform(9, 40))
        if rng.random() < 0.4:
            part.saw("end", mitre=rng.uniform(0, 40), bevel=rng.uniform(0, 40))
        for axis in "xyz":
            part.turn(axis, rng.uniform(0, 360) if rng.random() < 0.4 else 90 * int(rng.integers(4)), (0, 0, 0))
        part.shift(tuple(rng.uniform(0, 400, 3)))
        if kept and rng.random() < 0.3:
            part.put(z0=kept[-1].z1)
        arrays = soup([*kept, part])
        if not overlaps(arrays, *near_pairs(arrays, 1.0), FIT):
            kept.append(part)
    return kept


def directions(rng):
    turned = rng.uniform(-1, 1, (3, 3))
    return [*np.eye(3), -np.eye(3)[2], *(turned / np.linalg.norm(turned, axis=1)[:, None]), np.array([0.6, 0.8, 0.0])]


@pytest.mark.parametrize("seed", range(12))
def test_a_part_runs_into_what_its_swept_body_shares_space_with(seed):
    rng = np.random.default_rng(seed)
    parts = boards(rng)
    sweeps = Sweeps(soup(parts), FIT)
    corners = [np.array(p.cells()[0].corners) for p in parts]
    solids = [manifold3d.Manifold.hull_points(c.tolist()) for c in corners]
    for d in directions(rng):
        way = (float(d[0]), float(d[1]), float(d[2]))
        for i, j in permutations(range(len(parts)), 2):
            swept = manifold3d.Manifold.hull_points(np.concatenate([corners[i], corners[i] + FAR * d]).tolist())
            shared = swept ^ solids[j]
            blocked = bool(sweeps.blocked_by(i, way) >> j & 1)
            thick = 2 * shared.volume() / shared.surface_area() if shared.volume() > 1e-9 else 0.0
            assert blocked or thick <= FIT, (i, j, way)
            assert thick > 0 or not blocked, (i, j, way)
