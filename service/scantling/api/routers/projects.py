"""The whole job in one request."""

from collections.abc import Mapping, Sequence
from typing import Annotated, Any

from fastapi import APIRouter, Body, Depends, Request
from starlette.responses import Response

from ..calls import calls_of
from ..describe import REPEAT, JsonBody, form_of, operation
from ..nesting_tables import CUTS, LAYOUTS, OFFCUTS, PLACEMENTS, SETTINGS, UNPLACED
from ..respond import Form, Table
from ..schemas.examples import PROJECTS
from ..schemas.lengths import plain
from ..schemas.projects import ProjectAnswer, ProjectRequest
from .costings import LINES, UNKNOWN
from .modules import CUT_COLUMNS, FASTENERS, FINDINGS, cut_rows

router = APIRouter()


def _within(table: Table, name: str) -> Table:
    """Return a table of one part of the plan as a table of the plan."""
    return Table(table.name, table.columns, lambda plan: table.rows(plan[name]))


def _fasteners(plan: Mapping[str, Any]) -> Sequence[Mapping[str, Any]]:
    return [{"module": m["id"], **fastener} for m in plan["modules"] for fastener in m["fasteners"]]


TABLES = (
    Table("cut-list", ("module", *CUT_COLUMNS, "lot"), cut_rows("cut_list")),
    *(_within(table, "nesting") for table in (PLACEMENTS, CUTS, SETTINGS, LAYOUTS, OFFCUTS, UNPLACED)),
    _within(LINES, "costing"),
    _within(UNKNOWN, "costing"),
    Table("fasteners", ("module", *FASTENERS.columns), _fasteners),
    FINDINGS,
)


@router.post(
    "/v1/projects",
    dependencies=[JsonBody],
    **operation(
        "plan_project",
        "The whole job in one plan",
        "Plans a set of furniture: parts, fasteners, sheets and boards, cost, and what was noticed, opening with a "
        "summary of at most seven lines. Only `modules` is required; what is left out is assumed and named in the "
        f"findings. Lengths in mm, masses in kg, money in `currency`. {REPEAT}",
        "projects",
        ProjectAnswer,
        tables=TABLES,
        worker=True,
        drawn="project",
    ),
)
async def plan_project(
    request: Request,
    body: Annotated[ProjectRequest, Body(openapi_examples=PROJECTS)],
    form: Annotated[Form, Depends(form_of(TABLES, "project"))],
) -> Response:
    """Return the plan."""
    return await calls_of(request).answer(request, "projects", plain(body), form, "projects")
