"""Legs and posts under load: Euler, the NDS column, the Eurocode column, side buckling of tall thin beams."""

import math
from dataclasses import dataclass

from scantling.findings import Finding
from scantling.tables import Status

from .basis import WoodValues
from .notice import notice
from .validity import not_negative, positive, within

NDS_COLUMN = "NDS 2018 3.7.1, Eq 3.7-1"
NDS_SLENDER_LIMIT = 50.0
# Buckling length factors recommended for design, NDS 2018 Appendix G.
END_FACTORS = {"pinned": 1.0, "fixed-pinned": 0.8, "fixed": 0.65, "cantilever": 2.1}


@dataclass(frozen=True, slots=True)
class Leg:
    """A leg: cross-section mm, clear length mm, how it is held, the values of its wood in N/mm2 and who says so.

    By `nds` the compression is the reference value and `duration` its factor; by `ec5` the compression is the design
    value fc,0,d already, `characteristic_mpa` is fc,0,k and `e_min_mpa` is E0,05.
    """

    width_mm: float
    depth_mm: float
    length_mm: float
    held: str
    compression_mpa: float
    e_min_mpa: float
    duration: float = 1.0
    status: Status = Status.READ
    source: str = NDS_COLUMN
    parts: tuple[str, ...] = ()
    method: str = "nds"
    characteristic_mpa: float = 0.0


@dataclass(frozen=True, slots=True)
class LegResult:
    """A leg checked: slenderness, stability factor, capacity and demand in N, their ratio; `.findings()` says it."""

    leg: Leg
    slenderness: float
    stability: float
    capacity_n: float
    demand_n: float

    @property
    def ratio(self) -> float:
        """Return demand over capacity."""
        return self.demand_n / self.capacity_n if self.capacity_n else math.inf

    def findings(self) -> tuple[Finding, ...]:
        """Return what the check noticed: too slender, or pressed beyond its capacity."""
        if self.slenderness > NDS_SLENDER_LIMIT:
            return (
                notice(
                    "leg-too-slender",
                    f"The leg is {self.slenderness:.0f} times as long (as it buckles) as it is thick; the limit is 50.",
                    status=self.leg.status,
                    parts=self.leg.parts,
                    value=self.slenderness,
                    limit=NDS_SLENDER_LIMIT,
                    source="NDS 2018 3.7.1.4",
                ),
            )
        if self.ratio <= 1:
            return ()
        return (
            notice(
                "leg-buckles",
                f"The leg carries {self.capacity_n:.0f} N before it may buckle; {self.demand_n:.0f} N stand on it "
                f"({self.leg.source.split(';')[0]}).",
                status=self.leg.status,
                parts=self.leg.parts,
                value=self.demand_n,
                limit=self.capacity_n,
                unit="N",
                source=self.leg.source,
            ),
        )


def end_factor(held: str) -> float:
    """Return the buckling length factor of a leg.

    Units: no unit, a ratio of lengths in mm. Valid: pinned, fixed-pinned, fixed, cantilever (free to sway at one end).
    Raises: ValueError for another word. Source: NDS 2018 3.7.1.2 and Appendix G.
    """
    try:
        return END_FACTORS[held]
    except KeyError:
        raise ValueError(f"how a leg is held must be one of {', '.join(END_FACTORS)}, not {held!r}") from None


def euler_load(modulus_mpa: float, inertia_mm4: float, effective_mm: float) -> float:
    """Return the load at which a slender straight leg buckles.

    Units: N/mm2, mm4, mm; answer in N. Valid: slender, elastic, straight. Raises: OutOfValidity.
    Source: Wood Handbook, FPL-GTR-282 (2021), Eq 9-25.
    """
    e, i = positive("modulus of elasticity", modulus_mpa, "N/mm2"), positive("inertia", inertia_mm4, "mm4")
    return math.pi**2 * e * i / positive("effective length", effective_mm, "mm") ** 2


