"""Worked examples of fasteners by EN 1995-1-1:2004+A1:2008+A2:2014 (Eurocode 5), section 8.

Unless a test says otherwise the printed results are the hand calculations of a Dutch calculation sheet for timber
joints that prints its check values beside its inputs (nails 3.4 x 90 in C24, screws 6 x 100 in C24, splitting).
Tolerances are half of the last printed digit unless said.
"""

import pytest

from scantling.mechanics.basis import kmod_of
from scantling.mechanics.combined import eurocode5_ratio
from scantling.mechanics.eurocode5_axial import (
    head_pull_through,
    nail_share,
    screw_parameter,
    screw_withdrawal,
    smooth_nail,
)
from scantling.mechanics.eurocode5_group import (
    design_value,
    effective_axial,
    effective_bolts,
    effective_nails,
    splitting,
)
from scantling.mechanics.eurocode5_lateral import (
    ROPE_SHARE,
    TimberShear,
    embedment_timber,
    single_shear_timber,
    yield_moment,
)
from scantling.tables import load_table

C24 = 350.0


def nails(rope: float, share: float, moment: float) -> TimberShear:
    """Nail 3.4 x 90 through 38 mm into 52 mm, both C24, not predrilled."""
    bearing = embedment_timber(C24, 3.4, predrilled=False)
    return TimberShear(3.4, 38.0, 52.0, bearing, bearing, moment, rope, share)


def test_screw_withdrawal_strength_and_resistance() -> None:
    """Eq. 8.38 to 8.40: screw 6 x 100, lef 55 mm, C24: 15.42 N/mm2, kd 0.75, 3,817 N."""
    strength = screw_parameter(C24, 6.0, 55.0)
    assert strength == pytest.approx(15.42, abs=0.005)
    assert screw_withdrawal(strength, 6.0, 55.0, 90.0) == pytest.approx(3817, abs=0.5)
    assert screw_withdrawal(strength, 6.0, 55.0, 90.0) / (strength * 6.0 * 55.0) == pytest.approx(0.75)


def test_screw_head() -> None:
    """Eq. 8.40b: fhead 10.5 N/mm2, head 12 mm, C24 as declared: 1,512 N."""
    assert head_pull_through(10.5, 12.0, C24, C24) == pytest.approx(1512, abs=0.5)


def test_nail_embedment_yield_moment_and_withdrawal() -> None:
    """Eq. 8.15, 8.14, 8.24: 19.88 N/mm2; 4,336 N mm; 433.2 N for 52 mm of point-side penetration."""
    assert embedment_timber(C24, 3.4, predrilled=False) == pytest.approx(19.88, abs=0.005)
    assert yield_moment(600.0, 3.4) == pytest.approx(4336, abs=0.5)
    assert smooth_nail(C24, 3.4, 52.0, 90.0, 7.0) == pytest.approx(433.2, abs=0.05)


def test_nail_lateral_resistance_mode_f_with_rope_effect() -> None:
    """Eq. 8.6f and 2.14: 988.8 N; with kmod 0.8 and 1.3, 608.5 N."""
    answer = single_shear_timber(nails(433.2, ROPE_SHARE["round nail"], yield_moment(600.0, 3.4)))
    assert answer.governing == "f"
    assert answer.value_n == pytest.approx(988.8, abs=0.05)
    assert design_value(answer.value_n, 0.8) == pytest.approx(608.5, abs=0.05)


@pytest.mark.parametrize(("count", "spacing", "kef", "effective"), [(5, 40.0, 0.916, 4.37), (10, 24.0, 0.703, 5.046)])
def test_effective_number_of_nails(count: int, spacing: float, kef: float, effective: float) -> None:
    """Eq. 8.17 and Table 8.1, nails 3.4 mm: 5 at 40 mm, 10 at 24 mm."""
    exponent, number = effective_nails(count, spacing, 3.4, predrilled=False)
    assert exponent == pytest.approx(kef, abs=0.0005)
    assert number == pytest.approx(effective, abs=0.005)


