"""Case O20: boards of another region (ana-white.com 2x4 outdoor sofa built from 45 x 95; homeownershub.com 430248)."""

import pytest

from scantling.measure import Tape, parse_length
from scantling.mechanics.substitution import laminate, nearest_board, thickness_change

IN = 25.4


def test_parts_between_boards_shrink_by_14():
    change = thickness_change(38, 45, keep="outside")
    assert change.between_mm == -14
    assert change.outside_mm == 0
    assert change.said() == "outside kept: every part between two boards gets 14.0 mm shorter"


def test_or_the_outside_grows_by_14():
    change = thickness_change(38, 45, keep="inside")
    assert (change.between_mm, change.outside_mm) == (0, 14)
    assert change.said().startswith("parts kept")


@pytest.mark.parametrize(
    ("millimetres", "inches"),
    [(90, 3.543), (45, 1.772), (700, 27.559), (70, 2.756), (810, 31.890)],
)
def test_metric_parts_in_inches(millimetres, inches):
    assert parse_length(f"{millimetres} mm") / IN == pytest.approx(inches, abs=5e-4)
    assert Tape.parse("1/16 in").round(millimetres) / IN == pytest.approx(inches, abs=1 / 32)


def test_nearest_board_for_90_by_45():
    near = nearest_board(45, 90)
    assert near is not None
    assert (near.thickness, near.width) == ("2", "4")
    assert near.thicker_mm / IN == pytest.approx(-0.27, abs=0.005)


def test_no_board_for_70_by_70_so_laminate():
    assert nearest_board(70, 70) is None
    layers, off = laminate(70)
    assert [round(t / IN, 2) for t in layers] == [1.0, 1.0, 0.75]
    assert off == pytest.approx(-0.15, abs=0.01)
