"""Single published figures by name, each with unit, source and how well it is known; and what follows from that."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from scantling.tables import Row, Status, UnknownRowError, load_table

# To the engine's own units: mm, N, kg, litres, N/mm2; anything else stays as it is printed.
_TO_ENGINE = MappingProxyType(
    {"in": 25.4, "ft": 304.8, "m": 1000.0, "lb": 4.448222, "psi": 0.006894757, "ft3": 28.316847, "10^6 psi": 6894.757}
)
_TABLE = "check_figures"


@dataclass(frozen=True, slots=True)
class Figure:
    """One number as printed: value and unit of the source, the same in engine units, and how well it is known."""

    name: str
    value: float
    unit: str
    source: str
    status: Status

    @property
    def si(self) -> float:
        """Return the value in engine units (mm, N, N/mm2, litres); other units unchanged."""
        return self.value * _TO_ENGINE.get(self.unit, 1.0)

    @property
    def decides(self) -> bool:
        """Return whether the figure may decide pass or fail: one from memory may only inform."""
        return self.status is not Status.MEMORY


@cache
def figures() -> Mapping[str, Figure]:
    """Return every figure by name.

    Units: each figure's own, mm or N among them. Valid: while the data file keeps the rules of the tables.
    Raises: TableError for a data file that breaks them. Source: named in every row.
    """
    return MappingProxyType({row.text("figure"): _figure(row) for row in load_table(_TABLE).rows})


def figure(name: str) -> Figure:
    """Return one figure.

    Units: the figure's own, see its `unit`; `.si` gives mm or N. Valid: for the names in the data file.
    Raises: UnknownRowError naming the nearest names. Source: the figure's own.
    """
    try:
        return figures()[name]
    except KeyError:
        raise UnknownRowError("published figure", name, figures()) from None


def engine(value: float, unit: str) -> float:
    """Return a printed value in engine units.

    Units: from in, ft, m, lb, psi, 10^6 psi, ft3 to mm, N, N/mm2 and litres; anything else unchanged.
    Valid: for every number. Raises: nothing. Source: definition of the inch and the pound-force.
    """
    return value * _TO_ENGINE.get(unit, 1.0)


def weakest(statuses: Iterable[Status]) -> Status:
    """Return how well a result is known: as well as the least known number in it.

    Units: no unit. Valid: for any number of statuses; none at all counts as derived. Raises: nothing.
    Source: rule of the house: a figure from memory may inform, it never decides.
    """
    order = (Status.READ, Status.DERIVED, Status.MEMORY)
    return max(statuses, key=order.index, default=Status.DERIVED)


def _figure(row: Row) -> Figure:
    return Figure(row.text("figure"), row.number("value"), row.unit, row.source, row.status)
