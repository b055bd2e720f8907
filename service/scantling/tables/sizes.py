"""What sheets and boards measure: panel thickness by performance category, dressed lumber by nominal size."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from .errors import UnknownRowError
from .table import Status, load_table

MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class PanelCategory:
    """A plywood performance category: thickness on the label and the limits an unsanded panel may have, mm."""

    name: str
    label_mm: float
    least_mm: float
    most_mm: float
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class DressedSize:
    """A nominal thickness or width of lumber and what it measures, mm; green is None where not printed."""

    side: str
    nominal: str
    dry_mm: float
    green_mm: float | None
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class SheetSize:
    """A sheet as sold, mm."""

    name: str
    length_mm: float
    width_mm: float
    source: str
    status: Status


@cache
def panel_categories() -> Mapping[str, PanelCategory]:
    """Return the softwood plywood categories by name such as `23/32` (PS 1, unsanded panels at 9 % moisture)."""
    rows = (
        PanelCategory(
            row.text("category"),
            row.number("label") * MM_PER_INCH,
            row.number("least") * MM_PER_INCH,
            row.number("most") * MM_PER_INCH,
            row.source,
            row.status,
        )
        for row in load_table("panel_thickness").rows
    )
    return MappingProxyType({row.name: row for row in rows})


def panel_category(name: str) -> PanelCategory:
    """Return one plywood category. Raises UnknownRowError naming the categories there are."""
    try:
        return panel_categories()[name]
    except KeyError:
        raise UnknownRowError("panel category", name, panel_categories()) from None


@cache
def dressed_sizes() -> Mapping[tuple[str, str], DressedSize]:
    """Return dressed lumber by side (`thickness`, `width`) and nominal size such as `2` (PS 20)."""
    rows = (
        DressedSize(
            row.text("side"),
            row.text("nominal"),
            row.number("dry") * MM_PER_INCH,
            _millimetres(row.maybe("green")),
            row.source,
            row.status,
        )
        for row in load_table("lumber_sizes").rows
    )
    return MappingProxyType({(row.side, row.nominal): row for row in rows})


def dressed_size(side: str, nominal: str) -> DressedSize:
    """Return one dressed size, mm. Raises UnknownRowError naming what there is for that side."""
    try:
        return dressed_sizes()[side, nominal]
    except KeyError:
        known = [size for of, size in dressed_sizes() if of == side] or sorted({of for of, _ in dressed_sizes()})
        raise UnknownRowError(f"nominal {side}", nominal, known) from None


@cache
def sheet_sizes() -> tuple[SheetSize, ...]:
    """Return the sheet sizes in trade, mm."""
    return tuple(
        SheetSize(row.text("name"), row.number("length"), row.number("width"), row.source, row.status)
        for row in load_table("sheet_sizes").rows
    )


def _millimetres(inches: float | None) -> float | None:
    return None if inches is None else inches * MM_PER_INCH
