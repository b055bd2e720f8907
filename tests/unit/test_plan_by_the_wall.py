"""Pieces that open, pieces fixed to the wall: moments by hand, and one finding where the wall settles them."""

from math import atan2, cos, degrees, radians, sin

import pytest

from checked_pieces import checked, codes, piece, row, sheet, shipped
from scantling.mechanics.storage import check_fixed_to_wall, check_one_drawer, check_opened

STRAP = ("wall strap with screws", 2)


def box_with_lid(opens=100.0, lid_deep=450.0, shift=0.0):
    """A box 800 x 400 x 400 mm of four panels, its lid hinged along the back edge; `shift` hangs the lid behind it."""
    a = piece(sheet())
    front = a.part("front", 800, 400, "ply").lay("x", "z").put(x0=0, y0=0, z0=0)
    back = a.part("back", 800, 400, "ply").lay("x", "z").put(x0=0, y1=400, z0=0)
    for id, x in (("left", {"x0": 0.0}), ("right", {"x1": 800.0})):
        end = a.part(id, 364, 400, "ply", name="end").lay("y", "z").put(y0=18, z0=0, **x)
        for other in (front, back):
            a.screws(other, end, n=3, inset=50, role="clamps", glued=True)
    lid = a.part("lid", 800, lid_deep, "ply").lay("x", "y").put(x0=0, y1=400 + shift, z0=401)
    a.hinge(lid, back, edge=("far", "back"), towards="z", opens=opens, clearance=1.0)
    return a


def test_an_open_lid_moves_the_weight_to_the_back():
    a = box_with_lid()
    mass, shut = a.mass_and_centre()
    lid = a.parts["lid"]
    kg = lid.mass_kg()
    found = row(checked(a, family="storage"), "stands", "With its lid open, on a slope")
    # By hand: the lid's middle swings about the pin at the back edge, 0.5 mm under the lid.
    pin = (400.0, 400.5)
    arm = (lid.volume_and_centre()[1][1] - pin[0], lid.volume_and_centre()[1][2] - pin[1])
    turn = radians(-100.0)  # seen from the right, the lid's front rises and goes back
    opened = (
        pin[0] + arm[0] * cos(turn) - arm[1] * sin(turn),
        pin[1] + arm[0] * sin(turn) + arm[1] * cos(turn),
    )
    y = shut[1] + kg / mass * (opened[0] - pin[0] - arm[0])
    z = shut[2] + kg / mass * (opened[1] - pin[1] - arm[1])
    assert found.capacity == pytest.approx(degrees(atan2(min(y, 400 - y), z)), rel=1e-4)
    assert opened[1] > pin[1] + 200


@pytest.mark.parametrize("width", [450, 800])
@pytest.mark.parametrize("depth", [320, 650])
@pytest.mark.parametrize("drawers", [1, 3])
def test_a_cabinet_with_straps_on_its_list_is_never_an_error_for_tipping(width, depth, drawers):
    found = codes(shipped("cabinet", parameters={"width": width, "depth": depth, "drawers": drawers}))
    assert not [code for code, severity in found.items() if code.startswith("tips-") and severity == "error"]
    assert len({"fix-to-wall", "stands-only-fixed"} & set(found)) == 1


def test_what_tips_by_itself_is_an_error_without_a_fixing_and_a_condition_with_one():
    def case(strapped):
        a = piece(sheet())
        sides = {}
        for id, x in (("left", 0.0), ("right", 582.0)):
            sides[id] = a.part(id, 500, 300, "ply", name="side").lay("z", "y").put(x0=x, y0=0, z0=0)
        top = a.part("top", 600, 300, "ply").lay("x", "y").put(x0=0, y0=0, z0=500)
        for side in sides.values():
            a.glue(top, side)
        tray = a.part("tray", 280, 556, "ply").lay("y", "x").put(x0=22, y0=0, z0=200)
        a.slide((tray, sides["left"]), (tray, sides["right"]), towards="-y", by=270, clearance=4.0, id="tray")
        if strapped:
            a.buy(*STRAP)
        return checked(a, family="storage")

    free, fixed = case(False), case(True)
    # By hand: 50 lb (222.4 N) 270 mm before the feet are 60 N m; about 11 kg stand 150 mm behind them
    assert row(free, "stands", "With the drawers open and loaded").demand == pytest.approx(222.4 * 0.270, rel=1e-3)
    assert codes(free)["tips-with-drawers"] == "error"
    assert "tips-with-drawers" not in codes(fixed)
    assert codes(fixed)["stands-only-fixed"] == "warning"
    (said,) = [f for f in fixed.findings if f.code == "stands-only-fixed"]
    assert "2 × wall strap with screws" in said.message
    assert "60 N m is asked for" in said.message


def test_a_lid_that_lies_outside_the_feet_when_open_is_an_error():
    tip = check_opened("its lid open", -5.0, 400.0)
    assert tip.code == "tips-when-open"
    assert [f.severity.value for f in tip.findings()] == ["error"]
    assert check_opened("its lid open", 200.0, 400.0).holds == pytest.approx(26.565, abs=1e-3)
    assert check_opened("its lid open", 200.0, 400.0).findings() == ()


def test_only_what_tips_goes_to_the_wall():
    stands = check_one_drawer(400.0, 200.0, 100.0)
    assert stands.stands
    with pytest.raises(ValueError, match="stands by itself"):
        check_fixed_to_wall([stands], "a strap")


def test_a_cabinet_deep_drawers_and_high_names_its_straps_once():
    found = shipped("cabinet", parameters={"height": 1400, "depth": 350})
    said = [f for f in found.findings if f.code in ("fix-to-wall", "stands-only-fixed")]
    assert len(said) == 1
    assert "wall strap" in said[0].message
    assert all(f.code != "tips-with-drawers" for f in found.findings)
