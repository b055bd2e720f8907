"""Every code that an operation may refuse a request with is published, and an assembly makes the round trip."""

import ast
from pathlib import Path

import pytest

import scantling
from contract.contract_helpers import assert_problem, pointers
from scantling.api.rules import CROSS_FIELD_RULES, OPERATION_CODES, SCHEMA_CODES

SOURCES = Path(scantling.__file__).parent
MAKERS = ("RequestProblem", "problem", "complain", "refuse")


def _codes():
    """Return (place, code) of every literal code that the operations give to a problem of a request."""
    found = []
    for path in sorted(SOURCES.rglob("*.py")):
        if "api" in path.relative_to(SOURCES).parts:
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            last = node.args[2] if name in MAKERS and len(node.args) > 2 else None
            if isinstance(last, ast.Constant) and isinstance(last.value, str):
                found.append((path.name, last.value))
    return found


CODES = _codes()
BEHIND_THE_DOOR = {
    "bad-text",
    "module-count",
    "not-a-flag",
    "not-a-list",
    "not-an-object",
    "not-finite",
    "not-one-of",
    "unknown-duration",
    "unknown-kind",
    "unknown-tape",
    "unknown-value",
    "wrong-type",
}


def test_the_sources_are_read():
    assert len(CODES) > 40
    assert {"unknown-module", "unknown-role", "cannot-be-built"} <= {code for _, code in CODES}


@pytest.mark.parametrize("code", sorted({code for _, code in CODES}))
def test_every_code_of_an_operation_is_a_published_rule(code):
    """A code about a JSON type, a word or a count cannot be met behind the door, which has checked those."""
    places = {place for place, one in CODES if one == code}
    assert code in BEHIND_THE_DOOR or OPERATION_CODES.get(code, code) in CROSS_FIELD_RULES, places


def test_no_code_is_on_both_lists():
    assert not set(SCHEMA_CODES) & set(CROSS_FIELD_RULES)


@pytest.mark.parametrize("module", ["leaning-seat", "storage-footstool"])
def test_an_assembly_makes_the_round_trip(client, module):
    assembly = client.post(f"/v1/modules/{module}/parts", json={"parameters": {}}).json()["assembly"]
    response = client.post("/v1/dry-fits", json={"assembly": assembly})
    assert response.status_code == 200, response.text
    assert [f for f in response.json()["findings"] if f["severity"] == "error"] == []


def test_an_assembly_that_cannot_be_is_refused_at_its_place(client):
    assembly = client.post("/v1/modules/leaning-seat/parts", json={}).json()["assembly"]
    assembly["joints"][0]["parts"][0] = "nobody"
    assembly["parts"][1]["colour"] = "red"
    problem = assert_problem(client.post("/v1/dry-fits", json={"assembly": assembly}), 422, "invalid-request")
    assert pointers(problem) == {"#/assembly/parts/1/colour": "unknown-member"}
    del assembly["parts"][1]["colour"]
    problem = assert_problem(client.post("/v1/dry-fits", json={"assembly": assembly}), 422, "invalid-request")
    assert "#/assembly/joints/0/parts" in pointers(problem)


@pytest.mark.parametrize(
    ("body", "pointer", "code"),
    [
        ({"modules": []}, "#/modules", "too-few"),
        ({"modules": [{"id": "a", "module": "no-such"}]}, "#/modules/0/module", "unknown-module"),
        ({"modules": [{"id": "a", "module": "leaning-seat", "parameters": {"bay": 2}}]}, "#/modules/0/parameters/bay",
         "unknown-parameter"),
        ({"modules": [{"id": "a", "module": "leaning-seat", "parameters": {"bays": 2000}}]},
         "#/modules/0/parameters/bays", "bad-parameter"),
        ({"modules": [{"id": "a", "module": "leaning-seat", "quantity": 0}]}, "#/modules/0/quantity", "out-of-range"),
        ({"modules": [{"id": "a", "module": "leaning-seat", "materials": {"frame": {"thickness": 46085}}}]},
         "#/modules/0/materials/frame/thickness", "spreadsheet-date"),
        ({"modules": [{"id": "a", "module": "leaning-seat", "materials": {"frame": {"thickness": "4-Mar"}}}]},
         "#/modules/0/materials/frame/thickness", "spreadsheet-date"),
        ({"modules": [{"id": "a", "module": "leaning-seat", "materials": {"frame": {"material": "unobtainium"}}}]},
         "#/modules/0/materials/frame/material", "unknown-material"),
        ({"modules": [{"id": "a", "module": "leaning-seat", "materials": {"fram": {}}}]},
         "#/modules/0/materials/fram", "unknown-role"),
        ({"modules": [{"id": "a", "module": "leaning-seat"}], "units": "cubits"}, "#/units", "not-one-of"),
        ({"modules": [{"id": "a", "module": "leaning-seat"}], "colour": 1}, "#/colour", "unknown-member"),
        ({"modules": [{"id": "a", "module": "leaning-seat"}], "stock": [{"id": "s", "length": 96, "price": 62}]},
         "#/stock/0/price", "wrong-type"),
        ({"modules": [{"id": "a", "module": "leaning-seat"}], "stock": [{"id": "s", "length": -1}]},
         "#/stock/0/length", "negative"),
    ],
)  # fmt: skip
def test_bad_projects_are_told_with_member_and_code(client, body, pointer, code):
    problem = assert_problem(client.post("/v1/projects", json=body), 422, "invalid-request")
    assert pointers(problem).get(pointer) == code


def test_an_unknown_module_in_the_address_is_a_404_with_near_names(client):
    problem = assert_problem(client.post("/v1/modules/leaning-seet/parts", json={}), 404, "not-found")
    assert "leaning-seat" in problem["detail"]
    assert_problem(client.get("/v1/modules/leaning-seet"), 404, "not-found")
