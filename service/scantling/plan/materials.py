"""From a caller's materials to what each role of a module is cut from."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from scantling.board import RoleMaterial
from scantling.kit import Module, Role
from scantling.measure import MeasureError, RequestProblem, Thickness, parse_thickness, pointer
from scantling.mechanics.wood import CALLER, Wood, wood_of
from scantling.tables import Known, Status, UnknownMaterial, material


@dataclass(frozen=True, slots=True)
class MaterialFacts:
    """What the plan must know of a material: density in kg/m³, whether it has a grain, and how screws see it."""

    id: str
    density_kg_m3: float
    has_grain: bool
    wood: Wood


@dataclass(frozen=True, slots=True)
class Supplies:
    """What a request says about what things are cut from: its unit, the materials it describes, the stock it lists.

    `screws` are the sizes (gauge, length in mm) that the shop it names sells.
    """

    unit: str
    described: Mapping[str, MaterialFacts]
    stock: Sequence[Mapping[str, Any]] = ()
    screws: tuple[tuple[int, float], ...] = ()

    @classmethod
    def of(cls, request: Mapping[str, Any], described: str = "materials") -> "Supplies":
        """Read them from a request whose member `described` lists the caller's own materials."""
        own = {m["id"]: _described(m) for m in request.get(described, ())}
        screws = tuple((gauge, length) for gauge, length in request.get("screws_sold", ()))
        return cls(request.get("units", "mm"), own, request.get("stock", ()), screws)


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
    supplies: Supplies,
    at: str,
    problems: list[RequestProblem],
) -> dict[str, RoleMaterial]:
    """Return what each role of a module is cut from; a role not given takes the module's default, assumed.

    A role without a thickness takes that of the caller's own stock of its material, where that is one thickness within
    what the role allows. Faults are added to `problems` with pointers below `at`.
    """
    for name in given:
        if name not in module.roles:
            detail = f"{module.id} has no role {name!r}; its roles are {', '.join(module.roles)}"
            problems.append(RequestProblem(at + pointer(name), detail, "unknown-role"))
    found = {}
    for name, role in module.roles.items():
        resolved = _role(name, role, given.get(name, {}), supplies, at, problems)
        if resolved is not None:
            found[name] = resolved
    return found


def _role(
    name: str,
    role: Role,
    given: Mapping[str, Any],
    supplies: Supplies,
    at: str,
    problems: list[RequestProblem],
) -> RoleMaterial | None:
    id = given.get("material", role.material)
    try:
        cut_from = material_facts(id, supplies.described)
    except UnknownMaterial as error:
        problems.append(RequestProblem(at + pointer(name, "material"), str(error), "unknown-material"))
        return None
    typical, least, most, assumed = role.thickness, role.least, role.most, True
    thickness = _thickness_on_hand(id, role, supplies.stock)
    if "thickness" in given:
        try:
            thickness = parse_thickness(given["thickness"])
        except MeasureError as error:
            place = at + pointer(name, "thickness", *error.at)
            problems.append(RequestProblem(place, error.message, error.code))
            return None
    if thickness is not None:
        typical, least, most, assumed = thickness.typical, thickness.least, thickness.most, thickness.assumed
    width = given.get("width", role.width) if role.stock_kind == "board" else None
    return RoleMaterial(
        name, id, typical, least, most, assumed, cut_from.density_kg_m3, role.stock_kind, cut_from.has_grain, width
    )


def _thickness_on_hand(id: str, role: Role, stock: Sequence[Mapping[str, Any]]) -> Thickness | None:
    """Return the one thickness of a caller's stock that a role could be cut from; None where it is not just one."""
    found = {
        parse_thickness(entry["thickness"])
        for entry in stock
        if entry.get("material") == id
        and "thickness" in entry
        and ("width" not in entry) is (role.stock_kind == "board")
    }
    fitting = [t for t in found if role.least <= t.typical <= role.most]
    return fitting[0] if len(fitting) == 1 else None
