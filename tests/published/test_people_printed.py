"""Seats, noise, children and storage against printed figures."""

import pytest

from scantling.mechanics.cautions import noise_minutes
from scantling.mechanics.children import volume_litres
from scantling.mechanics.figures import figure
from scantling.mechanics.loads import people_on
from scantling.mechanics.loads import test_load as published_load
from scantling.mechanics.seating import seat_preset
from scantling.mechanics.upholstery import hard_height, row_breadth


@pytest.mark.parametrize(("level", "minutes"), [(85, 480), (88, 240), (91, 120), (94, 60), (97, 30), (100, 15)])
def test_noise(level, minutes):
    """NIOSH criteria for occupational noise exposure: table of durations, 3 dB exchange."""
    assert noise_minutes(level) == pytest.approx(minutes, abs=0.01)


def test_half_shoulders_of_a_row():
    """S. Pheasant, Bodyspace, section 4.3.10: half shoulder pair, mean 480, deviation 40: 95th percentile 545 mm."""
    assert row_breadth(1, 480, 40, 0.0) == pytest.approx(545, abs=1)


@pytest.mark.parametrize(("count", "width"), [(1, 579), (2, 1126), (3, 1669), (4, 2209)])
def test_rows_of_men(count, width):
    """Pheasant's rule with ANSUR II (2012) men's shoulders, 510.4 (32.5) mm, and 15 mm of clothing each (derived)."""
    assert row_breadth(count, 510.4, 32.5) == pytest.approx(width, abs=1)


def test_hard_seat_under_a_cushion():
    """WOOD magazine, comfortable seating: take half the cushion off: 17 in wanted, 5 in cushion: 14.5 in."""
    assert hard_height(17 * 25.4, 5 * 25.4) / 25.4 == pytest.approx(14.5)


@pytest.mark.parametrize(
    ("use", "test", "force"),
    [
        ("camping", "seat static", 1100),
        ("home", "seat static", 1600),
        ("public", "seat static", 2000),
        ("camping", "front edge static", 1100),
        ("home", "front edge static", 1300),
        ("public", "front edge static", 1300),
        ("home", "arm down", 700),
        ("public", "arm down", 900),
        ("home", "seat and back durability", 1000),
    ],
)
def test_seating_loads(use, test, force):
    """EN 581-2 (2009 text, GOST EN 581-2-2012), table of loads."""
    load = published_load(use, test)
    assert load.force_n == force
    assert load.basis == "test"


@pytest.mark.parametrize(("length", "seats"), [(600, 1), (1000, 2), (1200, 2), (1500, 3), (1800, 3)])
def test_seats_on_a_bench(length, seats):
    """EN 1022:2018 6.2: seats are length over 600 mm, to the nearest whole number."""
    assert people_on(length) == seats


@pytest.mark.parametrize(
    ("kind", "tilt", "back"),
    [("dining", (2, 7), (104, 108)), ("sofa", (4, 7), (106, 112)), ("lounge", (6, 15), (112, 120))],
)
def test_seat_angles(kind, tilt, back):
    """Outdoor and lounge chair makers' tables (trade): tilt and seat to back by kind."""
    assert seat_preset(kind) == {"seat tilt": tilt, "seat to back": back}


@pytest.mark.parametrize(
    ("name", "engine", "unit"),
    [
        ("head-trap-least", 89, 0.5),
        ("head-trap-most", 229, 0.5),
        ("storage-anchor-height", 686, 0.5),
        ("storage-scope-volume", 90.6, 0.05),
        ("accessible-bench-load", 1112, 0.5),
        ("climbing-child-mass", 266.9, 0.1),
    ],
)
def test_figures_in_metric(name, engine, unit):
    """CPSC B.2.5, 16 CFR 1261, ADA 903: inch-pound figures and the metric ones printed beside them."""
    assert figure(name).si == pytest.approx(engine, abs=unit)


def test_chest_volumes():
    """Minnesota Rules 2630.3200: 1.1 ft3 is 0.031 m3; a 48 x 18 x 15 in bench holds 7.50 ft3 (derived)."""
    assert figure("chest-volume").si == pytest.approx(31, abs=0.2)
    assert volume_litres(48 * 25.4, 18 * 25.4, 15 * 25.4) / 28.316847 == pytest.approx(7.5, abs=1e-3)
    assert volume_litres(18 * 25.4, 18 * 25.4, 14 * 25.4) / 28.316847 == pytest.approx(2.625, abs=1e-3)
