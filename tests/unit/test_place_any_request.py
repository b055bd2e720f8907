"""Any place that the schema takes is answered or refused by name, and its drawing keeps its letters apart."""

import math
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from demo_plan import DESCRIBES, MODULES
from scantling.drawing.checks import off_page, overlapping
from scantling.measure import RequestError
from scantling.papers.dossier import project_dossier
from scantling.papers.options import read_options
from scantling.papers.place import place_drawing
from scantling.plan.placed import placed_set, placed_to_plain
from scantling.plan.projects import plan_project, project_to_plain

SET = [
    {"id": "run", "module": "leaning-seat", "quantity": 2, "parameters": {"bays": 1, "arms": "none", "joins": "both"}},
    {"id": "corner", "module": "corner-seat", "quantity": 2},
    {"id": "chest with a long name", "module": "chest-with-lid"},
    {"id": "cabinet", "module": "cabinet"},
    {"id": "shelf", "module": "wall-shelf"},
]
LENGTHS = st.floats(0.1, 20_000)
SMALL = st.floats(0, 4_000)


@cache
def planned():
    project = plan_project({"modules": SET, "effort": "quick"}, MODULES)
    return project, project_to_plain(project)


def some(**members):
    return st.fixed_dictionaries({}, optional=members)


CORNERS = st.fixed_dictionaries({"first": LENGTHS, "second": LENGTHS, "diagonal": LENGTHS}) | st.sampled_from(
    [{"first": 300.0, "second": 400.0, "diagonal": d} for d in (480.0, 500.0, 520.0, 600.0)]
)
OPENING = {"at": SMALL, "width": st.floats(0.1, 3_000)}
SKIRTING = st.fixed_dictionaries({"height": st.floats(0.1, 4_000), "depth": st.floats(0.1, 60)})
SWINGS = {"hinge": st.sampled_from(["left", "right"]), "opens": st.sampled_from(["in", "out"])}
DOORS = st.lists(st.fixed_dictionaries({"id": st.just("door"), **OPENING}, optional=SWINGS), max_size=1)
WALLS = st.lists(
    st.fixed_dictionaries(
        {},
        optional={
            "floor": LENGTHS,
            "seat": LENGTHS,
            "back": LENGTHS,
            "skirting": SKIRTING,
            "corner": CORNERS,
            "doors": DOORS,
            "windows": st.lists(st.fixed_dictionaries({"id": st.just("window"), "sill": SMALL, **OPENING}), max_size=1),
            "sockets": st.lists(
                st.fixed_dictionaries({"id": st.just("socket"), "at": SMALL, "height": SMALL}), max_size=1
            ),
        },
    ),
    max_size=4,
)
STANDS = st.lists(
    st.fixed_dictionaries(
        {"module": st.sampled_from([m["id"] for m in SET])},
        optional={
            "wall": st.integers(0, 3),
            "corner": st.booleans(),
            "gap": SMALL,
            "off": SMALL,
            "x": SMALL,
            "y": SMALL,
            "turn": st.floats(0, 360),
        },
    ),
    max_size=6,
)
FLOORS = some(
    fall=st.floats(0, 100),
    towards=st.sampled_from(["back", "front", "left", "right"]),
    readings=st.lists(st.fixed_dictionaries({"x": SMALL, "y": SMALL, "below": SMALL}), min_size=3, max_size=5),
)
PLACES = st.fixed_dictionaries(
    {"walls": WALLS, "stands": STANDS},
    optional={
        "width": LENGTHS,
        "depth": LENGTHS,
        "ceiling": LENGTHS,
        "scribe": SMALL,
        "walkway": LENGTHS,
        "floor": FLOORS,
    },
)


def named(place):
    """Give the walls their ids and let most stands say something that can be."""
    walls = [{**wall, "id": f"wall {i}"} for i, wall in enumerate(place["walls"])]
    stands = []
    for stand in place["stands"]:
        if "wall" in stand and walls:
            kept = {k: v for k, v in stand.items() if k not in ("x", "y", "turn")}
            stands.append({**kept, "wall": f"wall {stand['wall'] % len(walls)}"})
        else:
            kept = {k: v for k, v in stand.items() if k not in ("wall", "corner")}
            stands.append({"x": 100.0, "y": 900.0, **kept})
    return {**place, "walls": walls, "stands": stands}


@st.composite
def sensible(draw):
    """A place that can be: corners that are corners, doors inside their walls, no more stands than pieces."""
    count = draw(st.integers(0, 4))
    lengths = st.floats(300, 9_000)
    walls = []
    for i in range(count):
        wall = draw(some(floor=lengths, seat=lengths, back=lengths, skirting=SKIRTING, doors=DOORS))
        wall["doors"] = [{**d, "at": d["at"] % 300} for d in wall.get("doors", [])]
        if i < count - 1 and draw(st.booleans()):
            half = math.radians(draw(st.floats(75, 140)) / 2)
            wall["corner"] = {"first": 1000.0, "second": 1000.0, "diagonal": 2000 * math.sin(half)}
        walls.append({**wall, "id": f"wall {i}"})
    left = {m["id"]: m.get("quantity", 1) for m in SET}
    stands, filled = [], set()
    for _ in range(draw(st.integers(0, 6))):
        module = draw(st.sampled_from(sorted(left)))
        if left[module] == 0:
            continue
        left[module] -= 1
        wall = draw(st.integers(0, count - 1)) if count else None
        if wall is not None and draw(st.booleans()):
            corner = module == "corner" and wall < count - 1 and wall not in filled
            filled |= {wall} if corner else set()
            gap = draw(some(gap=SMALL, off=SMALL))
            stands.append({"module": module, "wall": f"wall {wall}", "corner": corner, **gap})
        else:
            stands.append({"module": module, "x": draw(SMALL), "y": draw(SMALL), "turn": draw(st.floats(0, 360))})
    more = draw(some(depth=lengths, width=lengths, ceiling=lengths, floor=st.just({"fall": 9.0, "towards": "front"})))
    return {"walls": walls, "stands": stands, **more}


@settings(max_examples=120, deadline=None)
@given(place=PLACES.map(named) | sensible() | sensible())
def test_any_place_is_answered_or_refused_with_pointers(place):
    project, plan = planned()
    try:
        placed, found = placed_set({"place": place}, project.pieces)
    except RequestError as error:
        assert all(e.pointer.startswith("/place/") and e.detail for e in error.errors)
        return
    assert all(f.message and f.remedy for f in found)
    if placed is None:
        return
    answer = placed_to_plain(placed)
    assert len(answer["pieces"]) == len(place["stands"])
    assert sum("Set " in s for s in answer["steps"]) >= len(answer["pieces"])
    dossier = project_dossier({**plan, "place": answer}, read_options({}, "1/16 in"), {"place": place}, DESCRIBES)
    drawing = place_drawing(dossier, 180.0)
    assert [t.text for t in off_page(drawing)] == []
    assert [(a.text, b.text) for a, b in overlapping(drawing)] == []
