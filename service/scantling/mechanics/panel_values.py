"""Reference values of panels by material, thickness and direction of the face grain."""

from types import MappingProxyType

from scantling.tables import Row, Status, load_table

from .basis import WoodValues, row_of
from .figures import engine
from .panels import layup, ply_moduli
from .validity import OutOfValidity, within

# Plies assumed for North American plywood whose mill prints only ranges: five crossed layers in a panel of 15-19 mm.
_LAYERS = MappingProxyType({"softwood-plywood": 5, "douglas-fir-plywood": 5, "marine-plywood": 7})
_FIVE_PERCENT = 1 - 1.645 * 0.16


def panel_values(material: str, family: str, thickness_mm: float, *, along: bool) -> WoodValues:
    """Return the reference values of a panel, `along` or across its face grain.

    Units: mm; answers in N/mm2. Valid: European plywood 8.5 to 19.5 mm, OSB 6 to 25, particleboard 9 to 32, MDF 9 to
    19.5, hardboard 3 to 9; other plywood by family range, which may only warn. Raises: OutOfValidity for a thickness
    outside, UnknownRowError. Shear and bearing of sheets no table gives are assumed and named so.
    Source: Structural Engineer's Pocket Book p. 266; EN 12369-1; EN 312; EN 622-5 (memory);
    Wood Handbook, FPL-GTR-190, Table 12-1, p. 12-2.
    """
    if material in {r.text("material") for r in load_table("plywood_strength").rows}:
        return _european_plywood(material, thickness_mm, along)
    if material in _LAYERS:
        return _plywood_by_family(material, thickness_mm, along)
    if family == "osb":
        return _osb(thickness_mm, along)
    if family == "particleboard":
        return _particleboard(thickness_mm)
    if material == "mdf":
        within("MDF thickness", thickness_mm, 9, 19.5, "mm", "EN 622-5, over 12 to 19 mm")
        cells = [_property("mdf", f"{p}, over 12 to 19 mm") for p in ("bending", "modulus of elasticity")]
        return _sheet(material, cells, 0.3, "MDF.LA and MDF.HLS", 1.3)
    if material == "hardboard":
        within("hardboard thickness", thickness_mm, 3, 9, "mm", "Wood Handbook Table 12-1")
        cells = [_property("hardboard", p) for p in ("modulus of rupture", "modulus of elasticity")]
        return _sheet(material, cells, 0.3, "MDF.LA and MDF.HLS", 1.3)
    raise OutOfValidity("panel thickness", thickness_mm, 3, 40, "mm", f"no strength table covers {material}")


def _european_plywood(material: str, thickness_mm: float, along: bool) -> WoodValues:
    within(
        "plywood thickness", thickness_mm, 8.5, 19.5, "mm", "Structural Engineer's Pocket Book p. 266 (9, 12, 18 mm)"
    )
    rows = [r for r in load_table("plywood_strength").rows if r.text("material") == material]
    near = [r for r in rows if r.number("thickness") >= thickness_mm - 1.5]
    row = near[0]
    way = "along" if along else "across"
    other = "modulus_along" if along else "modulus_across"
    return WoodValues(
        material,
        row.number(f"bending_{way}"),
        row.number("planar_shear"),
        2.5,
        row.number(f"compression_{way}"),
        row.number(other),
        row.number(other) * 0.8,
        row.number("shear_modulus") / 4,
        "ec5",
        "plywood",
        1.2,
        row.status,
        row.source,
        assumed=("bearing",),
    )


def _plywood_by_family(material: str, thickness_mm: float, along: bool) -> WoodValues:
    """Take the low end of the family's range along the grain; across it, what crossed plies of that veneer give."""
    within("plywood thickness", thickness_mm, 6, 32, "mm", "Wood Handbook Table 12-1 (softwood plywood)")
    modulus = _property("softwood-plywood", "modulus of elasticity")
    rupture = _property("softwood-plywood", "modulus of rupture")
    e_along, r_along = engine(modulus.number("value"), modulus.unit), engine(rupture.number("value"), rupture.unit)
    lengthwise, crosswise = ply_moduli(layup(_LAYERS[material], thickness_mm), 1.0)
    share = 1.0 if along else crosswise / lengthwise
    return WoodValues(
        material,
        r_along * _FIVE_PERCENT * share,
        1.0,
        2.0,
        10.0 * share,
        e_along * share,
        e_along * share * 0.8,
        e_along / 100,
        "ec5",
        "plywood",
        1.2,
        Status.MEMORY,
        f"{modulus.source}: low end of the range; bending less 1.645 coefficients of variation of 16 % (from memory)",
        "use the capacities of the panel's own span rating or E and F class where it is stamped",
    )


def _osb(thickness_mm: float, along: bool) -> WoodValues:
    within("OSB thickness", thickness_mm, 6, 25, "mm", "EN 12369-1, OSB/3")
    bands = ((10.0, "over 6 to 10 mm"), (17.99, "over 10 to under 18 mm"), (25.0, "18 to 25 mm"))
    name = next(words for top, words in bands if thickness_mm <= top)
    bending = _property("osb", f"OSB/3 bending, {name}")
    modulus = _property("osb", "OSB/3 modulus of elasticity along")
    across = 1.0 if along else 0.45
    return WoodValues(
        "osb",
        bending.number("value") * (1.0 if along else 0.5),
        _property("osb", "planar shear").number("value"),
        2.0,
        _property("osb", f"OSB/3 compression, {name}").number("value"),
        modulus.number("value") * across,
        modulus.number("value") * across * 0.8,
        50.0,
        "ec5",
        "OSB/3 and OSB/4",
        1.2,
        bending.status if along else Status.MEMORY,
        bending.source + ("" if along else "; across the strands about half (from memory)"),
        assumed=("bearing",),
    )


def _particleboard(thickness_mm: float) -> WoodValues:
    within("particleboard thickness", thickness_mm, 9, 32, "mm", "EN 312, type P2")
    top = next(
        t for t in ((13, "9 to 12 mm"), (20, "15 to 18 mm"), (27, "25 mm"), (33, "30 mm")) if thickness_mm < t[0]
    )
    cells = [
        _property("particleboard", "P2 bending, 10 to 19 mm"),
        _property("particleboard", f"P2 modulus of elasticity, {top[1]}"),
    ]
    return _sheet("particleboard", cells, 0.3, "particleboard P4 and P5", 1.3)


def _sheet(material: str, cells: list[Row], shear: float, kmod_row: str, gamma: float) -> WoodValues:
    bending, modulus = (engine(c.number("value"), c.unit) for c in cells)
    worst = Status.MEMORY if any(c.status is Status.MEMORY for c in cells) else cells[0].status
    return WoodValues(
        material,
        bending,
        shear,
        2.0,
        bending * 0.6,
        modulus,
        modulus * 0.8,
        modulus / 20,
        "ec5",
        kmod_row,
        gamma,
        worst,
        f"{cells[0].source}; kmod of {kmod_row} as the nearest stand-in",
        assumed=("shear", "bearing", "compression"),
    )


def _property(material: str, name: str) -> Row:
    return row_of("panel_properties", material=material, property=name, bound="least")
