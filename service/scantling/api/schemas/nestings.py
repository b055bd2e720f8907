"""Request and answer of POST /v1/nestings."""

from typing import Annotated, Any, Literal

from pydantic import Field
from typing_extensions import TypeAliasType

from .common import (
    CURRENCY,
    EFFORT,
    FINDINGS,
    MATERIAL,
    SEED,
    TRIM,
    Effort,
    Finding,
    Kerf,
    PartGrain,
    Seed,
    ShopSaw,
    Trim,
)
from .lengths import THICKNESS_HELP, AnyThickness, Broken, Checked, Length, LengthRule, Measured, Reading, repeated
from .lists import SomeStock, repeated_stock
from .marks import COUNT, CURRENCY_UNIT, DEG, KG, MM, RATIO, unit
from .nesting_wishes import MOST_LAYOUTS, CarryKg, NestingObjective, PinnedLayout, Stack
from .papers import Papers
from .scalars import Closed, Currency, Id, Open, Whole

MOST_KINDS = 500
MOST_PIECES = 20_000
Slope = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-60, le=60)]
Allowance = TypeAliasType("Allowance", Annotated[Reading, LengthRule(least=0, most=50)])


class NestingPart(Closed):
    """A kind of part to be cut."""

    id: Id = Field(description="The caller's name for it.")
    length: Length = Field(description="Length of the piece.")
    width: Length | None = Field(None, description="Width of the piece; without it the part is cut from boards.")
    thickness: AnyThickness | None = Field(None, description=THICKNESS_HELP)
    quantity: Annotated[int, Field(strict=True, ge=1, le=MOST_PIECES), Whole] = Field(
        1, description="How many are needed.", json_schema_extra=COUNT
    )
    grain: PartGrain = Field("along", description="Where the part's grain runs, relative to its length.")
    material: Id | None = MATERIAL
    oversize: Allowance | None = Field(None, description="Added to length and width when cutting, for jointing.")
    group: Id | None = Field(None, description="Parts of one group come from one sheet or board.")
    stock: Id | None = Field(None, description="Id of the stock it must come from.")
    start_slope: Slope = Field(
        0.0,
        description="How far its start is off square on the wide face of a board, seen with the length to the right; "
        "above 0 leans to the end with the width. Like slopes at both ends make a parallelogram. A part with a "
        "`width` of its own is cut from a square blank.",
        json_schema_extra=DEG,
    )
    end_slope: Slope = Field(0.0, description="The same of its end.", json_schema_extra=DEG)
    start_bevel: Slope = Field(
        0.0, description="How far its start is off square through the thickness.", json_schema_extra=DEG
    )
    end_bevel: Slope = Field(0.0, description="The same of its end.", json_schema_extra=DEG)
    near_bevel: Slope = Field(
        0.0,
        description="How far its near edge is off square through the thickness; of parts from sheets.",
        json_schema_extra=DEG,
    )
    far_bevel: Slope = Field(0.0, description="The same of its far edge.", json_schema_extra=DEG)
    one_face: Annotated[bool, Field(strict=True)] = Field(
        False, description="True where only one face may show, so that it is not cut lying on it."
    )


class NestingSaw(Closed):
    """How the shop cuts."""

    kerf: Kerf = Field(description="Width of the blade's cut.")
    trim: Trim | None = TRIM
    stages: Annotated[int, Field(strict=True, ge=1, le=20), Whole] | None = Field(
        None, description="How often a piece may be turned between cuts; null for any.", json_schema_extra=COUNT
    )
    first_cut: Literal["along", "across", "either"] = Field(
        "either", description="Which way the first cuts of a sheet run, relative to its length."
    )
    cutting_error: Allowance | None = Field(None, description="How far a cut may be off; 0.5 mm where it is left out.")


