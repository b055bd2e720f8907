"""The public form of an assembly: parts placed in space, joints and fasteners.

Lengths are millimetres, angles degrees, points `[x, y, z]`; nothing is rounded.
"""

from typing import Any

from pydantic import Field

from .marks import MM, RATIO, unit
from .scalars import Open


class Frame(Open):
    """Where a part stands."""

    origin_mm: list[float] = Field(description="The start/near/back corner of the blank.", json_schema_extra=MM)
    length: list[float] = Field(description="Unit direction of its length.", json_schema_extra=RATIO)
    width: list[float] = Field(description="Unit direction of its width.", json_schema_extra=RATIO)


class AssemblyMaterial(Open):
    """What a role is made of."""

    material: str = Field(description="Id of the material.")
    thickness_mm: float = Field(description="Thickness to build with.", json_schema_extra=MM)
    least_mm: float = Field(description="Least thickness.", json_schema_extra=MM)
    most_mm: float = Field(description="Greatest thickness.", json_schema_extra=MM)
    assumed: bool = Field(description="True until it has been measured.")
    density_kg_m3: float = Field(description="Density.", json_schema_extra=unit("kg/m3"))
    stock_kind: str = Field(description="`sheet` or `board`.")
    has_grain: bool = Field(description="Whether the direction matters when cutting.")
    board_width_mm: float | None = Field(description="Width of the board it is cut from.", json_schema_extra=MM)


class AssemblyPart(Open):
    """One part: its blank, its cuts, and where it stands."""

    id: str = Field(description="Id of the part.")
    name: str = Field(description="What it is called.")
    role: str = Field(description="The role it is made of.")
    length_mm: float = Field(description="Length of the blank.", json_schema_extra=MM)
    width_mm: float = Field(description="Width of the blank.", json_schema_extra=MM)
    thickness_mm: float = Field(description="Thickness of the blank.", json_schema_extra=MM)
    grain: str = Field(description="Where the grain runs relative to the length.")
    shows: str = Field(description="Which face shows.")
    frame: Frame = Field(description="Where it stands.")
    cuts: list[dict[str, Any]] = Field(description="Its cuts in the board frame; `kind` names the shop operation.")


class Joint(Open):
    """Where parts meet."""

    id: str = Field(description="Id of the joint.")
    kind: str = Field(description="How they are joined.")
    parts: list[str] = Field(description="Ids of the parts.")
    glued: bool = Field(description="Whether it is glued.")
    clearance_mm: float = Field(description="Gap that is meant to be there.", json_schema_extra=MM)


class Fastener(Open):
    """A screw or another fastener in its place."""

    id: str = Field(description="Id of the fastener.")
    kind: str = Field(description="What it is.")
    gauge: int | None = Field(description="Gauge number of a screw.", json_schema_extra=unit("gauge number"))
    diameter_mm: float = Field(description="Diameter.", json_schema_extra=MM)
    length_mm: float = Field(description="Length.", json_schema_extra=MM)
    head_mm: list[float] = Field(description="Where its head sits.", json_schema_extra=MM)
    direction: list[float] = Field(description="Unit direction from head to point.", json_schema_extra=RATIO)
    parts: list[str] = Field(description="Ids of the parts it passes, the head's first.")
    role: str = Field(description="`holds`, `clamps` or `locates`.")
    joint: str = Field(description="Id of the joint it belongs to.")
    head_depth_mm: float = Field(description="How deep its head is sunk.", json_schema_extra=MM)


class Assembly(Open):
    """A piece of furniture in space."""

    module: str = Field(description="Id of the module it was built by.")
    title: str = Field(description="What it is called.")
    materials: dict[str, AssemblyMaterial] = Field(description="What each role is made of.")
    parts: list[AssemblyPart] = Field(description="The parts.")
    joints: list[Joint] = Field(description="The joints.")
    fasteners: list[Fastener] = Field(description="The fasteners.")
    cushions: list[dict[str, Any]] = Field(description="The cushions where they lie, in mm.")
    chains: list[dict[str, Any]] = Field(description="The dimension chains, in mm.")
    promises: list[dict[str, Any]] = Field(
        description="What the module promises: sizes, flush faces, clearances, in mm."
    )
    steps: list[dict[str, Any]] = Field(description="The order of work as the module's author gives it.")
    hardware: list[dict[str, Any]] = Field(description="What else it takes.")
    loads: list[dict[str, Any]] = Field(
        default_factory=list,
        description="What parts carry beyond cushions: `kind` (sitter, leaning, arm, books, library shelf, other shelf,"
        " mass), `parts`, `amount` in `unit` (null: the published preset).",
    )
    motions: list[dict[str, Any]] = Field(
        default_factory=list, description="What moves in use, as POST /v1/dry-fits takes it: lids, doors, drawers."
    )
    cautions: list[str] = Field(description="What to be careful of.")
    hung_by: str = Field("", description="What holds the piece on a wall; empty where it stands on the floor.")
