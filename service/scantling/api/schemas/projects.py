"""Request and answer of POST /v1/projects."""

from typing import Annotated, Literal

from pydantic import Field

from .common import (
    CURRENCY,
    EFFORT,
    FINDINGS,
    MATERIALS,
    SEED,
    TAPE,
    Effort,
    Finding,
    Material,
    Seed,
    ShopSaw,
    TapeStep,
)
from .costings import LABOUR, MARK_UPS, PRICES, TAX, WASTES, AnyPrices, CostingAnswer, Labour, MarkUp, Tax, Waste
from .fasteners import Gauge
from .fit_settings import DRY_FIT, FitSetLoad, FitSettings
from .lengths import Broken, Checked, Length, Measured, repeated
from .lists import AnyStock, FinishSchedule, repeated_stock
from .marks import COUNT, KG, MIN, MM, PERCENT, unit
from .modules import PARAMETERS, ROLES, Roles
from .nesting_wishes import MOST_LAYOUTS, CarryKg, NestingObjective, PinnedLayout, Stack
from .nestings import NestingAnswer
from .papers import Papers
from .people import Person
from .pieces import CutListRow, PartsAnswer
from .place import Place
from .placed import PlaceAnswer
from .scalars import Closed, Currency, Id, Money, Name, Open, OpenObject, Slug, Whole

MOST_MODULES = 40
GlueKind = Literal["PVA", "cross-linking PVA", "polyurethane", "epoxy", "resorcinol"]
FinishKind = Literal["semitransparent stain", "paint", "water repellent preservative", "varnish or polyurethane", "oil"]
Minutes = Annotated[float, Field(strict=True, allow_inf_nan=False, gt=0, le=10_000)]
Moisture = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=4, le=60)]
Degrees = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=90)]
Few = Annotated[int, Field(strict=True, ge=1, le=1000), Whole]


class ProjectModule(Closed):
    """One kind of furniture of the set, made once or several times."""

    id: Id = Field(description="The caller's name for it.")
    module: Slug = Field(description="Id of the module, of GET /v1/modules.")
    quantity: Annotated[int, Field(strict=True, ge=1, le=100), Whole] = Field(
        1, description="How many are made.", json_schema_extra=COUNT
    )
    parameters: OpenObject | None = PARAMETERS
    materials: Roles | None = ROLES
    sits: Literal["dining", "sofa", "lounge", "easy to rise from"] | None = Field(
        None, description="How one sits on it; a cushioned seat is a lounge and a bare one a dining seat without it."
    )
    loads: list[FitSetLoad] | None = Field(
        None,
        description="Who or what weighs on this piece and where, in mm from its own left front corner on the floor: "
        "whether it tips; a person on every seat cushion where it is left out.",
        max_length=50,
    )


class Tool(Closed):
    """Another tool of the shop."""

    id: Id = Field(description="The caller's name for it.")
    kind: Slug = Field(description="What it is, such as `drill`, `router` or `impact-driver`.")


class Clamp(Closed):
    """Clamps of one kind."""

    id: Id = Field(description="The caller's name for them.")
    kind: Literal["bar", "pipe", "parallel", "screw", "spring", "band"] = Field(description="What sort they are.")
    reach: Length = Field(description="Widest opening.")
    throat: Length | None = Field(None, description="Depth of the throat.")
    count: Few = Field(1, description="How many there are.", json_schema_extra=COUNT)


class Glue(Closed):
    """The glue, by its label."""

    kind: GlueKind = Field(description="What it is.")
    open_min: Minutes | None = Field(None, description="From spreading to closing the joint.", json_schema_extra=MIN)
    clamp_min: Minutes | None = Field(None, description="Under the clamps.", json_schema_extra=MIN)


class Finish(Checked):
    """What the surface is coated with: a kind of finish, or a finish system of a plugin."""

    kind: FinishKind | None = Field(None, description="What it is; either this or `system`.")
    system: Slug | None = Field(
        None, description="Id of a finish system, of GET /v1/finish-systems.", examples=["soft-oil"]
    )
    coats: Annotated[int, Field(strict=True, ge=1, le=10), Whole] | None = Field(
        None,
        description="How many coats; the usual number where it is left out.",
        json_schema_extra=COUNT,
    )

    def faults(self) -> list[Broken]:
        """Return what is wrong between members."""
        if (self.kind is None) is not (self.system is None):
            return []
        return [([], "a finish is of one kind, or of one system: give either kind or system", "id-or-kind")]


class ScrewBox(Closed):
    """Screws that can be bought, by the box."""

    id: Id = Field(description="The caller's name for them.")
    kind: Literal["wood screw"] = Field("wood screw", description="What they are.")
    gauge: Gauge = Field(description="Gauge number.", json_schema_extra=unit("gauge number"))
    length: Length = Field(description="Length.")
    box: Annotated[int, Field(strict=True, ge=1, le=100_000), Whole] = Field(
        100, description="How many are in a box.", json_schema_extra=COUNT
    )
    price: Money | None = Field(None, description="Price of a box.")


