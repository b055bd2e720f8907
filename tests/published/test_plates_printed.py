"""Panels resting on four edges against the tables of Roark's Formulas for Stress and Strain, 7th ed., and EN 1993-1-5.

The cells were read in a public scan of pages 507 to 525; Poisson's ratio 0.3 throughout.
"""

import math

import pytest

from scantling.mechanics.plates import (
    four_edges,
    patch_on_four_edges,
    plate_factors,
    plate_stiffness,
    shear_buckling_stress,
)

E, T, B, NU = 10_000.0, 10.0, 1000.0, 0.3
D = plate_stiffness(E, T, NU)

# Table 11.4, case 1a, spread load: a/b, alpha of y = alpha q b^4/(E t^3), beta of s = beta q b^2/t^2
CASE_1A = [
    (1.0, 0.0444, 0.2874),
    (1.2, 0.0616, 0.3762),
    (1.4, 0.0770, 0.4530),
    (1.6, 0.0906, 0.5172),
    (1.8, 0.1017, 0.5688),
    (2.0, 0.1110, 0.6102),
    (3.0, 0.1335, 0.7134),
    (4.0, 0.1400, 0.7410),
    (5.0, 0.1417, 0.7476),
]
# Case 1b, a load on a very small circle in the middle: a/b, alpha of y = alpha W b^2/(E t^3)
CASE_1B = [(1.0, 0.1267), (1.2, 0.1478), (1.4, 0.1621), (1.6, 0.1715), (1.8, 0.1770), (2.0, 0.1805)]
# Case 1c, square panel, a load on a rectangle in the middle: a1/b, b1/b, beta of s = beta W/t^2
CASE_1C = [
    (0.2, 0.2, 1.28),
    (0.2, 0.4, 1.08),
    (0.4, 0.2, 1.07),
    (0.4, 0.4, 0.84),
    (0.6, 0.6, 0.60),
    (0.4, 0.8, 0.62),
    (0.8, 0.4, 0.62),
    (0.8, 0.8, 0.42),
]


@pytest.mark.parametrize(("ratio", "alpha", "beta"), CASE_1A)
def test_a_spread_load_on_four_edges(ratio, alpha, beta):
    bent = four_edges(0.01, B, ratio * B, D)
    assert bent.deflection_mm * E * T**3 / (0.01 * B**4) == pytest.approx(alpha, rel=6e-3)
    assert 6 * bent.moment_a_nmm_per_mm / (0.01 * B**2) == pytest.approx(beta, rel=3e-3)


@pytest.mark.parametrize(("ratio", "alpha"), CASE_1B)
def test_a_load_on_a_point_of_the_middle(ratio, alpha):
    bent = patch_on_four_edges(1000.0, (1.0, 1.0), (ratio * B, B), (D, D), D, NU)
    assert bent.deflection_mm * E * T**3 / (1000.0 * B**2) == pytest.approx(alpha, rel=2e-3)


@pytest.mark.parametrize(("along", "across", "beta"), CASE_1C)
def test_a_load_on_a_patch_of_the_middle(along, across, beta):
    bent = patch_on_four_edges(1000.0, (along * B, across * B), (B, B), (D, D), D, NU)
    worst = max(bent.moment_a_nmm_per_mm, bent.moment_b_nmm_per_mm)
    assert 6 * worst / 1000.0 == pytest.approx(beta, abs=0.0125)  # the table prints two places


def test_a_patch_as_large_as_the_panel_is_the_spread_load():
    # Classical square plate, alpha 0.00406 of q a^4/D
    bent = patch_on_four_edges(0.01 * B * B, (B, B), (B, B), (D, D), D, NU)
    assert bent.deflection_mm * D / (0.01 * B**4) == pytest.approx(0.00406, abs=5e-6)
    assert bent.deflection_mm * D / (0.01 * B**4) == pytest.approx(plate_factors(1.0)[0], rel=1e-3)


@pytest.mark.parametrize(("long", "k"), [(1.0, 9.34), (2.0, 6.34), (1e6, 5.34)])
def test_the_shear_at_which_a_panel_waves(long, k):
    # EN 1993-1-5 Annex A.3: k = 5.34 + 4.00 (hw/a)^2; square 9.34, very long 5.34
    unit = math.pi**2 * E * (T / B) ** 2 / (12 * (1 - 0.3**2))
    assert shear_buckling_stress(E, T, B, min(long * B, 1e6)) / unit == pytest.approx(k, abs=6e-3)
