"""Where stopped cuts end: the chord of a round blade, and the marks of notches, slots and channels."""

from math import pi, sin

import pytest

from scantling.board.cuts import Recess
from scantling.board.material import RoleMaterial
from scantling.board.part import Part
from scantling.nesting.saws import parse_saws
from scantling.nesting.stopped_cuts import chord_mm, overrun_mm, run_out_mm, stop_of
from scantling.plan.stop_marks import stop_marks

SHOP = parse_saws(
    [
        {"id": "bench saw", "kind": "table saw", "diameter": 254.0},
        {"id": "rail saw", "kind": "track saw", "diameter": 160.0, "depth": 54.0},
        {"id": "jig", "kind": "jigsaw"},
    ]
)


def test_the_chord_of_a_circle():
    """Euclid III.35: half the chord squared is the product of the two parts of the diameter.

    A chord that subtends 60° at the centre is as long as the radius; its height is r·(1 − cos 30°).
    """
    assert chord_mm(250, 125) == 250
    assert chord_mm(250, 0) == 0
    assert chord_mm(200, 100 * (1 - 3**0.5 / 2)) == pytest.approx(100)
    assert chord_mm(200, 100 * (1 - 0.5)) == pytest.approx(2 * 100 * sin(pi / 3))
    with pytest.raises(ValueError, match="0 to 100 mm deep"):
        chord_mm(200, 101)


def test_the_overrun_is_half_the_difference_of_the_two_chords():
    """254 mm blade, 18 mm panel, 3 mm through: √(21·233) − √(3·251) = 69.95 − 27.44 = 42.51 mm, by hand."""
    assert overrun_mm(254, 18, 3) == pytest.approx(69.95 - 27.44, abs=0.01)
    assert overrun_mm(160, 18, 3) == pytest.approx((21 * 139) ** 0.5 - (3 * 157) ** 0.5)


def test_a_long_stopped_cut_never_runs_past_its_line_on_either_face():
    rail = stop_of(300, 18, SHOP)
    assert (rail.saw, rail.against, rail.seen, rail.length) == ("rail saw", "above", 300, 300)
    bench = stop_of(300, 18, parse_saws([{"id": "bench saw", "kind": "table saw", "diameter": 254.0}]))
    assert (bench.saw, bench.against) == ("bench saw", "below")
    assert bench.seen == pytest.approx(300 - overrun_mm(254, 18))
    assert "hand saw" in bench.in_words()


def test_a_short_one_goes_to_a_straight_blade_and_without_saws_to_the_hand_saw():
    assert (stop_of(60, 18, SHOP).saw, stop_of(60, 18, SHOP).overrun) == ("jig", 0.0)
    assert stop_of(60, 18, None).saw == "hand saw"
    # deeper than the rail saw cuts: the table saw does it; too short for its overrun: by hand
    assert stop_of(300, 60, SHOP).saw == "bench saw"
    assert stop_of(30, 18, parse_saws([{"id": "t", "kind": "table saw", "diameter": 254.0}])).saw == "hand saw"


def test_the_run_out_of_a_stopped_channel():
    """6 mm deep with a blade of 254 mm: √(6·248) = 38.57 mm, by hand."""
    saw, short = run_out_mm(6, SHOP)
    assert (saw, short) == ("bench saw", pytest.approx(38.57, abs=0.01))
    assert run_out_mm(6, None) is None


def panel(*cuts: Recess) -> Part:
    material = RoleMaterial("side", "birch-plywood", 18.0, 17.8, 18.2, False, 680.0)
    return Part("side", "side", material, 800.0, 400.0, 18.0, cuts=cuts)


def test_a_notch_in_an_edge_has_two_stopped_cuts_and_a_line_that_joins_them():
    marks = stop_marks(panel(Recess("notch", 100, 150, 320, 400, 0, 18)), SHOP)
    assert [(m.starts_at, m.line_from, m.line_at, m.length) for m in marks] == [
        ("far", "start", 100, 80),
        ("far", "start", 150, 80),
        ("inside", "near", 320, 50),
    ]
    assert marks[0].stop is not None
    assert marks[0].stop.saw == "jig"
    assert marks[2].stop is None


def test_a_notch_at_a_corner_is_sawn_from_both_sides():
    marks = stop_marks(panel(Recess("notch", 600, 800, 0, 250, 0, 18)), SHOP)
    assert sorted((m.starts_at, m.line_from, m.line_at, m.length) for m in marks) == [
        ("end", "near", 250, 200),
        ("near", "start", 600, 250),
    ]
    assert all(m.stop is not None and m.stop.saw == "rail saw" for m in marks)


def test_a_slot_inside_is_begun_in_bored_holes_and_a_cut_that_runs_through_is_not_marked():
    (mark,) = stop_marks(panel(Recess("slot", 100, 200, 100, 120, 0, 18)), SHOP)
    assert mark.starts_at == "inside"
    assert "bore" in mark.words
    assert stop_marks(panel(Recess("notch", 100, 200, 0, 400, 0, 18)), SHOP) == ()


def test_a_stopped_channel_says_how_much_the_chisel_does():
    marks = stop_marks(panel(Recess("dado", 200, 218, 0, 350, 12, 18, stopped=True)), SHOP)
    assert [(m.starts_at, m.line_at) for m in marks] == [("far", 350)]
    assert "chisel the last 38.6 mm" in marks[0].words
    assert stop_marks(panel(Recess("dado", 200, 218, 0, 400, 12, 18)), SHOP) == ()
