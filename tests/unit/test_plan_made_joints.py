"""Joints without screws, read from placed pieces: housings, bolts by the NDS table, sound glue and unsound."""

import pytest

from checked_pieces import HOME, board, checked, codes, piece, row, sheet, shipped
from scantling.board import Fastener, ScrewRole
from scantling.mechanics.exposure import glue_suits
from scantling.mechanics.housed import Housing, check_housing
from scantling.mechanics.loads import dropping
from scantling.mechanics.loads import test_load as published_test
from scantling.plan.circumstances import Circumstances

IN, LB, G = 25.4, 4.448222, 9.80665
HALF_INCH = 13.7  # a hole for a 1/2 in bolt with 1 mm of play


def lapped(kg=100.0, bolts=2):
    """A shelf of 1-1/2 in boards lapped on two posts of the same and bolted with 1/2 in bolts; `kg` stand on it."""
    a = piece(board("wood", 1.5 * IN, 139.7))
    rail = a.part("rail", 1000, 139.7, "wood").lay("x", "z").put(x0=0, y0=0, z1=700)
    for id, x in (("left", 0.0), ("right", 860.3)):
        post = a.part(id, 700, 139.7, "wood", name="post").lay("z", "x").put(x0=x, y0=1.5 * IN, z0=0)
        for i in range(bolts):
            rail.hole(x + 69.85, 40 + 60 * i, HALF_INCH, purpose="bolt")
        a.join("bolted", rail, post)
    a.carries(rail, kind="mass", amount=kg)
    return a


@pytest.mark.parametrize("bolts", [1, 2])
def test_bolts_read_from_their_holes_hold_what_the_table_prints(bolts):
    # NDS 2018 Table 12A: 1/2 in bolt, 1-1/2 in on 1-1/2 in, G 0.50: Z perpendicular 220 lb (printed to 10 lb), CD 1.0
    found = row(checked(lapped(bolts=bolts), family="shelving"), "bolts")
    assert found.capacity / bolts / LB == pytest.approx(220, abs=5)
    assert found.demand == pytest.approx(50 * G, rel=1e-6)
    assert found.governing.startswith(f"{bolts} of 13 mm") or found.governing.startswith(f"{bolts} of 12.7")


def test_overloaded_bolts_are_an_error():
    assert codes(checked(lapped(kg=900, bolts=1), family="shelving"))["bolts-over"] == "error"
    assert "bolts-over" not in codes(checked(lapped(kg=100), family="shelving"))


def bearer(shoulder, glued=True, screws=False):
    """A beam housed 12 mm into two boards on edge, its lower edge `shoulder` mm above theirs; 60 kg stand on it."""
    a = piece(board("wood", 38.0, 140.0))
    beam = a.part("beam", 400 + 24, 140 - shoulder, "wood").lay("x", "z").put(xc=0, yc=0, z1=500)
    for id, x in (("left", {"x1": -200.0}), ("right", {"x0": 200.0})):
        side = a.part(id, 300, 140, "wood", name="side").lay("y", "z").put(yc=0, z1=500, **x)
        for y in (-100, 100):
            leg = a.part(f"leg {id} {y}", 360, 140, "wood", name="leg").lay("z", "x").put(yc=y, z0=0, **x)
            a.glue(side, leg)
        a.housed(beam, side, glued=glued)
        if screws:
            a.screws(side, beam, n=2, gauge=10, inset=30, length=76.2)
    a.carries(beam, kind="mass", amount=60.0)
    return a


def test_a_shoulder_carries_area_times_design_pressure():
    found = row(checked(bearer(12.0), family="shelving"), "housing")
    # NDS Supplement 2018 Table 4A: Douglas Fir-Larch No. 2, Fc perpendicular 625 psi; shoulder 38 x 12 mm
    assert found.capacity == pytest.approx(38 * 12 * 625 * 0.006894757, rel=1e-6)
    assert found.demand == pytest.approx(30 * G, rel=1e-6)


