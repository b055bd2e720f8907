"""The OpenAPI document: what FastAPI makes of the routes, completed and made plain.

Added: the problems of each operation, the media types besides JSON, tags, links and headers. Taken away: FastAPI's
own error schemas, which the service never answers with.
"""

import json
from collections.abc import Iterator
from importlib import import_module
from typing import Any, Literal

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from pydantic import BaseModel
from pydantic.json_schema import models_json_schema

from scantling.work import InlineSeam

from .negotiate import CSV, JSON
from .problems import KINDS, PROBLEM_TYPE
from .schemas.catalogues import ProblemDocument
from .settings import Settings

Document = dict[str, Any]
LIMITS = ("minimum", "maximum", "exclusiveMinimum", "x-least-mm", "x-most-mm", "x-least", "x-most")
METHODS = ("get", "post")

DESCRIPTION = """The computing behind furniture built alone in a home shop: parts that fit at the measured sheet
thickness, screws of the right length, sheets nested for the saws there are, checks against published figures, and
what it costs.

**Lengths** in a request are numbers in its `units` (`mm` by default, or `in`), or text such as `19 mm`, `3/4 in`,
`13 3/4"` or `4'-6"`, which carries its own unit; such members are marked `x-unit: units`. Answers give
millimetres in members that end in `_mm`. Angles are degrees, forces newtons, masses kilograms. **Money** is decimal
text in the request's `currency`.

**Findings** are data: a request that can be computed answers 200, even when the piece would tip over. **Problems**
(RFC 9457) are for requests that cannot be computed; each points at the member at fault.

Nothing is stored, and the same request gives the same bytes, so every request may be repeated. The figures screen a
design against published values and common practice; they are no proof of conformity. Local codes and licensed
practice decide."""

TAGS = (
    ("modules", "Kinds of furniture: their parameters, and the parts they come to."),
    ("shop", "Nesting on sheets and boards, fasteners, cost: each can be asked on its own."),
    ("projects", "The whole job in one request."),
    ("figures", "One value or a short table for a spreadsheet cell, everything in the query."),
    ("catalogues", "Published tables, finding codes, problems, plugins."),
    ("service", "The service about itself."),
)
RETRY_AFTER = {
    "Retry-After": {"description": "Seconds to wait before asking again.", "schema": {"type": "integer", "minimum": 1}}
}
ETAG = {"ETag": {"description": "Fingerprint of the answer, for If-None-Match.", "schema": {"type": "string"}}}


def build(app: FastAPI) -> Document:
    """Return the document of an application."""
    document = get_openapi(
        title="scantling",
        version=app.version,
        summary="Woodworking computed: parts, fasteners, sheets, cost",
        description=DESCRIPTION,
        routes=app.routes,
        tags=[{"name": name, "description": text} for name, text in TAGS],
        license_info={"name": "Apache-2.0", "identifier": "Apache-2.0"},
        contact={"name": "The scantling authors"},
        servers=[{"url": app.state.settings.root_path or "/", "description": "This service."}],
    )
    schemas = document["components"]["schemas"]
    for name in ("HTTPValidationError", "ValidationError"):
        schemas.pop(name, None)
    _add_answers(document)
    for path, method, operation in operations(document):
        _complete(path, method, operation)
    _tidy(document)
    return document


def text() -> str:
    """Return the committed form of the document: sorted members, two spaces, no plugin but those shipped.

    The document describes addresses and bodies, and a module's parameters are an open object in it; so no plugin
    changes it.
    """
    from .app import create_app

    document = create_app(Settings.model_construct(), InlineSeam()).openapi()
    return json.dumps(document, ensure_ascii=False, indent=2, sort_keys=True) + "\n"


def operations(document: Document) -> Iterator[tuple[str, str, Document]]:
    """Return every operation of a document with its path and method."""
    for path, item in document["paths"].items():
        for method in METHODS:
            if method in item:
                yield path, method, item[method]


def _complete(path: str, method: str, operation: Document) -> None:
    worker, missing = operation.pop("x-worker", False), operation.pop("x-missing", False)
    responses = operation["responses"]
    responses.pop("422", None)
    asks = bool(operation.get("parameters")) or method == "post"
    slugs = ["bad-request", "not-acceptable", "internal"]
    slugs += ["too-large", "unsupported-media-type"] if method == "post" else []
    slugs += ["invalid-request"] if asks else []
    slugs += ["too-many-requests", "busy"] if worker else []
    slugs += ["not-found"] if missing else []
    slugs += ["not-ready"] if path == "/readyz" else []
    for kind in sorted((KINDS[slug] for slug in slugs), key=lambda k: k.status):
        responses[str(kind.status)] = _problem_response(kind.status)
    ok = responses["200"]
    if method == "get" and path.startswith("/v1"):
        ok.setdefault("headers", {}).update(ETAG)
        responses["304"] = {"description": "Not changed since the ETag that If-None-Match names."}
    if CSV in ok.get("content", {}):
        ok["content"][CSV]["schema"].setdefault("type", "string")
    operation["responses"] = dict(sorted(responses.items()))


def _problem_response(status: int) -> Document:
    kinds = [kind for kind in KINDS.values() if kind.status == status]
    response: Document = {
        "description": " Or: ".join(f"{kind.title}. {kind.meaning}" for kind in kinds),
        "content": {PROBLEM_TYPE: {"schema": {"$ref": "#/components/schemas/Problem"}}},
    }
    if status in (429, 503):
        response["headers"] = RETRY_AFTER
    return response


def _add_answers(document: Document) -> None:
    """Add the schemas of answers and problems, and let each operation refer to its own."""
    places = {op["operationId"]: op.pop("x-answer") for _, _, op in operations(document)}
    models = {place: _find(place) for place in places.values()}
    answers: list[type[BaseModel]] = [*models.values(), ProblemDocument]
    wanted: list[tuple[type[BaseModel], Literal["serialization"]]] = [(model, "serialization") for model in answers]
    refs, defined = models_json_schema(wanted, ref_template="#/components/schemas/{model}")
    schemas = document["components"]["schemas"]
    for name, schema in defined["$defs"].items():
        if schemas.setdefault(name, schema) != schema:
            raise ValueError(f"two schemas are called {name}")
    schemas["Problem"] = schemas.pop(ProblemDocument.__name__)
    for _, _, operation in operations(document):
        content = operation["responses"]["200"].setdefault("content", {})
        reference = refs[models[places[operation["operationId"]]], "serialization"]
        operation["responses"]["200"]["content"] = {JSON: {"schema": reference}} | {
            kind: content[kind] for kind in content if kind != JSON
        }


def _find(place: str) -> type[BaseModel]:
    module, _, name = place.partition(":")
    model: type[BaseModel] = getattr(import_module(module), name)
    return model


def _tidy(value: object) -> None:
    """Take away the titles that pydantic makes of member names, and write whole limits as whole numbers."""
    if isinstance(value, list):
        for one in value:
            _tidy(one)
    elif isinstance(value, dict):
        for name, one in value.items():
            if name == "properties" and isinstance(one, dict):
                for schema in one.values():
                    if isinstance(schema, dict) and isinstance(schema.get("title"), str):
                        del schema["title"]
            if name in LIMITS and isinstance(one, float) and one.is_integer():
                value[name] = int(one)
            if name not in ("example", "examples", "default", "value"):
                _tidy(one)
