"""A dowel-type fastener loaded sideways: bearing strength, reduction terms and the six yield modes of the NDS."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import radians, sin, sqrt
from types import MappingProxyType

from .inch_pound import MM_PER_INCH, N_MM2_PER_PSI, QUARTER_INCH_MM
from .validity import positive, within
from .withdrawal import NDS_GRAVITY

NDS_YIELD = "NDS 2018 12.3.1, Tables 12.3.1A and 12.3.1B"
MODES = ("Im", "Is", "II", "IIIm", "IIIs", "IV")


@dataclass(frozen=True, slots=True)
class Reductions:
    """The reduction terms Rd of the yield equations: for Im and Is, for II, for IIIm, IIIs and IV."""

    crushing: float
    rotation: float
    bending: float


@dataclass(frozen=True, slots=True)
class Shear:
    """A joint in shear: fastener diameter in the equations, bearing lengths (mm) and strengths (N/mm2)."""

    diameter_mm: float
    main_mm: float
    side_mm: float
    main_bearing: float
    side_bearing: float
    bending_yield: float
    reductions: Reductions


@dataclass(frozen=True, slots=True)
class Yield:
    """The reference lateral value Z in N: every mode's, the least, and which it is."""

    modes: Mapping[str, float]
    governing: str

    @property
    def value_n(self) -> float:
        """Return the least of the modes, N."""
        return self.modes[self.governing]


def bearing_small(specific_gravity: float) -> float:
    """Return the dowel bearing strength for fasteners under 1/4 in, rounded to 50 psi as the table prints it.

    Units: N/mm2; specific gravity on oven-dry volume. Valid: 0.31 to 0.73. Raises: OutOfValidity outside that.
    Source: NDS 2018 12.3.3, Table 12.3.3 (Fe = 16,600 G^1.84 psi).
    """
    within("specific gravity", specific_gravity, *NDS_GRAVITY, "", NDS_YIELD)
    return _printed(16_600 * specific_gravity**1.84)


def bearing_large(specific_gravity: float, diameter_mm: float, angle_deg: float) -> float:
    """Return the dowel bearing strength for fasteners of 1/4 in and more at an angle to the grain.

    Units: N/mm2, mm, degrees (0 along the grain). Valid: specific gravity 0.31 to 0.73, 6.35 to 25.4 mm, 0 to 90.
    Raises: OutOfValidity outside that. Source: NDS 2018 12.3.3 and 12.3.4 (Fe 11,200 G along, 6,100 G^1.45/sqrt(D)
    across, both rounded to 50 psi as printed, Hankinson between).
    """
    within("specific gravity", specific_gravity, *NDS_GRAVITY, "", NDS_YIELD)
    within("diameter", diameter_mm, QUARTER_INCH_MM - 1e-6, MM_PER_INCH + 1e-6, "mm", NDS_YIELD)
    within("angle to the grain", angle_deg, 0.0, 90.0, "degrees", NDS_YIELD)
    along = _printed(11_200 * specific_gravity)
    across = _printed(6_100 * specific_gravity**1.45 / sqrt(diameter_mm / MM_PER_INCH))
    share = sin(radians(angle_deg)) ** 2
    return along * across / (along * share + across * (1 - share))


def reductions(diameter_mm: float, root_mm: float, angle_deg: float) -> Reductions:
    """Return the reduction terms by nominal diameter, diameter in the equations and greatest angle to the grain.

    Units: mm, degrees. Valid: equation diameters up to 25.4 mm, 0 to 90 degrees. Raises: OutOfValidity outside that.
    Source: NDS 2018 Table 12.3.1B. Wood screws take KD by the root diameter: only that gives the values of Table 12L.
    """
    within("angle to the grain", angle_deg, 0.0, 90.0, "degrees", NDS_YIELD)
    within("diameter", root_mm, 0.1, MM_PER_INCH + 1e-6, "mm", NDS_YIELD)
    tilt = 1 + 0.25 * angle_deg / 90
    if root_mm >= QUARTER_INCH_MM - 1e-6:
        return Reductions(4 * tilt, 3.6 * tilt, 3.2 * tilt)
    inches = root_mm / MM_PER_INCH
    factor = 2.2 if inches <= 0.17 + 1e-9 else 10 * inches + 0.5
    if diameter_mm >= QUARTER_INCH_MM - 1e-6:
        factor *= tilt
    return Reductions(factor, factor, factor)