def test_glue_on_end_grain_alone_carries_nothing_and_that_is_said():
    # Wood Handbook, FPL-GTR-190, chapter 10: no dependable bond on end grain
    found = checked(bearer(0.0), family="shelving")
    assert codes(found)["joint-holds-nothing"] == "warning"
    assert "294 N" in next(f.message for f in found.findings if f.code == "joint-holds-nothing")
    assert "joint-holds-nothing" not in codes(checked(bearer(12.0), family="shelving"))
    screwed = checked(bearer(0.0, screws=True), family="shelving")
    assert "joint-holds-nothing" not in codes(screwed)
    assert row(screwed, "screws").demand == pytest.approx(30 * G, rel=1e-6)


def test_a_housing_meets_service_loads_only_and_says_when_it_is_too_small():
    small = Housing("shelf in side", 100.0, 4.0)
    with pytest.raises(ValueError, match="service load"):
        check_housing(small, published_test("home", "seat static"), 100.0)
    assert check_housing(small, dropping(), 300.0).findings() == ()
    assert [f.code for f in check_housing(small, dropping(), 500.0).findings()] == ["housing-over"]


@pytest.mark.parametrize(
    ("glue", "exposure", "suits"),
    [
        ("d2", "dry", True),
        ("d2", "weather", False),
        ("d4", "weather", True),
        (None, "weather", True),
        ("d3", "sheltered", True),
    ],
)
def test_a_glue_is_made_for_a_place_by_its_class(glue, exposure, suits):
    # EN 204:2016 classes of use
    assert glue_suits(glue, exposure) is suits


def test_white_glue_outdoors_leaves_the_back_joint_to_its_screws():
    outdoors = Circumstances(exposure="weather", glue="PVA")
    found = shipped("leaning-seat", outdoors)
    assert "not made for this place" in row(found, "back joint, glue line").note
    screws = row(found, "back joint, screws")
    assert screws.ratio is not None and screws.ratio > 1
    assert codes(found)["back-joint-weak"] == "warning"
    sound = shipped("leaning-seat", Circumstances(exposure="weather", glue="polyurethane"))
    assert row(sound, "back joint, glue line").ratio < 1
    assert row(sound, "back joint, screws").ratio is None
    assert "back-joint-weak" not in codes(sound)


def test_a_joint_with_play_is_filled_and_not_glued():
    a = bearer(0.0)
    tight = checked(a, family="shelving")
    b = piece(board("wood", 38.0, 140.0))
    post = b.part("post", 500, 140, "wood").lay("z", "x").put(x0=0, y0=0, z0=0)
    arm = b.part("arm", 400, 140, "wood").lay("x", "z").put(x0=0, y0=38, z1=500)
    b.join("glue", arm, post, glued=True, clearance=0.5)
    b.carries(arm, kind="mass", amount=20.0)
    loose = checked(b, family="shelving")
    assert "filled by glue" in next(f.message for f in loose.findings if f.code == "joint-holds-nothing")
    assert "filled by glue" not in next(f.message for f in tight.findings if f.code == "joint-holds-nothing")


def corner_of_two_backs():
    """A stool with a back behind and one at its right, alike in boards, sizes and joints."""
    a = piece(board("wood", 38.0, 89.0), sheet())
    seat = a.part("seat", 500, 500, "ply").lay("x", "y").put(x0=0, y0=0, z0=400)
    for x in (0.0, 482.0):
        leg = a.part(f"leg {x:.0f}", 400, 500, "ply", name="leg").lay("z", "y").put(x0=x, y0=0, z0=0)
        a.glue(seat, leg)
    a.carries(seat, kind="sitter")
    for name, along, across in (("rear", "x", "y"), ("side", "y", "x")):
        posts = []
        for at in (60.0, 440.0):
            post = a.part(f"{name} post {at:.0f}", 500, 89, "wood", name=f"{name} post").lay("z", along)
            post.put(z0=300, **{f"{along}c": at, f"{across}0": 500.0})
            a.screws(post, seat, n=2, inset=20, off=0.0, role="holds", length=63.5)
            posts.append(post)
        slat = a.part(f"{name} slat", 500, 89, "wood").lay(along, "z")
        slat.put(z1=780, **{f"{along}0": 0.0, f"{across}1": 500.0})
        for post in posts:
            a.screws(slat, post, n=2, inset=20, length=63.5)
        a.carries(slat, kind="leaning")
    return a


