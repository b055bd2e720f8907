"""Doors and lids where the piece stands: against the wall beside it, the ceiling and a neighbour, by trigonometry."""

from math import asin, degrees

import pytest

from floor_blocks import arranged, block, walls
from pieces import build
from scantling.dryfit import room_of
from scantling.findings import Severity
from scantling.plan.footprint import opened_of
from scantling.plan.swings import swing_findings

CABINET = build("cabinet")
HINGE = 780.5  # right door: 800 wide, a side of 18 and half of the reveal of 3
LEAF = 379.0  # from there to the far edge of the door, which is 377.5 wide


def said(place, pieces):
    room, found = arranged(place, pieces)
    return swing_findings(found, room, [])


def test_a_door_beside_a_wall_opens_past_square_until_its_edge_meets_it():
    """Its front corner reaches 19.5 mm and a millimetre of grace past the hinge line at 90° + asin(20.55/379)."""
    stands = [{"module": "cabinet", "wall": "a"}]
    (finding,) = said({"walls": walls(800.0, 2000.0), "stands": stands}, {"cabinet": CABINET})
    assert finding.code == "opening-blocked" and finding.parts == ("cabinet",)
    assert finding.value == pytest.approx(90 + degrees(asin(20.55 / LEAF)), abs=0.05) and finding.limit == 105
    assert finding.severity is Severity.NOTE  # square open is enough to use it
    assert "door right" in finding.message and "wall" in finding.message


def test_with_room_beside_it_nothing_is_said():
    stands = [{"module": "cabinet", "wall": "a", "gap": 100.0}]
    assert said({"walls": walls(1100.0, 2000.0), "stands": stands}, {"cabinet": CABINET}) == []


def test_a_neighbour_that_stands_further_out_stops_the_door():
    """A piece 700 deep beside the cabinet of 450 stands 250 before its front; the right door meets its side."""
    stands = [{"module": "cabinet", "wall": "a"}, {"module": "tall", "wall": "a", "gap": 0.0}]
    pieces = {"cabinet": CABINET, "tall": block(600, 700, 900)}
    (finding,) = said({"walls": walls(3000.0), "stands": stands}, pieces)
    assert finding.parts == ("cabinet", "tall")
    # the neighbour's side lies 19.5 past the hinge line and reaches 250 out: met by the door's face at its front corner
    assert 90 < finding.value < 105 and "tall" in finding.message


def test_a_lid_under_a_low_ceiling():
    chest = build("chest-with-lid")
    top = room_of(chest, chest.motions[0])[1][2]
    stands = [{"module": "chest", "wall": "a", "off": 200.0}]
    place = {"walls": walls(3000.0), "stands": stands, "ceiling": top - 100.0}
    (finding,) = said(place, {"chest": chest})
    assert 0 < finding.value < 90 and finding.severity is Severity.WARNING and "ceiling" in finding.message
    assert said({**place, "ceiling": top + 1.0}, {"chest": chest}) == []


def test_what_opens_reaches_as_far_as_it_is_said_to():
    """A door of 379 on its hinge line, square to the front; a chest's lid at 95° by its own corner."""
    reach = opened_of(CABINET)
    assert reach.front == pytest.approx(LEAF, abs=0.5) and reach.lid == ""
    chest = build("chest-with-lid")
    assert opened_of(chest).lid == "lid"
    assert opened_of(chest).behind == pytest.approx(room_of(chest, chest.motions[0])[1][1] - chest.bounds()[1][1])
