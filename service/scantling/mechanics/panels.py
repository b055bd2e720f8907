"""Plywood and OSB as strips between supports, along and across the face grain, from plies or printed capacities."""

from dataclasses import dataclass

from scantling.tables import Status, UnknownRowError, load_table

from .validity import not_negative, positive, within

TECO = "PFS TECO, Design Capacities for Structural Plywood, Allowable Stress Design"
# Factors of moment, shear and deflection for 1, 2 and 3 or more equal spans. TECO prints them as constants for psf on
# a strip a foot wide: 120 = 12/0.100, 20 = 12/0.6, 1743 = 12/0.006885; D510C: 96, 24, 921.6 and 96, 19.2, 2220.
_STRIP = {1: (0.125, 0.5, 12 / 921.6), 2: (0.125, 0.625, 12 / 2220), 3: (0.1, 0.6, 12 / 1743)}
_SUPPORT_ALLOWANCE_MM = 6.35


@dataclass(frozen=True, slots=True)
class Ply:
    """One veneer: thickness mm, and whether its grain runs along the face grain."""

    thickness_mm: float
    along: bool


@dataclass(frozen=True, slots=True)
class StripCapacity:
    """What a panel strip carries in kPa (kN/m2): by bending, by shear, by the deflection limit; None if not asked."""

    bending_kpa: float
    shear_kpa: float | None
    deflection_kpa: float | None

    @property
    def governing(self) -> str:
        """Return which of the three is least: bending, shear or deflection."""
        asked = {"bending": self.bending_kpa, "shear": self.shear_kpa, "deflection": self.deflection_kpa}
        return min((v, k) for k, v in asked.items() if v is not None)[1]


def strip_capacity(
    moment_n: float,
    span_mm: float,
    *,
    spans: int = 1,
    duration: float = 1.0,
    shear_n_per_mm: float | None = None,
    clear_span_mm: float | None = None,
    stiffness_nmm: float | None = None,
    sag_mm: float | None = None,
) -> StripCapacity:
    """Return the spread load a panel strip carries over one, two, or three and more equal spans.

    Units: moment capacity Fb S in N mm per mm of width, spans in mm, shear capacity in N per mm, E I in N mm2 per mm,
    sag in mm; answer in kPa. Valid: equal spans, supports about 38-50 mm wide (deflection is figured on the clear span
    plus 6.35 mm). Raises: OutOfValidity, ValueError for a number of spans below 1.
    Source: PFS TECO, Design Capacities for Structural Plywood (three spans); APA D510C (one and two), by statics.
    """
    if spans < 1:
        raise ValueError(f"a strip has one span or more, not {spans}")
    k_moment, k_shear, k_sag = _STRIP[min(spans, 3)]
    m, length = positive("moment capacity", moment_n, "N"), positive("span", span_mm, "mm")
    cd = within("load duration factor", duration, 0.9, 2.0, "", "NDS 2018 Table 2.3.2")
    clear = positive("clear span", clear_span_mm if clear_span_mm is not None else span_mm, "mm")
    bending = m * cd / (k_moment * length**2) * 1000
    shear = None
    if shear_n_per_mm is not None:
        shear = positive("shear capacity", shear_n_per_mm, "N/mm") * cd / (k_shear * clear) * 1000
    sag = None
    if stiffness_nmm is not None and sag_mm is not None:
        figured = clear + _SUPPORT_ALLOWANCE_MM if clear_span_mm is not None else clear
        sag = positive("sag", sag_mm, "mm") * positive("stiffness", stiffness_nmm, "N mm") / (k_sag * figured**4) * 1000
    return StripCapacity(bending, shear, sag)


def layup(layers: int, thickness_mm: float) -> tuple[Ply, ...]:
    """Return plies of equal thickness, crossed, both faces along.

    Units: mm. Valid: an odd number of layers, three or more (balanced plywood). Raises: OutOfValidity, ValueError for
    an even number. Source: PS 1-19 (crossed, balanced layers); equal plies are an assumption where none are given.
    """
    if layers < 3 or layers % 2 == 0:
        raise ValueError(f"balanced plywood has an odd number of layers, 3 or more, not {layers}")
    each = positive("thickness", thickness_mm, "mm") / layers
    return tuple(Ply(each, i % 2 == 0) for i in range(layers))


