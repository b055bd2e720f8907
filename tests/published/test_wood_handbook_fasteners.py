"""Fasteners by the USDA Wood Handbook, FPL-GTR-282 (2021) and FPL-GTR-190 (2010), chapter 8."""

import pytest

from scantling.mechanics.inch_pound import MM_PER_INCH, N_PER_LB
from scantling.mechanics.validity import OutOfValidity
from scantling.mechanics.withdrawal import ultimate_withdrawal
from scantling.tables import load_table, screw_gauges

# Eq. 8-10 p. 8-10, 8-1 p. 8-2, 8-2a p. 8-4, 8-14 p. 8-12, 8-9 p. 8-10: both printed forms.
PRINTED = {
    "wood screw": (108.25, 15_700, 2.0, 1.0),
    "smooth nail": (54.12, 7_850, 2.5, 1.0),
    "ring nail": (77.57, 11_250, 2.0, 1.0),
    "lag screw": (125.4, 8_100, 1.5, 0.75),
    "drift pin": (45.51, 6_600, 2.0, 1.0),
}


@pytest.mark.parametrize("fastener", PRINTED)
def test_both_printed_forms_of_the_withdrawal_formula_agree(fastener: str) -> None:
    """The SI formula against the printed inch-pound one: 0.1 % (the coefficients are printed to 4 and 3 digits)."""
    si, inch, power_g, power_d = PRINTED[fastener]
    gravity, diameter, length = 0.48, 5.0, 30.0
    by_hand = inch * gravity**power_g * (diameter / MM_PER_INCH) ** power_d * length / MM_PER_INCH * N_PER_LB
    value = ultimate_withdrawal(fastener, gravity, diameter, length)
    assert value == pytest.approx(by_hand, rel=0.001)
    assert value == pytest.approx(si * gravity**power_g * diameter**power_d * length, rel=1e-12)


def test_a_species_off_the_range_is_refused_with_limits_and_source() -> None:
    with pytest.raises(OutOfValidity, match=r"0\.29 to 0\.74.*Wood Handbook"):
        ultimate_withdrawal("wood screw", 0.95, 4.2, 25.0)


@pytest.mark.parametrize(
    ("gauge", "printed_mm"),
    [
        (4, 2.84),
        (5, 3.18),
        (6, 3.51),
        (7, 3.84),
        (8, 4.17),
        (9, 4.50),
        (10, 4.83),
        (12, 5.49),
        (14, 6.15),
        (16, 6.81),
        (18, 7.47),
        (20, 8.13),
        (24, 9.45),
    ],
)
def test_screw_shanks_table_8_9(gauge: int, printed_mm: float) -> None:
    """Table 8-9, p. 8-12 (FPL-GTR-282): millimetres as printed, against the inches of NDS Table L3."""
    assert screw_gauges()[gauge].diameter_mm == pytest.approx(printed_mm, abs=0.0051)


@pytest.mark.parametrize(
    ("nail_si", "nail_inch"), [(50.04, 1440), (62.55, 1800), (69.50, 2000), (76.45, 2200), (94.52, 2720)]
)
def test_nail_coefficients_table_8_4(nail_si: float, nail_inch: int) -> None:
    """Table 8-4, p. 8-6 (FPL-GTR-190): K of p = K D^1.5 in both units; 0.05 %."""
    rows = [row for row in load_table("proportional_lateral").rows if row.number("nail") == nail_si]
    assert rows
    for row in rows:
        assert row.number("nail_inch") == nail_inch
        converted = row.number("nail") * MM_PER_INCH**1.5 / N_PER_LB
        assert converted == pytest.approx(nail_inch, rel=0.0005)


@pytest.mark.parametrize(
    ("column", "si", "inch"),
    [
        ("screw", 23.17, 3360),
        ("screw", 31.99, 4640),
        ("screw", 44.13, 6400),
        ("lag", 23.30, 3380),
        ("lag", 26.34, 3820),
        ("lag", 29.51, 4280),
        ("lag", 34.13, 4950),
    ],
)
def test_screw_and_lag_coefficients_table_8_4(column: str, si: float, inch: int) -> None:
    """Table 8-4, p. 8-6 (FPL-GTR-190): K of p = K D^2 in both units; 0.05 %."""
    row = next(row for row in load_table("proportional_lateral").rows if row.number(column) == si)
    assert row.number(f"{column}_inch") == inch
    assert si * MM_PER_INCH**2 / N_PER_LB == pytest.approx(inch, rel=0.0005)
