"""A head pulling through the part under it."""

from math import pi

from scantling.tables import Known, UnknownRowError, load_table

from .inch_pound import MM_PER_INCH, N_MM2_PER_PSI
from .validity import positive, within
from .withdrawal import NDS_GRAVITY

NDS_TABLE = "NDS 2018 12.2.5, Table 12.2F"
LEAST_HEAD_MM = 0.234 * MM_PER_INCH
MOST_HEAD_MM = 0.500 * MM_PER_INCH
LEAST_THICKNESS_MM = 5 / 16 * MM_PER_INCH
THIN = 690.0  # psi, Eq. 12.2-6a, up to 2.5 head diameters
THICK = 1725.0  # psi, Eq. 12.2-6b, beyond


def design_pull_through(head_mm: float, specific_gravity: float, thickness_mm: float) -> float:
    """Return the reference head pull-through design value of a round head on the part under it.

    Units: head diameter and net thickness under the head in mm, result in N; specific gravity on oven-dry volume
    (panels by NDS Table 12.3.3B). Valid: heads 0.234 to 0.500 in (5.9 to 12.7 mm), parts from 5/16 in (7.9 mm),
    specific gravity 0.31 to 0.73. Raises: OutOfValidity outside that.
    Source: NDS 2018 12.2.5, Eq. 12.2-6a and 12.2-6b, Table 12.2F, p. 82.
    """
    within("head diameter", head_mm, LEAST_HEAD_MM - 1e-6, MOST_HEAD_MM + 1e-6, "mm", NDS_TABLE)
    within("specific gravity", specific_gravity, *NDS_GRAVITY, "", NDS_TABLE)
    within("thickness under the head", thickness_mm, LEAST_THICKNESS_MM - 1e-6, 1000.0, "mm", NDS_TABLE)
    if thickness_mm <= 2.5 * head_mm:
        return THIN * N_MM2_PER_PSI * pi * head_mm * specific_gravity**2 * thickness_mm
    return THICK * N_MM2_PER_PSI * pi * head_mm**2 * specific_gravity**2


def bearing_across_grain(material: str) -> Known:
    """Return the reference bearing strength across the grain of a lumber species group (the same in all its grades).

    Units: N/mm2. Valid: species of the design value tables. Raises: UnknownRowError naming them.
    Source: NDS Supplement 2018 Tables 4A and 4B.
    """
    known = []
    for table, factor in (("lumber_design", N_MM2_PER_PSI), ("lumber_design_metric", 1.0)):
        for row in load_table(table).rows:
            known.append(row.text("material"))
            if row.text("material") == material:
                value = row.number("compression_perpendicular") * factor
                return Known(value, "N/mm2", row.source, row.status)
    raise UnknownRowError("bearing strength across the grain of", material, dict.fromkeys(known))


def washer_bearing(washer_mm: float, hole_mm: float, bearing: float) -> float:
    """Return what the wood under a washer carries: its net area times the bearing strength across the grain.

    Units: mm, N/mm2, result N. Valid: a washer wider than its hole. Raises: OutOfValidity otherwise.
    Source: NDS 2018 3.10.2 (no load duration factor); the washer must be thick enough not to cup (practice).
    """
    within("washer diameter", washer_mm, positive("hole diameter", hole_mm, "mm"), 200.0, "mm", "geometry")
    return positive("bearing strength", bearing, "N/mm2", "NDS Supplement 2018") * pi / 4 * (washer_mm**2 - hole_mm**2)
