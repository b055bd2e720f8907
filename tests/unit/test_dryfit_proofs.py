"""Through a range: saw errors by trigonometry, swelling by the Wood Handbook's rule, thicknesses by building again."""

from math import cos, radians, tan

import pytest

from dryfit_pieces import ROLES, bench, empty, tray
from scantling.board import Assembly, AssemblyError, RoleMaterial
from scantling.dryfit import DryfitSettings, Ranges, prove
from scantling.dryfit.proofs import variants
from scantling.dryfit.saw_errors import openings
from scantling.dryfit.swelling import seasonal_gaps
from scantling.tables import movement


@pytest.mark.parametrize("error", [0.05, 0.1, 0.25, 0.5, 1.0])
def test_a_mitre_with_both_cuts_off_opens_by_twice_the_tangent_over_its_length(error):
    """18 mm sheet at 45°: the mitre is 18/cos 45° long and each cut turns by the error about its long point."""
    found = next(o for o in openings(tray(), error) if o.joint == "one to two")
    length = 18 / cos(radians(45))
    # the far corner of each cut wanders by length × tan(error) across the mitre, measured square to a turned face
    assert found.opens == pytest.approx(2 * length * tan(radians(error)), rel=0.03)
    assert found.cuts == 2 and "both cuts" in found.text()


def test_square_joints_are_none_of_the_saws_errors():
    assert openings(bench(), 0.5) == []


def slats(gap):
    piece = empty()
    beam = piece.part("beam", 400, 89, "pine").lay("y", "z").put(x0=0, y0=0, z0=0)
    for k in range(3):
        slat = piece.part(f"slat {k}", 500, 89, "oak").lay("x", "y").put(x0=0, y0=k * (89 + gap), z0=89)
        piece.screws(slat, beam, n=1, role="locates")
    return piece


def test_two_slats_close_by_half_of_what_each_grows():
    """Change = width × coefficient × change of moisture (Wood Handbook, chapter 13), half of it at each edge."""
    gaps = seasonal_gaps(slats(5.0), 6.0, 3.0)
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
