"""What a dry fit is told beside the piece: limits, drivers, loads, clamps, glue, and what moves in use."""

from pydantic import Field

from .common import TapeStep
from .fit_numbers import (
    Behind,
    BehindEnd,
    ClampMinutes,
    Clamps,
    CushionDensity,
    EdgeDiameters,
    Fit,
    Hands,
    LoadMass,
    OpenLimit,
    OpenMinutes,
    PersonMass,
    Point,
    PointClear,
    Radius,
    ScrewGap,
    Size,
    TipAngle,
)
from .marks import COUNT, DEG, KG, MIN, MM, RATIO, unit
from .scalars import Closed, Id, Name


class FitBarrel(Closed):
    """One round section of a driver, on the axis of the screw."""

    start_mm: Behind = Field(description="Where it begins, behind the screw's head.", json_schema_extra=MM)
    end_mm: BehindEnd = Field(description="Where it ends.", json_schema_extra=MM)
    radius_mm: Radius = Field(description="Half its thickness.", json_schema_extra=MM)


class FitTool(Closed):
    """A driver, as measured with a caliper."""

    id: Id = Field(description="The caller's name for it.")
    title: Name = Field(description="What it is called in messages.", examples=["driver with a 50 mm bit"])
    barrels: list[FitBarrel] = Field(
        description="Its round sections, from the head backwards.", min_length=1, max_length=8
    )


class FitSetLoad(Closed):
    """A person or a thing on the piece."""

    id: Id = Field(description="The caller's name for it.")
    mass_kg: LoadMass = Field(description="Its mass.", json_schema_extra=KG)
    at_mm: Point = Field(description="Where its weight acts: x, y, z.", json_schema_extra=MM)


class FitSettings(Closed):
    """How strictly it is checked, and with what it is built."""

    open_limit_mm: OpenLimit | None = Field(None, description="Widest open joint that passes.", json_schema_extra=MM)
    point_clear_mm: PointClear | None = Field(
        None, description="Wood to be left beyond a screw's point.", json_schema_extra=MM
    )
    person_kg: PersonMass | None = Field(None, description="Mass of who sits on it.", json_schema_extra=KG)
    cushion_kg_m3: CushionDensity | None = Field(
        None,
        description="What the cushions are of; without it their weight is shown and not judged.",
        json_schema_extra=unit("kg/m3"),
    )
    tip_least_deg: TipAngle | None = Field(None, description="Least tip angle that passes.", json_schema_extra=DEG)
    hands: Hands | None = Field(None, description="How many people build it.", json_schema_extra=COUNT)
    tape: TapeStep | None = Field(
        None, description="The step parts are cut to: gaps that come from cutting to its marks are found."
    )
    fit_mm: Fit | None = Field(
        None,
        description="Parts that share more than this do not fit, a gap within it is touching; 0.05 where it is left "
        "out, a computing tolerance.",
        json_schema_extra=MM,
    )
    near_mm: OpenLimit | None = Field(
        None, description="A gap up to this that nobody declared is reported.", json_schema_extra=MM
    )
    edge_diameters: EdgeDiameters | None = Field(
        None,
        description="Least distance of a screw's axis from an edge, in diameters of the screw.",
        json_schema_extra=RATIO,
    )
    screw_gap_mm: ScrewGap | None = Field(None, description="Wood wanted between two screws.", json_schema_extra=MM)
    tools: list[FitTool] | None = Field(
        None,
        description="The drivers there are, tried in order; usual ones where they are left out.",
        min_length=1,
        max_length=10,
    )
    loads: list[FitSetLoad] | None = Field(
        None,
        description="Who or what weighs on the piece, and where; a person on every seat cushion where it is left out, "
        "nobody for an empty list.",
        max_length=50,
    )


DRY_FIT = Field(
    None,
    description="How strictly it is put together and with which drivers; the tape and the hands of the request stand "
    "where they are left out. `open_limit_mm` is what rounding to the tape may open at a glued or visible joint.",
    examples=[{"open_limit_mm": 0.4}],
)


class FitClamp(Closed):
    """Clamps of one kind."""

    id: Id = Field(description="The caller's name for them.")
    reach_mm: Size = Field(description="Widest opening.", json_schema_extra=MM)
    throat_mm: Size = Field(description="Depth of the throat.", json_schema_extra=MM)
    count: Clamps = Field(description="How many there are.", json_schema_extra=COUNT)


class FitGlue(Closed):
    """The glue, by its label."""

    id: Id = Field(description="The caller's name for it.")
    open_minutes: OpenMinutes = Field(description="From spreading to closing.", json_schema_extra=MIN)
    clamp_minutes: ClampMinutes = Field(description="Under the clamps.", json_schema_extra=MIN)
