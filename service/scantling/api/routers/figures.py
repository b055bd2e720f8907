"""Single figures for spreadsheet cells: everything in the query, one value or a short table in the answer.

A cell sends OPTIONS, HEAD and GET, cannot set a header and throws the body of an error away: so `format` stands for
Accept, `errors=inline` answers 200 with the problem in the cell, and HEAD never looks at the query.
"""

import re
from collections.abc import Mapping
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Depends, Query, Request
from starlette.responses import Response

from scantling.measure import RequestError
from scantling.measure.figures import FIGURES, Figure

from ..csvtable import write
from ..describe import REPEAT, form_of, operation
from ..faults import invalid
from ..negotiate import CSV, TEXT, choose
from ..problems import Fault, Problem
from ..respond import Form, Table, cached, dumps, member, render
from ..schemas.examples import FIGURE_QUERIES
from ..schemas.figures import FigureList, FigureValue, entry, openapi_parameter, query_schema

router = APIRouter()
LIST = (Table("figures", ("name", "sentence"), member("figures")),)
COLUMNS = ("what", "value", "unit", "text")
FORMS = ("json", "csv", "text")
COMMON = ("units", "format", "errors", "decimal", "sep", "fresh")
SEPARATORS = {",": ",", ";": ";", "tab": "\t"}

Units = Annotated[Literal["mm", "in"], Query(description="What a bare number means where a length is asked for.")]
FormName = Annotated[
    Literal["json", "csv", "text"] | None,
    Query(alias="format", description="`text` is the bare value; stands for the Accept header."),
]
Errors = Annotated[
    Literal["status", "inline"],
    Query(description="`inline` answers 200 with `ERROR code: message`, since a cell cannot show another status."),
]
Decimal = Annotated[
    Literal[".", ","], Query(description="Decimal mark of the query's values and of the answer as text or CSV.")
]
Sep = Annotated[Literal[",", ";", "tab"], Query(description="What separates the columns of the CSV.")]
Fresh = Annotated[
    str, Query(description="Any text, without effect: a spreadsheet asks anew when it changes.", max_length=64)
]


@router.get(
    "/v1/figures",
    **operation(
        "list_figures",
        "The figures",
        "Every figure that can be asked for, with its query values.",
        "figures",
        FigureList,
        tables=LIST,
    ),
)
async def list_figures(request: Request, form: Annotated[Form, Depends(form_of(LIST))]) -> Response:
    """Return the figures."""
    return cached(request, render({"figures": [entry(f) for f in FIGURES.values()]}, form, "figures"))


def _add(figure: Figure) -> None:
    """Add the route of one figure, so that the document describes its own query values."""

    async def get_figure(
        request: Request,
        units: Units = "mm",
        form: FormName = None,
        errors: Errors = "status",
        decimal: Decimal = ".",
        sep: Sep = ",",
        fresh: Fresh = "",
    ) -> Response:
        return _figure(request, figure, units, form, decimal, sep)

    described = operation(
        f"get_{figure.name.replace('-', '_')}",
        f"Figure: {figure.name.replace('-', ' ')}",
        f"{figure.sentence} As text/csv: the table of {', '.join(COLUMNS)}. {REPEAT}",
        "figures",
        FigureValue,
    )
    examples = FIGURE_QUERIES.get(figure.name, {})
    parameters = [openapi_parameter(p, examples.get(p.name)) for p in figure.parameters]
    described["openapi_extra"]["parameters"] = parameters
    described["responses"][200]["content"] = {
        CSV: {"schema": {"type": "string", "description": "The figure's table, with a header row."}},
        TEXT: {"schema": {"type": "string", "description": "The bare value, or `ERROR code: message`."}},
    }
    router.add_api_route(f"/v1/figures/{figure.name}", get_figure, methods=["GET"], **described)


for _one in FIGURES.values():
    _add(_one)


@router.get("/v1/figures/{name}", include_in_schema=False)
async def unknown_figure(name: str) -> Response:
    """Refuse a figure that there is not."""
    raise Problem("not-found", f"No figure is called {name[:64]!r}; there are: {', '.join(FIGURES)}.")


@router.head("/v1/figures/{name}", include_in_schema=False)
async def head_figure(name: str) -> Response:
    """Answer the HEAD that a spreadsheet sends first, whatever the query."""
    if name not in FIGURES:
        raise Problem("not-found")
    return Response(headers={"Cache-Control": "no-store"})


def _figure(request: Request, figure: Figure, units: str, form: str | None, decimal: str, sep: str) -> Response:
    chosen = choose(request.headers.get("accept"), FORMS, form)
    given = {name: text for name, text in request.query_params.items() if name not in COMMON}
    try:
        answer = figure.answer(given, units, decimal_comma=decimal == ",")
    except RequestError as error:
        raise invalid([_fault(figure, given, e.pointer, e.detail, e.code) for e in error.errors]) from None
    _check_form(figure, given)
    body = {"name": figure.name, **answer.to_plain()}
    return cached(request, _rendered(body, chosen, figure.name, decimal, sep))


def _rendered(body: Mapping[str, Any], form: str, name: str, decimal: str, sep: str) -> Response:
    if form == "text":
        return Response(
            _decimal(body["value"], decimal), media_type=f"{TEXT}; charset=utf-8", headers={"Vary": "Accept"}
        )
    if form == "csv":
        rows = [[row[column] for column in COLUMNS] for row in body["rows"]]
        content = write(COLUMNS, rows, separator=SEPARATORS[sep], decimal=decimal)
        headers = {"Content-Disposition": f'attachment; filename="{name}.csv"', "Vary": "Accept"}
        return Response(content, media_type=f"{CSV}; charset=utf-8; header=present", headers=headers)
    return Response(dumps(body), media_type="application/json", headers={"Vary": "Accept"})


def _decimal(value: float, decimal: str) -> str:
    return repr(value).replace(".", decimal)


def _fault(figure: Figure, given: Mapping[str, str], pointer: str, detail: str, code: str) -> Fault:
    """Return the fault of a query value; one of the published form is refused with a cross-field rule."""
    name = pointer.removeprefix("/").replace("~1", "/").replace("~0", "~")
    if not name:
        return Fault(detail, code, where="query", name="")
    parameter = next((p for p in figure.parameters if p.name == name), None)
    if parameter is not None and name in given and _has_the_form(query_schema(parameter), given[name]):
        code = _RULES.get(code, "text-does-not-fit")
    return Fault(
        detail, {"missing": "missing-member", "unreadable": "bad-text"}.get(code, code), where="query", name=name
    )


_RULES = {"out-of-range": "value-out-of-range", "unit-missing": "unit-missing"}


def _has_the_form(schema: Mapping[str, Any], text: str) -> bool:
    if "enum" in schema:
        return text in schema["enum"]
    fits = len(text) <= schema["maxLength"] and not text.endswith("\n")
    return fits and re.search(schema["pattern"], text) is not None


def _check_form(figure: Figure, given: Mapping[str, str]) -> None:
    """Refuse what the grammar reads and the published form does not have, such as a length of ten digits."""
    faults = [
        Fault(
            f"{given[p.name][:64]!r} has more digits or signs than the value needs",
            "bad-text",
            where="query",
            name=p.name,
        )
        for p in figure.parameters
        if p.name in given and not _has_the_form(query_schema(p), given[p.name])
    ]
    if faults:
        raise invalid(faults)
