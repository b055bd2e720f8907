"""From what pydantic and Starlette raise to problem documents in our own words."""

from collections.abc import Mapping, Sequence
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.responses import PlainTextResponse, Response

from scantling.measure import RequestError

from .problems import Fault, Problem, answer, kind_for, pointer
from .rules import CROSS_FIELD_RULES, OPERATION_CODES, SCHEMA_CODES
from .schemas.scalars import PATTERN_WORDS

MOST_FAULTS = 50  # of one answer; a list of 500 wrong parts is told by its first fifty
SHOWN = 60  # characters of a value that a detail repeats
BRANCH = "‹"  # first character of the tags that pydantic puts into `loc` for a branch of a union

_TYPE_WORDS = {
    "string_type": "text",
    "float_type": "a number",
    "float_parsing": "a number",
    "int_type": "a whole number",
    "int_parsing": "a whole number",
    "int_from_float": "a whole number",
    "bool_type": "true or false",
    "list_type": "a list",
    "tuple_type": "a list",
    "dict_type": "an object",
    "model_type": "an object",
    "model_attributes_type": "an object",
    "none_required": "null",
}
_CODES = {
    "extra_forbidden": "unknown-member",
    "missing": "missing-member",
    "greater_than": "out-of-range",
    "greater_than_equal": "out-of-range",
    "less_than": "out-of-range",
    "less_than_equal": "out-of-range",
    "multiple_of": "out-of-range",
    "int_parsing_size": "out-of-range",
    "finite_number": "not-finite",
    "literal_error": "not-one-of",
    "enum": "not-one-of",
    "string_too_long": "bad-text",
    "string_too_short": "bad-text",
    "string_pattern_mismatch": "bad-text",
    "string_unicode": "bad-text",
    "too_long": "too-many",
    "too_short": "too-few",
}
_BOUNDS = {
    "greater_than": ("gt", "more than"),
    "greater_than_equal": ("ge", "at least"),
    "less_than": ("lt", "less than"),
    "less_than_equal": ("le", "at most"),
}


def shown(value: object) -> str:
    """Return a value as a detail repeats it: short, on one line."""
    text = repr(value) if not isinstance(value, bool | None) else {True: "true", False: "false", None: "null"}[value]
    return text if len(text) <= SHOWN else text[: SHOWN - 1] + "…"


def _bound(error: Mapping[str, Any]) -> str:
    key, words = _BOUNDS[error["type"]]
    return f"{shown(error['input'])} is out of range; accepted: {words} {error['ctx'][key]}"


def _size(error: Mapping[str, Any]) -> str:
    ctx = error["ctx"]
    if error["type"].startswith("string"):
        least, most = ctx.get("min_length"), ctx.get("max_length")
        return f"text of {len(error['input'])} characters; accepted: " + (
            f"at most {most}" if most is not None else f"at least {least}"
        )
    bound = f"at most {ctx['max_length']}" if error["type"] == "too_long" else f"at least {ctx['min_length']}"
    return f"{ctx['actual_length']} entries; accepted: {bound}"


def detail(error: Mapping[str, Any]) -> str:
    """Return our sentence for one pydantic error: the value found and what would be accepted."""
    kind = error["type"]
    if kind == "missing":
        return f"the member {error['loc'][-1]!r} is missing"
    if kind == "extra_forbidden":
        return f"no member is called {shown(error['loc'][-1])} here"
    if kind in _BOUNDS:
        return _bound(error)
    if kind in ("too_long", "too_short", "string_too_long", "string_too_short"):
        return _size(error)
    if kind in ("literal_error", "enum"):
        return f"{shown(error['input'])} is not accepted; accepted: {error['ctx']['expected']}"
    if kind == "string_pattern_mismatch":
        pattern = error["ctx"]["pattern"]
        return (
            f"{shown(error['input'])} is not accepted; accepted: {PATTERN_WORDS.get(pattern, f'text like {pattern}')}"
        )
    if kind == "finite_number":
        return "the number is not finite; accepted: an ordinary number"
    if kind in _TYPE_WORDS:
        return f"{shown(error['input'])} is not accepted; accepted: {_TYPE_WORDS[kind]}"
    return str(error["msg"]).removeprefix("Value error, ")


