"""Panels held on all four edges: deflection and moment by series, and the pressure at which a thin panel buckles."""

import math
from dataclasses import dataclass
from functools import cache

from scantling.findings import Finding
from scantling.tables import Status

from .notice import notice
from .validity import not_negative, positive, within

_PATCH_TERMS = 40  # odd terms of a load on a patch of a tenth of the side and more; 1 % of the moment
_TERMS = 199  # odd terms up to this; the moment of the square plate then agrees with the closed form in five digits


@dataclass(frozen=True, slots=True)
class PlateBending:
    """A panel under a spread load: deflection at the middle mm, moments along a and b in N mm per mm of width."""

    deflection_mm: float
    moment_a_nmm_per_mm: float
    moment_b_nmm_per_mm: float


@cache
def plate_factors(side_ratio: float, poisson: float = 0.3) -> tuple[float, float]:
    """Return alpha and beta of a panel resting on four edges: sag alpha q a^4/D, moment beta q a^2, a the short side.

    Units: no unit (ratios; a in mm goes with q in N/mm2). Valid: thin isotropic plates, b/a from 1 to 20, small
    deflections. Raises: OutOfValidity. Source: Navier's double series; classical table, alpha 0.00406 for the square.
    """
    r = within("side ratio b/a", side_ratio, 1, 20, "", "plates: b/a of 1 or more; beyond 20 take a strip")
    within("Poisson's ratio", poisson, 0, 0.5, "", "elasticity")
    deflection = bending = 0.0
    for m in range(1, _TERMS + 1, 2):
        for n in range(1, _TERMS + 1, 2):
            sign = 1 if (m + n) % 4 == 2 else -1
            inner = m**2 + (n / r) ** 2
            deflection += sign / (m * n * inner**2)
            bending += sign * (m**2 + poisson * (n / r) ** 2) / (m * n * inner**2)
    return 16 * deflection / math.pi**6, 16 * bending / math.pi**4


def plate_stiffness(modulus_mpa: float, thickness_mm: float, poisson: float = 0.3) -> float:
    """Return D = E t^3/12(1 - nu^2).

    Units: N/mm2, mm; answer in N mm. Valid: thin isotropic plates. Raises: OutOfValidity. Source: plate theory.
    """
    within("Poisson's ratio", poisson, 0, 0.5, "", "elasticity")
    e, t = positive("modulus of elasticity", modulus_mpa, "N/mm2"), positive("thickness", thickness_mm, "mm")
    return e * t**3 / (12 * (1 - poisson**2))


def four_edges(pressure_mpa: float, short_mm: float, long_mm: float, stiffness_nmm: float) -> PlateBending:
    """Return deflection and moments of an isotropic panel resting on all four edges under a spread load.

    Units: N/mm2, mm, N mm; answer in mm and N mm per mm. Valid: thin panels, deflection below half the thickness.
    Raises: OutOfValidity. Source: Navier's series (plate theory); square plate alpha 0.004062.
    """
    a, b = positive("short side", short_mm, "mm"), positive("long side", long_mm, "mm")
    q, d = not_negative("pressure", pressure_mpa, "N/mm2"), positive("plate stiffness", stiffness_nmm, "N mm")
    alpha, beta = plate_factors(b / a)
    return PlateBending(alpha * q * a**4 / d, beta * q * a**2, beta * q * a**2)


def orthotropic_four_edges(
    pressure_mpa: float, along_mm: float, across_mm: float, d_along: float, d_across: float, torsion: float
) -> PlateBending:
    """Return deflection and moments of plywood resting on four edges: stiff along the face grain, softer across.

    Units: N/mm2, mm, plate stiffnesses in N mm (per mm of width); answer in mm and N mm per mm. Valid: thin panels,
    small deflections; `torsion` is H, the geometric mean of the two on the usual assumption, less is safer.
    Raises: OutOfValidity. Source: Navier's series for orthotropic plates (plate theory).
    """
    a, b = positive("length along", along_mm, "mm"), positive("length across", across_mm, "mm")
    q = not_negative("pressure", pressure_mpa, "N/mm2")
    dx, dy = positive("stiffness along", d_along, "N mm"), positive("stiffness across", d_across, "N mm")
    h = not_negative("torsional stiffness", torsion, "N mm")
    w = ma = mb = 0.0
    for m in range(1, 60, 2):
        for n in range(1, 60, 2):
            sign = 1 if (m + n) % 4 == 2 else -1
            x, y = (m * math.pi / a) ** 2, (n * math.pi / b) ** 2
            part = sign * 16 * q / (math.pi**2 * m * n * (dx * x**2 + 2 * h * x * y + dy * y**2))
            w += part
            ma += dx * x * part
            mb += dy * y * part
    return PlateBending(w, ma, mb)


