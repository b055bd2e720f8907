"""Sloped ends on boards against every order and every way to turn the pieces, with plane geometry of its own."""

from dataclasses import replace
from functools import cache
from itertools import pairwise, permutations, product
from math import cos, radians, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.nesting.boards import nest_boards
from scantling.nesting.boards_chain import Rows
from scantling.nesting.boards_ends import Ends, Joints, alike_to_the_saw, lies
from scantling.nesting.checker import check_nesting
from scantling.nesting.nouns import Cutting, Job, Nesting, Piece, Stock, Trim
from sloped_boards import BEVELS, KERF, MM, SLOPES, THICK, WIDTH, board, sloped_pieces


def solved(job: Job) -> Nesting:
    nesting = nest_boards(job)
    assert check_nesting(job, nesting) == ()
    return nesting


def exact_row(pieces: int, length: int, degrees: float) -> int:
    """The length of a row whose joints all agree, by the triangle: blanks less width × tan, kerf / cos."""
    joint = KERF / cos(radians(degrees)) - WIDTH * tan(radians(degrees))
    return int(pieces * length + (pieces - 1) * joint) + pieces  # each joint is rounded up to 0.01 mm at most twice


def test_parallelograms_share_every_cut():
    post = Piece("post", 768 * MM, quantity=3, start_slope=1131, end_slope=1131, thickness=THICK)
    length = exact_row(3, 768 * MM, 11.31)
    assert length < 3 * 768 * MM
    nesting = solved(Job((post,), (board(length),), Cutting(KERF), 10_000))
    assert (nesting.cost, nesting.bound, nesting.proven_minimal) == (1, 1, True)
    too_short = Job((post,), (board(length - 4),), Cutting(KERF), 10_000)
    assert solved(too_short).cost == 2


def test_trapezia_are_turned_end_about_end():
    frame = Piece("frame", 600 * MM, quantity=4, start_slope=4500, end_slope=-4500)
    nesting = solved(Job((frame,), (board(exact_row(4, 600 * MM, 45.0)),), Cutting(KERF), 10_000))
    assert (nesting.cost, nesting.proven_minimal) == (1, True)
    lie = [(p.end_for_end, p.face_down) for p in nesting.layouts[0].placements]
    assert lie[0] == lie[2] != lie[1] == lie[3]


def test_a_left_and_a_right_hand_share_a_cut_only_where_one_may_be_turned_over():
    """Half a turn keeps a slope's sign, turning over changes it."""
    shared = int(1000 * MM + KERF / cos(radians(30)) - WIDTH * tan(radians(30))) + 2
    for one_face, boards in ((False, 1), (True, 2)):
        hands = tuple(Piece(f"{s}", 500 * MM, end_slope=s, one_face=one_face) for s in (3000, -3000))
        nesting = solved(Job(hands, (board(shared),), Cutting(KERF), 20_000))
        assert (nesting.cost, nesting.proven_minimal) == (boards, True)
        assert any(p.face_down for x in nesting.layouts for p in x.placements) is not one_face


def test_one_sloped_end_is_met_by_its_like():
    half = Piece("half", 500 * MM, quantity=2, end_slope=3000, one_face=True)
    shared = KERF / cos(radians(30)) - WIDTH * tan(radians(30))
    length = int(1000 * MM + shared) + 2
    assert solved(Job((half,), (board(length),), Cutting(KERF), 10_000)).cost == 1
    assert solved(Job((half,), (board(length - 4),), Cutting(KERF), 10_000)).cost == 2


def test_a_board_whose_width_is_not_known_saves_nothing():
    post = Piece("post", 500 * MM, quantity=2, start_slope=2000, end_slope=2000)
    apart = 1000 * MM + int(KERF / cos(radians(20))) + 1
    for length, boards in ((apart, 1), (apart - 2, 2)):
        stock = (Stock("b", length, price=1),)
        assert solved(Job((post,), stock, Cutting(KERF), 10_000)).cost == boards


def test_a_bevel_is_shared_through_the_thickness():
    lid = Piece("lid", 300 * MM, quantity=2, start_bevel=4500, end_bevel=4500, thickness=THICK, one_face=True)
    length = int(600 * MM + KERF / cos(radians(45)) - THICK) + 2
    assert solved(Job((lid,), (board(length),), Cutting(KERF), 10_000)).cost == 1


def test_ends_that_cross_on_a_wide_board_are_named():
    wedge = Piece("wedge", 150 * MM, start_slope=4500, end_slope=-4500)
    nesting = solved(Job((wedge,), (board(2400 * MM),), Cutting(KERF), 10_000))
    assert "sloped ends meet" in nesting.unplaced[0].reason


