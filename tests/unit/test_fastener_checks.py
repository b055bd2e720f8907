"""The fastener-check operation: what it answers, what it refuses and where it points, and what may decide."""

import json

import pytest

from scantling.findings import catalogue
from scantling.measure import RequestError
from scantling.mechanics import fastener_checks
from scantling.mechanics.stack import Interval, read_stack
from scantling.mechanics.validity import OutOfValidity

INCH = 25.4


def joint(**more: object) -> dict:
    base: dict = {
        "id": "rail to leg",
        "layers": [
            {"material": "softwood-plywood", "thickness": 18.26},
            {"material": "douglas-fir", "thickness": 38.1},
        ],
        "fastener": {"kind": "wood screw", "gauge": 8, "length": 50.8},
    }
    return {**base, **more}


def one(method: str = "nds", **more: object) -> dict:
    return fastener_checks({"method": method, "joints": [joint(**more)]})["joints"][0]


def codes(answer: dict) -> dict[str, str]:
    return {f["code"]: f["severity"] for f in answer["findings"]}


def problems(request: dict) -> dict[str, str]:
    with pytest.raises(RequestError) as caught:
        fastener_checks(request)
    return {problem.pointer: problem.code for problem in caught.value.errors}


def test_a_sound_joint_answers_everything_without_findings() -> None:
    answer = one(loads={"withdrawal_n": 100, "lateral_n": 100}, count=2, pilot=True)
    assert answer["findings"] == []
    assert answer["demand"] == {"withdrawal_n": 50.0, "lateral_n": 50.0, "count": 2}
    assert answer["governing"] == "lateral IIIs"
    assert answer["ratio"] == pytest.approx(50.0 / answer["capacity"]["lateral_n"], abs=1e-3)
    for member in ("stack", "point", "bite", "pilot", "clearance_hole", "countersink", "capacity", "length_window"):
        assert answer[member]


def test_the_answer_is_plain_json_and_the_same_every_time() -> None:
    request = {"joints": [joint(loads={"lateral_n": 500}), joint(id="b", role="clamps")]}
    assert json.dumps(fastener_checks(request)) == json.dumps(fastener_checks(request))


def test_every_code_is_in_the_catalogue() -> None:
    for more in (
        {"fastener": {"gauge": 8, "length": 80.0}},
        {"fastener": {"gauge": 8, "length": 16.0}},
        {"fastener": {"gauge": 8, "length": 30.0}, "loads": {"lateral_n": 10}},
        {"loads": {"lateral_n": 90000}},
        {"edge_distance": 2.0, "end_distance": 5.0, "spacing": 5.0},
        {"fastener": {"kind": "bolt", "diameter": 8.0, "length": 40.0}},
    ):
        found = codes(one(**more))
        assert found
        assert set(found) <= set(catalogue())


def test_the_point_is_found_in_the_open_or_in_a_part() -> None:
    inside = one()
    assert inside["point"]["in"] == "layer 2"
    assert inside["point"]["wood_left_mm"] == pytest.approx(18.26 + 38.1 - 50.8, abs=0.01)
    outside = one(fastener={"gauge": 8, "length": 63.5})
    assert outside["point"]["in"] is None
    assert codes(outside)["screw-point-out"] == "error"


def test_a_screw_that_does_not_reach_is_an_error() -> None:
    assert codes(one(fastener={"gauge": 8, "length": 15.0}))["screw-misses-part"] == "error"


def test_a_short_bite_is_an_error_only_where_a_load_needs_it() -> None:
    short = {"gauge": 8, "length": 38.1}
    assert codes(one(fastener=short))["screw-shallow"] == "warning"
    assert codes(one(fastener=short, loads={"lateral_n": 1}))["screw-shallow"] == "error"
    clamping = codes(one(fastener=short, role="clamps"))
    assert clamping == {"screw-no-design-value": "note"}
    loaded = codes(one(fastener=short, role="clamps", loads={"lateral_n": 100}))
    assert loaded["load-on-clamping-screw"] == "warning"
    assert "error" not in loaded.values()


