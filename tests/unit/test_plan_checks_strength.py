"""The plan's checks of strength against plain statics worked out by hand beside each one."""

from math import dist

import pytest

from checked_pieces import board, checked, codes, piece, plank, row, sheet, shipped
from pieces import MODULES, build
from scantling.dryfit import verify
from scantling.mechanics.loads import weight
from scantling.mechanics.seating import Sitter
from scantling.mechanics.strength import wood_values
from scantling.plan.circumstances import Circumstances
from scantling.plan.flow import load_flow, person_flows
from scantling.plan.spans import Ways
from scantling.plan.structure import structure_of
from scantling.plan.surfaces import seats_of

G = 9.80665
ONE = Circumstances(household=(Sitter("one", mass_kg=80.0),))


def ways(assembly):
    return Ways(structure_of(assembly, verify(assembly).touching))


def test_a_plank_bends_as_a_beam_between_its_ends():
    # W L/4 (1 - c/(2 L)) over b h^2/6: statics of a load over the middle c = 380 mm (hips) of a simple span.
    result = checked(plank(between=700.0), ONE)
    moment = 2 * 80 * G * 700 / 4 * (1 - 380 / (2 * 700))
    stress = moment / (286 * 38**2 / 6)
    found = row(result, "bending", "plank", "dropping")
    assert found.demand == pytest.approx(stress, rel=1e-6)
    # The allowed value is the table's own: Fb of No. 2 douglas-fir with size and flat-use factors (NDS Supplement 2018
    # Table 4A) times 1.6 for ten minutes (NDS 2018 Table 2.3.2).
    wood = wood_values("douglas-fir", 38.0, 286.0, flat=True)
    assert found.capacity == pytest.approx(wood.bending * 1.6)
    assert found.ratio == pytest.approx(found.demand / found.capacity)


def test_which_way_a_board_stands_comes_from_its_frame():
    def rail(lay):
        a = piece(board("rail", 38.0, 140.0), board("post", 89.0, 184.0))
        beam = a.part("rail", 2068, 140, "rail").lay(*lay).put(xc=0, yc=0, z0=400)
        for id, at in (("left", {"x1": -850.0}), ("right", {"x0": 850.0})):
            end = a.part(id, 400, 184, "post", name="end").lay("z", "x").put(yc=0, z0=0, **at)
            a.loose(beam, end)
        a.carries(beam, kind="sitter")
        return row(checked(a, ONE), "bending", "rail", "dropping")

    flat, on_edge = rail(("x", "y")), rail(("x", "z"))
    assert flat.demand / on_edge.demand == pytest.approx(140 / 38)  # section moduli b h^2/6 and h b^2/6


def test_the_lever_rule_shares_a_load_between_two_supports():
    a = plank(between=700.0)
    flow = load_flow(ways(a), [("plank", 100.0, (-175.0, 143.0, 438.0))])
    # supports 18 mm thick begin 350 mm either side of the middle; moments about them
    right = 100 * (-175 + 359) / 718
    assert flow.on_floor["right"] == pytest.approx(right)
    assert flow.on_floor["left"] == pytest.approx(100 - right)
    assert not flow.bounds


def test_on_three_supports_each_neighbour_carries_it_alone_and_it_is_called_a_bound():
    a = plank(between=1000.0, length=1200.0)
    middle = a.part("middle", 400, 286, "ply", name="end").lay("z", "y").put(xc=0, y0=0, z0=0)
    a.loose(a.parts["plank"], middle)
    flow = load_flow(ways(a), [("plank", 100.0, (250.0, 143.0, 438.0))])
    assert (flow.on_floor["middle"], flow.on_floor["right"]) == (100.0, 100.0)
    assert "left" not in flow.on_floor
    assert ("plank", "right") in flow.bounds


def test_a_load_beyond_the_support_lifts_the_other_end_and_pulls_its_screws():
    a = plank(length=1600.0, between=600.0)
    flow = load_flow(ways(a), [("plank", 100.0, (700.0, 143.0, 438.0))])
    lift = 100 * (700 - 309) / 618
    assert flow.lifting["plank", "left"] == pytest.approx(lift)
    assert flow.on_floor["left"] == pytest.approx(-lift)


