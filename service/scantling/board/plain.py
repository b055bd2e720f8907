"""The public JSON form of an Assembly: what `…/parts` answers as `assembly` and `/v1/dry-fits` reads.

Lengths are millimetres (`*_mm`), angles degrees, and points are `[x, y, z]`. A part is its blank, its cuts in the
board frame, and where it stands: `frame.origin_mm` is the blank's start/near/back corner, `frame.length` and
`frame.width` the unit directions of its length and width. Nothing is rounded, so that a round trip changes nothing.
"""

from collections.abc import Iterable, Mapping
from dataclasses import fields
from typing import Any

from scantling.measure import RequestError, RequestProblem, pointer

from .assembly import MOST_PARTS, Assembly, AssemblyError, Cushion, Hardware, Step, all_promises
from .chain import Chain, ChainError, Link
from .cuts import Curve, Cut, CutError, Easing, Hole, Recess, SawCut
from .frame import Frame
from .joint import Fastener, Joint, JointKind, ScrewRole
from .load_case import LoadCase, LoadCaseError
from .material import RoleMaterial
from .motion import MotionError, motion_from_plain, motion_to_plain
from .part import Part, Promise

SHAPES: Mapping[str, type[Any]] = {
    "saw": SawCut,
    "hole": Hole,
    "easing": Easing,
    "curve": Curve,
    "notch": Recess,
    "groove": Recess,
    "rabbet": Recess,
    "dado": Recess,
    "slot": Recess,
}
_ANGLES = {"mitre": "mitre_deg", "bevel": "bevel_deg"}
_WORDS = {"side", "long_edge", "long_face", "edge", "kind", "purpose", "stopped"}


def assembly_to_plain(assembly: Assembly) -> dict[str, Any]:
    """Return the assembly as JSON members."""
    return {
        "module": assembly.module,
        "title": assembly.title,
        "materials": {role: _material_to_plain(m) for role, m in assembly.materials.items()},
        "parts": [_part_to_plain(p) for p in assembly.parts.values()],
        "joints": [_joint_to_plain(j) for j in assembly.joints.values()],
        "fasteners": [_fastener_to_plain(f) for f in assembly.fasteners.values()],
        "cushions": [_cushion_to_plain(c) for c in assembly.cushions],
        "chains": [_chain_to_plain(c) for c in assembly.chains],
        "promises": [_promise_to_plain(p) for p in all_promises(assembly)],
        "steps": [{"text": s.text, "parts": list(s.parts), "fasteners": list(s.fasteners)} for s in assembly.steps],
        "hardware": [{"what": h.what, "quantity": h.quantity, "says": h.says} for h in assembly.hardware],
        "loads": [{"kind": c.kind, "parts": list(c.parts), "amount": c.amount, "unit": c.unit} for c in assembly.loads],
        "motions": [motion_to_plain(m) for m in assembly.motions],
        "cautions": list(assembly.cautions),
        "hung_by": assembly.hung_by,
    }


def _material_to_plain(m: RoleMaterial) -> dict[str, Any]:
    return {
        "material": m.material,
        "thickness_mm": m.thickness,
        "least_mm": m.least,
        "most_mm": m.most,
        "assumed": m.assumed,
        "density_kg_m3": m.density_kg_m3,
        "stock_kind": m.stock_kind,
        "has_grain": m.has_grain,
        "board_width_mm": m.width,
    }


def _part_to_plain(p: Part) -> dict[str, Any]:
    return {
        "id": p.id,
        "name": p.name,
        "role": p.material.role,
        "length_mm": p.length,
        "width_mm": p.width,
        "thickness_mm": p.thickness,
        "grain": p.grain,
        "shows": p.shows,
        "seal": list(p.seal),
        "closing": p.closing,
        "wears": p.wears,
        "frame": {
            "origin_mm": list(p.frame.origin),
            "length": list(p.frame.along),
            "width": list(p.frame.across),
        },
        "cuts": [cut_to_plain(c) for c in p.cuts],
    }


def cut_to_plain(cut: Cut) -> dict[str, Any]:
    """Return one cut as JSON members; `kind` tells which shop operation it is."""
    kinds = {SawCut: "saw", Hole: "hole", Easing: "easing", Curve: "curve"}
    plain: dict[str, Any] = {"kind": cut.kind if isinstance(cut, Recess) else kinds[type(cut)]}
    for f in fields(cut):
        if isinstance(cut, Recess) and f.name == "kind":
            continue
        name = "form" if isinstance(cut, Easing) and f.name == "kind" else f.name
        plain[name if name in {*_WORDS, "form"} else _ANGLES.get(name, f"{name}_mm")] = getattr(cut, f.name)
    return plain


def _joint_to_plain(j: Joint) -> dict[str, Any]:
    return {
        "id": j.id,
        "kind": j.kind.value,
        "parts": list(j.parts),
        "glued": j.glued,
        "clearance_mm": j.clearance,
        "shows": j.shows,
    }


def _chain_to_plain(c: Chain) -> dict[str, Any]:
    links = [{"label": link.label, "size_mm": link.size} for link in c.links]
    return {"name": c.name, "total_mm": c.total, "links": links, "closing": c.closing}


