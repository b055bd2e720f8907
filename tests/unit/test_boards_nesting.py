"""Lengths from boards: exact fits, several boards with prices and limits, defects, trim, groups, honest answers."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.nesting.boards import nest_boards
from scantling.nesting.boards_problem import Bin, Kind, Problem, Solution
from scantling.nesting.boards_remainder import gather_remainder
from scantling.nesting.checker import check_nesting
from scantling.nesting.nouns import Cutting, Grain, Job, Nesting, Piece, Stock, StockGrain, StoppedBy, Trim

MM = 100


def job(
    pieces: tuple[tuple[int, int], ...], stock: tuple[Stock, ...], kerf: int = 300, effort: int = 200_000, **kw: object
) -> Job:
    named = tuple(Piece(f"p{length}", length * MM, quantity=n) for length, n in pieces)
    return Job(named, stock, Cutting(kerf=kerf, **kw), effort)  # type: ignore[arg-type]


def solved(j: Job) -> Nesting:
    nesting = nest_boards(j)
    assert check_nesting(j, nesting) == ()
    return nesting


def test_a_piece_exactly_as_long_as_the_board_needs_no_cut() -> None:
    nesting = solved(job(((2400, 3),), (Stock("b", 2400 * MM, price=1),)))
    assert (nesting.cost, nesting.proven_minimal) == (3, True)


def test_pieces_and_kerfs_that_exactly_fill_a_board_fit_and_a_hundredth_more_does_not() -> None:
    exact = Stock("b", 4 * 50_000 + 3 * 300, price=1)
    assert solved(job(((500, 4),), (exact,))).cost == 1
    assert solved(job(((500, 4),), (replace(exact, length=exact.length - 1),))).cost == 2


def test_trim_comes_off_both_ends() -> None:
    trimmed = job(((1000, 2),), (Stock("b", 2053 * MM, price=1),), trim=Trim(start=25 * MM, end=25 * MM))
    nesting = solved(trimmed)
    assert nesting.cost == 1
    assert [p.x for p in nesting.layouts[0].placements] == [25 * MM, 1028 * MM]


def test_no_piece_touches_a_defect() -> None:
    board = Stock("b", 3000 * MM, price=1, quantity=2, defects=((900 * MM, 950 * MM), (2000 * MM, 2001 * MM)))
    nesting = solved(job(((1040, 2), (880, 2)), (board,)))
    assert nesting.cost == 2
    assert {p.x for layout in nesting.layouts for p in layout.placements} == {0, 950 * MM}


def test_pieces_on_both_sides_of_a_hairline_stay_a_kerf_apart() -> None:
    board = Stock("b", 2000 * MM + 300, price=1, defects=((1000 * MM, 1000 * MM + 1),))
    assert solved(job(((1000, 2),), (board,))).cost == 1


def test_the_cheaper_mix_of_lengths_is_bought() -> None:
    """Five of 1100 mm: two a 2400 mm board, one a 1200 mm board; 2 × 9.00 + 5.00 beats three long ones."""
    stock = (Stock("long", 2400 * MM, price=90_000), Stock("short", 1200 * MM, price=50_000))
    nesting = solved(job(((1100, 5),), stock))
    assert (nesting.cost, nesting.bound, nesting.proven_minimal) == (230_000, 230_000, True)


def test_an_offcut_is_used_where_it_saves_a_board_and_not_where_it_costs_more() -> None:
    board = Stock("new", 2400 * MM, price=100_000)
    offcut = Stock("left", 700 * MM, price=20_000, quantity=1, offcut=True)
    saves = solved(job(((1190, 2), (600, 1)), (board, offcut)))
    assert (saves.cost, saves.proven_minimal) == (120_000, True)
    wasted = solved(job(((1190, 1), (600, 1)), (board, offcut)))
    assert (wasted.cost, wasted.proven_minimal) == (100_000, True)
    assert {layout.stock for layout in wasted.layouts} == {"new"}


def test_limited_boards_are_never_overdrawn() -> None:
    stock = (Stock("cheap", 2400 * MM, price=10, quantity=2), Stock("dear", 2400 * MM, price=30))
    nesting = solved(job(((1100, 7),), stock))
    assert (nesting.cost, nesting.proven_minimal) == (80, True)


def test_without_prices_the_length_bought_is_least() -> None:
    stock = (Stock("ten", 3000 * MM), Stock("eight", 2400 * MM))
    nesting = solved(job(((1450, 2), (2350, 1)), stock))
    assert nesting.cost is None
    assert nesting.objective == 5400 * MM
    assert nesting.proven_minimal


def test_a_piece_on_hand_is_not_bought_when_prices_are_missing() -> None:
    stock = (Stock("new", 1500 * MM), Stock("left", 2400 * MM, quantity=1, offcut=True))
    nesting = solved(job(((1400, 1),), stock))
    assert [layout.stock for layout in nesting.layouts] == ["left"]


def test_what_fits_no_board_is_named_with_the_excess() -> None:
    nesting = solved(job(((2500, 2), (500, 1)), (Stock("b", 2400 * MM, price=1),), trim=Trim(start=1000)))
    (left_out,) = nesting.unplaced
    assert (left_out.part, left_out.quantity, left_out.nearest_stock) == ("p2500", 2, "b")
    assert left_out.excess == (110 * MM, 0)
    assert "110 mm longer" in left_out.reason
    assert (nesting.cost, nesting.proven_minimal) == (1, False)


def test_a_material_nobody_sells_is_named() -> None:
    j = Job((Piece("leg", 50_000, material="ash"),), (Stock("b", 240_000, material="oak", price=1),), Cutting(300), 10)
    nesting = solved(j)
    assert nesting.layouts == ()
    assert "no board of ash" in nesting.unplaced[0].reason


def test_boards_that_run_out_say_what_to_buy() -> None:
    nesting = solved(job(((1100, 5),), (Stock("b", 2400 * MM, price=7, quantity=2),)))
    (left_out,) = nesting.unplaced
    assert (left_out.part, left_out.quantity) == ("p1100", 1)
    assert "1 more of b" in left_out.reason
    assert (nesting.cost, nesting.proven_minimal) == (14, False)
    assert nesting.objective_bound <= nesting.objective


def test_nobody_is_sent_to_buy_an_offcut() -> None:
    stock = (Stock("b", 2400 * MM, price=7, quantity=1), Stock("left", 1200 * MM, price=0, quantity=1, offcut=True))
    nesting = solved(job(((1100, 5),), stock))
    (left_out,) = nesting.unplaced
    assert (left_out.quantity, left_out.nearest_stock) == (2, "b")
    assert "1 more of b" in left_out.reason
    assert "left" not in left_out.reason.replace("is left", "")


def test_a_board_of_which_none_is_there_is_named() -> None:
    stock = (Stock("long", 3000 * MM, price=9, quantity=0), Stock("short", 1000 * MM, price=4))
    (left_out,) = solved(job(((1100, 2),), stock)).unplaced
    assert (left_out.quantity, left_out.nearest_stock) == (2, "long")
    assert "none is left" in left_out.reason


def test_the_bound_for_what_is_placed_is_as_sharp_as_for_a_whole_job() -> None:
    """Three of four are placed, two on the long board and one on the short: proved that it takes both."""
    stock = (Stock("long", 2400 * MM, price=9, quantity=1), Stock("short", 1150 * MM, price=5, quantity=1))
    nesting = solved(job(((1100, 4),), stock))
    assert sum(u.quantity for u in nesting.unplaced) == 1
    assert (nesting.cost, nesting.bound, nesting.proven_minimal) == (14, 14, False)


def test_materials_are_cut_apart_from_each_other() -> None:
    pieces = (Piece("leg", 100_000, quantity=3, material="ash"), Piece("rail", 100_000, quantity=3, material="oak"))
    stock = tuple(Stock(m, 240_000, material=m, price=5) for m in ("ash", "oak"))
    nesting = solved(Job(pieces, stock, Cutting(300), 10_000))
    assert (nesting.cost, nesting.proven_minimal, nesting.stopped_by) == (20, True, StoppedBy.PROOF)


def test_a_group_comes_from_one_board_in_sequence() -> None:
    pieces = (
        Piece("a", 80_000, group="front", quantity=2),
        Piece("b", 60_000, group="front"),
        Piece("filler", 120_000, quantity=2),
    )
    j = Job(pieces, (Stock("s", 240_000, price=1),), Cutting(300), 10_000)
    nesting = solved(j)
    (home,) = [x for x in nesting.layouts if any(p.part == "a" for p in x.placements)]
    assert [p.part for p in home.placements] == ["a", "a", "b"]


def test_a_group_longer_than_any_board_is_left_out_whole() -> None:
    pieces = (Piece("a", 150_000, group="g"), Piece("b", 150_000, group="g"))
    nesting = solved(Job(pieces, (Stock("s", 240_000, price=1),), Cutting(300), 10))
    assert {(u.part, u.quantity) for u in nesting.unplaced} == {("a", 1), ("b", 1)}
    assert "together with its group" in nesting.unplaced[0].reason


def test_grain_across_its_length_cannot_come_from_a_board_with_grain() -> None:
    across = Piece("key", 20_000, grain=Grain.ACROSS)
    assert solved(Job((across,), (Stock("s", 240_000, price=1),), Cutting(300), 10)).unplaced != ()
    plain = Stock("s", 240_000, price=1, grain=StockGrain.NONE)
    assert solved(Job((across,), (plain,), Cutting(300), 10)).unplaced == ()


def test_oversize_is_cut_too() -> None:
    j = Job((Piece("p", 100_000, oversize=500, quantity=2),), (Stock("s", 201_299, price=1),), Cutting(300), 10_000)
    assert solved(j).cost == 2
    assert solved(replace(j, stock=(replace(j.stock[0], length=201_300),))).cost == 1


def test_alike_boards_are_listed_once_with_a_count() -> None:
    pieces = (Piece("leg", 70_000, quantity=30), Piece("post", 70_000, quantity=30))
    nesting = solved(Job(pieces, (Stock("s", 211_000, price=1),), Cutting(300), 10_000))
    assert sum(layout.count for layout in nesting.layouts) == 20
    assert len(nesting.layouts) <= 2


def test_what_is_left_is_gathered_in_one_long_offcut() -> None:
    """Boards of 3000: 1600 + 1000 + 200 (200 left) and 900 + 350 (1750 left). Swapping 350 for 200 leaves 1900."""
    kinds = tuple(Kind(length, 1, (0,)) for length in (1600, 1000, 900, 350, 200))
    problem = Problem(kinds, (Bin("b", 1, None, ((0, 3000),), 3000),))
    spread = Solution((((0, (((0, 1), (1, 1), (4, 1)),)), 1), ((0, (((2, 1), (3, 1)),)), 1)), (0,) * 5)
    gathered = gather_remainder(problem, spread, 300)
    left = sorted(3000 - sum(kinds[k].weight * n for k, n in pattern[0]) for (_, pattern), _ in gathered.boards)
    assert left == [50, 1900]
    assert gathered.rank(problem) == spread.rank(problem)
    assert gather_remainder(problem, spread, 2000) == spread


def test_a_board_emptied_by_gathering_is_not_cut() -> None:
    problem = Problem((Kind(1000, 3, (0,)),), (Bin("b", 1, None, ((0, 3000),), 3000),))
    wasteful = Solution((((0, (((0, 1),),)), 1), ((0, (((0, 2),),)), 1)), (0,))
    assert gather_remainder(problem, wasteful, 300).boards == (((0, (((0, 3),),)), 1),)


def test_a_first_answer_is_given_even_when_time_is_up_at_once() -> None:
    j = job(
        tuple((300 + 71 * i, 3) for i in range(20)), (Stock("a", 2400 * MM, price=7), Stock("b", 3000 * MM, price=9))
    )
    nesting = nest_boards(j, out_of_time=lambda: True)
    assert check_nesting(j, nesting) == ()
    assert (nesting.unplaced, nesting.stopped_by) == ((), StoppedBy.TIME)


def test_nothing_to_cut_costs_nothing() -> None:
    nesting = solved(Job((), (Stock("s", 1000, price=1),), Cutting(), 10))
    assert (nesting.cost, nesting.proven_minimal, nesting.layouts) == (0, True, ())
    nobody = solved(Job((Piece("p", 500, quantity=0),), (Stock("s", 1000, price=1),), Cutting(), 10))
    assert nobody.layouts == ()


def test_free_boards_and_equal_prices_are_no_trouble() -> None:
    stock = (Stock("gift", 100_000, price=0, quantity=1), Stock("a", 240_000, price=5), Stock("b", 240_000, price=5))
    nesting = solved(job(((900, 5),), stock))
    assert (nesting.cost, nesting.proven_minimal) == (10, True)


def test_twenty_thousand_pieces_of_five_kinds_are_placed() -> None:
    nesting = solved(job(tuple((500 + 137 * i, 4000) for i in range(5)), (Stock("b", 2400 * MM, price=1),), effort=1))
    assert sum(len(x.placements) * x.count for x in nesting.layouts) == 20_000
    assert len(nesting.layouts) < 40


lengths = st.integers(min_value=50, max_value=2600)
pieces_of = st.lists(st.tuples(lengths, st.integers(1, 6)), min_size=1, max_size=8, unique_by=lambda p: p[0])
boards_of = st.lists(
    st.builds(
        lambda i, length, price, quantity: Stock(f"s{i}", length * MM, price=price, quantity=quantity),
        st.integers(0, 10_000),
        st.integers(600, 3000),
        st.integers(0, 40),
        st.one_of(st.none(), st.integers(1, 4)),
    ),
    min_size=1,
    max_size=3,
    unique_by=lambda s: s.id,
)


@settings(max_examples=40, deadline=None)
@given(pieces_of, boards_of, st.sampled_from((0, 100, 318)), st.booleans(), st.randoms(use_true_random=False))
def test_random_jobs_are_sound_and_do_not_depend_on_order(pieces, boards, kerf, priced, shuffler) -> None:
    if not priced:
        boards = [replace(b, price=None) for b in boards]
    j = job(tuple(pieces), tuple(boards), kerf=kerf, effort=20_000)
    nesting = solved(j)
    shuffled = list(j.pieces), list(j.stock)
    for part in shuffled:
        shuffler.shuffle(part)
    other = solved(replace(j, pieces=tuple(shuffled[0]), stock=tuple(shuffled[1])))
    assert other == nesting


@settings(max_examples=25, deadline=None)
@given(pieces_of, boards_of)
def test_more_effort_is_never_worse(pieces, boards) -> None:
    j = job(tuple(pieces), tuple(boards))
    ranks = []
    for effort in (0, 300, 3_000, 30_000):
        n = solved(replace(j, effort=effort))
        ranks.append((sum(u.quantity * int(u.part[1:]) for u in n.unplaced), n.objective))
    missing = [r[0] for r in ranks]
    assert missing == sorted(missing, reverse=True)
    complete = [cost for left_out, cost in ranks if left_out == 0]
    assert complete == sorted(complete, reverse=True)


def least_cost_by_trying(lengths: list[int], boards: list[tuple[int, int]], kerf: int) -> int:
    """Cost of the cheapest way to cut a few lengths, by trying every way to share them out over boards in turn."""
    best = sum(max(price for _, price in boards) for _ in lengths)
    for homes in product(range(len(lengths)), repeat=len(lengths)):
        if any(h > max(homes[:i], default=-1) + 1 for i, h in enumerate(homes)):
            continue
        cost = 0
        for home in set(homes):
            need = sum(n + kerf for n, h in zip(lengths, homes, strict=True) if h == home)
            fitting = [price for length, price in boards if length + kerf >= need]
            cost += min(fitting, default=10**9)
        best = min(best, cost)
    return best


@pytest.mark.parametrize(
    ("lengths", "boards"),
    [
        ([700, 700, 500, 500, 300], [(1200, 10), (2000, 15)]),
        ([1100, 900, 800, 600, 300, 200], [(1300, 7), (2400, 13)]),
        ([999, 998, 997, 5, 4], [(1000, 3), (3010, 9)]),
        ([400, 400, 400, 400, 400, 400], [(1206, 5), (810, 3)]),
    ],
)
def test_a_claimed_proof_agrees_with_trying_everything(lengths: list[int], boards: list[tuple[int, int]]) -> None:
    stock = tuple(Stock(f"s{length}", length * MM, price=price) for length, price in boards)
    pieces = tuple(Piece(f"p{i}", n * MM) for i, n in enumerate(lengths))
    nesting = solved(Job(pieces, stock, Cutting(kerf=300), 100_000))
    assert nesting.proven_minimal
    assert nesting.cost == least_cost_by_trying(lengths, boards, 3)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.integers(100, 1900), min_size=1, max_size=6),
    st.lists(st.tuples(st.integers(1900, 3200), st.integers(1, 30)), min_size=1, max_size=3),
)
def test_no_bound_lies_above_what_trying_everything_finds(lengths, boards) -> None:
    stock = tuple(Stock(f"s{i}", length * MM, price=price) for i, (length, price) in enumerate(boards))
    pieces = tuple(Piece(f"p{i}", n * MM) for i, n in enumerate(lengths))
    least = least_cost_by_trying(lengths, boards, 3)
    for effort in (0, 1_000, 50_000):
        nesting = solved(Job(pieces, stock, Cutting(kerf=300), effort))
        assert nesting.bound is not None
        assert nesting.bound <= least <= (nesting.cost or 0)
    assert nesting.proven_minimal


def limited_by_trying(lengths: list[int], boards: list[tuple[int, int, int]]) -> int | None:
    """Cost of the cheapest way when each board is there only so many times, by trying every board for every length."""
    kinds = [(length, price) for length, price, n in boards for _ in range(n)]
    best = None
    for homes in product(range(len(kinds)), repeat=len(lengths)):
        loads = [0] * len(kinds)
        for length, home in zip(lengths, homes, strict=True):
            loads[home] += length + 3
        if any(load > length + 3 for load, (length, _) in zip(loads, kinds, strict=True) if load):
            continue
        cost = sum(price for load, (_, price) in zip(loads, kinds, strict=True) if load)
        best = cost if best is None else min(best, cost)
    return best


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(100, 1900), min_size=1, max_size=5),
    st.lists(st.tuples(st.integers(1900, 3200), st.integers(0, 30), st.integers(1, 2)), min_size=1, max_size=2),
)
def test_limited_boards_agree_with_trying_everything(lengths, boards) -> None:
    stock = tuple(Stock(f"s{i}", n * MM, price=price, quantity=q) for i, (n, price, q) in enumerate(boards))
    pieces = tuple(Piece(f"p{i}", n * MM) for i, n in enumerate(lengths))
    least = limited_by_trying(lengths, boards)
    nesting = solved(Job(pieces, stock, Cutting(kerf=300), 50_000))
    if least is None:
        assert nesting.unplaced
    else:
        assert not nesting.unplaced
        assert (nesting.cost, nesting.proven_minimal) == (least, True)
