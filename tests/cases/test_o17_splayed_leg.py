"""Case: a leg 17 1/2 in long whose foot is set out by 1 1/4 in.

A woodworker's blog (lumberjocks.com, entry 86402) says: just over 4 degrees, the same cut at top and foot.
"""

from math import atan, degrees

import pytest

from scantling.measure import FIGURES


def test_just_over_four_degrees():
    answer = FIGURES["leg-splay"].answer({"height": "17 1/2 in", "out": "1 1/4 in"})
    assert answer.value == pytest.approx(degrees(atan(1.25 / 17.5)), abs=1e-9)
    assert answer.value == pytest.approx(4.09, abs=0.005)
    assert "parallel" in answer.note


def test_setting_out_sideways_too_leans_more_than_either_view_shows():
    answer = FIGURES["leg-splay"].answer({"height": "17 1/2 in", "out": "1 1/4 in", "out_side": "1 1/4 in"})
    lean, front, side = (row[1] for row in answer.rows[:3])
    assert front == side == pytest.approx(4.0856, abs=1e-3)
    assert lean > front
    assert answer.rows[3][1] == pytest.approx(45.0)
