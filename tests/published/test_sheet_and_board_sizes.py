"""What sheets and boards measure, as printed: PS 1-19 (softwood plywood) and PS 20 (softwood lumber)."""

import pytest

from scantling.tables import UnknownRowError, dressed_size, look_up, material, panel_category

INCH = 25.4


@pytest.mark.parametrize(
    ("category", "least", "most"),
    [
        ("1/4", 0.219, 0.281),
        ("3/8", 0.344, 0.406),
        ("15/32", 0.438, 0.500),
        ("1/2", 0.469, 0.531),
        ("19/32", 0.563, 0.625),
        ("5/8", 0.594, 0.656),
        ("23/32", 0.688, 0.750),
        ("3/4", 0.719, 0.781),
        ("1-1/8", 1.069, 1.181),
    ],
)
def test_plywood_thickness_limits_ps1(category: str, least: float, most: float) -> None:
    """PS 1-19, performance categories: inches as printed."""
    row = panel_category(category)
    assert row.least_mm == pytest.approx(least * INCH)
    assert row.most_mm == pytest.approx(most * INCH)


@pytest.mark.parametrize(
    "category", ["1/4", "11/32", "3/8", "7/16", "15/32", "1/2", "19/32", "5/8", "23/32", "3/4", "13/16"]
)
def test_the_limits_are_a_thirty_second_each_way_ps1(category: str) -> None:
    """PS 1-19: 1/32 in up to 13/16; printed to a thousandth of an inch, so half of that twice."""
    row = panel_category(category)
    tolerance = look_up("panel_tolerances", "value", what="unsanded thickness through 13/16, each way").value
    assert row.most_mm - row.label_mm == pytest.approx(tolerance * INCH, abs=0.001 * INCH)
    assert row.label_mm - row.least_mm == pytest.approx(tolerance * INCH, abs=0.001 * INCH)


@pytest.mark.parametrize("category", ["7/8", "1", "1-1/8", "1-1/4"])
def test_thick_panels_have_five_per_cent_ps1(category: str) -> None:
    row = panel_category(category)
    assert (row.most_mm - row.label_mm) / row.label_mm == pytest.approx(0.05, abs=0.001)


@pytest.mark.parametrize(
    ("nominal", "inches", "printed_mm"),
    [
        ("2", 1.5, 38),
        ("3", 2.5, 64),
        ("4", 3.5, 89),
        ("6", 5.5, 140),
        ("8", 7.25, 184),
        ("10", 9.25, 235),
        ("12", 11.25, 286),
    ],
)
def test_dressed_widths_ps20(nominal: str, inches: float, printed_mm: int) -> None:
    """PS 20, dressed dry: inches and whole millimetres as printed."""
    assert dressed_size("width", nominal).dry_mm == pytest.approx(inches * INCH)
    assert dressed_size("width", nominal).dry_mm == pytest.approx(printed_mm, abs=0.5)


@pytest.mark.parametrize(
    ("nominal", "dry", "green"), [("1", 0.75, 25 / 32), ("1-1/4", 1.0, None), ("2", 1.5, 1.5625), ("4", 3.5, 3.5625)]
)
def test_dressed_thicknesses_ps20(nominal: str, dry: float, green: float | None) -> None:
    row = dressed_size("thickness", nominal)
    assert row.dry_mm == pytest.approx(dry * INCH)
    assert row.green_mm == (None if green is None else pytest.approx(green * INCH))


def test_unknown_sizes_are_refused_with_what_there_is() -> None:
    with pytest.raises(UnknownRowError, match="23/32"):
        panel_category("23/33")
    with pytest.raises(UnknownRowError, match="14"):
        dressed_size("width", "13")


@pytest.mark.parametrize(
    ("name", "printed"),
    [("birch-plywood", 630), ("conifer-plywood", 460), ("c24", 350), ("c16", 310), ("d40", 550), ("osb", 550)],
)
def test_characteristic_densities(name: str, printed: float) -> None:
    """Structural Engineer's Pocket Book p. 266 (plywood), EN 338:2016 (classes), EN 12369-1 (OSB/3), kg/m3."""
    known = material(name).characteristic_density
    assert known is not None
    assert known.value == printed


@pytest.mark.parametrize(
    ("name", "nds", "handbook"),
    [("douglas-fir", 0.50, 0.48), ("white-oak", 0.73, 0.68), ("yellow-poplar", 0.43, 0.42), ("redwood", 0.37, 0.35)],
)
def test_the_bases_of_specific_gravity_stay_apart(name: str, nds: float, handbook: float) -> None:
    """NDS 2018 Table 12.3.3A p. 87 (oven-dry volume) and Wood Handbook Table 5-3b (volume at 12 %)."""
    assert material(name).specific_gravity_nds == nds
    assert material(name).specific_gravity_wh == handbook
