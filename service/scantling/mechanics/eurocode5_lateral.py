"""A dowel-type fastener loaded sideways by Eurocode 5: embedment, yield moment and Johansen's modes."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import cos, radians, sin, sqrt
from types import MappingProxyType

from .validity import not_negative, positive, within

CLAUSE = "EN 1995-1-1 8.2 to 8.7"
ROPE_SHARE = MappingProxyType({"round nail": 0.15, "square nail": 0.25, "other nail": 0.50, "screw": 1.0, "bolt": 0.25})
SMALL_MM = 8.0


@dataclass(frozen=True, slots=True)
class TimberShear:
    """A joint in shear: diameter and lengths in mm (head side first), embedment N/mm2, moment N mm, axial N."""

    diameter_mm: float
    first_mm: float
    second_mm: float
    first_embedment: float
    second_embedment: float
    yield_moment: float
    axial_n: float
    rope_share: float


@dataclass(frozen=True, slots=True)
class Johansen:
    """The characteristic lateral resistance per shear plane, N: every mode's, the least, and which it is."""

    modes: Mapping[str, float]
    governing: str

    @property
    def value_n(self) -> float:
        """Return the least of the modes, N."""
        return self.modes[self.governing]


def embedment_timber(density: float, diameter_mm: float, predrilled: bool) -> float:
    """Return the characteristic embedment strength of timber for nails up to 8 mm and screws up to 6 mm.

    Units: characteristic density kg/m3, mm, result N/mm2. Valid: 200 to 1000 kg/m3, diameters 1 to 8 mm.
    Raises: OutOfValidity outside that. Source: EN 1995-1-1 Eq. 8.15 and 8.16.
    """
    rho = within("characteristic density", density, 200.0, 1000.0, "kg/m3", CLAUSE)
    d = within("diameter", diameter_mm, 1.0, SMALL_MM, "mm", CLAUSE)
    return 0.082 * (1 - 0.01 * d) * rho if predrilled else 0.082 * rho * float(d**-0.3)


def embedment_bolt(density: float, diameter_mm: float, angle_deg: float, softwood: bool) -> float:
    """Return the characteristic embedment strength of timber for bolts and thick screws at an angle to the grain.

    Units: kg/m3, mm, degrees, result N/mm2. Valid: 200 to 1000 kg/m3, diameters 6 to 30 mm, 0 to 90 degrees.
    Raises: OutOfValidity outside that. Source: EN 1995-1-1 Eq. 8.31 to 8.33 (k90 of hardwood from memory).
    """
    rho = within("characteristic density", density, 200.0, 1000.0, "kg/m3", CLAUSE)
    d = within("diameter", diameter_mm, 6.0, 30.0, "mm", CLAUSE)
    angle = radians(within("angle to the grain", angle_deg, 0.0, 90.0, "degrees", CLAUSE))
    k90 = (1.35 if softwood else 0.90) + 0.015 * d
    return 0.082 * (1 - 0.01 * d) * rho / (k90 * sin(angle) ** 2 + cos(angle) ** 2)


def embedment_panel(family: str, density: float, diameter_mm: float, thickness_mm: float) -> float:
    """Return the characteristic embedment strength of a panel for nails and screws with heads of at least 2 d.

    Units: kg/m3, mm, result N/mm2. Valid: family plywood, osb, particleboard or hardboard; 1 to 8 mm; thickness above
    zero. Raises: OutOfValidity outside that, ValueError for another family.
    Source: EN 1995-1-1 Eq. 8.20 (plywood), 8.21 (hardboard), 8.22 (OSB and particleboard).
    """
    d = within("diameter", diameter_mm, 1.0, SMALL_MM, "mm", CLAUSE)
    t = positive("thickness", thickness_mm, "mm")
    if family == "plywood":
        return 0.11 * within("characteristic density", density, 200.0, 1000.0, "kg/m3", CLAUSE) * float(d**-0.3)
    if family in ("osb", "particleboard"):
        return 65.0 * float(d**-0.7) * float(t**0.1)
    if family == "hardboard":
        return 30.0 * float(d**-0.3) * float(t**0.6)
    raise ValueError(
        f"{family} has no embedment strength in EN 1995-1-1 8.3.1.3; plywood, osb, particleboard, hardboard do"
    )


