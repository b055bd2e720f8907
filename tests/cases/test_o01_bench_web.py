"""Case O1: the web between two ends is the seat less two real thicknesses.

Source: 98905.com, "Home repair, woodworking" 80621: seat 60 × 18 in on two panels 18 × 16 flush with its ends, all
boards 0.75 in, one web 8 in high between the panels; the web is 58 1/2 in long and fits exactly.
"""

import pytest

from pieces import build
from scantling.board import patches

IN = 25.4
BENCH = {"width": 60 * IN, "depth": 18 * IN, "height": 16.75 * IN, "web": 8 * IN, "webs": 1}


def test_the_web_is_58_and_a_half():
    piece = build("plain-bench", BENCH, board=0.75 * IN)
    web = piece.parts["web"]
    assert web.length / IN == pytest.approx(58.5)
    assert web.width / IN == pytest.approx(8)
    assert piece.parts["end left"].length / IN == pytest.approx(16)
    for end in ("end left", "end right"):
        (patch, *_) = patches(web, piece.parts[end])
        assert (patch.least_gap, patch.greatest_gap) == pytest.approx((0, 0), abs=0.01)


def test_the_ends_are_flush_with_the_seat():
    piece = build("plain-bench", BENCH, board=0.75 * IN)
    seat, left, right = (piece.parts[i] for i in ("seat", "end left", "end right"))
    assert (left.x0, right.x1) == pytest.approx((seat.x0, seat.x1))


@pytest.mark.parametrize("measured", [0.703, 0.75])
def test_the_name_of_the_board_is_never_used(measured):
    """With the 1 in of its name it would come out 58.0."""
    web = build("plain-bench", BENCH, board=measured * IN).parts["web"]
    assert web.length / IN == pytest.approx(60 - 2 * measured, abs=1e-3)
    assert web.length / IN > 58.2
