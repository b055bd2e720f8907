"""Panels on four edges found from what they touch, standing panels, and legs under what stands on a piece."""

import pytest

from checked_pieces import board, checked, piece, row, sheet
from scantling.dryfit import verify
from scantling.mechanics.panel_values import panel_values
from scantling.mechanics.plates import patch_on_four_edges
from scantling.plan.carried import share_on_span
from scantling.plan.four_edges import rests_on_four_edges
from scantling.plan.spans import Rest, Spans
from scantling.plan.structure import structure_of

G = 9.80665


def box_with_top(ends=True, kg=100.0):
    """A plywood top 600 x 500 mm on two rails and, with `ends`, two more across: a frame of boards on four legs."""
    a = piece(board("wood", 38.0, 89.0), sheet())
    rails = {}
    for id, y in (("front", {"y0": 0.0}), ("back", {"y1": 500.0})):
        rails[id] = a.part(id, 600, 89, "wood", name="rail").lay("x", "z").put(x0=0, z1=500, **y)
    for id, x in (("left", {"x0": 0.0}), ("right", {"x1": 600.0})) if ends else ():
        end = a.part(id, 424, 89, "wood", name="end").lay("y", "z").put(y0=38, z1=500, **x)
        for rail in rails.values():
            a.join("dowels", end, rail, glued=True)
    for x in (0.0, 511.0):
        for id, y in (("front", 38.0), ("back", 424.0)):
            leg = a.part(f"leg {id} {x:.0f}", 500 if not ends else 411, 89, "wood", name="leg").lay("z", "x")
            leg.put(x0=x, y0=y, z0=0)
            a.glue(rails[id], leg) if not ends else a.join("screws", rails[id], leg)
    top = a.part("top", 600, 500, "ply").lay("x", "y").put(x0=0, y0=0, z0=500)
    a.carries(top, kind="mass", amount=kg)
    return a


def all_round(a, id="top"):
    return rests_on_four_edges(structure_of(a, verify(a).touching), id)


def test_four_edges_are_read_from_what_lies_under_them():
    assert all_round(box_with_top())
    assert not all_round(box_with_top(ends=False))


def test_a_board_is_no_plate_and_a_panel_on_posts_is_none():
    a = piece(board("wood", 19.0, 286.0), sheet())
    plank = a.part("top", 500, 286, "wood").lay("x", "y").put(x0=0, y0=0, z0=300)
    for id, x in (("l", 0.0), ("r", 482.0)):
        end = a.part(id, 300, 286, "ply", name="end").lay("z", "y").put(x0=x, y0=0, z0=0)
        a.glue(plank, end)
    assert not all_round(a)


def test_a_panel_on_four_edges_is_reckoned_as_an_orthotropic_plate():
    found = row(checked(box_with_top(), family="tables"), "bending", "top")
    assert "four edges" in found.governing
    along, across = (panel_values("birch-plywood", "plywood", 18.0, along=way) for way in (True, False))
    stiff = tuple(w.modulus * 18.0**3 / 12 for w in (along, across))
    torsion = min(along.shear_modulus, across.shear_modulus) * 18.0**3 / 6
    bent = patch_on_four_edges(100 * G, (600.0, 500.0), (600.0, 500.0), stiff, torsion)
    moments = (bent.moment_a_nmm_per_mm, bent.moment_b_nmm_per_mm)
    ratios = [6 * m / 18.0**2 / w.service("long").bending for m, w in zip(moments, (along, across), strict=True)]
    assert found.ratio == pytest.approx(max(ratios), rel=1e-9)


def test_on_two_rails_the_same_panel_is_a_strip():
    found = row(checked(box_with_top(ends=False), family="tables"), "bending", "top")
    assert "four edges" not in found.governing
    # uniform load on a simple span of 500 - 2 x 38 mm, 600 mm wide: W L/8 over b t^2/6
    assert found.demand == pytest.approx(100 * G * 424 / 8 / (600 * 18.0**2 / 6), rel=1e-6)


def test_legs_carry_what_stands_on_the_piece():
    found = row(checked(box_with_top(ends=False, kg=80.0), family="tables"), "leg", load="80 kg")
    assert found.duration == "long"
    assert found.demand == pytest.approx(20 * G, rel=0.35)  # four legs, shared by levers along the rails
    assert found.ratio < 1


def bench_of(material, thickness, kind="panel"):
    """A seat 500 mm between two plywood ends, of a material and thickness no table may cover."""
    solid = kind == "board"
    seat = board("seat", thickness, 300.0, material) if solid else sheet("seat", thickness, material)
    a = piece(seat, sheet())
    top = a.part("seat", 536, 300, "seat").lay("x", "y").put(x0=0, y0=0, z0=400)
    for id, x in (("left", 0.0), ("right", 518.0)):
        end = a.part(id, 400, 300, "ply", name="end").lay("z", "y").put(x0=x, y0=0, z0=0)
        a.screws(top, end, n=2, inset=60)
    a.carries(top, kind="sitter")
    return checked(a)


def test_what_no_table_covers_is_said_with_the_limits_and_the_source():
    found = bench_of("mdf", 40.0)
    (said,) = [f for f in found.findings if f.code == "strength-not-judged"]
    assert "seat" in said.message and "9 to 19.5 mm (EN 622-5" in said.message
    assert all(f.code != "strength-not-judged" for f in bench_of("mdf", 18.0).findings)


def test_a_european_species_is_taken_as_its_usual_class_and_only_warns():
    # EN 1912, from memory: European oak D30; EN 338 Table 1: fm,k 30 N/mm2
    found = row(bench_of("european-oak", 19.0, "board"), "bending", "seat", "dropping")
    assert found.status == "memory"
    assert "D30" in found.note
    thin = bench_of("european-oak", 8.0, "board")
    over = [f for f in thin.findings if f.code == "member-over-strength"]
    assert over and all(f.severity.value != "error" for f in over)


@pytest.mark.parametrize(
    ("rests", "over", "share"),
    [
        (((0.0, 38.0), (462.0, 500.0)), 500.0, 1.0),  # held at its ends: all of it
        (((0.0, 40.0), (480.0, 520.0), (960.0, 1000.0)), 1000.0, 0.52),  # two equal spans: half, and half a rest
        (((250.0, 290.0), (710.0, 750.0)), 1000.0, 0.5),  # a quarter stands out at either end
        (((0.0, 40.0), (460.0, 500.0)), 300.0, 1.0),  # what presses is shorter than the span
    ],
)
def test_a_span_carries_what_lies_on_it_of_a_load_spread_along_the_part(rests, over, share):
    spans = Spans(None, "length", tuple(Rest(a, b, ("rail",)) for a, b in rests))
    assert share_on_span(spans, over) == pytest.approx(share)
