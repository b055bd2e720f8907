"""Holes for a screw: the pilot by gauge and wood, the clearance hole through the upper part, the countersink."""

from dataclasses import dataclass
from math import radians, tan

from scantling.tables import DrillBit, LeadHole, Status, drill_bits, lead_holes, look_up

from .validity import positive, within

# Root over shank of the printed screws is 0.78 to 0.82 (NDS 2018 Appendix Table L3); where a root is not printed.
ROOT_SHARE = 0.80


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole to drill: exact diameter wanted and the nearest bits, mm; `needed` False means it may be left out."""

    diameter_mm: float
    bit_inch: DrillBit
    bit_metric: DrillBit
    needed: bool
    source: str
    status: Status

    def to_plain(self) -> dict[str, object]:
        """Return the hole as JSON members."""
        return {
            "diameter_mm": round(self.diameter_mm, 2),
            "drill": self.bit_inch.label,
            "drill_mm": self.bit_metric.diameter_mm,
            "needed": self.needed,
            "source": self.source,
            "status": self.status.value,
        }


@dataclass(frozen=True, slots=True)
class Countersink:
    """The cone for a flat head: its width and depth, mm, and its angle, degrees."""

    diameter_mm: float
    depth_mm: float
    angle_deg: float
    source: str
    status: Status

    def to_plain(self) -> dict[str, object]:
        """Return the countersink as JSON members."""
        return {
            "diameter_mm": round(self.diameter_mm, 2),
            "depth_mm": round(self.depth_mm, 2),
            "angle_degrees": self.angle_deg,
            "source": self.source,
            "status": self.status.value,
        }


def pilot_hole(diameter_mm: float, root_mm: float | None, specific_gravity: float, sideways: bool) -> Hole:
    """Return the pilot hole for the thread of a wood screw, for withdrawal or, `sideways`, for a lateral load.

    Units: mm; specific gravity on oven-dry volume. Valid: specific gravity 0.2 to 1.0. Raises: OutOfValidity otherwise.
    Source: NDS 2018 12.1.5: 90 % of the root from 0.6, 70 % between 0.5 and 0.6, none needed below (70 % is given);
    lateral loads 100 % of the root from 0.6, 7/8 below. The bit is the nearest of a common set.
    """
    positive("screw diameter", diameter_mm, "mm")
    within("specific gravity", specific_gravity, 0.2, 1.0, "", "NDS 2018 12.1.5")
    row = _lead_hole("lateral thread" if sideways else "withdrawal", specific_gravity)
    known = root_mm is not None
    root = root_mm if root_mm is not None else ROOT_SHARE * diameter_mm
    wanted = row.most * root
    status = row.status if known else Status.DERIVED
    needed = row.least > 0 and not (sideways and specific_gravity <= 0.5)
    return Hole(wanted, _nearest(wanted, True), _nearest(wanted, False), needed, row.source, status)


def clearance_hole(diameter_mm: float) -> Hole:
    """Return the hole through the upper part in which the shank turns freely: the first bit not under the shank.

    Units: mm. Valid: diameters of common bits, up to 12.7 mm. Raises: OutOfValidity otherwise.
    Source: shank of NDS 2018 Appendix Table L3 and common bit sets; workshop charts agree to one 64th of an inch.
    """
    within("shank diameter", diameter_mm, 1.0, 12.7, "mm", "common drill bits")
    inch = next(bit for bit in drill_bits() if bit.inch and bit.diameter_mm >= diameter_mm - 0.01)
    metric = next(bit for bit in drill_bits() if not bit.inch and bit.diameter_mm >= diameter_mm - 0.01)
    source = "NDS 2018 Appendix Table L3 (shank) and common drill bits"
    return Hole(diameter_mm, inch, metric, True, source, Status.DERIVED)


def countersink(head_mm: float, diameter_mm: float, system: str = "inch") -> Countersink:
    """Return the countersink of a flat head.

    Units: mm, degrees. Valid: a head wider than the shank; `system` inch or metric. Raises: OutOfValidity for the head,
    UnknownRowError for another system. Source: ASME B18.6.1 head angle 80 to 82 degrees (from memory).
    """
    within("head diameter", head_mm, diameter_mm, 40.0, "mm", "geometry of a flat head")
    angle = look_up("countersinks", "angle", system=system)
    depth = (head_mm - diameter_mm) / 2 / tan(radians(angle.value / 2))
    return Countersink(head_mm, depth, angle.value, angle.source, angle.status)


def _lead_hole(use: str, specific_gravity: float) -> LeadHole:
    rows = [row for row in lead_holes() if row.fastener == "wood screw" and row.use == use]
    densest = max(rows, key=lambda row: row.above)
    if specific_gravity >= densest.above:
        return densest
    return next(row for row in rows if row is not densest and row.above < specific_gravity <= row.up_to)


def _nearest(diameter_mm: float, inch: bool) -> DrillBit:
    bits = [bit for bit in drill_bits() if bit.inch is inch]
    return min(bits, key=lambda bit: (abs(bit.diameter_mm - diameter_mm), bit.diameter_mm))
