"""The order of assembly: greedy against exhaustive search, every order replayed, drivers against strewn points."""

from itertools import combinations

import numpy as np
import pytest

from dryfit_pieces import bench, block, box, change, corner, empty, post, tray
from scantling.board import Assembly
from scantling.dryfit import Barrel, DryfitSettings, Tool, verify
from scantling.dryfit.access import Reach
from scantling.dryfit.arrays import soup
from scantling.dryfit.disassembly import Puzzle, Screwed, bits, components
from scantling.dryfit.order import Assembling
from scantling.dryfit.overlap import near_pairs, overlaps
from scantling.dryfit.replay import Act, replay
from scantling.dryfit.scene import Scene
from scantling.dryfit.sliding import Sweeps

UP = (0.0, 0.0, 1.0)


def random_puzzle(rng):
    """Up to six parts and seven screws, each screw blocked by a random set of other parts."""
    n = int(rng.integers(3, 7))
    screws, blocked = [], []
    for _ in range(int(rng.integers(2, 8))):
        a, b = rng.choice(n, 2, replace=False)
        screws.append(Screwed(1 << int(a) | 1 << int(b), f"row {len(screws)}"))
        others = [i for i in range(n) if i not in (a, b)]
        blocked.append(sum(1 << i for i in others if rng.random() < 0.35))
    return n, screws, blocked


def exhaustive(n, screws, blocked):
    """Try every sequence of undoing single screws; groups move apart as soon as nothing fastens them."""
    seen = set()

    def search(left):
        if not left:
            return True
        if left in seen:
            return False
        seen.add(left)
        groups = components((1 << n) - 1, [screws[q].parts for q in left])
        for q in left:
            group = next(g for g in groups if g & screws[q].parts)
            if blocked[q] & group == 0 and search(left - {q}):
                return True
        return False

    return search(frozenset(range(len(screws))))


@pytest.mark.parametrize("seed", range(20))
def test_greedy_finds_an_order_exactly_when_one_exists(seed):
    rng = np.random.default_rng(seed)
    feasible = 0
    for _ in range(50):
        n, screws, blocked = random_puzzle(rng)
        puzzle = Puzzle(screws, 1, lambda q, t, b=blocked: b[q], lambda p, r: [UP], lambda g, d: 0)
        puzzle.solve((1 << n) - 1)
        expected = exhaustive(n, screws, blocked)
        assert bool(puzzle.stuck) is not expected
        feasible += expected
    assert 0 < feasible < 50


@pytest.mark.parametrize("seed", range(10))
def test_with_parts_that_hinder_each_other_the_screws_come_out_all_the_same(seed):
    """Which way parts slide must not change which screws can be undone."""
    rng = np.random.default_rng(500 + seed)
    for _ in range(40):
        n, screws, blocked = random_puzzle(rng)
        hinder = [sum(1 << i for i in range(n) if i != k and rng.random() < 0.5) for k in range(n)]

        def slides(group, direction, hinder=hinder):
            found = 0
            for i in bits(group):
                found |= hinder[i]
            return found & ~group

        puzzle = Puzzle(screws, 1, lambda q, t, b=blocked: b[q], lambda p, r: [UP], slides)
        puzzle.solve((1 << n) - 1)
        if not puzzle.trapped:
            assert bool(puzzle.stuck) is not exhaustive(n, screws, blocked)


def scene_of(piece, **settings):
    return Assembling(Scene.of(piece, DryfitSettings(**settings)))


@pytest.mark.parametrize("build", [bench, box, corner, post, tray], ids=lambda b: b.__name__)
def test_replayed_forwards_nothing_is_blocked(build):
    assembling = scene_of(build())
    order = assembling.order()
    acts = [Act(s.to + s.brings, s.fasteners) for s in order.steps]
    assert list(replay(assembling, acts)) == []
    assert sorted(f for a in acts for f in a.fasteners) == sorted(f.id for f in assembling.fasteners)
    assert {p for a in acts for p in a.parts} == set(assembling.scene.index)


def test_a_loose_lid_comes_last_and_goes_on_from_above():
    order = verify(box()).order
    last = order.steps[-1]
    assert last.brings == ("lid",) and last.off == UP and last.fasteners == ()
    assert "loose" in last.text


def test_what_blocks_a_driver_is_named_and_a_longer_bit_gets_there():
    """A wall 20 mm beside the axis: a body of 27 mm radius on a 50 mm bit hits it, on a 150 mm bit it clears it."""
    piece = bench()
    piece.promises = []
    wall = block(piece, "wall", (300, 120), (0, 0, 418)).lay("y", "z").put(x0=9 + 20, y0=0, z0=418)
    piece.glue(wall, piece.parts["seat"])
    assembling = scene_of(piece)
    index = assembling.scene.index["wall"]
    assert assembling.reach.blocked_by(0, 0) >> index & 1
    assert not assembling.reach.blocked_by(0, 1) >> index & 1
    screwed = verify(piece)
    assert screwed.order.feasible  # the wall simply comes after the screws