def euler_stress_nds(e_min_mpa: float, slenderness: float) -> float:
    """Return FcE = 0.822 Emin'/(le/d)^2.

    Units: N/mm2 (or psi in, psi out) and a ratio. Valid: le/d above 0 up to 50, 75 in erection. Raises: OutOfValidity.
    Source: NDS 2018 3.7.1.5.
    """
    e = positive("Emin", e_min_mpa, "N/mm2")
    return 0.822 * e / within("le/d", slenderness, 1e-6, 75, "", "NDS 2018 3.7.1.4") ** 2


def column_stability(euler_mpa: float, compression_mpa: float, c: float = 0.8, fastened: float = 1.0) -> float:
    """Return the column stability factor CP.

    Units: stresses both in N/mm2 (or both psi); the answer is a ratio. Valid: c 0.8 sawn, 0.85 round, 0.9 glued; Kf
    0.6 nailed, 0.75 bolted for built-up columns across the laminations, else 1. Raises: OutOfValidity.
    Source: NDS 2018 Eq 3.7-1 and 15.3.2; the same as Ylinen's, Wood Handbook, FPL-GTR-282, Eq 9-29.
    """
    x = positive("FcE", euler_mpa, "N/mm2") / positive("Fc*", compression_mpa, "N/mm2")
    within("c", c, 0.5, 0.95, "", "NDS 2018 3.7.1.5")
    within("Kf", fastened, 0.5, 1, "", "NDS 2018 15.3.2")
    half = (1 + x) / (2 * c)
    return fastened * (half - math.sqrt(half**2 - x / c))


def check_leg(leg: Leg, demand_n: float) -> LegResult:
    """Check a leg against the load on it by the NDS column formula, or by EN 1995-1-1 where the leg says so.

    Units: mm, N/mm2, N. Valid: rectangular solid legs, le/d up to 50; `e_min_mpa` is the 5 % stability modulus.
    Raises: OutOfValidity for sizes and strengths of nothing, ValueError for an unknown way of being held.
    Source: NDS 2018 3.7.1; EN 1995-1-1 6.3.2; a leg without rails at the foot sways: `cantilever` unless a stretcher or
    back holds it.
    """
    demand = not_negative("load on the leg", demand_n, "N")
    thin = min(positive("width", leg.width_mm, "mm"), positive("depth", leg.depth_mm, "mm"))
    slender = end_factor(leg.held) * positive("length", leg.length_mm, "mm") / thin
    cd = within("load duration factor", leg.duration, 0.9, 2.0, "", "NDS 2018 Table 2.3.2")
    strength = positive("compression", leg.compression_mpa, "N/mm2") * cd
    if slender > NDS_SLENDER_LIMIT:
        return LegResult(leg, slender, 0.0, 0.0, demand)
    if leg.method == "ec5":
        strength = leg.compression_mpa
        cp = ec5_column(slender * math.sqrt(12), leg.characteristic_mpa, leg.e_min_mpa)[1]
    else:
        cp = column_stability(euler_stress_nds(leg.e_min_mpa, slender), strength)
    return LegResult(leg, slender, cp, cp * strength * leg.width_mm * leg.depth_mm, demand)


def leg_of(
    wood: WoodValues,
    width_mm: float,
    depth_mm: float,
    length_mm: float,
    held: str,
    *,
    duration: str = "medium",
    service_class: int = 1,
    parts: tuple[str, ...] = (),
) -> Leg:
    """Return a leg of a wood, ready to be checked by the code its values belong to.

    Units: mm. Valid: rectangular solid legs. Raises: ValueError for a duration, UnknownRowError, OutOfValidity.
    Source: the wood's own values; NDS 2018 3.7.1 or EN 1995-1-1 6.3.2.
    """
    design = wood.service(duration, service_class)
    wet = design.modulus / wood.modulus
    return Leg(
        width_mm,
        depth_mm,
        length_mm,
        held,
        design.compression,
        wood.modulus_min * wet,
        status=design.status_of("compression"),
        source=f"{NDS_COLUMN if wood.method == 'nds' else 'EN 1995-1-1 6.3.2'}; {design.code}; {wood.source}",
        parts=parts,
        method=wood.method,
        characteristic_mpa=wood.compression,
    )


