"""Case O14: a case 68 x 34 in of 3/4 plywood without a back (sawmillcreek.org, t-261055): flimsy until backed."""

import pytest

from scantling.mechanics.racking import FrameSide, check_racking
from scantling.mechanics.shelves import Shelf, check_shelf, shelf_load
from scantling.mechanics.strength import wood_values

IN = 25.4


def side(*held_by, back=None):
    return FrameSide(
        "The front plane", 34 * IN, 68 * IN, held_by, back, 530.0 if back else None, 150.0 if back else None
    )


def test_dadoes_and_screws_alone_rack():
    found = check_racking(side("dado", "shelf")).findings()
    assert [f.code for f in found] == ["frame-racks"]
    assert "back" in (found[0].remedy or "")


def test_a_fixed_quarter_inch_back_clears_it():
    result = check_racking(side("dado", "shelf", "fixed back", back=0.25 * IN))
    assert result.findings() == ()
    assert result.lean_mm is not None and result.lean_mm < 1
    assert result.fastener_n == pytest.approx(250 / (34 * IN) * 150)


@pytest.mark.parametrize("cure", ["face frame", "cleats"])
def test_the_other_cures_clear_it(cure):
    assert check_racking(side("dado", cure)).findings() == ()


def test_a_loose_back_does_not():
    assert [f.code for f in check_racking(side("dado", "loose back")).findings()] == ["frame-racks"]


def test_shelves_of_34_inches_sag_with_books():
    wood = wood_values("softwood-plywood", 0.75 * IN, 11.25 * IN)
    result = check_shelf(Shelf(34 * IN, 11.25 * IN, 0.75 * IN, wood, "plywood"), shelf_load("books", 11.25 * IN))
    assert [f.code for f in result.findings()] == ["shelf-sags"]
