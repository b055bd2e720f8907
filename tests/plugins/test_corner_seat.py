"""The corner seat: it lines up with the runs beside it, and its second back is a run's back turned by 90°."""

from math import cos, radians, sin

import pytest

from pieces import build
from scantling.board import patches, saw_settings
from scantling.kit import AssemblyError

CUSHION = {"width": [556, 560], "depth": 552, "thickness": 120, "loaded": [80, 84]}
BACK = {"width": 540, "depth": 440, "thickness": 120, "loaded": 100}
SIDE = {"width": 400, "depth": 440, "thickness": 120, "loaded": 100}
SHARED = {"seat_cushion": CUSHION, "back_cushion": BACK, "seat_height": 425, "lean": 14, "back_height": 450}


@pytest.fixture(scope="module", params=[17.1, 18.0, 18.5])
def set_of_seats(request):
    """A run beside the corner and the corner, from sheets of one thickness."""
    run = build("leaning-seat", {**SHARED, "bays": 2, "arms": "none"}, frame=request.param)
    corner = build("corner-seat", {**SHARED, "side_cushion": SIDE}, frame=request.param)
    return run, corner


def back_slats(piece, stem):
    return sorted((p for i, p in piece.parts.items() if i.startswith(f"{stem} ")), key=lambda p: p.z0)


def test_a_run_stood_beside_the_corner_goes_on_its_lines(set_of_seats):
    run, corner = set_of_seats
    assert max(p.z1 for p in corner.parts.values() if p.name == "seat slat") == pytest.approx(
        max(p.z1 for p in run.parts.values() if p.name == "seat slat")
    )
    assert corner.parts["front panel"].y0 == pytest.approx(run.parts["front rail"].y0)
    assert corner.parts["back rail"].z1 == pytest.approx(run.parts["back rail"].z1)
    assert corner.parts["back rail"].y1 == pytest.approx(run.parts["back rail"].y1)
    for mine, other in zip(back_slats(corner, "rear back slat"), back_slats(run, "back slat"), strict=True):
        assert (mine.z0, mine.z1, mine.y0, mine.y1) == pytest.approx((other.z0, other.z1, other.y0, other.y1))
        assert mine.plane("face").normal == pytest.approx(other.plane("face").normal)


def test_the_end_rib_of_a_run_lies_flat_on_the_side_of_the_corner(set_of_seats):
    run, corner = set_of_seats
    rib = run.parts["rib 1"].copied("rib of the run", (corner.parts["right rib"].x1, 0, 0))
    (patch, *_) = patches(rib, corner.parts["right rib"])
    assert (patch.least_gap, patch.greatest_gap) == pytest.approx((0, 0), abs=0.01)
    holes = [c for c in corner.parts["right rib"].cuts if getattr(c, "purpose", "") == "bolt"]
    assert len(holes) == 2
    for hole in holes:
        assert hole.y < min(p.z0 for p in run.parts.values() if p.name == "deck cleat") - 20
        assert hole.x < min(p.y0 for p in run.parts.values() if p.name == "leaning post") - 20


def test_the_left_back_is_the_run_s_back_turned_to_the_left(set_of_seats):
    """Turned by 90°, what lay y deep lies at x = side − y (plane geometry)."""
    run, corner = set_of_seats
    side = corner.parts["right rib"].x1
    for mine, other in zip(back_slats(corner, "left back slat"), back_slats(run, "back slat"), strict=True):
        assert (side - mine.x1, side - mine.x0) == pytest.approx((other.y0, other.y1), abs=0.02)
        assert mine.plane("face").normal == pytest.approx((cos(radians(14)), 0, sin(radians(14))))


def test_left_slats_are_mitred_to_lie_against_the_leaning_rear_ones(set_of_seats):
    """Two planes leaning by a meet at a mitre of atan(sin a) on the face; unbevelled it gapes under t·sin² a."""
    _, corner = set_of_seats
    left, rear = (corner.parts[f"{hand} back slat 2"] for hand in ("left", "rear"))
    assert saw_settings(left)[0].mitre == pytest.approx(13.6, abs=0.05)
    nearest = min(p.least_gap for p in patches(left, rear, reach=2.0))
    assert 0 <= nearest < 19 * sin(radians(14)) * sin(radians(14)) + 0.01


def test_cushions_are_solids_that_share_no_space(set_of_seats):
    _, corner = set_of_seats
    boxes = []
    for c in corner.cushions:
        high = c.thickness if c.kind == "back" else c.loaded
        boxes.append([(o, o + s) for o, s in zip(c.origin, (c.width, c.depth, high), strict=True)])
    for i, a in enumerate(boxes):
        for b in boxes[i + 1 :]:
            assert any(
                lo_a >= hi_b - 1e-6 or lo_b >= hi_a - 1e-6 for (lo_a, hi_a), (lo_b, hi_b) in zip(a, b, strict=True)
            )


def test_the_corner_square_is_as_wide_as_the_seats_are_deep():
    corner = build("corner-seat", {**SHARED, "side_cushion": SIDE})
    (square,) = [f for f in corner.findings if f.message.startswith("The corner square")]
    assert square.value == pytest.approx(18 + 552 - 560)


def test_a_cushion_too_wide_for_the_corner_is_warned_of():
    wide = {**CUSHION, "width": 640}
    corner = build("corner-seat", {**SHARED, "seat_cushion": wide})
    assert "warning" in [f.severity.value for f in corner.findings if f.code == "cushion-row-slack"]


def test_backs_that_would_reach_far_past_their_posts_are_refused():
    with pytest.raises(AssemblyError, match="less lean"):
        build("corner-seat", {**SHARED, "lean": 25, "back_height": 700})
