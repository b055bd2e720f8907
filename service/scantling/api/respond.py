"""From a plain answer to a response: JSON or a CSV table, with the headers that belong to it."""

import hashlib
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from fastapi import Request
from starlette.responses import Response

from .csvtable import write
from .drawn import Kind, names, settled_view
from .negotiate import CSV, JSON, NONE, choose
from .problems import Fault, Problem

Plain = Mapping[str, Any]
Rows = Callable[[Plain], Sequence[Mapping[str, Any]]]


@dataclass(frozen=True, slots=True)
class Table:
    """One table that an answer can be read as: its columns (part of the contract) and where its rows come from.

    A column is a name, or a pair of the column's name and the dotted path to its value in the row.
    """

    name: str
    columns: tuple[str | tuple[str, str], ...]
    rows: Rows

    def csv(self, body: Plain) -> bytes:
        """Return the table as CSV."""
        pairs = [(column, column) if isinstance(column, str) else column for column in self.columns]
        rows = [[_at(row, path) for _, path in pairs] for row in self.rows(body)]
        return write([name for name, _ in pairs], rows)


def _at(row: Mapping[str, Any], path: str) -> object:
    value: Any = row
    for step in path.split("."):
        value = value.get(step) if isinstance(value, Mapping) else None
    return value


def member(name: str) -> Rows:
    """Return the rows that stand as a list under one member of the answer."""
    return lambda body: body.get(name) or []


@dataclass(frozen=True, slots=True)
class Form:
    """What the client wants: a format; for CSV a table; for drawings of a `kind` of answer a view.

    `plugged` says that a plugin writes it.
    """

    format: str
    table: Table | None = None
    drawn: Kind | None = None
    view: str | None = None
    plugged: bool = False


def wanted(
    request: Request,
    tables: Sequence[Table],
    form: str | None,
    table: str | None,
    kind: Kind | None = None,
    view: str | None = None,
    plugged: Mapping[str, str] = NONE,
) -> Form:
    """Return the form of the answer. Raises Problem (406, 422) before any work is done.

    With a `kind` the answer can be drawn too, as the view that `view` names; `plugged` are media types by the name of
    the form that plugins write it in.
    """
    drawings = names(kind) if kind else ()
    offered = ("json", "csv", *drawings) if tables else ("json",)
    chosen = choose(request.headers.get("accept"), offered, form, plugged)
    if chosen in plugged:
        return Form(chosen, None, kind, plugged=True)
    if kind is not None and chosen in drawings:
        return Form(chosen, None, kind, settled_view(kind, chosen, view))
    if table is None:
        return Form(chosen, tables[0] if tables else None)
    for one in tables:
        if one.name == table:
            return Form(chosen, one)
    known = ", ".join(one.name for one in tables)
    detail = f"no table is called {table[:64]!r}; accepted: {known}"
    fault = Fault(detail, "not-one-of", where="query", name="table")
    raise Problem("invalid-request", f"query table: {detail}", errors=[fault])


def dumps(body: object) -> bytes:
    """Return JSON as UTF-8 bytes: the same value, the same bytes."""
    return json.dumps(body, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode("utf-8")


def render(body: Plain, form: Form, stem: str) -> Response:
    """Return the response for an answer; `stem` names the file when it is saved."""
    if form.format == "csv" and form.table is not None:
        name = f"{stem}.csv" if form.table.name == stem else f"{stem}-{form.table.name}.csv"
        headers = {"Content-Disposition": f'attachment; filename="{name}"', "Vary": "Accept"}
        return Response(form.table.csv(body), headers=headers, media_type=f"{CSV}; charset=utf-8; header=present")
    return as_json(dumps(body))


def as_json(body: bytes) -> Response:
    """Return the response for an answer that is JSON already."""
    return Response(body, headers={"Vary": "Accept"}, media_type=JSON)


def cached(request: Request, response: Response) -> Response:
    """Return the response of a catalogue with its ETag, or 304 when the client has it already (RFC 9110, 13.1.2)."""
    etag = '"' + hashlib.sha256(bytes(response.body)).hexdigest()[:32] + '"'
    headers = {"ETag": etag, "Cache-Control": "public, max-age=3600", "Vary": "Accept"}
    known = [tag.strip().removeprefix("W/") for tag in request.headers.get("if-none-match", "").split(",")]
    if etag in known or "*" in known:
        return Response(status_code=304, headers=headers)
    response.headers.update(headers)
    return response
