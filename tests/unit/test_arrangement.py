"""Where the pieces of a set stand, each place worked out by hand in the test; no two neighbours ever overlap."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floor_blocks import arranged, block, walls
from scantling.mechanics.floor_plan import overlap_depth
from scantling.plan.levelling import level_findings, raised_feet
from scantling.plan.room_checks import overlap_findings
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


def test_what_stands_in_another_and_what_hangs_over_it():
    stands = [{"module": "one", "x": 0.0, "y": 600.0}, {"module": "two", "x": 950.0, "y": 600.0}]
    _, found = arranged({"stands": stands}, {"one": SHORT, "two": LONG})
    (said,) = overlap_findings(found)
    assert (said.code, said.value) == ("stands-in-another", pytest.approx(50))


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
