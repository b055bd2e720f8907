"""Request and answer of POST /v1/fastener-checks."""

from typing import Annotated, Any, Literal

from pydantic import Field

from .common import FINDINGS, Finding
from .lengths import Broken, Checked, Length, LengthOrZero, Measured, Thickness, repeated
from .marks import COUNT, RATIO, N, unit
from .scalars import Closed, Id, Open

MOST_JOINTS = 500
Gauge = Annotated[int, Field(strict=True, ge=2, le=24)]
Newtons = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=1_000_000)]


class Layer(Closed):
    """One part that the fastener passes or ends in."""

    part: Id | None = Field(None, description="The caller's name for the part.")
    material: Id = Field(description="Id of a material: of GET /v1/tables/materials.")
    thickness: Thickness = Field(description="Thickness along the fastener.")
    grain: Literal["side", "end", "edge"] = Field(
        "side",
        description="What the fastener enters: the `side` grain or face, the `end` grain, or the `edge` of a panel.",
    )


class DrivenFastener(Closed):
    """What is driven in."""

    kind: Literal["wood screw"] = Field("wood screw", description="What it is.")
    gauge: Gauge = Field(description="Gauge number of the screw.", json_schema_extra=unit("gauge number"))
    length: Length = Field(description="Length from the face of the head's part to the point.")


class Loads(Closed):
    """What pulls on the whole joint."""

    withdrawal_n: Newtons = Field(0.0, description="Along the fasteners, pulling out.", json_schema_extra=N)
    lateral_n: Newtons = Field(0.0, description="Across the fasteners.", json_schema_extra=N)


class FastenerJoint(Closed):
    """A stack of parts and the fasteners through it."""

    id: Id = Field(description="The caller's name for the joint.")
    layers: list[Layer] = Field(description="The parts from the head to the point.", min_length=1, max_length=10)
    fastener: DrivenFastener = Field(description="The fastener.")
    role: Literal["holds", "clamps", "locates"] = Field(
        "holds", description="`holds` carries the load, `clamps` pulls up a glued joint, `locates` keeps in place."
    )
    head_depth: LengthOrZero | None = Field(None, description="How deep the head is sunk below the surface.")
    count: Annotated[int, Field(strict=True, ge=1, le=1000)] = Field(
        1, description="How many alike share the load.", json_schema_extra=COUNT
    )
    loads: Loads | None = Field(None, description="What pulls on the joint.")


class FastenerRequest(Checked, Measured):
    """Joints to be checked."""

    method: Literal["nds"] = Field("nds", description="The design method: `nds`, by the ANSI/AWC NDS.")
    joints: list[FastenerJoint] = Field(description="The joints.", min_length=1, max_length=MOST_JOINTS)

    def faults(self) -> list[Broken]:
        """Return what is wrong between members."""
        return repeated(self.joints, "joints")


class FastenerJointAnswer(Open):
    """What a fastener does in its stack."""

    id: str = Field(description="The caller's name for the joint.")
    stack: list[dict[str, Any]] = Field(description="The parts along the fastener, lengths in mm.")
    point: Any = Field(description="Where the point ends.")
    bite: Any = Field(description="How far it bites into the last part.")
    pilot: Any = Field(description="Pilot hole.")
    clearance_hole: Any = Field(description="Clearance hole.")
    capacity: Any = Field(description="What it carries, in N.")
    demand: Any = Field(description="What it is asked to carry, in N.")
    ratio: float | None = Field(description="Demand over capacity.", json_schema_extra=RATIO)
    governing: str | None = Field(description="What governs the capacity.")
    length_window: Any = Field(description="Shortest and longest screw that would do, in mm.")
    findings: list[Finding] = FINDINGS


class FastenerAnswer(Open):
    """The joints, each with what was found."""

    joints: list[FastenerJointAnswer] = Field(description="The joints in the order given.")
