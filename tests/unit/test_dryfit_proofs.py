"""Through a range: saw errors by trigonometry, swelling by the Wood Handbook's rule, thicknesses by building again."""

from itertools import pairwise
from math import cos, radians, tan

import pytest

from dryfit_pieces import ROLES, bench, empty, tray
from scantling.board import Assembly, AssemblyError, Recess, RoleMaterial, patches
from scantling.dryfit import DryfitSettings, Ranges, prove
from scantling.dryfit.cut_errors import square_openings
from scantling.dryfit.proofs import variants
from scantling.dryfit.saw_errors import openings
from scantling.dryfit.scene import Scene
from scantling.dryfit.swelling import seasons
from scantling.tables import movement


@pytest.mark.parametrize("error", [0.05, 0.1, 0.25, 0.5, 1.0])
def test_a_mitre_with_both_cuts_off_opens_by_twice_the_tangent_over_its_length(error):
    """18 mm sheet at 45°: the mitre is 18/cos 45° long and each cut turns by the error about its long point."""
    found = next(o for o in openings(tray(), error) if o.joint == "one to two")
    length = 18 / cos(radians(45))
    # the far corner of each cut wanders by length × tan(error) across the mitre, measured square to a turned face
    assert found.opens == pytest.approx(2 * length * tan(radians(error)), rel=0.03)
    assert found.cuts == 2 and "both cuts" in found.text()


def test_square_joints_are_none_of_the_errors_of_angles_that_are_set():
    assert openings(bench(), 0.5) == []


def frame_of(width=300.0):
    """A board between two sides, glued: its ends are cut square."""
    piece = empty()
    left = piece.part("left", 400, width, "ply", name="side").lay("z", "y").put(x0=0, y0=0, z0=0)
    right = piece.part("right", 400, width, "ply", name="side").lay("z", "y").put(x0=618, y0=0, z0=0)
    shelf = piece.part("shelf", 600, width, "ply").lay("x", "y").put(x0=18, y0=0, z0=200)
    piece.glue(left, shelf)
    piece.glue(right, shelf)
    return piece


@pytest.mark.parametrize("error", [0.1, 0.5, 1.0])
def test_a_square_end_gapes_by_the_tangent_of_its_error_over_its_width(error):
    """The figure, and the same board cut anew at that angle: the wedge between it and the side it met."""
    scene = Scene.of(frame_of(), DryfitSettings())
    found = {o.joint: o for o in square_openings(scene, error)}
    opens = 300 * tan(radians(error))
    assert found["left to shelf"].opens == pytest.approx(opens) and found["left to shelf"].square
    piece = frame_of()
    leaning = piece.parts["shelf"].saw("start", mitre=error, long_edge="near")
    (wedge,) = [p for p in patches(leaning, piece.parts["left"], 12.0) if p.side_a == "start"]
    assert wedge.greatest_gap == pytest.approx(opens, rel=1e-3)


def test_a_ripped_edge_leans_over_its_thickness_alone():
    """An apron of 18 mm glued by its edge under a board: 18 mm × tan 1°, however long it is."""
    piece = empty()
    board = piece.part("board", 600, 300, "ply").put(x0=0, y0=0, z0=0)
    apron = piece.part("apron", 600, 80, "ply").lay("x", "z").put(x0=0, y0=0, z1=0)
    piece.glue(board, apron)
    (found,) = square_openings(Scene.of(piece, DryfitSettings()), 1.0)
    assert found.opens == pytest.approx(18 * tan(radians(1.0)))


def test_a_length_a_little_off_is_told_of_parts_between_others_that_nobody_fits():
    still = Ranges({}, saw_error_deg=0.0, square_error_deg=0.0, length_error_mm=0.5)
    proof = prove(lambda t: frame_of(), still)
    assert [e.part for e in proof.lengths] == ["shelf"]
    assert [(f.code, f.parts, f.value) for f in proof.findings] == [("length-error-opens", ("shelf",), 0.5)]

    def fitted(t):
        piece = frame_of()
        piece.parts["shelf"].closing = True
        return piece

    assert prove(fitted, still).lengths == ()


