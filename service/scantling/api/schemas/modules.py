"""Requests and answers about furniture modules, and the plugins they come from."""

from typing import Annotated, Any

from pydantic import Field

from .common import FINDINGS, MATERIAL, TAPE, Finding, TapeStep
from .lengths import THICKNESS_HELP, AnyThickness, Measured
from .scalars import Closed, Id, Open, OpenObject


class RoleMaterial(Closed):
    """What a role of a module is made of."""

    material: Id | None = MATERIAL
    thickness: AnyThickness | None = Field(None, description=THICKNESS_HELP)


Roles = Annotated[dict[Id, RoleMaterial], Field(max_length=50)]
ROLES = Field(
    None,
    description="What each role of the module is made of; a role that is left out is made of the module's default.",
)
PARAMETERS = Field(
    None,
    description="The module's own parameters; its schema stands at GET /v1/modules/{module}. Lengths as everywhere; "
    "what is left out takes its default.",
)


class PartsRequest(Measured):
    """One piece of furniture to be worked out."""

    parameters: OpenObject | None = PARAMETERS
    materials: Roles | None = ROLES
    tape: TapeStep = TAPE


class PartsAnswer(Open):
    """A piece of furniture: its parts, how they go together, and what was noticed."""

    module: str = Field(description="Id of the module.")
    summary: list[str] = Field(description="At most seven lines for people.", max_length=7)
    overall: dict[str, Any] = Field(description="Overall sizes.")
    parts: list[dict[str, Any]] = Field(description="The cut list: alike parts in one entry.")
    joints: list[dict[str, Any]] = Field(description="Where parts meet and how.")
    fasteners: list[dict[str, Any]] = Field(description="The screws and what else holds it together.")
    steps: list[dict[str, Any]] = Field(description="The order of work.")
    findings: list[Finding] = FINDINGS
    cautions: list[Any] = Field(description="What to be careful of.")
    mass_kg: float = Field(description="Mass of the piece.", json_schema_extra={"x-unit": "kg"})
    assembly: dict[str, Any] = Field(description="The piece as parts placed in space, joints and fasteners.")


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


class ModuleAnswer(ModuleEntry):
    """One kind of furniture with its roles and parameters."""

    roles: Any = Field(description="The module's own words for what it is made of, with their defaults.")
    parameters: dict[str, Any] = Field(
        description="JSON Schema of the parameters; members marked `x-quantity: length` give mm."
    )


class PluginEntry(Open):
    """One plugin."""

    name: str = Field(description="Its name.")


class Plugins(Open):
    """The plugins that were found."""

    plugins: list[PluginEntry] = Field(description="The plugins, loaded and failed.")