def _fastener_to_plain(f: Fastener) -> dict[str, Any]:
    return {
        "id": f.id,
        "kind": f.kind,
        "gauge": f.gauge,
        "diameter_mm": f.diameter,
        "length_mm": f.length,
        "head_mm": list(f.head),
        "direction": list(f.direction),
        "parts": list(f.parts),
        "role": f.role.value,
        "joint": f.joint,
        "head_depth_mm": f.head_depth,
    }


def _cushion_to_plain(c: Cushion) -> dict[str, Any]:
    return {
        "id": c.id,
        "kind": c.kind,
        "origin_mm": list(c.origin),
        "width_mm": c.width,
        "depth_mm": c.depth,
        "thickness_mm": c.thickness,
        "loaded_mm": c.loaded,
        "assumed": c.assumed,
        "stopped_by": c.stopped_by,
    }


def _promise_to_plain(p: Promise) -> dict[str, Any]:
    return {"kind": p.kind, "parts": list(p.parts), "sides": list(p.sides), "value_mm": p.value}


class _Reader:
    """Reads the JSON form and gathers what is wrong with it, each with a pointer."""

    def __init__(self, at: str) -> None:
        self.at = at
        self.problems: list[RequestProblem] = []

    def complain(self, place: str, detail: str, code: str = "bad-assembly") -> None:
        self.problems.append(RequestProblem(self.at + place, detail, code))


def assembly_from_plain(plain: Mapping[str, Any], at: str = "/assembly") -> Assembly:
    """Read an assembly from its JSON form (shape already checked at the door). `at` prefixes pointers.

    Raises RequestError that names every part, cut, joint and fastener that cannot be.
    """
    reader = _Reader(at)
    materials = {role: _material_from_plain(role, m) for role, m in plain.get("materials", {}).items()}
    assembly = Assembly(plain.get("module", "assembly"), plain.get("title", ""), materials)
    if len(plain["parts"]) > MOST_PARTS:
        reader.complain("/parts", f"{len(plain['parts'])} parts; at most {MOST_PARTS} are taken", "too-many-parts")
        raise RequestError(reader.problems)
    for i, row in enumerate(plain["parts"]):
        _read_part(assembly, row, i, reader)
    for i, row in enumerate(plain.get("joints", ())):
        _read_joint(assembly, row, i, reader)
    for i, row in enumerate(plain.get("fasteners", ())):
        _read_fastener(assembly, row, i, reader)
    for i, row in enumerate(plain.get("chains", ())):
        try:
            links = tuple(Link(k["label"], k["size_mm"]) for k in row["links"])
            assembly.chains.append(Chain(row["name"], row["total_mm"], links, row["closing"]))
        except ChainError as error:
            reader.complain(pointer("chains", i), str(error), "open-chain")
    for i, row in enumerate(plain.get("steps", ())):
        _read_step(assembly, row, i, reader)
    for i, row in enumerate(plain.get("promises", ())):
        _check_names(assembly, row["parts"], pointer("promises", i, "parts"), reader)
        assembly.promises.append(Promise(row["kind"], tuple(row["parts"]), tuple(row["sides"]), row["value_mm"]))
    for i, row in enumerate(plain.get("loads", ())):
        _read_load(assembly, row, i, reader)
    assembly.cushions = [_cushion_from_plain(c) for c in plain.get("cushions", ())]
    for i, row in enumerate(plain.get("motions", ())):
        _read_motion(assembly, row, i, reader)
    assembly.hardware = [Hardware(h["what"], h["quantity"], h.get("says", "")) for h in plain.get("hardware", ())]
    assembly.cautions = list(plain.get("cautions", ()))
    assembly.hung_by = plain.get("hung_by") or ""
    if reader.problems:
        raise RequestError(reader.problems)
    return assembly


def _material_from_plain(role: str, m: Mapping[str, Any]) -> RoleMaterial:
    t = m["thickness_mm"]
    return RoleMaterial(
        role,
        m["material"],
        t,
        m.get("least_mm", t),
        m.get("most_mm", t),
        m.get("assumed", False),
        m.get("density_kg_m3", 600.0),
        m.get("stock_kind", "sheet"),
        m.get("has_grain", True),
        m.get("board_width_mm"),
    )


def _read_part(assembly: Assembly, row: Mapping[str, Any], i: int, reader: _Reader) -> None:
    material = assembly.materials.get(row["role"])
    if material is None:
        reader.complain(pointer("parts", i, "role"), f"no material is given for the role {row['role']!r}")
        return
    try:
        frame = Frame.from_directions(
            _vector(row["frame"]["origin_mm"]), _vector(row["frame"]["length"]), _vector(row["frame"]["width"])
        )
        part = Part(
            row["id"], row.get("name", row["id"]), material, row["length_mm"], row["width_mm"], row["thickness_mm"],
            frame, shows=row.get("shows", "face"), grain=row.get("grain", "along"), seal=tuple(row.get("seal", ())),
            closing=row.get("closing", False), wears=row.get("wears", False),
        )  # fmt: skip
    except ValueError as error:
        reader.complain(pointer("parts", i), str(error))
        return
    for j, cut in enumerate(row.get("cuts", ())):
        try:
            part.cut(cut_from_plain(cut))
        except (CutError, TypeError) as error:
            reader.complain(pointer("parts", i, "cuts", j), str(error), "bad-cut")
            return
    try:
        assembly.add(part)
    except AssemblyError as error:
        reader.complain(pointer("parts", i, "id"), str(error), "duplicate-id")