class NestingRequest(Checked, Measured):
    """Parts to be cut from stock."""

    currency: Currency = CURRENCY
    parts: list[NestingPart] = Field(description="The parts.", min_length=1, max_length=MOST_KINDS)
    stock: SomeStock = Field(description="What they may be cut from, or `{list, also}` to name a shop's stock list.")
    saw: NestingSaw | None = Field(None, description="The saw; without it a kerf of 3.2 mm and no trim.")
    saws: list[ShopSaw] | None = Field(
        None, description="The saws there are; with them every cut names its saw and setting.", max_length=20
    )
    hands: Annotated[int, Field(strict=True, ge=1, le=8), Whole] = Field(
        1, description="How many people cut together.", json_schema_extra=COUNT
    )
    carry_kg: CarryKg = Field(
        23.0,
        description="What one person lifts; heavier pieces are cut on the floor or by two. 23 kg at best is the load "
        "constant of the NIOSH lifting equation.",
        json_schema_extra=KG,
    )
    layouts: list[PinnedLayout] | None = Field(
        None,
        description="Layouts that are kept as they are, such as sheets already cut; the rest is nested round them.",
        max_length=MOST_LAYOUTS,
    )
    objective: NestingObjective | None = Field(None, description="What a plan is chosen by.")
    stack: Stack | None = Field(None, description="Cut alike sheets in stacks; without it each by itself.")
    effort: Effort = EFFORT
    seed: Seed = SEED
    papers: Papers | None = Field(None, description="How drawings and papers are made.")

    def faults(self) -> list[Broken]:
        """Return what is wrong between members."""
        broken = repeated(self.parts, "parts") + repeated_stock(self.stock) + repeated(self.saws or [], "saws")
        pieces = sum(part.quantity for part in self.parts)
        if pieces > MOST_PIECES:
            broken.append((["parts"], f"{pieces} pieces in all; accepted: at most {MOST_PIECES}", "too-much-work"))
        return broken


class Placement(Open):
    """One piece on a sheet or board."""

    part: str = Field(description="Id of the part.")
    x_mm: float = Field(
        description="Along the stock's length, from the corner of the untrimmed sheet.",
        json_schema_extra=MM,
    )
    y_mm: float = Field(description="Along the stock's width; 0 on boards.", json_schema_extra=MM)
    length_mm: float = Field(description="The part's own length.", json_schema_extra=MM)
    width_mm: float | None = Field(None, description="The part's own width; absent on boards.", json_schema_extra=MM)
    turned: bool | None = Field(None, description="True where the part's length lies along y; absent on boards.")
    start_slope: float | None = Field(
        None,
        description="Slope of its end nearer the board's start as it lies; absent where both are square.",
        json_schema_extra=DEG,
    )
    end_slope: float | None = Field(None, description="The same of its other end.", json_schema_extra=DEG)
    start_bevel: float | None = Field(
        None, description="The blade's tilt at its end nearer the board's start.", json_schema_extra=DEG
    )
    end_bevel: float | None = Field(None, description="The same of its other end.", json_schema_extra=DEG)
    end_for_end: bool | None = Field(
        None, description="True where it lies turned half round on its face, its own end nearer the board's start."
    )
    face_down: bool | None = Field(None, description="True where its show side lies down.")
    near_mm: list[float] | None = Field(
        None, description="Where its ends cross the near edge of the board's upper face.", json_schema_extra=MM
    )
    far_mm: list[float] | None = Field(None, description="The same on the far edge.", json_schema_extra=MM)


class Layout(Open):
    """How one sheet or board is cut, and how many are cut alike."""

    stock: str = Field(description="Id of the stock.")
    count: int = Field(description="How many are cut so.", json_schema_extra=COUNT)
    placements: list[Placement] = Field(description="The pieces.")
    cuts: list[dict[str, Any]] = Field(description="The cuts in an order that a saw can follow.")
    offcuts: list[dict[str, Any]] = Field(description="What is left and worth keeping.")
    length_mm: float = Field(description="Length of the stock.", json_schema_extra=MM)
    width_mm: float | None = Field(description="Width of the stock; null of a board.", json_schema_extra=MM)
    face_up: str | None = Field(None, description="Which face lies up for the saw.")
    mirrored: bool = Field(
        False, description="True where the sheet is turned over, so that y is seen from the far edge."
    )
    saw: str | None = Field(None, description="Id of the saw that decides how the sheet lies.")
    tilts: str | None = Field(None, description="The side its blade tilts to.")
    stack: int = Field(1, description="How many are cut on top of each other.", json_schema_extra=COUNT)
    runs: int | None = Field(None, description="How often its cuts are made for all of them.", json_schema_extra=COUNT)
    against: list[int] = Field(
        default_factory=list,
        description="Numbers of the cuts whose saws would have it the other way: score or tape those lines first.",
        json_schema_extra=unit("cut number"),
    )


