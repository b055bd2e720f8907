"""Holes for a screw: the pilot by gauge and wood, the clearance hole through the upper part, the countersink."""

from dataclasses import dataclass
from functools import cache
from math import radians, tan

from scantling.tables import DrillBit, LeadHole, Status, drill_bits, lead_holes, look_up

from .inch_pound import MM_PER_INCH
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


@cache
def pilot_hole(diameter_mm: float, root_mm: float | None, specific_gravity: float, sideways: bool) -> Hole:
    """Return the pilot hole for the thread of a wood screw, for withdrawal or, `sideways`, for a lateral load.

    Units: mm; specific gravity on oven-dry volume. Valid: specific gravity 0.2 to 1.0. Raises: OutOfValidity otherwise.
    Source: NDS 2018 12.1.5: 90 % of the root from 0.6, 70 % between 0.5 and 0.6, none needed below (70 % is given);
    lateral loads 100 % of the root from 0.6, 7/8 below. The bit is the nearest of a common set.
    """
    positive("screw diameter", diameter_mm, "mm")
    within("specific gravity", specific_gravity, 0.2, 1.0, "", "NDS 2018 12.1.5")
    row = _lead_hole("wood screw", "lateral thread" if sideways else "withdrawal", specific_gravity)
    known = root_mm is not None
    root = root_mm if root_mm is not None else ROOT_SHARE * diameter_mm
    wanted = row.most * root
    status = row.status if known else Status.DERIVED
    return Hole(wanted, _nearest(wanted, True), _nearest(wanted, False), row.least > 0, row.source, status)


@cache
def clearance_hole(diameter_mm: float) -> Hole:
    """Return the hole through the upper part in which the shank turns freely: the first bit not under the shank.

    Units: mm. Valid: diameters of common bits, 1 to 28 mm. Raises: OutOfValidity otherwise.
    Source: shank of NDS 2018 Appendix Table L3 and common bit sets; workshop charts agree to one 64th of an inch.
    """
    within("shank diameter", diameter_mm, 1.0, 28.0, "mm", "common drill bits")
    source = "NDS 2018 Appendix Table L3 (shank) and common drill bits"
    return Hole(diameter_mm, _from(diameter_mm, True), _from(diameter_mm, False), True, source, Status.DERIVED)


@cache
def bolt_hole(diameter_mm: float) -> Hole:
    """Return the hole of a bolt: 1/32 in over the bolt, never more than 1/16 in; the first bit not under that.

    Units: mm. Valid: bolts of 6 to 26 mm. Raises: OutOfValidity otherwise. Source: NDS 2018 12.1.3.
    """
    within("bolt diameter", diameter_mm, 6.0, 26.0, "mm", "NDS 2018 12.1.3")
    over = look_up("bolt_holes", "value", what="least over the bolt")
    wanted = diameter_mm + over.value * MM_PER_INCH
    return Hole(wanted, _from(wanted, True), _from(wanted, False), True, over.source, over.status)


@cache
def lag_pilot(diameter_mm: float, specific_gravity: float) -> Hole:
    """Return the hole for the thread of a lag screw: the middle of the published share of its diameter.

    Units: mm; specific gravity on oven-dry volume. Valid: specific gravity 0.2 to 1.0. Raises: OutOfValidity otherwise.
    Source: NDS 2018 12.1.4.2; up to 3/8 in in wood of 0.50 and less, for withdrawal only, none is needed (12.1.4.3).
    """
    within("specific gravity", specific_gravity, 0.2, 1.0, "", "NDS 2018 12.1.4")
    row = _lead_hole("lag screw", "thread", specific_gravity)
    wanted = (row.least + row.most) / 2 * positive("lag diameter", diameter_mm, "mm")
    needed = specific_gravity > 0.5 or diameter_mm > 3 / 8 * MM_PER_INCH + 1e-6
    return Hole(wanted, _nearest(wanted, True), _nearest(wanted, False), needed, row.source, row.status)


@cache
def nail_hole(diameter_mm: float, specific_gravity: float) -> Hole:
    """Return the widest hole a nail may have; none is needed, it only keeps the wood from splitting.

    Units: mm; specific gravity on oven-dry volume. Valid: specific gravity 0.2 to 1.0. Raises: OutOfValidity otherwise.
    Source: NDS 2018 12.1.6 (90 % of the nail above 0.6, 75 % below).
    """
    within("specific gravity", specific_gravity, 0.2, 1.0, "", "NDS 2018 12.1.6")
    row = _lead_hole("nail", "hole", specific_gravity)
    wanted = row.most * positive("nail diameter", diameter_mm, "mm")
    return Hole(wanted, _below(wanted, True), _below(wanted, False), False, row.source, row.status)


@cache
def dowel_hole(diameter_mm: float) -> Hole:
    """Return the hole of a dowel: its own diameter, in both parts.

    Units: mm. Valid: dowels of 3 to 26 mm. Raises: OutOfValidity otherwise.
    Source: common practice; Hoadley advises a few thousandths of an inch over.
    """
    within("dowel diameter", diameter_mm, 3.0, 26.0, "mm", "common drill bits")
    source = "common practice: the dowel's own size"
    return Hole(diameter_mm, _nearest(diameter_mm, True), _nearest(diameter_mm, False), True, source, Status.MEMORY)


@cache
def countersink(head_mm: float, diameter_mm: float, system: str = "inch") -> Countersink:
    """Return the countersink of a flat head.

    Units: mm, degrees. Valid: a head wider than the shank; `system` inch or metric. Raises: OutOfValidity for the head,
    UnknownRowError for another system. Source: ASME B18.6.1 head angle 80 to 82 degrees (from memory).
    """
    within("head diameter", head_mm, diameter_mm, 40.0, "mm", "geometry of a flat head")
    angle = look_up("countersinks", "angle", system=system)
    depth = (head_mm - diameter_mm) / 2 / tan(radians(angle.value / 2))
    return Countersink(head_mm, depth, angle.value, angle.source, angle.status)


def _lead_hole(fastener: str, use: str, specific_gravity: float) -> LeadHole:
    """Return the row of a wood: at 0.6 a wood screw counts the denser wood, lags and nails the lighter one."""
    rows = [row for row in lead_holes() if row.fastener == fastener and row.use == use]
    densest = max(rows, key=lambda row: row.above)
    if specific_gravity > densest.above or (fastener == "wood screw" and specific_gravity == densest.above):
        return densest
    return next(row for row in rows if row is not densest and row.above < specific_gravity <= row.up_to)


def _from(diameter_mm: float, inch: bool) -> DrillBit:
    return next(bit for bit in drill_bits() if bit.inch is inch and bit.diameter_mm >= diameter_mm - 0.01)


def _below(diameter_mm: float, inch: bool) -> DrillBit:
    return [bit for bit in drill_bits() if bit.inch is inch and bit.diameter_mm <= diameter_mm + 0.01][-1]


def _nearest(diameter_mm: float, inch: bool) -> DrillBit:
    bits = [bit for bit in drill_bits() if bit.inch is inch]
    return min(bits, key=lambda bit: (abs(bit.diameter_mm - diameter_mm), bit.diameter_mm))
