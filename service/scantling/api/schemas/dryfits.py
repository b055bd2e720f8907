"""Request and answer of POST /v1/dry-fits: an assembly as `…/parts` answers it, whoever wrote it."""

from typing import Annotated, Any, Literal

from pydantic import Field, StringConstraints

from .common import FINDINGS, Finding
from .fit_chains import FitPlacedChain, FitRounding
from .fit_motions import FitMotion, FitMoves, FitSwept
from .fit_numbers import (
    MOST_PARTS,
    Bound,
    Clearance,
    Density,
    Direction,
    Edge,
    FastenerDiameter,
    FastenerLength,
    Flag,
    GaugeOrNone,
    HeadDepth,
    Ids,
    LoadAmount,
    LongName,
    Pieces,
    Point,
    RoleKey,
    Sentence,
    Side,
    Signed,
    Size,
    Tilt,
)
from .fit_settings import FitClamp, FitGlue, FitSettings
from .lengths import Broken, Checked
from .marks import COUNT, DEG, MM, RATIO, unit
from .scalars import TEXT_PATTERN, Closed, Id, Name, Open


class FitMaterial(Closed):
    """What a role is made of."""

    material: Id = Field(description="Id of the material.", examples=["birch-plywood"])
    thickness_mm: Size = Field(description="Thickness.", json_schema_extra=MM)
    least_mm: Size | None = Field(None, description="Least thickness.", json_schema_extra=MM)
    most_mm: Size | None = Field(None, description="Greatest thickness.", json_schema_extra=MM)
    assumed: Flag = Field(False, description="True until it has been measured.")
    density_kg_m3: Density | None = Field(
        None, description="Density; the table's where it is left out.", json_schema_extra=unit("kg/m3")
    )
    stock_kind: Literal["sheet", "board"] = Field("sheet", description="What it is cut from.")
    has_grain: Flag = Field(True, description="Whether the direction matters when cutting.")
    board_width_mm: Size | None = Field(None, description="Width of the board.", json_schema_extra=MM)


class FitFrame(Closed):
    """Where a part stands."""

    origin_mm: Point = Field(description="The start/near/back corner of the blank.", json_schema_extra=MM)
    length: Direction = Field(description="Unit direction of its length.", json_schema_extra=RATIO)
    width: Direction = Field(description="Unit direction of its width.", json_schema_extra=RATIO)


class FitCut(Closed):
    """One cut in the board frame; which members it takes is its kind's affair."""

    kind: Literal["saw", "hole", "easing", "curve", "notch", "groove", "rabbet", "dado", "slot"] = Field(
        description="The shop operation."
    )
    side: Side | None = Field(None, description="The end or edge of a saw cut or curve, the face of a hole.")
    mitre_deg: Tilt | None = Field(None, description="Mitre of a saw cut.", json_schema_extra=DEG)
    bevel_deg: Tilt | None = Field(None, description="Bevel of a saw cut.", json_schema_extra=DEG)
    long_edge: Edge | None = Field(None, description="Edge at which a mitred end is longest.")
    long_face: Literal["back", "face"] | None = Field(None, description="Face at which a bevelled end is longest.")
    at_mm: Bound | None = Field(None, description="Where a saw cut is.", json_schema_extra=MM)
    x_mm: Bound | None = Field(None, description="Middle of a hole along the length.", json_schema_extra=MM)
    y_mm: Bound | None = Field(None, description="Middle of a hole along the width.", json_schema_extra=MM)
    diameter_mm: Size | None = Field(None, description="Diameter of a hole.", json_schema_extra=MM)
    depth_mm: Size | None = Field(None, description="Depth of a hole; through where absent.", json_schema_extra=MM)
    purpose: LongName | None = Field(None, description="What a hole is for.")
    edge: LongName | None = Field(None, description="Edge that is eased.")
    size_mm: Size | None = Field(None, description="Radius or width of an easing.", json_schema_extra=MM)
    form: Literal["round-over", "chamfer"] | None = Field(None, description="Form of an easing.")
    rise_mm: Bound | None = Field(None, description="Rise of a curve.", json_schema_extra=MM)
    x0_mm: Bound | None = Field(None, description="Least x of a recess.", json_schema_extra=MM)
    x1_mm: Bound | None = Field(None, description="Greatest x of a recess.", json_schema_extra=MM)
    y0_mm: Bound | None = Field(None, description="Least y of a recess.", json_schema_extra=MM)
    y1_mm: Bound | None = Field(None, description="Greatest y of a recess.", json_schema_extra=MM)
    z0_mm: Bound | None = Field(None, description="Least z of a recess.", json_schema_extra=MM)
    z1_mm: Bound | None = Field(None, description="Greatest z of a recess.", json_schema_extra=MM)
    stopped: Flag | None = Field(None, description="True for a recess that ends before the edge.")


