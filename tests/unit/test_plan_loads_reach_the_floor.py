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
