"""Swings and slides against trigonometry; what holds a lid against plain statics."""

from math import asin, atan, cos, degrees, inf, radians, sin, sqrt

import pytest

from dryfit_pieces import block, box, empty
from scantling.board import Cushion, Motion
from scantling.dryfit import DryfitSettings, motion_findings, moved, sweep, verify

RIGHT, UP, OUT = (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, -1.0, 0.0)
NOTES = {"opens-behind"}  # true of most lids, and only a note
G = 9.80665


def lid_of(opens=-110.0, point=(0.0, 300.0, 300.0), held_by="a strap", cushions=()):
    return Motion("lid", "swing", ("lid",), RIGHT, opens, point, held_by, cushions)


def carried(piece, motion, walls=()):
    found = moved(piece, motion, DryfitSettings(), walls)
    return found, [f.code for f in motion_findings(piece, found) if f.code not in NOTES]


def test_a_lid_hinged_at_the_back_opens_freely():
    found, codes = carried(box(), lid_of())
    assert found.swept.clashes == () and found.swept.free == pytest.approx(-110) and codes == []


def test_a_lid_hinged_below_its_own_thickness_bites_the_back_at_once():
    """Turned about its lower rear edge the lid stays clear; about a line 10 mm lower and inside it digs in."""
    found, codes = carried(box(), lid_of(point=(0.0, 290.0, 270.0)))
    assert found.swept.clashes == ("back",) and codes == ["motion-clashes"]
    # its lower rear corner is 10 behind and 12 above the line: it sinks by the fit when 10 sin a + 12 (1 - cos a) does
    assert abs(found.swept.free) == pytest.approx(degrees(0.05 / 10), abs=0.05)


def test_a_lid_stops_at_the_wall_behind_it():
    """A lid 300 deep standing upright on a line 300 mm from y = 0: past 90° it meets a wall at a set distance."""
    for gap in (40.0, 100.0):
        wall = ((0.0, -1.0, 0.0), -(300.0 + gap))
        found, codes = carried(box(), lid_of(-175.0), (wall,))
        # the top front corner is 300 from the hinge line and reaches `gap` behind it at 90° + asin(gap/300)
        assert abs(found.swept.free) == pytest.approx(90 + degrees(asin(gap / 300)), abs=0.02)
        assert found.swept.clashes == ("wall",) and codes == ["motion-clashes"]


def test_a_door_meets_the_post_in_front_of_it_at_the_angle_of_the_chord():
    """A door 400 wide swings down to a post whose rear right corner lies 238 mm along it and 150 mm in front."""
    piece = empty()
    door = piece.part("door", 400, 300, "ply").lay("x", "z").put(x0=0, y0=0, z0=0)
    piece.part("post", 300, 38, "pine").lay("z", "x").put(x0=200, y1=-150, z0=0)
    found, codes = carried(piece, Motion("door", "swing", ("door",), UP, -120.0))
    assert door.y0 == 0
    # the front face touches the corner (238, -150) when it has turned by that corner's polar angle
    assert abs(found.swept.free) == pytest.approx(degrees(atan(150 / 238)), abs=0.1)
    assert found.swept.clashes == ("post",) and codes == ["motion-clashes"]


def test_the_front_edge_of_a_thick_door_needs_room_beside_it():
    """An inset door hinged on its front corner: the inner corner of its free edge swings out to √(w² + t²)."""
    for room, clear in ((0.3, False), (0.6, True)):
        piece = empty()
        door = piece.part("door", 400, 300, "ply").lay("x", "z").put(x0=0, y0=0, z0=0)
        block(piece, "post", (38, 300), (400 + room, 0, 0))
        needs = sqrt(400.0**2 + door.thickness**2) - 400.0
        found, codes = carried(piece, Motion("door", "swing", ("door",), UP, -90.0))
        assert (room > needs) is clear and (codes == []) is clear
        assert found.swept.high[0] == pytest.approx(400 + needs, abs=1e-6)


def test_a_drawer_slides_out_until_the_knob_of_its_neighbour():
    piece = empty()
    piece.part("drawer", 300, 200, "ply").lay("y", "x").put(x0=0, y0=0, z0=100)
    block(piece, "knob", (40, 40), (50, -120, 90))
    found, codes = carried(piece, Motion("drawer", "slide", ("drawer",), OUT, 280.0))
    assert found.swept.free == pytest.approx(80.05) and codes == ["motion-clashes"]  # touching, and 0.05 of fit
    assert found.swept.depth == pytest.approx(8.0)
    free, codes = carried(piece, Motion("drawer", "slide", ("drawer",), OUT, 60.0))
    assert free.swept.clashes == () and codes == []


@pytest.mark.parametrize("gap,pinches", [(5.0, False), (9.0, True), (11.0, True), (13.0, False)])
def test_a_gap_between_seven_and_twelve_millimetres_pinches(gap, pinches):
    piece = empty()
    piece.part("drawer", 300, 200, "ply").lay("y", "x").put(x0=0, y0=0, z0=100)
    block(piece, "beside", (100, 500), (200 + gap, -300, 100))
    found, codes = carried(piece, Motion("drawer", "slide", ("drawer",), OUT, 200.0))
    assert codes == (["moving-gap"] if pinches else [])
    assert found.swept.least_gap == pytest.approx(gap if gap < 12 else inf)  # further off it is not measured


