"""A member checked: bending, shear, bearing, side buckling and sag; each ratio names load, duration, basis and code."""

import math
from dataclasses import dataclass

from scantling.findings import Finding
from scantling.tables import Status

from .basis import Strength, WoodValues
from .beams import (
    Section,
    beam_case,
    bearing_stress,
    bending_stress,
    deflection,
    moment,
    shear,
    shear_stiffness,
    shear_stress,
)
from .columns import beam_stability, ec5_side_buckling
from .figures import weakest
from .loads import Load
from .notice import LOCAL, notice
from .validity import positive, within

SIDE_LIMIT = 50.0  # RB of NDS 2018 3.3.3.7


@dataclass(frozen=True, slots=True)
class Member:
    """A straight piece between supports: section, span mm, load case, wood, how far it rests, and its part names.

    `share` is the part of the load this piece takes (a slat among several); `held_mm` the length between points that
    keep it from tipping sideways (the span where nothing does).
    """

    title: str
    section: Section
    width_mm: float
    span_mm: float
    case: str
    wood: WoodValues
    bearing_mm: float | None = None
    held_mm: float | None = None
    share: float = 1.0
    service_class: int = 1
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Stress:
    """One ratio: what, demand and allowed in N/mm2, and how well the allowed value is known."""

    what: str
    demand: float
    allowed: float
    status: Status

    @property
    def ratio(self) -> float:
        """Return demand over allowed."""
        return self.demand / self.allowed


@dataclass(frozen=True, slots=True)
class MemberResult:
    """A member under one load: its stresses, sag mm, sag limit mm, moment N mm; `.findings()` says what matters.

    `edges` is 4 for a panel that rests all round, reckoned as a plate.
    """

    member: Member
    load: Load
    strength: Strength
    stresses: tuple[Stress, ...]
    moment_nmm: float
    sag_mm: float
    sag_limit_mm: float | None
    slenderness: float = 0.0
    edges: int = 2

    @property
    def worst(self) -> Stress:
        """Return the stress nearest or furthest over its allowed value."""
        return max(self.stresses, key=lambda s: s.ratio)

    def findings(self) -> tuple[Finding, ...]:
        """Return errors for strength exceeded (warnings where a value is from memory) and a warning for sag."""
        found = [self._over(s) for s in self.stresses if s.ratio > 1]
        if self.slenderness > SIDE_LIMIT:
            text = f"{self.member.title} is so tall and thin that it rolls over sideways (RB {self.slenderness:.0f})."
            source = "NDS 2018 3.3.3.7"
            found.append(
                notice(
                    "member-tips-sideways",
                    text,
                    parts=self.member.parts,
                    value=self.slenderness,
                    limit=SIDE_LIMIT,
                    source=source,
                )
            )
        if self.sag_limit_mm is not None and self.sag_mm > self.sag_limit_mm:
            m = self.member
            found.append(
                notice(
                    "member-bends-too-far",
                    f"{m.title} sags {self.sag_mm:.1f} mm over {m.span_mm:.0f} mm under {self.load.label}; "
                    f"the limit asked for is {self.sag_limit_mm:.1f} mm (span/{m.span_mm / self.sag_limit_mm:.0f}).",
                    parts=m.parts,
                    value=self.sag_mm,
                    limit=self.sag_limit_mm,
                    unit="mm",
                    source="Wood Handbook, FPL-GTR-282, Eq 9-2; " + m.wood.source,
                )
            )
        return tuple(found)

    def _over(self, stress: Stress) -> Finding:
        m = self.member
        note = f" {m.wood.note[:1].upper()}{m.wood.note[1:]}." if m.wood.note else ""
        return notice(
            "member-over-strength",
            f"{m.title}: {stress.what} reaches {stress.demand:.1f} N/mm2 under {self.load.label}; "
            f"{stress.allowed:.1f} N/mm2 is allowed ({self.strength.basis} value, {self.strength.code}).{note} {LOCAL}",
            status=weakest((stress.status, self.load.status)),
            parts=m.parts,
            value=stress.demand,
            limit=stress.allowed,
            unit="N/mm2",
            source=f"{m.wood.source}; load: {self.load.source}",
        )