def test_a_group_keeps_its_sequence_and_its_distance():
    pieces = (
        Piece("a", 300 * MM, quantity=2, start_slope=2000, end_slope=2000, group="g"),
        Piece("b", 200 * MM, start_slope=2000, end_slope=-1000, group="g"),
        Piece("c", 250 * MM, quantity=3, start_slope=-1000, end_slope=2000),
    )
    nesting = solved(Job(pieces, (board(900 * MM),), Cutting(KERF), 50_000))
    (home,) = [x for x in nesting.layouts if any(p.part == "a" for p in x.placements)]
    names = "".join(p.part for p in home.placements).replace("c", "")
    assert names in ("aab", "baa")
    assert nesting.proven_minimal


def test_sloped_pieces_stay_clear_of_trim_and_defects():
    post = Piece("post", 400 * MM, quantity=4, start_slope=1500, end_slope=1500)
    stock = board(1800 * MM, defects=((850 * MM, 850 * MM + 100),))
    nesting = solved(Job((post,), (stock,), Cutting(KERF, Trim(10 * MM, 10 * MM)), 20_000))
    assert (nesting.cost, nesting.proven_minimal) == (1, True)


def turned(piece: Piece) -> set[tuple[tuple[float, float], tuple[float, float]]]:
    """Every way the piece may lie as (start, end) planes x = p·y + q·z, by turning the planes' normals about."""

    def plane(slope: int, bevel: int) -> tuple[float, float]:
        return tan(radians(slope / 100)), tan(radians(bevel / 100)) / cos(radians(slope / 100))

    (ps, qs), (pe, qe) = plane(piece.start_slope, piece.start_bevel), plane(piece.end_slope, piece.end_bevel)
    ways = {((ps, qs), (pe, qe)), ((pe, -qe), (ps, -qs))}
    if not piece.one_face:
        ways |= {((-ps, -qs), (-pe, -qe)), ((-pe, qe), (-ps, qs))}
    return ways


def pitch(left: tuple[float, float], right: tuple[float, float]) -> float:
    """The least distance between two long points, found at the four edges of the board."""
    kerf = max(KERF * (1 + p * p + q * q) ** 0.5 for p, q in (left, right))
    edges = [(y, z) for y in (0, WIDTH) for z in (0, THICK)]
    left_reach = max(left[0] * y + left[1] * z for y, z in edges)
    right_reach = min(right[0] * y + right[1] * z for y, z in edges)
    nearest = min((right[0] - left[0]) * y + (right[1] - left[1]) * z for y, z in edges)
    return kerf - nearest + right_reach - left_reach


def shortest_row(pieces: tuple[Piece, ...]) -> float:
    """Try every order and every way to lie."""
    best = float("inf")
    for order in set(permutations(pieces)):
        for ways in product(*(turned(p) for p in order)):
            joints = sum(pitch(a[1], b[0]) for a, b in pairwise(ways))
            best = min(best, sum(p.length for p in order) + joints)
    return best


def subsets(members: tuple[int, ...]) -> list[tuple[int, ...]]:
    return [tuple(m for i, m in enumerate(members) if mask >> i & 1) for mask in range(1 << len(members))]


def fewest_boards(pieces: tuple[Piece, ...], rooms: tuple[int, ...]) -> int | None:
    """Try every way to share the pieces out among the stretches of like boards.

    None where rounding to 0.01 mm might decide.
    """
    loose = tuple(p for p in pieces for _ in range(p.quantity))

    @cache
    def fits(members: tuple[int, ...], room: int) -> bool:
        row = shortest_row(tuple(loose[i] for i in members)) if members else 0
        if abs(row - room) < 3 * len(members):
            raise ArithmeticError
        return row <= room

    def boards_of(left: tuple[int, ...], stretch: int) -> list[tuple[int, ...]]:
        """Every set that one board can hold from a stretch on."""
        if stretch == len(rooms):
            return [()]
        here = [s for s in subsets(left) if fits(s, rooms[stretch])]
        return [s + more for s in here for more in boards_of(tuple(i for i in left if i not in s), stretch + 1)]

    def least(left: tuple[int, ...]) -> int:
        if not left:
            return 0
        sets = {frozenset(s) for s in boards_of(left, 0) if left[0] in s}
        return 1 + min(least(tuple(i for i in left if i not in s)) for s in sets)

    try:
        return least(tuple(range(len(loose))))
    except ArithmeticError:
        return None


@settings(max_examples=60, deadline=None)
@given(sloped_pieces(4), st.integers(500, 1300), st.sampled_from([None, 200, 250]))
def test_the_fewest_boards_are_found_and_the_bound_never_exceeds_them(pieces, length, knot):
    """`knot` mm from the start of every board lies a defect 10 mm wide."""
    knots = () if knot is None else ((knot * MM, (knot + 10) * MM),)
    rooms = (length * MM,) if knot is None else (knot * MM, (length - knot - 10) * MM)
    job = Job(pieces, (board(length * MM, defects=knots),), Cutting(KERF), 60_000)
    nesting = solved(job)
    if nesting.unplaced:
        assert all("sloped ends meet" in u.reason or "clear stretch" in u.reason for u in nesting.unplaced)
        return
    best = fewest_boards(pieces, rooms)
    if best is not None:
        assert nesting.cost == nesting.bound == best
        assert nesting.proven_minimal


