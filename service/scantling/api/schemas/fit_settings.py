"""What a dry fit is told beside the piece: limits, drivers, loads, clamps, glue, and what moves in use."""

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from .common import TapeStep
from .fit_numbers import (
    MOST_PARTS,
    Behind,
    BehindEnd,
    ClampMinutes,
    Clamps,
    Direction,
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
    Signed,
    Size,
    TipAngle,
    Travel,
)
from .marks import COUNT, DEG, KG, MIN, MM, RATIO, unit
from .scalars import TEXT_PATTERN, Closed, Id, Name, Open


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


class FitWall(Closed):
    """A plane that nothing may pass: a wall, a floor, a neighbouring piece."""

    normal: Direction = Field(description="Unit direction into the room.", json_schema_extra=RATIO)
    offset_mm: Signed = Field(description="How far it is from the origin along its normal.", json_schema_extra=MM)


class FitMotion(Closed):
    """Something that moves when the piece is used: a lid or a door that swings, a drawer that slides."""

    id: Id = Field(description="The caller's name for it.")
    kind: Literal["swing", "slide"] = Field(description="How it moves.")
    parts: Annotated[list[Id], Field(min_length=1, max_length=MOST_PARTS)] = Field(
        description="Ids of the parts that move together."
    )
    axis: Direction = Field(
        description="Unit direction of the hinge line (the swing is right-handed about it) or of the slide.",
        json_schema_extra=RATIO,
    )
    travel: Travel = Field(
        description="How far it goes from shut to open: degrees of a swing, millimetres of a slide; not 0.",
        json_schema_extra=unit("deg or mm"),
    )
    point_mm: Point | None = Field(
        None, description="A point of the hinge line of a swing; the origin where it is left out.", json_schema_extra=MM
    )
    walls: list[FitWall] | None = Field(None, description="What it must not run into.", max_length=10)
    held_by: Annotated[str, StringConstraints(strict=True, max_length=200, pattern=TEXT_PATTERN)] | None = Field(
        None, description="What keeps it open, such as `a lid stay`."
    )


class FitSettings(Closed):
    """How strictly it is checked, and with what it is built."""

    open_limit_mm: OpenLimit | None = Field(None, description="Widest open joint that passes.", json_schema_extra=MM)
    point_clear_mm: PointClear | None = Field(
        None, description="Wood to be left beyond a screw's point.", json_schema_extra=MM
    )
    person_kg: PersonMass | None = Field(None, description="Mass of who sits on it.", json_schema_extra=KG)
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


class FitSwept(Open):
    """What a motion meets on its way from shut to open."""

    motion: str = Field(description="The caller's name for the motion.")
    free: float = Field(
        description="How far it goes before it meets something: degrees or millimetres.",
        json_schema_extra=unit("deg or mm"),
    )
    clashes_with: list[str] = Field(description="What it meets: ids of parts, or `wall`; empty where it opens freely.")
    depth_mm: float = Field(description="How deep it would go in.", json_schema_extra=MM)
    at_mm: list[float] | None = Field(description="Where it meets it: x, y, z.", json_schema_extra=MM)
    least_gap_mm: float | None = Field(
        description="Least gap to anything on its way; null where it meets something at once or nothing is there.",
        json_schema_extra=MM,
    )
    step_mm: float = Field(
        description="How far its outermost corner moves between two places that were looked at.", json_schema_extra=MM
    )
