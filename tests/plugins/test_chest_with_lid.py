"""The chest: the inside asked for, air, runners, and a lid that is told what holds it."""

import pytest

from pieces import build
from scantling.board import Hole
from scantling.kit import AssemblyError


@pytest.mark.parametrize("panel", [17.1, 18.0, 18.5])
def test_the_inside_is_what_was_asked(panel):
    piece = build("chest-with-lid", {"width": 900, "depth": 400, "height": 350}, panel=panel)
    p = piece.parts
    assert p["right end"].x0 - p["left end"].x1 == pytest.approx(900)
    assert p["back"].y0 - p["front"].y1 == pytest.approx(400)
    assert p["front"].z1 - p["bottom"].z1 == pytest.approx(350)


def test_each_end_has_the_vents_a_closed_chest_needs():
    """EN 71-style text: from 0.03 m³ two vents of 650 mm² at least, 150 mm apart at least (screening)."""
    piece = build("chest-with-lid")
    for end in ("left end", "right end"):
        holes = [c for c in piece.parts[end].cuts if isinstance(c, Hole) and c.purpose == "vent"]
        assert len(holes) == 2
        assert all(3.14159 * h.diameter**2 / 4 >= 650 for h in holes)
        assert abs(holes[0].x - holes[1].x) >= 150
        assert all(h.y < piece.parts["front"].z1 - piece.parts["front"].z0 - 20 for h in holes)


def test_the_supports_are_told_the_torque_of_the_lid():
    """Weight at half the depth: 90 in·lbf for 10 lb on 18 in, plain statics."""
    piece = build("chest-with-lid")
    lid = piece.parts["lid"]
    torque = lid.mass_kg() * 9.80665 * (lid.width / 2) / 1000
    (said,) = [h.says for h in piece.hardware if h.what == "lid support"]
    assert f"{torque:.0f} N m" in said


def test_it_stands_on_runners_that_come_off():
    piece = build("chest-with-lid")
    assert min(p.z0 for p in piece.parts.values() if p.name != "runner") == pytest.approx(38)
    joints = [j for j in piece.joints.values() if any(i.startswith("runner") for i in j.parts)]
    assert joints
    assert not any(j.glued for j in joints)


def test_a_chest_without_room_for_vents_is_not_offered():
    assert build("chest-with-lid", {"depth": 300}).parts
    with pytest.raises(AssemblyError):
        build("plain-bench", {"height": 250, "web": 250})
