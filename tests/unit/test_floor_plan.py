"""Outlines on a floor plan, each against a figure worked out by hand beside it."""

import math

import pytest

from scantling.mechanics.floor_plan import (
    area,
    clear_in_front,
    distance_to,
    floor_plane,
    kept,
    leaf_clearance,
    overlap_depth,
    unit,
)
from scantling.mechanics.validity import OutOfValidity

SQUARE = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))


def moved(outline, x, y):
    return tuple((a + x, b + y) for a, b in outline)


def test_quarter_turns_are_exact_and_clockwise_as_seen_from_above():
    assert [unit(t) for t in (0, 90, 180, 270, 360, -90)] == [(1, 0), (0, 1), (-1, 0), (0, -1), (1, 0), (0, -1)]
    assert unit(30) == pytest.approx((math.sqrt(3) / 2, 0.5))


def test_a_square_cut_in_half_keeps_half_its_area():
    assert area(SQUARE) == 10_000
    assert area(kept(SQUARE, (50, 50), (1, 0))) == 5_000
    assert area(kept(SQUARE, (0, 0), (1, 1))) == 10_000
    assert kept(SQUARE, (200, 0), (1, 0)) == ()


def test_overlap_is_the_least_way_out():
    """Moved 90 right and 60 down, 10 mm and 40 mm are shared: 10 mm to the side is the shortest way out."""
    assert overlap_depth(SQUARE, moved(SQUARE, 90, 60)) == pytest.approx(10)
    assert overlap_depth(SQUARE, moved(SQUARE, 100, 0)) == pytest.approx(0)
    assert overlap_depth(SQUARE, moved(SQUARE, 150, 0)) == pytest.approx(-50)
    turned = ((50.0, -100.0), (150.0, 0.0), (50.0, 100.0), (-50.0, 0.0))
    assert overlap_depth(SQUARE, moved(turned, 160, 0)) == pytest.approx(-10)
    with pytest.raises(ValueError, match="three corners"):
        overlap_depth(SQUARE, ((0, 0), (1, 1)))


def test_distance_to_an_outline():
    assert distance_to((50, 50), SQUARE) == 0
    assert distance_to((103, 104), SQUARE) == pytest.approx(5)  # 3, 4, 5
    assert distance_to((50, -7), SQUARE) == pytest.approx(7)


def test_a_leaf_meets_what_is_in_its_quarter_alone():
    """Hinge at 0, 0, shut along x, open along y: a square whose nearest corner is at 300, 400 is 500 from the hinge."""
    along, out = (1.0, 0.0), (0.0, 1.0)
    assert leaf_clearance((0, 0), along, out, moved(SQUARE, 300, 400)) == pytest.approx(500)
    assert leaf_clearance((0, 0), along, out, moved(SQUARE, -300, 400)) == math.inf
    assert leaf_clearance((0, 0), along, out, moved(SQUARE, -50, 200)) == pytest.approx(200)


def test_what_stands_straight_ahead_of_a_front():
    front = ((0.0, 0.0), (600.0, 0.0))  # ahead is y
    assert clear_in_front(front, moved(SQUARE, 100, 450)) == pytest.approx(450)
    assert clear_in_front(front, moved(SQUARE, 700, 450)) == math.inf
    assert clear_in_front(front, moved(SQUARE, 100, -450)) == math.inf
    assert clear_in_front(front, moved(SQUARE, 550, 30)) == pytest.approx(30)


def test_a_floor_from_four_readings():
    """10 mm down over 2 m to the right and 6 mm over 3 m to the front: 0.005 and 0.002 mm a mm."""
    readings = [(0, 0, 40), (2000, 0, 50), (0, 3000, 46), (2000, 3000, 56)]
    assert floor_plane(readings) == pytest.approx((0.005, 0.002, 40))


def test_readings_in_one_line_give_no_plane():
    with pytest.raises(OutOfValidity, match="one line"):
        floor_plane([(0, 0, 1), (100, 100, 2), (200, 200, 3)])
    with pytest.raises(ValueError, match="three readings"):
        floor_plane([(0, 0, 1), (100, 100, 2)])
