"""Lag screws, nails, drill bits and lead holes: typed rows of the fastener tables."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from .errors import UnknownRowError
from .table import Row, Status, load_table

MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class LagScrew:
    """A lag screw: diameters and length of the tapered tip in mm, bending yield strength in psi as printed."""

    label: str
    diameter_mm: float
    root_mm: float
    tip_mm: float
    bending_yield_psi: float
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class Nail:
    """A nail: diameter, length and head in mm (None where not known), bending yield strength in psi as printed.

    `length_status` says how well its length is known, which need not be as well as its diameter.
    """

    kind: str
    pennyweight: str
    diameter_mm: float
    length_mm: float | None
    head_mm: float | None
    bending_yield_psi: float
    source: str
    status: Status
    length_status: Status


@dataclass(frozen=True, slots=True)
class DrillBit:
    """A drill bit of a common set."""

    label: str
    diameter_mm: float
    source: str
    status: Status

    @property
    def inch(self) -> bool:
        """Return True for a bit of the fractional set."""
        return self.label.endswith(" in")


@dataclass(frozen=True, slots=True)
class LeadHole:
    """A lead hole as a share of the root or the diameter, by specific gravity; `least` 0 means it may be left out."""

    fastener: str
    use: str
    above: float
    up_to: float
    least: float
    most: float
    of: str
    source: str
    status: Status


@cache
def lag_screws() -> Mapping[str, LagScrew]:
    """Return lag screws by diameter in inches as written, such as `3/8` (NDS 2018 Appendix Table L2)."""
    rows = (
        LagScrew(
            row.text("label"),
            row.number("diameter") * MM_PER_INCH,
            row.number("root") * MM_PER_INCH,
            row.number("tip") * MM_PER_INCH,
            row.number("bending_yield"),
            row.source,
            row.status,
        )
        for row in load_table("lag_screws").rows
    )
    return MappingProxyType({row.label: row for row in rows})


def lag_screw(label: str) -> LagScrew:
    """Return one lag screw. Raises UnknownRowError naming the diameters there are."""
    try:
        return lag_screws()[label]
    except KeyError:
        raise UnknownRowError("lag screw diameter", label, lag_screws()) from None


@cache
def nails() -> Mapping[tuple[str, str], Nail]:
    """Return nails by kind (`common`, `box`, `sinker`) and pennyweight such as `8d` (NDS 2018 Appendix Table L4)."""
    rows = (_nail(row) for row in load_table("nails").rows)
    return MappingProxyType({(row.kind, row.pennyweight): row for row in rows})


def _nail(row: Row) -> Nail:
    """Return one nail; a length that its own row does not give is looked up among those known less well."""
    kind, pennyweight = row.text("kind"), row.text("pennyweight")
    others = (
        r for r in load_table("nail_lengths").rows if (r.text("kind"), r.text("pennyweight")) == (kind, pennyweight)
    )
    sized = row if row.maybe("length") is not None else next(others, row)
    return Nail(
        kind,
        pennyweight,
        row.number("diameter") * MM_PER_INCH,
        _millimetres(sized.maybe("length")),
        _millimetres(row.maybe("head")),
        row.number("bending_yield"),
        row.source,
        row.status,
        sized.status,
    )


def nail(kind: str, pennyweight: str) -> Nail:
    """Return one nail. Raises UnknownRowError naming the nails there are."""
    try:
        return nails()[kind, pennyweight]
    except KeyError:
        known = [f"{of} {size}" for of, size in nails()]
        raise UnknownRowError("nail", f"{kind} {pennyweight}", known) from None


@cache
def drill_bits() -> tuple[DrillBit, ...]:
    """Return the bits of common sets by diameter (common practice): 64ths of an inch and half millimetres."""
    rows = (
        DrillBit(row.text("label"), row.number("diameter"), row.source, row.status)
        for row in load_table("drill_bits").rows
    )
    return tuple(sorted(rows, key=lambda bit: (bit.diameter_mm, bit.label)))


@cache
def lead_holes() -> tuple[LeadHole, ...]:
    """Return the lead holes of screws, lags and nails (NDS 2018 12.1.4 to 12.1.6)."""
    return tuple(
        LeadHole(
            row.text("fastener"),
            row.text("use"),
            row.number("above"),
            row.number("up_to"),
            row.number("least"),
            row.number("most"),
            row.text("of"),
            row.source,
            row.status,
        )
        for row in load_table("lead_holes").rows
    )


def bending_yield_psi(diameter_mm: float) -> float:
    """Return the bending yield strength (psi) of a nail or wood screw by its diameter (NDS 2018 Table 12L footnotes).

    Raises ValueError outside 0.099 to 0.375 in, naming the limits.
    """
    inches = diameter_mm / MM_PER_INCH
    rows = load_table("bending_yield").rows
    low, high = rows[0].number("least"), rows[-1].number("most")
    if low - 1e-6 <= inches <= high + 1e-6:
        return next(row.number("bending_yield") for row in rows if inches <= row.number("most") + 1e-6)
    raise ValueError(
        f"a diameter of {diameter_mm:.2f} mm has no bending yield strength in {rows[0].source}:"
        f" {low * MM_PER_INCH:.2f} to {high * MM_PER_INCH:.2f} mm"
    )


def _millimetres(inches: float | None) -> float | None:
    return None if inches is None else inches * MM_PER_INCH
