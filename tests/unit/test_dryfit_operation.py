"""POST /v1/dry-fits as a function: the round trip of what `…/parts` answers, and what bad input gets."""

import copy
import json
import time
from dataclasses import replace

import numpy as np
import pytest

from dryfit_pieces import bench, box, corner, moved, post, tray
from scantling.board import assembly_to_plain
from scantling.dryfit import dry_fits, verify
from scantling.measure import RequestError
from yardstick import plain_loop_ms


def plain(piece):
    return json.loads(json.dumps(assembly_to_plain(piece)))


@pytest.mark.parametrize("build", [bench, box, corner, post, tray], ids=lambda b: b.__name__)
def test_a_round_trip_through_json_changes_nothing(build):
    piece = build()
    answer, direct = dry_fits({"assembly": plain(piece)}), verify(piece).to_plain()
    assert {k: answer[k] for k in direct} == direct
    assert [w["number"] for w in answer["work"]] == [s["number"] for s in answer["order"]["steps"]]


def test_the_same_request_gives_the_same_bytes():
    request = {"assembly": plain(box())}
    first, second = (json.dumps(dry_fits(copy.deepcopy(request))) for _ in range(2))
    assert first == second
    assert list(json.loads(first))[:5] == ["summary", "findings", "order", "balance", "alike"]


def test_settings_are_read():
    request = {"assembly": plain(bench())}
    request["settings"] = {
        "tools": [
            {"id": "stub", "title": "stubby driver", "barrels": [{"start_mm": 0, "end_mm": 90, "radius_mm": 17}]}
        ],
        "loads": [{"id": "pot", "mass_kg": 40, "at_mm": [450, -200, 418]}],
        "tip_least_deg": 2,
    }
    answer = dry_fits(request)
    assert [f["code"] for f in answer["findings"] if f["severity"] == "error"] == ["tips-over"]
    assert set(answer["order"]["tools"]) == {"stub"}


def test_a_design_tool_may_round_directions_and_leave_densities_out():
    request = {"assembly": plain(bench())}
    part = request["assembly"]["parts"][2]
    part["frame"]["length"], part["frame"]["width"] = [0.9999, 0.0001, 0.0], [0.0, 0.0, 1.0]
    for material in request["assembly"]["materials"].values():
        del material["density_kg_m3"]
    part["frame"]["length"] = [1.0, 0.0, 0.0000004]
    assert not [f for f in dry_fits(request)["findings"] if f["severity"] == "error"]


def test_glue_ups_and_motions_are_answered_when_they_are_asked_for():
    request = {
        "assembly": plain(tray()),
        "glue": {"id": "PVA", "open_minutes": 8, "clamp_minutes": 45},
        "clamps": [{"id": "bar", "reach_mm": 100, "throat_mm": 60, "count": 8}],
        "motions": [
            {"id": "lift", "kind": "slide", "parts": ["one", "two"], "axis": [0, 0, -1], "travel": 40},
        ],
        "settings": {"tape": "1/16 in"},
    }
    answer = dry_fits(request)
    assert [s["pressed_by"] for s in answer["glue_ups"]]
    assert answer["motions"][0]["clashes_with"] == ["base"]
    assert "motion-clashes" in {f["code"] for f in answer["findings"]}


@pytest.mark.parametrize(
    "extra,pointer",
    [
        (
            {"motions": [{"id": "m", "kind": "swing", "parts": ["x"], "axis": [0, 0, 1], "travel": 9}]},
            "/motions/0/parts",
        ),
        (
            {"motions": [{"id": "m", "kind": "swing", "parts": ["lid"], "axis": [0, 0, 1], "travel": 0}]},
            "/motions/0/travel",
        ),
        ({"settings": {"tape": "a thumb"}}, "/settings/tape"),
        ({"glue": {"id": "PVA", "open_minutes": 0, "clamp_minutes": 5}}, "/glue/open_minutes"),
    ],
)
def test_what_is_asked_for_beside_is_pointed_at_too(extra, pointer):
    assert pointer in [p for p, _ in pointers({"assembly": plain(box()), **extra})]


