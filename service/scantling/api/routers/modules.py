"""Kinds of furniture: the catalogue, and the parts a piece comes to."""

from typing import Annotated, Any

from fastapi import APIRouter, Body, Depends, Path, Request
from starlette.responses import Response

from ..calls import calls_of
from ..describe import REPEAT, JsonBody, form_of, link, operation
from ..problems import Problem
from ..respond import Form, Rows, Table, cached, member
from ..schemas.examples import PARTS, PROOFS
from ..schemas.lengths import plain
from ..schemas.modules import ModuleAnswer, ModuleList, PartsRequest, ProofsAnswer, ProofsRequest
from ..schemas.pieces import PartsAnswer

router = APIRouter()

MODULES = (Table("modules", ("id", "title", "family", "plugin", "sentence"), member("modules")),)
CUT_COLUMNS: tuple[str | tuple[str, str], ...] = (
    "id",
    "name",
    "quantity",
    "material",
    "thickness_mm",
    "length_mm",
    "width_mm",
    "length_text",
    "width_text",
    "grain",
    "shows",
    "hand",
    "closing",
    "waits_for",
    "saw_settings",
    "operations",
    "ids",
)
FINDING_COLUMNS = ("severity", "code", "message", "parts", "fasteners", "value", "limit", "unit", "remedy", "source")


def cut_rows(name: str) -> Rows:
    """Return the rows of the cut list under one member, with each saw setting as its text."""
    return lambda answer: [
        {**row, "saw_settings": [setting["text"] for setting in row.get("saw_settings") or ()]}
        for row in answer.get(name) or ()
    ]


CUT_LIST = Table("cut-list", CUT_COLUMNS, cut_rows("parts"))
FASTENERS = Table(
    "fasteners",
    ("id", "kind", "gauge", "diameter_mm", "length_mm", "role", "joint", "parts", "head_depth_mm"),
    member("fasteners"),
)
FINDINGS = Table("findings", FINDING_COLUMNS, member("findings"))
PARTS_TABLES = (CUT_LIST, FASTENERS, FINDINGS)

ModuleId = Annotated[
    str, Path(description="Id of the module.", max_length=64, examples=["footstool"], pattern=r"^[a-z0-9-]+$")
]


@router.get(
    "/v1/modules",
    **operation(
        "list_modules",
        "Kinds of furniture",
        "Every module that the loaded plugins give.",
        "modules",
        ModuleList,
        tables=MODULES,
        worker=True,
        links={
            "Module": link("get_module", "The first module in full.", module="$response.body#/modules/0/id"),
            "Parts": link("compute_parts", "The first module worked out.", module="$response.body#/modules/0/id"),
        },
    ),
)
async def list_modules(request: Request, form: Annotated[Form, Depends(form_of(MODULES))]) -> Response:
    """Return the modules."""
    return cached(request, await calls_of(request).answer(request, "modules", {}, form, "modules"))


@router.get(
    "/v1/modules/{module}",
    **operation(
        "get_module",
        "One kind of furniture",
        "A module with its roles and the JSON Schema of its parameters. Every parameter has a default, so "
        '`{"parameters": {}}` builds.',
        "modules",
        ModuleAnswer,
        worker=True,
        missing=True,
        links={"Parts": link("compute_parts", "This module worked out.", module="$response.body#/id")},
    ),
)
async def get_module(request: Request, module: ModuleId, form: Annotated[Form, Depends(form_of())]) -> Response:
    """Return one module."""
    return cached(request, await _known(request, "module", {"module": module}, form))


@router.post(
    "/v1/modules/{module}/parts",
    dependencies=[JsonBody],
    **operation(
        "compute_parts",
        "The parts of one piece",
        "Works out a piece of furniture: its parts with their cuts, joints, fasteners and order of work, and what was "
        f"noticed. Lengths in mm, masses in kg, angles in degrees. {REPEAT}",
        "modules",
        PartsAnswer,
        tables=PARTS_TABLES,
        worker=True,
        drawn="parts",
        missing=True,
    ),
)
async def compute_parts(
    request: Request,
    module: ModuleId,
    body: Annotated[PartsRequest, Body(openapi_examples=PARTS)],
    form: Annotated[Form, Depends(form_of(PARTS_TABLES, "parts"))],
) -> Response:
    """Return the parts of one piece."""
    return await _known(request, "parts", {"module": module, **plain(body)}, form)


@router.post(
    "/v1/modules/{module}/proofs",
    dependencies=[JsonBody],
    **operation(
        "prove_module",
        "One piece over a range",
        "Builds a piece again and again over the thicknesses a shop may sell, the angles a saw really gives and the "
        f"moisture of a year, and says what opens, closes or fails. Lengths in mm, angles in degrees. {REPEAT}",
        "modules",
        ProofsAnswer,
        tables=(FINDINGS,),
        worker=True,
        missing=True,
    ),
)
async def prove_module(
    request: Request,
    module: ModuleId,
    body: Annotated[ProofsRequest, Body(openapi_examples=PROOFS)],
    form: Annotated[Form, Depends(form_of((FINDINGS,)))],
) -> Response:
    """Return the proof of one piece."""
    return await _known(request, "proofs", {"module": module, **plain(body)}, form)


async def _known(request: Request, operation: str, body: dict[str, Any], form: Form) -> Response:
    """Return the answer about the module that the address names. Raises Problem (404) where there is none."""
    try:
        return await calls_of(request).answer(request, operation, body, form, operation)
    except Problem as problem:
        unknown = [fault for fault in problem.errors if fault.code == "unknown-module" and fault.pointer == "/module"]
        if not unknown:
            raise
        raise Problem("not-found", unknown[0].detail) from None
