"""The joint between neighbours: its holes in space, its bolts, what is found where the two do not go together."""

import math
from copy import deepcopy
from dataclasses import replace

import pytest

from demo_plan import MODULES, demo_plan, demo_request
from floor_blocks import arranged, block, walls
from scantling.board import Hole, assembly_from_plain
from scantling.measure import RequestError
from scantling.plan.neighbours import beside_of, joint_findings, joint_of, unused_holes
from scantling.plan.projects import projects


def holed(wide=600, deep=600, high=400, side=18.0, holes=((150, 200), (400, 200)), hands="both"):
    """A box of two sides and a top; each side is bored where told, mm behind the front and above the floor."""
    piece = block(wide, deep, high)
    board = piece.materials["board"]
    piece.materials = {"side": replace(board, role="side", thickness=side, least=side, most=side)}
    del piece.parts["block"]
    for name, at in (("left", {"x0": 0.0}), ("right", {"x1": float(wide)})):
        part = piece.part(name, deep, high, "side").lay("y", "z").put(y0=0, z0=0, **at)
        if hands in ("both", name):
            for y, z in holes:
                part.hole(y, z, 9.0, purpose="bolt")
    return piece


def row(one, other, gap=0.0):
    stands = [{"module": "one", "wall": "a"}, {"module": "other", "wall": "a", "gap": gap}]
    _, found = arranged({"walls": walls(4000.0), "stands": stands}, {"one": one, "other": other})
    return found, beside_of(found)


def test_two_sides_of_18_take_a_bolt_of_50():
    """18 + 18 and 10 for two washers and a nut: 46, past its nut at 50 (M8)."""
    found, (pair,) = row(holed(), holed())
    joint = joint_of(found, pair)
    assert (joint.count, joint.size, joint.stack, joint.apart) == (2, "M8", 36.0, 0.0)
    assert joint.bolt.length_mm == 50
    assert joint.heights == (200.0, 200.0)
    assert joint_findings(found, pair, joint) == []


def test_holes_that_do_not_meet():
    """5 mm higher on the one: M8 in holes of 9 has 1 mm of play in both together."""
    found, (pair,) = row(holed(), holed(holes=((150, 205), (400, 205))))
    joint = joint_of(found, pair)
    assert joint.apart == pytest.approx(5)
    (said,) = joint_findings(found, pair, joint)
    assert (said.code, said.value, said.limit) == ("joint-holes-apart", pytest.approx(5), pytest.approx(1))


def test_holes_of_one_alone_are_bored_through_the_other():
    found, (pair,) = row(holed(), holed(hands="right"))
    joint = joint_of(found, pair)
    assert (joint.count, joint.bored, joint.stack) == (2, 2, 36.0)
    assert joint.parts == ("one: right", "other: left")
    assert [f.code for f in joint_findings(found, pair, joint)] == ["joint-holes-missing"]


def test_a_gap_between_two_is_no_joint():
    assert row(holed(), holed(), gap=20.0)[1] == []


def test_sides_too_thick_for_any_bolt_and_a_hole_of_no_size():
    found, (pair,) = row(holed(side=80.0), holed(side=80.0))
    assert [f.code for f in joint_findings(found, pair, joint_of(found, pair))] == ["joint-without-bolt"]


def test_a_nut_needs_room():
    """A rail 10 mm behind the hole leaves 10 of the 25 a nut and its spanner need."""
    tight = holed()
    rail = tight.part("rail", 500, 100, "side").lay("y", "z").put(y0=50, z0=150, x1=600 - 18 - 10)
    assert rail.x1 == 572
    found, (pair,) = row(tight, holed())
    (said,) = joint_findings(found, pair, joint_of(found, pair))
    assert (said.code, said.value) == ("joint-without-room", pytest.approx(10))


def test_holes_nobody_named_a_neighbour_for():
    (said,) = unused_holes({"one": holed()}, {"one": 1}, {"one": 2})
    assert (said.code, said.value) == ("bolt-holes-unused", 7)  # 2 pieces of 4 holes, one used


def bolts(plan):
    return {line["id"]: line["quantity"] for line in plan["costing"]["lines"] if "bolt" in line["id"]}


def changed(change):
    request = deepcopy(demo_request())
    change(request)
    return projects(request, modules=MODULES)


def codes(plan):
    return {f["code"] for f in plan["findings"]}