def panelled(grooved=6.0, play=3.0):
    """A solid panel of two glued oak boards, 89 mm each, in the grooves of two upright pine stiles.

    The panel's edges stand `grooved` mm in, with `play` mm left at the bottom of either groove.
    """
    piece = empty()
    inside = 2 * 89 - 2 * grooved
    stiles = []
    for k, x in enumerate((-89.0, inside)):
        stile = piece.part(f"stile {k}", 500, 89, "pine").lay("z", "x").put(x0=x, y0=0, z0=0)
        stiles.append(stile)
    boards = [piece.part(f"board {k}", 400, 89, "oak").lay("z", "x").put(x0=k * 89 - grooved, yc=19, z0=50)
              for k in range(2)]  # fmt: skip
    piece.glue(*boards)
    for stile, board, side in zip(stiles, boards, (1, -1), strict=True):
        edge = side * (grooved + play)
        rim = stile.x1 if side > 0 else stile.x0
        low, high = sorted((rim - edge, rim + side * 1.0))
        corners = [stile.frame.local((x, y, z)) for x in (low, high) for y in (5.5, 32.5) for z in (-1.0, 501.0)]
        lows, highs = zip(*((min(c), max(c)) for c in zip(*corners, strict=True)), strict=True)
        stile.cut(Recess("groove", lows[0], highs[0], lows[1], highs[1], lows[2], highs[2]))
        piece.join("housed", board, stile, clearance=1.0)
    return piece


def test_a_panel_of_glued_boards_moves_as_one_in_its_grooves():
    """Both boards grow 178 mm × coefficient × 4 %, half at each edge (Wood Handbook, chapter 13)."""
    found = seasons(panelled(), 4.0, 4.0)
    grows = 2 * 89 * movement("white-oak").tangential * 4.0
    grooves = [s for s in found if s.kind == "groove"]
    assert [(s.parts, s.built) for s in grooves] == [(("board 0", "stile 0"), 6.0), (("board 1", "stile 1"), 6.0)]
    assert all(s.shrunk == pytest.approx(6 - grows / 2) for s in grooves)
    gaps = [s for s in found if s.kind == "gap" and s.built == pytest.approx(3.0)]
    assert len(gaps) == 2 and all(s.swollen == pytest.approx(3 - grows / 2) for s in gaps)
    (wide,) = [s for s in found if s.kind == "panel"]
    assert (wide.built, wide.swollen) == (178.0, pytest.approx(178 + grows))


def still(build, **ranges):
    return prove(lambda t: build, Ranges({}, saw_error_deg=0.0, square_error_deg=0.0, length_error_mm=0.0, **ranges))


def test_a_panel_that_stands_too_little_in_its_grooves_shrinks_out_of_them():
    assert [f.code for f in still(panelled(grooved=3.0), drier=6.0).findings] == ["shrinks-out"]
    assert [f.code for f in still(panelled(grooved=8.0), drier=6.0).findings] == []


def test_a_panel_without_room_at_the_bottom_of_its_grooves_pushes_the_stiles_apart():
    (finding,) = still(panelled(grooved=8.0, play=0.5), wetter=8.0).findings
    assert finding.code == "swells-shut" and finding.value < 0


def test_an_overall_size_moves_with_the_boards_that_make_it():
    piece = empty()
    boards = [piece.part(f"board {k}", 500, 89, "oak").put(x0=0, y0=89 * k, z0=0) for k in range(4)]
    for a, b in pairwise(boards):
        piece.glue(a, b)
    (depth,) = [s for s in seasons(piece, 5.0, 5.0) if s.kind == "overall"]
    grows = 4 * 89 * movement("white-oak").tangential * 5.0
    assert (depth.what, depth.built, depth.swollen) == ("depth", 356.0, pytest.approx(356 + grows))