def test_end_grain_has_no_withdrawal_and_two_thirds_sideways() -> None:
    """NDS 2018 12.2.2 and 12.5.2."""
    layers = [{"material": "douglas-fir", "thickness": 19.05}, {"material": "douglas-fir", "thickness": 300.0}]
    side = one(layers=layers, loads={"lateral_n": 100})
    layers[1]["grain"] = "end"
    end = one(layers=layers, loads={"lateral_n": 100})
    assert end["capacity"]["withdrawal_n"] == 0
    assert end["capacity"]["lateral_n"] == pytest.approx(0.67 * side["capacity"]["lateral_n"], rel=1e-3)
    assert codes(end)["screw-in-end-grain"] == "warning"
    assert codes(one(layers=layers, loads={"withdrawal_n": 100}))["screw-in-end-grain"] == "error"


def test_a_panel_edge_keeps_three_quarters_of_the_face() -> None:
    """Survey of screw holding in panels (McNatt): edges 75 to 80 % of faces."""
    layers = [{"material": "birch-plywood", "thickness": 18.0}, {"material": "birch-plywood", "thickness": 200.0}]
    layers[1]["grain"] = "face"
    face = one(layers=layers)
    layers[1]["grain"] = "edge"
    assert one(layers=layers)["capacity"]["withdrawal_n"] == pytest.approx(
        0.75 * face["capacity"]["withdrawal_n"], abs=0.1
    )


def test_fibreboard_has_no_published_value_and_says_so() -> None:
    layers = [{"material": "mdf", "thickness": 18.0}, {"material": "mdf", "thickness": 200.0, "grain": "edge"}]
    answer = one(layers=layers, loads={"withdrawal_n": 10})
    assert answer["capacity"]["withdrawal_n"] is None
    assert "maker" in answer["capacity"]["missing"]["withdrawal"]
    assert codes(answer)["fastener-capacity-unknown"] == "warning"
    assert codes(answer)["screw-in-panel-edge"] == "note"


def test_wet_service_load_duration_and_toe_screws_scale_the_values() -> None:
    """NDS 2018 Tables 11.3.3 and 2.3.2, 12.5.4."""
    plain = one()["capacity"]
    assert one(service="wet")["capacity"]["lateral_n"] == pytest.approx(0.7 * plain["lateral_n"], abs=0.1)
    assert one(duration="short")["capacity"]["lateral_n"] == pytest.approx(1.25 * plain["lateral_n"], abs=0.1)
    toe = one(toe=True)["capacity"]
    assert toe["lateral_n"] == pytest.approx(0.83 * plain["lateral_n"], abs=0.1)
    assert toe["withdrawal_n"] == pytest.approx(0.67 * plain["withdrawal_n"], abs=0.1)


def test_overload_is_an_error_and_says_how_many_would_do() -> None:
    answer = one(loads={"lateral_n": 1000}, count=2)
    assert codes(answer)["fastener-overloaded"] == "error"
    needed = int(next(f["remedy"] for f in answer["findings"]).split()[0])
    assert (
        one(loads={"lateral_n": 1000}, count=needed)["ratio"]
        <= 1
        < one(loads={"lateral_n": 1000}, count=needed - 1)["ratio"]
    )


def test_a_figure_from_memory_never_makes_an_error() -> None:
    """OSB's specific gravity and the usual steel of Eurocode 5 are from memory: the same overload is a warning."""
    heavy = {"lateral_n": 5000}
    assert codes(one(loads=heavy))["fastener-overloaded"] == "error"
    osb = [{"material": "osb", "thickness": 18.26}, {"material": "douglas-fir", "thickness": 38.1}]
    assert codes(one(layers=osb, loads=heavy))["fastener-overloaded"] == "warning"
    timber = [{"material": "c24", "thickness": 18.26}, {"material": "c24", "thickness": 38.1}]
    assumed = one("eurocode5", layers=timber, loads=heavy)
    assert codes(assumed)["fastener-overloaded"] == "warning"
    assert "from memory" in next(f["message"] for f in assumed["findings"])
    declared = {"gauge": 8, "length": 50.8, "yield_moment": 4000.0}
    assert codes(one("eurocode5", layers=timber, loads=heavy, fastener=declared))["fastener-overloaded"] == "error"