def test_a_narrower_gap_elsewhere_hides_no_finger_trap():
    piece = empty()
    piece.part("drawer", 300, 200, "ply").lay("y", "x").put(x0=0, y0=0, z0=100)
    block(piece, "left", (100, 500), (-103, -300, 100))
    block(piece, "right", (100, 500), (209, -300, 100))
    found, codes = carried(piece, Motion("drawer", "slide", ("drawer",), OUT, 200.0))
    assert codes == ["moving-gap"] and [(g.beside, g.gap) for g in found.swept.narrow] == [("right", pytest.approx(9))]


def test_a_lid_that_nothing_holds_can_fall_shut_or_on_open():
    """Its weight about the hinge line by hand: a lid 300 deep and 18 thick, its middle 150 in front and 9 below."""
    piece = box()
    mass = piece.parts["lid"].mass_kg()
    found, codes = carried(piece, lid_of(-70.0, held_by=""))
    assert codes == ["nothing-holds-open"]
    assert found.weight.mass == pytest.approx(mass)
    assert found.weight.hold == pytest.approx(mass * G * sqrt(150**2 + 9**2) / 1000, rel=1e-3)  # level on the way
    turn = radians(70.0)
    assert found.weight.open == pytest.approx(mass * G * (-150 * cos(turn) - 9 * sin(turn)) / 1000, rel=1e-9)
    found, codes = carried(piece, lid_of(-110.0, held_by=""))
    assert codes == ["nothing-holds-open"] and found.weight.past == pytest.approx(20 - degrees(atan(9 / 150)))
    door = Motion("lid", "swing", ("lid",), UP, 30.0)
    assert carried(piece, door)[1] == []  # an upright hinge line lifts nothing


def test_a_lid_past_upright_that_leans_on_something_is_held():
    piece = box()
    post = piece.part("post", 700, 89, "pine").lay("z", "x").put(xc=218, y0=420, z0=0)
    piece.loose(post, piece.parts["back"], clearance=120)
    found, codes = carried(piece, lid_of(-110.0, held_by=""))
    assert found.leans_on == "post" and codes == []


def test_what_is_fixed_to_a_lid_moves_with_it():
    """A handle comes along; so does a strip that hangs behind the hinges, which is driven into the back."""
    piece = box()
    handle = piece.part("handle", 100, 40, "pine").lay("x", "z").put(xc=218, y1=0, z0=270)
    piece.screws(handle, piece.parts["lid"], n=1)
    found, codes = carried(piece, lid_of())
    assert found.swept.parts == ("lid", "handle") and codes == []
    strip = piece.part("strip", 200, 60, "ply").lay("x", "z").put(xc=218, y0=300, z1=300)
    piece.screws(strip, piece.parts["lid"], n=2)
    found, codes = carried(piece, lid_of(point=(0.0, 300.0, 282.0)))
    # its lower front edge lies 42 under the line: turned by a it comes forward by 42 sin a
    assert found.swept.parts == ("lid", "handle", "strip")
    assert (found.swept.hits, found.swept.clashes, codes) == ("strip", ("back",), ["motion-clashes"])
    assert abs(found.swept.free) == pytest.approx(degrees(0.05 / 42), abs=0.02)


def test_a_cushion_fixed_to_a_lid_comes_along():
    piece = box()
    piece.cushions.append(Cushion("seat", "seat", (0.0, 0.0, 300.0), 436.0, 300.0, 100.0, 60.0, False, "tied on"))
    rest = piece.part("rest", 500, 436, "ply").lay("z", "x").put(x0=0, y0=330, z0=0)
    piece.loose(rest, piece.parts["back"], clearance=30)
    assert carried(piece, lid_of(-85.0))[1] == []
    found, codes = carried(piece, lid_of(-85.0, cushions=("seat",)))
    assert (found.swept.hits, found.swept.clashes, codes) == ("seat", ("rest",), ["motion-clashes"])


def test_neighbours_stand_in_the_way_by_their_name():
    piece, other = box(), empty()
    beside = other.part("side", 600, 300, "ply").lay("z", "y").put(x0=0, y0=310, z0=0)
    found = sweep(piece, lid_of(), DryfitSettings(), neighbours={"the bookcase": (beside,)})
    assert found.clashes == ("the bookcase",)


def test_the_hinge_and_slide_words_say_what_the_dry_fit_sweeps():
    piece = box()
    for joint in [j for j in piece.joints.values() if j.parts == ("lid", "back")]:
        del piece.joints[joint.id]
    lid, back = piece.parts["lid"], piece.parts["back"]
    piece.hinge(lid, back, edge=("far", "back"), towards="z", opens=100, held_by="two lid stays")
    (motion,) = piece.motions
    assert motion.point[1:] == pytest.approx((300.0, 282.0)) and abs(motion.axis[0]) == 1.0
    assert motion.axis[0] * motion.travel == -100.0  # right-handed about +x a lid in front of its hinges sinks
    fit = verify(piece)
    assert [m.swept.free * motion.axis[0] for m in fit.motions] == [pytest.approx(-100.0)]
    assert fit.fits and fit.to_plain()["motions"][0]["motion"] == "lid"


def test_motions_without_travel_or_axis_are_refused():
    with pytest.raises(ValueError, match="travel"):
        Motion("lid", "slide", ("lid",), UP, 0.0)
    with pytest.raises(ValueError, match="direction"):
        Motion("lid", "slide", ("lid",), (0.0, 0.0, 0.0), 10.0)
    with pytest.raises(ValueError, match="more than once"):
        Motion("lid", "swing", ("lid",), UP, 400.0)
