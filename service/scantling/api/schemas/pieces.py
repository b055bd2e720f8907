"""The answer about one piece of furniture: its cut list, what holds it together, and the piece in space."""

from typing import Any

from pydantic import Field

from .assemblies import Assembly, Fastener, Joint
from .common import FINDINGS, Finding
from .fit_motions import FitSwept
from .marks import COUNT, DEG, KG, LINE_UNIT, MM, RATIO
from .scalars import Open


class Overall(Open):
    """Overall sizes of a piece."""

    width_mm: float = Field(description="Width.", json_schema_extra=MM)
    depth_mm: float = Field(description="Depth, front to back.", json_schema_extra=MM)
    height_mm: float = Field(description="Height.", json_schema_extra=MM)
    width_text: str = Field(description="Width as read on the tape.")
    depth_text: str = Field(description="Depth as read on the tape.")
    height_text: str = Field(description="Height as read on the tape.")


class SawSetting(Open):
    """One end or edge that is cut at an angle."""

    side: str = Field(description="Which end or edge.")
    mitre_deg: float = Field(description="Mitre from a square crosscut.", json_schema_extra=DEG)
    bevel_deg: float = Field(description="Bevel from an upright blade.", json_schema_extra=DEG)
    text: str = Field(description="The setting for people, with its rise over run.")


class CutListRow(Open):
    """Alike parts: cut from one setting."""

    id: str = Field(description="Id of the first of them.")
    ids: list[str] = Field(description="Ids of all of them.")
    name: str = Field(description="What it is called.")
    quantity: int = Field(description="How many there are.", json_schema_extra=COUNT)
    role: str = Field(description="The module's word for what it is made of.")
    material: str = Field(description="Id of the material.")
    thickness_mm: float = Field(description="Thickness.", json_schema_extra=MM)
    length_mm: float = Field(description="Length of the blank, to the long points.", json_schema_extra=MM)
    width_mm: float = Field(description="Width of the blank.", json_schema_extra=MM)
    length_text: str = Field(description="Length as read on the tape, with the rounding error.")
    width_text: str = Field(description="Width as read on the tape, with the rounding error.")
    rounding_length_mm: float = Field(
        description="What rounding the length to the tape adds or takes.", json_schema_extra=MM
    )
    rounding_width_mm: float = Field(
        description="What rounding the width to the tape adds or takes.", json_schema_extra=MM
    )
    long_point_mm: float = Field(description="Length at the long point.", json_schema_extra=MM)
    short_point_mm: float = Field(description="Length at the short point.", json_schema_extra=MM)
    saw_settings: list[SawSetting] = Field(description="Ends and edges cut at an angle.")
    operations: list[str] = Field(description="What else is cut or bored, in words.")
    grain: str = Field(description="Where the grain runs relative to the length.")
    shows: str = Field(description="Which face shows.")
    hand: str = Field(description="`left` or `right` for handed parts, else empty.")
    twin: str | None = Field(description="Id of the part of the other hand.")
    closing: bool = Field(description="True when it is cut to fit the work.")
    waits_for: str | None = Field(description="What must be measured before it is cut.")
    seal: list[str] = Field(description="Ends and edges to seal.")


class Chain(Open):
    """A dimension chain as read on the tape: its links add up, because one of them closes it."""

    name: str = Field(description="What it measures.")
    total_mm: float = Field(description="Its sum.", json_schema_extra=MM)
    total_text: str = Field(description="Its sum as read on the tape.")
    closing: Any = Field(description="Which link takes up the rounding.")
    axis: list[float] | None = Field(
        description="Unit direction it runs along; null where its links do not tell its place.", json_schema_extra=RATIO
    )
    from_mm: float | None = Field(description="Where it begins along that direction.", json_schema_extra=MM)
    to_mm: float | None = Field(description="Where it ends.", json_schema_extra=MM)
    ruled_by: str | None = Field(description="The chain over the same span that rules it; it is derived from that one.")
    takes_up_mm: float = Field(
        description="How much longer its closing link is fitted than derived: the rounding of the others.",
        json_schema_extra=MM,
    )
    lines: list[str] = Field(description="Its links in words.")


class CheckRow(Open):
    """One thing that was checked, whether it held or not: a demand against a capacity on one basis."""

    check: str = Field(description="What was checked, such as `bending`, `glue line`, `screws`, `stands`, `shelf sag`.")
    subject: str = Field(description="What it was checked on: parts of one name, a joint, a direction.")
    parts: list[str] = Field(description="Ids of the parts.")
    demand: float | None = Field(description="What is asked, in `unit`.", json_schema_extra=LINE_UNIT)
    capacity: float | None = Field(description="What may be asked, in `unit`.", json_schema_extra=LINE_UNIT)
    unit: str = Field(description="Unit of demand and capacity.")
    ratio: float | None = Field(
        description="Demand over capacity; null where it was not judged (`note` says why).", json_schema_extra=RATIO
    )
    load: str = Field(description="The load it stands under.")
    duration: str = Field(description="How long that load stands.")
    basis: str = Field(
        description="What it is compared with: a `design` value, an `ultimate` one (tests), `statics`, `stiffness`,"
        " `movement`, `people` or `practice`."
    )
    code: str = Field(description="The standard or table the figures come from, with the load duration factor.")
    governing: str = Field(description="What governs.")
    bound: bool = Field(description="True where the demand is the worst of several paths and not a share by statics.")
    status: str = Field(description="How well the least known figure is known: `read`, `derived` or `memory`.")
    note: str = Field(description="What else is to be known.")


class PartsAnswer(Open):
    """A piece of furniture: its parts, how they go together, and what was noticed."""

    module: str = Field(description="Id of the module.")
    summary: list[str] = Field(description="At most seven lines for people.", max_length=7)
    overall: Overall = Field(description="Overall sizes.")
    parts: list[CutListRow] = Field(description="The cut list: alike parts in one row.")
    chains: list[Chain] = Field(description="The dimension chains.")
    joints: list[Joint] = Field(description="Where parts meet and how.")
    fasteners: list[Fastener] = Field(description="What is driven or bored in.")
    steps: list[dict[str, Any]] = Field(description="The order of work.")
    work: list[dict[str, Any]] = Field(
        default_factory=list, description="The order of work again, with how the piece lies and is held at each step."
    )
    glue_ups: list[dict[str, Any]] = Field(
        default_factory=list, description="Glue-ups within open time; empty without the glue of a project."
    )
    motions: list[FitSwept] = Field(
        default_factory=list, description="What lids, doors and drawers meet on their way from shut to open."
    )
    findings: list[Finding] = FINDINGS
    checks: list[CheckRow] = Field(
        default_factory=list, description="What was checked for strength, standing, people and weather, worst first."
    )
    cautions: list[str] = Field(description="What to be careful of.")
    mass_kg: float = Field(description="Mass without cushions.", json_schema_extra=KG)
    centre_mm: list[float] = Field(description="Centre of gravity: x, y, z.", json_schema_extra=MM)
    parameters: dict[str, Any] = Field(description="The parameters it was built with, lengths in mm.")
    assembly: Assembly = Field(description="The piece in space; what POST /v1/dry-fits will read.")