def test_tools_are_tried_in_the_order_they_are_listed():
    """Two posts one on the other with a 100 mm slot between panels: only the angle head fits, and is named."""
    piece = empty()
    low = piece.part("low", 300, 200, "ply").put(x0=0, y0=0, z0=0)
    high = piece.part("high", 300, 200, "ply").put(x0=0, y0=0, z0=18 + 100)
    end = piece.part("end", 200, 118, "ply").lay("y", "z").put(x1=0, y0=0, z0=18)
    foot = piece.part("foot", 300, 200, "ply").put(x0=0, y0=0, z1=0)
    piece.screws(low, foot, n=2, inset=60, role="clamps", glued=True)
    piece.screws(end, high, n=2, inset=60)
    assembling = scene_of(piece)
    high_bit = 1 << assembling.scene.index["high"]
    assert assembling.reach.blocked_by(0, 0) & high_bit
    assert assembling.reach.blocked_by(0, 1) & high_bit
    assert not assembling.reach.blocked_by(0, 2) & high_bit


@pytest.mark.parametrize("seed", range(6))
def test_no_blocker_of_a_driver_is_missed_or_invented(seed):
    """Points strewn in each barrel: a part that holds one is a blocker; a blocker off by over 8 % holds none."""
    rng = np.random.default_rng(seed)
    piece = Assembly("trial", "", empty().materials)
    for k in range(12):
        part = block(piece, f"b{k}", tuple(rng.uniform(40, 160, 2)), tuple(rng.uniform(-200, 200, 3)))
        for axis in "xyz":
            part.turn(axis, rng.uniform(0, 360), part.bounds()[0])
    source = bench()
    for k in range(10):
        d = rng.normal(size=3)
        d = d / np.linalg.norm(d)
        piece.fasteners[f"S{k}"] = source.fasteners["S1"]
        change(piece, f"S{k}", head=tuple(rng.uniform(-150, 150, 3)), direction=tuple(d))
    fasteners = tuple(piece.fasteners.values())
    barrel = Barrel(0.0, 120.0, 20.0)
    scene = Scene.of(piece, DryfitSettings())
    thick = Reach(scene.soup, fasteners, (Tool("t", "t", (barrel,)),), 0.05)
    fat = Reach(scene.soup, fasteners, (Tool("t", "t", (Barrel(0.0, 120.0, 20.0 * 1.09),)),), -0.2)
    for q, f in enumerate(fasteners):
        inside = points_in_barrel(rng, f, barrel, 6000)
        for i, part in enumerate(scene.parts):
            deep = [
                np.max([inside @ np.array(s.plane.normal) - s.plane.offset for s in c.faces], 0) for c in part.cells()
            ]
            hit = (np.min(deep, axis=0) < -0.06).any()
            if hit:
                assert thick.blocked_by(q, 0) >> i & 1
            if thick.blocked_by(q, 0) >> i & 1:
                assert fat.blocked_by(q, 0) >> i & 1


def points_in_barrel(rng, fastener, barrel, n):
    d = np.array(fastener.direction)
    u = np.cross(d, [1.0, 0, 0] if abs(d[0]) < 0.9 else [0, 1.0, 0])
    u = u / np.linalg.norm(u)
    v = np.cross(d, u)
    t, r = rng.uniform(barrel.start, barrel.end, n), barrel.radius * np.sqrt(rng.random(n))
    a = rng.uniform(0, 2 * np.pi, n)
    return np.array(fastener.head) - t[:, None] * d + (r * np.cos(a))[:, None] * u + (r * np.sin(a))[:, None] * v


@pytest.mark.parametrize("seed", range(4))
def test_a_sweep_agrees_with_moving_in_small_steps(seed):
    """Brute force: one body carried along a line in steps of 6 mm, each tried for overlap."""
    rng = np.random.default_rng(seed)
    piece = empty()
    for k in range(5):
        part = block(piece, f"b{k}", tuple(rng.uniform(40, 120, 2)), tuple(rng.uniform(-200, 200, 3)))
        if rng.random() < 0.5:
            part.turn("xyz"[k % 3], rng.uniform(0, 90), part.bounds()[0])
    scene = Scene.of(piece, DryfitSettings())
    d = rng.normal(size=3)
    d = tuple(d / np.linalg.norm(d)) if seed % 2 else UP
    fine, coarse = Sweeps(scene.soup, 0.05), Sweeps(scene.soup, 6.0)
    for i, j in combinations(range(len(scene.parts)), 2):
        met = runs_into(scene.parts[i], scene.parts[j], d)
        if met:
            assert fine.blocked_by(i, d) >> j & 1
        elif fine.blocked_by(i, d) >> j & 1:  # stepped over: only a graze thinner than the step may differ
            assert not coarse.blocked_by(i, d) >> j & 1


def runs_into(moving, still, d):
    start = moving.frame
    try:
        for step in np.arange(0.0, 600.0, 6.0):
            moving._place(start.moved(tuple(step * c for c in d)))
            arrays = soup([moving, still])
            if overlaps(arrays, *near_pairs(arrays, 0.0), 0.05):
                return True
        return False
    finally:
        moving._place(start)