class ProjectRequest(Checked, Measured):
    """A set of furniture and what is known of the shop, the place and the prices. Only `modules` is required."""

    name: Name | None = Field(None, description="What the set is called.")
    tape: TapeStep = TAPE
    currency: Currency = CURRENCY
    modules: list[ProjectModule] = Field(description="The furniture.", min_length=1, max_length=MOST_MODULES)
    materials: list[Material] | None = MATERIALS
    stock: AnyStock | None = Field(
        None, description="Sheets, boards and offcuts, or `{list, also}` to name a shop's stock list."
    )
    saws: list[ShopSaw] | None = Field(None, description="The saws; kerf and trim come from them.", max_length=20)
    tools: list[Tool] | None = Field(None, description="The other tools.", max_length=100)
    clamps: list[Clamp] | None = Field(None, description="The clamps.", max_length=50)
    glue: Glue | None = Field(None, description="The glue.")
    finish: Finish | None = Field(None, description="The finish; without one none is taken off.")
    hands: Annotated[int, Field(strict=True, ge=1, le=8), Whole] = Field(
        1, description="How many people build it.", json_schema_extra=COUNT
    )
    fasteners: list[ScrewBox] | None = Field(None, description="Fasteners by the box.", max_length=200)
    prices: AnyPrices | None = PRICES
    labour: Labour | None = LABOUR
    tax: Tax | None = TAX
    waste: Waste | None = WASTES
    mark_ups: list[MarkUp] | None = MARK_UPS
    people: list[Person] | None = Field(None, description="Who will use it.", max_length=20)
    place: Place | None = Field(None, description="Where it stands.")
    moisture: Moisture | None = Field(
        None,
        description="Moisture content of the boards when they are cut, where it was measured; wet ones shrink later.",
        json_schema_extra=PERCENT,
    )
    dry_fit: FitSettings | None = DRY_FIT
    carry_kg: CarryKg = Field(
        23.0,
        description="What one person lifts; heavier pieces are cut on the floor or by two. 23 kg at best is the load "
        "constant of the NIOSH lifting equation.",
        json_schema_extra=KG,
    )
    objective: NestingObjective | None = Field(None, description="What the cutting plan is chosen by.")
    layouts: list[PinnedLayout] | None = Field(
        None,
        description="Layouts of `nesting` that are kept as they are; parts go by their ids there.",
        max_length=MOST_LAYOUTS,
    )
    stack: Stack | None = Field(None, description="Cut alike sheets in stacks; without it each by itself.")
    effort: Effort = EFFORT
    seed: Seed = SEED
    papers: Papers | None = Field(None, description="How drawings and papers are made.")

    def faults(self) -> list[Broken]:
        """Return what is wrong between members."""
        lists = ("modules", "materials", "saws", "tools", "clamps", "fasteners", "people")
        others = [fault for name in lists for fault in repeated(getattr(self, name) or [], name)]
        return [*repeated_stock(self.stock), *others]


class PlannedModule(PartsAnswer):
    """One module of the set, worked out."""

    id: str = Field(description="The caller's name for it.")
    quantity: int = Field(description="How many are made.", json_schema_extra=COUNT)


class StopMark(Open):
    """One cut that does not run through the part, and where its blade stops."""

    starts_at: str = Field(description="The end or edge the blade comes in from; `inside` where it does not.")
    line_from: str = Field(description="The end or edge that the line of the cut is measured from.")
    line_at_mm: float = Field(description="How far the line lies from it.", json_schema_extra=MM)
    length_mm: float = Field(description="How far the cut goes.", json_schema_extra=MM)
    saw: str | None = Field(description="Id of the saw; null where nothing is sawn in from an edge.")
    seen_mm: float | None = Field(description="How long the kerf that is seen gets.", json_schema_extra=MM)
    overrun_mm: float | None = Field(
        description="How much farther a round blade cuts in the face against table or base.", json_schema_extra=MM
    )
    text: str = Field(description="What to do.")


class PlannedRow(CutListRow):
    """One row of the cut list of the whole set."""

    module: str = Field(description="The caller's name for the module it belongs to.")
    lot: str = Field(description="What it is cut from: material and thickness.")
    stop_marks: list[StopMark] = Field(default_factory=list, description="Where its stopped cuts end.")


class ProjectAnswer(Open):
    """The whole plan."""

    name: str = Field(description="What the set is called.")
    summary: list[str] = Field(
        description="At most seven lines for people: buildable or not, what to buy, cost, what to fix first.",
        max_length=7,
    )
    tape: str = Field(description="The step lengths are shown in.")
    mass_kg: float = Field(description="Mass of the set without cushions.", json_schema_extra=KG)
    modules: list[PlannedModule] = Field(description="The furniture, piece by piece.")
    cut_list: list[PlannedRow] = Field(description="The cut list of the whole set.")
    nesting: NestingAnswer = Field(description="How it is cut from sheets and boards.")
    costing: CostingAnswer = Field(description="What to buy and what it costs.")
    place: PlaceAnswer | None = Field(description="The set in its place; null where no piece was given one.")
    finishing: FinishSchedule | None = Field(None, description="When the coats go on, where a finish system is named.")
    findings: list[Finding] = FINDINGS
    cautions: list[str] = Field(description="What to be careful of.")