def cut_from_plain(row: Mapping[str, Any]) -> Cut:
    """Read one cut. Raises CutError for an unknown kind, TypeError for members the kind does not have."""
    kind = row["kind"]
    if kind not in SHAPES:
        raise CutError(f"{kind!r} is not a cut; use one of {', '.join(sorted(SHAPES))}")
    back = {"mitre_deg": "mitre", "bevel_deg": "bevel"}
    members = {back.get(k, k.removesuffix("_mm")): v for k, v in row.items() if k != "kind"}
    shape = SHAPES[kind]
    if shape is Recess:
        members["kind"] = kind
    elif shape is Easing and "form" in members:
        members["kind"] = members.pop("form")
    cut: Cut = shape(**members)
    return cut


def _read_joint(assembly: Assembly, row: Mapping[str, Any], i: int, reader: _Reader) -> None:
    _check_names(assembly, row["parts"], pointer("joints", i, "parts"), reader)
    if row["id"] in assembly.joints:
        reader.complain(pointer("joints", i, "id"), f"the id {row['id']!r} is used twice", "duplicate-id")
    assembly.joints[row["id"]] = Joint(
        row["id"],
        JointKind(row["kind"]),
        tuple(row["parts"]),
        row.get("glued", False),
        row.get("clearance_mm", 0.0),
        row.get("shows", False),
    )


def _read_fastener(assembly: Assembly, row: Mapping[str, Any], i: int, reader: _Reader) -> None:
    _check_names(assembly, row["parts"], pointer("fasteners", i, "parts"), reader)
    if row["joint"] not in assembly.joints:
        reader.complain(pointer("fasteners", i, "joint"), f"no joint has the id {row['joint']!r}", "unknown-joint")
    if row["id"] in assembly.fasteners:
        reader.complain(pointer("fasteners", i, "id"), f"the id {row['id']!r} is used twice", "duplicate-id")
    assembly.fasteners[row["id"]] = Fastener(
        row["id"],
        row["kind"],
        row["gauge"],
        row["diameter_mm"],
        row["length_mm"],
        _vector(row["head_mm"]),
        _vector(row["direction"]),
        tuple(row["parts"]),
        ScrewRole(row["role"]),
        row["joint"],
        row.get("head_depth_mm", 0.0),
    )


def _read_step(assembly: Assembly, row: Mapping[str, Any], i: int, reader: _Reader) -> None:
    _check_names(assembly, row.get("parts", ()), pointer("steps", i, "parts"), reader)
    for name in row.get("fasteners", ()):
        if name not in assembly.fasteners:
            reader.complain(pointer("steps", i, "fasteners"), f"no fastener has the id {name!r}", "unknown-fastener")
    assembly.steps.append(Step(row["text"], tuple(row.get("parts", ())), tuple(row.get("fasteners", ()))))


def _read_load(assembly: Assembly, row: Mapping[str, Any], i: int, reader: _Reader) -> None:
    _check_names(assembly, row["parts"], pointer("loads", i, "parts"), reader)
    try:
        assembly.loads.append(LoadCase(row["kind"], tuple(row["parts"]), row.get("amount"), row.get("unit", "")))
    except LoadCaseError as error:
        reader.complain(pointer("loads", i), str(error), "bad-load")


def _read_motion(assembly: Assembly, row: Mapping[str, Any], i: int, reader: _Reader) -> None:
    _check_names(assembly, row["parts"], pointer("motions", i, "parts"), reader)
    if any(m.id == row["id"] for m in assembly.motions):
        reader.complain(pointer("motions", i, "id"), f"the id {row['id']!r} is used twice", "duplicate-id")
    known = {c.id for c in assembly.cushions}
    for name in row.get("cushions", ()):
        if name not in known:
            reader.complain(pointer("motions", i, "cushions"), f"no cushion has the id {name!r}")
    try:
        assembly.motions.append(motion_from_plain(row))
    except MotionError as error:
        reader.complain(pointer("motions", i, "travel"), str(error), "out-of-range")


def _check_names(assembly: Assembly, names: Iterable[str], place: str, reader: _Reader) -> None:
    for name in names:
        if name not in assembly.parts:
            reader.complain(place, f"no part has the id {name!r}", "unknown-part")


def _cushion_from_plain(c: Mapping[str, Any]) -> Cushion:
    return Cushion(
        c["id"],
        c["kind"],
        _vector(c["origin_mm"]),
        c["width_mm"],
        c["depth_mm"],
        c["thickness_mm"],
        c["loaded_mm"],
        c["assumed"],
        c["stopped_by"],
    )


def _vector(values: Iterable[float]) -> tuple[float, float, float]:
    x, y, z = values
    return (float(x), float(y), float(z))
