"""Case O13: a top 72 in long with 19 in overhang at both ends (blog.lostartpress.com, page 792)."""

import pytest

from scantling.mechanics.tipping import check_overhang, weight_against_overhang

IN, LB = 25.4, 4.448222
BASE = 72 - 2 * 19


def test_base():
    assert BASE == 34


def test_weight_against_200_pounds():
    assert weight_against_overhang(BASE * IN, 19 * IN, 200 * LB) / LB == pytest.approx(200 * 19 / 17, abs=0.01)
    assert round(weight_against_overhang(BASE * IN, 19 * IN, 200 * LB) / LB) == 224


@pytest.mark.parametrize(("weight", "codes"), [(60, ["tips-on-overhang"]), (223, ["tips-on-overhang"]), (300, [])])
def test_finding(weight, codes):
    result = check_overhang(BASE * IN, 19 * IN, weight * LB, 200 * LB)
    assert [f.code for f in result.findings() if f.severity == "error"] == codes
