"""Reference values of solid wood by material and size: graded lumber, strength classes, and boards that have none.

Boards below 2 in nominal have no published design value: the lower of two derivations serves, and only ever warns.
"""

from dataclasses import replace
from functools import cache

from scantling.tables import Row, Status, UnknownRowError, load_table

from .basis import WoodValues, row_of
from .figures import engine, figure
from .panel_values import panel_values
from .validity import positive

LUMBER_MIN_MM = 35.0  # 2 in nominal is dressed to 38 mm dry (PS 20); less is a board
NO_DESIGN_VALUE = "boards of 1 in have no published design value: choose one without knots at mid-span"


@cache
def wood_values(
    material: str,
    thickness_mm: float,
    width_mm: float,
    *,
    along: bool = True,
    grade: str | None = None,
    flat: bool = False,
) -> WoodValues:
    """Return the reference values of a piece by material and size.

    Units: mm; answers in N/mm2. Valid: dry wood, up to 16 % moisture for lumber; `along` says whether the span runs
    along the (face) grain; `flat` whether the load presses on the wide face; panels in the thicknesses of their tables.
    Raises: UnknownRowError for a material or grade, OutOfValidity for a thickness no table covers, ValueError for solid
    wood spanning across the grain. Source: NDS Supplement 2018 Table 4A, EN 338, Wood Handbook: see `.source`.
    """
    t, w = positive("thickness", thickness_mm, "mm"), positive("width", width_mm, "mm")
    row = row_of("materials", id=material)
    family, kind = row.text("family"), row.text("kind")
    if kind == "panel":
        return panel_values(material, family, t, along=along)
    if not along:
        raise ValueError(f"{material} is solid wood: it must not span across its grain")
    if material.upper() in {r.text("class") for r in load_table("strength_classes").rows}:
        return _graded(material)
    if min(t, w) >= LUMBER_MIN_MM and material in _lumber_species():
        return _lumber(material, max(t, w), grade, flat)
    return _board(row, material, max(t, w), grade)


def board_bending(clear_rupture_mpa: float, lumber_bending_mpa: float | None) -> float:
    """Return the bending value to use for a board of 1 in nominal: the lower of two derivations.

    Units: N/mm2. Valid: boards without knots at mid-span; a screening value that may warn and never decide.
    Raises: OutOfValidity. Source: (a) clear wood, 5 % exclusion over 2.1 (ASTM D245/D2555, coefficient of variation
    16 %, from memory); (b) the value of 2 in lumber of the species (NDS Supplement 2018 Table 4A).
    """
    cov, over = figure("rupture-cov"), figure("clear-wood-divisor")
    clear = positive("modulus of rupture", clear_rupture_mpa, "N/mm2") * (1 - 1.645 * cov.value) / over.value
    return clear if lumber_bending_mpa is None else min(clear, positive("Fb", lumber_bending_mpa, "N/mm2"))


def size_factor(width_mm: float) -> float:
    """Return the size factor CF on bending of dressed 2 in lumber, No. 2 and better.

    Units: mm (dressed width); the answer is a ratio. Valid: 2 to 3 in nominal thickness. Raises: OutOfValidity.
    Source: NDS Supplement 2018 Table 4A adjustment factors.
    """
    w = positive("width", width_mm, "mm")
    for limit, factor in ((90, 1.5), (115, 1.4), (141, 1.3), (185, 1.2), (236, 1.1), (287, 1.0)):
        if w <= limit:
            return factor
    return 0.9


def flat_use_factor(width_mm: float) -> float:
    """Return the flat-use factor Cfu of dressed 2 in lumber laid flat.

    Units: mm (dressed width); the answer is a ratio. Valid: 2 to 3 in nominal thickness. Raises: OutOfValidity.
    Source: NDS Supplement 2018 Table 4A adjustment factors.
    """
    w = positive("width", width_mm, "mm")
    for limit, factor in ((65, 1.0), (115, 1.1), (185, 1.15)):
        if w <= limit:
            return factor
    return 1.2


@cache
def _lumber_species() -> frozenset[str]:
    return frozenset(r.text("material") for r in load_table("lumber_design").rows) | {"southern-pine"}


def _graded(material: str) -> WoodValues:
    r = row_of("strength_classes", **{"class": material.upper()})
    n = r.number
    return WoodValues(
        material,
        n("bending"),
        n("shear"),
        n("compression_perpendicular"),
        n("compression_parallel"),
        n("modulus_mean"),
        n("modulus_05"),
        n("shear_modulus"),
        "ec5",
        "solid timber",
        1.3,
        r.status,
        r.source,
    )


