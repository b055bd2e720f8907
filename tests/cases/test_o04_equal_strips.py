"""Case: three equal strips from a 48 in sheet, with a 1/8 in saw cut.

A builder of kitchen shelves (nikinnaird.com/kitchen-shelves) found that 16 in is impossible and used 15 7/8.
"""

import pytest

from scantling.measure import FIGURES, counts, parse_length


def test_widest_strip_and_the_step_below_it():
    answer = FIGURES["equal-strips"].answer({"width": "48 in", "count": "3", "kerf": "1/8 in", "tape": "1/32 in"})
    assert answer.value / 25.4 == pytest.approx(15.9167, abs=5e-5)
    assert answer.rows[1][3] == '15 29/32"'


@pytest.mark.parametrize(("strip", "pieces"), [("16 in", 2), ("15 7/8 in", 3), ("15 29/32 in", 3), ("15 15/16 in", 2)])
def test_sixteen_inches_is_impossible(strip, pieces):
    assert counts.pieces_in_length(parse_length("48 in"), parse_length(strip), parse_length("1/8 in")) == pieces
