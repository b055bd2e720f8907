"""The whole job in one request: what goes in comes out, by name, and nothing is guessed in silence."""

import json
from collections import Counter
from math import ceil

import pytest

from pieces import MODULES
from scantling.measure import RequestError, parse_length
from scantling.nesting.checker import check_nesting
from scantling.plan.projects import plan_project, project_to_plain, projects

SHEET = {"id": "sheet", "material": "birch-plywood", "thickness": 17.8, "length": 2440, "width": 1220, "price": "70.00"}
THIN = {"id": "thin", "material": "birch-plywood", "thickness": 8.9, "length": 2440, "width": 1220, "price": "40.00"}
ROLES = {
    "frame": {"material": "birch-plywood", "thickness": 17.8},
    "panel": {"material": "birch-plywood", "thickness": 8.9},
}
STOOL = {"id": "stool", "module": "storage-footstool", "quantity": 2, "materials": ROLES}
BENCH = {"id": "bench", "module": "leaning-seat"}


def project(*modules, **more):
    return {"modules": list(modules), "effort": "quick", **more}


def faults(request):
    with pytest.raises(RequestError) as caught:
        projects(request, modules=MODULES)
    return {(e.pointer, e.code) for e in caught.value.errors}


def codes(answer):
    return {f["code"] for f in answer["findings"]}


def test_modules_alone_already_plan_and_say_what_was_assumed():
    answer = projects(project(BENCH), modules=MODULES)
    assert 1 <= len(answer["summary"]) <= 7
    assert {"thickness-assumed", "cushion-not-measured", "stock-assumed", "saw-assumed"} <= codes(answer)
    assert any(line.startswith("Assumed, not measured") for line in answer["summary"])
    assert not any(f["severity"] == "error" for f in answer["findings"])
    assert answer["nesting"]["unplaced"] == []


def test_every_part_of_every_piece_is_placed_once():
    answer = projects(project(BENCH, STOOL, stock=[SHEET, THIN]), modules=MODULES)
    cut = Counter({row["id"]: row["quantity"] for row in answer["cut_list"]})
    placed = Counter()
    for layout in answer["nesting"]["layouts"]:
        for p in layout["placements"]:
            placed[p["part"]] += layout["count"]
    assert placed == cut
    parts = sum(len(m["assembly"]["parts"]) * m["quantity"] for m in answer["modules"])
    assert sum(cut.values()) == parts


def test_the_layouts_of_a_project_pass_the_independent_checker():
    worked = plan_project(project(BENCH, STOOL, stock=[SHEET, THIN]), MODULES)
    assert check_nesting(worked.job, worked.nesting) == ()


def test_screws_are_bought_by_the_box_and_counted_in_the_piece():
    answer = projects(project(STOOL, stock=[SHEET, THIN], prices=[{"kind": "screw", "price": "9.00"}]), modules=MODULES)
    driven = Counter(round(f["length_mm"], 3) for f in answer["modules"][0]["assembly"]["fasteners"])
    lines = [line for line in answer["costing"]["lines"] if line["kind"] == "screw"]
    assert sum(line["quantity"] for line in lines) == 2 * sum(driven.values())
    for line in lines:
        assert line["packs"] == ceil(line["needed_with_waste"] / line["pack"])


def test_money_adds_up_from_the_sheets():
    answer = projects(project(STOOL, stock=[SHEET, THIN]), modules=MODULES)
    lines = {line["id"]: line for line in answer["costing"]["lines"]}
    assert lines["sheet"]["as_bought"] == f"{70 * lines['sheet']['packs']:.2f}"
    assert answer["costing"]["total"]["lower_bound"] is True  # cushions, screws and glue have no price
    unknown = {line["id"] for line in answer["costing"]["unknown"]}
    assert any(name.startswith("screw 6") for name in unknown)


def test_stock_that_could_be_two_thicknesses_is_asked_about():
    either = {k: v for k, v in SHEET.items() if k != "thickness"}
    assert faults(project(STOOL, stock=[either])) == {("/stock/0/thickness", "stock-ambiguous")}


def test_a_role_nobody_measured_takes_the_thickness_of_the_callers_own_sheet():
    answer = projects(project(BENCH, STOOL, stock=[SHEET, THIN]), modules=MODULES)
    frame = answer["modules"][0]["assembly"]["materials"]["frame"]
    assert (frame["thickness_mm"], frame["assumed"]) == (17.8, False)


def test_stock_that_nothing_is_cut_from_is_named():
    other = {**SHEET, "id": "odd", "material": "mdf"}
    answer = projects(project(STOOL, stock=[SHEET, THIN, other]), modules=MODULES)
    (finding,) = [f for f in answer["findings"] if f["code"] == "stock-not-needed"]
    assert "'odd'" in finding["message"]
    assert finding["pointer"] == "/stock/2"


def test_a_part_longer_than_any_stock_comes_back_by_name():
    short = [{**SHEET, "length": 300, "width": 300}, THIN]
    answer = projects(project(STOOL, stock=short), modules=MODULES)
    names = {u["part"] for u in answer["nesting"]["unplaced"]}
    assert "stool: lid" in names
    assert any(f["severity"] == "error" for f in answer["findings"])
    assert answer["nesting"]["proven_minimal"] is False


