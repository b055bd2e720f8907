"""Request and answer of POST /v1/fastener-checks."""

from typing import Annotated, Any, Literal

from pydantic import Field
from typing_extensions import TypeAliasType

from .common import FINDINGS, Finding
from .lengths import (
    THICKNESS_HELP,
    AnyThickness,
    Broken,
    Checked,
    Length,
    LengthOrZero,
    LengthRule,
    Measured,
    Reading,
    repeated,
)
from .marks import COUNT, DEG, MM, RATIO, N, unit
from .scalars import Closed, Id, Open, Whole

MOST_JOINTS = 500
Gauge = Annotated[int, Field(strict=True, ge=4, le=24), Whole]
Stress = Annotated[float, Field(strict=True, allow_inf_nan=False, gt=0, le=2000)]
Tensile = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=200, le=2000)]
Declared = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0.1, le=500)]
Density = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=100, le=1500)]
YieldMoment = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=1, le=1_000_000)]
Diameter = TypeAliasType("Diameter", Annotated[Reading, LengthRule(least=1, most=30)])
FastenerLength = TypeAliasType("FastenerLength", Annotated[Reading, LengthRule(least=3, most=1000)])
Known = Literal["read", "derived", "memory"]
OwnNewtons = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0.1, le=1_000_000)]
Newtons = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=1_000_000)]


class Layer(Closed):
    """One part that the fastener passes or ends in."""

    part: Id | None = Field(None, description="The caller's name for the part.")
    material: Id = Field(
        description="Id of a material, of GET /v1/tables/materials; a wood that is not there by any name, with its own "
        "`specific_gravity` or `characteristic_density`.",
        examples=["birch-plywood"],
    )
    thickness: AnyThickness = Field(
        description=f"Thickness along the fastener. {THICKNESS_HELP} Of a range the point is checked against the "
        "thinnest stack and the bite against the least there may be.",
        examples=["23/32 in", {"status": "assumed", "least": 17, "most": 18}],
    )
    grain: Literal["side", "face", "edge", "end"] = Field(
        "side",
        description="What the fastener enters: the `side` grain of solid wood, the `face` or `edge` of a panel, or the "
        "`end` grain.",
    )
    specific_gravity: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0.2, le=1.2)] | None = Field(
        None, description="Own value in place of the table's, on oven-dry volume; for `nds`.", json_schema_extra=RATIO
    )
    characteristic_density: Density | None = Field(
        None,
        description="Own characteristic density in place of that of the table's strength class; for `eurocode5`.",
        json_schema_extra=unit("kg/m3"),
    )


