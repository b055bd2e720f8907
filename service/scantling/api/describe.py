"""What an operation says of itself in the OpenAPI document, written next to its route."""

from collections.abc import Awaitable, Callable, Mapping, Sequence
from typing import Annotated, Any, Literal

from fastapi import Depends, Query, Request
from pydantic import BaseModel

from scantling.papers.forms import FORMATS

from .calls import calls_of
from .drawn import LONGEST_VIEW, Kind, view_pattern
from .drawn import names as file_forms
from .negotiate import CSV
from .plugged import KINDS as PLUGGED
from .plugged import may_be_plugged
from .problems import Problem
from .respond import Form, Table, wanted

REPEAT = "Safe to repeat: the answer depends on nothing but the request, and nothing is stored."
JSON_ONLY = "application/json"
FORM_PATTERN = "^[a-z][a-z0-9-]{0,15}$"
FormatName = Annotated[
    Literal["json", "csv"] | None,
    Query(
        alias="format",
        description="The form of the answer; stands for the Accept header, for clients that cannot set one.",
    ),
]


def operation(
    operation_id: str,
    summary: str,
    description: str,
    tag: str,
    answer: type[BaseModel] | None = None,
    *,
    tables: Sequence[Table] = (),
    worker: bool = False,
    missing: bool = False,
    links: Mapping[str, Any] | None = None,
    drawn: Kind | None = None,
) -> dict[str, Any]:
    """Return the keyword arguments for a route: names, texts, the answer's model and what can go wrong.

    `worker` says that the work is done in a worker, `missing` that the address may name what is not there, `drawn`
    that the answer can be had as drawings and files of this kind.
    """
    ok: dict[str, Any] = {"description": "The answer."}
    if tables:
        names = ", ".join(f"`{table.name}` ({', '.join(column_names(table))})" for table in tables)
        description += f"\n\nAs {CSV}: the table {names}." if len(tables) == 1 else f"\n\nAs {CSV}, one of: {names}."
        ok["content"] = {CSV: {"schema": {"type": "string", "description": "The table, with a header row."}}}
    if drawn:
        description += (
            f"\n\nAs drawings and files, made as `papers` of the request says: {', '.join(file_forms(drawn))}."
        )
        ok.setdefault("content", {}).update({FORMATS[name]: {} for name in file_forms(drawn)})
    if links:
        ok["links"] = dict(links)
    return {
        "operation_id": operation_id,
        "summary": summary,
        "description": description,
        "tags": [tag],
        "response_model": None,  # answers are rendered as they come; FastAPI need not build what it never checks
        "responses": {200: ok},
        "openapi_extra": {"x-worker": worker, "x-missing": missing, "x-answer": _name(answer)},
    }


def _name(model: type[BaseModel] | None) -> str | None:
    """Return where a model stands, for the OpenAPI document to find it."""
    return None if model is None else f"{model.__module__}:{model.__name__}"


def link(operation_id: str, description: str, **parameters: str) -> dict[str, Any]:
    """Return an OpenAPI link: which operation an answer leads to, and where its parameters stand in the answer."""
    return {"operationId": operation_id, "description": description, "parameters": parameters}


def column_names(table: Table) -> list[str]:
    """Return the names of a table's columns."""
    return [column if isinstance(column, str) else column[0] for column in table.columns]


def form_of(tables: Sequence[Table] = (), drawn: Kind | None = None) -> Callable[..., Awaitable[Form]]:
    """Return the dependency that settles the form of the answer before any work is done.

    It is a coroutine function, like every dependency here: a plain one would cost a hop to a thread.
    """
    if not tables:

        async def json_only(request: Request) -> Form:
            return wanted(request, (), None, None)

        return json_only
    table_query = Query(
        description="Which table the CSV holds; without it the first of the list. Without effect on JSON.",
        json_schema_extra={"enum": [table.name for table in tables]},
    )
    if drawn is not None:
        return _drawn_form(tables, drawn, table_query)

    async def json_or_csv(
        request: Request,
        form: FormatName = None,
        table: Annotated[str | None, table_query] = None,
    ) -> Form:
        return wanted(request, tables, form, table)

    async def one_table(request: Request, form: FormatName = None) -> Form:
        return wanted(request, tables, form, None)

    return json_or_csv if len(tables) > 1 else one_table


def _drawn_form(tables: Sequence[Table], kind: Kind, table_query: Any) -> Callable[..., Awaitable[Form]]:  # noqa: ANN401 - FastAPI's Query
    """Return the dependency of an operation whose answer can be drawn."""
    form_query = Query(
        alias="format",
        description="The form of the answer; stands for the Accept header, for clients that cannot set one: "
        f"{', '.join(('json', 'csv', *file_forms(kind)))}, or one that a plugin adds (`exporters` of GET /v1/plugins).",
        pattern=FORM_PATTERN,
        examples=["csv"],
    )
    view_query = Query(
        description="Which picture SVG and PDF show; a colon and an item picks one of many, such as `steps:3`. The "
        "usual one without it. Without effect on other forms.",
        pattern=view_pattern(kind),
        max_length=LONGEST_VIEW,
    )

    async def drawn_or_told(
        request: Request,
        form: Annotated[str | None, form_query] = None,
        table: Annotated[str | None, table_query] = None,
        view: Annotated[str | None, view_query] = None,
    ) -> Form:
        plugged: dict[str, str] = {}
        if kind in PLUGGED and may_be_plugged(request.headers.get("accept"), form):
            rows = await calls_of(request).plugged.exporters(kind)
            plugged = {row["format"]: row["media_type"] for row in rows}
        return wanted(request, tables, form, table, kind, view, plugged)

    return drawn_or_told


async def json_body(request: Request) -> None:
    """Refuse a body that is not plain application/json, whatever it holds.

    A web page can send text/plain across origins without asking first, so taking it would open a service on a
    home network to every page that is read there.
    """
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind != JSON_ONLY:
        sent = f"as {kind[:100]}" if kind.isprintable() and kind else "without a Content-Type"
        raise Problem("unsupported-media-type", f"The body was sent {sent}; send it as {JSON_ONLY}.")
    coding = request.headers.get("content-encoding", "identity").strip().lower()
    if coding != "identity":
        raise Problem("unsupported-media-type", f"The body was sent compressed ({coding[:40]!r}); send it as it is.")


JsonBody = Depends(json_body)
