"""Room to move: doors of the room, windows, walkways, tables and beds, lids and drawers, the ceiling; all by hand."""

import pytest

from floor_blocks import arranged, block, walls
from pieces import ply
from scantling.board import Assembly
from scantling.plan.footprint import opened_of
from scantling.plan.room_checks import opened_pieces, opening_findings
from scantling.plan.room_doors import ceiling_findings, door_findings, wall_findings
from scantling.plan.walking import clear_fronts, walkway_findings

SHORT = block(1000, 600, 400)


def test_a_leaf_of_800_needs_800():
    """Hinged 300 from the left end, the leaf reaches to 1100 along the wall: nearer than 800 is in its way."""
    door = {"id": "door", "at": 300.0, "width": 800.0}
    for gap, codes in ((1050.0, ["door-blocked"]), (1150.0, [])):
        stands = [{"module": "one", "wall": "a", "gap": gap}]
        _, found = arranged({"walls": walls(3000.0, doors=[door]), "stands": stands}, {"one": SHORT})
        said = door_findings(found)
        assert [f.code for f in said] == codes, gap
        assert all((f.value, f.limit) == (pytest.approx(gap - 300), 800) for f in said)


def test_a_door_that_opens_out_is_only_kept_free():
    door = {"id": "door", "at": 300.0, "width": 800.0, "opens": "out"}
    place = {"walls": walls(3000.0, doors=[door]), "stands": [{"module": "one", "wall": "a", "gap": 1050.0}]}
    (said,) = door_findings(arranged(place, {"one": SHORT})[1])
    assert "stands in front of door" in said.message
    place["stands"] = [{"module": "one", "x": 1050.0, "y": 2000.0}]
    assert door_findings(arranged(place, {"one": SHORT})[1]) == []


def test_windows_and_sockets_behind_a_piece():
    wall = walls(
        3000.0,
        windows=[{"id": "window", "at": 900.0, "width": 500.0, "sill": 350.0}],
        sockets=[{"id": "socket", "at": 500.0, "height": 300.0}],
    )
    _, found = arranged({"walls": wall, "stands": [{"module": "one", "wall": "a"}]}, {"one": SHORT})
    assert [f.code for f in wall_findings(found)] == ["covers-window", "covers-socket"]
    _, low = arranged({"walls": wall, "stands": [{"module": "one", "wall": "a"}]}, {"one": block(1000, 600, 290)})
    assert wall_findings(low) == []


def test_the_walkway_is_what_stands_straight_ahead():
    """A place 1500 deep: 900 in front of a row 600 deep; a piece free at 1200 from the wall leaves 100 less of 500."""
    place = {"depth": 1500.0, "walls": walls(3000.0), "stands": [{"module": "one", "wall": "a"}]}
    room, found = arranged(place, {"one": SHORT})
    assert [a.clear for a in clear_fronts(found, room)] == [pytest.approx(900)]
    assert walkway_findings(found, room, clear_fronts(found, room), {}) == []
    place["walkway"] = 1000.0
    room, found = arranged(place, {"one": SHORT})
    (said,) = walkway_findings(found, room, clear_fronts(found, room), {})
    assert (said.code, said.value, said.limit) == ("walkway-narrow", pytest.approx(900), 1000)


def round_about(use, gap, side="x"):
    """A piece of a use 1000 wide and 600 deep, so far from the far edge of its place or from a case beside it."""
    place = {"depth": 2000.0 + gap, "stands": [{"module": "one", "x": 3000.0, "y": 2000.0}]}
    pieces = {"one": SHORT, "case": block(400, 400, 1800)}
    if side == "right":
        place = {"stands": [*place["stands"], {"module": "case", "x": 4000.0 + gap, "y": 1900.0}]}
    room, found = arranged(place, pieces)
    return [(f.limit, f.message) for f in walkway_findings(found, room, clear_fronts(found, room), {"one": use})]


