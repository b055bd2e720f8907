"""Room, way in, weight, and wood that moves: geometry by hand and findings where they belong."""

import math

import pytest

from scantling.mechanics.moisture import (
    FixedWidth,
    check_gaps,
    check_wet_boards,
    check_width,
    equilibrium_moisture,
    equilibrium_moisture_fahrenheit,
    gap_at,
    groove_depth,
    movement,
    movement_by_coefficient,
    movement_by_shrinkage,
)
from scantling.mechanics.place import (
    Run,
    check_door_swing,
    check_gap_behind,
    check_run,
    check_walkway,
    check_weight,
    corner_angle,
    floor_fall,
    footprint_depth,
    gap_at_wall,
)
from scantling.mechanics.plates import check_panel_buckling
from scantling.mechanics.validity import OutOfValidity
from scantling.mechanics.way_in import Way, pass_through, turn_length
from scantling.tables import UnknownMaterial


def test_corner_from_three_lengths():
    assert corner_angle(300, 400, 500) == pytest.approx(90)
    assert corner_angle(1000, 1000, 1000) == pytest.approx(60)
    assert gap_at_wall(91, 600) == pytest.approx(600 * math.tan(math.radians(1)))
    with pytest.raises(OutOfValidity, match="three sides of a triangle"):
        corner_angle(300, 400, 800)


def test_floor_and_footprint():
    assert floor_fall(3000, 12, 3) == pytest.approx(3)
    assert footprint_depth(700, 500, 20) == pytest.approx(700 + 500 * math.sin(math.radians(20)))
    assert footprint_depth(700, 500, 0, 300) == 1000


def test_the_shortest_of_three_measures_rules():
    run = Run(2010, 2004, 1996, 900)
    assert [f.code for f in check_run(run, 2000).findings()] == ["does-not-fit-place"]
    assert [f.code for f in check_run(run, 1992).findings()] == ["place-fits-narrowly"]
    assert check_run(run, 1980).findings() == ()
    assert [f.code for f in check_run(run, 1980, height_mm=950).findings()] == ["does-not-fit-place"]


def test_walkways_and_doors():
    assert [f.code for f in check_walkway("walkway-main", 700).findings()] == ["walkway-narrow"]
    assert check_walkway("walkway-main", 770).findings() == ()
    with pytest.raises(ValueError, match="bed-foot"):
        check_walkway("catwalk", 700)
    assert [f.code for f in check_door_swing(800, 1200, 500).findings()] == ["door-blocked"]
    assert check_door_swing(800, 1400, 500).findings() == ()
    assert [f.code for f in check_gap_behind(18).findings()] == ["gap-behind"]
    assert check_gap_behind(6).findings() == ()


def test_ladder_round_a_corner():
    """The longest ladder round a square corner of 2 and 1 is (2^(2/3) + 1)^(3/2) = 4.1619 (textbook problem)."""
    assert turn_length(2000, 1000, 0) == pytest.approx(1000 * (2 ** (2 / 3) + 1) ** 1.5, rel=1e-5)
    assert turn_length(1000, 1000, 600) == pytest.approx(2 * math.sqrt(2) * 1000 - 2 * 600, rel=1e-6)
    assert turn_length(1000, 1000, 1000) == 0


def test_upright_is_preferred():
    assert pass_through(700, 600, 1800, Way("Door", 813, 1981)).how == "upright"
    assert pass_through(600, 600, 2100, Way("Door", 813, 1981)).how != "upright"
    assert not pass_through(900, 900, 900, Way("Hatch", 600, 600)).passes


@pytest.mark.parametrize(("mass", "codes"), [(20, []), (30, ["too-heavy-for-one"]), (60, ["too-heavy-for-two"])])
def test_weights(mass, codes):
    assert [f.code for f in check_weight(mass, (mass / 2, mass / 2)).findings()] == codes
    assert all("kg and" in f.message for f in check_weight(mass, (mass / 2, mass / 2)).findings())


