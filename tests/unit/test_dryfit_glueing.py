"""Glue-ups: what is spread, what presses it, and how it is split over open time and clamps."""

from itertools import pairwise

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


def test_with_clamps_for_one_joint_three_joints_are_three_stages_and_with_more_fewer():
    assert [len(s.joints) for s in ups(panel(4)).stages] == [1, 1, 1]
    assert [len(s.joints) for s in ups(panel(4), (Clamp("bar", 800, 100, 8),)).stages] == [2, 1]
    assert [len(s.joints) for s in ups(panel(4), (Clamp("bar", 800, 100, 12),), Glue("slow", 40, 60)).stages] == [3]


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
    assert finding.code == "clamps-too-short" and finding.value == pytest.approx(178) and "screws" in finding.remedy


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
