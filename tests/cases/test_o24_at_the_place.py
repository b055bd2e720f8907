"""Case O24 at its place: base, then move, then what comes on it; a corner first and its runs pushed against it.

Source: branchbarks.com, "Outdoor sectional, part III", 2 November 2020: each base is carried to its place before the
set is fastened together there. Seats built on one frame are carried whole, and bolted where they stand.
"""

from demo_plan import demo_plan


def test_every_piece_is_built_before_the_set_is_joined_and_nothing_is_glued_there():
    plan = demo_plan()
    steps = plan["place"]["steps"]
    assert all(module["steps"] for module in plan["modules"])  # each piece has its own order of assembly, in the shop
    joins = [i for i, s in enumerate(steps) if s.startswith("Push")]
    assert len(joins) == 2
    for i in joins:
        pushed = [name for name in ("long bench", "corner seat", "short bench") if name in steps[i]]
        set_down = [j for j, s in enumerate(steps) for name in pushed if s.startswith(f"Set {name} ")]
        assert len(set_down) == 2 and max(set_down) < i
        assert "Do not glue" in steps[i]


def test_the_corner_stands_first_and_the_runs_come_to_it():
    steps = demo_plan()["place"]["steps"]
    first = [s.split(" against ")[0].split(" into ")[0] for s in steps if s.startswith("Set ")]
    assert first[0] == "Set corner seat"
    assert first.index("Set long bench") > 0 and first.index("Set short bench") > 0


def test_the_runs_meet_at_ninety_degrees():
    turns = {p["module"]: p["turn_deg"] for p in demo_plan()["place"]["pieces"]}
    assert turns["short bench"] - turns["long bench"] == 90
    assert turns["corner seat"] == turns["short bench"]
