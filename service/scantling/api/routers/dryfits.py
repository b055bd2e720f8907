"""Whether a piece goes together: a dry fit of an assembly, and of a module over a range."""

from typing import Annotated

from fastapi import APIRouter, Body, Depends, Request
from starlette.responses import Response

from ..calls import calls_of
from ..describe import REPEAT, JsonBody, form_of, operation
from ..respond import Form
from ..schemas.dryfits import DryFitAnswer, DryFitRequest
from ..schemas.examples import DRY_FITS
from ..schemas.lengths import plain_millimetres
from .modules import FINDINGS

router = APIRouter()
TABLES = (FINDINGS,)


@router.post(
    "/v1/dry-fits",
    dependencies=[JsonBody],
    **operation(
        "check_dry_fit",
        "Whether it goes together",
        "Puts an assembly together without glue, as a computation: parts that share space, joints that do not touch, "
        "screws that come out or cannot be driven, an order of assembly, balance. Reads what "
        "POST /v1/modules/{module}/parts answers as `assembly`, or what a design tool writes. Lengths in mm, "
        f"masses in kg, angles in degrees. {REPEAT}",
        "shop",
        DryFitAnswer,
        tables=TABLES,
        worker=True,
    ),
)
async def check_dry_fit(
    request: Request,
    body: Annotated[DryFitRequest, Body(openapi_examples=DRY_FITS)],
    form: Annotated[Form, Depends(form_of(TABLES))],
) -> Response:
    """Return the dry fit."""
    return await calls_of(request).answer(request, "dry-fits", plain_millimetres(body), form, "dry-fits")
