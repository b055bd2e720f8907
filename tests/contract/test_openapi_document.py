"""The OpenAPI document: committed, valid, complete, and free of what the service never answers."""

import json
import re
from pathlib import Path

import pytest
from openapi_spec_validator import OpenAPIV31SpecValidator

from scantling.api.openapi import operations, text
from scantling.api.problems import KINDS

COMMITTED = Path(__file__).parents[2] / "openapi" / "scantling.v1.json"
OUTSIDE = re.compile(r"https?://")


def test_the_committed_document_is_the_one_served():
    """Regression: `scantling openapi > openapi/scantling.v1.json` renews it, on purpose."""
    assert COMMITTED.read_text(encoding="utf-8") == text(), "run: scantling openapi > openapi/scantling.v1.json"


def test_the_committed_document_is_sorted_with_two_spaces():
    document = json.loads(COMMITTED.read_text(encoding="utf-8"))
    again = json.dumps(document, ensure_ascii=False, indent=2, sort_keys=True) + "\n"
    assert again == COMMITTED.read_text(encoding="utf-8")


def test_the_document_is_valid_openapi_3_1(document):
    """OpenAPI Specification 3.1 as read by openapi-spec-validator, a general-purpose library."""
    assert document["openapi"].startswith("3.1")
    assert list(OpenAPIV31SpecValidator(document).iter_errors()) == []


def test_every_operation_is_described(document):
    tags = {tag["name"] for tag in document["tags"] if tag["description"]}
    seen = set()
    for path, method, operation in operations(document):
        place = f"{method} {path}"
        assert re.fullmatch(r"[a-z]+(_[a-z0-9]+)+", operation["operationId"]), place
        assert operation["operationId"] not in seen, place
        seen.add(operation["operationId"])
        assert 5 <= len(operation["summary"]) <= 60, place
        assert len(operation["description"]) > 30, place
        assert operation["tags"] and set(operation["tags"]) <= tags, place
    assert document["info"]["description"] and document["servers"]


def test_every_operation_documents_its_problems(document):
    for path, method, operation in operations(document):
        place = f"{method} {path}"
        wanted = {"200", "400", "406", "500"}
        wanted |= {"413", "415", "422", "503", "429"} if method == "post" else set()
        wanted |= {"404"} if "{" in path else set()
        assert wanted <= set(operation["responses"]), place
        for status, response in operation["responses"].items():
            if status.startswith(("4", "5")):
                assert list(response["content"]) == ["application/problem+json"], place
                assert response["content"]["application/problem+json"]["schema"]["$ref"].endswith("/Problem")
                assert int(status) in {kind.status for kind in KINDS.values()}
            if status in ("429", "503"):
                assert "Retry-After" in response["headers"], place


def test_nothing_is_left_of_error_schemas_that_are_never_answered(document):
    assert "HTTPValidationError" not in document["components"]["schemas"]
    assert "ValidationError" not in document["components"]["schemas"]


def test_every_request_has_examples_with_a_summary(document):
    for path, method, operation in operations(document):
        if method == "post":
            content = operation["requestBody"]["content"]
            assert list(content) == ["application/json"], path
            examples = content["application/json"]["examples"]
            assert examples, path
            assert all(example["summary"] and "value" in example for example in examples.values()), path


def test_every_parameter_is_described(document):
    for path, method, operation in operations(document):
        for parameter in operation.get("parameters", ()):
            assert parameter.get("description"), f"{method} {path} {parameter['name']}"


def _properties(document):
    for name, schema in document["components"]["schemas"].items():
        for member, one in schema.get("properties", {}).items():
            yield f"{name}.{member}", one


def _numeric(document, schema):
    """Tell whether a schema is a number, or a list or choice of numbers."""
    if "$ref" in schema:
        return _numeric(document, document["components"]["schemas"][schema["$ref"].rsplit("/", 1)[1]])
    kinds = schema.get("type")
    kinds = kinds if isinstance(kinds, list) else [kinds]
    if "number" in kinds or "integer" in kinds:
        return True
    if "array" in kinds:
        return _numeric(document, schema.get("items", {}))
    return any(_numeric(document, one) for word in ("anyOf", "oneOf") for one in schema.get(word, ()))


def _unit(document, schema):
    """Return the x-unit of a schema, its own or that of what it refers to."""
    if "x-unit" in schema:
        return schema["x-unit"]
    if "$ref" in schema:
        return _unit(document, document["components"]["schemas"][schema["$ref"].rsplit("/", 1)[1]])
    inner = [one for word in ("anyOf", "oneOf") for one in schema.get(word, ())]
    inner += [schema["items"]] if "items" in schema else []
    return next((unit for one in inner if (unit := _unit(document, one))), None)


def test_every_member_has_a_description(document):
    schemas = document["components"]["schemas"]
    bare = [
        place
        for place, schema in _properties(document)
        if not schema.get("description")  # one that would only repeat what it refers to is left out
        and not schemas.get(schema.get("$ref", "").rsplit("/", 1)[-1], {}).get("description")
    ]
    assert bare == []


def test_every_number_has_a_unit(document):
    allowed = {"Problem.status", "ProblemKind.status", "TableEntry.rows"}
    bare = [
        place
        for place, schema in _properties(document)
        if _numeric(document, schema) and not _unit(document, schema) and place not in allowed
    ]
    assert bare == []


def test_members_in_millimetres_say_so_in_their_name_and_unit(document):
    for place, schema in _properties(document):
        if place.endswith("_mm"):
            assert _unit(document, schema) == "mm", place


def test_requests_are_closed_and_answers_open(document):
    schemas = document["components"]["schemas"]
    todo = [
        operation["requestBody"]["content"]["application/json"]["schema"]["$ref"]
        for _, method, operation in operations(document)
        if method == "post"
    ]
    reached = set()
    while todo:
        name = todo.pop().rsplit("/", 1)[1]
        if name not in reached:
            reached.add(name)
            todo += re.findall(r'"\$ref": "([^"]+)"', json.dumps(schemas[name]))
    objects = {name for name in reached if schemas[name].get("type") == "object"}
    assert {"NestingRequest", "ProjectRequest", "Stock", "Band"} <= objects
    assert [name for name in sorted(objects) if schemas[name].get("additionalProperties") is not False] == []
    answers = {name for name, schema in schemas.items() if schema.get("type") == "object"} - objects
    assert [name for name in sorted(answers) if schemas[name].get("additionalProperties") is False] == []


def test_texts_and_lists_of_requests_are_bounded(document):
    """Anything unbounded in a request is a way to make the service work for nothing."""
    schemas = document["components"]["schemas"]

    def walk(schema, place):
        if isinstance(schema, dict):
            if schema.get("type") == "string" and "enum" not in schema and "const" not in schema:
                assert "maxLength" in schema, place
            if schema.get("type") == "array":
                assert "maxItems" in schema, place
            for name, one in schema.items():
                if name not in ("examples", "default", "x-unit"):
                    walk(one, f"{place}/{name}")
        elif isinstance(schema, list):
            for one in schema:
                walk(one, place)

    closed = {name: schema for name, schema in schemas.items() if schema.get("additionalProperties") is False}
    assert len(closed) > 15
    for name in (*closed, "Length", "AnyThickness", "Kerf"):
        walk(schemas[name], name)


@pytest.mark.parametrize("path", ["/v1", "/v1/figures/board-feet", "/v1/modules/{module}/parts", "/v1/projects"])
def test_the_addresses_of_the_contract_are_there(document, path):
    assert path in document["paths"]


def test_no_outside_address_stands_in_the_document():
    assert not OUTSIDE.search(text())
