"""Every example of the OpenAPI document is sent as it stands and answered, in every form that is documented."""

import csv
import io
import json

import pytest
from jsonschema import Draft202012Validator

from contract.contract_helpers import client_for
from scantling.api.openapi import operations, text
from scantling.api.schemas.examples import FIGURE_QUERIES

DOCUMENT = json.loads(text())
EXAMPLES = [
    pytest.param(path, example["value"], id=f"{path} {name}")
    for path, method, operation in operations(DOCUMENT)
    if method == "post"
    for name, example in operation["requestBody"]["content"]["application/json"]["examples"].items()
]
GETS = [
    (path, operation) for path, method, operation in operations(DOCUMENT) if method == "get" and path != "/openapi.json"
]
MODULES = ("leaning-seat", "storage-footstool")


def _paths(path):
    modules = MODULES[1:] if path.endswith("/proofs") else MODULES  # a proof builds its piece many times over
    return [path.replace("{module}", module) for module in modules] if "{module}" in path else [path]


def _validator(schema):
    """Return a validator (JSON Schema 2020-12) of a schema of the document."""
    return Draft202012Validator({**schema, "components": DOCUMENT["components"]})


def _answers(path, operation, body):
    schema = operation["responses"]["200"]["content"]["application/json"]["schema"]
    errors = [f"{list(error.path)}: {error.message[:200]}" for error in _validator(schema).iter_errors(body)]
    assert errors == [], f"{path}: {errors[:5]}"


@pytest.mark.parametrize(("path", "body"), EXAMPLES)
def test_every_example_fits_its_schema_and_is_answered(client, path, body):
    operation = DOCUMENT["paths"][path]["post"]
    schema = operation["requestBody"]["content"]["application/json"]["schema"]
    assert [error.message[:200] for error in _validator(schema).iter_errors(body)] == []
    for address in _paths(path):
        response = client.post(address, json=body)
        assert response.status_code == 200, response.text
        assert response.headers["cache-control"] == "no-store"
        _answers(address, operation, response.json())


@pytest.mark.parametrize(("path", "body"), EXAMPLES)
def test_every_example_is_answered_as_each_csv_table(client, path, body):
    operation = DOCUMENT["paths"][path]["post"]
    table = next((p for p in operation["parameters"] if p["name"] == "table"), None)
    assert "text/csv" in operation["responses"]["200"]["content"]
    body = body | {"effort": "quick"} if path in ("/v1/projects", "/v1/nestings") else body  # the forms matter here
    names = table["schema"]["enum"] if table else [None]
    if path == "/v1/projects" and len(body) > 5:
        names = names[:1]  # the least project has them all
    for address in _paths(path)[:1]:
        for name in names:
            query = {"format": "csv"} | ({"table": name} if name else {})
            response = client.post(address, json=body, params=query)
            assert response.status_code == 200, response.text
            rows = list(csv.reader(io.StringIO(response.text, newline="")))
            assert rows and all(len(row) == len(rows[0]) for row in rows)
            assert rows[0] == [column for column in rows[0] if column]


@pytest.mark.parametrize(("path", "operation"), GETS, ids=[path for path, _ in GETS])
def test_every_get_is_answered_as_its_schema_says(client, path, operation):
    values = {"module": MODULES[0], "table": "materials", "slug": "invalid-request"}
    query = FIGURE_QUERIES.get(path.rsplit("/", 1)[1], {}) if "/figures/" in path else {}
    response = client.get(path.format_map(values), params=query)
    assert response.status_code == 200, response.text
    _answers(path, operation, response.json())
    for kind in operation["responses"]["200"]["content"]:
        other = client.get(path.format_map(values), params=query, headers={"accept": kind})
        assert other.status_code == 200
        assert other.headers["content-type"].startswith(kind)


def test_what_the_schema_asks_for_is_there_when_no_seam_has_answered():
    """The check above can fail: an answer without a member is not accepted."""
    with client_for() as client:
        body = client.get("/v1").json()
    operation = DOCUMENT["paths"]["/v1"]["get"]
    del body["links"]
    with pytest.raises(AssertionError):
        _answers("/v1", operation, body)