class FitPart(Closed):
    """One part: its blank, its cuts, and where it stands."""

    id: Id = Field(description="Id of the part.")
    role: Id = Field(description="The role it is made of.")
    length_mm: Size = Field(description="Length of the blank.", json_schema_extra=MM)
    width_mm: Size = Field(description="Width of the blank.", json_schema_extra=MM)
    thickness_mm: Size = Field(description="Thickness of the blank.", json_schema_extra=MM)
    frame: FitFrame = Field(description="Where it stands.")
    name: LongName | None = Field(None, description="What it is called.")
    grain: Literal["along", "across", "any"] = Field("along", description="Where its grain runs.")
    shows: Literal["face", "both", "neither"] = Field("face", description="Which face shows.")
    seal: list[Side] | None = Field(None, description="Ends and edges to seal.", max_length=12)
    closing: Flag = Field(False, description="True when it is cut to fit the work.")
    wears: Flag = Field(False, description="True when it must come out to be renewed.")
    cuts: list[FitCut] | None = Field(None, description="Its cuts.", max_length=40)


class FitJoint(Closed):
    """Where parts meet."""

    id: LongName = Field(description="Id of the joint.")
    kind: Literal[
        "glue",
        "screws",
        "nails",
        "dowels",
        "folded-mitre",
        "housed",
        "bolted",
        "hinged",
        "sliding",
        "loose",
        "clipped",
    ] = Field(description="How they are joined.")
    parts: list[Id] = Field(description="Ids of the parts.", min_length=2, max_length=20)
    glued: Flag = Field(False, description="Whether it is glued.")
    clearance_mm: Clearance = Field(0.0, description="Gap that is meant to be there.", json_schema_extra=MM)
    shows: Flag = Field(False, description="Whether the joint is seen.")


class FitFastener(Closed):
    """A fastener in its place."""

    id: Id = Field(description="Id of the fastener.")
    kind: Literal["wood screw", "nail", "dowel", "bolt"] = Field(description="What it is.")
    gauge: GaugeOrNone = Field(description="Gauge number; 0 where it has none.", json_schema_extra=unit("gauge number"))
    diameter_mm: FastenerDiameter = Field(description="Diameter.", json_schema_extra=MM)
    length_mm: FastenerLength = Field(description="Length.", json_schema_extra=MM)
    head_mm: Point = Field(description="Where its head sits.", json_schema_extra=MM)
    direction: Direction = Field(description="Unit direction from head to point.", json_schema_extra=RATIO)
    parts: list[Id] = Field(description="Ids of the parts it passes, the head's first.", min_length=1, max_length=20)
    role: Literal["holds", "clamps", "locates"] = Field(description="What it is there for.")
    joint: LongName = Field(description="Id of the joint it belongs to.")
    head_depth_mm: HeadDepth = Field(0.0, description="How deep its head is sunk.", json_schema_extra=MM)


class FitCushion(Closed):
    """A cushion where it lies."""

    id: LongName = Field(description="Id of the cushion.")
    kind: Literal["seat", "back"] = Field(description="What it is.")
    origin_mm: Point = Field(description="Its least corner.", json_schema_extra=MM)
    width_mm: Size = Field(description="Width.", json_schema_extra=MM)
    depth_mm: Size = Field(description="Depth.", json_schema_extra=MM)
    thickness_mm: Size = Field(description="Thickness.", json_schema_extra=MM)
    loaded_mm: Size = Field(description="Thickness with somebody on it.", json_schema_extra=MM)
    assumed: Flag = Field(description="True until it has been measured.")
    stopped_by: Sentence = Field(description="What keeps it from sliding.")


class FitLink(Closed):
    """One link of a dimension chain."""

    label: LongName = Field(description="What it is.")
    size_mm: Signed = Field(description="How long it is.", json_schema_extra=MM)


class FitChain(Closed):
    """A dimension chain."""

    name: LongName = Field(description="What it measures.")
    total_mm: Signed = Field(description="Its sum.", json_schema_extra=MM)
    links: list[FitLink] = Field(description="Its links.", min_length=1, max_length=200)
    closing: LongName = Field(description="Label of the link that takes up the rounding.")


class FitPromise(Closed):
    """What is promised of the piece."""

    kind: Literal["touches", "gap", "flush", "size", "clear", "floor"] = Field(description="What is promised.")
    parts: Annotated[list[Id], Field(max_length=20)] = Field(description="Ids of the parts.")
    sides: list[Side | Literal["x", "y", "z"]] = Field(description="Sides of the parts, or an axis.", max_length=20)
    value_mm: Signed = Field(description="The size or gap.", json_schema_extra=MM)


