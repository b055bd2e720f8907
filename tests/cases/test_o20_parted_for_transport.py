"""Case O20: a sofa built in parts for transport, its sides bolted (ana-white.com, 2x4 outdoor sofa sectional piece).

A long seat run that no way in takes, and one person cannot carry, says where it is parted and what each part weighs.
"""

import pytest

from pieces import MODULES, build, ply
from scantling.board import Assembly
from scantling.plan.place import halves_of, split_of
from scantling.plan.projects import projects


def test_the_run_is_parted_at_a_rib_near_its_middle_and_both_parts_weigh_what_the_whole_and_a_rib_do():
    run = build("leaning-seat", {"bays": 4})
    split = split_of(run)
    assert split.part == "rib 3"  # of five, the middle one
    whole = run.mass_and_centre()[0]
    assert sum(split.masses_kg) == pytest.approx(whole + run.parts["rib 3"].mass_kg())
    wide = run.bounds()[1][0] - run.bounds()[0][0]
    assert sum(size[0] for size in split.sizes) == pytest.approx(wide + run.parts["rib 3"].thickness)


def test_bolted_sides_come_off_and_each_part_is_weighed():
    """Two ends bolted to a seat of three parts glued up: three pieces to carry, heaviest first."""
    sofa = Assembly("sofa", "sofa", {"board": ply(38, "board")})
    seat = sofa.part("seat", 1800, 600, "board").lay("x", "y").put(x0=38, y0=0, z0=300)
    ends = [
        sofa.part(f"end {hand}", 700, 600, "board").lay("z", "y").put(y0=0, z0=0, **at)
        for hand, at in (("left", {"x1": 38.0}), ("right", {"x0": 1838.0}))
    ]
    for end in ends:
        sofa.join("bolted", end, seat)
    apart = halves_of(sofa)
    assert apart.masses_kg == pytest.approx((seat.mass_kg(), ends[0].mass_kg(), ends[1].mass_kg()))
    assert apart.sizes == (pytest.approx((1800, 600, 38)), pytest.approx((38, 600, 700)), pytest.approx((38, 600, 700)))


def test_a_bed_goes_up_the_stairs_in_parts():
    """Head, foot and rails are bolted: whole it is 1.5 m wide, and no part of it is."""
    stairs = [{"id": "stairs", "kind": "stairs", "width": 800.0, "height": 1900.0, "turn": 900.0}]
    request = {"modules": [{"id": "bed", "module": "bed-with-slats"}], "place": {"way_in": stairs}}
    found = {f["code"]: f for f in projects(request, modules=MODULES)["findings"]}
    assert found["will-not-go-in"]["remedy"].startswith("Take out its bolts and unscrew slats and such")
    assert "All parts go in" in found["will-not-go-in"]["remedy"]


def test_it_is_said_with_the_way_that_is_too_narrow():
    request = {
        "modules": [{"id": "sofa", "module": "leaning-seat", "parameters": {"bays": 4}}],
        "place": {"way_in": [{"id": "stairs", "kind": "stairs", "width": 900.0, "height": 1900.0, "turn": 900.0}]},
    }
    found = {f["code"]: f for f in projects(request, modules=MODULES)["findings"]}
    assert "parted at rib 3 with a second one beside it" in found["will-not-go-in"]["remedy"]
    assert "All parts go in, turned or on end" in found["will-not-go-in"]["remedy"]