def test_who_sits_at_a_table_and_who_makes_a_bed_need_room():
    """Behind a diner 32 in (NKBA summaries), beside a bed 15 in, at its foot 30 in (room planning guides)."""
    for use, side, inches in (("table", "x", 32), ("bed", "x", 30), ("bed", "right", 15)):
        assert round_about(use, inches * 25.4 + 1, side) == []
        (said,) = round_about(use, inches * 25.4 - 1, side)
        assert said[0] == pytest.approx(inches * 25.4)
    assert "On the right of one, to case" in round_about("bed", 300, "right")[0][1]


def test_a_seat_stands_near_its_table_and_a_foot_from_a_low_one():
    """Sofa to low table 12 in at least (room planning guides); a chair may stand as near to its table as it likes."""
    pieces = {"seat": SHORT, "table": block(1200, 700, 400)}
    stands = [{"module": "seat", "x": 0.0, "y": 600.0}, {"module": "table", "x": 0.0, "y": 1550.0}]
    room, found = arranged({"stands": stands}, pieces)
    fronts = clear_fronts(found, room)
    assert fronts[0].clear == pytest.approx(250)
    said = walkway_findings(found, room, fronts[:1] + fronts[1:], {"seat": "seat", "table": "low table"})
    assert [(f.value, round(f.limit, 1)) for f in said] == [(pytest.approx(250), 304.8)]
    assert walkway_findings(found, room, fronts, {"seat": "seat", "table": "table"}) == []


def lidded(support):
    """A box 600 × 400 × 300 with a lid of 20 hinged on its back, held open by supports or by nothing."""
    piece = Assembly("box", "box", {"board": ply(20.0, "board")})
    back = piece.part("back", 600, 300, "board").lay("x", "z").put(x0=0, y1=400, z0=0)
    lid = piece.part("lid", 600, 400, "board").lay("x", "y").put(x0=0, y0=0, z0=300)
    piece.join("hinged", lid, back)
    if support:
        piece.buy("lid support", 2)
    return piece


def test_an_open_lid_reaches_behind_its_hinge_by_its_thickness_or_by_its_lean():
    """Upright 20 mm; 10° past upright 400·sin 10° + 20·cos 10° = 69.46 + 19.70 = 89.16 mm; 700 mm up in both."""
    for support, behind in ((True, 20), (False, 89.16)):
        box = lidded(support)
        assert opened_of(box).behind == pytest.approx(behind, abs=0.01)
        assert opened_of(box).up == pytest.approx(700)
        for off in (0.0, 100.0):
            place = {"walls": walls(2000.0), "stands": [{"module": "box", "wall": "a", "off": off}]}
            room, found = arranged(place, {"box": box})
            said = opening_findings(found, room, clear_fronts(found, room), opened_pieces(found))
            assert [f.code for f in said] == ([] if off else ["lid-hits-wall"])


def test_a_drawer_needs_its_own_depth_in_front():
    """A box on slides 450 deep, a case 300 in front of it."""
    chest = block(600, 500, 700)
    drawer = chest.part("drawer", 450, 200, "board", name="drawer")
    drawer.lay("y", "z").put(x0=0, y0=20, z0=300)
    chest.join("sliding", drawer, chest.parts["block"])
    assert opened_of(chest).front == pytest.approx(450)
    stands = [{"module": "chest", "x": 0.0, "y": 500.0}, {"module": "case", "x": 0.0, "y": 1200.0}]
    room, found = arranged({"stands": stands}, {"chest": chest, "case": block(600, 400, 1800)})
    said = opening_findings(found, room, clear_fronts(found, room), opened_pieces(found))
    assert [(f.code, f.value, f.limit) for f in said] == [("opening-blocked", pytest.approx(300), pytest.approx(450))]


def test_a_tall_case_sweeps_its_diagonal_as_it_is_tipped_up():
    """600 deep and 2400 tall: √(600² + 2400²) = 2473.9."""
    case = block(800, 600, 2400)
    place = {"ceiling": 2450.0, "walls": walls(3000.0), "stands": [{"module": "case", "wall": "a"}]}
    room, found = arranged(place, {"case": case})
    (said,) = ceiling_findings(found, room)
    assert (said.code, said.value) == ("cannot-tilt-up", pytest.approx(2473.863, abs=0.001))
    room, found = arranged({**place, "ceiling": 2380.0}, {"case": case})
    assert [f.code for f in ceiling_findings(found, room)] == ["does-not-fit-place"]
