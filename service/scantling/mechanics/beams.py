"""Straight members: seats, rails, shelves, slats and strips as beams, cantilevers, and sections glued up of pieces.

Wood Handbook Eq 9-2: deflection = kb W L^3/(E I) + ks W L/(G A'), W the whole load, A' five sixths of the area.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from scantling.tables import Status, UnknownRowError, load_table

from .validity import not_negative, positive, within

WOOD_HANDBOOK = "Wood Handbook, FPL-GTR-282 (2021), Eq 9-2, p. 9-2, and Table 9-1, p. 9-3"
RECTANGLE_SHEAR_SHARE = 5.0 / 6.0


@dataclass(frozen=True, slots=True)
class BeamCase:
    """One way of loading and holding a member: factors on the whole load W and the span L."""

    name: str
    title: str
    bending: float
    shear_part: float
    moment: float
    shear: float
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class Section:
    """A cross-section bent about one axis: area mm2, inertia mm4, modulus mm3, depth in the load's direction mm."""

    area_mm2: float
    inertia_mm4: float
    modulus_mm3: float
    depth_mm: float


@dataclass(frozen=True, slots=True)
class Piece:
    """A rectangle of a glued-up section: width and depth mm, its lower edge above a datum mm, modulus N/mm2."""

    width_mm: float
    depth_mm: float
    base_mm: float
    modulus_mpa: float


@dataclass(frozen=True, slots=True)
class BuiltUp:
    """A section of several pieces: stiffness E I in N mm2, neutral axis above the datum in mm, the pieces."""

    stiffness_nmm2: float
    neutral_mm: float
    pieces: tuple[Piece, ...]
    glued: bool

    def stresses(self, moment_nmm: float) -> tuple[float, ...]:
        """Return the largest bending stress in each piece, N/mm2, for a moment in N mm, in the order of the pieces."""
        return tuple(moment_nmm * p.modulus_mpa * self._lever(p) / self.stiffness_nmm2 for p in self.pieces)

    def _lever(self, piece: Piece) -> float:
        if not self.glued:
            return piece.depth_mm / 2
        return max(abs(piece.base_mm - self.neutral_mm), abs(piece.base_mm + piece.depth_mm - self.neutral_mm))


@cache
def beam_cases() -> Mapping[str, BeamCase]:
    """Return the load cases by name.

    Units: no unit; factors on load (N) and span (mm). Valid: elastic, straight, one span (or the spans the name says).
    Raises: TableError for a broken data file. Source: Wood Handbook, FPL-GTR-282, Table 9-1, p. 9-3; statics.
    """
    cases = {}
    for row in load_table("beam_cases").rows:
        case = BeamCase(
            row.text("case"),
            row.text("title"),
            row.number("kb_over") / row.number("kb_under"),
            row.number("ks"),
            row.number("moment_over") / row.number("moment_under"),
            row.number("shear"),
            row.source,
            row.status,
        )
        cases[case.name] = case
    return MappingProxyType(cases)


def beam_case(name: str) -> BeamCase:
    """Return one load case.

    Units: no unit. Valid: for the names of the data file, e.g. uniform-simple (mm and N come with the load).
    Raises: UnknownRowError naming the nearest. Source: Wood Handbook, FPL-GTR-282, Table 9-1, p. 9-3; statics.
    """
    try:
        return beam_cases()[name]
    except KeyError:
        raise UnknownRowError("load case", name, beam_cases()) from None


def rectangle(width_mm: float, depth_mm: float) -> Section:
    """Return the section of a rectangle; `depth_mm` lies in the direction of the load.

    Units: mm. Valid: for sizes above zero. Raises: OutOfValidity. Source: geometry, I = b h^3/12, S = b h^2/6.
    """
    b, h = positive("width", width_mm, "mm"), positive("depth", depth_mm, "mm")
    return Section(b * h, b * h**3 / 12, b * h**2 / 6, h)


def round_bar(diameter_mm: float) -> Section:
    """Return the section of a round bar, a dowel or a rail.

    Units: mm. Valid: for diameters above zero. Raises: OutOfValidity. Source: geometry, I = pi d^4/64, S = pi d^3/32.
    """
    d = positive("diameter", diameter_mm, "mm")
    return Section(math.pi * d**2 / 4, math.pi * d**4 / 64, math.pi * d**3 / 32, d)


def built_up(pieces: tuple[Piece, ...], *, glued: bool) -> BuiltUp:
    """Return the stiffness of a section of rectangles, glued into one or only lying side by side.

    Units: mm, N/mm2, N mm2. Valid: glue that does not slip and plane sections; not glued, each piece bends by itself
    and they share the load by stiffness. Raises: OutOfValidity for a size or modulus of zero, ValueError for no pieces.
    Source: statics (transformed section); Wood Handbook, FPL-GTR-282, chapter 9.
    """
    if not pieces:
        raise ValueError("a section needs at least one piece")
    for p in pieces:
        positive("width", p.width_mm, "mm")
        positive("depth", p.depth_mm, "mm")
        positive("modulus of elasticity", p.modulus_mpa, "N/mm2")
    axial = sum(p.modulus_mpa * p.width_mm * p.depth_mm for p in pieces)
    neutral = sum(p.modulus_mpa * p.width_mm * p.depth_mm * (p.base_mm + p.depth_mm / 2) for p in pieces) / axial
    own = sum(p.modulus_mpa * p.width_mm * p.depth_mm**3 / 12 for p in pieces)
    steiner = sum(p.modulus_mpa * p.width_mm * p.depth_mm * (p.base_mm + p.depth_mm / 2 - neutral) ** 2 for p in pieces)
    return BuiltUp(own + (steiner if glued else 0.0), neutral, pieces, glued)


