"""Overlaps against plain geometry, a general-purpose solid library (manifold3d) and brute-force sampling."""

from itertools import combinations
from math import radians, sin

import manifold3d
import numpy as np
import pytest

from dryfit_pieces import ROLES, block, empty
from scantling.board import Part, patches
from scantling.dryfit.arrays import soup
from scantling.dryfit.contacts import contacts
from scantling.dryfit.distance import parts_distance
from scantling.dryfit.overlap import near_pairs, overlaps, separation


def found(parts, fit=0.05):
    arrays = soup(parts)
    return {(o.a, o.b): o for o in overlaps(arrays, *near_pairs(arrays, 1.0), fit)}


def random_parts(rng, n=6, spread=220.0, turned=True):
    """Boards with mitres, bevels and notches, placed and turned at random so that many of them cross."""
    parts = []
    for i in range(n):
        part = Part(f"p{i}", f"p{i}", ROLES["ply"], *rng.uniform(60, 260, 2), rng.uniform(9, 40))
        if rng.random() < 0.4:
            part.saw("end", mitre=rng.uniform(0, 40), bevel=rng.uniform(0, 40))
        if rng.random() < 0.4:
            part.notch((0, part.length * 0.3), (0, part.width * 0.4))
        if rng.random() < 0.2:
            part.groove(part.width * 0.5, width=6, depth=4)
        if turned:
            for axis in "xyz":
                part.turn(axis, rng.uniform(0, 360) if rng.random() < 0.5 else 90 * rng.integers(4), (0, 0, 0))
        parts.append(part.shift(tuple(rng.uniform(0, spread, 3))))
    return parts


def solid(part):
    """Return the part as a union of convex hulls in manifold3d."""
    hulls = [manifold3d.Manifold.hull_points([list(c) for c in cell.corners]) for cell in part.cells()]
    return manifold3d.Manifold.batch_boolean(hulls, manifold3d.OpType.Add) if len(hulls) > 1 else hulls[0]


def test_depth_is_the_shortest_way_out():
    piece = empty()
    a = block(piece, "a", (100, 60), (0, 0, 0))
    b = block(piece, "b", (100, 60), (93, 10, 4))
    (overlap,) = found([a, b]).values()
    assert overlap.depth == pytest.approx(7)
    assert overlap.volume == pytest.approx(7 * 50 * 14)
    assert overlap.at == pytest.approx((96.5, 35, 11))


def test_a_corner_pushed_into_a_face_is_as_deep_as_its_tip():
    """A square block on its edge, sunk by 3 mm into a flat board: the depth is 3 mm, whatever its size."""
    piece = empty()
    flat = block(piece, "flat", (300, 300), (0, 0, 0))
    edge = block(piece, "edge", (100, 18), (100, 100, 0)).turn("x", 45, (0, 100, 0))
    edge.shift((0, 0, 18 - 3 - edge.z0))
    (overlap,) = found([flat, edge]).values()
    assert overlap.depth == pytest.approx(3)


def test_crossed_edges_are_parted_by_no_face():
    """Two boards standing on edge, turned 45° and crossing like an X in space: only edge by edge axes part them."""
    piece = empty()
    a = block(piece, "a", (400, 18), (-200, -9, -9)).turn("x", 45, (0, 0, 0))
    b = block(piece, "b", (400, 18), (-200, -9, -9)).turn("x", 45, (0, 0, 0)).turn("z", 90, (0, 0, 0))
    b.shift((0, 0, 2 * 9 * 2**0.5 + 1))
    assert not found([a, b])
    arrays = soup([a, b])
    one = np.array([0])
    blocks = next(arrays.pairs_by_block(one, one + 1))
    assert separation(blocks[1], blocks[2], 1e9)[0] == pytest.approx(1)
    b.shift((0, 0, -1.2))
    assert next(iter(found([a, b]).values())).depth == pytest.approx(0.2)


@pytest.mark.parametrize("shift,caught", [(0.06, True), (0.04, False)])
def test_the_fit_tolerance_is_where_it_says(shift, caught):
    piece = empty()
    a = block(piece, "a", (100, 60), (0, 0, 0))
    b = block(piece, "b", (100, 60), (100 - shift, 0, 0))
    assert bool(found([a, b])) is caught


