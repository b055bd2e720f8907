"""Glued joints: how much area, on what kind of grain, and what the wood beside the glue line may take."""

import math
from dataclasses import dataclass
from typing import Any

from scantling.findings import Finding
from scantling.tables import Status

from .figures import weakest
from .loads import Load
from .notice import LOCAL, notice
from .validity import not_negative, positive, within

# What part of a surface glue is credited for: long grain all, end grain none, ply edges only the plies along the joint.
SURFACES = ("long grain", "end grain", "ply edge", "panel face")
# Glues that creep under a load that stays (EN 204 glues are for non-structural use).
_CREEPING = frozenset({"pva", "d1", "d2", "d3", "d4", "white", "yellow", "hot melt", "contact", "construction"})


@dataclass(frozen=True, slots=True)
class GlueLine:
    """A glued joint: area mm2, the two surfaces, design shear of each in N/mm2, whether clamped, glue, part names.

    `unsound` says why the line is not counted on (a gap, a glue not made for the place), empty where it is sound;
    `ply_share` is the share of a ply edge whose grain runs along the joint; `status` how well the shear is known.
    """

    title: str
    area_mm2: float
    surfaces: tuple[str, str]
    shear_mpa: tuple[float, float]
    clamped: bool
    glue: str = "pva"
    ply_share: float = 1.0
    code: str = "design value of the weaker wood"
    source: str = "NDS Supplement 2018 Table 4A (Fv) or EN 1995-1-1"
    status: Status = Status.READ
    parts: tuple[str, ...] = ()
    unsound: str = ""

    @property
    def uncounted(self) -> str:
        """Return why the line is given no strength, empty where it is given some."""
        if self.unsound or not self.clamped:
            return self.unsound or "it cannot be clamped"
        end = "end grain" in self.surfaces
        return "glue on end grain or across plies gives no dependable bond" if end or self.ply_share == 0 else ""


@dataclass(frozen=True, slots=True)
class GlueResult:
    """A glue line checked: credited area mm2, capacity and demand N; it is never added to screws."""

    line: GlueLine
    load: Load
    credited_mm2: float
    capacity_n: float
    demand_n: float

    @property
    def credited(self) -> bool:
        """Return whether glue carries this joint at all; if not, screws or dowels carry it alone."""
        return self.credited_mm2 > 0

    @property
    def ratio(self) -> float:
        """Return demand over capacity."""
        return self.demand_n / self.capacity_n if self.capacity_n else math.inf

    def findings(self) -> tuple[Finding, ...]:
        """Return an overload, a note where glue is not counted, and a note on creep under a lasting load."""
        line = self.line
        found = []
        if not self.credited:
            text = f"{line.title}: glue is not counted, {line.uncounted}."
            found.append(
                notice("glue-no-credit", text, parts=line.parts, source="Wood Handbook, FPL-GTR-190, chapter 10")
            )
        elif self.ratio > 1:
            text = (
                f"{line.title}: the glue line may carry {self.capacity_n:.0f} N ({line.code}); "
                f"{self.demand_n:.0f} N come on it under {self.load.label} (duration {self.load.duration}). {LOCAL}"
            )
            status = weakest((line.status, self.load.status))
            common: dict[str, Any] = {
                "parts": line.parts,
                "value": self.demand_n,
                "limit": self.capacity_n,
                "unit": "N",
                "source": line.source,
            }
            found.append(notice("glue-line-over", text, status=status, **common))
        if self.credited and self.load.lasting > 0 and line.glue.casefold() in _CREEPING:
            text = f"{line.title}: a lasting load on {line.glue.upper()} glue."
            found.append(notice("glue-creeps", text, parts=line.parts, source="EN 204:2016 (non-structural); practice"))
        return tuple(found)