def beam_column(fc: float, fc_allowed: float, fb: float, fb_allowed: float, euler: float) -> float:
    """Return the sum of push and bending on a leg; above 1 it is too much.

    Units: all stresses in N/mm2 (or all psi); the answer is a ratio. Valid: bending about the axis of `euler`, fc below
    it. Raises: OutOfValidity. Source: NDS 2018 Eq 3.9-3.
    """
    e = positive("FcE", euler, "N/mm2")
    within("fc", fc, 0, e * (1 - 1e-9), "N/mm2", "NDS 2018 3.9.2: fc below FcE")
    bending = not_negative("fb", fb, "N/mm2") / (positive("Fb'", fb_allowed, "N/mm2") * (1 - fc / e))
    return (fc / positive("Fc'", fc_allowed, "N/mm2")) ** 2 + bending


def beam_slenderness(effective_mm: float, depth_mm: float, width_mm: float) -> float:
    """Return RB = sqrt(le d/b^2) of a tall thin beam.

    Units: mm; the answer is a ratio. Valid: rectangles, RB up to 50. Raises: OutOfValidity. Source: NDS 2018 Eq 3.3-5.
    """
    b = positive("width", width_mm, "mm")
    rb = math.sqrt(positive("effective length", effective_mm, "mm") * positive("depth", depth_mm, "mm")) / b
    return within("beam slenderness RB", rb, 0, 50, "", "NDS 2018 3.3.3.7")


def beam_stability(e_min_mpa: float, slenderness: float, bending_mpa: float) -> float:
    """Return the beam stability factor CL.

    Units: stresses both in N/mm2 (or both psi); the answer is a ratio. Valid: RB up to 50. Raises: OutOfValidity.
    Source: NDS 2018 Eq 3.3-6, FbE = 1.2 Emin'/RB^2.
    """
    rb = within("beam slenderness RB", slenderness, 1e-6, 50, "", "NDS 2018 3.3.3.7")
    x = 1.2 * positive("Emin", e_min_mpa, "N/mm2") / rb**2 / positive("Fb*", bending_mpa, "N/mm2")
    half = (1 + x) / 1.9
    return half - math.sqrt(half**2 - x / 0.95)


def ec5_side_buckling(
    width_mm: float, depth_mm: float, effective_mm: float, e05_mpa: float, fm_k_mpa: float
) -> tuple[float, float]:
    """Return relative slenderness and kcrit of a tall thin beam.

    Units: mm, N/mm2; the answers are ratios. Valid: softwood rectangles. Raises: OutOfValidity.
    Source: EN 1995-1-1 Eq 6.30, 6.32 to 6.34.
    """
    b, h = positive("width", width_mm, "mm"), positive("depth", depth_mm, "mm")
    critical = (
        0.78 * b**2 * positive("E0,05", e05_mpa, "N/mm2") / (h * positive("effective length", effective_mm, "mm"))
    )
    rel = math.sqrt(positive("fm,k", fm_k_mpa, "N/mm2") / critical)
    if rel <= 0.75:
        return rel, 1.0
    return rel, 1.56 - 0.75 * rel if rel <= 1.4 else 1 / rel**2


def ec5_column(slenderness: float, fc0k_mpa: float, e05_mpa: float, straightness: float = 0.2) -> tuple[float, float]:
    """Return relative slenderness and kc of a leg.

    Units: lambda = le/i is a ratio, N/mm2; the answers are ratios. Valid: solid timber, straightness 0.2, glued 0.1.
    Raises: OutOfValidity. Source: EN 1995-1-1 6.3.2, Eq 6.21 to 6.29 (as transcribed in several design programs).
    """
    lam = positive("slenderness", slenderness, "")
    strength, modulus = positive("fc,0,k", fc0k_mpa, "N/mm2"), positive("E0,05", e05_mpa, "N/mm2")
    within("straightness factor", straightness, 0.05, 0.3, "", "EN 1995-1-1 Eq 6.29")
    rel = lam / math.pi * math.sqrt(strength / modulus)
    if rel <= 0.3:
        return rel, 1.0
    k = 0.5 * (1 + straightness * (rel - 0.3) + rel**2)
    return rel, 1 / (k + math.sqrt(k**2 - rel**2))
