"""Parts on sheets and boards."""

from typing import Annotated

from fastapi import APIRouter, Body, Depends, Request
from starlette.responses import Response

from ..calls import calls_of
from ..describe import REPEAT, JsonBody, form_of, operation
from ..nesting_tables import CUTS, LAYOUTS, OFFCUTS, PLACEMENTS, PLANS, SETTINGS, UNPLACED
from ..respond import Form
from ..schemas.examples import NESTINGS
from ..schemas.lengths import plain
from ..schemas.nestings import NestingAnswer, NestingRequest
from .modules import FINDINGS

router = APIRouter()
TABLES = (PLACEMENTS, CUTS, SETTINGS, LAYOUTS, OFFCUTS, PLANS, UNPLACED, FINDINGS)


@router.post(
    "/v1/nestings",
    dependencies=[JsonBody],
    **operation(
        "compute_nesting",
        "Parts on sheets and boards",
        "Lays parts out on sheets, in through-cuts that a saw can make, and on boards, for the least money; with the "
        "bound that no cutting can beat. A part that fits nowhere comes back in `unplaced` with the reason. "
        f"Lengths in mm, money in `currency`. {REPEAT}",
        "shop",
        NestingAnswer,
        tables=TABLES,
        worker=True,
        drawn="nesting",
    ),
)
async def compute_nesting(
    request: Request,
    body: Annotated[NestingRequest, Body(openapi_examples=NESTINGS)],
    form: Annotated[Form, Depends(form_of(TABLES, "nesting"))],
) -> Response:
    """Return the nesting."""
    return await calls_of(request).answer(request, "nestings", plain(body), form, "nestings")
