"""Glue-ups: what is spread, what presses it, and how it is split over open time and clamps."""

from itertools import pairwise
from math import inf

import pytest

from dryfit_pieces import bench, empty, tray
from scantling.dryfit import Clamp, DryfitSettings, Glue, glue_ups, verify

BAR = Clamp("bar clamp", 800.0, 100.0, 4)
PVA = Glue("PVA", 8.0, 45.0)


def ups(piece, clamps=(BAR,), glue=PVA):
    return glue_ups(piece, verify(piece).order, clamps, glue, DryfitSettings())


def panel(n, length=700.0):
    """Return boards glued edge to edge."""
    piece = empty()
    row = [piece.part(f"board {k}", length, 89, "pine").lay("x", "y").put(x0=0, y0=89 * k, z0=0) for k in range(n)]
    for a, b in pairwise(row):
        piece.glue(a, b)
    return piece


def test_an_edge_joint_takes_clamps_every_200_mm_and_cauls():
    """Plain counting: 700 mm of joint at 200 mm want four clamps (700.x/200 rounded up)."""
    found = ups(panel(2))
    (stage,) = found.stages
    assert (stage.clamps, stage.cauls, stage.pressed_by) == (4, 2, ("clamps",))
    # 2 × 700 × 38 mm² spread at 0.1 min a dm², half a minute to place, half a minute a clamp: our assumptions
    assert stage.minutes == pytest.approx(2 * 7.0 * 0.38 * 0.1 + 0.5 + 4 * 0.5)
    assert stage.wait_min == 45 and found.findings == ()


def test_clamps_across_a_panel_press_all_of_its_joints_and_open_over_the_whole_of_it():
    """Four boards of 89 mm and two cauls of 18 mm are 392 mm from jaw to jaw; four clamps, not twelve."""
    (stage,) = ups(panel(4)).stages
    (across,) = stage.squeezes
    assert (len(across.joints), across.clamps, across.cauls) == (3, 4, 2)
    assert across.opening == pytest.approx(4 * 89 + 2 * 18) and across.inwards == 0
    assert stage.minutes == pytest.approx(3 * (2 * 7.0 * 0.38 * 0.1 + 0.5) + 4 * 0.5)


def test_a_panel_wider_than_the_clamps_open_is_not_clamped_in_one_go():
    """Clamps of 300 mm open over two boards and cauls (214) and three (303) only without: two stages, one finding."""
    found = ups(panel(4), (Clamp("short", 300.0, 100.0, 8),))
    assert "clamps-too-short" in {f.code for f in found.findings}
    assert max(f.value for f in found.findings) == pytest.approx(4 * 89 + 36)


def test_glue_that_is_open_for_one_joint_makes_one_stage_of_each():
    assert [len(s.joints) for s in ups(panel(4), glue=Glue("quick", 4.0, 20)).stages] == [1, 1, 1]


def frame(rails=1):
    """Two standing boards with rails between their faces, glued without screws."""
    piece = empty()
    left = piece.part("left", 400, 300, "ply").lay("z", "y").put(x0=0, y0=0, z0=0)
    right = piece.part("right", 400, 300, "ply").lay("z", "y").put(x1=636, y0=0, z0=0)
    for k in range(rails):
        rail = piece.part(f"rail {k}", 600, 60, "ply").lay("x", "z").put(x0=18, y0=20 + 200 * k, z0=100)
        for side in (left, right):
            piece.glue(rail, side)
    return piece


def test_a_clamp_over_a_frame_spans_both_sides_and_the_rail_between_them():
    """18 + 600 + 18 mm from outside to outside; one pair presses both ends of the rail, in 11 mm from the edge."""
    (stage,) = ups(frame(), (Clamp("long", 900, 300, 8),), Glue("slow", 40, 60)).stages
    (across,) = stage.squeezes
    assert set(across.joints) == {"rail 0 to left", "rail 0 to right"} and across.clamps == 1
    assert across.opening == pytest.approx(636) and across.inwards == pytest.approx(20)
    assert [(j, m) for j, _, m in stage.waits] == [("rail 0 to left", 60), ("rail 0 to right", 60)]


def test_two_rails_want_their_own_clamps():
    (stage,) = ups(frame(2), (Clamp("long", 900, 300, 8),), Glue("slow", 40, 60)).stages
    assert [len(s.joints) for s in stage.squeezes] == [2, 2] and stage.clamps == 2