def test_group_of_nails_in_use() -> None:
    """Two rows of five of those nails at 40 mm, 4 kN: utilisation 0.752."""
    value = single_shear_timber(nails(433.2, ROPE_SHARE["round nail"], yield_moment(600.0, 3.4))).value_n
    _, number = effective_nails(5, 40.0, 3.4, predrilled=False)
    assert 4000 / (2 * number * design_value(value, 0.8)) == pytest.approx(0.752, abs=0.0005)


@pytest.mark.parametrize(
    ("width", "depth", "edge", "characteristic", "design_kn"),
    [(71, 200, 50, 8116, 4.994), (140, 300, 100, 24005, 14.77), (38, 200, 50, 4344, 2.673)],
)
def test_splitting_across_the_grain(
    width: float, depth: float, edge: float, characteristic: float, design_kn: float
) -> None:
    """Eq. 8.4; design values with kmod 0.8 and 1.3."""
    value = splitting(width, depth, edge)
    assert value == pytest.approx(characteristic, abs=0.5)
    assert design_value(value, 0.8) / 1000 == pytest.approx(design_kn, abs=0.005)


def test_square_nails_pulled_and_sheared() -> None:
    """Square nails 3.4 x 90: My 6,504; mode d 1,070.9, with the rope 1,138.5 N; use 0.3752 + 0.6535 = 1.029 (Eq. 8.27).

    The sheet rounds intermediate results, so its mode d is 0.3 N (0.03 %) above the equation: tolerance 0.4 N.
    """
    moment = yield_moment(600.0, 3.4, square=True)
    assert moment == pytest.approx(6504, abs=0.5)
    bare = single_shear_timber(nails(0.0, 0.25, moment))
    assert bare.governing == "d"
    assert bare.value_n == pytest.approx(1070.9, abs=0.4)
    roped = single_shear_timber(nails(433.2 * 0.6248, ROPE_SHARE["square nail"], moment))
    assert roped.value_n == pytest.approx(1138.5, abs=0.4)
    assert eurocode5_ratio(0.3752, 1.0, 0.6535, 1.0, smooth_nail=True) == pytest.approx(1.029, abs=0.0005)


def test_effective_numbers_of_screws() -> None:
    """Eq. 8.41: 10 screws pulled count 7.943. Eq. 8.34: 3 screws of 10 mm at 60 mm, 60 degrees to the grain: 2.738."""
    assert effective_axial(10) == pytest.approx(7.943, abs=0.0005)
    assert effective_bolts(3, 60.0, 10.0, 60.0) == pytest.approx(2.738, abs=0.0006)


def test_short_smooth_nail_has_no_withdrawal() -> None:
    """8.3.2(7): nail 3.4 x 63 through 38 mm, penetration 25 mm = 7.35 d, under 8 d: nothing."""
    assert nail_share(25.0, 3.4, threaded=False) == 0.0
    assert smooth_nail(C24, 3.4, 25.0, 38.0, 7.0) == 0.0


@pytest.mark.parametrize(
    ("cls", "column", "service_class", "duration", "printed", "digits"),
    [
        ("C24", "bending", 1, "medium", 14.77, 0.005),
        ("C24", "compression_parallel", 2, "short", 14.54, 0.005),
        ("C18", "compression_perpendicular", 3, "permanent", 0.846, 0.0005),
    ],
)
def test_design_strengths(
    cls: str, column: str, service_class: int, duration: str, printed: float, digits: float
) -> None:
    """Eq. 2.14 with EN 338 strengths and Tables 2.3 and 3.1: tests of a public analysis code."""
    row = next(row for row in load_table("strength_classes").rows if row.text("class") == cls)
    kmod = kmod_of("solid timber", service_class, duration)
    assert design_value(row.number(column), kmod, "solid timber") == pytest.approx(printed, abs=digits)