def check_member(member: Member, load: Load, *, sag_ratio: float | None = None) -> MemberResult:
    """Check one straight member under one load.

    Units: mm, N, N/mm2. Valid: straight pieces of one material, elastic, within the cases of `beam_cases`; a service
    load meets a design value and a test load meets test strength, each by its own code. `sag_ratio` 300
    means span/300 and is asked of service loads only.
    Raises: OutOfValidity, UnknownRowError for the case, ValueError for a share outside 0 to 1.
    Source: Wood Handbook, FPL-GTR-282, Eq 9-2; NDS 2018 chapter 3 or EN 1995-1-1 chapter 6, as the wood's values say.
    """
    within("share of the load", member.share, 0, 1, "", "one piece takes all of a load at most")
    strength = member.wood.test() if load.basis == "test" else member.wood.service(load.duration, member.service_class)
    force = load.force_n * member.share
    m, v = moment(member.case, force, member.span_mm), shear(member.case, force)
    ei = strength.modulus * member.section.inertia_mm4
    sag = deflection(member.case, force, member.span_mm, ei, shear_stiffness(member.section, member.wood.shear_modulus))
    stability, slender = _side_stability(member, strength)
    allowed = strength.bending * stability
    stresses = [
        Stress("bending", bending_stress(m, member.section), allowed, strength.status_of("bending")),
        Stress("shear", shear_stress(v, member.section), strength.shear, strength.status_of("shear")),
    ]
    if member.bearing_mm is not None:
        pressed = bearing_stress(v, member.width_mm, member.bearing_mm)
        stresses.append(Stress("pressure where it rests", pressed, strength.bearing, strength.status_of("bearing")))
    limit = None
    if sag_ratio is not None and load.basis == "service":
        limit = member.span_mm / within("sag limit", sag_ratio, 50, 2000, "(span over)", "ratios of span to sag in use")
    return MemberResult(member, load, strength, tuple(stresses), m, sag, limit, slender)


def fixes(result: MemberResult, *, target: float = 1.0) -> tuple[float, float]:
    """Return what would mend an overloaded member: the depth it needs and the span it may have.

    Units: mm. Valid: rectangles whose width stays; bending and sag both met. Raises: OutOfValidity.
    Source: statics: stress falls with the square of depth and with span, sag with the cube of both.
    """
    positive("target ratio", target, "")
    over = max(result.worst.ratio / target, 1e-9)
    sag = 0.0 if result.sag_limit_mm is None else result.sag_mm / result.sag_limit_mm
    depth = result.member.section.depth_mm * max(over**0.5, sag ** (1 / 3))
    line = beam_case(result.member.case).name.startswith("uniform")
    span = result.member.span_mm / max(over ** (0.5 if line else 1.0), sag ** (1 / (3 if line else 2)) if sag else 0.0)
    return depth, span


def shared_by(people: int, members: int) -> float:
    """Return the share of the whole load one member must be able to carry alone where a lever rule cannot share it.

    Units: no unit, a ratio of N to N. Valid: at least one of each. Raises: ValueError.
    Source: practice: the worst path is reported as a bound, one person may stand on one member.
    """
    if people < 1 or members < 1:
        raise ValueError("there is at least one person and one member")
    return min(1.0, max(1.0 / members, 1.0 / people))


def _side_stability(member: Member, strength: Strength) -> tuple[float, float]:
    """Return CL or kcrit for a tall thin beam of solid wood, and RB; 1 and 0 where it is held or not tall."""
    depth, width = member.section.depth_mm, member.width_mm
    held = member.span_mm if member.held_mm is None else member.held_mm
    if depth <= width or held <= 0 or (member.wood.method == "ec5" and member.wood.kmod_row != "solid timber"):
        return 1.0, 0.0
    if member.wood.method == "ec5":
        wood = member.wood
        return ec5_side_buckling(width, depth, 0.9 * held + 2 * depth, wood.modulus_min, wood.bending)[1], 0.0
    effective = 1.63 * held + 3 * depth if held / depth >= 7 else 2.06 * held  # NDS 2018 Table 3.3.3, spread load
    slender = math.sqrt(effective * depth) / width
    return beam_stability(member.wood.modulus_min, min(slender, SIDE_LIMIT), strength.bending), slender
