"""Screws in their stack."""

from typing import Annotated

from fastapi import APIRouter, Body, Depends, Request
from starlette.responses import Response

from ..calls import calls_of
from ..describe import REPEAT, JsonBody, form_of, operation
from ..respond import Form, render
from ..schemas.examples import FASTENERS
from ..schemas.fasteners import FastenerAnswer, FastenerRequest
from ..schemas.lengths import plain

router = APIRouter()


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
        worker=True,
    ),
)
async def check_fasteners(
    request: Request,
    body: Annotated[FastenerRequest, Body(openapi_examples=FASTENERS)],
    form: Annotated[Form, Depends(form_of())],
) -> Response:
    """Return the fasteners as checked."""
    return render(await calls_of(request).run(request, "fastener-checks", plain(body)), form, "fastener-checks")