def test_what_is_null_counts_as_left_out():
    request = {"assembly": plain(bench()), "settings": None, "clamps": None, "glue": None, "motions": None}
    assert dry_fits(request) == dry_fits({"assembly": request["assembly"]})


def spoiled(change):
    request = {"assembly": plain(box())}
    change(request["assembly"])
    return request


def pointers(request):
    with pytest.raises(RequestError) as caught:
        dry_fits(request)
    return [(e.pointer, e.code) for e in caught.value.errors]


def set_at(*path, to):
    def change(assembly):
        here = assembly
        for step in path[:-1]:
            here = here[step]
        here[path[-1]] = to

    return change


BAD = {
    "a size that is not a number": (set_at("parts", 0, "length_mm", to="436"), "/parts/0/length_mm", "not-a-number"),
    "an infinite size": (set_at("parts", 1, "width_mm", to=float("inf")), "/parts/1/width_mm", "not-finite"),
    "a place that is no number": (
        set_at("parts", 0, "frame", "origin_mm", 2, to=float("nan")), "/parts/0/frame/origin_mm/2", "not-finite",
    ),
    "a blank without thickness": (set_at("parts", 0, "thickness_mm", to=0), "/parts/0/thickness_mm", "out-of-range"),
    "a blank of a hair": (set_at("parts", 0, "thickness_mm", to=0.3), "/parts/0", "bad-assembly"),
    "directions that are not square": (
        set_at("parts", 0, "frame", "width", to=[0.6, 0.0, 0.8]), "/parts/0", "bad-assembly",
    ),
    "a direction of length two": (
        set_at("parts", 0, "frame", "width", to=[0.0, 0.0, 2.0]), "/parts/0/frame/width", "not-a-direction",
    ),
    "a cut that leaves nothing": (
        set_at("parts", 0, "cuts", to=[
            {"kind": "notch", "x0_mm": -1, "x1_mm": 999, "y0_mm": -1, "y1_mm": 999, "z0_mm": -1, "z1_mm": 99}]),
        "/parts/0/cuts/0", "bad-cut",
    ),
    "a cut nobody makes": (set_at("parts", 0, "cuts", to=[{"kind": "bite"}]), "/parts/0/cuts/0/kind", "unknown-word"),
    "a cut with a stray member": (
        set_at("parts", 0, "cuts", to=[{"kind": "curve", "side": "near", "rise_mm": 3, "depth": 1}]),
        "/parts/0/cuts/0/depth", "unknown-member",
    ),
    "a joint with a part that is not there": (
        set_at("joints", 0, "parts", 1, to="ghost"), "/joints/0/parts", "unknown-part",
    ),
    "a joint of a part with itself": (
        set_at("joints", 6, "parts", to=["cleat", "cleat"]), "/joints/6/parts", "bad-joint",
    ),
    "a screw of no joint": (set_at("fasteners", 3, "joint", to="none"), "/fasteners/3/joint", "unknown-joint"),
    "a screw through strangers": (
        set_at("fasteners", 3, "parts", to=["lid", "front"]), "/fasteners/3/parts", "bad-fastener",
    ),
    "a screw without length": (set_at("fasteners", 3, "length_mm", to=0), "/fasteners/3/length_mm", "out-of-range"),
    "a step that drives nothing known": (
        set_at("steps", to=[{"text": "x", "fasteners": ["S999"]}]), "/steps/0/fasteners", "unknown-fastener",
    ),
    "a step that brings nothing known": (
        set_at("steps", to=[{"text": "x", "parts": ["ghost"]}]), "/steps/0/parts", "unknown-part",
    ),
    "two parts of one id": (set_at("parts", 1, "id", to="front"), "/parts/1/id", "duplicate-id"),
    "a promise about one side": (
        set_at("promises", to=[{"kind": "flush", "parts": ["front", "lid"], "sides": ["near"], "value_mm": 0}]),
        "/promises/0", "bad-promise",
    ),
    "a chain that does not close": (
        set_at("chains", to=[{"name": "w", "total_mm": 9, "links": [{"label": "a", "size_mm": 8}], "closing": "a"}]),
        "/chains/0", "open-chain",
    ),
    "a role nobody gave a material": (set_at("parts", 0, "role", to="gold"), "/parts/0/role", "bad-assembly"),
    "parts that are no list": (set_at("parts", to={}), "/parts", "not-a-list"),
    "no parts": (set_at("parts", to=[]), "/parts", "too-few"),
    "a null": (set_at("joints", 0, to=None), "/joints/0", "not-an-object"),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
def test_bad_input_is_pointed_at(name):
    change, pointer, code = BAD[name]
    assert ("/assembly" + pointer, code) in pointers(spoiled(change))


def test_a_part_that_cannot_be_read_is_reported_once_and_not_by_all_that_name_it():
    assert pointers(spoiled(set_at("parts", 0, "length_mm", to=9000))) == [("/assembly/parts/0", "bad-assembly")]


@pytest.mark.parametrize("request_", [None, [], {}, {"assembly": None}, {"assembly": {}}, {"assembly": 3, "more": 1}])
def test_what_is_no_request_at_all_is_refused(request_):
    assert pointers(request_)


def test_more_than_400_parts_are_refused():
    assembly = plain(bench())
    row = assembly["parts"][0]
    assembly["parts"] = [{**row, "id": f"p{i}"} for i in range(401)]
    assert pointers({"assembly": assembly}) == [("/assembly/parts", "too-many")]


def test_a_screw_in_the_air_is_a_finding():
    piece = bench()
    moved(piece, "S1", (0, 0, 500))
    answer = dry_fits({"assembly": plain(piece)})
    assert [f["code"] for f in answer["findings"] if f["severity"] == "error"] == ["screw-in-the-air"]


def test_findings_about_steps_point_at_the_step():
    piece = bench()
    piece.step("Everything at once.", piece.parts.values(), ())
    piece.steps.append(replace(piece.steps[0], text="Screws.", parts=(), fasteners=tuple(piece.fasteners)[:4]))
    piece.steps[0] = replace(piece.steps[0], parts=("left",), fasteners=("S1",))
    answer = dry_fits({"assembly": plain(piece)})
    (early,) = [f for f in answer["findings"] if f["code"] == "step-too-early"]
    assert early["pointer"] == "/assembly/steps/0" and early["parts"] == ["seat"]


def test_four_hundred_parts_in_one_place_are_answered_and_do_not_hang():
    assembly = plain(bench())
    row = assembly["parts"][0]
    assembly["parts"] = [{**row, "id": f"p{i}"} for i in range(400)]
    assembly["joints"] = assembly["fasteners"] = assembly["promises"] = assembly["chains"] = []
    start = time.process_time()
    answer = dry_fits({"assembly": assembly})
    assert {f["code"] for f in answer["findings"]} >= {"parts-overlap", "part-adrift"}
    assert (time.process_time() - start) * 1e3 < 2_000 * plain_loop_ms()


@pytest.mark.parametrize("seed", range(40))
def test_spoiled_at_random_it_answers_or_refuses_but_never_breaks(seed):
    """Members anywhere in a sound request are replaced by nonsense."""
    rng = np.random.default_rng(seed)
    nonsense = [None, True, -1, 0, 1e9, float("nan"), "", "x", [], {}, [1, 2, 3], "front", 18.0]
    for _ in range(10):
        request = {"assembly": plain(box())}
        here, path = request, ["assembly"]
        while True:
            inner = here[path[-1]]
            keys = (
                list(inner) if isinstance(inner, dict) else list(range(len(inner))) if isinstance(inner, list) else []
            )
            if not keys or (len(path) > 1 and rng.random() < 0.25):
                break
            here = inner
            path.append(keys[int(rng.integers(len(keys)))])
        here[path[-1]] = nonsense[int(rng.integers(len(nonsense)))]
        try:
            dry_fits(request)
        except RequestError as error:
            assert error.errors
