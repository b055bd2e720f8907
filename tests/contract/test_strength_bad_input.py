"""What the checks of strength say at the door to a wood, size or fastener outside their tables: limits, near names."""

import pytest

from contract.contract_helpers import HOST, assert_problem

FIR = {"material": "douglas-fir", "thickness": 38}


def fasteners(client, fastener, layers=None, **more):
    joint = {"id": "a", "layers": layers or [{"material": "birch-plywood", "thickness": 18}, FIR], "fastener": fastener}
    body = {"units": "mm", "joints": [{**joint, **more}]}
    return client.post("/v1/fastener-checks", json=body, headers={"host": HOST})


def bench(client, material, thickness):
    body = {"parameters": {}, "materials": {"board": {"material": material, "thickness": [thickness, thickness]}}}
    return client.post("/v1/modules/plain-bench/parts", json=body, headers={"host": HOST})


@pytest.mark.parametrize(
    ("fastener", "words"),
    [
        ({"kind": "wood screw", "gauge": 13, "length": 50}, "nearest: 12, 14"),
        ({"kind": "wood screw", "diameter": 5, "length": 50}, "root_diameter"),
        ({"kind": "nail", "diameter": 12, "length": 50}, "2.51 to 9.52 mm"),
        ({"kind": "bolt", "diameter": 4, "length": 80}, "NDS 2018 Table 12A"),
        ({"kind": "confirmat", "diameter": 7, "length": 50}, "'other'"),
        ({"kind": "other", "name": "connector screw", "diameter": 7, "length": 50}, "design_lateral_n"),
    ],
)
def test_a_fastener_outside_the_tables_is_refused_with_what_would_do(client, fastener, words):
    body = assert_problem(fasteners(client, fastener), 422, "invalid-request")
    assert any(words in e["detail"] for e in body["errors"])


def test_a_connector_screw_is_taken_with_its_makers_value(client):
    own = {"kind": "other", "name": "connector screw", "diameter": 7, "length": 50, "design_lateral_n": 600}
    answer = fasteners(client, own, loads={"lateral_n": 300}).json()["joints"][0]
    assert answer["ratio"] == 0.5
    assert answer["capacity"]["code"].startswith("the maker")


def test_a_wood_outside_the_tables_is_refused_with_near_names_or_taken_with_its_density(client):
    screw = {"kind": "wood screw", "gauge": 8, "length": 50}
    layers = [{"material": "birch-plywood", "thickness": 18}, {"material": "duglas-fir", "thickness": 38}]
    body = assert_problem(fasteners(client, screw, layers), 422, "invalid-request")
    assert body["errors"][0]["pointer"] == "#/joints/0/layers/1/material"
    assert "nearest: douglas-fir" in body["errors"][0]["detail"]
    layers[1] = {"material": "purpleheart", "thickness": 38, "specific_gravity": 0.67}
    assert fasteners(client, screw, layers).json()["joints"][0]["capacity"]["withdrawal_n"] > 0
    assert_problem(bench(client, "purpleheart", 18), 422, "invalid-request")


@pytest.mark.parametrize(
    ("material", "thickness", "words"), [("mdf", 25, "9 to 19.5 mm"), ("birch-plywood", 22, "8.5 to 19.5 mm")]
)
def test_a_panel_outside_its_table_is_planned_and_not_judged_in_words(client, material, thickness, words):
    answer = bench(client, material, thickness)
    assert answer.status_code == 200
    said = [f for f in answer.json()["findings"] if f["code"] == "strength-not-judged"]
    assert said and all(words in f["message"] for f in said)
    assert answer.json()["parts"]


def test_solid_wood_across_its_grain_is_a_warning(client):
    said = [f for f in bench(client, "red-oak", 20).json()["findings"] if f["code"] == "strength-not-judged"]
    assert [f["severity"] for f in said] == ["warning"]
    assert "across its grain" in said[0]["message"]


def test_a_project_says_the_same_of_its_pieces(client):
    module = {"id": "b", "module": "plain-bench", "materials": {"board": {"material": "mdf", "thickness": [25, 25]}}}
    answer = client.post("/v1/projects", json={"modules": [module]}, headers={"host": HOST})
    assert answer.status_code == 200
    assert any(f["code"] == "strength-not-judged" for f in answer.json()["findings"])
