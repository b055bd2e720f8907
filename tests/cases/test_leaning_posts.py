"""The demonstration's leaning posts: both ends cut at the lean of 1 in 5, so that posts share cuts on the board.

The check is trigonometry and counting by hand: at 1 in 5 (11.31°) two posts cut from one 3 1/2 in board lie 88.9 / 5 =
17.78 mm inside each other's long points, less what the blade takes. Four posts of 768.43 mm laid as blanks are longer
than what a 10 ft board has between its trims, three of them fit on 8 ft either way.
"""

from math import cos, hypot

import pytest

from demo_plan import demo_plan
from scantling.nesting.boards import nest_boards
from scantling.nesting.checker import check_nesting
from scantling.nesting.nouns import Cutting, Job, Nesting, Piece, Stock, Trim

LENGTH, WIDTH, KERF, TRIM = 76_843, 8_890, 238, 952
EIGHT = Stock("8 ft", 243_840, price=64_000, board_width=WIDTH)
TEN = Stock("10 ft", 304_800, price=83_000, board_width=WIDTH)


def posts(slope: int) -> Nesting:
    piece = Piece("post", LENGTH, quantity=11, start_slope=slope, end_slope=slope)
    job = Job((piece,), (EIGHT, TEN), Cutting(KERF, Trim(TRIM, TRIM), cutting_error=0), 100_000)
    nesting = nest_boards(job)
    assert check_nesting(job, nesting) == ()
    assert nesting.proven_minimal
    return nesting


def test_four_posts_fit_ten_feet_only_because_they_share_cuts():
    room = TEN.length - 2 * TRIM
    joint = KERF * hypot(1, 1 / 5) - WIDTH / 5
    assert 4 * LENGTH + 3 * joint <= room < 4 * LENGTH + 3 * KERF
    assert 3 * LENGTH + 2 * KERF <= EIGHT.length - 2 * TRIM < 4 * LENGTH + 3 * joint


def test_eleven_posts_come_from_two_tens_and_an_eight():
    """By hand: 8 ft gives 3 for 6.40; 10 ft gives 4 for 8.30 sloped, 3 as blanks. 2 × 8.30 + 6.40 against 4 × 6.40."""
    assert posts(1131).cost == 2 * 83_000 + 64_000
    assert posts(0).cost == 4 * 64_000


def test_the_plan_cuts_its_posts_so():
    boards = [x for x in demo_plan()["nesting"]["layouts"] if any(": post" in p["part"] for p in x["placements"])]
    full = [x for x in boards if len(x["placements"]) == 4 and x["length_mm"] == pytest.approx(3048)]
    assert full
    for layout in full:
        assert {(p["start_slope"], p["end_slope"]) for p in layout["placements"]} == {(11.31, 11.31)}
        assert len(layout["cuts"]) == 5  # one end, and one cut behind each post
        assert {c["mitre_deg"] for c in layout["cuts"]} == {11.31}
        assert {c["lie"] for c in layout["cuts"]} == {"as it lies"}
        kerf = layout["cuts"][1]["kerf_mm"]
        assert kerf == pytest.approx(2.38 / cos(0.19740), abs=0.011)  # atan 1/5 = 0.19740; rounded up to 0.01 mm
