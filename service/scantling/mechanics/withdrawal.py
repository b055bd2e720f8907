"""Pulling a fastener straight out of side grain: ultimate by the Wood Handbook, design by the NDS."""

from functools import cache

from scantling.tables import UnknownRowError, load_table

from .inch_pound import MM_PER_INCH, N_MM_PER_LB_IN
from .validity import not_negative, positive, within

HANDBOOK = "Wood Handbook FPL-GTR-282, chapter 8, species of pp. 8-6 and 8-11"
NDS = "NDS 2018 Table 12.2A to 12.2E"
HANDBOOK_GRAVITY = (0.29, 0.74)
NDS_GRAVITY = (0.31, 0.73)


def ultimate_withdrawal(fastener: str, specific_gravity: float, diameter_mm: float, thread_mm: float) -> float:
    """Return the mean ultimate withdrawal load from side grain: K G^g D^d L.

    Units: diameter and threaded (for nails: driven) length in mm, result in N; specific gravity on volume at 12 %.
    Valid: specific gravity 0.29 to 0.74, seasoned wood, the right pilot hole. An average of tests, not a design value.
    Raises: OutOfValidity outside that, UnknownRowError for a fastener other than wood screw, smooth nail, ring nail,
    lag screw, drift pin. Source: Wood Handbook FPL-GTR-282 (2021) Eq. 8-1, 8-9, 8-10, 8-14, pp. 8-2 to 8-12.
    """
    row = _row("withdrawal_ultimate", fastener)
    within("specific gravity", specific_gravity, *HANDBOOK_GRAVITY, "", HANDBOOK)
    positive("diameter", diameter_mm, "mm")
    not_negative("threaded length", thread_mm, "mm")
    coefficient, power_gravity, power_diameter = row
    share: float = specific_gravity**power_gravity * diameter_mm**power_diameter
    return coefficient * share * thread_mm


def design_withdrawal(fastener: str, specific_gravity: float, diameter_mm: float) -> float:
    """Return the reference withdrawal design value per mm of thread (nails: of penetration) in side grain.

    Units: diameter in mm, result in N/mm; specific gravity on oven-dry volume. Multiply by the threaded length in the
    member holding the point (lags: less the tip) and by the adjustment factors.
    Valid: specific gravity 0.31 to 0.73. Raises: OutOfValidity outside that, UnknownRowError for a fastener other than
    wood screw, lag screw, smooth nail, stainless nail, ring nail.
    Source: NDS 2018 12.2, Eq. 12.2-1 to 12.2-3, Tables 12.2A to 12.2E.
    """
    coefficient, power_gravity, power_diameter = _row("withdrawal_design", fastener)
    within("specific gravity", specific_gravity, *NDS_GRAVITY, "", NDS)
    inches = positive("diameter", diameter_mm, "mm") / MM_PER_INCH
    share: float = specific_gravity**power_gravity * inches**power_diameter
    return coefficient * share * N_MM_PER_LB_IN


@cache
def _row(table: str, fastener: str) -> tuple[float, float, float]:
    rows = load_table(table).rows
    for row in rows:
        if row.text("fastener") == fastener:
            return row.number("coefficient"), row.number("power_gravity"), row.number("power_diameter")
    raise UnknownRowError("fastener", fastener, [row.text("fastener") for row in rows])
