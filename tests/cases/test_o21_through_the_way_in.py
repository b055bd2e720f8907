"""Case O21 asked of a whole project: a door of 40 in, a seat run 43 in deep (finestmovers.blogspot.com, 2011).

Source: turn it so that the back faces the ceiling and it passes: 38 in is less than 40.
"""

from pieces import MODULES
from scantling.plan.projects import projects

IN = 25.4
DEEP = {"seat_cushion": {"width": 22 * IN, "depth": 34.5 * IN, "thickness": 5 * IN, "loaded": 3.5 * IN}, "lean": 12.0}


def said(door):
    request = {
        "modules": [{"id": "sofa", "module": "leaning-seat", "parameters": {**DEEP, "bays": 4, "back_height": 400.0}}],
        "place": {"way_in": [{"id": "front door", "kind": "door", "width": door * IN, "height": 80 * IN}]},
    }
    plan = projects(request, modules=MODULES)
    size = plan["modules"][0]["overall"]
    return size, {f["code"]: f for f in plan["findings"]}


def test_deeper_than_the_door_it_goes_through_on_its_back():
    size, found = said(40)
    assert size["depth_mm"] > 40 * IN > size["height_mm"] + 1 * IN
    assert size["width_mm"] > 80 * IN  # too long to stand on end in the door
    assert "will-not-go-in" not in found
    assert "lying on its back" in found["goes-in-tilted"]["message"]


def test_a_door_narrower_than_depth_and_height_stops_it():
    size, found = said(26)
    assert min(size["depth_mm"], size["height_mm"]) > 26 * IN
    assert "front door (door)" in found["will-not-go-in"]["message"]
