"""From the person to the floor: lever rule, bounds, and the back joint of a leaning seat."""

import pytest

from scantling.findings import Severity
from scantling.mechanics.back_joint import BackJoint, check_back_joint, pulled_group, sheared_group
from scantling.mechanics.load_paths import Path, lever_rule, on_each_joint, shared
from scantling.mechanics.loads import (
    Load,
    accessible_bench,
    arm_load,
    climbing_child,
    dropping,
    lean_back_moment,
    people_on,
    seat_loads,
    sitter_mass,
    sitting,
    worst,
)
from scantling.mechanics.loads import test_load as published_load
from scantling.tables import Status, UnknownRowError


def test_lever_rule_between_and_beyond():
    assert lever_rule(900, 300, 0, 900) == (600, 300)
    assert lever_rule(900, 1200, 0, 900) == (-300, 1200)


def test_two_supports_are_shared_and_three_are_bounded():
    two = shared(900, 300, {"left": 0, "right": 900})
    assert [(r.support, r.force_n, r.bound) for r in two] == [("left", 600, False), ("right", 300, False)]
    three = {r.support: r for r in shared(900, 450, {"left": 0, "middle": 450, "right": 900})}
    assert all(r.bound for r in three.values())
    assert [three[name].force_n for name in ("left", "middle", "right")] == [450, 900, 450]


@pytest.mark.parametrize(("support", "exact"), [("a", 0.40625), ("b", 0.6875), ("c", -0.09375)])
def test_a_bound_is_never_below_the_continuous_beam(support, exact):
    """Two equal spans with a load in the middle of one: 13/32, 11/16 and -3/32 of it (beam tables)."""
    bounds = {r.support: r.force_n for r in shared(1000, 450, {"a": 0, "b": 900, "c": 1800})}
    assert bounds[support] >= 1000 * exact


def test_one_support_carries_all():
    assert shared(10, 5, {"only": 0})[0].force_n == 10
    with pytest.raises(ValueError, match="at least one support"):
        shared(10, 5, {})


def test_unknown_shares_put_the_whole_load_on_every_path():
    load = sitting(1, (100,))
    paths = (Path(("seat to rail", "rail to leg")), Path(("seat to apron", "rail to leg")))
    alone = on_each_joint(load, paths, shares_known=False)
    assert set(alone.values()) == {load.force_n}
    halves = tuple(Path(p.joints, 0.5) for p in paths)
    known = on_each_joint(load, halves, shares_known=True)
    assert known["rail to leg"] == pytest.approx(load.force_n)
    assert known["seat to apron"] == pytest.approx(load.force_n / 2)
    with pytest.raises(ValueError, match="add up"):
        on_each_joint(load, paths, shares_known=True)


def test_fastener_groups():
    """Two bolts 100 apart hold M/100 each; four on a square of side 100 hold M/(4 r) with r half the diagonal."""
    assert sheared_group(((0, 0), (0, 100)), 50_000) == pytest.approx(500)
    square = ((0, 0), (0, 100), (100, 0), (100, 100))
    assert sheared_group(square, 50_000, 400) == pytest.approx(50_000 / (4 * 70.7107) + 100, rel=1e-5)
    assert pulled_group((100,), 50_000) == 500
    assert pulled_group((50, 100), 50_000) == pytest.approx(50_000 * 100 / 12_500)
    with pytest.raises(ValueError, match="two or more"):
        sheared_group(((0, 0),), 1)


def joint(capacity, basis):
    return BackJoint("Back post", ((0, 40), (0, 120)), pulled=True, capacity_n=capacity, basis=basis, code="NDS 2018")


def leaning():
    return Load("somebody leaning back with 300 N", 300, "service", "short", 0.0, "stated", Status.READ)


def test_leaning_back_is_checked_on_one_basis():
    weak = check_back_joint(joint(200, "design"), leaning())
    assert weak.worst_n == pytest.approx(300 * 300 / 2 * 120 / (40**2 + 120**2))
    assert [(f.code, f.severity) for f in weak.findings()] == [("back-joint-weak", Severity.ERROR)]
    assert check_back_joint(joint(400, "design"), leaning()).findings() == ()
    with pytest.raises(ValueError, match="ultimate"):
        check_back_joint(joint(400, "design"), published_load("home", "back static"))


def test_the_published_back_load_only_warns_because_its_column_is_uncertain():
    found = check_back_joint(joint(200, "ultimate"), published_load("home", "back static")).findings()
    assert [f.severity for f in found] == [Severity.WARNING]


def test_loads_name_who_and_what():
    assert sitter_mass((60, 95))[0] == 95
    assert sitter_mass()[0] == 110
    assert "95 kg" in sitting(2, (60, 95)).label
    assert dropping((80,)).force_n == pytest.approx(2 * 80 * 9.80665)
    assert climbing_child().force_n == pytest.approx(60 * 4.448222)
    assert people_on(300) == 1
    assert lean_back_moment("home")[0] == 560 * 300
    assert worst((sitting(1), dropping())).label.endswith("dropping onto it")
    with pytest.raises(ValueError, match="service"):
        worst((sitting(1), published_load("home", "seat static")))
    with pytest.raises(UnknownRowError):
        published_load("moon", "seat static")


def test_a_seat_is_checked_for_people_and_for_the_published_tests():
    home, public = seat_loads("home", 3), seat_loads("public", 3)
    assert [load.basis for load in home] == ["service"] * 3 + ["test"] * 2
    assert [load.force_n for load in home[3:]] == [1600, 1300]
    assert "125 kg" in public[0].label and "110 kg" in home[0].label
    assert seat_loads("home", 1, (70,))[0].force_n == pytest.approx(70 * 9.80665)
    assert (arm_load("home").force_n, arm_load("public").force_n) == (700, 900)
    assert accessible_bench().force_n == pytest.approx(1112, abs=0.5)