def deflection(
    case: str, load_n: float, span_mm: float, stiffness_nmm2: float, shear_stiffness_n: float | None = None
) -> float:
    """Return the largest deflection of a member under the whole load W.

    Units: N, mm, E I in N mm2, G A' in N; answer in mm. Valid: elastic, deflection small against the span; without
    `shear_stiffness_n` the shear part is left out, which is about 3 per cent at 17 depths of span and more below.
    Raises: UnknownRowError for the case, OutOfValidity. Source: Wood Handbook, FPL-GTR-282, Eq 9-2, p. 9-2, Table 9-1.
    """
    c = beam_case(case)
    w, length = not_negative("load", load_n, "N"), positive("span", span_mm, "mm")
    bent = c.bending * w * length**3 / positive("bending stiffness", stiffness_nmm2, "N mm2")
    if shear_stiffness_n is None:
        return bent
    return bent + c.shear_part * w * length / positive("shear stiffness", shear_stiffness_n, "N")


def moment(case: str, load_n: float, span_mm: float) -> float:
    """Return the largest bending moment, without sign.

    Units: N, mm; answer in N mm. Valid: as the case says. Raises: UnknownRowError for the case, OutOfValidity.
    Source: statics of the cases of Wood Handbook, FPL-GTR-282, Table 9-1, p. 9-3.
    """
    return beam_case(case).moment * not_negative("load", load_n, "N") * positive("span", span_mm, "mm")


def shear(case: str, load_n: float) -> float:
    """Return the largest shear force, which is also the reaction of the harder pressed support.

    Units: N. Valid: as the case says. Raises: UnknownRowError for the case, OutOfValidity. Source: statics.
    """
    return beam_case(case).shear * not_negative("load", load_n, "N")


def bending_stress(moment_nmm: float, section: Section) -> float:
    """Return the stress at the outer fibre.

    Units: N mm and mm3; answer in N/mm2. Valid: elastic. Raises: OutOfValidity for a section of nothing.
    Source: statics, sigma = M/S.
    """
    return not_negative("moment", moment_nmm, "N mm") / positive("section modulus", section.modulus_mm3, "mm3")


def shear_stress(shear_n: float, section: Section) -> float:
    """Return the largest shear stress of a rectangle, one and a half times the mean.

    Units: N and mm2; answer in N/mm2. Valid: rectangles. Raises: OutOfValidity. Source: NDS 2018 Eq 3.4-2; statics.
    """
    return 1.5 * not_negative("shear force", shear_n, "N") / positive("area", section.area_mm2, "mm2")


def bearing_stress(force_n: float, width_mm: float, length_mm: float) -> float:
    """Return the pressure across the grain where a member rests.

    Units: N, mm; answer in N/mm2. Valid: a flat seat in full contact. Raises: OutOfValidity.
    Source: NDS 2018 3.10.2 (pressure on the net area).
    """
    area = positive("bearing width", width_mm, "mm") * positive("bearing length", length_mm, "mm")
    return not_negative("force", force_n, "N") / area


def shear_stiffness(section: Section, shear_modulus_mpa: float) -> float:
    """Return G A' of a rectangle, A' five sixths of the area.

    Units: mm2, N/mm2; answer in N. Valid: rectangles. Raises: OutOfValidity.
    Source: Wood Handbook, FPL-GTR-282, p. 9-2 (A' = 5/6 b h; EN 1995 calls the inverse kappa = 1.2).
    """
    return RECTANGLE_SHEAR_SHARE * section.area_mm2 * positive("shear modulus", shear_modulus_mpa, "N/mm2")


def allowed_span(
    case: str, load_per_mm: float, stiffness_nmm2: float, ratio: float, moment_allowed_nmm: float | None = None
) -> float:
    """Return the longest span for a line load that stays within span/ratio and, if given, within a moment.

    Units: N/mm, N mm2, N mm; answer in mm. Valid: line loads (cases named uniform-...), shear part left out.
    Raises: ValueError for a case that is no line load, OutOfValidity. Source: Wood Handbook Eq 9-2 solved for L.
    """
    if not case.startswith("uniform"):
        raise ValueError(f"an allowed span is worked out for a line load, not for {case!r}")
    c = beam_case(case)
    q = positive("line load", load_per_mm, "N/mm")
    within("deflection limit", ratio, 50, 2000, "(span over)", "a ratio of span to sag in use")
    by_sag = (positive("bending stiffness", stiffness_nmm2, "N mm2") / (c.bending * q * ratio)) ** (1 / 3)
    if moment_allowed_nmm is None:
        return float(by_sag)
    by_moment = math.sqrt(positive("allowed moment", moment_allowed_nmm, "N mm") / (c.moment * q))
    return min(float(by_sag), by_moment)


def compression_amplifier(axial_n: float, critical_n: float) -> float:
    """Return by how much an axial push grows a deflection.

    Units: N; the answer is a ratio. Valid: push below the critical load. Raises: OutOfValidity at or above it.
    Source: Wood Handbook, FPL-GTR-282, Eq 9-7 (minus for compression).
    """
    critical = positive("critical load", critical_n, "N")
    within(
        "axial push", axial_n, 0, critical * (1 - 1e-9), "N", "Wood Handbook Eq 9-7 has no answer at the critical load"
    )
    return 1 / (1 - axial_n / critical)