def test_the_set_is_bolted_in_two_places_and_each_bolt_is_counted_once():
    """Ribs of 0.7 in: 2 × 17.78 + 10.0 = 45.6, so M8 × 50; two joints of two bolts."""
    plan = demo_plan()
    joints = plan["place"]["joints"]
    assert [j["between"] for j in joints] == [["long bench", "corner seat"], ["corner seat", "short bench"]]
    assert {(j["bolts"], j["apart_mm"], j["stack_mm"]) for j in joints} == {(2, 0.0, 35.56)}
    assert bolts(plan) == {"M8 x 50 bolt with two washers and a nut": 4.0}
    assert not codes(plan) & {"joint-holes-apart", "joint-holes-missing", "neighbours-differ", "bolt-holes-unused"}


def holes_in_the_room(plan, id, part):
    """Where the bolt holes of a part lie in the room: its piece turned and put where the answer says it stands."""
    module = next(m for m in plan["modules"] if m["id"] == id)
    place = next(p for p in plan["place"]["pieces"] if p["module"] == id)
    piece = assembly_from_plain(module["assembly"])
    low = piece.bounds()[0]
    turn = math.radians(place["turn_deg"])
    found = []
    for cut in piece.parts[part].cuts:
        if isinstance(cut, Hole) and cut.purpose == "bolt":
            x, y, z = piece.parts[part].frame.point((cut.x, cut.y, 0.0))
            right, back = x - low[0], y - low[1]  # from its front left corner; y of the room runs to the front
            found.append(
                (
                    place["x_mm"] + right * math.cos(turn) + back * math.sin(turn),
                    place["y_mm"] + right * math.sin(turn) - back * math.cos(turn),
                    z,
                )
            )
    return sorted(found)


RUN_TO_CORNER = (("long bench", "rib 4"), ("corner seat", "front panel"), (1, 2))
CORNER_TO_RUN = (("corner seat", "right rib"), ("short bench", "rib 1"), (0, 2))


@pytest.mark.parametrize(("one", "other", "across"), [RUN_TO_CORNER, CORNER_TO_RUN])
def test_the_holes_of_both_neighbours_lie_on_one_line_in_space(one, other, across):
    """Both in the room, seen along the bolt: one height, one distance from the wall (places are told to 0.1 mm)."""
    plan = demo_plan()
    mine, theirs = holes_in_the_room(plan, *one), holes_in_the_room(plan, *other)
    assert len(mine) == len(theirs) == 2
    seen = [sorted(tuple(hole[i] for i in across) for hole in holes) for holes in (mine, theirs)]
    for a, b in zip(*seen, strict=True):
        assert a == pytest.approx(b, abs=0.3)


def test_a_neighbour_of_another_height_is_found_with_what_differs():
    plan = changed(lambda r: r["modules"][2]["parameters"].update(seat_height="18 in"))
    found = {f["code"]: f for f in plan["findings"]}
    assert found["joint-holes-apart"]["value"] == pytest.approx(12.7)  # half an inch: the holes are at half the height
    assert "seat height 431.8 and 457.2" in found["neighbours-differ"]["message"]
    assert "seats step by 25.4 mm" in found["neighbours-differ"]["message"]


def test_another_cushion_or_lean_is_found_too():
    thicker = {"width": [22], "depth": [22], "thickness": [5], "loaded": [3.5]}
    plan = changed(lambda r: r["modules"][0]["parameters"].update(seat_cushion=thicker, lean="1 in 4"))
    (said,) = [f["message"] for f in plan["findings"] if f["code"] == "neighbours-differ"]
    assert "their seat cushions are not the same" in said
    assert "lean 14 and 11.3" in said  # 1 in 4 and 1 in 5, degrees


def test_without_joins_the_run_is_bored_through_on_the_spot():
    plan = changed(lambda r: r["modules"][0]["parameters"].pop("joins"))
    assert "joint-holes-missing" in codes(plan)
    assert bolts(plan) == {"M8 x 50 bolt with two washers and a nut": 4.0}
    assert any("bore 2 holes through" in step for step in plan["place"]["steps"])


def test_without_a_place_the_bolts_are_missing_and_that_is_said():
    plan = changed(lambda r: r.update(place={"exposure": "outdoors"}))
    assert plan["place"] is None
    assert "bolt-holes-unused" in codes(plan)
    assert bolts(plan) == {}


def test_a_run_is_not_bolted_where_it_has_an_arm():
    with pytest.raises(RequestError, match="the left end has an arm"):
        changed(lambda r: r["modules"][0]["parameters"].update(joins="both"))