def hung(glued):
    """Two cleats screwed to two ends carry a seat: shear in the screws, or in the glue where it is glued."""
    a = piece(board("seat", 38.0, 286.0), board("cleat", 38.0, 38.0), sheet())
    seat = a.part("seat", 600, 286, "seat").lay("x", "y").put(xc=0, y0=0, z0=400)
    for id, side in (("left", -1), ("right", 1)):
        end = a.part(id, 500, 286, "ply", name="end").lay("z", "y").put(y0=0, z0=0)
        end.put(**({"x1": -300.0} if side < 0 else {"x0": 300.0}))
        cleat = a.part(f"cleat {id}", 286, 38, "cleat", name="cleat").lay("y", "z").put(y0=0, z1=400)
        cleat.put(**({"x0": -300.0} if side < 0 else {"x1": 300.0}))
        a.screws(end, cleat, n=3, inset=40, role="holds", glued=glued)
        a.loose(seat, cleat)
    a.carries(seat, kind="sitter")
    return a


def test_holding_screws_get_the_share_of_the_load_and_a_ratio():
    found = row(checked(hung(glued=False), ONE), "screws", "cleat to end")
    dropped, sat = 2 * 80 * G / 2, 80 * G / 2  # one person in the middle: half on each cleat
    assert found.demand == pytest.approx(dropped if "dropping" in found.load else sat)
    assert found.capacity > 0
    assert found.ratio == pytest.approx(found.demand / found.capacity, rel=1e-3)
    assert (found.basis, found.code[:3]) == ("design", "NDS")


def test_glue_carries_alone_where_it_counts_and_is_never_added_to_screws():
    result = checked(hung(glued=True), ONE)
    found = row(result, "glue line", "cleat to end")
    area = 286.0 * 38.0
    shear = min(
        wood_values("douglas-fir", 38.0, 38.0, flat=True).service("instantaneous").shear,
        wood_values("birch-plywood", 18.0, 300.0, flat=True).service("instantaneous").shear,
    )
    assert found.capacity == pytest.approx(area * shear)
    assert not [r for r in result.rows if r.check == "screws"]


def test_glue_on_end_grain_is_not_counted():
    a = plank(glued=True)
    rail = a.part("rail", 664, 90, "ply", name="rail").lay("x", "z").put(xc=0, y0=0, z0=100)
    assert rail.x0 > a.parts["left"].x1
    result = checked(a, ONE)
    assert not [r for r in result.rows if r.check == "glue line" and "rail" in r.subject]


def test_leaning_back_turns_the_post_on_its_screws():
    assembly = build("leaning-seat", {"bays": 2})
    result = checked(assembly)
    found = row(result, "back joint, screws", "leaning post to rib")
    spots = [(f.head[1], f.head[2]) for f in assembly.fasteners.values() if set(f.parts) == {"rib 2", "post 2"}]
    assert len(spots) == 6
    middle = tuple(sum(s[i] for s in spots) / 6 for i in (0, 1))
    push = 2 * 560 * 11 / 16  # the middle of three posts gets 11/16 of the load on each side
    seat = next(c for c in assembly.cushions if c.kind == "seat")
    # EN 1022:2018 6.2: 300 mm above the seat, or the top of the back where that is lower
    top = max(p.z1 for p in assembly.parts.values() if p.name == "back slat")
    lever = min(seat.origin[2] + seat.loaded + 300, top) - middle[1]
    radii = [dist(s, middle) for s in spots]
    worst = push * lever * max(radii) / sum(r * r for r in radii) + push / 6
    assert found.demand == pytest.approx(worst, rel=1e-6)
    assert found.basis == "ultimate"


def test_posts_bend_as_cantilevers_above_the_rib():
    assembly = build("leaning-seat", {"bays": 1})
    found = row(checked(assembly), "bending", "leaning post")
    rib, post = assembly.parts["rib 1"], assembly.parts["post 1"]
    top = max(p.z1 for p in assembly.parts.values() if p.name == "back slat")
    seat = next(c for c in assembly.cushions if c.kind == "seat")
    lever = min(seat.origin[2] + seat.loaded + 300, top) - rib.z1
    assert found.demand == pytest.approx(280 * lever / (post.thickness * post.width**2 / 6), rel=1e-6)


def test_a_test_load_meets_test_strength_and_a_person_a_design_value():
    for id in ("leaning-seat", "storage-footstool", "stool", "plain-bench"):
        for r in shipped(id).rows:
            if r.load.startswith("test load"):
                assert r.basis == "ultimate"
            elif "person" in r.load or "people" in r.load:
                assert r.basis == "design"


def test_a_shelf_sags_by_five_over_three_hundred_and_eighty_four():
    result = checked(build("bookcase"), family="storage")
    found = row(result, "shelf sag")
    wood = wood_values("birch-plywood", 18.0, 300.0, flat=True)
    q, span, depth = 25 * 4.448222 / 304.8, 760 - 2 * 18 + 0.0, 280 - 6
    inertia = depth * 18**3 / 12
    sag = 5 * q * span**4 / (384 * wood.modulus * inertia)
    assert f"{sag:.1f} mm at first over {span:.0f} mm" in found.governing
    assert found.capacity == pytest.approx(span / 384)  # 1/32 in a foot