def test_a_cleat_in_the_middle_of_a_panel_wants_a_throat_that_reaches_it():
    """The cleat begins 130 mm from the nearest edge of the 600 by 400 panel; the stack is 36 mm thick."""
    piece = empty()
    base = piece.part("base", 600, 400, "ply").put(x0=0, y0=0, z0=0)
    cleat = piece.part("cleat", 200, 60, "ply").put(x0=200, y0=130, z0=18)
    piece.glue(base, cleat)
    (across,) = ups(piece, (Clamp("deep", 200, 200, 4),)).stages[0].squeezes
    assert across.opening == pytest.approx(36) and across.inwards == pytest.approx(130)
    (finding,) = ups(piece, (Clamp("shallow", 200, 100, 4),)).findings
    assert (finding.code, finding.value, finding.limit) == ("clamps-too-short", pytest.approx(130), 100)


def test_a_short_clamp_of_unknown_throat_sets_no_limit():
    """Whoever gave no throat is not checked on it: the limit named is that of the clamps that are long enough."""
    piece = empty()
    base = piece.part("base", 600, 400, "ply").put(x0=0, y0=0, z0=0)
    piece.glue(base, piece.part("cleat", 200, 60, "ply").put(x0=200, y0=130, z0=18))
    clamps = (Clamp("tiny", 20, inf, 4), Clamp("shallow", 200, 100, 4))
    (finding,) = ups(piece, clamps).findings
    assert (finding.code, finding.limit) == ("clamps-too-short", 100)


def test_long_clamps_are_kept_for_what_only_they_span():
    """The frame takes the only long clamp, the cleat outside on it the two short ones: all closes at once.

    With two long clamps and nothing else, the cleat, which wants two of them, waits for the next glue-up.
    """
    piece, slow = frame(), Glue("slow", 40, 60)
    cleat = piece.part("cleat", 250, 60, "ply").lay("y", "z").put(x1=0, y0=0, z0=300)
    piece.glue(cleat, piece.parts["left"])
    short, one, two = Clamp("short", 150, 100, 2), Clamp("long", 900, 300, 1), Clamp("long", 900, 300, 2)
    assert [len(s.squeezes) for s in ups(piece, (short, one), slow).stages] == [2]
    assert [len(s.squeezes) for s in ups(piece, (two,), slow).stages] == [1, 1]
    assert ups(piece, (short, one), slow).findings == ups(piece, (two,), slow).findings == ()


def test_no_stage_outlasts_the_open_time_when_its_joints_do_not():
    found = ups(panel(6), (Clamp("bar", 800, 100, 99),), Glue("quick", 5.0, 20.0))
    assert len(found.stages) > 1
    assert all(s.minutes <= 0.8 * 5.0 for s in found.stages)
    assert [j for s in found.stages for j in s.joints] == [f"board {k} to board {k + 1}" for k in range(5)]


def test_screws_and_tape_press_without_clamps_and_screws_need_no_wait():
    piece = bench()
    for joint in piece.joints.values():
        assert not joint.glued
    assert ups(piece).stages == ()
    fold = next(s for s in ups(tray(), (Clamp("bar", 800, 200, 20),)).stages if "tape" in s.pressed_by)
    assert fold.wait_min == 45


@pytest.mark.parametrize("clamps", [(), (Clamp("small", 150.0, 60.0, 8),), (Clamp("shallow", 100.0, 500.0, 9),)])
def test_clamps_that_do_not_span_are_a_finding_with_a_way_out(clamps):
    (finding,) = ups(panel(2), clamps).findings
    assert finding.code == "clamps-too-short" and "screws" in finding.remedy
    assert finding.value == pytest.approx(2 * 89 + 2 * 18)  # both boards and a caul on either side


@pytest.mark.parametrize("count", [1, 3])
def test_too_few_clamps_for_one_joint_are_a_finding(count):
    (finding,) = ups(panel(2), (Clamp("bar", 800, 100, count),)).findings
    assert (finding.code, finding.value, finding.limit) == ("clamps-too-few", 4, count)


@pytest.mark.parametrize("minutes", [1.0, 3.0])
def test_glue_that_skins_over_before_one_joint_is_closed_is_a_finding(minutes):
    (finding,) = ups(panel(2), glue=Glue("contact", minutes, 10)).findings
    assert finding.code == "open-time-too-short" and finding.limit == pytest.approx(0.8 * minutes)


def test_two_rows_of_screws_in_one_pair_of_faces_are_spread_once():
    piece = empty()
    a = piece.part("a", 400, 300, "ply").put(x0=0, y0=0, z0=0)
    b = piece.part("b", 400, 300, "ply").put(x0=0, y0=0, z0=18)
    for off in (-80, 80):
        piece.screws(a, b, n=3, off=off, role="clamps", glued=True)
    (stage,) = ups(piece, ()).stages
    assert stage.joints == ("a to b",) and stage.wait_min == 0
    assert stage.minutes == pytest.approx(2 * 12 * 0.1 + 0.5 + 6 * 0.15)