def _usual_class(material: str) -> WoodValues | None:
    """Return the values of the strength class a species is usually graded into, from memory: they only ever warn."""
    rows = [r for r in load_table("characteristic_density").rows if r.text("material") == material]
    if not rows or not rows[0].text("strength_class"):
        return None
    name = rows[0].text("strength_class")
    note = f"taken as {name}, {rows[0].source}: only a board graded and stamped is of a class"
    return replace(_graded(name), material=material, status=Status.MEMORY, note=note)


def _lumber(material: str, width_mm: float, grade: str | None, flat: bool) -> WoodValues:
    if material == "southern-pine":
        return _southern(width_mm)
    names = [r.text("grade") for r in load_table("lumber_design").rows if r.text("material") == material]
    wanted = grade or next(g for g in names if "No. 2" in g)
    r = row_of("lumber_design", material=material, grade=wanted)
    size = size_factor(width_mm) if wanted not in ("Stud", "No. 3") else 1.0
    flat_use = flat_use_factor(width_mm) if flat else 1.0
    mpa = {
        c: engine(r.number(c), "psi") for c in ("bending", "shear", "compression_perpendicular", "compression_parallel")
    }
    modulus = r.number("modulus") * 6894.757
    return WoodValues(
        material,
        mpa["bending"] * size * flat_use,
        mpa["shear"],
        mpa["compression_perpendicular"],
        mpa["compression_parallel"],
        modulus,
        r.number("modulus_minimum") * 6.894757,
        modulus / 16,
        "nds",
        "",
        1.0,
        r.status,
        f"{r.source}, {wanted}, size factor {size:g}" + (f", flat use {flat_use:g}" if flat else ""),
    )


def _southern(width_mm: float) -> WoodValues:
    name = next((n for top, n in ((90, "2 to 4"), (141, "6"), (185, "8"), (236, "10")) if width_mm <= top), "12")
    r = next(x for x in load_table("lumber_design_metric").rows if str(x.cells["width"]).removesuffix(".0") == name)
    n = r.number
    modulus = n("modulus") * 1000
    return WoodValues(
        "southern-pine",
        n("bending"),
        n("shear"),
        n("compression_perpendicular"),
        n("compression_parallel"),
        modulus,
        n("modulus_minimum") * 1000,
        modulus / 16,
        "nds",
        "",
        1.0,
        r.status,
        f"{r.source}, No. 2",
    )


def _board(row: Row, material: str, width_mm: float, grade: str | None) -> WoodValues:
    lumber = _lumber(material, 286.0, grade, flat=False) if material in _lumber_species() else None
    name = row.text("clear_wood")
    if not name:
        if lumber is None and (usual := _usual_class(material)) is not None:
            return usual
        if lumber is None:
            known = [r.text("id") for r in load_table("materials").rows if r.text("clear_wood")]
            raise UnknownRowError("strength of the wood", material, known)
        return replace(lumber, status=Status.MEMORY, note=NO_DESIGN_VALUE)
    clear = row_of("clear_wood", wood=name)
    mpa = {
        c: engine(clear.number(c), "psi")
        for c in ("modulus_of_rupture", "shear_parallel", "compression_perpendicular", "compression_parallel")
    }
    e = clear.number("modulus_of_elasticity") * 6894.757
    over = figure("clear-wood-divisor").value
    return WoodValues(
        material,
        board_bending(mpa["modulus_of_rupture"], lumber.bending if lumber else None),
        min(mpa["shear_parallel"] / 8, lumber.shear) if lumber else mpa["shear_parallel"] / 8,
        min(mpa["compression_perpendicular"] / 1.67, lumber.bearing)
        if lumber
        else mpa["compression_perpendicular"] / 1.67,
        mpa["compression_parallel"] * (1 - 1.645 * 0.18) / over,
        min(e, lumber.modulus) if lumber else e,
        min(e, lumber.modulus) * 0.36 if lumber else e * 0.36,
        e / 16,
        "nds",
        "",
        1.0,
        Status.MEMORY,
        "lower of clear wood (Wood Handbook Table 5-3, 5 % exclusion over 2.1) and 2 in lumber (NDS Table 4A)",
        NO_DESIGN_VALUE,
    )
