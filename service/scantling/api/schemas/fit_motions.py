"""What moves in use, as it is told and as it was swept: lids and doors that swing, drawers that slide."""

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from .fit_numbers import MOST_PARTS, Direction, Point, Signed, Travel
from .marks import DEG, KG, MM, RATIO, unit
from .scalars import TEXT_PATTERN, Closed, Id, Name, Open


class FitWall(Closed):
    """A plane that nothing may pass: a wall, a floor, a neighbouring piece."""

    normal: Direction = Field(description="Unit direction into the room.", json_schema_extra=RATIO)
    offset_mm: Signed = Field(description="How far it is from the origin along its normal.", json_schema_extra=MM)


class FitMoves(Closed):
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
    held_by: Annotated[str, StringConstraints(strict=True, max_length=200, pattern=TEXT_PATTERN)] | None = Field(
        None, description="What keeps it open, such as `a lid stay`."
    )
    cushions: Annotated[list[Name], Field(max_length=100)] | None = Field(
        None, description="Ids of the cushions that are fixed to it and move with it."
    )


class FitMotion(FitMoves):
    """The same with walls, as a request names them beside the assembly."""

    walls: list[FitWall] | None = Field(None, description="What it must not run into.", max_length=10)


class FitFingerGap(Open):
    """A gap that takes a finger and may not let it go."""

    part: str = Field(description="Id of the part that moves.")
    beside: str = Field(description="What it passes.")
    gap_mm: float = Field(description="How far apart they are at the nearest.", json_schema_extra=MM)
    at: float = Field(description="Where on the way that is.", json_schema_extra=unit("deg or mm"))


class FitWeight(Open):
    """How what swings about a level hinge line weighs on it."""

    mass_kg: float = Field(description="Mass of all that moves, cushions left out.", json_schema_extra=KG)
    hold_nm: float = Field(
        description="Greatest torque towards shut on the way: what its stays must hold together.",
        json_schema_extra=unit("N m"),
    )
    open_nm: float = Field(
        description="Torque when open; above 0 where its weight pulls it further open.", json_schema_extra=unit("N m")
    )
    past_upright_deg: float = Field(description="How far past upright it stands.", json_schema_extra=DEG)


class FitSwept(Open):
    """What a motion meets on its way from shut to open."""

    motion: str = Field(description="Id of the motion.")
    kind: Literal["swing", "slide"] = Field(description="How it moves.")
    parts: list[str] = Field(description="Ids of all parts that move: those named and what is fixed to them.")
    travel: float = Field(description="How far it was asked to go.", json_schema_extra=unit("deg or mm"))
    free: float = Field(
        description="How far it goes before it meets something: degrees or millimetres.",
        json_schema_extra=unit("deg or mm"),
    )
    clashes_with: list[str] = Field(description="What it meets: ids of parts, or `wall`; empty where it opens freely.")
    depth_mm: float = Field(description="About how deep it would go in.", json_schema_extra=MM)
    at_mm: list[float] | None = Field(description="Where it meets it: x, y, z.", json_schema_extra=MM)
    least_gap_mm: float | None = Field(
        description="Least gap to anything on its way; null where it meets something, or all is over 12 mm off.",
        json_schema_extra=MM,
    )
    finger_gaps: list[FitFingerGap] = Field(description="Gaps on its way that take a finger and may hold it.")
    low_mm: list[float] = Field(description="Least corner of the room it takes on its way.", json_schema_extra=MM)
    high_mm: list[float] = Field(description="Greatest corner of that room.", json_schema_extra=MM)
    held_by: str = Field(description="What holds it open, as told.")
    leans_on: str = Field(description="What it leans on when it stands open past upright and nothing holds it.")
    weight: FitWeight | None = Field(description="Its weight on a level hinge line; null for doors and slides.")
    tolerance_mm: float = Field(
        description="A clash deeper than the fit and this is found for certain; 0 where the way is computed exactly.",
        json_schema_extra=MM,
    )