def code(error: Mapping[str, Any]) -> str:
    """Return our code for one pydantic error; our own rules carry theirs in the error's type."""
    kind = str(error["type"])
    if kind in _CODES:
        return _CODES[kind]
    if kind in _TYPE_WORDS:
        return "wrong-type"
    return kind if kind in SCHEMA_CODES or kind in CROSS_FIELD_RULES else "does-not-fit"


def faults_of(errors: Sequence[Any]) -> list[Fault]:
    """Return the entries for pydantic's errors, at most MOST_FAULTS, tags of union branches left out."""
    faults = []
    for error in errors[:MOST_FAULTS]:
        place = [step for step in error["loc"] if not (isinstance(step, str) and step.startswith(BRANCH))]
        where, steps = (place[0], place[1:]) if place else ("body", [])
        if where == "body":
            faults.append(Fault(detail(error), code(error), pointer=pointer(steps)))
        else:
            name = str(steps[-1]) if steps else ""
            faults.append(Fault(detail(error), code(error), where=str(where), name=name))
    return faults


def invalid(faults: Sequence[Fault]) -> Problem:
    """Return the 422 problem for a list of faults; its detail tells the first."""
    first = faults[0]
    place = f"#{first.pointer}" if first.pointer is not None else f"{first.where} {first.name}"
    more = "" if len(faults) == 1 else f" ({len(faults)} faults in all)"
    return Problem("invalid-request", f"{place}: {first.detail}{more}", errors=faults)


def from_request_error(error: RequestError) -> Problem:
    """Return the 422 problem for what an operation found wrong with its request."""
    faults = [Fault(e.detail, OPERATION_CODES.get(e.code, e.code), pointer=e.pointer) for e in error.errors]
    return invalid(faults[:MOST_FAULTS])


def _from_validation(error: RequestValidationError) -> Problem:
    errors = error.errors()
    for one in errors:
        if one["type"] == "json_invalid":
            place = one["loc"][-1]
            return Problem("not-json", f"The body is not JSON: {one['ctx']['error']} at character {place}.")
    return invalid(faults_of(errors))


def _from_http(error: HTTPException) -> Problem:
    kind = kind_for(error.status_code)
    if kind.slug == "bad-request":
        kind_slug, text = "not-json", "The body could not be read as JSON in UTF-8."
        return Problem(kind_slug, text)
    if kind.slug == "not-found":
        return Problem("not-found", "Nothing has this address; GET /v1 lists what there is.")
    if kind.slug == "method-not-allowed":
        allowed = _allow((error.headers or {}).get("Allow", ""))
        text = f"This method is not allowed here; allowed: {allowed}."
        return Problem("method-not-allowed", text, headers={"Allow": allowed})
    return Problem(kind.slug, kind.meaning)


def _allow(methods: str) -> str:
    """Return the methods of an address, with the two that the door answers everywhere."""
    listed = [method.strip() for method in methods.split(",") if method.strip()]
    if "GET" in listed and "HEAD" not in listed:
        listed.append("HEAD")
    return ", ".join(sorted({*listed, "OPTIONS"}))


def _respond(problem: Problem, request: Request) -> Response:
    """Return the response for a problem; in a spreadsheet cell that asked for it, as text with status 200."""
    in_cell = request.url.path.startswith(f"{request.scope['state'].get('root_path', '')}/v1/figures/")
    if not in_cell or request.query_params.get("errors") != "inline":
        return answer(problem, request.scope)
    code = problem.errors[0].code if problem.errors else problem.kind.slug
    detail = problem.errors[0].detail if problem.errors else problem.detail
    return PlainTextResponse(f"ERROR {code}: {detail}", headers={"Cache-Control": "no-store", "Vary": "Accept"})


def install(app: FastAPI) -> None:
    """Give the application its handlers: whatever goes wrong, the answer is a problem document."""

    async def on_validation(request: Request, error: Exception) -> Response:
        assert isinstance(error, RequestValidationError)  # noqa: S101 - what the handler is registered for
        return _respond(_from_validation(error), request)

    async def on_http(request: Request, error: Exception) -> Response:
        assert isinstance(error, HTTPException)  # noqa: S101 - for the type checker
        return _respond(_from_http(error), request)

    async def on_problem(request: Request, error: Exception) -> Response:
        assert isinstance(error, Problem)  # noqa: S101 - for the type checker
        return _respond(error, request)

    app.add_exception_handler(RequestValidationError, on_validation)
    app.add_exception_handler(HTTPException, on_http)
    app.add_exception_handler(Problem, on_problem)