def single_shear(joint: Shear) -> Yield:
    """Return the reference lateral value in single shear with all six yield modes.

    Units: mm and N/mm2 in, N out. Valid: lengths, strengths and diameter above zero. Raises: OutOfValidity otherwise.
    Source: NDS 2018 12.3.1, Table 12.3.1A, Eq. 12.3-1 to 12.3-6.
    """
    _check(joint)
    d, lm, ls = joint.diameter_mm, joint.main_mm, joint.side_mm
    fem, fes, fyb = joint.main_bearing, joint.side_bearing, joint.bending_yield
    rd = joint.reductions
    re, rt = fem / fes, lm / ls
    k1 = (sqrt(re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3) - re * (1 + rt)) / (1 + re)
    k2 = -1 + sqrt(2 * (1 + re) + 2 * fyb * (1 + 2 * re) * d**2 / (3 * fem * lm**2))
    k3 = -1 + sqrt(2 * (1 + re) / re + 2 * fyb * (2 + re) * d**2 / (3 * fem * ls**2))
    modes = {
        "Im": d * lm * fem / rd.crushing,
        "Is": d * ls * fes / rd.crushing,
        "II": k1 * d * ls * fes / rd.rotation,
        "IIIm": k2 * d * lm * fem / ((1 + 2 * re) * rd.bending),
        "IIIs": k3 * d * ls * fem / ((2 + re) * rd.bending),
        "IV": d**2 / rd.bending * sqrt(2 * fem * fyb / (3 * (1 + re))),
    }
    return _least(modes)


def double_shear(joint: Shear) -> Yield:
    """Return the reference lateral value in double shear (two alike side members) with its four yield modes.

    Units: mm and N/mm2 in, N out. Valid: lengths, strengths and diameter above zero. Raises: OutOfValidity otherwise.
    Source: NDS 2018 12.3.1, Table 12.3.1A, Eq. 12.3-7 to 12.3-10.
    """
    _check(joint)
    single = single_shear(joint).modes
    modes = {"Im": single["Im"], **{mode: 2 * single[mode] for mode in ("Is", "IIIs", "IV")}}
    return _least(modes)


def penetration_factor(penetration_mm: float, diameter_mm: float, full: float, least: float) -> float:
    """Return the share of the tabulated lateral value a shorter penetration keeps: p / (full D), at most 1.

    Units: mm; `full` and `least` in diameters (screws and nails 10 and 6, lags 8 and 4). Valid: from `least` diameters.
    Raises: OutOfValidity below that: there the standard gives no value at all.
    Source: NDS 2018 12.1.4 to 12.1.6 and Table 12J, 12L, 12N footnotes.
    """
    in_diameters = penetration_mm / positive("diameter", diameter_mm, "mm")
    within("penetration in diameters", round(in_diameters, 6), least, 1e6, "", "NDS 2018 12.1.4 to 12.1.6")
    return min(1.0, in_diameters / full)


def _printed(psi: float) -> float:
    """Return a bearing strength in N/mm2, rounded to 50 psi as Table 12.3.3 prints it."""
    return round(psi / 50) * 50 * N_MM2_PER_PSI


def _check(joint: Shear) -> None:
    for name, value, unit in (
        ("diameter", joint.diameter_mm, "mm"),
        ("bearing length in the main part", joint.main_mm, "mm"),
        ("bearing length in the side part", joint.side_mm, "mm"),
        ("bearing strength of the main part", joint.main_bearing, "N/mm2"),
        ("bearing strength of the side part", joint.side_bearing, "N/mm2"),
        ("bending yield strength", joint.bending_yield, "N/mm2"),
    ):
        positive(name, value, unit, NDS_YIELD)


def _least(modes: dict[str, float]) -> Yield:
    return Yield(MappingProxyType(modes), min(modes, key=lambda mode: modes[mode]))
