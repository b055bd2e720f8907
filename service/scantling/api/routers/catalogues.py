"""Catalogues: published tables, finding codes, kinds of problems."""

from collections.abc import Mapping
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Path, Request
from starlette.responses import Response

from scantling.findings import catalogue
from scantling.tables import load_table, table_names

from ..calls import calls_of
from ..describe import form_of, link, operation
from ..problems import KINDS, Kind, Problem
from ..respond import Form, Table, cached, member, render
from ..rules import CROSS_FIELD_RULES, SCHEMA_CODES
from ..schemas.catalogues import Codes, ProblemKind, ProblemKinds, TableAnswer, Tables

router = APIRouter()

TABLES = (Table("tables", ("id", "title", "about", "rows"), member("tables")),)
FINDINGS = (
    Table("findings", ("code", "subject", "severity", "title", "meaning", "remedy", "origin"), member("findings")),
)
PROBLEMS = (Table("problems", ("slug", "status", "title", "meaning", "remedy"), member("problems")),)


@router.get(
    "/v1/tables",
    **operation(
        "list_tables",
        "The published tables",
        "Every table of published figures that the service computes with.",
        "catalogues",
        Tables,
        tables=TABLES,
        links={"Table": link("get_table", "The first table.", table="$response.body#/tables/0/id")},
    ),
)
async def list_tables(request: Request, form: Annotated[Form, Depends(form_of(TABLES))]) -> Response:
    """Return the tables."""
    tables = [load_table(name) for name in table_names()]
    entries = [{"id": t.name, "title": t.title, "about": t.about, "rows": len(t.rows)} for t in tables]
    return cached(request, render({"tables": entries}, form, "tables"))


ROWS = Table("rows", (), member("rows"))  # its columns are the table's own


@router.get(
    "/v1/tables/{table}",
    **operation(
        "get_table",
        "One published table",
        "The rows of a table, each with its unit, its source and how well it is known.",
        "catalogues",
        TableAnswer,
        tables=(ROWS,),
        missing=True,
    ),
)
async def get_table(
    request: Request,
    table: Annotated[str, Path(description="Name of the table.", max_length=64, examples=["materials"])],
    form: Annotated[Form, Depends(form_of((ROWS,)))],
) -> Response:
    """Return one table."""
    if table not in table_names():
        raise Problem("not-found", f"No table is called {table[:64]!r}; there are: {', '.join(table_names())}.")
    found = load_table(table)
    rows = [row.to_plain() for row in found.rows]
    body = {"id": table, "title": found.title, "about": found.about, "units": dict(found.units), "rows": rows}
    columns = tuple(_column(name, found.units) for name in (rows[0] if rows else {}))
    chosen = Form(form.format, Table(table, columns, member("rows")))
    return cached(request, render(body, chosen, table))


def _column(name: str, units: Mapping[str, str]) -> tuple[str, str]:
    """Return the CSV column of a table's column: its unit stands in its name."""
    unit = units.get(name, "1")
    return (name if unit == "1" else f"{name} [{unit}]", name)


@router.get(
    "/v1/findings",
    **operation(
        "list_findings",
        "Finding codes",
        "Every code that a finding may carry, with what it means and what usually mends it; `origin` names the plugin "
        "whose check finds it.",
        "catalogues",
        Codes,
        tables=FINDINGS,
    ),
)
async def list_findings(request: Request, form: Annotated[Form, Depends(form_of(FINDINGS))]) -> Response:
    """Return the finding codes."""
    codes: list[Mapping[str, Any]] = [
        {
            "code": e.code,
            "subject": e.subject,
            "severity": e.severity.value,
            "title": e.title,
            "meaning": e.meaning,
            "remedy": e.remedy,
            "origin": None,
        }
        for e in catalogue().values()
    ]
    codes = sorted([*codes, *(await calls_of(request).plugged.codes())], key=lambda row: str(row["code"]))
    return cached(request, render({"findings": codes}, form, "findings"))


@router.get(
    "/v1/problems",
    **operation(
        "list_problems",
        "Kinds of problems",
        "Every kind of problem document that the service answers with.",
        "catalogues",
        ProblemKinds,
        tables=PROBLEMS,
        links={"Problem": link("get_problem", "The first kind.", slug="$response.body#/problems/0/slug")},
    ),
)
async def list_problems(request: Request, form: Annotated[Form, Depends(form_of(PROBLEMS))]) -> Response:
    """Return the kinds of problems."""
    kinds = [_kind(kind, request) for kind in KINDS.values()]
    return cached(request, render({"problems": kinds}, form, "problems"))


@router.get(
    "/v1/problems/{slug}",
    **operation(
        "get_problem",
        "One kind of problem",
        "What a kind of problem means and what mends it; the `type` of a problem document leads here.",
        "catalogues",
        ProblemKind,
        missing=True,
    ),
)
async def get_problem(
    request: Request,
    slug: Annotated[str, Path(description="Name of the kind.", max_length=64, examples=["invalid-request"])],
    form: Annotated[Form, Depends(form_of())],
) -> Response:
    """Return one kind of problem."""
    if slug not in KINDS:
        raise Problem("not-found", f"No problem is called {slug[:64]!r}; GET /v1/problems lists them.")
    return cached(request, render(_kind(KINDS[slug], request), form, "problem"))


def _kind(kind: Kind, request: Request) -> dict[str, Any]:
    codes = []
    if kind.slug == "invalid-request":
        codes = [{"code": c, "meaning": m, "cross_field": False} for c, m in SCHEMA_CODES.items()]
        codes += [{"code": c, "meaning": m, "cross_field": True} for c, m in CROSS_FIELD_RULES.items()]
    return {
        "slug": kind.slug,
        "type": f"{request.scope.get('root_path', '')}/v1/problems/{kind.slug}",
        "status": kind.status,
        "title": kind.title,
        "meaning": kind.meaning,
        "remedy": kind.remedy,
        "example": kind.example,
        "codes": codes,
    }
