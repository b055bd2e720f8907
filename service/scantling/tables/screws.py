"""Wood screws by gauge, and the lengths and boxes a hardware shop sells."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from .errors import UnknownGauge
from .table import Status, load_table

MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class ScrewGauge:
    """A wood screw by number: diameters in mm, bending yield strength in psi as printed; None where not printed."""

    gauge: int
    diameter_mm: float
    root_mm: float | None
    head_mm: float | None
    bending_yield_psi: float
    source: str
    status: Status

    @property
    def diameter_in(self) -> float:
        """Return the shank diameter in inches, as printed."""
        return round(self.diameter_mm / MM_PER_INCH, 6)

    @property
    def head_in(self) -> float | None:
        """Return the head diameter in inches, as printed."""
        return None if self.head_mm is None else round(self.head_mm / MM_PER_INCH, 6)


@dataclass(frozen=True, slots=True)
class StockScrew:
    """A screw as sold: gauge, length in mm, how it is written on the box, and pieces in a box."""

    gauge: int
    length_mm: float
    label: str
    box: int
    source: str
    status: Status


@cache
def screw_gauges() -> Mapping[int, ScrewGauge]:
    """Return the wood screws by gauge (NDS 2018 Appendix Table L3; gauges 4 and 5 Wood Handbook Table 8-9)."""
    return MappingProxyType(
        {
            int(row.number("gauge")): ScrewGauge(
                int(row.number("gauge")),
                row.number("diameter") * MM_PER_INCH,
                _millimetres(row.maybe("root")),
                _millimetres(row.maybe("head")),
                row.number("bending_yield"),
                row.source,
                row.status,
            )
            for row in load_table("screw_gauges").rows
        }
    )


def screw_gauge(gauge: int) -> ScrewGauge:
    """Return one gauge. Raises UnknownGauge naming the gauges there are."""
    try:
        return screw_gauges()[gauge]
    except KeyError:
        raise UnknownGauge(gauge, screw_gauges()) from None


@cache
def screw_stock() -> tuple[StockScrew, ...]:
    """Return the screws as sold, by gauge and length (common practice)."""
    rows = (
        StockScrew(
            int(row.number("gauge")),
            row.number("length") * MM_PER_INCH,
            row.text("label"),
            int(row.number("box")),
            row.source,
            row.status,
        )
        for row in load_table("screw_stock").rows
    )
    return tuple(sorted(rows, key=lambda screw: (screw.gauge, screw.length_mm)))


def _millimetres(inches: float | None) -> float | None:
    return None if inches is None else inches * MM_PER_INCH