def patch_on_four_edges(
    force_n: float,
    patch_mm: tuple[float, float],
    sides_mm: tuple[float, float],
    stiffness_nmm: tuple[float, float],
    torsion_nmm: float,
    poisson: float = 0.0,
) -> PlateBending:
    """Return deflection and moments of a panel resting on four edges under a load pressed on the middle of it.

    Units: N, mm, plate stiffnesses in N mm (per mm of width), along the face grain first; answer in mm and N mm per mm.
    Valid: thin panels, small deflections; `patch_mm` is what presses, along and across, no larger than the panel;
    `torsion_nmm` is H, less is safer; `poisson` 0.3 with alike stiffnesses is the isotropic plate.
    Raises: OutOfValidity. Source: Navier's series for orthotropic plates; isotropic as Roark's Formulas for Stress and
    Strain, 7th ed., Table 11.4, cases 1b and 1c.
    """
    a, b = (positive("side of the panel", side, "mm") for side in sides_mm)
    u = within("loaded length along", patch_mm[0], 1e-3, a, "mm", "a load lies on the panel")
    v = within("loaded length across", patch_mm[1], 1e-3, b, "mm", "a load lies on the panel")
    p, h = not_negative("load", force_n, "N"), not_negative("torsional stiffness", torsion_nmm, "N mm")
    dx, dy = (positive("plate stiffness", d, "N mm") for d in stiffness_nmm)
    nu = within("Poisson's ratio", poisson, 0, 0.5, "", "elasticity")
    w = ma = mb = 0.0
    wide = [(m, (m * math.pi / a) ** 2, math.sin(m * math.pi * u / (2 * a)) / m) for m in range(1, _PATCH_TERMS, 2)]
    deep = [(n, (n * math.pi / b) ** 2, math.sin(n * math.pi * v / (2 * b)) / n) for n in range(1, _PATCH_TERMS, 2)]
    for _, x, sx in wide:
        for _, y, sy in deep:
            part = 16 * p * sx * sy / (math.pi**2 * u * v * (dx * x**2 + 2 * h * x * y + dy * y**2))
            w += part
            ma += (dx * x + nu * dy * y) * part
            mb += (dy * y + nu * dx * x) * part
    return PlateBending(w, ma, mb)


def shear_buckling_stress(modulus_mpa: float, thickness_mm: float, short_mm: float, long_mm: float) -> float:
    """Return the shear at which a panel held on four edges throws diagonal waves.

    Units: N/mm2, mm; answer in N/mm2. Valid: thin isotropic panels, Poisson's ratio 0.3; the softer of plywood's two
    moduli is on the safe side. Raises: OutOfValidity.
    Source: plate theory; k = 5.34 + 4.00 (b/a)^2 as EN 1993-1-5 Annex A.3 prints it.
    """
    e, t = positive("modulus of elasticity", modulus_mpa, "N/mm2"), positive("thickness", thickness_mm, "mm")
    b = positive("short side", short_mm, "mm")
    a = within("long side", long_mm, b, 1e6, "mm", "the long side is the long one")
    return (5.34 + 4.0 * (b / a) ** 2) * math.pi**2 * e * (t / b) ** 2 / (12 * (1 - 0.3**2))


def panel_buckling_stress(modulus_mpa: float, thickness_mm: float, width_mm: float, poisson: float = 0.3) -> float:
    """Return the pressure along a panel at which it buckles between two held edges.

    Units: N/mm2, mm; answer in N/mm2. Valid: thin, isotropic, at least as long as wide, all edges resting.
    Raises: OutOfValidity. Source: plate theory, k = 4 at the least of (m b/a + a/(m b))^2.
    """
    e = positive("modulus of elasticity", modulus_mpa, "N/mm2")
    t, b = positive("thickness", thickness_mm, "mm"), positive("width", width_mm, "mm")
    within("Poisson's ratio", poisson, 0, 0.5, "", "elasticity")
    return 4 * math.pi**2 * e * (t / b) ** 2 / (12 * (1 - poisson**2))


def flange_buckling_stress(modulus_mpa: float, thickness_mm: float, overhang_mm: float) -> float:
    """Return the pressure at which a thin leg or nosing with one free edge buckles.

    Units: N/mm2, mm; answer in N/mm2. Valid: thin outstanding flanges of wood. Raises: OutOfValidity.
    Source: Wood Handbook, FPL-GTR-282 (2021), Eq 9-31.
    """
    e = positive("modulus of elasticity", modulus_mpa, "N/mm2")
    t, b = positive("thickness", thickness_mm, "mm"), positive("overhang", overhang_mm, "mm")
    return 0.044 * e * (t / b) ** 2


def check_panel_buckling(
    title: str,
    force_n_per_mm: float,
    modulus_mpa: float,
    thickness_mm: float,
    width_mm: float,
    *,
    status: Status = Status.READ,
    parts: tuple[str, ...] = (),
) -> tuple[Finding, ...]:
    """Check a thin panel pressed along its plane, such as the side of a case under its load.

    Units: force per width in N/mm, N/mm2, mm. Valid: panels held along both edges; the softer of plywood's two moduli
    is on the safe side. Raises: OutOfValidity. Source: plate theory, k = 4 (see panel_buckling_stress).
    """
    stress = not_negative("force per width", force_n_per_mm, "N/mm") / positive("thickness", thickness_mm, "mm")
    critical = panel_buckling_stress(modulus_mpa, thickness_mm, width_mm)
    if stress <= critical:
        return ()
    text = f"{title} is pressed with {stress:.2f} N/mm2 along its plane; it waves from {critical:.2f} N/mm2."
    source = "plate theory, k = 4"
    return (
        notice(
            "panel-buckles",
            text,
            status=status,
            parts=parts,
            value=stress,
            limit=critical,
            unit="N/mm2",
            source=source,
        ),
    )