@settings(max_examples=60, deadline=None)
@given(sloped_pieces(4))
def test_the_shortest_row_is_the_shortest_of_all_orders(pieces):
    rows = Rows(Joints(KERF, WIDTH, THICK))
    counts: dict[Ends, int] = {}
    for p in pieces:
        ends = alike_to_the_saw(Ends((p.start_slope, p.start_bevel), (p.end_slope, p.end_bevel), p.one_face))
        counts[ends] = counts.get(ends, 0) + p.quantity
    number = sum(counts.values())
    row = rows.row(tuple(sorted(counts.items())))
    found = sum(p.length * p.quantity for p in pieces) + (number - 1) * KERF + row.more
    best = shortest_row(tuple(p for p in pieces for _ in range(p.quantity)))
    assert row.exact
    assert best - 1 <= found <= best + 3 * number


@settings(max_examples=80, deadline=None)
@given(st.lists(st.tuples(SLOPES, SLOPES, st.booleans(), st.integers(1, 9)), min_size=1, max_size=3))
def test_leaving_out_pairs_changes_no_row(sorts):
    """The same row without Euler's shortcut: numbers up to nine tried one by one."""
    rows, plain = Rows(Joints(KERF, WIDTH, THICK)), Rows(Joints(KERF, WIDTH, THICK))
    counts: dict[Ends, int] = {}
    for start, end, one_face, n in sorts:
        ends = alike_to_the_saw(Ends((start, 0), (end, 0), one_face))
        counts[ends] = counts.get(ends, 0) + n
    key = tuple(sorted(counts.items()))
    assert rows.row(key).more == plain._shortest(plain._set(key), 0).cost[0]
    order = rows.order(key)
    joints = rows.joints
    laid = sum(joints.more_than_kerf(a[1].end, b[1].start) for a, b in pairwise(order))
    assert laid == rows.row(key).more
    assert sorted(e for e, _ in order) == sorted(e for e, n in key for _ in range(n))


@given(SLOPES, BEVELS, SLOPES, BEVELS)
def test_no_joint_needs_less_than_the_mean_of_its_ends_at_best(a, b, c, d):
    joints = Joints(KERF, WIDTH, THICK)
    assert joints.more_than_kerf((a, b), (c, d)) >= joints.half_at_best((a, b)) + joints.half_at_best((c, d))


def test_a_piece_lies_in_four_ways_or_with_one_good_face_in_two():
    skew = Ends((1000, 0), (2000, 0))
    assert len(lies(skew)) == 4
    assert len(lies(Ends((1000, 0), (2000, 0), one_face=True))) == 2
    assert alike_to_the_saw(Ends((-2000, 0), (-1000, 0))) == alike_to_the_saw(skew)


@pytest.mark.parametrize("fault", ["nearer", "turned", "over"])
def test_the_checker_finds_a_sloped_piece_that_is_moved_or_turned(fault):
    post = Piece("post", 768 * MM, quantity=3, start_slope=1131, end_slope=1131, one_face=True)
    job = Job((post,), (board(2400 * MM),), Cutting(KERF), 10_000)
    nesting = solved(job)
    first, second, third = nesting.layouts[0].placements
    changed = {
        "nearer": replace(second, x=second.x - 2),
        "turned": replace(second, face_down=True),
        "over": replace(second, end_for_end=True, face_down=True),
    }[fault]
    layout = replace(nesting.layouts[0], placements=(first, changed, third))
    assert check_nesting(job, replace(nesting, layouts=(layout,)))


@settings(max_examples=40, deadline=None)
@given(sloped_pieces(6), st.integers(700, 1500), st.randoms(use_true_random=False))
def test_the_order_of_the_request_changes_nothing_and_more_effort_never_costs_more(pieces, length, draw):
    stock = (board(length * MM), replace(board(1400 * MM, quantity=1), id="left", price=0, offcut=True))
    job = Job(pieces, stock, Cutting(KERF, Trim(5 * MM, 0)), 3_000)
    nesting = solved(job)
    assert solved(replace(job, pieces=tuple(draw.sample(pieces, len(pieces))), stock=stock[::-1])) == nesting
    more = solved(replace(job, effort=60_000))
    assert (sum(u.quantity for u in more.unplaced), more.objective) <= (
        sum(u.quantity for u in nesting.unplaced),
        nesting.objective,
    )
    assert more.objective_bound >= nesting.objective_bound
