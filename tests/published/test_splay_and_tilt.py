"""Splayed legs and tilted seats: one printed seat, and vectors in space for the rest."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.measure import splay


def test_back_of_an_easy_chair_from_the_floor():
    """Grandjean's easy chair, quoted second hand (boards.core77.com, thread 21631).

    Seat tilt 26°, seat to back 110°, back at 136° from horizontal.
    """
    assert splay.back_from_floor(26, 110) == 136


def test_rake_of_an_ordinary_chair():
    """The chair page of sizes.com gives tilt 5° and seat to back 105°; the back then leans 20° from plumb."""
    assert splay.back_rake(5, 105) == 20
    assert splay.back_set_off(24, 20) == pytest.approx(24 * np.sin(np.radians(20)))


@given(st.floats(10, 2000), st.floats(0, 1000), st.floats(0, 1000))
def test_a_leg_as_a_vector(height, out, side):
    leg = splay.splay_from_set_out(height, out, side)
    vector = np.array([side, out, height])
    assert leg.length == pytest.approx(np.linalg.norm(vector))
    assert np.cos(np.radians(leg.resultant)) == pytest.approx(height / np.linalg.norm(vector))
    assert leg.front == pytest.approx(np.degrees(np.arctan(out / height)))
    if out > 1e-6 or side > 1e-6:
        along = np.array([np.cos(np.radians(leg.sightline)), np.sin(np.radians(leg.sightline))])
        assert along * np.hypot(out, side) == pytest.approx(vector[:2], abs=1e-6)


def test_from_angles_is_the_other_way_round():
    leg = splay.splay_from_angles(17, 10, 5)
    assert (leg.front, leg.side) == pytest.approx((10, 5))
    # length H·sqrt(1 + tan² a + tan² b), resultant atan sqrt(tan² a + tan² b), sightline atan(tan a / tan b)
    assert leg.length == pytest.approx(17.3262, abs=1e-3)
    assert leg.resultant == pytest.approx(11.1357, abs=1e-3)
    assert leg.sightline == pytest.approx(63.6106, abs=1e-3)


@given(st.floats(300, 500), st.floats(300, 700), st.floats(0, 30))
def test_a_tilted_seat_keeps_its_depth(front, depth, tilt):
    seat = splay.seat_tilt(front, depth, tilt)
    assert np.hypot(seat.run, front - seat.rear_height) == pytest.approx(depth)
    assert np.degrees(np.arctan2(front - seat.rear_height, seat.run)) == pytest.approx(tilt, abs=1e-9)


def test_impossible_legs_are_refused():
    for bad in ((0, 1, 1), (10, -1, 0), (10, 0, -1)):
        with pytest.raises(ValueError, match="height"):
            splay.splay_from_set_out(*bad)
    with pytest.raises(ValueError, match="90"):
        splay.splay_from_angles(10, 90, 0)