class DrivenFastener(Closed):
    """What is driven in, by its trade size; the maker's own figures rule over the table's."""

    kind: Literal["wood screw", "lag screw", "nail", "staple", "bolt", "dowel", "other"] = Field(
        "wood screw",
        description="What it is; a `dowel` is glued and sits half in each of two parts, each leg of a `staple` counts "
        "as a nail of its wire. Pocket screws, one-piece connector screws and the like have no published values: give "
        "them as `other` with the maker's own.",
    )
    name: Annotated[str, Field(min_length=1, max_length=60)] | None = Field(
        None, description="What a fastener of kind `other` is called.", examples=["pocket screw"]
    )
    gauge: Gauge | None = Field(
        None,
        description="Gauge number of a wood screw; or give its `diameter` and `root_diameter`.",
        examples=[8],
        json_schema_extra=unit("gauge number"),
    )
    diameter: Diameter | None = Field(
        None, description="Diameter of a lag screw, nail, bolt or dowel, of the wire of a staple."
    )
    pennyweight: Literal["6d", "8d", "10d", "12d", "16d", "20d"] | None = Field(
        None, description="Size of a nail; then it needs neither diameter nor length, and a length given rules."
    )
    style: Literal["common", "box", "sinker"] = Field("common", description="Style of a nail.")
    length: FastenerLength | None = Field(None, description="Length from under the head to the point.", examples=[40])
    root_diameter: Diameter | None = Field(None, description="The maker's root diameter.")
    head_diameter: Diameter | None = Field(None, description="The maker's head diameter.")
    thread_length: FastenerLength | None = Field(None, description="The maker's length of thread.")
    bending_yield: Stress | None = Field(
        None, description="The maker's bending yield strength; for `nds`.", json_schema_extra=unit("N/mm2")
    )
    tensile_strength: Tensile | None = Field(
        None, description="The maker's tensile strength of the wire; for `eurocode5`.", json_schema_extra=unit("N/mm2")
    )
    yield_moment: YieldMoment | None = Field(
        None, description="The maker's characteristic yield moment; for `eurocode5`.", json_schema_extra=unit("N mm")
    )
    withdrawal_parameter: Declared | None = Field(
        None,
        description="The maker's characteristic withdrawal parameter (EN 14592); for `eurocode5`.",
        json_schema_extra=unit("N/mm2"),
    )
    head_parameter: Declared | None = Field(
        None,
        description="The maker's characteristic parameter of the head being pulled through (EN 14592), with "
        "`head_diameter`; for `eurocode5`.",
        json_schema_extra=unit("N/mm2"),
    )
    design_withdrawal_n: OwnNewtons | None = Field(
        None,
        description="For kind `other`: the maker's design value of one pulled out, in this wood and for this duration.",
        json_schema_extra=N,
    )
    design_lateral_n: OwnNewtons | None = Field(
        None, description="For kind `other`: the maker's design value of one pushed sideways.", json_schema_extra=N
    )
    declared_density: Density | None = Field(
        None,
        description="Density that the maker's parameters are declared for; 350 kg/m3 where it is left out.",
        json_schema_extra=unit("kg/m3"),
    )


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
    count: Annotated[int, Field(strict=True, ge=1, le=1000), Whole] = Field(
        1, description="How many alike share the load.", json_schema_extra=COUNT
    )
    loads: Loads | None = Field(None, description="What pulls on the joint.")
    load_angle: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=90)] = Field(
        90.0, description="Angle of the lateral load to the grain.", json_schema_extra=DEG
    )
    duration: Literal["permanent", "long", "medium", "short", "instantaneous"] = Field(
        "long",
        description="How long the full load stands in all: `long` is ten years, `medium` two months, `short` seven "
        "days, `instantaneous` ten minutes.",
    )
    service: Literal["dry", "wet"] = Field("dry", description="Whether the wood gets wet in use.")
    pilot: Annotated[bool, Field(strict=True)] | None = Field(None, description="Whether a pilot hole is drilled.")
    toe: Annotated[bool, Field(strict=True)] = Field(False, description="True when it is driven at a slant.")
    edge_distance: Length | None = Field(None, description="From the fastener to the nearest edge.")
    end_distance: Length | None = Field(None, description="From the fastener to the nearest end.")
    spacing: Length | None = Field(None, description="From one fastener to the next.")


class FastenerRequest(Checked, Measured):
    """Joints to be checked."""

    method: Literal["nds", "eurocode5"] = Field(
        "nds",
        description="The design method: `nds`, by the ANSI/AWC NDS (allowable values), or `eurocode5`, by EN 1995-1-1 "
        "(design values). Dowels have no design values in either; they are held against published tests.",
    )
    joints: list[FastenerJoint] = Field(description="The joints.", min_length=1, max_length=MOST_JOINTS)

    def faults(self) -> list[Broken]:
        """Return what is wrong between members."""
        return repeated(self.joints, "joints")


class Bite(Open):
    """One part as the fastener meets it."""

    part: str = Field(description="The caller's name for the part.")
    material: str = Field(description="Id of the material.")
    grain: str = Field(description="What the fastener enters there.")
    entry_mm: float = Field(description="Where the part begins, from the surface.", json_schema_extra=MM)
    exit_mm: float = Field(description="Where it ends.", json_schema_extra=MM)
    bite_mm: float = Field(description="Length of the fastener in it.", json_schema_extra=MM)
    thread_mm: float = Field(description="Length of thread in it.", json_schema_extra=MM)
    threads: float | None = Field(description="Turns of thread in it.", json_schema_extra=COUNT)


class Point(Open):
    """Where the point ends."""

    at_mm: float = Field(description="Depth from the surface.", json_schema_extra=MM)
    part: str | None = Field(alias="in", description="The part it stands in; null in the open.")
    protrusion_mm: float = Field(description="How far it comes out.", json_schema_extra=MM)
    wood_left_mm: float = Field(description="Wood between the point and the far side.", json_schema_extra=MM)


class ReceiverBite(Open):
    """How far the fastener bites into the last part."""

    part: str = Field(description="The last part.")
    mm: float = Field(description="The bite.", json_schema_extra=MM)
    diameters: float = Field(description="The bite in diameters of the fastener.", json_schema_extra=RATIO)
    thread_mm: float = Field(description="Length of thread in it.", json_schema_extra=MM)