def credited_area(area_mm2: float, surfaces: tuple[str, str], ply_share: float = 1.0, *, clamped: bool = True) -> float:
    """Return the part of a glued area that is credited with strength.

    Units: mm2, share a ratio. Valid: the words of SURFACES; a joint that cannot be clamped is credited with nothing.
    Raises: ValueError for another word, OutOfValidity. Source: Wood Handbook, FPL-GTR-190, chapter 10 (end grain);
    ply edges by the share of plies along the joint.
    """
    area = not_negative("glued area", area_mm2, "mm2")
    share = within("share of plies along the joint", ply_share, 0, 1, "", "a share of the thickness")
    unknown = [s for s in surfaces if s not in SURFACES]
    if unknown:
        raise ValueError(f"a glued surface is {', '.join(SURFACES)}, not {unknown[0]!r}")
    if not clamped or "end grain" in surfaces:
        return 0.0
    return area * (share if "ply edge" in surfaces else 1.0)


def joint_capacity(credited_mm2: float, shear_mpa: tuple[float, float]) -> float:
    """Return what a glued joint may carry in shear: credited area times the design shear of the weaker side.

    Units: mm2, N/mm2; answer in N. Valid: good gap-free glue lines, stronger than the wood. Raises: OutOfValidity.
    Source: NDS Supplement 2018 Table 4A (Fv) or EN 1995-1-1 fv,d; panels by their planar shear.
    """
    weaker = min(positive("design shear", s, "N/mm2") for s in shear_mpa)
    return not_negative("credited area", credited_mm2, "mm2") * weaker


def check_glue(line: GlueLine, load: Load, force_n: float | None = None) -> GlueResult:
    """Check a glue line against the load on it; screws in the same joint are not added.

    Units: mm2, N/mm2, N. Valid: service loads against design shear; `force_n` is the part of the load on this joint,
    all of it where not given. Raises: ValueError for a test load or an unknown surface, OutOfValidity.
    Source: NDS Supplement 2018 Table 4A (Fv), EN 1995-1-1; Wood Handbook, FPL-GTR-190, chapter 10.
    """
    if load.basis != "service":
        raise ValueError("a glue line is checked with design values: give a service load, not a test load")
    sound = line.clamped and not line.unsound
    area = credited_area(line.area_mm2, line.surfaces, line.ply_share, clamped=sound)
    demand = load.force_n if force_n is None else not_negative("force", force_n, "N")
    return GlueResult(line, load, area, joint_capacity(area, line.shear_mpa), demand)


def carrier(result: GlueResult, screws_n: float) -> tuple[str, float]:
    """Return what carries a joint, glue or screws, and what it holds: the stiff glue line where it counts, else screws.

    Units: N, both on the same basis and code. Valid: joints with both; the two are never added, because the glue has
    failed before the screws have slipped enough to help. Raises: OutOfValidity.
    Source: practice: fastenings of very different stiffness do not share a load.
    """
    screws = not_negative("screw capacity", screws_n, "N")
    return ("glue", result.capacity_n) if result.credited else ("screws", screws)


def dowel_bond(diameter_mm: float, depth_mm: float, bond_mpa: float) -> float:
    """Return the withdrawal of a glued dowel, pi d L tau.

    Units: mm, N/mm2; answer in N, ultimate with a tested bond. Valid: bonds of 3.0 to 8.6 N/mm2 as tested; damp and dry
    seasons lower it to about 3. Raises: OutOfValidity. Source: Podlena 2018, BioResources 13(3) 5179; 2020, 15(1) 1665.
    """
    tau = within("dowel bond", bond_mpa, 0.5, 9, "N/mm2", "BioResources 13(3) 5179 and 15(1) 1665: 3.0 to 8.6 tested")
    return math.pi * positive("dowel diameter", diameter_mm, "mm") * positive("glued depth", depth_mm, "mm") * tau


def clamp_force(length_mm: float, width_mm: float, pressure_mpa: float) -> float:
    """Return the clamp force a glue line wants: pressure times area.

    Units: mm, N/mm2; answer in N. Valid: pressures of 0.1 to 1.8 N/mm2; sources disagree by a factor of three.
    Raises: OutOfValidity. Source: arithmetic; pressures of glue makers and Wood Handbook chapter 10 (from memory).
    """
    area = positive("length", length_mm, "mm") * positive("width", width_mm, "mm")
    return area * within("clamp pressure", pressure_mpa, 0.1, 1.8, "N/mm2", "0.34 to 1.72 N/mm2 in the sources")
