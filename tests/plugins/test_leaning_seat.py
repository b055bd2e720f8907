"""The leaning seat: every size follows from the cushions and the measured thickness; checked by plain geometry."""

from itertools import pairwise
from math import atan2, cos, degrees, radians, sin, tan

import pytest

from pieces import build
from scantling.board import cut_list, patches, saw_settings
from scantling.kit import AssemblyError

CUSHION = {"width": [550, 556], "depth": 560, "thickness": 120, "loaded": [80, 84]}


def seat(**parameters):
    return build("leaning-seat", {"seat_cushion": CUSHION, **parameters})


def test_the_row_is_the_cushions_and_the_gaps_between_them():
    piece = seat(bays=3, cushion_gap=4, arms="none")
    low, high = piece.bounds()
    assert high[0] - low[0] == pytest.approx(3 * 553 + 4 * 4)


def test_taking_an_arm_away_takes_its_post_away():
    """An arm post stands outside the end rib: case O23, a sofa without one arm is shorter by the arm."""
    bounds = {arms: seat(arms=arms).bounds() for arms in ("both", "left", "none")}
    widths = {arms: high[0] - low[0] for arms, (low, high) in bounds.items()}
    assert widths["both"] - widths["left"] == pytest.approx(38)
    assert widths["left"] - widths["none"] == pytest.approx(38)


def test_the_bare_seat_lies_below_the_sitter_by_the_compressed_cushion():
    piece = seat(seat_height=430)
    deck = max(p.z1 for p in piece.parts.values() if p.name == "seat slat")
    assert deck == pytest.approx(430 - 82)


def test_the_slack_of_the_row_is_answered_at_both_extremes():
    (finding,) = [f for f in seat(bays=2, arms="none").findings if f.code == "cushion-row-slack"]
    assert finding.value == pytest.approx(2 * 553 - 2 * 556)
    assert "6 mm with the narrowest" in finding.message


@pytest.mark.parametrize("lean", [5, 12, 25])
def test_posts_lean_as_told_and_their_ends_are_parallel_and_level(lean):
    """Case O24: uprights of a leaning back have both ends cut at the lean, so that both stand level."""
    piece = seat(lean=lean)
    post = piece.parts["post 1"]
    assert [s.mitre for s in saw_settings(post)] == pytest.approx([lean, lean])
    assert post.plane("start").normal == pytest.approx((0, 0, -1), abs=1e-9)
    assert post.plane("end").normal == pytest.approx((0, 0, 1), abs=1e-9)
    assert degrees(atan2(post.frame.along[1], post.frame.along[2])) == pytest.approx(lean)


def test_the_lean_may_be_given_as_rise_over_run():
    assert seat(lean="1 in 5").parts["post 1"].frame.along[1] == pytest.approx(sin(atan2(1, 5)))


def test_the_back_slats_lie_on_the_posts_and_start_clear_of_the_seat():
    piece = seat(lean=15)
    post, slat = piece.parts["post 1"], piece.parts["back slat 1"]
    (patch, *_) = patches(slat, post)
    assert (patch.least_gap, patch.greatest_gap) == pytest.approx((0, 0), abs=0.01)
    front = post.pt("start", "near", "face")
    assert slat.plane("back").height(front) == pytest.approx(0, abs=0.01)


def test_the_cushion_depth_is_kept_between_rail_and_back():
    """Along the bare seat, from the front rail to the face of the back, lies exactly the cushion's depth."""
    piece = seat(lean=12)
    rail, slat = piece.parts["front rail"], piece.parts["back slat 1"]
    deck = max(p.z1 for p in piece.parts.values() if p.name == "seat slat")
    face = slat.plane("face")
    y = (face.offset - face.normal[2] * deck) / face.normal[1]
    assert y - rail.y1 == pytest.approx(560, abs=0.02)


@pytest.mark.parametrize("frame", [17.1, 18.0, 18.5])
def test_parts_shrink_and_grow_with_the_sheet_so_that_everything_still_touches(frame):
    piece = build("leaning-seat", {"seat_cushion": CUSHION}, frame=frame)
    for joint in piece.joints.values():
        a, b = (piece.parts[i] for i in joint.parts[:2])
        assert min(abs(p.least_gap) for p in patches(a, b)) < 0.05


def test_deck_slats_fill_the_deck_with_even_gaps_and_the_last_takes_the_rest():
    piece = seat()
    chain = next(c for c in piece.chains if c.name == "deck")
    slats = [p for p in piece.parts.values() if p.name == "seat slat"]
    gaps = [b.y0 - a.y1 for a, b in pairwise(slats)]
    assert gaps == pytest.approx([5.0] * len(gaps), abs=0.02)
    assert chain.closing == slats[-1].id
    assert sum(link.size for link in chain.links) == pytest.approx(chain.total)


def test_overall_height_is_the_top_of_the_back():
    piece = seat(back_height=400, lean=20)
    assert piece.bounds()[1][2] == pytest.approx(348 + 400, abs=0.02)


def test_arms_are_a_handed_pair_only_where_the_boards_differ():
    rows = {row.parts: row for row in cut_list(seat(arms="both"))}
    assert ("arm left", "arm right") in rows


def test_a_seat_too_low_for_its_cushion_is_refused_in_words():
    with pytest.raises(AssemblyError, match="raise the seat height"):
        seat(seat_height=330, seat_cushion={"width": 560, "depth": 560, "thickness": 220, "loaded": 200})


def test_true_length_of_a_leaning_post():
    """Length along the lean = rise / cos(lean) plus the skew of the level cuts across the width, plain geometry."""
    piece = seat(lean=12, back_height=420)
    post = piece.parts["post 1"]
    rise = (348 + 420) - 30
    assert post.length == pytest.approx(rise / cos(radians(12)) + 89 * tan(radians(12)), abs=0.01)
