"""Members that several requests and answers share."""

from typing import Annotated, Any, Literal

from pydantic import Field

from .branches import by_type, length_or, mapped, number, text
from .lengths import THICKNESS_HELP, AnyThickness, Length, LengthOrZero, LengthRule, Reading
from .scalars import Closed, Id, Money, Open

Kerf = Annotated[Reading, LengthRule(least=0, most=20)]
TapeStep = Literal["1/8 in", "1/16 in", "1/32 in", "1/64 in", "1 mm", "0.5 mm", "0.1 mm"]
PartGrain = Literal["along", "across", "any"]
Preset = Literal["quick", "normal", "thorough"]
WorkUnits = Annotated[int, Field(strict=True, ge=1, le=100_000_000)]

TAPE: Any = Field("1/16 in", description="The step lengths are shown in: what the tape at the bench is read to.")
CURRENCY = Field("USD", description="Currency of every price of the request, as an ISO 4217 code.")
MATERIAL = Field(None, description="Id of a material: of GET /v1/tables/materials or of the request's `materials`.")


class TrimEdges(Closed):
    """What is cut off each edge of a sheet before it is used."""

    start: LengthOrZero | None = Field(None, description="Off the start of the length.")
    end: LengthOrZero | None = Field(None, description="Off the end of the length.")
    near: LengthOrZero | None = Field(None, description="Off the near long edge.")
    far: LengthOrZero | None = Field(None, description="Off the far long edge.")


Trim = Annotated[
    Annotated[LengthOrZero, number] | Annotated[TrimEdges, mapped],
    length_or("a length, or {start, end, near, far}"),
]
Effort = Annotated[
    Annotated[Preset, text] | Annotated[WorkUnits, number],
    by_type("quick, normal, thorough, or a whole number of work units"),
]
EFFORT: Any = Field(
    "normal",
    description="How long to search, in work units or as a preset; `normal` is worth about one second of one core.",
    json_schema_extra={"x-unit": "work units"},
)
TRIM = Field(
    None, description="What is cut off every edge of a sheet, or off each; 0 for sheets whose edges you trust."
)


class Stock(Closed):
    """Something that can be bought or is on hand: a sheet, a board, an offcut."""

    id: Id = Field(description="The caller's name for it.")
    material: Id | None = MATERIAL
    thickness: AnyThickness | None = Field(None, description=THICKNESS_HELP)
    length: Length = Field(description="Length; the stock's grain runs along it.")
    width: Length | None = Field(None, description="Width; without it the stock is a board, cut to length only.")
    price: Money | None = Field(None, description="Price of one; of an offcut its book value.")
    quantity: Annotated[int, Field(strict=True, ge=0, le=20_000)] | None = Field(
        None, description="How many there are; null for as many as needed.", json_schema_extra={"x-unit": "count"}
    )
    offcut: Annotated[bool, Field(strict=True)] = Field(False, description="True for stock that is on hand already.")


class Finding(Open):
    """Something that the computation noticed."""

    code: str = Field(description="Kebab-case code; GET /v1/findings lists them.")
    severity: Literal["error", "warning", "note"] = Field(
        description="An error is mended before building, a warning weighed, a note read."
    )
    message: str = Field(description="What was noticed, for people.")
    parts: list[str] = Field(description="Ids of the parts it is about.")
    fasteners: list[str] = Field(description="Ids of the fasteners it is about.")
    pointer: str | None = Field(description="JSON Pointer to the member of the request it is about.")
    at_mm: list[float] | None = Field(description="Place in the piece: x, y, z.", json_schema_extra={"x-unit": "mm"})
    value: float | None = Field(description="What was found, in `unit`.", json_schema_extra={"x-unit": "unit"})
    limit: float | None = Field(description="What it is held against, in `unit`.", json_schema_extra={"x-unit": "unit"})
    unit: str | None = Field(description="Unit of `value` and `limit`.")
    source: str | None = Field(description="Where the limit is from, or `practice`.")
    remedy: str | None = Field(description="What to do about it.")


FINDINGS = Field(description="What was noticed, errors first.")