def test_eurocode_axial_needs_the_makers_declared_values() -> None:
    timber = [{"material": "c24", "thickness": 18.0}, {"material": "c24", "thickness": 60.0}]
    bare = one("eurocode5", layers=timber, loads={"withdrawal_n": 100})
    assert bare["capacity"]["withdrawal_n"] is None
    assert codes(bare)["fastener-capacity-unknown"] == "warning"
    size = {"gauge": 8, "length": 63.5, "withdrawal_parameter": 12.0, "head_parameter": 10.0, "head_diameter": 8.0}
    full = one("eurocode5", layers=timber, loads={"withdrawal_n": 100}, fastener=size)
    # EN 1995-1-1 Eq. 8.40a and 8.40b by hand: kmod 0.7 (long), 1.3.
    by_hand = 12.0 * 0.164 * INCH * (63.5 * 2 / 3) * 0.7 / 1.3
    assert full["capacity"]["withdrawal_n"] == pytest.approx(by_hand, abs=0.1)
    assert full["capacity"]["pull_through_n"] == pytest.approx(10.0 * 64 * 0.7 / 1.3, abs=0.1)
    assert full["governing"] == "pull-through"


def test_distances_clear_with_a_pilot_hole_where_the_prebored_value_is_met() -> None:
    """NDS 2018 Commentary: ends 10 D plain, 5 D prebored where nothing pushes towards them."""
    d = 0.164 * INCH
    near = {"end_distance": 6 * d}
    assert codes(one(**near))["screw-near-end"] == "warning"
    assert "screw-near-end" not in codes(one(**near, pilot=True))
    assert codes(one(end_distance=4 * d, pilot=True))["screw-near-end"] == "warning"
    assert codes(one(edge_distance=2 * d, pilot=True))["screw-near-edge"] == "warning"
    assert "error" not in codes(one(edge_distance=1.0, end_distance=1.0, spacing=1.0)).values()


def test_dense_wood_wants_a_pilot_hole() -> None:
    """NDS 2018 12.1.5."""
    oak = [{"material": "red-oak", "thickness": 19.05}, {"material": "red-oak", "thickness": 38.1}]
    assert codes(one(layers=oak, pilot=False))["pilot-hole-needed"] == "warning"
    assert "pilot-hole-needed" not in codes(one(layers=oak, pilot=True))
    assert "pilot-hole-needed" not in codes(one(pilot=False))


def test_the_callers_own_figures_rule_over_the_tables() -> None:
    teak = [{"material": "teak", "thickness": 19.05}, {"material": "teak", "thickness": 38.1}]
    assert one(layers=teak)["capacity"]["lateral_n"] is None
    own = [{**layer, "specific_gravity": 0.55} for layer in teak]
    assert one(layers=own)["capacity"]["lateral_n"] > 0
    thick = one(fastener={"gauge": 8, "length": 50.8, "root_diameter": 3.6})["capacity"]["lateral_n"]
    assert thick > one()["capacity"]["lateral_n"]


def test_a_thickness_range_is_checked_at_its_worst() -> None:
    sheet = {"material": "birch-plywood", "thickness": {"status": "assumed", "least": 17.0, "most": 19.0}}
    measured = {"material": "birch-plywood", "thickness": [17.5, 17.7, 17.6]}
    answer = one(layers=[sheet, measured], fastener={"gauge": 8, "length": 35.0}, role="clamps")
    assert answer["point"]["protrusion_mm"] == 0
    out = next(f for f in answer["findings"] if f["code"] == "screw-point-out")
    assert "worst thickness" in out["message"]
    assert answer["length_window"]["longest_mm"] == pytest.approx(17.0 + 17.5 - 2.0)
    assert answer["length_window"]["shortest_mm"] == pytest.approx(19.0 + 3 * 0.164 * INCH, abs=0.01)


def test_pulled_and_pushed_together_by_hand() -> None:
    """NDS 2018 Eq. 12.4-1 at 45 degrees: half the sum of the two inverse values times the resultant."""
    layers = [{"material": "douglas-fir", "thickness": 38.1}, {"material": "western-red-cedar", "thickness": 89.0}]
    size = {"gauge": 10, "length": 88.9}
    answer = one(layers=layers, fastener=size, loads={"withdrawal_n": 300, "lateral_n": 300})
    held = answer["capacity"]
    by_hand = (2 * 300.0**2) ** 0.5 * (1 / held["withdrawal_n"] + 1 / held["lateral_n"]) / 2
    alone = max(300 / held["withdrawal_n"], 300 / held["pull_through_n"], 300 / held["lateral_n"])
    assert answer["ratio"] == pytest.approx(max(by_hand, alone), abs=1e-3)


