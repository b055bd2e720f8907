"""The two bases a load may be compared on, and the reference values a piece of wood or panel has on them.

A person's load in service is compared with a design value; a test load with the strength a test piece has. The two are
never crossed, and every value says which code, which duration and which factor it stands on.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType

from scantling.tables import Row, Status, UnknownRowError, load_table

from .figures import figure, weakest

DURATIONS = ("permanent", "long", "medium", "short", "instantaneous")
_NDS_DURATION = MappingProxyType(
    dict(zip(DURATIONS, ("permanent", "ten years", "two months", "seven days", "ten minutes"), strict=True))
)


@dataclass(frozen=True, slots=True)
class Strength:
    """Stresses a piece may take, N/mm2, on one basis: `design` for service loads, `ultimate` for test loads."""

    bending: float
    shear: float
    bearing: float
    compression: float
    modulus: float
    basis: str
    code: str
    factor: float
    status: Status
    source: str
    assumed: tuple[str, ...] = ()

    def status_of(self, stress: str) -> Status:
        """Return how well the value of bending, shear, bearing or compression is known."""
        return Status.MEMORY if stress in self.assumed else self.status


@dataclass(frozen=True, slots=True)
class WoodValues:
    """Reference values of a piece, N/mm2, before load duration; `assumed` names those from memory.

    `method` is nds (allowable) or ec5 (characteristic).
    """

    material: str
    bending: float
    shear: float
    bearing: float
    compression: float
    modulus: float
    modulus_min: float
    shear_modulus: float
    method: str
    kmod_row: str
    gamma: float
    status: Status
    source: str
    note: str = ""
    assumed: tuple[str, ...] = ()

    def service(self, duration: str = "long", service_class: int = 1) -> Strength:
        """Return design values for a load that stands as long as the word says; service class 3 is wet in use.

        Raises ValueError for the word.
        """
        if duration not in DURATIONS:
            raise ValueError(f"load duration must be one of {', '.join(DURATIONS)}, not {duration!r}")
        if self.method == "nds":
            factor = row_of("load_duration", duration=_NDS_DURATION[duration]).number("factor")
            code = f"NDS 2018, load duration factor {factor:g} ({_NDS_DURATION[duration]})"
            dry = self._scaled(factor, 1.0, "design", code, self.status)
            return dry if service_class < 3 else self._wet(dry)
        kmod = kmod_of(self.kmod_row, service_class, duration)
        factor = kmod / self.gamma
        code = f"EN 1995-1-1, kmod {kmod:g} ({duration}), partial factor {self.gamma:g}"
        return self._scaled(factor, factor, "design", code, self.status)

    def test(self) -> Strength:
        """Return what a test piece stands for the length of a test: the lower five per cent, not a design value."""
        if self.method == "ec5":
            return self._scaled(1.0, 1.0, "ultimate", "characteristic value (lower 5 %, short test)", self.status)
        up = figure("lumber-test-to-design")
        code = f"reference value times {up.value:g}, lower 5 % in a short test"
        return self._scaled(up.value, up.value, "ultimate", code, weakest((self.status, up.status)))

    def _wet(self, dry: Strength) -> Strength:
        """Return design values of lumber that is above 19 % moisture in use (NDS Supplement 2018 Table 4A, CM)."""
        bends_free = self.bending <= figure("wet-bending-free").si
        pressed_free = self.compression <= figure("wet-compression-free").si
        return replace(
            dry,
            bending=dry.bending * (1.0 if bends_free else figure("wet-bending").value),
            shear=dry.shear * figure("wet-shear").value,
            bearing=dry.bearing * figure("wet-bearing").value,
            compression=dry.compression * (1.0 if pressed_free else figure("wet-compression").value),
            modulus=dry.modulus * figure("wet-modulus").value,
            code=dry.code + ", wet in use",
        )

    def _scaled(self, factor: float, bearing: float, basis: str, code: str, status: Status) -> Strength:
        return Strength(
            self.bending * factor,
            self.shear * factor,
            self.bearing * bearing,
            self.compression * factor,
            self.modulus,
            basis,
            code,
            factor,
            status,
            self.source,
            self.assumed,
        )


def kmod_of(row: str, service_class: int, duration: str) -> float:
    """Return the modification factor for load duration and service class.

    Units: no unit, a ratio; it scales N/mm2. Valid: service class 1, 2, 3 and the durations permanent to instantaneous,
    where the table has a cell. Raises: UnknownRowError, TableError for an empty cell. Source: EN 1995-1-1 Table 3.1.
    """
    return row_of("kmod", material=row, service_class=float(service_class)).number(duration)


def row_of(table: str, **key: str | float) -> Row:
    """Return the row of a table whose key columns hold the given values.

    Units: the row's own, e.g. mm or N/mm2. Valid: for the tables of published facts.
    Raises: UnknownRowError naming the nearest keys. Source: the row's own.
    """
    columns = tuple(key)
    found = _index(table, columns).get(tuple(key.values()))
    if found is not None:
        return found
    accepted = sorted({str(r.cells[columns[0]]) for r in load_table(table).rows})
    raise UnknownRowError(table.replace("_", " "), str(key[columns[0]]), accepted)


@cache
def _index(table: str, columns: tuple[str, ...]) -> Mapping[tuple[object, ...], Row]:
    return {tuple(row.cells[c] for c in columns): row for row in reversed(load_table(table).rows)}
