"""Requests and answers about furniture modules, and the plugins they come from."""

from typing import Annotated, Any

from pydantic import Field, StringConstraints

from .catalogues import Code
from .common import FINDINGS, MATERIAL, MATERIALS, TAPE, Finding, Material, TapeStep
from .fit_settings import DRY_FIT, FitSettings
from .lengths import THICKNESS_HELP, AnyThickness, Broken, Checked, Length, Measured, Thickness, repeated
from .marks import COUNT, DEG, MM, PERCENT, RATIO
from .papers import Papers
from .scalars import Closed, Id, Open, OpenObject


class RoleMaterial(Closed):
    """What a role of a module is made of."""

    material: Id | None = MATERIAL
    thickness: AnyThickness | None = Field(None, description=THICKNESS_HELP)
    width: Length | None = Field(None, description="Width of the board as bought, for a role cut from boards.")


RoleName = Annotated[
    str, StringConstraints(strict=True, min_length=1, max_length=64, pattern=r"^[A-Za-z][A-Za-z0-9 _-]{0,63}$")
]
Roles = Annotated[dict[RoleName, RoleMaterial], Field(max_length=50, json_schema_extra={"additionalProperties": False})]
Moisture = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=25)]
ROLES = Field(
    None,
    examples=[{"frame": {"material": "birch-plywood", "thickness": 17.6}}],
    description="What each role of the module is made of; a role that is left out is made of the module's default.",
)
PARAMETERS = Field(
    None,
    examples=[{}],
    description="The module's own parameters; its schema stands at GET /v1/modules/{module}. Lengths as everywhere; "
    "what is left out takes its default.",
)


class PieceRequest(Checked, Measured):
    """One piece of furniture, as it is described to be worked out or proved."""

    parameters: OpenObject | None = PARAMETERS
    materials: Roles | None = ROLES
    described: list[Material] | None = MATERIALS
    tape: TapeStep = TAPE
    dry_fit: FitSettings | None = DRY_FIT

    def faults(self) -> list[Broken]:
        """Return what is wrong between members."""
        return repeated(self.described or [], "described")


class PartsRequest(PieceRequest):
    """One piece of furniture to be worked out."""

    papers: Papers | None = Field(None, description="How drawings and papers are made.")


class RangeBand(Closed):
    """What a thickness may be."""

    least: Thickness = Field(description="Least thickness.")
    most: Thickness = Field(description="Greatest thickness.")


class ProofRanges(Closed):
    """Over what a module is proved; what is left out takes the band of the role's material and the usual errors."""

    thickness: (
        Annotated[dict[RoleName, RangeBand], Field(max_length=50, json_schema_extra={"additionalProperties": False})]
        | None
    ) = Field(None, description="Thickness by role.", examples=[{"frame": {"least": 17, "most": 18.5}}])
    saw_error_deg: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=5)] | None = Field(
        None, description="How far an angle set on a saw may be off.", json_schema_extra=DEG
    )
    square_error_deg: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=5)] | None = Field(
        None,
        description="How far a cut meant to be square may be off; 0.1 where it is left out.",
        json_schema_extra=DEG,
    )
    length_error_mm: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=5)] | None = Field(
        None, description="How far a length may be off; 0.3 where it is left out.", json_schema_extra=MM
    )
    wetter: Moisture | None = Field(
        None, description="How much the moisture content may rise.", json_schema_extra=PERCENT
    )
    drier: Moisture | None = Field(
        None, description="How much the moisture content may fall.", json_schema_extra=PERCENT
    )


class ProofsRequest(PieceRequest):
    """One piece of furniture to be proved over a range."""

    ranges: ProofRanges | None = Field(None, description="Over what it is proved.")


