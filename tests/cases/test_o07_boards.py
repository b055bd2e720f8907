"""How many 8 in blocks an 8 ft board gives: the kerf takes one.

Source: oklahoman.com, Paul Bianchina, "Calculating lumber cuts can be tricky", 15 June 2019: plain division says 12,
the saw's 1/8 in says otherwise. floor((96 + 0.125) / (8 + 0.125)) = 11; after eleven cuts 6.625 in are left.
"""

from math import floor

from scantling.nesting.boards import nest_boards
from scantling.nesting.checker import check_nesting
from scantling.nesting.nouns import Cutting, Job, Piece, Stock

INCH = 2540
KERF = 318  # 1/8 in = 3.175 mm, rounded up to the next 0.01 mm


def boards_for(blocks: int) -> tuple[int, int]:
    """Return how many boards the blocks take and the longest offcut in 0.01 mm."""
    stock = (Stock("board", 96 * INCH, price=60_000),)
    job = Job(
        (Piece("block", 8 * INCH, quantity=blocks),), stock, Cutting(kerf=KERF), 50_000, least_offcut=(5000, 5000)
    )
    nesting = nest_boards(job)
    assert check_nesting(job, nesting) == ()
    assert nesting.proven_minimal
    offcuts = [o.along_x for layout in nesting.layouts for o in layout.offcuts]
    return sum(layout.count for layout in nesting.layouts), max(offcuts, default=0)


def test_eleven_blocks_come_from_one_board_and_twelve_do_not() -> None:
    assert floor((96 + 0.125) / (8 + 0.125)) == 11
    assert boards_for(11)[0] == 1
    assert boards_for(12)[0] == 2


def test_what_is_left_agrees_with_the_source() -> None:
    _, left = boards_for(11)
    assert abs(left / INCH - 6.625) < 11 * 0.005 / 25.4 + 1e-9  # eleven kerfs, each rounded by 0.005 mm at most