def test_a_gap_between_parts_carries_no_lateral_load() -> None:
    """Fed by geometry: the second part begins 3 mm behind the first."""
    stack = read_stack(
        [Interval("a", "douglas-fir", 0, 19, "side"), Interval("b", "douglas-fir", 22, 60, "side")],
        length_mm=50.0,
        head_depth_mm=0.0,
        thread_mm=34.0,
        threads_per_inch=15.0,
    )
    assert [bite.bite_mm for bite in stack.layers] == pytest.approx([19.0, 28.0])
    assert stack.head_layers_mm == 22
    assert stack.layers[1].threads == pytest.approx(28.0 * 15 / INCH)
    assert stack.thread_holder is stack.layers[1]


@pytest.mark.parametrize(
    ("intervals", "said"),
    [
        ([], "at least one part"),
        ([Interval("a", "x", 0, 0, "side")], "no length"),
        ([Interval("a", "x", 0, 9, "knot")], "knot"),
        ([Interval("a", "x", 0, 9, "side"), Interval("b", "x", 5, 12, "side")], "before a ends"),
    ],
)
def test_a_stack_out_of_order_is_refused(intervals: list[Interval], said: str) -> None:
    with pytest.raises(ValueError, match=said):
        read_stack(intervals, length_mm=10.0, head_depth_mm=0.0, thread_mm=5.0)


def test_a_stack_with_a_negative_length_is_refused() -> None:
    with pytest.raises(OutOfValidity, match="length"):
        read_stack([Interval("a", "x", 0, 9, "side")], length_mm=-1.0, head_depth_mm=0.0, thread_mm=5.0)


def test_every_fault_of_a_request_is_pointed_at() -> None:
    request = {
        "method": "rule of thumb",
        "joints": [
            {
                "id": "a",
                "layers": [
                    {"material": "brich-plywood", "thickness": -3},
                    {"material": "mdf", "thickness": float("nan")},
                ],
                "fastener": {"kind": "wood screw", "gauge": 11, "length": 30},
                "role": "grips",
                "count": 0,
                "loads": {"lateral_n": "much"},
                "duration": "for ever",
            },
            {"id": "a", "layers": [], "fastener": {"kind": "rivet"}},
            "joint",
        ],
    }
    assert problems(request) == {
        "/method": "unknown-method",
        "/joints/0/layers/0/thickness": "out-of-range",
        "/joints/0/layers/0/material": "unknown-material",
        "/joints/0/layers/1/thickness": "not-a-number",
        "/joints/0/fastener/gauge": "unknown-gauge",
        "/joints/0/role": "unknown-role",
        "/joints/0/count": "out-of-range",
        "/joints/0/loads/lateral_n": "not-a-number",
        "/joints/0/duration": "unknown-duration",
        "/joints/1/id": "duplicate-id",
        "/joints/1/layers": "missing",
        "/joints/1/fastener/kind": "unknown-kind",
        "/joints/2": "not-an-object",
    }


@pytest.mark.parametrize(
    ("more", "pointer"),
    [
        ({"head_depth": 25.0}, "/joints/0/head_depth"),
        ({"fastener": {"gauge": 8}}, "/joints/0/fastener/length"),
        ({"fastener": {"gauge": "eight", "length": 30}}, "/joints/0/fastener/gauge"),
        ({"fastener": {"kind": "lag screw", "diameter": 7.0, "length": 60}}, "/joints/0/fastener/diameter"),
        ({"fastener": {"kind": "nail", "pennyweight": "9d"}}, "/joints/0/fastener/pennyweight"),
        ({"fastener": {"kind": "nail", "diameter": 1.2, "length": 30}}, "/joints/0/fastener"),
    ],
)
def test_single_faults_point_at_their_member(more: dict, pointer: str) -> None:
    assert pointer in problems({"joints": [joint(**more)]})


def test_an_empty_request_is_refused() -> None:
    assert problems({"joints": []}) == {"/joints": "missing"}
    assert problems({}) == {"/joints": "missing"}


def test_lags_nails_and_bolts_answer_too() -> None:
    fir = [{"material": "douglas-fir", "thickness": 38.1}, {"material": "douglas-fir", "thickness": 89.0}]
    lag = one(layers=fir, fastener={"kind": "lag screw", "diameter": "3/8", "length": 101.6, "head_diameter": 25.4})
    assert lag["capacity"]["withdrawal_n"] > 0 < lag["capacity"]["lateral_n"]
    # NDS 2018 3.10.2: washer 1 in over a 3/8 in shank, Fc across the grain 625 psi (Supplement Table 4A).
    area = 3.14159265 / 4 * (25.4**2 - 9.525**2)
    assert lag["capacity"]["pull_through_n"] == pytest.approx(625 * 0.00689476 * area, rel=1e-4)
    nail = one(layers=fir, fastener={"kind": "nail", "pennyweight": "16d"})
    assert nail["pilot"]["needed"] is False
    assert nail["clearance_hole"] is None
    bolt = one(layers=fir, fastener={"kind": "bolt", "diameter": 12.7, "length": 160.0}, loads={"lateral_n": 500})
    assert "screw-point-out" not in codes(bolt)
    assert bolt["capacity"]["lateral_n"] > 0
    assert codes(one(layers=fir, fastener={"kind": "bolt", "diameter": 12.7, "length": 130.0}))["bolt-too-short"]


