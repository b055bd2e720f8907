"""The storage footstool: folded legs that meet, sides that fit between, a lid that lies on them with play."""

import pytest

from pieces import build
from scantling.board import cut_list, patches
from scantling.kit import AssemblyError


def stool(**parameters):
    return build("storage-footstool", parameters)


def test_overall_sizes_are_those_of_the_cushion_and_the_height():
    top = {"width": 500, "depth": 420, "thickness": 100, "loaded": 70}
    low, high = stool(top_cushion=top, height=400).bounds()
    assert (high[0] - low[0], high[1] - low[1], high[2] - low[2]) == pytest.approx((500, 420, 400 - 70))


@pytest.mark.parametrize("frame", [17.1, 18.0, 18.5])
@pytest.mark.parametrize("panel", [8.5, 9.0, 9.5])
def test_folded_mitres_and_glued_joints_close_at_every_thickness(frame, panel):
    piece = build("storage-footstool", frame=frame, panel=panel)
    for joint in piece.joints.values():
        if not joint.glued:
            continue
        for a, b in zip(joint.parts, joint.parts[1:], strict=False):
            touching = patches(piece.parts[a], piece.parts[b])
            assert touching, f"{joint.id} does not touch"
            assert min(abs(p.least_gap) for p in touching) < 0.01, joint.id


def test_leg_strips_are_one_setting_of_the_saw_and_every_mitre_is_45():
    rows = [r for r in cut_list(stool()) if r.name == "leg strip"]
    assert len(rows) == 1
    assert len(rows[0].parts) == 8
    assert [s.bevel for s in rows[0].settings] == [45.0]


def test_the_folded_corner_adds_up_to_the_outside_width():
    """Two legs and the strip between are the outside width: a folded mitre loses nothing outside (plain geometry)."""
    piece = stool()
    front = [piece.parts[i].width for i in ("front leg left", "front leg right")]
    assert sum(front) + piece.parts["front strip top"].length == pytest.approx(560)


def test_screws_of_the_sides_stay_inside_the_wood_and_do_not_show():
    piece = stool()
    for f in piece.fasteners.values():
        last = piece.parts[f.parts[-1]]
        tip = tuple(h + d * (f.length + f.head_depth) for h, d in zip(f.head, f.direction, strict=True))
        inside = any(all(face.plane.height(tip) < -1.5 for face in cell.faces) for cell in last.cells())
        assert inside, f"{f.id} in {f.parts}"


def test_lid_cleats_have_play_all_round_in_the_opening():
    piece = stool()
    cleat = piece.parts["lid cleat front"]
    inner = [piece.parts[f"{side} panel"] for side in ("left", "right")]
    assert cleat.x0 - inner[0].x1 == pytest.approx(3.0)
    assert inner[1].x0 - cleat.x1 == pytest.approx(3.0)


def test_a_box_too_small_for_its_joints_is_refused_in_words():
    with pytest.raises(AssemblyError, match="too small"):
        stool(top_cushion={"width": 200, "depth": 200, "thickness": 60, "loaded": 40})


def test_a_box_that_a_child_can_hide_in_has_air():
    """EN 71-style text: from 0.03 m³ two vents of 650 mm² at least, 150 mm apart at least, screening."""
    holes = [c for c in stool().parts["bottom"].cuts if getattr(c, "purpose", "") == "vent"]
    assert len(holes) == 2
    assert all(3.14159 * h.diameter**2 / 4 > 650 for h in holes)
    assert ((holes[0].x - holes[1].x) ** 2 + (holes[0].y - holes[1].y) ** 2) ** 0.5 > 150
