"""From a caller's materials to what each role of a module is cut from."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from scantling.board import RoleMaterial
from scantling.kit import Module, Role
from scantling.measure import MeasureError, RequestProblem, parse_thickness, pointer
from scantling.mechanics.wood import CALLER, Wood, wood_of
from scantling.tables import Known, Status, UnknownMaterial, material


@dataclass(frozen=True, slots=True)
class MaterialFacts:
    """What the plan must know of a material: density in kg/m³, whether it has a grain, and how screws see it."""

    id: str
    density_kg_m3: float
    has_grain: bool
    wood: Wood


def described_materials(described: Iterable[Mapping[str, Any]]) -> dict[str, MaterialFacts]:
    """Return the materials a caller described, by id; they come before those of the tables."""
    return {m["id"]: _described(m) for m in described}


def _described(m: Mapping[str, Any]) -> MaterialFacts:
    gravity = m.get("specific_gravity")
    known = None if gravity is None else Known(gravity, "1", CALLER, Status.READ)
    kind = m.get("kind", "panel")
    wood = Wood(m["id"], m["id"], kind, m.get("family", kind), known, known, None)
    return MaterialFacts(m["id"], float(m["density_kg_m3"]), bool(m.get("grain", True)), wood)


def material_facts(id: str, described: Mapping[str, MaterialFacts]) -> MaterialFacts:
    """Return a material by id. Raises UnknownMaterial, with near names, for one that nobody described."""
    if id in described:
        return described[id]
    row = material(id)
    return MaterialFacts(row.id, row.density_kg_m3, row.grain, wood_of(row))


def role_materials(
    module: type[Module[Any]],
    given: Mapping[str, Mapping[str, Any]],
    described: Mapping[str, MaterialFacts],
    at: str,
    problems: list[RequestProblem],
) -> dict[str, RoleMaterial]:
    """Return what each role of a module is cut from; a role not given takes the module's default, assumed.

    Faults are added to `problems` with pointers below `at`.
    """
    for name in given:
        if name not in module.roles:
            detail = f"{module.id} has no role {name!r}; its roles are {', '.join(module.roles)}"
            problems.append(RequestProblem(at + pointer(name), detail, "unknown-role"))
    found = {}
    for name, role in module.roles.items():
        resolved = _role(name, role, given.get(name, {}), described, at, problems)
        if resolved is not None:
            found[name] = resolved
    return found


def _role(
    name: str,
    role: Role,
    given: Mapping[str, Any],
    described: Mapping[str, MaterialFacts],
    at: str,
    problems: list[RequestProblem],
) -> RoleMaterial | None:
    id = given.get("material", role.material)
    try:
        cut_from = material_facts(id, described)
    except UnknownMaterial as error:
        problems.append(RequestProblem(at + pointer(name, "material"), str(error), "unknown-material"))
        return None
    typical, least, most, assumed = role.thickness, role.least, role.most, True
    if "thickness" in given:
        try:
            thickness = parse_thickness(given["thickness"])
        except MeasureError as error:
            place = at + pointer(name, "thickness", *error.at)
            problems.append(RequestProblem(place, error.message, error.code))
            return None
        typical, least, most, assumed = thickness.typical, thickness.least, thickness.most, thickness.assumed
    width = given.get("width", role.width) if role.stock_kind == "board" else None
    return RoleMaterial(
        name, id, typical, least, most, assumed, cut_from.density_kg_m3, role.stock_kind, cut_from.has_grain, width
    )
