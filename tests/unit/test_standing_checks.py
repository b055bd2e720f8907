"""Tipping, racking, floors and tall storage: moments by hand, and findings a woodworker can act on."""

import math

import pytest

from scantling.findings import Severity
from scantling.mechanics.racking import (
    FrameSide,
    check_racking,
    edge_fastener_force,
    open_frame_moment,
    panel_lean,
    panel_resistance,
)
from scantling.mechanics.storage import (
    check_drawers,
    check_filled_drawers,
    check_one_drawer,
    check_tall_storage,
    check_top_push,
)
from scantling.mechanics.tipping import (
    SeatStance,
    check_edge,
    check_level,
    check_overhang,
    check_rear,
    check_tilt,
    edge_capacity,
    lean_angle,
    rear_capacity,
    rear_points,
    rear_push_needed,
    rear_push_needed_bifma,
    tilt_stability,
    wobble,
)
from scantling.mechanics.validity import OutOfValidity


@pytest.mark.parametrize(("a", "w", "b", "h", "answer"), [(265, 250, 330, 700, 345.0), (115, 200, 230, 730, 157.53)])
def test_rear_moments(a, w, b, h, answer):
    """(600 a + W b)/h by hand: (159,000 + 82,500)/700 and (69,000 + 46,000)/730."""
    assert rear_capacity(600, a, w, b, h) == pytest.approx(answer, abs=0.01)


@pytest.mark.parametrize(("s", "w", "b", "answer"), [(40, 200, 250, 144.19), (100, 200, 190, 32.56)])
def test_forward_moments(s, w, b, answer):
    """(600 (60 - s) + W b)/430 by hand."""
    assert edge_capacity(600, 60, s, w, b, 430) == pytest.approx(answer, abs=0.01)


@pytest.mark.parametrize(
    ("height", "push"), [(350, 185.7), (380, 177.1), (400, 171.4), (430, 162.8), (450, 157.1), (720, 80.0), (800, 80.0)]
)
def test_rear_push(height, push):
    """EN 1022 rearward force, from memory: only its own meeting point, 80 N at 720 mm, speaks for it."""
    assert rear_push_needed(height) == pytest.approx(push, abs=0.1)


def test_rear_push_of_office_chairs():
    """ANSI/BIFMA X5.1 rear stability, from memory: 33.0 lbf at 17 in, 20.9 lbf at 28 in."""
    assert rear_push_needed_bifma(17 * 25.4) / 4.448222 == pytest.approx(33.0)
    assert rear_push_needed_bifma(28 * 25.4) / 4.448222 == pytest.approx(20.9)


def test_a_front_edge_that_tips_is_an_error_on_read_figures():
    result = check_edge(SeatStance(100, 200, 430, edge_mm=150))
    assert not result.stands
    found = result.findings()
    assert [(f.code, f.severity) for f in found] == [("tips-forward", Severity.ERROR)]
    assert "Local codes and licensed practice decide" in found[0].message


def test_the_side_has_its_own_code():
    assert check_edge(SeatStance(100, 200, 430, edge_mm=150), side=True).findings()[0].code == "tips-sideways"


def test_narrowly_standing_is_said():
    stance = SeatStance(200, 0.0, 430, load_mm=187.5, push_mm=690)
    result = check_rear(stance)
    assert result.stands and result.marginal
    assert [f.code for f in result.findings()] == ["stands-narrowly"]


def test_chest_with_a_drawer_open():
    """A 60 lb chest, 8 in behind its feet, 50 lb at 10 in ahead: 480 against 500 in lb (moments by hand)."""
    lb_in = 4.448222 * 25.4
    result = check_drawers(60 * 4.448222, 8 * 25.4, ((50 * 4.448222, 10 * 25.4),))
    assert (result.holds - result.needed) * 1000 / lb_in == pytest.approx(-20, abs=1e-6)
    assert [f.code for f in result.findings()] == ["tips-with-drawers"]
    assert check_drawers(60 * 4.448222, 11 * 25.4, ((50 * 4.448222, 10 * 25.4),)).stands
    assert not check_drawers(60 * 4.448222, 11 * 25.4, ((50 * 4.448222, 10 * 25.4),), lean_mm=80).stands