def test_a_back_at_the_side_is_pushed_sideways():
    found = checked(corner_of_two_backs(), HOME)
    rear, side = (row(found, "shear", f"{name} slat", "back static") for name in ("rear", "side"))
    assert side.demand == pytest.approx(rear.demand, rel=1e-9)
    posts = [row(found, "bending", f"{name} post", "back static") for name in ("rear", "side")]
    assert posts[1].demand == pytest.approx(posts[0].demand, rel=1e-9)
    screws = [r for r in found.rows if r.check == "back joint, screws"]
    assert {r.subject.split()[0] for r in screws} == {"rear", "side"}


def dowelled(kg, n=2, diameter=10.0):
    """A rail between two posts on `n` dowels of 10 x 60 mm at each end, half in each; `kg` stand on the rail."""
    a = piece(board("wood", 38.0, 89.0))
    rail = a.part("rail", 500, 89, "wood").lay("x", "z").put(x0=38, y0=0, z1=500)
    for id, x, way in (("left", {"x1": 38.0}, 1.0), ("right", {"x0": 538.0}, -1.0)):
        post = a.part(id, 500, 89, "wood", name="post").lay("z", "y").put(y0=0, z0=0, **x)
        joint = a.join("dowels", rail, post, glued=True)
        for i in range(n):
            at = (8.0 if way > 0 else 568.0, 19.0, 430.0 + 30 * i)
            name = f"D{len(a.fasteners) + 1}"
            role = ScrewRole.HOLDS
            a.fasteners[name] = Fastener(
                name, "dowel", 0, diameter, 60.0, at, (way, 0.0, 0.0), (post.id, "rail"), role, joint.id
            )
    a.carries(rail, kind="mass", amount=kg)
    return checked(a, family="shelving")


def test_dowels_are_screened_by_the_yield_of_a_wooden_pin_and_only_warn():
    found = row(dowelled(50.0), "dowels")
    assert found.status == "memory"
    assert found.demand == pytest.approx(25 * G, rel=1e-6)
    # NDS 2018 12.3.1 mode IV by hand: D^2/Rd sqrt(2 Fem Fyb/(3 (1 + Re))), Rd 4 at 90 degrees, Douglas-fir 0.50
    fe = 6100 * 0.50**1.45 / (10 / IN) ** 0.5
    fyb = 12300 * (1 - 1.645 * 0.16)
    mode_iv = (10 / IN) ** 2 / (3.2 * 1.25) * (2 * fe * fyb / 6) ** 0.5 * LB
    assert found.capacity == pytest.approx(2 * mode_iv, rel=3e-3)
    assert codes(dowelled(50.0)).get("dowels-over") is None
    assert codes(dowelled(400.0))["dowels-over"] == "warning"


def test_dowels_that_are_only_named_want_to_be_placed():
    a = piece(board("wood", 38.0, 89.0))
    rail = a.part("rail", 500, 89, "wood").lay("x", "z").put(x0=38, y0=0, z1=500)
    for id, x in (("left", {"x1": 38.0}), ("right", {"x0": 538.0})):
        post = a.part(id, 500, 89, "wood", name="post").lay("z", "y").put(y0=0, z0=0, **x)
        a.join("dowels", rail, post)
    a.carries(rail, kind="mass", amount=50.0)
    assert "place its dowels" in row(checked(a, family="shelving"), "joint").note
