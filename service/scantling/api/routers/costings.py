"""What to buy and what it costs."""

from typing import Annotated

from fastapi import APIRouter, Body, Depends, Request
from starlette.responses import Response

from ..calls import calls_of
from ..describe import REPEAT, JsonBody, form_of, operation
from ..respond import Form, Table, member
from ..schemas.costings import CostingAnswer, CostingRequest, CostLine
from ..schemas.examples import COSTINGS
from ..schemas.lengths import plain

router = APIRouter()
LINES = Table("lines", tuple(CostLine.model_fields), member("lines"))
UNKNOWN = Table("unknown", ("id", "kind", "what", "quantity", "unit", "reason"), member("unknown"))
TABLES = (LINES, UNKNOWN)


@router.post(
    "/v1/costings",
    dependencies=[JsonBody],
    **operation(
        "compute_costing",
        "What to buy and what it costs",
        "Turns a take-off into packs to buy and money: as bought and as used, with tax, work and what is left over. "
        f"What has no price comes back by name, and the total is then a lower bound. Money in `currency`. {REPEAT}",
        "shop",
        CostingAnswer,
        tables=TABLES,
        worker=True,
    ),
)
async def compute_costing(
    request: Request,
    body: Annotated[CostingRequest, Body(openapi_examples=COSTINGS)],
    form: Annotated[Form, Depends(form_of(TABLES))],
) -> Response:
    """Return the costing."""
    return await calls_of(request).answer(request, "costings", plain(body), form, "costings")
