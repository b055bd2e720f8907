"""Bolts: printed holes and nuts, and lengths worked out from them.

Sources: ISO 273:1979, clearance holes, medium series H13 (as printed by a fastener supplier); BS EN ISO 4032:2001,
Hexagon nuts style 1, Table 1, m max. Washers (ISO 7089) and preferred lengths (ISO 4014/4017) are from memory.
"""

import pytest

from scantling.findings import Severity
from scantling.mechanics.bolts import bolt_play, bolt_size, bolt_sizes, bolt_through, check_bolt
from scantling.tables import look_up

HOLES = {"M5": 5.5, "M6": 6.6, "M8": 9.0, "M10": 11.0, "M12": 13.5}
NUTS = {"M5": 4.7, "M6": 5.2, "M8": 6.8, "M10": 8.4, "M12": 10.8}


@pytest.mark.parametrize("size", HOLES)
def test_holes_and_nuts_as_printed(size):
    assert look_up("bolts", "value", size=size, item="hole").value == HOLES[size]
    assert look_up("bolts", "value", size=size, item="nut").value == NUTS[size]
    assert bolt_size(HOLES[size]) == size
    assert bolt_play(size, HOLES[size]) == pytest.approx(HOLES[size] - float(size[1:]))


def test_the_walk_covers_the_table():
    assert set(bolt_sizes()) == set(HOLES)


def test_a_hole_of_no_series_is_for_no_bolt():
    assert bolt_size(8.0) is None
    assert bolt_size(9.2) == "M8"


@pytest.mark.parametrize(
    ("stack", "length", "past"), [(35.56, 50, 4.44), (36.0, 50, 4.0), (39.1, 55, 5.9), (76, 90, 4)]
)
def test_the_shortest_bolt_that_reaches_past_its_nut(stack, length, past):
    """M8: wood + 2 washers of 1.6 + a nut of 6.8 = wood + 10.0 mm, and 1 mm past the nut (worked out)."""
    bolt = bolt_through("M8", stack)
    assert (bolt.length_mm, bolt.past_nut_mm) == (length, pytest.approx(past))
    assert bolt.words == f"M8 x {length} bolt with two washers and a nut"
    assert check_bolt("a joint", "M8", stack) == ()


def test_no_bolt_goes_through_a_beam():
    assert bolt_through("M8", 160) is None
    (found,) = check_bolt("a joint", "M8", 160)
    assert found.code == "joint-without-bolt"
    assert found.severity is Severity.WARNING  # lengths sold are from memory


def test_a_bolt_far_too_long_for_a_veneer_is_said():
    """M5 through 1 mm takes 1 + 2 + 4.7 = 7.7 mm; the shortest sold is 20 and stands 12.3 past, which is let be."""
    assert bolt_through("M5", 1.0).past_nut_mm == pytest.approx(12.3)
    assert check_bolt("a joint", "M5", 1.0) == ()
