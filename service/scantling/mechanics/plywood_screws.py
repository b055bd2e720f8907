"""What tests found screws in plywood to carry sideways: averages at failure, beside which a design value is small."""

from scantling.tables import Known, UnknownRowError, load_table

from .inch_pound import MM_PER_INCH, N_PER_LB
from .validity import within

SOURCE = "APA Technical Note E830 (2011)"


def ultimate_in_plywood(screw: str, gauge: int, penetration_mm: float) -> Known:
    """Return the average ultimate lateral load of a screw in plywood under a 3/16 in steel plate.

    Units: mm, result N; `screw` is wood or tapping. Valid: gauges 8, 10, 12; threads 12.7 mm and more in the plywood:
    the row of the next shorter tested penetration is taken, nothing is extrapolated.
    Raises: OutOfValidity for less penetration, UnknownRowError for another screw. Source: APA E830 (2011) Table 1.
    """
    tested = load_table("plywood_screw_lateral").rows
    rows = [row for row in tested if (row.text("screw"), row.number("gauge")) == (screw, gauge)]
    if not rows:
        raise UnknownRowError("screw tested in plywood", f"{screw} {gauge}", _tested("plywood_screw_lateral", "screw"))
    least = min(row.number("penetration") for row in rows) * MM_PER_INCH
    within("penetration", penetration_mm, least - 0.01, 1000.0, "mm", SOURCE)
    reached = [row for row in rows if row.number("penetration") * MM_PER_INCH <= penetration_mm + 0.01]
    best = max(reached, key=lambda row: row.number("penetration"))
    return Known(best.number("load") * N_PER_LB, "N", best.source, best.status)


def ultimate_through_plywood(thickness: str, gauge: int) -> Known:
    """Return the average ultimate lateral load of a screw through plywood into 0.078 in steel sheet.

    Units: result N; thickness as printed, `1/4`, `1/2` or `3/4` (inches). Valid: those, gauges 8, 10, 12, 14.
    Raises: UnknownRowError for another. Source: APA E830 (2011) Table 2, A-C exterior.
    """
    for row in load_table("plywood_side_lateral").rows:
        if (row.text("plywood"), row.number("gauge")) == (thickness, gauge):
            return Known(row.number("load") * N_PER_LB, "N", row.source, row.status)
    raise UnknownRowError("plywood and gauge", f"{thickness} {gauge}", _tested("plywood_side_lateral", "plywood"))


def _tested(table: str, column: str) -> list[str]:
    return [f"{row.text(column)} {row.number('gauge'):g}" for row in load_table(table).rows]
