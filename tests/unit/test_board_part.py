"""A part's shape, placing and other hand, checked by plain geometry and, for volumes, by a published solid."""

from math import cos, radians, sin, tan

import pytest

from scantling.board import CutError, Part, PlacingError, RoleMaterial, alike, patches, point_lengths, saw_settings

PLY = RoleMaterial("frame", "birch-plywood", 18.0, 18.0, 18.0, False, 680.0)


def part(id="p", length=400.0, width=100.0, **more):
    return Part(id, id, PLY, length, width, 18.0, **more)


def test_a_blank_has_the_volume_and_mass_of_its_sizes():
    board = part()
    volume, centre = board.volume_and_centre()
    assert volume == pytest.approx(400 * 100 * 18)
    assert centre == pytest.approx((200, 50, 9))
    assert board.mass_kg() == pytest.approx(0.4 * 0.1 * 0.018 * 680)


@pytest.mark.parametrize("mitre", [0, 5, 22.5, 45])
@pytest.mark.parametrize("bevel", [0, 12, 45])
def test_a_mitre_and_bevel_take_off_a_wedge(mitre, bevel):
    """The wedge between the long-point blank and the cut has a volume by integration over the section."""
    board = part().saw("end", mitre=mitre, bevel=bevel)
    # x of the cut at (y, z): L − ((W − y) sin m + (T − z) tan b) / cos m; its mean over the section is at the middle
    taken = (50 * sin(radians(mitre)) + 9 * tan(radians(bevel))) / cos(radians(mitre))
    assert board.volume_and_centre()[0] == pytest.approx((400 - taken) * 100 * 18)


def test_both_ends_at_six_degrees_are_parallel_and_the_points_differ_by_the_run():
    board = part().saw("start", mitre=6, long_edge="near").saw("end", mitre=6, long_edge="far")
    a, b = board.plane("start"), board.plane("end")
    assert sum(x * y for x, y in zip(a.normal, b.normal, strict=True)) == pytest.approx(-1)
    long, short = point_lengths(board)
    assert long == short == pytest.approx(400 - 100 * tan(radians(6)))
    assert [s.rise for s in saw_settings(board)] == pytest.approx([100 * tan(radians(6))] * 2)


def test_corners_are_where_three_sides_meet_after_the_cuts():
    board = part().saw("end", mitre=45, long_edge="far")
    assert board.pt("end", "near", "face") == pytest.approx((300, 0, 18))
    assert board.pt("end", "far", "back") == pytest.approx((400, 100, 0))


def test_recesses_take_their_boxes_and_leave_convex_cells():
    board = part().notch((0, 50), (0, 20)).rabbet("far", width=10, depth=6).dado(200, width=18, depth=6)
    taken = 50 * 20 * 18 + 400 * 10 * 6 + 18 * 90 * 6
    assert board.volume_and_centre()[0] == pytest.approx(400 * 100 * 18 - taken)
    for cell in board.cells_local():
        for face in cell.faces:
            assert max(face.plane.height(c) for c in cell.corners) < 1e-6


def test_a_cut_that_takes_the_whole_part_is_refused():
    with pytest.raises(CutError, match="leaves nothing"):
        part().notch((-1, 500), (-1, 200))
    with pytest.raises(CutError, match="does not lie inside"):
        part().rabbet("far", width=10, depth=18)
    with pytest.raises(CutError, match="outside"):
        part(length=0.2)


def test_placing_by_words_and_bounds():
    post = part().lay(length="z", width="x").put(x0=10, yc=0, z0=5)
    assert post.bounds() == (pytest.approx((10, -9, 5)), pytest.approx((110, 9, 405)))
    with pytest.raises(PlacingError, match="two places"):
        post.put(x0=1, x1=2)
    with pytest.raises(PlacingError, match="square"):
        post.lay(length="z", width="z")


def test_against_touches_and_flush_levels_and_both_are_promised():
    side = part("side").lay(length="z", width="y").put(x0=0, y0=0, z0=0)
    shelf = part("shelf", 300).lay(length="x", width="y")
    shelf.against("start", side, "back" if side.plane("back").normal[0] > 0 else "face").flush("near", side, "near")
    assert shelf.x0 == pytest.approx(side.x1)
    assert [p.kind for p in shelf.promises] == ["touches", "flush"]
    with pytest.raises(PlacingError, match="does not face"):
        shelf.against("near", side, "near")


def test_the_other_hand_is_a_mirror_image_and_twice_is_the_same():
    board = part("left").saw("end", mitre=10, bevel=20).notch((0, 40), (0, 30)).lay("y", "z").turn("x", 12, (0, 0, 0))
    twin = board.mirrored("x", 500.0, "right")
    back = twin.mirrored("x", 500.0, "left")
    assert twin.volume_and_centre()[0] == pytest.approx(board.volume_and_centre()[0])
    centre, other = board.volume_and_centre()[1], twin.volume_and_centre()[1]
    assert other == pytest.approx((1000 - centre[0], centre[1], centre[2]))
    for cell, same in zip(board.cells(), back.cells(), strict=True):
        for corner in cell.corners:
            assert min(max(abs(a - b) for a, b in zip(corner, c, strict=True)) for c in same.corners) < 1e-9


def groups(*parts):
    return [(g.parts, g.hand) for g in alike(list(parts))]


def test_alike_as_a_shop_would_say():
    """The list of geometry that a maker agrees with: turned over is alike only where either face may show."""
    flat = part("a").saw("end", mitre=45)
    hidden = [part(i, shows="neither").saw("end", mitre=45, long_edge=e) for i, e in (("b", "far"), ("c", "near"))]
    show = [part(i).saw("end", mitre=45, long_edge=e) for i, e in (("d", "far"), ("e", "near"))]
    compound = [
        part(i, shows="neither").saw("end", mitre=30, bevel=20, long_edge=e) for i, e in (("f", "far"), ("g", "near"))
    ]
    assert groups(flat, part("a2").saw("end", mitre=45)) == [(("a", "a2"), "")]
    assert groups(*hidden) == [(("b", "c"), "")]
    assert groups(*show) == [(("d",), "left"), (("e",), "right")]
    assert groups(*compound) == [(("f",), "left"), (("g",), "right")]
    full = [part(i, shows="neither").rabbet(s, width=9, depth=9) for i, s in (("h", "near"), ("i", "far"))]
    assert groups(*full) == [(("h", "i"), "")]


def test_two_boards_laid_together_touch_over_their_overlap():
    lower = part("lower").put(x0=0, y0=0, z0=0)
    upper = part("upper", 100, 100).put(x0=350, y0=50, z0=18)
    (patch,) = patches(lower, upper)
    assert patch.area == pytest.approx(50 * 50)
    assert (patch.least_gap, patch.greatest_gap) == pytest.approx((0, 0), abs=1e-9)


def test_a_mitre_half_a_degree_off_opens_by_the_tangent_and_is_still_a_joint():
    """The gap at the far end of an 18 mm mitre half a degree off is 18/cos 45° · tan 0.5°, plain geometry."""
    a = part("a").saw("end", bevel=45).put(x0=0, y0=0, z0=0)
    b = part("b", 100, 100).saw("start", bevel=45.5).lay("-z", "y")
    b.at(("start", "near", "face"), a.pt("end", "near", "face"))
    (patch, *_) = patches(a, b)
    assert patch.greatest_gap - patch.least_gap == pytest.approx(18 / cos(radians(45)) * tan(radians(0.5)), rel=0.02)
