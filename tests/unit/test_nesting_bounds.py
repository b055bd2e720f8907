"""Bounds and quality of the nesting, against plain reasoning, brute force and a general-purpose library (rectpack)."""

import itertools
import random

import numpy as np
import pytest
import rectpack

from scantling.nesting import Cutting, Grain, Job, Piece, Stock, nest
from scantling.nesting.bounds import QUICK, _functions, lower_bound
from scantling.nesting.sheets import build_problem


def problem(items, stock, kerf=0, grain=Grain.ALONG):
    pieces = tuple(Piece(f"p{i}", a, b, n, grain) for i, (a, b, n) in enumerate(items))
    asked = Job(pieces, tuple(stock), Cutting(kerf=kerf), 1)
    return build_problem(asked, pieces, asked.stock, all(s.price is not None for s in stock))[0]


def sheet(x, y, price=1, quantity=None, name="s"):
    return Stock(name, x, y, price=price, quantity=quantity)


@pytest.mark.parametrize(
    ("items", "sheets"),
    [
        ([(10, 10, 3)], 3),
        ([(5, 5, 9)], 3),  # area: 225 / 100
        ([(6, 6, 5)], 5),  # no two beside each other, whatever their area of 180 / 100
        ([(6, 3, 6)], 2),  # three a sheet; area alone says 108 / 100
        ([(6, 10, 2), (4, 10, 2)], 2),
        ([(4, 4, 9)], 3),  # four a sheet; area alone says 144 / 100
        ([(10, 6, 2), (10, 3, 2), (10, 2, 1)], 3),  # the last has no room beside a 6 and a 3; area alone says 2
    ],
)
def test_sheets_needed_by_plain_reasoning(items, sheets):
    assert lower_bound(problem(items, [sheet(10, 10)])).sheets == sheets


def test_a_piece_that_may_turn_counts_with_its_smaller_volume():
    items = [(9, 4, 4)]  # locked: two rows of one; free the same area may stand two by two
    locked = lower_bound(problem(items, [sheet(10, 10)])).sheets
    free = lower_bound(problem(items, [sheet(10, 10)], grain=Grain.ANY)).sheets
    assert (locked, free <= locked) == (2, True)


@pytest.mark.parametrize("seed", range(40))
def test_whatever_fits_side_by_side_still_fits_under_every_function(seed):
    # by the definition of a dual feasible function, tried on every set of the pieces that fits
    draw = random.Random(seed)
    capacity = draw.randrange(12, 40)
    sizes = np.array(sorted({draw.randrange(1, capacity + 1) for _ in range(6)}), dtype=np.int64)
    counts = np.array([draw.randrange(1, 4) for _ in sizes], dtype=np.int64)
    functions, capacities = _functions(capacity, sizes, counts)
    for taken in itertools.product(*(range(n + 1) for n in counts)):
        if np.dot(taken, sizes) <= capacity:
            assert (functions @ np.array(taken) <= capacities).all()


@pytest.mark.parametrize("seed", range(12))
def test_bound_never_lies_above_a_found_cost(seed):
    draw = random.Random(seed)
    stock = [
        sheet(draw.randrange(60, 140), draw.randrange(40, 90), draw.randrange(20, 90), draw.choice([None, 2]), f"s{i}")
        for i in range(draw.randrange(1, 4))
    ]
    stock.append(sheet(150, 100, 100, None, "large"))
    pieces = tuple(
        Piece(f"p{i}", draw.randrange(10, 90), draw.randrange(8, 70), draw.randrange(1, 4), draw.choice(list(Grain)))
        for i in range(8)
    )
    found = nest(Job(pieces, tuple(stock), Cutting(kerf=2), 30_000))
    assert not found.unplaced or all(u.excess for u in found.unplaced)
    assert 0 < found.bound <= found.cost


