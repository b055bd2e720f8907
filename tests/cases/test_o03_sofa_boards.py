"""A published sofa's board list: is it enough, and is anything less enough?

Source: morelikehome.net, "Day 31: build a simple modern sofa with…", October 2012: 2 × 4 pieces 2 at 33, 5 at 71,
16 at 39 and 2 at 27 inches, bought as 9 boards of 120 and 1 of 96 inches. The kerf of 1/8 in is ours.
"""

from dataclasses import replace

from scantling.nesting.boards import nest_boards
from scantling.nesting.checker import check_nesting
from scantling.nesting.nouns import Cutting, Job, Nesting, Piece, Stock

INCH = 2540
TEN = Stock("ten foot", 120 * INCH, material="spruce-pine-fir", thickness=3810)
EIGHT = Stock("eight foot", 96 * INCH, material="spruce-pine-fir", thickness=3810)
PIECES = tuple(
    Piece(name, length * INCH, quantity=n, material="spruce-pine-fir", thickness=3810)
    for name, length, n in (("arm", 33, 2), ("rail", 71, 5), ("cross", 39, 16), ("post", 27, 2))
)


def nested(*stock: Stock) -> Nesting:
    job = Job(PIECES, stock, Cutting(kerf=318), effort=1_000_000)
    nesting = nest_boards(job)
    assert check_nesting(job, nesting) == ()
    return nesting


def test_the_printed_list_is_enough_and_the_least() -> None:
    nesting = nested(replace(TEN, quantity=9), replace(EIGHT, quantity=1))
    assert nesting.unplaced == ()
    assert nesting.proven_minimal
    assert nesting.objective == (9 * 120 + 96) * INCH


def test_nothing_shorter_is_enough_whatever_mix_is_bought() -> None:
    """Free to buy any number of either length, the least is again 9 × 120 + 96: less of both is proven too little."""
    nesting = nested(TEN, EIGHT)
    assert nesting.proven_minimal
    assert nesting.objective_bound == (9 * 120 + 96) * INCH
    assert nesting.objective_bound > 9 * 120 * INCH
    assert nesting.objective_bound > (8 * 120 + 96) * INCH


def test_nine_tens_alone_leave_parts_over_and_ten_are_the_least() -> None:
    short = nested(replace(TEN, quantity=9))
    assert sum(u.quantity for u in short.unplaced) > 0
    assert not short.proven_minimal
    enough = nested(TEN)
    assert enough.proven_minimal
    assert sum(layout.count for layout in enough.layouts) == 10


def test_eight_tens_and_an_eight_leave_parts_over_and_say_so() -> None:
    short = nested(replace(TEN, quantity=8), replace(EIGHT, quantity=1))
    assert short.unplaced
    assert all("more of" in u.reason for u in short.unplaced)
