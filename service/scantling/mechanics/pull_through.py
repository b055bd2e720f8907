"""A head pulling through the part under it."""

from math import pi

from .inch_pound import MM_PER_INCH, N_MM2_PER_PSI
from .validity import within
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
