"""How far a fastener must stay from an edge, an end and its neighbour, with and without a pilot hole."""

from dataclasses import dataclass
from functools import cache

from scantling.tables import Row, Status, load_table

from .inch_pound import QUARTER_INCH_MM
from .validity import positive


@dataclass(frozen=True, slots=True)
class Distance:
    """A distance to keep, mm, where nothing is drilled and where a pilot hole is."""

    what: str
    plain_mm: float
    prebored_mm: float
    source: str
    status: Status


def edge_distance(diameter_mm: float) -> Distance:
    """Return the distance to the edge (beside the grain) of the part.

    Units: mm. Valid: diameters above zero. Raises: OutOfValidity otherwise.
    Source: NDS 2018 Commentary Tables C12.1.5.7 and C12.1.6.6 under 1/4 in (advice); Table 12.5.1C from 1/4 in.
    """
    if positive("diameter", diameter_mm, "mm") < QUARTER_INCH_MM - 1e-6:
        return _small("edge", "any", diameter_mm)
    return _large("edge", "across, loaded", diameter_mm)


def end_distance(diameter_mm: float, toward_end: bool, softwood: bool) -> Distance:
    """Return the distance to the end of the part; `toward_end` when the load pushes the fastener towards it.

    Units: mm. Valid: diameters above zero. Raises: OutOfValidity otherwise.
    Source: NDS 2018 Commentary Tables C12.1.5.7 and C12.1.6.6 under 1/4 in (advice); Table 12.5.1A from 1/4 in.
    """
    if positive("diameter", diameter_mm, "mm") < QUARTER_INCH_MM - 1e-6:
        return _small("end", "tension" if toward_end else "compression", diameter_mm)
    if toward_end:
        return _large("end", "tension, softwood" if softwood else "tension, hardwood", diameter_mm)
    return _large("end", "compression or across the grain", diameter_mm)


def spacing(diameter_mm: float, along_grain: bool) -> Distance:
    """Return the distance between fasteners in a row, along or across the grain.

    Units: mm. Valid: diameters above zero. Raises: OutOfValidity otherwise.
    Source: NDS 2018 Commentary Tables C12.1.5.7 and C12.1.6.6 under 1/4 in (advice); Table 12.5.1B from 1/4 in.
    """
    if positive("diameter", diameter_mm, "mm") < QUARTER_INCH_MM - 1e-6:
        return _small("in row", "parallel" if along_grain else "perpendicular", diameter_mm)
    return _large("in row", "parallel", diameter_mm)


def _small(distance: str, case: str, diameter_mm: float) -> Distance:
    row = _row("small_fastener_spacing", distance, case)
    plain, prebored = row.number("wood") * diameter_mm, row.number("wood_prebored") * diameter_mm
    return Distance(distance, plain, prebored, row.source, row.status)


def _large(distance: str, case: str, diameter_mm: float) -> Distance:
    """Bolts and lags sit in drilled holes: the full and the least distance take the places of plain and prebored."""
    row = _row("large_fastener_spacing", distance, case)
    return Distance(
        distance, row.number("full") * diameter_mm, row.number("least") * diameter_mm, row.source, row.status
    )


@cache
def _row(table: str, distance: str, case: str) -> Row:
    return next(row for row in load_table(table).rows if row.text("distance") == distance and row.text("case") == case)