@pytest.mark.parametrize("seed", range(25))
def test_manifold3d_agrees_on_every_pair(seed):
    """The volume two parts share, by an independent solid modeller; pairs that only graze each other may differ."""
    parts = random_parts(np.random.default_rng(seed))
    ours, solids = found(parts), [solid(p) for p in parts]
    for i, j in combinations(range(len(parts)), 2):
        shared = (solids[i] ^ solids[j]).volume()
        if (i, j) in ours:
            assert ours[i, j].volume == pytest.approx(shared, rel=1e-6, abs=0.01)
        else:
            assert shared < 0.05 * 260 * 260, (i, j)
            assert shared < 1.0 or shared / max(solids[i].surface_area(), 1) < 0.05


@pytest.mark.parametrize("seed", range(10))
def test_no_sampled_point_lies_in_two_parts_unnoticed(seed):
    """Brute force: points strewn over the corner boxes of pairs; none may lie deep in both parts of a quiet pair."""
    rng = np.random.default_rng(seed)
    parts = random_parts(rng)
    ours = found(parts)
    inside = []
    points = rng.uniform(-250, 480, (40000, 3))
    for part in parts:
        in_part = np.zeros(len(points), dtype=bool)
        for cell in part.cells():
            depth = np.max([points @ np.array(f.plane.normal) - f.plane.offset for f in cell.faces], axis=0)
            in_part |= depth < -0.05
        inside.append(in_part)
    for i, j in combinations(range(len(parts)), 2):
        if (inside[i] & inside[j]).any():
            assert (i, j) in ours


@pytest.mark.parametrize("seed", range(8))
def test_contacts_picked_with_arrays_are_those_found_pair_by_pair(seed):
    rng = np.random.default_rng(100 + seed)
    parts = random_parts(rng, n=5, spread=150, turned=False)
    arrays = soup(parts)
    picked = contacts(arrays, *near_pairs(arrays, 1.0), 1.0)
    for i, j in combinations(range(len(parts)), 2):
        assert picked.get((i, j), []) == patches(parts[i], parts[j])


@pytest.mark.parametrize("seed", range(10))
def test_separation_never_exceeds_the_true_distance(seed):
    """The exact distance by corners, faces and edges bounds what separating axes say, and both agree on overlap."""
    rng = np.random.default_rng(200 + seed)
    parts = random_parts(rng, n=4, spread=500)
    arrays = soup(parts)
    for a, b in combinations(range(len(arrays.cells)), 2):
        if arrays.part_of[a] == arrays.part_of[b]:
            continue
        _, first, second = next(arrays.pairs_by_block(np.array([a]), np.array([b])))
        axes = separation(first, second, np.inf)[0]
        if axes > 0:
            i, j = arrays.part_of[a], arrays.part_of[b]
            exact = min(parts_distance(parts[i], parts[j])[0], 1e9)
            solids = solid(parts[i]), solid(parts[j])
            assert exact == pytest.approx(solids[0].min_gap(solids[1], 2000.0), abs=1e-3)
            if len(parts[i].cells()) == len(parts[j].cells()) == 1:
                assert axes <= exact + 1e-9


def test_distance_between_corner_edge_and_face():
    """Plain geometry: face to face, edge to edge over a diagonal, corner to corner over a space diagonal."""
    piece = empty()
    a = block(piece, "a", (100, 60), (0, 0, 0))
    for at, gap in (((105, 0, 0), 5), ((103, 64, 0), 5), ((101, 62, 20), 3)):
        b = block(empty(), "b", (100, 60), at)
        assert parts_distance(a, b)[0] == pytest.approx(gap)
    tilted = block(empty(), "t", (100, 60), (0, 0, 40)).turn("y", 10, (0, 0, 40))
    # turned about its lower left edge the far end sinks by 100 sin 10°
    assert parts_distance(a, tilted)[0] == pytest.approx(22 - 100 * sin(radians(10)))
