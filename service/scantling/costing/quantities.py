"""Take-off quantities: glue from glued area, finish from area and coats, screws from their count.

Areas are in mm2. What comes from a generic table is an estimate and says so; the label of the can or bottle rules.
"""

from collections.abc import Mapping
from fractions import Fraction
from math import ceil

from scantling.tables import coverage, glue_property, screw_stock

from .nouns import Kind, TakeOffLine

_MM2_PER_M2 = 10**6
_SAME_LENGTH_MM = 0.05


def glue_line(line_id: str, area_mm2: float, glue: str = "PVA", *, faces: int = 1) -> TakeOffLine:
    """Return the glue for a glued area (mm2), in whole grams at the most generous spread of the glue table.

    `faces` is on how many of the two surfaces it is spread. Raises UnknownRowError for a glue without a spread.
    """
    spread = glue_property(glue, "spread, one side")  # g/m2
    grams = _exact(area_mm2) / _MM2_PER_M2 * _exact(spread.most) * faces
    why = f"spread of {spread.least:g} to {spread.most:g} {spread.unit} on one side, {spread.source}; the label rules"
    return TakeOffLine(line_id, Kind.GLUE, f"{glue} glue", Fraction(ceil(grams)), "g", estimate=why)


def finish_line(
    line_id: str, area_mm2: float, finish: str, surface: str = "smooth", *, coats: int | None = None
) -> TakeOffLine:
    """Return the finish for an area (mm2), in litres at the least coverage of the finish table.

    Count edges as area too. `coats` None takes the usual number. Raises UnknownRowError for an unknown finish.
    """
    row = coverage(finish, surface)
    number = row.coats if coats is None else coats
    return coats_line(line_id, finish, area_mm2, number, row.least_m2_per_l, row.most_m2_per_l, row.source)


def coats_line(
    line_id: str, what: str, area_mm2: float, coats: int, least_m2_per_l: float, most_m2_per_l: float, source: str
) -> TakeOffLine:
    """Return the finish for so many coats on an area (mm2), in litres at the least area (m2) that one litre covers."""
    litres = _exact(area_mm2) / _MM2_PER_M2 * coats / _exact(round(least_m2_per_l, 4))
    why = (
        f"{coats} coats at {least_m2_per_l:.1f} m2/L ({least_m2_per_l:.1f} to {most_m2_per_l:.1f}), "
        f"{source}; the can rules"
    )
    return TakeOffLine(line_id, Kind.FINISH, f"{what}, {coats} coats", _rounded_up(litres), "L", estimate=why)


def finish_area(length_mm: float, width_mm: float, thickness_mm: float) -> float:
    """Return all six surfaces of a panel in mm2: 2 L W + 2 t (L + W)."""
    return 2 * length_mm * width_mm + 2 * thickness_mm * (length_mm + width_mm)


def screw_lines(counts: Mapping[tuple[int, float], int]) -> list[TakeOffLine]:
    """Return one line a size of screw; `counts` maps (gauge, length in mm) to pieces. Sorted by gauge and length."""
    lines = []
    for (gauge, length_mm), count in sorted(counts.items()):
        label = _screw_label(gauge, length_mm)
        line_id = f"screw {gauge} x {length_mm:g} mm"
        lines.append(TakeOffLine(line_id, Kind.SCREW, f"wood screw {label}", Fraction(count), "piece"))
    return lines


def box_of(gauge: int, length_mm: float) -> int | None:
    """Return how many screws of this size a box usually holds; None for a size that is not usually stocked."""
    for screw in screw_stock():
        if screw.gauge == gauge and abs(screw.length_mm - length_mm) < _SAME_LENGTH_MM:
            return screw.box
    return None


def _screw_label(gauge: int, length_mm: float) -> str:
    for screw in screw_stock():
        if screw.gauge == gauge and abs(screw.length_mm - length_mm) < _SAME_LENGTH_MM:
            return screw.label
    return f"#{gauge} x {length_mm:g} mm"


def _exact(number: float) -> Fraction:
    return Fraction(str(number))


def _rounded_up(quantity: Fraction) -> Fraction:
    """Return an estimate to three figures after the point, up: nobody measures paint finer."""
    return Fraction(-(-quantity * 1000 // 1), 1000)