def test_carpet_leans_a_chest():
    """0.43 in over 16 in leans 1.54 degrees (the 0.43 in block is from memory, the geometry is not)."""
    assert lean_angle(0.43, 16) == pytest.approx(1.5395, abs=5e-4)


def test_slope():
    assert tilt_stability(200, 200) == pytest.approx(45)
    assert check_tilt(200, 900).findings() == ()
    assert [f.code for f in check_tilt(100, 900).findings()] == ["tips-on-slope"]


def test_four_feet_rock_and_three_do_not():
    assert [f.code for f in check_level(1.0, 2.0)] == ["rocks-on-floor"]
    assert check_level(1.0, 2.0, feet=3) == check_level(1.0, 2.0, levelled=True) == check_level(0.4, 0.5) == ()
    assert wobble(2, 1000, 500) == (2, 2)


@pytest.mark.parametrize(("height", "drawers", "law"), [(900, True, "16 CFR 1261"), (900, False, "practice")])
def test_tall_storage_goes_to_the_wall(height, drawers, law):
    found = check_tall_storage(height, 40, 200, has_drawers=drawers)
    assert [f.code for f in found] == ["fix-to-wall"]
    assert law in (found[0].source or "")
    assert check_tall_storage(600, 40, 200, has_drawers=drawers) == ()


def test_overhang_without_overhang_stands():
    assert check_overhang(1000, 0, 100, 1000).stands


def test_panel_sums():
    assert panel_lean(250, 1000, 2000, 6, 530) == pytest.approx(250 * 2000 / (530 * 6 * 1000))
    assert edge_fastener_force(250, 1000, 150) == 37.5
    assert panel_resistance(400, 1200, 2400, 150) == pytest.approx(400 * 1200 / 150)
    assert panel_resistance(400, 600, 2400, 150) == pytest.approx(400 * 600 * 0.5 / 150)
    assert open_frame_moment(250, 1800) == pytest.approx(112_500)


def test_racking_words():
    with pytest.raises(ValueError, match="fixed back"):
        check_racking(FrameSide("A plane", 900, 1800, ("hope",)))
    wide = FrameSide("The back", 2400, 1800, ("fixed back",), 3.0, 530, 150)
    assert [f.code for f in check_racking(wide).findings()] == ["back-panel-thin"]


@pytest.mark.parametrize(
    "bad", [lambda: rear_push_needed(50), lambda: tilt_stability(100, 0), lambda: lean_angle(20, 10)]
)
def test_limits_are_named(bad):
    with pytest.raises(OutOfValidity, match="accepted is"):
        bad()


def test_a_seat_leaning_on_its_rear_feet_never_holds_less_than_nothing():
    assert rear_capacity(600, -500, 100, 100, 700) == 0.0
    assert math.isfinite(check_rear(SeatStance(100, 100, 430, load_mm=-500, push_mm=700)).holds)


def test_drawers_by_the_published_loads():
    weight = 60 * 4.448222
    assert check_one_drawer(weight, 8 * 25.4, 10 * 25.4).needed == pytest.approx(50 * 4.448222 * 254 / 1000)
    filled = check_filled_drawers(weight, 203, 500, 400, ((30, 150), (30, 150), (30, 150)))
    assert filled.holds == pytest.approx(weight * (203 - 500 * 0.43 * 25.4 / 400) / 1000)
    assert filled.needed == pytest.approx(3 * 30 / 28.316847 * 8.5 * 4.448222 * 150 / 1000)
    assert [f.severity for f in check_filled_drawers(weight, 203, 500, 400, ((300, 150),)).findings()] == [
        Severity.WARNING
    ]


def test_a_pull_at_the_top():
    assert check_top_push(267, 200, 900).holds == pytest.approx(267 * 200 / 900)
    assert check_top_push(267, 200, 1800).holds == pytest.approx(267 * 200 / (56 * 25.4))
    assert [f.severity for f in check_top_push(150, 150, 1200).findings()] == [Severity.WARNING]


def test_where_a_seat_is_loaded_and_pushed():
    """EN 1022:2018 6.2: 175 mm ahead of the junction, 300 mm above it or the top of the back, the lower one."""
    assert rear_points(430, 90, 900) == (265, 730)
    assert rear_points(430, -60, 600) == (115, 600)
