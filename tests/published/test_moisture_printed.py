"""Moisture and movement against the Wood Handbook and printed examples."""

import pytest

from scantling.mechanics.moisture import (
    density_at,
    equilibrium_moisture,
    equilibrium_moisture_fahrenheit,
    movement,
    movement_by_coefficient,
    shrinkage_to,
    strength_at_moisture,
)

ROW_70F = [
    1.3, 2.5, 3.5, 4.5, 5.4, 6.2, 6.9, 7.7, 8.5, 9.2, 10.1, 11.0, 12.0, 13.1, 14.4, 16.0, 17.9, 20.5, 23.9,
]  # fmt: skip
OTHER = [(30, 50, 9.5), (50, 50, 9.5), (90, 50, 8.9), (90, 65, 11.5), (100, 50, 8.7), (120, 50, 8.2), (140, 55, 8.4)]


@pytest.mark.parametrize(("humidity", "printed"), list(zip(range(5, 100, 5), ROW_70F, strict=True)))
def test_equilibrium_moisture_at_70_f(humidity, printed):
    """Wood Handbook, FPL-GTR-190 (2010), Table 4-2, row of 70 F; the formula is within 0.07 % of the printed cells."""
    assert equilibrium_moisture_fahrenheit(70, humidity / 100) == pytest.approx(printed, abs=0.07)


@pytest.mark.parametrize(("temperature", "humidity", "printed"), OTHER)
def test_equilibrium_moisture_elsewhere(temperature, humidity, printed):
    """Wood Handbook, FPL-GTR-190 (2010), Table 4-2."""
    assert equilibrium_moisture_fahrenheit(temperature, humidity / 100) == pytest.approx(printed, abs=0.07)


def test_equilibrium_moisture_in_celsius():
    """Wood Handbook, FPL-GTR-282 (2021), Eq 4-5, p. 4-3, at 21.1 C and 50 %: 9.24 (an equation value)."""
    assert equilibrium_moisture(21.1, 0.5) == pytest.approx(9.24, rel=1e-3)


@pytest.mark.parametrize("humidity", [0.2, 0.35, 0.5, 0.65, 0.8])
@pytest.mark.parametrize("celsius", [0.0, 10.0, 21.0, 35.0])
def test_equilibrium_moisture_second_opinion(celsius, humidity):
    """Wood Handbook, FPL-GTR-282 (2021), Eq 4-5, as an independent data package computes it."""
    from geotech_references.wood_handbook import moisture_relations as package

    answer = package.equilibrium_moisture_content(celsius, humidity)
    assert equilibrium_moisture(celsius, humidity) == pytest.approx(answer["emc_pct"], rel=1e-6)


def test_red_alder_board():
    """WOOD magazine, September 2021: red alder 8 in, coefficient .0026, 6 % more: 0.1248 in."""
    assert movement_by_coefficient(8 * 25.4, 0.0026, 6, 12) / 25.4 == pytest.approx(0.1248, abs=1e-6)


def test_white_fir_board():
    """Wood Handbook, FPL-GTR-190, chapter 13, worked example: white fir 232 mm from 8 to 11 %: 1.7 mm."""
    assert round(movement_by_coefficient(232, 0.00245, 8, 11), 1) == 1.7
    assert round(movement("white-fir", 232, 8, 11).change_mm, 1) == 1.7


@pytest.mark.parametrize(
    ("wood", "quartered", "printed"),
    [
        ("red-alder", False, 0.00256),
        ("ash", False, 0.00274),
        ("beech", False, 0.00431),
        ("yellow-birch", False, 0.00338),
        ("cherry", False, 0.00248),
        ("red-maple", False, 0.00289),
        ("sugar-maple", False, 0.00353),
        ("red-oak", False, 0.00369),
        ("white-oak", False, 0.00365),
        ("sweetgum", False, 0.00365),
        ("walnut", False, 0.00274),
        ("aspen", False, 0.00234),
        ("basswood", False, 0.0033),
        ("cherry", True, 0.00126),
        ("white-oak", True, 0.0018),
        ("sugar-maple", True, 0.00165),
    ],
)
def test_change_coefficients(wood, quartered, printed):
    """Wood Handbook, FPL-GTR-190 (2010), Table 13-5: share of the width per per cent of moisture content."""
    assert movement(wood, 1000, 8, 9, quartered=quartered).change_mm == pytest.approx(1000 * printed, rel=1e-9)


def test_strength_of_drier_ash():
    """Wood Handbook, FPL-GTR-282 (2021), Eq 5-3, p. 5-34, worked example: white ash at 8 %: 119,500 kPa."""
    assert strength_at_moisture(103_000, 66_000, 8, 24) == pytest.approx(119_500, rel=1e-3)


def test_density_of_ash():
    """Wood Handbook, FPL-GTR-282 (2021), chapter 4: ash of G 0.605 at 12 %: 678 kg/m3."""
    assert round(density_at(0.605, 12)) == 678


def test_shrinkage_formula():
    """Wood Handbook, FPL-GTR-282 (2021), Eq 4-9, p. 4-10, with Table 4-3, p. 4-8: cherry 7.1 % whole, at 8 %."""
    assert shrinkage_to(7.1, 8) == pytest.approx(7.1 * 22 / 30)
    from geotech_references.wood_handbook import moisture_relations as package

    answer = package.shrinkage_at_moisture_content(7.1, 8)
    assert shrinkage_to(7.1, 8) == pytest.approx(answer["shrinkage_pct"], rel=1e-9)
