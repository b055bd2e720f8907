"""Members that several requests and answers share."""

from typing import Annotated, Any, Literal

from pydantic import Field
from typing_extensions import TypeAliasType

from .branches import by_type, length_or, mapped, number, text
from .lengths import THICKNESS_HELP, AnyThickness, Length, LengthOrZero, LengthRule, Reading
from .marks import COUNT, DEG, LINE_UNIT, MM, RATIO, unit
from .scalars import Closed, Id, Money, Open, Whole

Kerf = TypeAliasType("Kerf", Annotated[Reading, LengthRule(least=0, most=20)])
TapeStep = Literal["1/8 in", "1/16 in", "1/32 in", "1/64 in", "1 mm", "0.5 mm", "0.1 mm"]
PartGrain = Literal["along", "across", "any"]
Preset = Literal["quick", "normal", "thorough"]
WorkUnits = Annotated[int, Field(strict=True, ge=1, le=100_000_000), Whole]

TAPE: Any = Field("1/16 in", description="The step lengths are shown in: what the tape at the bench is read to.")
CURRENCY = Field("USD", description="Currency of every price of the request, as an ISO 4217 code.")
MATERIAL = Field(
    None,
    description="Id of a material: of GET /v1/tables/materials or of the request's `materials`.",
    examples=["birch-plywood"],
)


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
    json_schema_extra=unit("work units"),
)
Seed = Annotated[int, Field(strict=True, ge=0, le=2**31 - 1), Whole]
SEED: Any = Field(1, description="Seed of the search: another seed may find another answer.", json_schema_extra=RATIO)
TRIM = Field(
    None, description="What is cut off every edge of a sheet, or off each; 0 for sheets whose edges you trust."
)


class Defect(Closed):
    """A stretch of a board that no part may touch: a knot, a split, a stain."""

    start: LengthOrZero = Field(description="Where it begins, from the board's start.")
    end: Length = Field(description="Where it ends.")


class Stock(Closed):
    """Something that can be bought or is on hand: a sheet, a board, an offcut."""

    id: Id = Field(description="The caller's name for it.")
    material: Id | None = MATERIAL
    thickness: AnyThickness | None = Field(None, description=THICKNESS_HELP)
    length: Length = Field(description="Length; the stock's grain runs along it.")
    width: Length | None = Field(None, description="Width; without it the stock is a board, cut to length only.")
    board_width: Length | None = Field(
        None,
        description="Width of a board as sold, to tell boards apart; sloped ends share cuts only where it is known.",
    )
    defects: list[Defect] | None = Field(None, description="What no part may touch; of boards only.", max_length=50)
    price: Money | None = Field(None, description="Price of one; of an offcut its book value.")
    quantity: Annotated[int, Field(strict=True, ge=0, le=20_000), Whole] | None = Field(
        None, description="How many there are; null for as many as needed.", json_schema_extra=COUNT
    )
    offcut: Annotated[bool, Field(strict=True)] = Field(False, description="True for stock that is on hand already.")


SawLength = TypeAliasType("SawLength", Annotated[Reading, LengthRule(least=0.1, most=10_000)])
SawKerf = TypeAliasType("SawKerf", Annotated[Reading, LengthRule(least=0.1, most=20)])
Tilt = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=60)]


class ShopSaw(Closed):
    """A saw of the shop and what it can do; what is left out is taken as usual for its kind."""

    id: Id = Field(description="The caller's name for it.")
    kind: Literal[
        "table saw", "mitre saw", "track saw", "circular saw", "band saw", "jigsaw", "hand saw", "panel saw"
    ] = Field(description="What sort of saw it is; `panel saw` is the seller's.")
    kerf: SawKerf | None = Field(None, description="Width of its cut.")
    trim: Trim | None = TRIM
    rip: SawLength | None = Field(None, description="Widest strip between blade and fence.")
    crosscut: SawLength | None = Field(None, description="Widest board it cuts square across.")
    crosscut_45: SawLength | None = Field(None, description="Widest board it cuts across at 45 degrees.")
    guide: SawLength | None = Field(None, description="Longest cut along its guide.")
    depth: SawLength | None = Field(None, description="Depth of cut with the blade upright.")
    depth_45: SawLength | None = Field(None, description="Depth of cut with the blade at 45 degrees.")
    bevel_limit: Tilt | None = Field(None, description="Farthest the blade tilts.", json_schema_extra=DEG)
    mitre_limit: Tilt | None = Field(None, description="Farthest it cuts across at an angle.", json_schema_extra=DEG)
    tilts: Literal["left", "right"] | None = Field(None, description="The side the blade tilts to.")
    least_piece: SawLength | None = Field(None, description="Shortest piece that can be held safely.")
    least_width: SawLength | None = Field(None, description="Narrowest piece that can be held safely.")
    error: SawKerf | None = Field(None, description="How far a cut may be off in place.")
    diameter: SawLength | None = Field(None, description="Diameter of its round blade, for where stopped cuts end.")
    setting_error: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=5)] | None = Field(
        None, description="How far an angle set on it may be off.", json_schema_extra=DEG
    )
    most_cuts: Annotated[int, Field(strict=True, ge=0, le=1000), Whole] | None = Field(
        None, description="How many cuts it makes; for the seller's saw.", json_schema_extra=COUNT
    )


class Material(Closed):
    """A material that is in no table, described by the caller."""

    id: Id = Field(description="The caller's name for it.")
    density_kg_m3: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=50, le=2000)] = Field(
        description="Density at about 12 % moisture content.", json_schema_extra=unit("kg/m3")
    )
    grain: Annotated[bool, Field(strict=True)] = Field(True, description="Whether the direction matters when cutting.")
    kind: Literal["panel", "softwood", "hardwood"] = Field("panel", description="What sort of material it is.")
    specific_gravity: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0.2, le=1.2)] | None = Field(
        None, description="On oven-dry volume; fasteners are checked with it.", json_schema_extra=RATIO
    )


MATERIALS = Field(None, description="Materials that are in no table.", max_length=50)


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
    at_mm: list[float] | None = Field(description="Place in the piece: x, y, z.", json_schema_extra=MM)
    value: float | None = Field(description="What was found, in `unit`.", json_schema_extra=LINE_UNIT)
    limit: float | None = Field(description="What it is held against, in `unit`.", json_schema_extra=LINE_UNIT)
    unit: str | None = Field(description="Unit of `value` and `limit`.")
    source: str | None = Field(description="Where the limit is from, or `practice`.")
    remedy: str | None = Field(description="What to do about it.")


FINDINGS = Field(description="What was noticed, errors first.")
