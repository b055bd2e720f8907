"""Noise, coverage of finishes, lifting and arm loads against printed tables."""

import pytest

from scantling.mechanics.cautions import noise_minutes_osha
from scantling.mechanics.figures import figure
from scantling.mechanics.loads import arm_side_load
from scantling.tables import load_table
from scantling.tables.finishing import M2_PER_L_PER_FT2_PER_GAL


@pytest.mark.parametrize(
    ("level", "hours", "printed_to"),
    [(90, 8, 0.05), (92, 6, 0.1), (95, 4, 0.05), (97, 3, 0.05), (100, 2, 0.05), (102, 1.5, 0.05), (105, 1, 0.05),
     (110, 0.5, 0.05), (115, 0.25, 0.05)],
)  # fmt: skip
def test_permissible_noise(level, hours, printed_to):
    """OSHA 29 CFR 1910.95 (1971), Table G-16, hours a day by sound level; Table G-16a prints 6.1 h for 92 dBA."""
    assert noise_minutes_osha(level) / 60 == pytest.approx(hours, abs=printed_to)


@pytest.mark.parametrize(("per_gallon", "per_litre"), [(200, 4.9), (400, 9.8), (100, 2.4)])
def test_coverage_in_both_units(per_gallon, per_litre):
    """Wood Handbook, FPL-GTR-190 (2010), p. 16-20: 4.9 to 9.8 m2/L (200 to 400 ft2/gal) smooth, 2.4 (100) rough."""
    converted = per_gallon * M2_PER_L_PER_FT2_PER_GAL
    assert converted == pytest.approx(per_litre, abs=0.06)


def test_the_table_of_finishes_holds_those_bands():
    rows = [r for r in load_table("finish_coverage").rows if "semitransparent" in " ".join(map(str, r.cells.values()))]
    assert any((r.number("least"), r.number("most")) == (200, 400) for r in rows)


def test_the_load_constant_of_lifting():
    """Revised NIOSH lifting equation, load constant: 23 kg, 51 lb (handbook of occupational ergonomics, 46.2.1)."""
    assert figure("lift-one-person").value == 23
    assert figure("lift-one-person").value / 0.45359237 == pytest.approx(51, abs=0.5)
    assert figure("lift-one-person").decides


@pytest.mark.parametrize(("between_in", "pounds", "newtons"), [(20, 100, 445), (40, 133, 592)])
def test_arms_pushed_level(between_in, pounds, newtons):
    """ANSI/BIFMA X5.4-2012 section 9 (100 lb, 133 lb over 35 in); X5.1-2002 test 14 prints 445 N (100 lbf)."""
    load = arm_side_load("home", between_in * 25.4)
    assert load.force_n / 4.448222 == pytest.approx(pounds, abs=0.05)
    assert round(load.force_n) == newtons
    assert load.basis == "test"
