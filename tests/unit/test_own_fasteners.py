"""Fasteners and woods that no table holds: by the caller's own sizes, densities and values, or refused in words."""

import pytest

from scantling.measure import RequestError
from scantling.mechanics import fastener_checks
from scantling.mechanics.own_fastener import other_fastener, screw_by_diameter, staple
from scantling.mechanics.validity import OutOfValidity

IN, LB = 25.4, 4.448222
FIR = {"material": "douglas-fir", "thickness": 1.5 * IN}


def ask(fastener, layers=None, method="nds", **more):
    """Check one joint of two parts, the head in the first."""
    layers = layers or [
        {"material": "douglas-fir", "thickness": 0.5 * IN},
        {"material": "douglas-fir", "thickness": 3 * IN},
    ]
    joint = {"id": "a", "layers": layers, "fastener": fastener, **more}
    return fastener_checks({"method": method, "joints": [joint]})["joints"][0]


def refused(fastener, **more):
    with pytest.raises(RequestError) as error:
        ask(fastener, **more)
    return str(error.value)


def test_a_screw_by_its_diameters_holds_what_the_same_screw_by_gauge_holds():
    # NDS 2018 Table 12L: #10 wood screw, side member 1/2 in, G 0.50: 90 lb; Appendix L3: D 0.190, root 0.152 in
    own = ask({"kind": "wood screw", "diameter": 0.190 * IN, "root_diameter": 0.152 * IN, "length": 2.5 * IN})
    gauge = ask({"kind": "wood screw", "gauge": 10, "length": 2.5 * IN})
    assert own["capacity"]["lateral_n"] / LB == pytest.approx(90, abs=0.5)
    assert own["capacity"]["lateral_n"] == pytest.approx(gauge["capacity"]["lateral_n"], rel=1e-3)
    assert own["capacity"]["withdrawal_n"] == pytest.approx(gauge["capacity"]["withdrawal_n"], rel=1e-3)


def test_a_metric_screw_by_eurocode_5_takes_the_makers_declared_values():
    size = {"kind": "wood screw", "diameter": 5.0, "root_diameter": 3.1, "length": 60.0}
    bare = ask(size, method="eurocode5")["capacity"]
    assert bare["withdrawal_n"] is None
    assert "withdrawal_parameter" in bare["missing"]["withdrawal"]
    assert "head_parameter" in bare["missing"]["pull-through"]
    declared = {
        **size,
        "head_diameter": 10.0,
        "tensile_strength": 900.0,
        "withdrawal_parameter": 12.0,
        "head_parameter": 10.0,
    }
    full = ask(declared, method="eurocode5")["capacity"]
    assert full["missing"] == {}
    # EN 1995-1-1 Eq. 8.40b: fhead dh^2 (rho/350)^0.8, kmod 0.7 (long), 1.3; a softwood of rho_k 350 or so
    assert full["pull_through_n"] == pytest.approx(10 * 100 * 0.7 / 1.3, rel=0.2)


def test_a_screw_by_its_diameter_alone_is_refused():
    assert "root_diameter" in refused({"kind": "wood screw", "diameter": 5.0, "length": 60.0})
    with pytest.raises(OutOfValidity):
        screw_by_diameter(12.0, 8.0, 60.0)
    with pytest.raises(OutOfValidity):
        screw_by_diameter(5.0, 5.5, 60.0)


def test_each_leg_of_a_staple_is_a_nail_of_its_wire():
    # Wood Handbook, FPL-GTR-190, p. 8-10
    wire = 2.6
    legs = ask({"kind": "staple", "diameter": wire, "length": 50.0}, count=3, loads={"lateral_n": 600.0})
    nail = ask({"kind": "nail", "diameter": wire, "length": 50.0}, count=6, loads={"lateral_n": 600.0})
    assert legs["capacity"]["count"] == 6
    assert legs["capacity"]["lateral_n"] == nail["capacity"]["lateral_n"]
    assert legs["ratio"] == nail["ratio"]


def test_a_thin_staple_has_no_published_lateral_value_unless_the_maker_gives_one():
    thin = ask({"kind": "staple", "diameter": 1.6, "length": 38.0})
    assert thin["capacity"]["lateral_n"] is None
    assert thin["capacity"]["withdrawal_n"] > 0
    own = ask({"kind": "staple", "diameter": 1.6, "length": 38.0, "bending_yield": 690.0})
    assert own["capacity"]["lateral_n"] > 0
    with pytest.raises(OutOfValidity):
        staple(5.0, 38.0)


def test_a_kind_no_standard_reckons_takes_its_makers_values_or_is_refused():
    pocket = {"kind": "other", "name": "pocket screw", "diameter": 4.2, "length": 32.0}
    words = refused(pocket)
    assert "design_lateral_n" in words and "wood screw, lag screw, nail" in words
    held = ask({**pocket, "design_lateral_n": 400.0}, count=2, loads={"lateral_n": 500.0})
    assert held["ratio"] == pytest.approx(500 / 800)
    assert held["capacity"]["code"].startswith("the maker")
    pulled = ask({**pocket, "design_lateral_n": 400.0}, loads={"withdrawal_n": 10.0})
    assert [f["code"] for f in pulled["findings"]] == ["fastener-capacity-unknown"]
    with pytest.raises(ValueError, match="no published values"):
        other_fastener("cam", 15.0, 12.0, None, None)


def test_a_wood_that_is_not_in_the_tables_is_taken_by_its_own_density():
    # NDS 2018 Table 12.2B: #10 in G 0.50, 135 lb per inch
    layers = [{"material": "douglas-fir", "thickness": 0.5 * IN},
              {"material": "some-foreign-wood", "thickness": 3 * IN, "specific_gravity": 0.50}]  # fmt: skip
    found = ask({"kind": "wood screw", "gauge": 10, "length": 2.5 * IN}, layers)
    known = ask({"kind": "wood screw", "gauge": 10, "length": 2.5 * IN})
    assert found["capacity"]["withdrawal_n"] == known["capacity"]["withdrawal_n"]
    bare = [layers[0], {"material": "duglas-fir", "thickness": 3 * IN}]
    assert "nearest: douglas-fir" in refused({"kind": "wood screw", "gauge": 10, "length": 2.5 * IN}, layers=bare)


@pytest.mark.parametrize(
    ("fastener", "words"),
    [
        ({"kind": "wood screw", "gauge": 11, "length": 50.0}, "nearest: 10, 12"),
        ({"kind": "nail", "diameter": 12.0, "length": 50.0}, "2.51 to 9.52 mm"),
        ({"kind": "bolt", "diameter": 4.0, "length": 80.0}, "6 to 25.41 mm (NDS 2018 Table 12A)"),
        ({"kind": "dowel", "diameter": 2.0, "length": 30.0}, "3 to 26 mm"),
    ],
)
def test_sizes_outside_the_tables_answer_with_what_would_be_accepted(fastener, words):
    assert words in refused(fastener)