def slats(gap):
    piece = empty()
    beam = piece.part("beam", 400, 89, "pine").lay("y", "z").put(x0=0, y0=0, z0=0)
    for k in range(3):
        slat = piece.part(f"slat {k}", 500, 89, "oak").lay("x", "y").put(x0=0, y0=k * (89 + gap), z0=89)
        piece.screws(slat, beam, n=1, role="locates")
    return piece


def test_two_slats_close_by_half_of_what_each_grows():
    """Change = width × coefficient × change of moisture (Wood Handbook, chapter 13), half of it at each edge."""
    gaps = [s for s in seasons(slats(5.0), 6.0, 3.0) if s.kind == "gap"]
    assert [g.parts for g in gaps] == [("slat 0", "slat 1"), ("slat 1", "slat 2")]
    grows = 89 * movement("white-oak").tangential
    assert gaps[0].built == pytest.approx(5)
    assert gaps[0].swollen == pytest.approx(5 - 6 * grows)
    assert gaps[0].shrunk == pytest.approx(5 + 3 * grows)


def at_thickness(sheet):
    """Return a bench whose rail does not know how thick the sides are: it fits at 18 mm only."""
    t = sheet.get("ply", 18.0)
    ply = RoleMaterial("ply", "birch-plywood", t, t, t, False, 680.0)
    piece = Assembly("trial", "", {**ROLES, "ply": ply})
    left = piece.part("left", 400, 300, "ply").lay("z", "y").put(x0=0, y0=0, z0=0)
    right = piece.part("right", 400, 300, "ply").lay("z", "y").put(x1=900, y0=0, z0=0)
    rail = piece.part("rail", 864, 89, "ply").lay("x", "z").put(xc=450, yc=150, z0=150)
    for side in (left, right):
        piece.glue(side, rail)
    return piece


def test_a_size_that_forgot_the_thickness_is_caught_at_the_ends_of_the_range():
    proof = prove(at_thickness, Ranges({"ply": (17.1, 18.5)}))
    assert proof.variants == 3 and not proof.holds
    assert {f.code for f in proof.findings} == {"joint-apart", "parts-overlap"}
    assert any("with ply 17.10 mm" in f.message for f in proof.findings)
    assert proof.to_plain()["failed"][0]["thickness_mm"] == {"ply": 17.1}


def test_what_cannot_be_built_at_a_thickness_is_said_so():
    def build(sheet):
        if sheet.get("ply", 18) < 17.5:
            raise AssemblyError("no stocked screw suits")
        return bench()

    proof = prove(build, Ranges({"ply": (17.1, 18.5)}))
    assert [why for _, why in proof.failed] == ["it cannot be built: no stocked screw suits"]


def test_a_mitre_over_the_limit_is_warned_of_and_one_under_it_is_not():
    codes = [f.code for f in prove(lambda t: tray(), Ranges({}, saw_error_deg=0.5)).findings]
    assert codes == ["saw-error-opens"]
    assert prove(lambda t: tray(), Ranges({}, saw_error_deg=0.25)).findings == ()
    strict = DryfitSettings(open_limit=0.1)
    assert [f.code for f in prove(lambda t: tray(), Ranges({}, saw_error_deg=0.25), strict).findings] == codes


def test_slats_that_swell_shut_are_reported():
    proof = prove(lambda t: slats(1.5), Ranges({}, saw_error_deg=0.0, wetter=8.0))
    assert [f.code for f in proof.findings] == ["swells-shut"]
    assert proof.findings[0].value == pytest.approx(1.5 - 8 * 89 * movement("white-oak").tangential)


def test_many_roles_are_sampled_at_the_ends_and_one_by_one():
    assert len(variants(dict.fromkeys("abcd", (1.0, 2.0)))) == 81
    few = variants(dict.fromkeys("abcdef", (1.0, 2.0)))
    assert len(few) == 3 + 2 * 6
    assert all(dict(v).keys() == set("abcdef") for v in few)