class Hole(Open):
    """A hole to drill."""

    diameter_mm: float = Field(description="Diameter wanted.", json_schema_extra=MM)
    drill: str = Field(description="The nearest inch bit.")
    drill_mm: float = Field(description="The nearest metric bit.", json_schema_extra=MM)
    needed: bool = Field(description="False where it may be left out.")
    source: str = Field(description="Where the figure is from.")
    status: Known | None = Field(None, description="How well the figure is known; one from `memory` decides nothing.")


class Countersink(Open):
    """The cone for a flat head."""

    diameter_mm: float = Field(description="Its width at the surface.", json_schema_extra=MM)
    depth_mm: float = Field(description="Its depth.", json_schema_extra=MM)
    angle_degrees: float = Field(description="Its full angle.", json_schema_extra=DEG)
    source: str = Field(description="Where the figures are from.")
    status: Known = Field(description="How well they are known; one from `memory` decides nothing.")


class Capacity(Open):
    """What one fastener carries; null where nothing is published, with the reason in `missing`."""

    withdrawal_n: float | None = Field(description="Against being pulled out.", json_schema_extra=N)
    pull_through_n: float | None = Field(description="Against the head being pulled through.", json_schema_extra=N)
    lateral_n: float | None = Field(description="Against a load across it.", json_schema_extra=N)
    code: str = Field(description="The standard, or the tests, that the values are from.")
    lateral_mode: str | None = Field(description="The yield mode that gives the lateral value.")
    modes_n: dict[str, float] = Field(
        description="The unadjusted lateral value of every yield mode.", json_schema_extra=N
    )
    factors: dict[str, float] = Field(description="What the values were multiplied by.", json_schema_extra=RATIO)
    missing: dict[str, str] = Field(description="Why a value is null, by its name.")
    status: Known = Field(description="How well the least certain figure is known; one from `memory` decides nothing.")
    sources: list[str] = Field(description="Where the figures are from.")
    count: int = Field(description="How many fasteners share the load.", json_schema_extra=COUNT)


class Demand(Open):
    """What one fastener is asked to carry."""

    withdrawal_n: float = Field(description="Pulling out.", json_schema_extra=N)
    lateral_n: float = Field(description="Across it.", json_schema_extra=N)
    count: int = Field(description="How many share the load.", json_schema_extra=COUNT)


class LengthWindow(Open):
    """Which lengths would do for the role."""

    shortest_mm: float = Field(description="Shortest that bites.", json_schema_extra=MM)
    longest_mm: float = Field(description="Longest that stays inside.", json_schema_extra=MM)
    empty: bool = Field(description="True when none would.")
    stocked: list[dict[str, Any]] = Field(description="Lengths as sold within it.")
    take: str | None = Field(description="The one to take.")


class FastenerJointAnswer(Open):
    """What a fastener does in its stack."""

    id: str = Field(description="The caller's name for the joint.")
    fastener: str = Field(description="The fastener in words.")
    role: str = Field(description="Its role.")
    stack: list[Bite] = Field(description="The parts along the fastener.")
    point: Point = Field(description="Where the point ends.")
    bite: ReceiverBite = Field(description="How far it bites into the last part.")
    pilot: Hole | None = Field(description="Pilot hole.")
    clearance_hole: Hole | None = Field(description="Clearance hole through the upper parts.")
    countersink: Countersink | None = Field(description="The cone for the head; null where none is cut.")
    capacity: Capacity = Field(description="What one fastener carries.")
    ultimate_withdrawal_n: float | None = Field(
        description="At what pull tests found such a fastener to come out, as a mean: no value to design with.",
        json_schema_extra=N,
    )
    demand: Demand = Field(description="What one fastener is asked to carry.")
    ratio: float | None = Field(description="Demand over capacity.", json_schema_extra=RATIO)
    governing: str | None = Field(description="What governs.")
    length_window: LengthWindow = Field(description="Which lengths would do.")
    findings: list[Finding] = FINDINGS


class FastenerAnswer(Open):
    """The joints, each with what was found."""

    method: str = Field(description="The design method.")
    joints: list[FastenerJointAnswer] = Field(description="The joints in the order given.")
    cautions: list[str] = Field(description="What the figures are not.")