def ply_moduli(plies: tuple[Ply, ...], along_mpa: float, across_ratio: float = 1 / 30) -> tuple[float, float]:
    """Return the apparent bending moduli of plywood along and across its face grain, from its plies.

    Units: N/mm2; plies in mm. Valid: thin glue lines, veneers of one wood; the veneer's modulus across its grain is
    `across_ratio` of that along. Raises: OutOfValidity, ValueError for no plies.
    Source: statics of layers; across ratio about E_T/E_L, 1/20 to 1/35 (Wood Handbook Table 5-1), default practice.
    """
    if not plies:
        raise ValueError("plywood needs plies")
    e0 = positive("veneer modulus", along_mpa, "N/mm2")
    ratio = within("modulus ratio", across_ratio, 0.005, 1, "", "Wood Handbook Table 5-1 (elastic ratios)")
    total = sum(positive("ply thickness", p.thickness_mm, "mm") for p in plies)
    base, along, across = -total / 2, 0.0, 0.0
    for p in plies:
        slice_ = ((base + p.thickness_mm) ** 3 - base**3) / 3
        along += e0 * (1.0 if p.along else ratio) * slice_
        across += e0 * (ratio if p.along else 1.0) * slice_
        base += p.thickness_mm
    whole = total**3 / 12
    return along / whole, across / whole


def ply_share(plies: tuple[Ply, ...], *, joint_along_face_grain: bool) -> float:
    """Return the share of a plywood edge whose grain runs along the joint, the only share glue may be credited for.

    Units: no unit, a ratio of thicknesses in mm. Valid: any lay-up. Raises: OutOfValidity, ValueError for no plies.
    Source: Wood Handbook, FPL-GTR-190, chapter 10 (end grain gives no dependable bond); the share is geometry.
    """
    if not plies:
        raise ValueError("plywood needs plies")
    total = sum(positive("ply thickness", p.thickness_mm, "mm") for p in plies)
    return sum(p.thickness_mm for p in plies if p.along == joint_along_face_grain) / total


def capacity_per_width(inch_pounds_per_foot: float) -> float:
    """Return a printed moment capacity per foot of width as N mm per mm.

    Units: lb in/ft to N mm/mm. Valid: numbers of zero or more. Raises: OutOfValidity. Source: 1 lb = 4.448222 N.
    """
    return not_negative("capacity", inch_pounds_per_foot, "lb in/ft") * 4.448222 * 25.4 / 304.8


def stiffness_per_width(inch_pounds_per_foot: float) -> float:
    """Return a printed stiffness E I per foot of width as N mm2 per mm.

    Units: lb in2/ft to N mm2/mm. Valid: numbers of zero or more. Raises: OutOfValidity. Source: 1 lb = 4.448222 N.
    """
    return not_negative("stiffness", inch_pounds_per_foot, "lb in2/ft") * 4.448222 * 25.4**2 / 304.8


def rated_panel(rating: str, material: str = "osb", *, along: bool = True) -> tuple[float, float, Status]:
    """Return moment capacity and stiffness of a panel by its span rating, along or across its strength axis.

    Units: N mm and N mm2 per mm of width. Valid: ratings of the table such as 32/16 or 48/24; allowable stress design.
    Raises: UnknownRowError naming the ratings. Source: APA D510C (2012) and PFS TECO, capacities per foot of width.
    """
    for row in load_table("panel_capacities").rows:
        if row.text("material") == material and row.text("rating").split(" (")[0] == rating:
            way = "along" if along else "across"
            moment, stiffness = row.number(f"moment_{way}"), row.number(f"stiffness_{way}")
            return capacity_per_width(moment), stiffness_per_width(stiffness), row.status
    names = [f"{r.text('rating').split(' (')[0]} ({r.text('material')})" for r in load_table("panel_capacities").rows]
    raise UnknownRowError("span rating", f"{rating} ({material})", names)
