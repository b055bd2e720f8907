"""How a built piece stands and keeps square, against moments and geometry worked out by hand."""

from math import atan, degrees

import pytest

from checked_pieces import board, checked, codes, piece, row, sheet, shipped
from pieces import build
from scantling.mechanics.seating import Sitter
from scantling.plan.circumstances import Circumstances
from scantling.plan.standing import hull, inside_feet

IN, LB, G = 25.4, 4.448222, 9.80665
HEAVY = Circumstances(household=(Sitter("200 lb", mass_kg=200 * 0.45359237),))


def overhanging_bench(pounds):
    """Case O13: a top 72 in long on a base 34 in wide, 19 in standing out at both ends; the whole weighs `pounds`."""
    top_volume, rail_volume = 72 * IN * 290 * 38, 2 * (34 * IN - 76) * 140 * 38
    leg_volume = 2 * 290 * 380 * 38
    density = pounds * 0.45359237 / ((top_volume + rail_volume + leg_volume) * 1e-9)
    a = piece(board("wood", 38.0, 290.0, density=density))
    top = a.part("top", 72 * IN, 290, "wood").lay("x", "y").put(xc=0, yc=0, z0=380)
    legs = []
    for id, at in (("left leg", {"x0": -17 * IN}), ("right leg", {"x1": 17 * IN})):
        leg = a.part(id, 380, 290, "wood", name="leg").lay("z", "y").put(yc=0, z0=0, **at)
        a.screws(top, leg, n=2, inset=60, role="holds", length=76.2)
        legs.append(leg)
    for y in (-100, 100):
        rail = a.part(f"rail {y}", 34 * IN - 76, 140, "wood", name="rail").lay("x", "z").put(xc=0, yc=y, z1=380)
        for leg in legs:
            a.screws(leg, rail, n=2, inset=30, role="holds", length=76.2)
    a.carries(top, kind="sitter")
    return a


@pytest.mark.parametrize(("pounds", "lifts"), [(60, True), (215, True), (230, False), (300, False)])
def test_a_person_on_the_very_end_lifts_a_light_bench(pounds, lifts):
    # Blog page of the case: 200 lb at 19 in against the weight at 17 in: 224 lb hold it.
    found = codes(checked(overhanging_bench(pounds), HEAVY))
    assert (found.get("tips-on-overhang") == "error") is lifts


def test_the_moments_are_those_of_the_weight_and_the_person():
    found = row(checked(overhanging_bench(100), HEAVY), "stands", "Somebody sitting on the very end")
    assert found.demand == pytest.approx(200 * LB * 19 * IN / 1000, rel=1e-3)
    assert found.capacity == pytest.approx(100 * LB * 17 * IN / 1000, rel=1e-2)


def test_tilt_is_the_angle_at_which_the_weight_leaves_the_feet():
    a = piece(sheet())
    for id, x in (("left", 0.0), ("right", 282.0)):
        a.part(id, 500, 200, "ply", name="side").lay("z", "y").put(x0=x, y0=0, z0=0)
    shelf = a.part("top", 300, 200, "ply").lay("x", "y").put(x0=0, y0=0, z0=500)
    for id in ("left", "right"):
        a.glue(shelf, a.parts[id])
    found = row(checked(a, family="tables"), "stands", "On a slope")
    _, centre = a.mass_and_centre()
    assert found.capacity == pytest.approx(degrees(atan(100 / centre[2])), rel=1e-9)
    assert found.demand == 10.0


def test_the_feet_of_three_legs_make_a_triangle():
    feet = [(0.0, 0.0, 0.0), (400.0, 0.0, 0.0), (200.0, 300.0, 0.0)]
    assert inside_feet(feet, (200.0, 50.0, 300.0)) == pytest.approx(50.0)
    assert inside_feet(feet, (200.0, -20.0, 300.0)) == pytest.approx(-20.0)
    assert hull([(0, 0), (1, 0), (1, 1), (0, 1), (0.5, 0.5)]) == [(0, 0), (1, 0), (1, 1), (0, 1)]


def without(assembly, *ids):
    """Take parts, and the joints and fasteners that name them, out of a piece."""
    for id in ids:
        del assembly.parts[id]
    assembly.joints = {k: j for k, j in assembly.joints.items() if not set(ids) & set(j.parts)}
    assembly.fasteners = {k: f for k, f in assembly.fasteners.items() if not set(ids) & set(f.parts)}
    assembly.promises, assembly.steps = [], []
    return assembly


def test_a_case_without_its_back_is_found_and_with_it_is_not():
    # Case O14: shelves and dadoes alone do not keep a case square; a fixed back does.
    assert "frame-racks" not in codes(checked(build("bookcase"), family="storage"))
    found = checked(without(build("bookcase"), "back"), family="storage")
    assert codes(found)["frame-racks"] == "warning"
    (finding,) = [f for f in found.findings if f.code == "frame-racks"]
    assert "from the front" in finding.message
    assert finding.remedy


def test_legs_without_aprons_rack_both_ways():
    def table(aprons):
        a = piece(board("leg", 38.0, 38.0), board("apron", 19.0, 89.0), sheet())
        top = a.part("top", 900, 500, "ply").lay("x", "y").put(x0=0, y0=0, z0=600)
        legs = {}
        for x in (20.0, 842.0):
            for y in (20.0, 442.0):
                leg = a.part(f"leg {x:.0f} {y:.0f}", 600, 38, "leg", name="leg").lay("z", "y").put(x0=x, y0=y, z0=0)
                a.screws(top, leg, n=1, role="holds", length=50.8)
                legs[x, y] = leg
        for y in (20.0, 442.0) if aprons else ():
            apron = a.part(f"apron {y:.0f}", 784, 89, "apron", name="apron").lay("x", "z").put(x0=58, y0=y, z1=600)
            for x in (20.0, 842.0):
                a.join("dowels", apron, legs[x, y], glued=True)
        return [f.message for f in checked(a, family="tables").findings if f.code == "frame-racks"]

    assert len(table(aprons=False)) == 2
    assert [m.split(" (")[0] for m in table(aprons=True)] == ["Seen from the side"]


def test_tall_storage_goes_to_the_wall_and_says_it_once():
    """The bookcase brings its wall straps, so that it is told once what it stands by, and no tip is an error."""
    found = [f.code for f in shipped("bookcase").findings]
    assert found.count("stands-only-fixed") == 1
    assert not {"fix-to-wall", "tips-when-pulled"} & set(found)


def test_public_seats_are_reckoned_with_a_heavier_user():
    home, public = (shipped("plain-bench", Circumstances(use=use)) for use in ("home", "public"))
    a, b = (row(r, "bending", "seat", "dropping") for r in (home, public))
    # EN 1022:2018 scope: 110 kg; ANSI/BIFMA X5.1-2017: 125 kg
    assert b.demand / a.demand == pytest.approx(125 / 110)
