"""Places by rules of thumb a fitter knows; common practice, each worked out beside it."""

import math

import pytest

from scantling.mechanics.place import corner_angle, floor_fall, gap_at_wall
from scantling.tables import look_up


def test_three_four_five_is_square():
    assert corner_angle(3, 4, 5) == pytest.approx(90)
    assert corner_angle(36 * 25.4, 48 * 25.4, 60 * 25.4) == pytest.approx(90)


def test_one_degree_is_about_17_mm_a_metre():
    assert gap_at_wall(89, 1000) == pytest.approx(17.5, abs=0.1)
    assert gap_at_wall(91, 600) == pytest.approx(10.5, abs=0.1)


def test_a_sixteenth_on_the_diagonal_of_3_4_5_feet_is_an_eighth_of_a_degree():
    """d² = a² + b² − 2ab·cos C, so dC = d·dd/(a·b·sin C): 60·(1/16)/(36·48) rad = 0.124°."""
    off = corner_angle(36, 48, 60 + 1 / 16) - 90
    assert off == pytest.approx(math.degrees(60 / 16 / (36 * 48)), abs=0.002)


def test_a_terrace_laid_to_drain_falls_1_to_2_per_cent():
    """10 to 20 mm a metre, so a seat 700 deep stands 7 to 14 mm lower in front: more than feet are ever left."""
    assert floor_fall(3000, 60, 30) == pytest.approx(10)
    assert 700 * floor_fall(3000, 60, 30) / 1000 == pytest.approx(7)


@pytest.mark.parametrize(("size", "over"), [("M6", 0.6), ("M8", 1.0), ("M10", 1.0)])
def test_a_bolt_hole_is_a_millimetre_over(size, over):
    hole = look_up("bolts", "value", size=size, item="hole").value
    assert hole - float(size[1:]) == pytest.approx(over)
