"""Case O12: a bench of 60 x 18 in at 60 lb/ft2 carries 450 lb in all (allexperts, bench question, December 2015)."""

import pytest

from scantling.mechanics.beams import moment, rectangle
from scantling.mechanics.loads import sitting
from scantling.mechanics.members import Member, check_member
from scantling.mechanics.shelves import shelf_load
from scantling.mechanics.strength import wood_values

IN, LB = 25.4, 4.448222


def test_whole_load():
    line = shelf_load("library shelf", 18 * IN).line_n_per_mm * 60 / 50
    assert line * 60 * IN / LB == pytest.approx(450, abs=0.1)
    assert moment("uniform-simple", line * 60 * IN, 60 * IN) == pytest.approx(450 * LB * 60 * IN / 8, rel=1e-4)


@pytest.mark.parametrize("width", [9.25, 11.25])
def test_picnic_planks_carry_two_heavy_adults(width):
    """The source: 2x10 or 2x12 laid flat on supports 48 to 60 in apart carry two adults of 350 to 400 lb together."""
    wood = wood_values("douglas-fir", 1.5 * IN, width * IN, flat=True)
    plank = Member("Seat plank", rectangle(width * IN, 1.5 * IN), width * IN, 60 * IN, "uniform-simple", wood)
    result = check_member(plank, sitting(2, (400 * 0.45359237 / 2,)))
    assert result.worst.ratio < 1
    assert result.findings() == ()
