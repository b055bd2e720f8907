"""Common practice, not standards: the sums must come out where workshop rules put them.

Each test says whose rule it is. A rule of thumb that disagrees with a sum would be worth a look, not a proof.
"""

import pytest

from scantling.mechanics.moisture import equilibrium_moisture_fahrenheit, movement_by_coefficient
from scantling.mechanics.seating import Seat, Sitter, check_seat
from scantling.mechanics.shelves import Shelf, check_shelf, shelf_load
from scantling.mechanics.strength import wood_values
from scantling.mechanics.tipping import check_level

IN = 25.4


@pytest.mark.parametrize("material", ["softwood-plywood", "yellow-poplar", "spruce-pine-fir", "white-oak"])
def test_three_quarter_stock_spans_30_to_36_inches(material):
    """Shelf design guidelines (woodworking page): with 20 to 25 lb of books a foot, 30 to 36 in is a practical span.

    The sum lies there or a little further: stiff oak reaches 42 in at the eye's limit of 1/32 in per foot.
    """
    wood = wood_values(material, 0.75 * IN, 11.25 * IN)
    family = "plywood" if "plywood" in material else "softwood"
    result = check_shelf(Shelf(30 * IN, 11.25 * IN, 0.75 * IN, wood, family), shelf_load("books", 11.25 * IN))
    assert 30 <= result.longest_span_mm / IN <= 42
    assert [f.code for f in result.findings()] in ([], ["shelf-creeps"])


def test_particleboard_sags_first():
    """Workshop experience: particleboard and MDF shelves sag long before plywood and solid wood do."""
    spans = {}
    for material, family in (("particleboard", "particleboard"), ("mdf", "fibreboard"), ("birch-plywood", "plywood")):
        wood = wood_values(material, 18, 280)
        spans[material] = check_shelf(Shelf(700, 280, 18, wood, family), shelf_load("books", 280)).longest_span_mm
    assert spans["particleboard"] < spans["mdf"] < spans["birch-plywood"]


@pytest.mark.parametrize(("humidity", "rule"), [(30, 6), (50, 9), (65, 12), (80, 16)])
def test_moisture_by_humidity(humidity, rule):
    """E. Wengert's rule: 30, 50, 65 and 80 % humidity leave wood at about 6, 9, 12 and 16 %."""
    assert equilibrium_moisture_fahrenheit(70, humidity / 100) == pytest.approx(rule, abs=0.5)


def test_a_wide_top_moves_an_eighth_of_an_inch_a_foot():
    """Shop rule: a flat-sawn hardwood top moves about 1/8 in per foot of width between winter and summer."""
    assert movement_by_coefficient(12 * IN, 0.00248, 6, 10) / IN == pytest.approx(0.119, abs=0.001)
    assert movement_by_coefficient(12 * IN, 0.00369, 7, 10) / IN == pytest.approx(1 / 8, abs=0.01)


@pytest.mark.parametrize("height", [16, 17, 18])
@pytest.mark.parametrize("depth", [15.5, 16.5, 17.5])
def test_magazine_chairs_suit(height, depth):
    """WOOD magazine, comfortable seating: seats 16 to 18 in high, 15 to 18 deep, 16 to 20 wide."""
    chair = Seat("dining", height * IN, depth * IN, 19 * IN, tilt_deg=5, seat_to_back_deg=105)
    assert [b.what for b in check_seat(chair).bands if not b.suits] == []


def test_a_deep_lounge_wants_a_back_cushion():
    """Sofa trade: 24 in is a lounge depth; with a 6 in back cushion 18 in are left and suit, of 27 in 21 are left."""
    for depth, cushion, suits in ((24, 0, False), (24, 6, True), (27, 6, False)):
        seat = Seat("lounge", 300, depth * IN, 600, cushion_mm=127, back_cushion_mm=cushion * IN)
        band = next(b for b in check_seat(seat).bands if b.what == "depth to sit on")
        assert band.suits is suits


def test_a_household_of_one_is_believed():
    """Practice: the sitter's own sizes rule over any table of percentiles."""
    tall = Sitter("Tall", knee_back_mm=500, seat_depth_mm=560, hip_mm=380)
    chair = Seat("dining", 500, 470, 560)
    assert check_seat(chair, (tall,)).findings() == ()
    assert check_seat(chair).findings() != ()


def test_a_millimetre_is_felt():
    """Practice: a table that rocks by more than about a millimetre is felt."""
    assert check_level(0.5, 0.5) == ()
    assert [f.code for f in check_level(0.5, 1.0)] == ["rocks-on-floor"]
