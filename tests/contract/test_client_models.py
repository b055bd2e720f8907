"""The Python client against the contract: its types are those of the document, and it asks for every operation."""

import importlib.util
import inspect
import json
import re
import typing
from pathlib import Path

import httpx2
import pytest

from scantling.api.schemas.examples import COSTINGS, FASTENERS, NESTINGS, PARTS, PROJECTS
from scantling_client import Client, models

ROOT = Path(__file__).resolve().parents[2]
DOCUMENT = json.loads((ROOT / "openapi" / "scantling.v1.json").read_text(encoding="utf-8"))
OPERATIONS = {
    (method.upper(), path): operation["operationId"]
    for path, item in DOCUMENT["paths"].items()
    for method, operation in item.items()
    if method in ("get", "post", "put", "patch", "delete")
}
DELIBERATELY_WITHOUT = {"get_liveness": "for probes: a client wants to know whether the service is ready"}
ARGUMENTS = {
    "plan": ({},),
    "plan_csv": ({},),
    "plan_file": ({},),
    "parts": ("m",),
    "parts_csv": ("m",),
    "parts_file": ("m",),
    "prove": ("m",),
    "prove_csv": ("m",),
    "dry_fit": ({},),
    "dry_fit_csv": ({},),
    "nest": ({},),
    "nest_csv": ({},),
    "nest_file": ({},),
    "check_fasteners": ({},),
    "check_fasteners_csv": ({},),
    "cost": ({},),
    "cost_csv": ({},),
    "figure": ("board-feet",),
    "figure_text": ("board-feet",),
    "module": ("m",),
    "table": ("t",),
    "problem": ("busy",),
}


def generator():
    spec = importlib.util.spec_from_file_location("generate_models", ROOT / "clients" / "python" / "generate_models.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_types_are_those_of_the_committed_document():
    committed = (ROOT / "clients" / "python" / "scantling_client" / "models.py").read_text(encoding="utf-8")
    assert generator().models(DOCUMENT) == committed, "run python clients/python/generate_models.py"


def test_the_generator_notices_a_change():
    changed = json.loads(json.dumps(DOCUMENT))
    changed["components"]["schemas"]["Stock"]["properties"]["colour"] = {"type": "string"}
    assert generator().models(changed) != generator().models(DOCUMENT)


def test_the_generator_refuses_what_plain_types_cannot_say():
    circle = {"type": "object", "properties": {"next": {"$ref": "#/components/schemas/Link"}}}
    with pytest.raises(ValueError, match="Link uses Link: a circle"):
        generator().models({"components": {"schemas": {"Link": circle}}})


def test_every_schema_has_its_type_with_its_members():
    for name, schema in DOCUMENT["components"]["schemas"].items():
        made = getattr(models, name)
        if "properties" in schema:
            assert set(made.__annotations__) == set(schema["properties"])
            assert made.__required_keys__ == frozenset(schema.get("required", ()))


def methods():
    return [name for name, _ in inspect.getmembers(Client, inspect.isfunction) if not name.startswith("_")]


def asked_for():
    """Return method of the client → the operation it asked for."""
    seen = []
    transport = httpx2.MockTransport(
        lambda request: seen.append((request.method, request.url.path)) or httpx2.Response(200, json={"modules": []})
    )
    shop, found = Client("http://shop.test", transport=transport), {}
    for name in methods():
        if name != "close":
            seen.clear()
            getattr(shop, name)(*ARGUMENTS.get(name, ()))
            assert len(seen) == 1
            found[name] = operation_of(*seen[0])
    return found


def operation_of(method, path):
    exact = OPERATIONS.get((method, path))
    if exact:
        return exact
    for (known, template), name in OPERATIONS.items():
        if known == method and re.fullmatch(re.sub(r"\\\{.*?\\\}", "[^/]+", re.escape(template)), path):
            return name
    raise AssertionError(f"the client asks for {method} {path}, which the contract does not have")


def test_the_client_has_a_method_for_every_operation():
    figures = {name for (_, path), name in OPERATIONS.items() if path.startswith("/v1/figures/")}
    covered = set(asked_for().values())
    assert covered & figures, "figure() reaches every figure by its name"
    without = set(OPERATIONS.values()) - covered - figures - set(DELIBERATELY_WITHOUT)
    assert not without, f"give the client a method for {sorted(without)}, or say in this file why it has none"
    assert set(DELIBERATELY_WITHOUT) <= set(OPERATIONS.values())


def test_every_table_can_be_had_as_csv():
    csv = {name for (m, p), name in OPERATIONS.items() if m == "POST" and "text/csv" in answers_of(m, p)}
    covered = {operation for method, operation in asked_for().items() if method.endswith("_csv")}
    assert csv == covered


def test_every_answer_that_can_be_drawn_can_be_had_as_a_file():
    drawn = {name for (m, p), name in OPERATIONS.items() if m == "POST" and "application/pdf" in answers_of(m, p)}
    covered = {operation for method, operation in asked_for().items() if method.endswith("_file")}
    assert drawn == covered


def answers_of(method, path):
    return DOCUMENT["paths"][path][method.lower()]["responses"]["200"]["content"]


CALLS = [
    ("parts", "compute_parts", PARTS),
    ("plan", "plan_project", PROJECTS),
    ("nest", "compute_nesting", NESTINGS),
    ("check_fasteners", "check_fasteners", FASTENERS),
    ("cost", "compute_costing", COSTINGS),
]


@pytest.mark.parametrize(("method", "operation", "examples"), CALLS, ids=[name for name, _, _ in CALLS])
def test_answers_hold_what_their_types_promise(client, method, operation, examples):
    (path,) = [path for (_, path), name in OPERATIONS.items() if name == operation]
    answer_type = typing.get_type_hints(getattr(Client, method))["return"]
    schema = answers_of("POST", path)["application/json"]["schema"]
    assert schema["$ref"].rsplit("/", 1)[1] == answer_type.__name__
    example = next(iter(examples.values()))["value"]
    answer = client.post(path.replace("{module}", "leaning-seat"), json=example).json()
    assert answer_type.__required_keys__ <= set(answer)