class ProofsAnswer(Open):
    """What opens, closes or fails over the range."""

    module: str = Field(description="Id of the module.")
    ranges: dict[str, Any] = Field(description="The ranges that were tried: mm, degrees, per cent.")
    summary: list[str] = Field(description="At most seven lines for people.", max_length=7)
    variants: int = Field(description="How many combinations were tried.", json_schema_extra=COUNT)
    failed: list[dict[str, Any]] = Field(description="Combinations at which it does not go together, mm.")
    findings: list[Finding] = FINDINGS
    saw_errors: list[dict[str, Any]] = Field(description="What opens when a saw is set wrong, mm and degrees.")
    length_errors: list[dict[str, Any]] = Field(description="What a length a little off leaves open, mm.")
    seasons: list[dict[str, Any]] = Field(
        description="What swells and shrinks: gaps, depths in grooves, widths glued up, overall sizes, mm."
    )


class ModuleEntry(Open):
    """One kind of furniture."""

    id: str = Field(description="Its name in the address.")
    title: str = Field(description="What it is called.")
    sentence: str = Field(description="What it is, in one sentence.")
    family: str = Field(description="The family it belongs to.")
    plugin: str = Field(description="The plugin it comes from.")


class ModuleList(Open):
    """The kinds of furniture."""

    modules: list[ModuleEntry] = Field(description="The modules, sorted by id.")


class ModuleRole(Open):
    """A module's own word for what some parts are made of, with its default."""

    says: str = Field(description="What is made of it.")
    material: str = Field(description="Id of the default material.")
    thickness_mm: float = Field(description="Default thickness, assumed until measured.", json_schema_extra=MM)
    least_mm: float = Field(description="Least thickness that a shop may sell.", json_schema_extra=MM)
    most_mm: float = Field(description="Greatest thickness that a shop may sell.", json_schema_extra=MM)
    stock_kind: str = Field(description="`sheet` or `board`.")
    width_mm: float | None = Field(description="Width of a board as bought.", json_schema_extra=MM)


class ModuleAnswer(ModuleEntry):
    """One kind of furniture with its roles and parameters."""

    when_not: str = Field(description="When not to build it.")
    sources: list[str] = Field(description="Where its default sizes come from.")
    roles: dict[str, ModuleRole] = Field(description="The module's own words for what it is made of.")
    parameters: dict[str, Any] = Field(
        description="JSON Schema of the parameters; members marked `x-quantity: length` give mm."
    )


class PluginWarning(Open):
    """Something about a plugin that is loaded all the same."""

    code: str = Field(description="`interface-deprecated` or `no-manifest`.")
    message: str = Field(description="What it is, for people.")
    until: str | None = Field(description="Last day on which a release still takes the plugin as it is.")


class PluginExporter(Open):
    """A form of an answer that a plugin writes."""

    format: str = Field(description="The word for `?format=`.")
    media_type: str = Field(description="What Accept asks for.")
    title: str = Field(description="What it is.")
    kinds: list[str] = Field(description="What it is written of: `parts`, `project`.")
    plugin: str = Field(description="The plugin it comes from.")


class PluginEntry(Open):
    """One plugin."""

    name: str = Field(description="Its name.")
    status: str = Field(description="`loaded`, `failed` or `left-out`.")
    source: str = Field(description="Where it was found: `entry point`, `folder` or `list`.")
    distribution: str = Field(description="The distribution it is installed with.")
    version: str = Field(description="Version of the distribution.")
    interface: int | None = Field(description="The interface version it speaks.", json_schema_extra=RATIO)
    hooks: list[str] = Field(description="The hooks it implements.")
    modules: list[str] = Field(description="Ids of the modules it gives.")
    offers: dict[str, list[str]] = Field(description="Ids of the other things it gives, by sort.")
    reason: str | None = Field(description="Why it is not loaded.")
    warnings: list[PluginWarning] = Field(description="What its users should know although it is loaded.")
    manifest: dict[str, Any] | None = Field(
        description="What it says of itself, known without loading it; null where it has no manifest."
    )


class Plugins(Open):
    """The plugins that were found."""

    interface: int = Field(description="The interface version that the service speaks.", json_schema_extra=RATIO)
    interfaces: list[int] = Field(
        description="The interface versions that it takes, the current one first.", json_schema_extra=RATIO
    )
    plugins: list[PluginEntry] = Field(description="The plugins, loaded and not.")
    exporters: list[PluginExporter] = Field(description="The forms of an answer that plugins add.")
    codes: list[Code] = Field(description="The finding codes of plugins' checks.")
