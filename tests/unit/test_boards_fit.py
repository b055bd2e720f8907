"""Boards filled to the last: what the cuts may be off, and what room for that costs."""

from dataclasses import replace

from scantling.findings import catalogue
from scantling.nesting.boards import nest_boards
from scantling.nesting.nouns import Cutting, Job, Piece, Stock


def four_from(length: int) -> Job:
    """Four of 500 mm and three kerfs of 3 mm want 2009 mm, exactly."""
    return Job((Piece("p", 50_000, quantity=4),), (Stock("b", length, price=5),), Cutting(kerf=300), 10_000)


def test_an_exact_fit_says_what_room_for_the_cuts_would_cost() -> None:
    nesting = nest_boards(four_from(200_900))
    assert (nesting.cost, nesting.proven_minimal) == (5, True)
    (finding,) = nesting.findings
    assert finding.code == "exact-fit"
    assert finding.code in catalogue()
    assert (finding.value, finding.limit) == (0.0, 1.5)
    assert "2 boards instead of 1 (proved least)" in finding.message


def test_the_smallest_change_of_one_part_gives_the_room() -> None:
    """Once something is left over there is a fourth cut, so four half millimetres have to be found in four parts."""
    (finding,) = nest_boards(four_from(200_900)).findings
    assert "make p 0.5 mm shorter" in (finding.remedy or "")
    for change, tight in ((49, True), (50, False)):
        shorter = replace(four_from(200_900), pieces=(Piece("p", 50_000 - change, quantity=4),))
        assert (nest_boards(shorter).findings != ()) is tight


def test_a_board_with_room_is_not_mentioned() -> None:
    assert nest_boards(four_from(201_100)).findings == ()
    assert nest_boards(replace(four_from(200_900), cutting=Cutting(kerf=300, cutting_error=0))).findings == ()


def test_room_that_costs_nothing_is_said_to_be_there() -> None:
    """100 + 100 fill a board, though the second board has room enough for one of them."""
    pieces = (Piece("a", 100_000, quantity=2), Piece("b", 50_000))
    nesting = nest_boards(Job(pieces, (Stock("s", 200_300, price=5),), Cutting(kerf=300), 10_000))
    assert nesting.cost == 10
    (finding,) = nesting.findings
    assert "from as much stock (2, proved least)" in finding.message


def test_a_sloped_first_end_and_facing_ends_that_do_not_agree_count_as_cuts_of_their_own():
    """Two parallelograms: the first end, the shared cut, the last end: three cuts, 0.5 mm each, 1.4 mm left."""
    post = Piece("post", 50_000, quantity=2, start_slope=2000, end_slope=2000)
    job = Job((post,), (Stock("b", 200_000, price=1, board_width=5_000),), Cutting(300), 10_000)
    last = nest_boards(job).layouts[0].placements[-1]
    board = Stock("b", last.x + last.length + 140, price=1, board_width=5_000)
    (finding,) = nest_boards(replace(job, stock=(board,))).findings
    assert (finding.code, finding.value, finding.limit) == ("exact-fit", 1.4, 1.5)
    assert nest_boards(replace(job, stock=(replace(board, length=board.length + 10),))).findings == ()
