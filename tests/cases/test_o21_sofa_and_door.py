"""Case O21: a sofa 43 in deep and 38 in high through a clear door of 40 in (finestmovers.blogspot.com, 2011)."""

import math

import pytest

from scantling.mechanics.way_in import Way, check_way_in, pass_through, profile_width, sofa_outline

IN = 25.4
DOOR = Way("Front door", 40 * IN, 80 * IN)


def test_upright_it_fails_and_on_its_back_it_passes():
    passage = pass_through(84 * IN, 43 * IN, 38 * IN, DOOR)
    assert passage.passes
    assert passage.how == "lying on its back"
    assert passage.spare_mm == pytest.approx((40 - 38) * IN - IN)


def test_it_is_said():
    found = check_way_in(84 * IN, 43 * IN, 38 * IN, (DOOR,)).findings()
    assert [f.code for f in found] == ["goes-in-tilted"]
    assert "lying on its back" in found[0].message


def test_both_too_big_stands_on_end_under_the_door():
    """Where depth and height both exceed the door, the length standing up is compared with the door's height."""
    narrow = Way("Door", 45 * IN, 80 * IN)
    assert pass_through(70 * IN, 43 * IN, 46 * IN, narrow).passes
    short = Way("Door", 40 * IN, 80 * IN)
    assert not pass_through(78 * IN, 43 * IN, 46 * IN, short).passes
    found = check_way_in(78 * IN, 43 * IN, 46 * IN, (short,)).findings()
    assert [f.code for f in found] == ["will-not-go-in"]


def test_a_turn_behind_the_door_stops_a_long_piece():
    straight = Way("Hall", 34 * IN, 78 * IN)
    turning = Way("Hall", 34 * IN, 78 * IN, turn_mm=34 * IN)
    assert pass_through(90 * IN, 30 * IN, 30 * IN, straight).passes
    assert not pass_through(90 * IN, 30 * IN, 30 * IN, turning).passes


def test_a_sofa_is_narrower_than_its_box_when_tilted():
    """A real sofa has a hollow: its end outline tilted is narrower than depth and height (geometry)."""
    outline = sofa_outline(950, 850, 420, 100)
    assert profile_width(((0, 0), (300, 0), (300, 400), (0, 400))) == pytest.approx(300)
    line = math.hypot(850, 430)  # from the front edge of the seat to the top of the back
    assert profile_width(outline) == pytest.approx((950 * 430 + 420 * 850) / line)
    door = Way("Door", 840, 2000)
    assert [f.code for f in check_way_in(2100, 950, 850, (door,)).findings()] == ["will-not-go-in"]
    tilted = check_way_in(2100, 950, 850, (door,), outline_mm=outline).findings()
    assert [f.code for f in tilted] == ["goes-in-tilted"]