def test_two_ways_of_reckoning_movement_agree_in_the_middle():
    """Eq 13-2 and Eq 13-3 of the Wood Handbook are approximations of one another within 6 to 14 %."""
    narrow = movement_by_coefficient(300, 0.00248, 8, 12)
    wide = movement_by_shrinkage(300, 7.1, 8, 12)
    assert narrow == pytest.approx(wide, rel=0.02)


def test_wide_range_falls_back_on_shrinkage():
    assert movement("cherry", 300, 8, 12).way == "coefficient"
    assert movement("cherry", 300, 20, 8).way == "shrinkage"
    assert movement_by_shrinkage(254, 10.5, 20, 8) / 25.4 == pytest.approx(-0.4352, abs=1e-3)
    assert movement_by_shrinkage(300, 7.1, 40, 30) == 0
    with pytest.raises(UnknownMaterial):
        movement("mithril", 300, 8, 12)
    with pytest.raises(OutOfValidity, match="6 to 14"):
        movement_by_coefficient(300, 0.00248, 4, 12)


def top(**changes):
    members = {"title": "The top", "wood": "red-oak", "width_mm": 457.2, "moisture_made": 8.5}
    return FixedWidth(**(members | {"moisture_low": 6, "moisture_high": 11} | changes))


def test_a_wide_top_held_fast_is_found_and_a_slotted_one_is_not():
    fast = check_width(top())
    assert fast.travel_mm / 25.4 == pytest.approx(0.332, abs=0.001)
    assert [f.code for f in fast.findings()] == ["cannot-move"]
    assert "slots or clips" in (fast.findings()[0].remedy or "")
    assert check_width(top(fixing="slotted", room_mm=5)).findings() == ()
    assert [f.code for f in check_width(top(fixing="clips", room_mm=2)).findings()] == ["room-to-move-small"]
    assert check_width(top(width_mm=80)).findings() == ()
    with pytest.raises(ValueError, match="slotted"):
        check_width(top(fixing="prayer"))


def test_a_panel_in_a_groove_stays_in():
    depth, enters = groove_depth(400, "cherry", 9, 6, 12)
    shrinks = 400 * 0.00248 * 3
    assert enters == pytest.approx(5 + shrinks / 2)
    assert depth == pytest.approx(enters + shrinks / 2)


def test_gaps_through_the_year():
    assert gap_at(5, 90, "white-oak", 12, 8) == pytest.approx(5 + 90 * 0.00365 * 4)
    assert [f.code for f in check_gaps(1, 140, "white-oak", 8, 8, 14)] == ["gap-closes"]
    assert [f.code for f in check_gaps(6, 140, "white-oak", 12, 7, 13, most_mm=8)] == ["gap-opens"]
    assert check_gaps(6, 90, "white-oak", 12, 8, 14) == ()


def test_wet_boards():
    found = check_wet_boards("douglas-fir", 140, 19, 9)
    assert [f.code for f in found] == ["wood-too-wet"]
    assert found[0].value == pytest.approx(140 * 10 / (3000 / 7.6 - 30 + 19))
    assert check_wet_boards("douglas-fir", 140, 10, 9) == ()


@pytest.mark.parametrize("humidity", [0.3, 0.5, 0.65, 0.8])
def test_the_books_two_sets_of_constants_agree(humidity):
    celsius = equilibrium_moisture((70 - 32) / 1.8, humidity)
    assert celsius == pytest.approx(equilibrium_moisture_fahrenheit(70, humidity), abs=0.05)
    with pytest.raises(OutOfValidity):
        equilibrium_moisture(21, 1.2)


def test_thin_panels_wave():
    assert [f.code for f in check_panel_buckling("The side", 5, 4500, 4, 900)] == ["panel-buckles"]
    assert check_panel_buckling("The side", 5, 4500, 18, 300) == ()
