"""Building a module from what a caller posted: parameters and materials in, an Assembly out, faults with pointers."""

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from scantling.board import Assembly, AssemblyError, ChainError, CutError, PlacingError
from scantling.kit import Build, Module, Parameters
from scantling.measure import RequestError, RequestProblem, pointer
from scantling.mechanics.wood import Wood

from .materials import Supplies, material_facts, role_materials
from .screws_sold import screws_not_sold
from .waiting import assumed_thickness

Modules = Mapping[str, type[Module[Any]]]


@dataclass(frozen=True, slots=True)
class Built:
    """A module as built: its own id in the project, how many are made, the piece, and its woods by material id."""

    id: str
    module: type[Module[Any]]
    quantity: int
    parameters: Parameters
    assembly: Assembly
    woods: Mapping[str, Wood]


def find_module(modules: Modules, id: str, at: str) -> type[Module[Any]]:
    """Return a module by id. Raises RequestError (unknown-module) with the nearest names."""
    if id in modules:
        return modules[id]
    near = get_close_matches(id, modules, n=3, cutoff=0.4)
    hint = f"; did you mean {' or '.join(near)}?" if near else f"; there are {', '.join(sorted(modules))}"
    raise RequestError([RequestProblem(at, f"there is no module {id!r}{hint}", "unknown-module")])


def build_module(modules: Modules, request: Mapping[str, Any], supplies: Supplies, at: str) -> Built:
    """Build one module of a request {id, module, quantity, parameters, materials}; `at` prefixes pointers.

    Raises RequestError naming every fault: an unknown module, parameter, role or material, a size out of range, or
    a piece that cannot be built from these numbers.
    """
    module = find_module(modules, request["module"], at + pointer("module"))
    problems: list[RequestProblem] = []
    parameters: Parameters | None = None
    try:
        parameters = module.parameters.read(request.get("parameters", {}), supplies.unit, at + pointer("parameters"))
    except RequestError as error:
        problems.extend(error.errors)
    materials = role_materials(module, request.get("materials", {}), supplies, at + pointer("materials"), problems)
    if problems or parameters is None:
        raise RequestError(problems)
    try:
        assembly = module().build(Build(parameters, materials, supplies.screws))
    except (AssemblyError, CutError, PlacingError, ChainError) as error:
        raise RequestError([RequestProblem(at + pointer("parameters"), str(error), "cannot-be-built")]) from error
    assembly.findings.extend(screws_not_sold(assembly, supplies.screws))
    assembly.findings.extend(assumed_thickness(module, parameters, materials, assembly))
    id = request.get("id", module.id)
    woods = {m.material: material_facts(m.material, supplies.described).wood for m in materials.values()}
    return Built(id, module, request.get("quantity", 1), parameters, assembly, woods)
