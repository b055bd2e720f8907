"""Arms pressed down and pushed level, posts and joints worked out by hand; loads from the published seating tests."""

import pytest

from checked_pieces import board, checked, codes, piece, row, sheet, shipped
from scantling.mechanics.loads import arm_load, arm_side_load
from scantling.mechanics.validity import OutOfValidity
from scantling.plan.circumstances import Circumstances

LBF = 4.448222


def chair_with_arms(gauge=10, length=63.5, n=2, post_h=600.0):
    """A plywood seat on plywood ends, posts of 1-1/2 x 3-1/2 in screwed outside them, a board on each pair as arm."""
    a = piece(board("wood", 38.0, 89.0), sheet())
    seat = a.part("seat", 560, 500, "ply").lay("x", "y").put(x0=0, y0=0, z0=400)
    for hand, x in (("left", {"x0": 0.0}), ("right", {"x1": 560.0})):
        end = a.part(f"end {hand}", 400, 500, "ply", name="end").lay("z", "y").put(y0=0, z0=0, **x)
        a.glue(seat, end)
        out = {"x1": 0.0} if hand == "left" else {"x0": 560.0}
        posts = []
        for y in (60.0, 440.0):
            post = a.part(f"post {hand} {y:.0f}", post_h, 89, "wood", name="arm post").lay("z", "y")
            post.put(yc=y, z0=30, **out)
            a.screws(end, post, n=n, gauge=gauge, inset=60, role="holds", length=length)
            posts.append(post)
        arm = a.part(f"arm {hand}", 500, 89, "wood", name="arm").lay("y", "x").put(y0=0, z0=30 + post_h, **out)
        if hand == "left":
            arm.put(x1=0.0)
        for post in posts:
            a.screws(arm, post, n=2, gauge=10, inset=20, role="locates", length=101.6)
        a.carries(arm, kind="arm")
    a.carries(seat, kind="sitter")
    return a


def test_the_published_arm_loads():
    # ANSI/BIFMA X5.4-2012 section 9, functional load, as a test house describes it: 100 lbf; 133 lbf over 35 in
    assert arm_side_load("home", 560.0).force_n == pytest.approx(100 * LBF, rel=1e-4)
    assert arm_side_load("public", 35 * 25.4 + 1).force_n == pytest.approx(133 * LBF, rel=1e-4)
    assert arm_side_load("home", 35 * 25.4).force_n == pytest.approx(100 * LBF, rel=1e-4)
    assert arm_load("home").force_n == 700.0  # EN 581-2 (2009 text), arm vertical static load
    with pytest.raises(OutOfValidity):
        arm_side_load("home", 0.0)


def test_a_post_under_an_arm_bends_as_a_cantilever_above_the_end_it_is_screwed_to():
    found = row(checked(chair_with_arms()), "bending", "arm post", "arm sideways")
    lever = (630 + 19) - 400  # the middle of the arm over the top of the end
    force = 444.8
    assert found.demand == pytest.approx(force * lever * 6 / (89 * 38**2), rel=1e-6)


def test_the_screws_of_a_post_are_drawn_out_by_the_moment_about_the_lower_edge():
    found = row(checked(chair_with_arms(n=2)), "arm joint, screws", "arm post to end")
    heights = (60.0, 370.0 - 60.0)  # above the lower edge of the post, which touches the end from 30 to 400 mm
    moment = 444.8 * (630 + 19 - 30)
    assert found.demand == pytest.approx(moment * heights[1] / sum(h**2 for h in heights), rel=1e-6)
    glue = [r for r in checked(chair_with_arms()).rows if r.check == "arm joint, glue line"]
    assert glue == []


def test_high_arms_on_two_small_screws_are_found_weak():
    weak = checked(chair_with_arms(gauge=6, length=28.0, n=2, post_h=800.0))
    assert codes(weak)["arm-joint-weak"] in ("warning", "error")
    assert "arm-joint-weak" not in codes(checked(chair_with_arms(gauge=14, length=50.8, n=3)))


def test_the_arms_that_ship_stand_a_push_across_them():
    found = shipped("leaning-seat")
    for check in ("arm joint, screws", "arm on its post, screws"):
        assert row(found, check).ratio < 1
    assert "arm-joint-weak" not in codes(found)
    assert "peeled" in row(found, "arm joint, glue line").note


def test_an_arm_on_screws_too_small_for_a_push_is_a_warning_with_what_would_do():
    a = chair_with_arms()
    first = {f.joint: id for id, f in reversed(a.fasteners.items()) if f.parts[0].startswith("arm")}
    for id in first.values():  # one thin screw where two thick ones were, out in the weather
        del a.fasteners[id]
    for f in a.fasteners.values():
        if f.parts[0].startswith("arm"):
            object.__setattr__(f, "gauge", 6)
            object.__setattr__(f, "length", 63.5)
    found = checked(a, Circumstances(exposure="weather"))
    said = [f for f in found.findings if f.code == "arm-joint-weak"]
    assert row(found, "arm on its post, screws").ratio > 1
    assert [f.severity.value for f in said] == ["warning"]
    assert "445 N" in said[0].message
    assert "thicker" in said[0].remedy