def test_a_role_measured_thinner_than_its_stock_does_not_match_it():
    thinner = {**STOOL, "materials": {**ROLES, "frame": {"material": "birch-plywood", "thickness": 17.2}}}
    answer = projects(project(thinner, stock=[SHEET, THIN]), modules=MODULES)
    assert {"stock-assumed", "stock-not-needed"} <= codes(answer)


def test_faults_of_all_modules_come_back_together_with_pointers():
    found = faults(
        project(
            {"id": "a", "module": "leaning-bench"},
            {"id": "b", "module": "leaning-seat", "parameters": {"bay": 2, "lean": 60}},
            {"id": "c", "module": "storage-footstool", "materials": {"frame": {"material": "birch-ply"}, "top": {}}},
        )
    )
    assert found == {
        ("/modules/0/module", "unknown-module"),
        ("/modules/1/parameters/bay", "unknown-parameter"),
        ("/modules/1/parameters/lean", "bad-parameter"),
        ("/modules/2/materials/frame/material", "unknown-material"),
        ("/modules/2/materials/top", "unknown-role"),
    }


def test_an_unknown_module_is_answered_with_near_names():
    with pytest.raises(RequestError, match="did you mean leaning-seat"):
        projects(project({"id": "a", "module": "leaning-seet"}), modules=MODULES)


def test_ids_are_unique_and_a_project_is_not_empty():
    assert faults(project(BENCH, BENCH)) == {("/modules/1/id", "duplicate-id")}
    assert faults(project()) == {("/modules", "module-count")}


def test_a_piece_that_cannot_be_built_is_a_fault_in_words_not_a_traceback():
    low = {
        **BENCH,
        "parameters": {
            "seat_height": 330,
            "seat_cushion": {"width": 560, "depth": 560, "thickness": 230, "loaded": 200},
        },
    }
    assert faults(project(low)) == {("/modules/0/parameters", "cannot-be-built")}


def test_a_material_of_the_callers_own_is_taken_with_its_density():
    own = {"id": "my ply", "density_kg_m3": 500.0}
    mine = {**STOOL, "materials": {r: {"material": "my ply", "thickness": t} for r, t in (("frame", 18), ("panel", 9))}}
    answer = projects(project(mine, materials=[own]), modules=MODULES)
    volume = sum(
        p["length_mm"] * p["width_mm"] * p["thickness_mm"] * 1e-9 for p in answer["modules"][0]["assembly"]["parts"]
    )
    assert answer["modules"][0]["mass_kg"] < volume * 500.0  # less what the mitres take off
    assert answer["modules"][0]["mass_kg"] > volume * 500.0 * 0.9


def test_the_same_request_gives_the_same_bytes():
    request = project(BENCH, STOOL, stock=[SHEET, THIN])
    first, second = (json.dumps(project_to_plain(plan_project(request, MODULES))) for _ in range(2))
    assert first == second


def test_household_members_replace_percentiles():
    tall = {"id": "tall", "knee_back_height": 520.0, "seat_depth": 560.0, "hip": 420.0, "elbow": 260.0, "mass": 95.0}
    small = {"id": "small", "knee_back_height": 330.0, "seat_depth": 380.0, "hip": 380.0, "elbow": 190.0, "mass": 50.0}
    answer = projects(project(BENCH, people=[tall, small]), modules=MODULES)
    assert "seat-misses-sitter" in codes(answer)


def test_lengths_of_parameters_are_read_in_the_requests_units():
    inches = projects({**project({**BENCH, "parameters": {"seat_height": "17"}}), "units": "in"}, modules=MODULES)
    assert inches["modules"][0]["parameters"]["seat_height"] == pytest.approx(parse_length("17 in"))


def test_the_work_is_told_step_by_step_and_glue_ups_fit_the_open_time():
    """With one pair of hands and four clamps the glue-ups of a stool fall into stages, each within the open time."""
    glue = {"kind": "PVA", "open_min": 8.0, "clamp_min": 40.0}
    clamps = [{"id": "bar", "kind": "bar", "reach": 700.0, "count": 4}]
    (stool,) = projects(project(STOOL, glue=glue, clamps=clamps), modules=MODULES)["modules"]
    assert len(stool["work"]) == len(stool["steps"])
    assert stool["glue_ups"]
    assert all(stage["minutes"] <= 8.0 for stage in stool["glue_ups"] if "minutes" in stage)


def test_too_short_clamps_are_a_finding_with_a_way_out():
    glue = {"kind": "PVA", "open_min": 8.0, "clamp_min": 40.0}
    short = [{"id": "tiny", "kind": "bar", "reach": 60.0, "count": 1}]
    answer = projects(project({"id": "case", "module": "bookcase"}, glue=glue, clamps=short), modules=MODULES)
    (told,) = [f for f in answer["findings"] if f["code"] == "clamps-too-short"]
    assert told["remedy"]