def test_a_clearance_hole_is_needed_where_thread_stays_in_the_upper_part() -> None:
    """A #8 x 2 in has 2/3 of its length threaded (NDS 2018 Appendix Table L3, footnote 2): 16.9 mm are smooth."""
    thick = [{"material": "douglas-fir", "thickness": 30.0}, {"material": "douglas-fir", "thickness": 60.0}]
    thin = [{"material": "douglas-fir", "thickness": 16.0}, {"material": "douglas-fir", "thickness": 60.0}]
    assert one(layers=thick)["clearance_hole"]["needed"] is True
    assert one(layers=thin)["clearance_hole"]["needed"] is False


def test_messages_use_words_and_the_label_on_the_box() -> None:
    answer = one(loads={"lateral_n": 5000})
    assert answer["fastener"] == "#8 x 2 in wood screw"
    assert "it bends once" in next(f["message"] for f in answer["findings"])
    assert one(fastener={"gauge": 8, "length": 52.0})["fastener"] == "#8 x 52.0 mm wood screw"


def dowelled(length: float, diameter: float = 8.0, **more: object) -> dict:
    layers = [
        {"part": "rail", "material": "cherry", "thickness": 40.0, "grain": "end"},
        {"part": "leg", "material": "cherry", "thickness": 30.0},
    ]
    return one(layers=layers, fastener={"kind": "dowel", "diameter": diameter, "length": length}, **more)


def test_a_dowel_sits_half_in_each_part() -> None:
    answer = dowelled(40.0)
    assert [bite["bite_mm"] for bite in answer["stack"]] == [20.0, 20.0]
    assert answer["findings"] == []
    assert answer["pilot"]["drill_mm"] == 8.0
    # 3.0 N/mm2 (BioResources 13(3) 5179, pre-glued) on the area of the hole.
    assert answer["ultimate_withdrawal_n"] == pytest.approx(3.14159265 * 8 * 20 * 3.0, abs=0.1)
    assert answer["length_window"]["shortest_mm"] == 32.0
    assert answer["length_window"]["longest_mm"] == 54.0


def test_a_dowel_too_long_too_short_or_loaded_says_so() -> None:
    assert codes(dowelled(64.0))["screw-point-out"] == "error"
    assert codes(dowelled(20.0))["screw-shallow"] == "warning"
    loaded = dowelled(40.0, loads={"withdrawal_n": 100})
    assert codes(loaded) == {"fastener-capacity-unknown": "warning"}
    assert "1508 N" in loaded["findings"][0]["message"]
    assert loaded["ratio"] is None


def test_a_dowel_joins_two_parts() -> None:
    three = [{"material": "cherry", "thickness": 20.0}] * 3
    size = {"kind": "dowel", "diameter": 8.0, "length": 40.0}
    assert problems({"joints": [joint(layers=three, fastener=size)]}) == {"/joints/0/layers": "out-of-range"}


def test_fibreboard_wants_a_pilot_hole() -> None:
    """Common practice: without one the edge splits."""
    layers = [{"material": "mdf", "thickness": 18.0}, {"material": "mdf", "thickness": 200.0, "grain": "edge"}]
    pilot = one(layers=layers)["pilot"]
    assert pilot["needed"] is True
    assert pilot["diameter_mm"] == pytest.approx(0.9 * 0.131 * INCH, abs=0.01)


def test_near_an_edge_the_thinner_screw_that_may_sit_there_is_named() -> None:
    """NDS 2018 Commentary: 2.5 D; 9 mm suits a #6 (8.8 mm), not a #8 (10.4 mm)."""
    remedy = next(f["remedy"] for f in one(edge_distance=9.0)["findings"] if f["code"] == "screw-near-edge")
    assert "#6, which wants 8.8 mm" in remedy