def yield_moment(tensile_strength: float, diameter_mm: float, square: bool = False) -> float:
    """Return the characteristic yield moment of a nail or screw; screws take 1.1 times their root as diameter.

    Units: N/mm2, mm, result N mm. Valid: strengths from 200 to 2000 N/mm2, diameters 1 to 30 mm.
    Raises: OutOfValidity outside that. Source: EN 1995-1-1 Eq. 8.14 and 8.30, 8.7.1(3).
    """
    fu = within("tensile strength", tensile_strength, 200.0, 2000.0, "N/mm2", CLAUSE)
    d = within("diameter", diameter_mm, 1.0, 30.0, "mm", CLAUSE)
    return (0.45 if square else 0.30) * fu * float(d**2.6)


def single_shear_timber(joint: TimberShear) -> Johansen:
    """Return the characteristic resistance in single shear, wood or panel to wood, with modes a to f.

    Units: mm, N/mm2, N mm, N; result N. Valid: lengths, strengths and moment above zero.
    Raises: OutOfValidity otherwise.
    Source: EN 1995-1-1 8.2.2, Eq. 8.6; the rope effect is Fax/4, at most `rope_share` of Johansen's part.
    """
    _check(joint)
    d, t1, t2 = joint.diameter_mm, joint.first_mm, joint.second_mm
    fh1, my = joint.first_embedment, joint.yield_moment
    b = joint.second_embedment / fh1
    r = t2 / t1
    c = fh1 * t1 * d / (1 + b) * (sqrt(b + 2 * b**2 * (1 + r + r**2) + b**3 * r**2) - b * (1 + r))
    e4 = 4 * b * (2 + b) * my / (fh1 * d * t1**2)
    mode_d = 1.05 * fh1 * t1 * d / (2 + b) * (sqrt(2 * b * (1 + b) + e4) - b)
    e5 = 4 * b * (1 + 2 * b) * my / (fh1 * d * t2**2)
    mode_e = 1.05 * fh1 * t2 * d / (1 + 2 * b) * (sqrt(2 * b**2 * (1 + b) + e5) - b)
    mode_f = 1.15 * sqrt(2 * b / (1 + b)) * sqrt(2 * my * fh1 * d)
    modes = {"a": fh1 * t1 * d, "b": joint.second_embedment * t2 * d}
    modes |= {name: _roped(part, joint) for name, part in (("c", c), ("d", mode_d), ("e", mode_e), ("f", mode_f))}
    return _least(modes)


def double_shear_timber(joint: TimberShear) -> Johansen:
    """Return the characteristic resistance per shear plane in double shear, outer parts alike, with modes g to k.

    Units: mm, N/mm2, N mm, N; result N. `first` is an outer part, `second` the middle one.
    Valid: lengths, strengths and moment above zero. Raises: OutOfValidity otherwise.
    Source: EN 1995-1-1 8.2.2, Eq. 8.7.
    """
    single = single_shear_timber(joint).modes
    modes = {"g": single["a"], "h": 0.5 * single["b"], "j": single["d"], "k": single["f"]}
    return _least(modes)


def _roped(part_n: float, joint: TimberShear) -> float:
    return part_n + min(joint.axial_n / 4, joint.rope_share * part_n)


def _check(joint: TimberShear) -> None:
    for name, value, unit in (
        ("diameter", joint.diameter_mm, "mm"),
        ("length in the first part", joint.first_mm, "mm"),
        ("length in the second part", joint.second_mm, "mm"),
        ("embedment strength of the first part", joint.first_embedment, "N/mm2"),
        ("embedment strength of the second part", joint.second_embedment, "N/mm2"),
        ("yield moment", joint.yield_moment, "N mm"),
    ):
        positive(name, value, unit, CLAUSE)
    not_negative("axial resistance", joint.axial_n, "N")


def _least(modes: dict[str, float]) -> Johansen:
    return Johansen(MappingProxyType(modes), min(modes, key=lambda mode: modes[mode]))
