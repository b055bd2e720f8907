"""Columns against printed examples of the NDS method and Euler's load."""

import math
from dataclasses import replace

import pytest

from scantling.mechanics.columns import (
    Leg,
    beam_column,
    check_leg,
    column_stability,
    ec5_column,
    euler_load,
    euler_stress_nds,
    leg_of,
)
from scantling.mechanics.strength import wood_values

IN, PSI, LB = 25.4, 0.006894757, 4.448222


def test_post_of_a_porch():
    """HUD Residential Structural Design Guide, 2nd ed. (2017), example 5.6: 4x4 S-P-F No. 2, 7.3 ft."""
    fc = 1150 * 1.15
    cp = column_stability(euler_stress_nds(510_000, 7.3 * 12 / 3.5), fc)
    assert cp == pytest.approx(0.4378, abs=0.0005)
    assert cp * fc == pytest.approx(579.0, rel=1e-3)
    assert cp * fc * PSI == pytest.approx(3.992, rel=1e-3)
    assert 4800 / (cp * fc * 3.5**2) == pytest.approx(0.677, abs=0.001)


def test_post_of_a_porch_through_the_check():
    """RSDG 2nd ed. (2017), example 5.6 again, through the whole check: use 0.677 at 4,800 lb."""
    leg = Leg(3.5 * IN, 3.5 * IN, 7.3 * 304.8, "pinned", 1150 * 1.15 * PSI, 510_000 * PSI)
    result = check_leg(leg, 4800 * LB)
    assert result.ratio == pytest.approx(0.677, abs=0.001)
    assert result.findings() == ()


def test_built_up_post():
    """Aghayere and Vigil, Structural Wood Design (Wiley 2007), example 5.7: three nailed 2x6 DF-L No. 1, 12 ft."""
    cp = column_stability(euler_stress_nds(620_000, 144 / 4.5), 1500 * 1.1, fastened=0.6)
    assert cp == pytest.approx(0.1679, abs=0.0001)


def test_wall_stud_euler():
    """AWC, Structural Wood Design Solved Example Problems, E1.7: 2x6 Southern Pine No. 1, 9 ft: FcE 1,236.8 psi."""
    assert euler_stress_nds(580_000, 108 / 5.5) == pytest.approx(1236.8, rel=1e-3)


@pytest.mark.parametrize(("fc", "printed"), [(2483.5, 0.4322), (1785.0, 0.5547)])
def test_wall_stud_stability(fc, printed):
    """AWC Solved Example Problems, E1.7: CP at load duration 1.6 and 1.15."""
    assert column_stability(euler_stress_nds(580_000, 108 / 5.5), fc) == pytest.approx(printed, rel=1e-3)


def test_wall_stud_bending_and_push():
    """AWC Solved Example Problems, E1.7: 1,400 lb and 25 psf wind on 4 ft: interaction 0.8875."""
    euler = euler_stress_nds(580_000, 108 / 5.5)
    fc_allowed = 2483.5 * column_stability(euler, 2483.5)
    fb = 25 * 4 * 9**2 / 8 * 12 / (1.5 * 5.5**2 / 6)
    found = beam_column(1400 / (1.5 * 5.5), fc_allowed, fb, 2158.8, euler)
    assert found == pytest.approx(0.8875, rel=1e-3)


def test_handbook_euler_and_ylinen():
    """Wood Handbook, FPL-GTR-282 (2021), Eq 9-25 and Eq 9-29: against an independent data package (second opinion)."""
    from geotech_references.wood_handbook import structural_stability as package

    radius = 38 / math.sqrt(12)
    stress = package.euler_critical_stress(8000e6, 0.72, radius / 1000)
    mine = euler_load(8000, 38**4 / 12, 720) / 38**2
    assert mine == pytest.approx(stress["fcr"] / 1e6, rel=1e-6)
    other = package.ylinen_buckling_stress(10.0, 6.0, c=0.8)
    assert column_stability(6.0, 10.0) * 10.0 == pytest.approx(other["fcr"], rel=1e-6)


def test_eurocode_column_limits():
    """EN 1995-1-1 6.3.2 (clause from memory): kc is 1 up to a relative slenderness of 0.3 and nears Euler when slim."""
    assert ec5_column(15, 21, 7400)[1] == 1.0
    rel, kc = ec5_column(200, 21, 7400)
    assert kc == pytest.approx(1 / rel**2, rel=0.06)
    assert kc < 1 / rel**2


def test_eurocode_leg_by_hand():
    """EN 1995-1-1 Eq 6.21 to 6.29 by hand for a C24 leg 45 x 45, 900 mm, pinned: rel 1.1748, kc 0.5619."""
    rel, kc = ec5_column(900 / (45 / math.sqrt(12)), 21, 7400)
    assert rel == pytest.approx(1.1748, abs=1e-4)
    assert kc == pytest.approx(0.5619, abs=1e-4)
    leg = leg_of(wood_values("c24", 45, 45), 45, 45, 900, "pinned")
    result = check_leg(leg, 1000)
    assert result.capacity_n == pytest.approx(kc * 21 * 0.8 / 1.3 * 45**2, rel=1e-6)


@pytest.mark.parametrize(
    ("stress", "reference", "wet"),
    [
        ("bending", 1000, 1.0),
        ("bending", 1500, 0.85),
        ("shear", 150, 0.97),
        ("bearing", 405, 0.67),
        ("compression", 1300, 0.8),
    ],
)
def test_wet_service(stress, reference, wet):
    """NDS Supplement 2018 Table 4A wet service factor CM; no reduction of bending up to Fb CF of 1,150 psi."""
    dry = wood_values("hem-fir", 38.1, 286)
    values = replace(dry, **{stress: reference * PSI})
    found = getattr(values.service("long", 3), stress) / getattr(values.service("long", 1), stress)
    assert found == pytest.approx(wet)
    assert values.service("long", 3).modulus == pytest.approx(0.9 * dry.modulus)
