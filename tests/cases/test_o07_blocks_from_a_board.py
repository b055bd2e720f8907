"""Case: eight-inch blocks from a 96 in board, with a 1/8 in saw cut.

A newspaper column on calculating lumber (oklahoman.com, 15 June 2019) warns that plain division (96 / 8 = 12) forgets
the saw cuts: eleven come out.
"""

import pytest

from scantling.measure import FIGURES, counts


def test_eleven_blocks_not_twelve():
    answer = FIGURES["pieces-per-board"].answer(
        {"board_length": "96 in", "piece": "8 in", "kerf": "1/8 in", "quantity": "12", "tape": "1/16 in"}
    )
    assert answer.value == 11
    assert answer.rows[1][1] == 2  # boards for twelve blocks
    assert answer.rows[2][1] == pytest.approx(6.625 * 25.4)
    assert '6 5/8"' in answer.text


def test_what_is_left_before_the_last_cut():
    assert counts.left_over(96, 8, 0.125, 11) == pytest.approx(6.625)
    assert pytest.approx(6.75) == 96 - 11 * 8 - 10 * 0.125


def test_a_cut_without_width_gives_twelve():
    answer = FIGURES["pieces-per-board"].answer({"board_length": "96 in", "piece": "8 in", "kerf": "0 mm"})
    assert answer.value == 12
