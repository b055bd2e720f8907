"""Swings and slides against trigonometry."""

from math import asin, atan, degrees

import pytest

from dryfit_pieces import block, box, empty
from scantling.dryfit import DryfitSettings, Motion, motion_findings, sweep

LID = Motion("lid", "swing", ("lid",), (1.0, 0.0, 0.0), -110.0, (0.0, 300.0, 300.0), held_by="a strap")


def swung(piece, motion):
    found = sweep(piece, motion, DryfitSettings())
    return found, [f.code for f in motion_findings(motion, found, DryfitSettings())]


def test_a_lid_hinged_at_the_back_opens_freely():
    found, codes = swung(box(), LID)
    assert found.clashes == () and found.free == -110 and codes == []


def test_a_lid_hinged_below_its_own_thickness_bites_the_back_at_once():
    """Turned about its lower rear edge the lid stays clear; about a line 10 mm lower and inside it digs in."""
    low = Motion("lid", "swing", ("lid",), (1.0, 0.0, 0.0), -110.0, (0.0, 290.0, 270.0), held_by="a strap")
    found, codes = swung(box(), low)
    assert found.clashes == ("back",) and codes == ["motion-clashes"]


def test_a_lid_stops_at_the_wall_behind_it():
    """A lid 300 deep standing upright on a line 300 mm from y = 0: past 90° it meets a wall at a set distance."""
    for gap in (40.0, 100.0):
        wall = ((0.0, -1.0, 0.0), -(300.0 + gap))
        motion = Motion("lid", "swing", ("lid",), (1.0, 0.0, 0.0), -175.0, (0.0, 300.0, 300.0), (wall,), "a strap")
        found, codes = swung(box(), motion)
        # the top front corner is 300 from the hinge line and reaches `gap` behind it at 90° + asin(gap/300)
        assert abs(found.free) == pytest.approx(90 + degrees(asin(gap / 300)), abs=1.01)
        assert found.clashes == ("wall",) and codes == ["motion-clashes"]


def test_a_door_meets_the_post_in_front_of_it_at_the_angle_of_the_chord():
    """A door 400 wide swings down to a post whose rear right corner lies 238 mm along it and 150 mm in front."""
    piece = empty()
    door = piece.part("door", 400, 300, "ply").lay("x", "z").put(x0=0, y0=0, z0=0)
    piece.part("post", 300, 38, "pine").lay("z", "x").put(x0=200, y1=-150, z0=0)
    found, codes = swung(piece, Motion("door", "swing", ("door",), (0.0, 0.0, 1.0), -120.0))
    assert door.y0 == 0
    # the front face touches the corner (238, -150) when it has turned by that corner's polar angle
    assert abs(found.free) == pytest.approx(degrees(atan(150 / 238)), abs=1.01)
    assert found.clashes == ("post",) and codes == ["motion-clashes"]


def test_a_drawer_slides_out_until_the_knob_of_its_neighbour():
    piece = empty()
    piece.part("drawer", 300, 200, "ply").lay("y", "x").put(x0=0, y0=0, z0=100)
    block(piece, "knob", (40, 40), (50, -120, 90))
    found, codes = swung(piece, Motion("drawer", "slide", ("drawer",), (0.0, -1.0, 0.0), 280.0))
    assert found.free == pytest.approx(80, abs=5.01) and codes == ["motion-clashes"]
    free, codes = swung(piece, Motion("drawer", "slide", ("drawer",), (0.0, -1.0, 0.0), 60.0))
    assert free.clashes == () and codes == []


@pytest.mark.parametrize("gap,pinches", [(5.0, False), (9.0, True), (11.0, True), (13.0, False)])
def test_a_gap_between_seven_and_twelve_millimetres_pinches(gap, pinches):
    piece = empty()
    piece.part("drawer", 300, 200, "ply").lay("y", "x").put(x0=0, y0=0, z0=100)
    block(piece, "beside", (100, 500), (200 + gap, -300, 100))
    _, codes = swung(piece, Motion("drawer", "slide", ("drawer",), (0.0, -1.0, 0.0), 200.0))
    assert codes == (["moving-gap"] if pinches else [])


def test_a_lid_that_nothing_holds_can_fall():
    piece = box()
    loose = Motion("lid", "swing", ("lid",), (1.0, 0.0, 0.0), -100.0, (0.0, 300.0, 300.0))
    assert swung(piece, loose)[1] == ["nothing-holds-open"]
    door = Motion("lid", "swing", ("lid",), (0.0, 0.0, 1.0), 30.0, (0.0, 0.0, 0.0))
    assert swung(piece, door)[1] == []  # an upright hinge line lifts nothing


def test_motions_without_travel_or_axis_are_refused():
    with pytest.raises(ValueError, match="travel"):
        sweep(box(), Motion("lid", "slide", ("lid",), (0.0, 0.0, 1.0), 0.0), DryfitSettings())
    with pytest.raises(ValueError, match="direction"):
        sweep(box(), Motion("lid", "slide", ("lid",), (0.0, 0.0, 0.0), 10.0), DryfitSettings())
