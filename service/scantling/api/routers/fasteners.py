"""Screws in their stack."""

from collections.abc import Mapping, Sequence
from typing import Annotated, Any

from fastapi import APIRouter, Body, Depends, Request
from starlette.responses import Response

from ..calls import calls_of
from ..describe import REPEAT, JsonBody, form_of, operation
from ..respond import Form, Table, member
from ..schemas.examples import FASTENERS
from ..schemas.fasteners import Bite, FastenerAnswer, FastenerRequest
from ..schemas.lengths import plain
from .modules import FINDING_COLUMNS

router = APIRouter()
JOINTS = Table(
    "joints",
    (
        "id",
        "fastener",
        "role",
        ("bite_mm", "bite.mm"),
        ("point_mm", "point.at_mm"),
        ("protrusion_mm", "point.protrusion_mm"),
        ("pilot_mm", "pilot.diameter_mm"),
        ("clearance_mm", "clearance_hole.diameter_mm"),
        ("withdrawal_n", "capacity.withdrawal_n"),
        ("pull_through_n", "capacity.pull_through_n"),
        ("lateral_n", "capacity.lateral_n"),
        "ratio",
        "governing",
        ("shortest_mm", "length_window.shortest_mm"),
        ("longest_mm", "length_window.longest_mm"),
        ("take", "length_window.take"),
    ),
    member("joints"),
)


def _stack(answer: Mapping[str, Any]) -> Sequence[Mapping[str, Any]]:
    return [{"joint": joint["id"], **bite} for joint in answer["joints"] for bite in joint["stack"]]


def _findings(answer: Mapping[str, Any]) -> Sequence[Mapping[str, Any]]:
    return [{"joint": joint["id"], **finding} for joint in answer["joints"] for finding in joint["findings"]]


TABLES = (
    JOINTS,
    Table("stack", ("joint", *Bite.model_fields), _stack),
    Table("findings", ("joint", *FINDING_COLUMNS), _findings),
)


@router.post(
    "/v1/fastener-checks",
    dependencies=[JsonBody],
    **operation(
        "check_fasteners",
        "Screws in their stack",
        "Reads each stack along its fastener: where the point ends, how far it bites, which holes to drill, what it "
        "carries by the method asked for, and the window of lengths that would do. Lengths in mm, forces in N. "
        f"Screening against published values; no proof of conformity. {REPEAT}",
        "shop",
        FastenerAnswer,
        tables=TABLES,
        worker=True,
    ),
)
async def check_fasteners(
    request: Request,
    body: Annotated[FastenerRequest, Body(openapi_examples=FASTENERS)],
    form: Annotated[Form, Depends(form_of(TABLES))],
) -> Response:
    """Return the fasteners as checked."""
    return await calls_of(request).answer(request, "fastener-checks", plain(body), form, "fastener-checks")
