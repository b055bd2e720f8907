"""Every shipped module against points strewn at random: no driver's blocker is missed, and no shared space."""

from itertools import combinations, product

import numpy as np
import pytest

from pieces import MODULES, build
from scantling.dryfit import DryfitSettings
from scantling.dryfit.access import Reach
from scantling.dryfit.scene import Scene

IN_BARREL = 150
IN_PART = 400
NOOKED = ("cabinet", "chair", "leaning-seat", "storage-footstool", "work-table")
DEEP_MM = 0.06  # a point this deep in a part is in it whatever the arithmetic


def depths(points, part):
    """Return how deep points (n, 3) lie in a part, mm: negative inside, over all of its cells."""
    cells = [
        np.max([points @ np.array(f.plane.normal) - f.plane.offset for f in c.faces], axis=0) for c in part.cells()
    ]
    return np.min(cells, axis=0)


def in_barrel(rng, fasteners, barrel):
    """Return points (screws, n, 3) strewn in the barrel behind every head, worked out from the axis anew."""
    heads, d = (np.array([getattr(f, name) for f in fasteners])[:, None] for name in ("head", "direction"))
    across = rng.normal(size=(len(fasteners), IN_BARREL, 3))
    across -= (across * d).sum(axis=2, keepdims=True) * d
    across /= np.linalg.norm(across, axis=2, keepdims=True)
    back = rng.uniform(barrel.start, barrel.end, (len(fasteners), IN_BARREL, 1))
    out = barrel.radius * np.sqrt(rng.random((len(fasteners), IN_BARREL, 1)))
    return heads - back * d + out * across


@pytest.mark.parametrize("id", MODULES)
def test_no_blocker_of_any_driver_on_any_screw_is_missed(id):
    rng, scene = np.random.default_rng(7), Scene.of(build(id), DryfitSettings())
    reach = Reach(scene.soup, scene.fasteners, scene.settings.tools, scene.settings.fit)
    hits = 0
    for t, tool in enumerate(scene.settings.tools):
        for barrel in tool.barrels:
            points = in_barrel(rng, scene.fasteners, barrel)
            for i, part in enumerate(scene.parts):
                deep = depths(points.reshape(-1, 3), part).reshape(points.shape[:2])
                for q in np.flatnonzero((deep < -DEEP_MM).any(axis=1)):
                    hits += 1
                    assert reach.blocked_by(int(q), t) >> i & 1, (scene.fasteners[q].id, tool.id, part.id)
    assert hits > 0 or id not in NOOKED  # the pieces without a nook have no blocker to miss


@pytest.mark.parametrize("id", MODULES)
def test_no_point_of_a_part_lies_in_another(id):
    rng, piece = np.random.default_rng(3), build(id)
    parts = list(piece.parts.values())
    inside = []
    for part in parts:
        low, high = part.bounds()
        points = rng.uniform(low, high, (IN_PART, 3))
        inside.append(points[depths(points, part) < -DEEP_MM])
    for (p, one), (q, other) in combinations(zip(inside, parts, strict=True), 2):
        assert not (depths(p, other) < -DEEP_MM).any() and not (depths(q, one) < -DEEP_MM).any(), (one.id, other.id)


@pytest.mark.parametrize("id", MODULES)
def test_where_points_find_shared_space_the_dry_fit_does_too(id):
    """Every part in turn is shifted by 3 mm along its own thickness, both ways: what points find, the dry fit has."""
    rng, piece = np.random.default_rng(5), build(id)
    found = 0
    for part, way in product(list(piece.parts.values())[:12], (3.0, -3.0)):
        push = way * np.array(part.frame.through)
        part.shift(tuple(push))
        scene = Scene.of(piece, DryfitSettings())
        ours = {frozenset(scene.ids(c[0], c[1])) for c in scene.colliding}
        low, high = part.bounds()
        points = rng.uniform(low, high, (20 * IN_PART, 3))
        points = points[depths(points, part) < -DEEP_MM]
        for other in piece.parts.values():
            if other is not part and points.size and (depths(points, other) < -DEEP_MM).any():
                found += 1
                assert frozenset((part.id, other.id)) in ours, (part.id, other.id)
        part.shift(tuple(-push))
    assert found > 0