class FitStep(Closed):
    """One step of the order of work."""

    text: LongName | Sentence = Field(description="What is done.")
    parts: Ids | None = Field(None, description="Ids of the parts that are put on.")
    fasteners: list[Id] | None = Field(None, description="Ids of the fasteners that are driven.", max_length=5000)


class FitHardware(Closed):
    """What else it takes."""

    what: LongName = Field(description="What it is.")
    quantity: Pieces = Field(description="How many.", json_schema_extra=COUNT)
    says: Sentence | None = Field(None, description="What to look for.")


class FitLoad(Closed):
    """What parts carry in use."""

    kind: Literal["sitter", "leaning", "arm", "books", "library shelf", "other shelf", "mass"] = Field(
        description="What the load is."
    )
    parts: Ids = Field(description="Ids of the parts that carry it.")
    amount: LoadAmount | None = Field(None, description="How much, in `unit`.", json_schema_extra=unit("unit"))
    unit: Annotated[str, StringConstraints(strict=True, max_length=20)] | None = Field(
        None, description="Unit of the amount."
    )


class FitAssembly(Closed):
    """A piece of furniture in space; what POST /v1/modules/{module}/parts answers as `assembly`."""

    module: Annotated[str, StringConstraints(strict=True, max_length=64)] | None = Field(
        None, description="Id of the module it was built by."
    )
    title: Name | None = Field(None, description="What it is called.")
    materials: Annotated[
        dict[RoleKey, FitMaterial], Field(max_length=50, json_schema_extra={"additionalProperties": False})
    ] = Field(description="What each role is made of.")
    parts: list[FitPart] = Field(description="The parts.", min_length=1, max_length=MOST_PARTS)
    joints: list[FitJoint] | None = Field(None, description="The joints.", max_length=5000)
    fasteners: list[FitFastener] | None = Field(None, description="The fasteners.", max_length=5000)
    cushions: list[FitCushion] | None = Field(None, description="The cushions.", max_length=100)
    chains: list[FitChain] | None = Field(None, description="The dimension chains.", max_length=500)
    promises: list[FitPromise] | None = Field(None, description="What is promised.", max_length=5000)
    steps: list[FitStep] | None = Field(None, description="The order of work.", max_length=1000)
    hardware: list[FitHardware] | None = Field(None, description="What else it takes.", max_length=1000)
    loads: list[FitLoad] | None = Field(None, description="What it carries in use.", max_length=1000)
    motions: list[FitMoves] | None = Field(
        None, description="What moves in use: each is carried from shut to open.", max_length=20
    )
    cautions: list[Annotated[str, StringConstraints(strict=True, max_length=1000)]] | None = Field(
        None, description="What to be careful of.", max_length=200
    )
    hung_by: Annotated[str, StringConstraints(strict=True, max_length=200, pattern=TEXT_PATTERN)] | None = Field(
        None, description="What holds the piece on a wall; empty or left out where it stands on the floor."
    )


class DryFitRequest(Checked):
    """A piece to be put together without glue, in thought. Every length is millimetres."""

    assembly: FitAssembly = Field(description="The piece.")
    settings: FitSettings | None = Field(None, description="How strictly it is checked.")
    clamps: list[FitClamp] | None = Field(None, description="The clamps there are.", max_length=50)
    glue: FitGlue | None = Field(None, description="The glue; with it glue-ups are planned.")
    motions: list[FitMotion] | None = Field(
        None, description="More that moves in use, with the walls it must not run into.", max_length=20
    )

    def faults(self) -> list[Broken]:
        """Return nothing: what is wrong between members is the operation's to say."""
        return []


class DryFitAnswer(Open):
    """Whether it goes together."""

    summary: list[str] = Field(description="At most seven lines for people.", max_length=7)
    findings: list[Finding] = FINDINGS
    order: dict[str, Any] | None = Field(description="An order of assembly; null where there is none.")
    balance: dict[str, Any] | None = Field(description="Mass, centre of gravity and how far it may lean, mm, kg, deg.")
    alike: list[dict[str, Any]] = Field(description="Groups of parts that are alike.")
    contacts: list[dict[str, Any]] = Field(description="How joints meet, mm.")
    screws: list[dict[str, Any]] = Field(description="What each screw passes, mm.")
    work: list[dict[str, Any]] = Field(description="The order of work.")
    glue_ups: list[dict[str, Any]] | None = Field(description="Glue-ups within open time; null without glue.")
    chains: list[FitPlacedChain] = Field(description="Where each dimension chain begins and ends, and what rules it.")
    rounding: FitRounding | None = Field(description="What comes of cutting to the tape; null where none was named.")
    motions: list[FitSwept] = Field(
        description="What each motion meets: those of the assembly, then those asked for beside it."
    )