def test_a_wide_bookcase_sags_and_says_how_far_the_wood_reaches():
    assembly = build("bookcase", {"width": 860, "depth": 200}, case=17.1)
    found = codes(checked(assembly, family="storage"))
    assert found.get("shelf-sags") == "warning" or found.get("shelf-creeps") == "note"


def test_a_weak_seat_is_an_error_where_the_values_are_published_and_a_warning_where_remembered():
    # 900 mm clear of 12 mm birch plywood along its grain under a dropping sitter: far over the published value.
    def seat(id, thickness, family):
        material = sheet("seat", thickness, id) if family == "sheet" else board("seat", thickness, 140.0, id)
        a = piece(material, sheet())
        top = a.part("seat", 1000, 140, "seat").lay("x", "y").put(xc=0, y0=0, z0=400)
        for name, at in (("left", {"x1": -450.0}), ("right", {"x0": 450.0})):
            a.loose(top, a.part(name, 400, 140, "ply", name="end").lay("z", "y").put(y0=0, z0=0, **at))
        a.carries(top, kind="sitter")
        return codes(checked(a))["member-over-strength"]

    assert seat("birch-plywood", 12.0, "sheet") == "error"
    assert seat("western-red-cedar", 19.0, "board") == "warning"


def test_what_carries_nobody_knows_is_said_and_not_guessed():
    a = piece(sheet())
    a.part("panel", 500, 400, "ply").lay("x", "y").put(x0=0, y0=0, z0=400)
    a.part("foot", 399, 300, "ply").lay("z", "y").put(x0=0, y0=0, z0=0)
    a.carries(a.parts["panel"], kind="sitter")
    assert "nothing that reaches the floor" in row(checked(a), "bending", "panel").note


def test_people_sit_side_by_side_on_a_long_bench():
    seats = seats_of(plank(length=1300.0, between=1100.0))
    assert [s.people for s in seats] == [2]  # EN 1022:2018 6.2: length over 600 mm
    flows = person_flows(ways(plank(length=1300.0, between=1100.0)), seats)
    assert len(flows) == 2
    assert sum(flows[0].on_floor.values()) == pytest.approx(1.0)
    assert weight(1.0) == G


@pytest.mark.parametrize("exposure", ["dry", "weather"])
@pytest.mark.parametrize("id", sorted(MODULES))
def test_an_ordinary_sound_piece_has_no_error(id, exposure):
    found = shipped(id, Circumstances(exposure=exposure))
    assert "error" not in codes(found).values()


def test_every_ratio_names_its_load_duration_basis_and_code():
    for id in ("bookcase", "leaning-seat", "storage-footstool", "stool"):
        for r in shipped(id, Circumstances(exposure="weather", place={"width": 3000.0})).rows:
            if r.ratio is not None and r.basis in ("design", "ultimate"):
                assert all((r.load, r.duration, r.basis, r.code, r.governing)), r


def test_the_same_piece_gives_the_same_checks():
    first, second = (shipped("leaning-seat", Circumstances(exposure="weather")) for _ in range(2))
    assert [r.to_plain() for r in first.rows] == [r.to_plain() for r in second.rows]
    assert first.findings == second.findings


def test_screws_that_lever_up_a_loose_foot_pull_no_harder_than_the_piece_weighs():
    a = plank(length=1600.0, between=600.0)
    found = row(checked(a, ONE), "screws", "plank to end")
    assert found.demand == pytest.approx(a.mass_and_centre()[0] * G)


def test_a_mattress_spreads_a_sleeper_over_more_slats_and_no_seat_test_is_made():
    rows = shipped("bed-with-slats").rows
    assert not [r for r in rows if r.load.startswith("test load, seat") or r.load.startswith("test load, front")]
    assert row(shipped("bed-with-slats"), "bending", "slat").ratio < 1


def test_a_note_about_standing_does_not_hide_a_warning():
    a = piece(board("slat", 12.0, 64.0, "western-red-cedar"), sheet())
    ends = [
        a.part(name, 400, 400, "ply", name="end").lay("z", "y").put(y0=0, z0=0, **at)
        for name, at in (("left", {"x1": -400.0}), ("right", {"x0": 400.0}))
    ]
    slats = [
        a.part(f"slat {i}", 900, 64, "slat", name="slat").lay("x", "y").put(xc=0, y0=i * 70.0, z0=400) for i in range(5)
    ]
    for slat in slats:
        for end in ends:
            a.loose(slat, end)
    a.carries(*slats, kind="sitter")
    assert codes(checked(a))["member-over-strength"] == "warning"
