"""Every load of every shipped piece finds its way down: what arrives at the floor is what was put on."""

import pytest

from pieces import MODULES, build
from scantling.dryfit import verify
from scantling.plan.carried import thing_flows
from scantling.plan.flow import person_flows
from scantling.plan.spans import Ways
from scantling.plan.structure import structure_of
from scantling.plan.surfaces import seats_of

STANDING = [id for id, m in MODULES.items() if m.family != "shelving"]
ODD = [
    ("leaning-seat", {"bays": 4, "arms": "none"}),
    ("leaning-seat", {"bays": 1}),
    ("bookcase", {"width": 600, "height": 1800}),
    ("desk", {"width": 1600}),
    ("bed-with-slats", {"mattress_width": 900}),
]


def ways_of(id, parameters=None):
    piece = build(id, parameters)
    return piece, Ways(structure_of(piece, verify(piece).touching))


@pytest.mark.parametrize(("id", "parameters"), [*((id, None) for id in STANDING), *ODD])
def test_nobody_and_nothing_is_lost_on_the_way(id, parameters):
    try:
        piece, ways = ways_of(id, parameters)
    except Exception as error:  # a parameter by another name is a fault of this test
        pytest.fail(f"{id}: {error}")
    flows = person_flows(ways, seats_of(piece))
    for flow in flows:
        assert flow.lost == set()
        arrived = sum(flow.on_floor.values())
        assert arrived >= 1 - 1e-6
        if not flow.bounds:
            assert arrived == pytest.approx(1.0)
    for load, flow in thing_flows(ways):
        assert flow.lost == set()
        arrived = sum(flow.on_floor.values())
        assert arrived >= load.force_n * (1 - 1e-6)
        if not flow.bounds:
            assert arrived == pytest.approx(load.force_n)


def test_what_statics_cannot_share_is_a_bound_on_its_joints():
    _, ways = ways_of("leaning-seat", {"bays": 3})
    flows = person_flows(ways, seats_of(ways.structure.assembly))
    bounded = [f for f in flows if f.bounds]
    assert bounded  # slats over four ribs
    for flow in bounded:
        assert sum(flow.on_floor.values()) > 1.0


def plank_on(*places, load=100.0):
    """A plank 1200 mm long over plywood walls at some places, `load` kg spread over it."""
    from checked_pieces import board, piece, sheet

    a = piece(board("plank", 38.0, 140.0), sheet())
    plank = a.part("plank", 1218, 140, "plank").lay("x", "y").put(x0=-9, y0=0, z0=400)
    for x in places:
        wall = a.part(f"wall {x}", 400, 140, "ply", name="wall").lay("z", "y").put(xc=x, y0=0, z0=0)
        a.glue(plank, wall)
    a.carries(plank, kind="mass", amount=load)
    return Ways(structure_of(a, verify(a).touching))


def test_a_spread_load_on_two_places_is_halved():
    ((load, flow),) = thing_flows(plank_on(0, 1200))
    assert not flow.bounds
    assert flow.on_floor == pytest.approx({"wall 0": load.force_n / 2, "wall 1200": load.force_n / 2})


def test_the_middle_of_three_places_gets_five_eighths_as_a_bound():
    # Two equal spans under a spread load: the middle support carries 10/8 of one span's load, the ends 3/8 (statics,
    # as the two-span constants of APA's Panel Design Specification have it); the ends are taken as half a span.
    ((load, flow),) = thing_flows(plank_on(0, 600, 1200))
    assert flow.on_floor["wall 600"] == pytest.approx(10 / 8 * load.force_n / 2, rel=0.02)
    assert flow.on_floor["wall 0"] == pytest.approx(load.force_n / 4, rel=0.02)
    assert flow.on_floor["wall 0"] > 3 / 8 * load.force_n / 2
    assert flow.bounds == {("plank", f"wall {x}") for x in (0, 600, 1200)}


def test_aprons_and_bearers_are_members_on_the_way_of_what_stands_on_a_top():
    from checked_pieces import row, shipped

    found = shipped("work-table", parameters={"width": 2400, "depth": 900})
    assert row(found, "bending", "front apron").load == "200 kg standing on it"
    assert row(found, "bending", "bearer").ratio < 1