class CutAt(Open):
    """One cut of one layout."""

    layout: int = Field(description="Number of the layout, from 1.", json_schema_extra=unit("layout number"))
    cut: int = Field(description="Number of the cut in it.", json_schema_extra=unit("cut number"))


class SawSetup(Open):
    """One setting of one saw and all cuts made with it before it is touched again."""

    saw: str | None = Field(description="Id of the saw; null where no saws were given.")
    method: str = Field(description="How the saw is set: `fence`, `stop`, `guide` or `line`.")
    kind: str = Field(description="`rip` or `crosscut`.")
    setting_mm: float = Field(description="What it is set to.", json_schema_extra=MM)
    mitre_deg: float = Field(0.0, description="How far it cuts off square across the face.", json_schema_extra=DEG)
    bevel_deg: float = Field(0.0, description="How far its blade is tilted.", json_schema_extra=DEG)
    cuts: list[CutAt] = Field(description="The cuts, in the order they are made.")


class Unplaced(Open):
    """A part that could not be placed."""

    part: str = Field(description="Id of the part.")
    quantity: int = Field(description="How many of it are missing.", json_schema_extra=COUNT)
    reason: str = Field(description="Why.")
    nearest_stock: str | None = Field(None, description="Id of the stock that comes nearest.")
    excess_mm: list[float] | None = Field(
        None,
        description="By how much the part exceeds it, along its length and width.",
        json_schema_extra=MM,
    )


class Remainder(Open):
    """The largest rectangle left that is worth keeping."""

    length_mm: float = Field(description="Along the stock's length.", json_schema_extra=MM)
    width_mm: float | None = Field(description="Along its width; null of a board.", json_schema_extra=MM)


class NestingPlan(Open):
    """One way to cut it all, measured from its cuts."""

    name: str = Field(description="`cheapest` or `easier to cut`; one plan can be both.")
    chosen: bool = Field(description="True of the plan whose layouts are the answer's.")
    summary: str = Field(description="What it costs and takes, in a sentence.")
    cost: str | None = Field(description="Price of its stock; null where a price is missing.")
    settings: int = Field(description="How often a saw is set.", json_schema_extra=COUNT)
    cuts: int = Field(description="How many cuts it takes.", json_schema_extra=COUNT)
    distinct_layouts: int = Field(description="How many different layouts it has.", json_schema_extra=COUNT)
    remainder: Remainder | None = Field(description="The largest remainder worth keeping; null where there is none.")
    layouts: list[dict[str, Any]] | None = Field(
        None, description="Where its pieces lie, to pin them; absent of the plan that is chosen."
    )


class NestingAnswer(Open):
    """How the parts are cut, what it costs, and the least it could cost."""

    layouts: list[Layout] = Field(description="The layouts.")
    unplaced: list[Unplaced] = Field(description="What could not be placed; empty when everything is.")
    cost: str | None = Field(
        description="Price of the stock used; null where a price is missing.", json_schema_extra=CURRENCY_UNIT
    )
    bound: str | None = Field(description="No cutting can cost less.", json_schema_extra=CURRENCY_UNIT)
    two_stage_bound: str | None = Field(
        description=(
            "No plan cut in two stages (strips, then pieces across them, each trimmed where narrower) can cost less; a "
            "plan with more stages may. Null where it was not worked out: a price is missing, the answer is proved "
            "without it or leaves parts out, or the job is too large for its effort."
        ),
        json_schema_extra=CURRENCY_UNIT,
    )
    currency: str = Field(description="Currency of the amounts.")
    proven_minimal: bool = Field(description="True when nothing can be cheaper.")
    offcuts: list[dict[str, Any]] = Field(description="Everything left that is worth keeping.")
    cuts: int = Field(description="How many cuts it takes.", json_schema_extra=COUNT)
    settings: list[SawSetup] = Field(description="The cuts gathered by saw and setting, in the order of work.")
    gap: float = Field(
        description="How far the answer may be from the least, as a part of it.", json_schema_extra=RATIO
    )
    plans: list[NestingPlan] = Field(
        default_factory=list, description="The plan that was chosen and those it was chosen from, by their names."
    )
    seed: int = Field(description="Seed of the search.", json_schema_extra=RATIO)
    work: int = Field(description="Work done.", json_schema_extra=unit("work units"))
    stopped_by: str = Field(description="Why the search ended: `proof`, `effort` or `time`.")
    findings: list[Finding] = FINDINGS