@pytest.mark.parametrize("seed", range(10))
def test_cheapest_cover_against_brute_force(seed):
    # one kind that exactly tiles every sheet: the least cost is the least over all counts of sheets with enough room
    draw = random.Random(seed)
    stock = [sheet(10 * n, 10, draw.randrange(n * 5, n * 12), draw.choice([None, 3]), f"s{n}") for n in (2, 3, 5)]
    stock.append(sheet(70, 10, 75, None, "long"))
    wanted = draw.randrange(3, 25)
    room = [s.length // 10 for s in stock]
    most = [
        min(25, s.quantity) if s.quantity is not None else -(-wanted // r) for s, r in zip(stock, room, strict=True)
    ]
    least = min(
        sum(c * s.price for c, s in zip(counts, stock, strict=True))
        for counts in itertools.product(*(range(m + 1) for m in most))
        if sum(c * r for c, r in zip(counts, room, strict=True)) >= wanted
    )
    assert lower_bound(problem([(10, 10, wanted)], stock)).cost == least
    found = nest(Job((Piece("p", 10, 10, wanted),), tuple(stock), Cutting(), 20_000))
    assert (found.cost, found.proven_minimal) == (least, True)


def library_sheets(items, size, turning):
    """The fewest sheets of two good guillotine modes of rectpack."""
    fewest = None
    for algorithm, order in (
        (rectpack.GuillotineBafMinas, rectpack.SORT_PERI),
        (rectpack.GuillotineBlsfLas, rectpack.SORT_SSIDE),
    ):
        packer = rectpack.newPacker(pack_algo=algorithm, sort_algo=order, rotation=turning)
        for a, b, n in items:
            for _ in range(n):
                packer.add_rect(a, b)
        packer.add_bin(*size, count=float("inf"))
        packer.pack()
        fewest = len(packer) if fewest is None else min(fewest, len(packer))
    return fewest


@pytest.mark.parametrize("turning", [False, True])
@pytest.mark.parametrize("seed", range(6))
def test_never_more_sheets_than_the_library(seed, turning):
    draw = random.Random(seed)
    items = [(draw.randrange(15, 110), draw.randrange(10, 80), draw.randrange(1, 3)) for _ in range(30)]
    grain = Grain.ANY if turning else Grain.ALONG
    pieces = tuple(Piece(f"p{i}", a, b, n, grain) for i, (a, b, n) in enumerate(items))
    found = nest(Job(pieces, (sheet(120, 90),), Cutting(), 40_000))
    assert sum(layout.count for layout in found.layouts) <= library_sheets(items, (120, 90), turning)


def test_bulk_demand_reaches_its_bound():
    # 600 each of three sizes that tile 12 x 10 in one way only: 6 x 10, 6 x 5 and 6 x 5 fill a sheet
    pieces = (Piece("a", 6, 10, 600), Piece("b", 6, 5, 1200))
    found = nest(Job(pieces, (sheet(12, 10),), Cutting(), 200_000))
    assert (sum(layout.count for layout in found.layouts), found.proven_minimal) == (600, True)


def test_bulk_demand_by_column_generation():
    # strips of 7, 5 and 3 in 20: rows of 7+7+5, 5+5+5+5, 7+7+3+3, ...; full length, so it is a cutting stock problem in
    # one dimension whose linear bound is the sum of lengths over 20, rounded up
    pieces = (Piece("a", 100, 7, 220), Piece("b", 100, 5, 180), Piece("c", 100, 3, 240))
    found = nest(Job(pieces, (sheet(100, 20),), Cutting(), 400_000))
    least = -(-(220 * 7 + 180 * 5 + 240 * 3) // 20)
    assert least <= sum(layout.count for layout in found.layouts) <= least + 1
    assert len(found.layouts) < 20


@pytest.mark.parametrize("seed", range(8))
def test_the_first_answer_is_told_before_the_careful_bound_which_only_raises_it(seed):
    # the careful bound is the best over more functions, so the answer carries the better of the two
    draw = random.Random(seed)
    items = [(draw.randrange(20, 90), draw.randrange(20, 90), 2) for _ in range(60)]
    pieces = tuple(Piece(f"p{i}", a, b, n, Grain.ANY) for i, (a, b, n) in enumerate(items))
    told = []
    found = nest(Job(pieces, (sheet(100, 100),), Cutting(), 30_000), lambda *now: told.append(now))
    whole = problem(items, [sheet(100, 100)], grain=Grain.ANY)
    quick, careful = lower_bound(whole, QUICK).cost, lower_bound(whole).cost
    shares, costs, bounds = zip(*told, strict=True)
    assert shares[0] < 0.05
    assert bounds[0] == quick
    assert found.bound == max(quick, careful)
    assert list(costs) == sorted(costs, reverse=True)
    assert list(bounds) == sorted(bounds)
