"""Where the pieces of a set stand, each place worked out by hand in the test; no two neighbours ever overlap."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floor_blocks import arranged, block, walls
from scantling.mechanics.floor_plan import overlap_depth
from scantling.plan.levelling import level_findings, raised_feet
from scantling.plan.room_checks import overlap_findings
from scantling.plan.room_doors import ceiling_findings, door_findings, wall_findings
from scantling.plan.walking import clear_fronts, walkway_findings
from scantling.plan.wall_fit import fit_findings, fits_of, gap_findings, largest_gap

LONG, CORNER, SHORT = block(1500, 600, 400), block(600, 600, 400), block(1000, 600, 400)
L_OF_THREE = [
    {"module": "long", "wall": "a"},
    {"module": "corner", "wall": "a", "corner": True},
    {"module": "short", "wall": "b"},
]
SET = {"long": LONG, "corner": CORNER, "short": SHORT}


def front_left(arrangement):
    return [tuple(round(c, 3) for c in s.corner(False, False)) for s in arrangement.stood]


def test_a_row_along_a_wall_starts_at_its_left_end():
    """Widths 1500 and 1000 with 200 between: fronts 600 out, left corners at 0 and at 1700."""
    stands = [{"module": "long", "wall": "a"}, {"module": "short", "wall": "a", "gap": 200.0}]
    _, found = arranged({"walls": walls(3000.0), "stands": stands}, {"long": LONG, "short": SHORT})
    assert front_left(found) == [(0, 600), (1700, 600)]
    assert found.used == (2700,)
    assert [s.left for s in found.stood] == [None, None]  # 200 mm apart: no neighbours


def test_round_a_square_corner():
    """Wall a is 2200: its row takes 1500 + 600, so the set stands against the corner and leaves 100 at the left end.

    Wall b runs down from 2200, 0; the corner piece is turned a quarter, its front left corner 600 from both walls.
    """
    _, found = arranged({"walls": walls(2200.0, 2000.0), "stands": L_OF_THREE}, SET)
    assert front_left(found) == [(100, 600), (1600, 0), (1600, 600)]
    assert [s.pose.turn for s in found.stood] == [0, 90, 90]
    assert [s.left for s in found.stood] == [None, 0, 1]
    assert found.lines[1].at == (2200, 0)
    assert found.lines[1].end == (2200, 2000)
    assert largest_gap(found).gap == pytest.approx(0, abs=1e-9)


def test_an_acute_corner_leaves_a_gap_behind_the_corner_seat():
    """Legs of 1000 and a diagonal of 2·1000·sin(44.5°) make 89°. Flush with the longer wall (2100 against 1600), the
    far end of the shorter row touches its wall, and at the corner 1600·sin(1°) = 27.92 mm stay open.
    """
    diagonal = 2000 * math.sin(math.radians(44.5))
    place = {"walls": walls(2200.0, 2000.0, corner=(1000.0, 1000.0, diagonal)), "stands": L_OF_THREE}
    room, found = arranged(place, SET)
    assert found.lines[0].corner == pytest.approx(89)
    gap = largest_gap(found)
    assert gap.gap == pytest.approx(1600 * math.sin(math.radians(1)), abs=1e-6)
    assert (gap.module, gap.wall) == ("corner", "b")
    assert gap.along == pytest.approx(0.0, abs=0.6)  # in the very corner
    assert [f.code for f in gap_findings(found)] == ["gap-behind"]
    touches = [found.lines[1].off(found.stood[2].corner(r, True)) for r in (False, True)]
    assert touches[1] == pytest.approx(0, abs=1e-6)
    # The gap pushes the set along wall a: it takes 2100 and the gap seen along that wall, 27.92/cos(1°).
    taken = next(f.taken for f in fits_of(found, {k: (v, v) for k, v in SET.items()}) if f.wall == "a")
    assert taken == pytest.approx(2100 + 1600 * math.tan(math.radians(1)), abs=1e-6)
    assert fit_findings(fits_of(found, {k: (v, v) for k, v in SET.items()}), found, room) == []


def test_an_obtuse_corner_leaves_the_gap_at_the_far_end():
    """91°: the set touches in the corner and the far end of the shorter row stands 1600·sin(1°) off."""
    diagonal = 2000 * math.sin(math.radians(45.5))
    place = {"walls": walls(2200.0, 2000.0, corner=(1000.0, 1000.0, diagonal)), "stands": L_OF_THREE}
    _, found = arranged(place, SET)
    gap = largest_gap(found)
    assert gap.gap == pytest.approx(1600 * math.sin(math.radians(1)), abs=1e-6)
    assert (gap.module, gap.wall) == ("short", "b")
    assert gap.along == pytest.approx(1600 * math.cos(math.radians(1)), abs=1e-6)


def test_a_corner_that_was_not_measured_is_said():
    _, found = arranged({"walls": walls(2200.0, 2000.0), "stands": L_OF_THREE}, SET)
    (said,) = gap_findings(found)
    assert said.code == "corner-assumed"
    assert "28 mm" in said.message  # 1600·tan(1°) = 27.9


def test_each_height_is_set_against_its_own_run():
    """A back that leans out 60 more only from half its height: at the floor the row of the corner is 60 shorter."""
    leaning = {"corner": block(600, 600, 1200, lean=60), "short": block(1000, 660, 1200)}
    stands = [{"module": "corner", "wall": "a", "corner": True}, {"module": "short", "wall": "b"}]
    place = {"walls": [{"id": "a", "floor": 640.0, "back": 650.0}, {"id": "b", "seat": 1700.0}], "stands": stands}
    room, found = arranged(place, leaning)
    fits = {(f.wall, f.height): f for f in fits_of(found, {k: (v, v) for k, v in leaning.items()})}
    assert fits["a", "floor"].taken == pytest.approx(600)
    assert fits["a", "back"].taken == pytest.approx(660)
    assert fits["b", "seat"].slack == pytest.approx(100)
    (said,) = fit_findings(list(fits.values()), found, room)
    assert (said.code, said.value, said.limit) == ("does-not-fit-place", 660, 650)
    assert "at back height" in said.message and "10 mm shorter" in said.remedy


def test_slack_is_given_at_both_extremes_of_the_stock():
    """Two pieces of 1000 that the thickest stock makes 1004 and the thinnest 998, in a run of 2010."""
    one = block(1000, 600, 400)
    stands = [{"module": "one", "wall": "a"}, {"module": "one", "wall": "a"}]
    room, found = arranged({"walls": walls(2010.0), "stands": stands}, {"one": one})
    thin, thick = block(998, 600, 400), block(1004, 600, 400)
    fits = fits_of(found, {"one": (thin, thick)})
    assert {(f.slack_least, f.slack, f.slack_most) for f in fits} == {(2, 10, 14)}
    assert [f.code for f in fit_findings(fits, found, room)] == ["place-fits-narrowly"]
    fits = fits_of(found, {"one": (thin, block(1007, 600, 400))})
    assert [f.code for f in fit_findings(fits, found, room)] == ["fits-only-thin"]


def test_a_skirting_keeps_the_row_off_unless_its_back_leans_over_it():
    """18 mm of skirting under a straight back: 18 mm off. A back that leans 10 more above it: 8 mm. 30 more: none."""
    for lean, off in ((0, 18), (10, 8), (30, 0)):
        place = {
            "walls": walls(2000.0, skirting={"height": 90.0, "depth": 18.0}),
            "stands": [{"module": "one", "wall": "a"}],
        }
        _, found = arranged(place, {"one": block(1000, 600, 400, lean=lean)})
        assert largest_gap(found).gap == pytest.approx(off), lean
        assert [f.code for f in gap_findings(found)] == (["gap-behind"] if off > 10 else [])


def test_feet_come_up_to_the_highest_of_the_row():
    """4 mm a metre towards the front: a row 600 deep falls 2.4 mm from back to front, all its pieces alike."""
    place = {
        "walls": walls(2200.0, 2000.0),
        "stands": L_OF_THREE,
        "floor": {"fall": 4.0, "towards": "front"},
    }
    room, found = arranged(place, SET)
    raised = raised_feet(found, room.fall)
    assert raised[0] == pytest.approx((2.4, 2.4, 0, 0))  # front left, front right, back right, back left
    assert raised[1] == pytest.approx((0, 2.4, 2.4, 0))  # turned: its left side looks to wall a
    assert raised[2] == pytest.approx((2.4, 6.4, 6.4, 2.4))  # from 600 to 1600 out of wall a
    (said,) = level_findings(found, raised)
    assert said.value == pytest.approx(6.4)
    assert "short" in said.message


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


def test_what_stands_in_another_and_what_hangs_over_it():
    stands = [{"module": "one", "x": 0.0, "y": 600.0}, {"module": "two", "x": 950.0, "y": 600.0}]
    _, found = arranged({"stands": stands}, {"one": SHORT, "two": LONG})
    (said,) = overlap_findings(found)
    assert (said.code, said.value) == ("stands-in-another", pytest.approx(50))


def test_a_tall_case_sweeps_its_diagonal_as_it_is_tipped_up():
    """600 deep and 2400 tall: √(600² + 2400²) = 2473.9."""
    case = block(800, 600, 2400)
    place = {"ceiling": 2450.0, "walls": walls(3000.0), "stands": [{"module": "case", "wall": "a"}]}
    room, found = arranged(place, {"case": case})
    (said,) = ceiling_findings(found, room)
    assert (said.code, said.value) == ("cannot-tilt-up", pytest.approx(2473.863, abs=0.001))
    room, found = arranged({**place, "ceiling": 2380.0}, {"case": case})
    assert [f.code for f in ceiling_findings(found, room)] == ["does-not-fit-place"]


SIZES = st.tuples(st.floats(200, 2500), st.floats(200, 900))


@settings(max_examples=60, deadline=None)
@given(
    first=st.lists(SIZES, min_size=0, max_size=3),
    second=st.lists(SIZES, min_size=0, max_size=3),
    corner=st.floats(250, 1000),
    angle=st.floats(80, 100),
)
def test_neighbours_never_stand_in_each_other_and_nothing_stands_in_its_wall(first, second, corner, angle):
    pieces = {f"a{i}": block(w, d, 400) for i, (w, d) in enumerate(first)}
    pieces |= {f"b{i}": block(w, d, 400) for i, (w, d) in enumerate(second)}
    pieces["corner"] = block(corner, corner, 400)
    stands = [{"module": k, "wall": k[0]} for k in pieces if k != "corner"]
    stands.append({"module": "corner", "wall": "a", "corner": True})
    diagonal = 2000 * math.sin(math.radians(angle / 2))
    place = {"walls": walls(9000.0, 9000.0, corner=(1000.0, 1000.0, diagonal)), "stands": stands}
    _, found = arranged(place, pieces)
    for stood in found.stood:
        if stood.left is not None:
            assert overlap_depth(stood.outline, found.stood[stood.left].outline) == pytest.approx(0, abs=0.01)
        off = min(line.off(p) for line in found.lines for p in stood.outline if stood.stand.wall is not None)
        assert off > -0.01
