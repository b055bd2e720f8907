"""Case O10: a bookcase shelf 45 x 14 in of 3/4 plywood for books (woodweb.com, Span Limits for Plywood Shelving).

Professionals there say it will bow, name limits of 32 to 36 in, and one has 48 x 12 in with 3/4 x 1-3/4 strips front
and back that has not sagged in twenty years. The sag is computed, not looked up.
"""

from dataclasses import replace

import pytest

from scantling.mechanics.shelves import Shelf, check_shelf, shelf_load
from scantling.mechanics.strength import wood_values

IN = 25.4
PLAUSIBLE = (1.01e6, 1.3e6, 1.8e6)  # psi: low end of the Wood Handbook's plywood range to hardwood-faced plywood
SOLID = 1.4e6 * 0.006894757  # strips of solid wood: S-P-F No. 2, NDS Supplement 2018 Table 4A


def shelf(span, depth, psi, strips=()):
    wood = replace(wood_values("softwood-plywood", 0.75 * IN, depth * IN), modulus=psi * 0.006894757)
    return Shelf(span * IN, depth * IN, 0.75 * IN, wood, "plywood", strips, SOLID if strips else None)


@pytest.mark.parametrize("psi", PLAUSIBLE)
def test_45_inches_fail_for_any_plausible_plywood(psi):
    result = check_shelf(shelf(45, 14, psi), shelf_load("books", 14 * IN), limit="strict")
    assert result.sag_mm > result.limit_mm
    assert [f.code for f in result.findings()] == ["shelf-sags"]
    assert "line load" in result.findings()[0].message


@pytest.mark.parametrize("psi", PLAUSIBLE)
def test_32_inches_pass_or_are_borderline(psi):
    result = check_shelf(shelf(32, 14, psi), shelf_load("books", 14 * IN), limit="strict")
    assert result.sag_mm < 1.1 * result.limit_mm


@pytest.mark.parametrize("psi", PLAUSIBLE)
def test_48_inches_with_two_strips_pass(psi):
    stiff = shelf(48, 12, psi, ((2, 0.75 * IN, 1.75 * IN),))
    result = check_shelf(stiff, shelf_load("books", 12 * IN), limit="strict")
    assert result.sag_mm < result.limit_mm
    assert result.findings() == () or result.findings()[0].code == "shelf-creeps"
    bare = check_shelf(shelf(48, 12, psi), shelf_load("books", 12 * IN), limit="strict")
    assert bare.sag_mm > 3 * result.sag_mm


def test_the_longest_span_lies_where_the_professionals_put_it():
    result = check_shelf(shelf(45, 14, 1.3e6), shelf_load("books", 14 * IN), limit="strict")
    assert 32 <= result.longest_span_mm / IN <= 36
