"""Woods and panels by id: what they are, what they weigh, how dense they are on each of the three bases.

Three bases of specific gravity exist and must not be mixed: the Wood Handbook's (oven-dry weight over volume at
12 % moisture content), the NDS's (over oven-dry volume) and Eurocode 5's characteristic density in kg/m3.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from .errors import UnknownMaterial
from .table import Row, Status, load_table


@dataclass(frozen=True, slots=True)
class Known:
    """One number with its unit in words, its source and how well it is known."""

    value: float
    unit: str
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class ClearWood:
    """Averages of small clear specimens at 12 % moisture content: psi, E in 10^6 psi, hardness in lb."""

    specific_gravity: float
    modulus_of_rupture_psi: float
    modulus_of_elasticity_mpsi: float
    compression_parallel_psi: float
    compression_perpendicular_psi: float
    shear_parallel_psi: float
    tension_perpendicular_psi: float | None
    side_hardness_lb: float
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class Material:
    """A wood or a panel. Density is for weight, kg/m3; each specific gravity is None where nothing is published.

    `source` and `status` are those of the density; the specific gravities carry their own.
    """

    id: str
    title: str
    kind: str
    family: str
    grain: bool
    density_kg_m3: float
    bearing_gravity: Known | None
    withdrawal_gravity: Known | None
    handbook_gravity: Known | None
    characteristic_density: Known | None
    clear_wood: ClearWood | None
    source: str
    status: Status

    @property
    def specific_gravity_nds(self) -> float | None:
        """Return the specific gravity on oven-dry volume for NDS bearing equations, or None."""
        return None if self.bearing_gravity is None else self.bearing_gravity.value

    @property
    def specific_gravity_wh(self) -> float | None:
        """Return the specific gravity on volume at 12 % for Wood Handbook equations, or None."""
        return None if self.handbook_gravity is None else self.handbook_gravity.value

    @property
    def is_panel(self) -> bool:
        """Return True for sheet goods."""
        return self.kind == "panel"


@cache
def materials() -> Mapping[str, Material]:
    """Return every material by id (Wood Handbook, NDS 2018, EN 338, panel sources: each row names its own)."""
    bearing = _gravities("bearing")
    withdrawal = _gravities("withdrawal")
    characteristic = {
        row.text("material"): _known(row, "density_characteristic", "kg/m3")
        for row in load_table("characteristic_density").rows
    }
    found = {}
    for row in load_table("materials").rows:
        name = row.text("id")
        wood = clear_woods().get(row.text("clear_wood"))
        found[name] = Material(
            id=name,
            title=row.text("title"),
            kind=row.text("kind"),
            family=row.text("family"),
            grain=row.text("grain") == "yes",
            density_kg_m3=row.number("density"),
            bearing_gravity=bearing.get(name),
            withdrawal_gravity=withdrawal.get(name, bearing.get(name)),
            handbook_gravity=None if wood is None else Known(wood.specific_gravity, "1", wood.source, wood.status),
            characteristic_density=characteristic.get(name),
            clear_wood=wood,
            source=row.source,
            status=row.status,
        )
    return MappingProxyType(found)


def material(name: str) -> Material:
    """Return one material by id. Raises UnknownMaterial with the nearest ids."""
    try:
        return materials()[name]
    except KeyError:
        raise UnknownMaterial(name, sorted(materials())) from None


@cache
def clear_woods() -> Mapping[str, ClearWood]:
    """Return the clear-wood averages by name (Wood Handbook FPL-GTR-282, Table 5-3b, pp. 5-5 to 5-8)."""
    return MappingProxyType(
        {
            row.text("wood"): ClearWood(
                row.number("specific_gravity"),
                row.number("modulus_of_rupture"),
                row.number("modulus_of_elasticity"),
                row.number("compression_parallel"),
                row.number("compression_perpendicular"),
                row.number("shear_parallel"),
                row.maybe("tension_perpendicular"),
                row.number("side_hardness"),
                row.source,
                row.status,
            )
            for row in load_table("clear_wood").rows
        }
    )


def _gravities(use: str) -> dict[str, Known]:
    rows = (row for row in load_table("specific_gravity").rows if row.text("use") == use)
    return {row.text("material"): _known(row, "specific_gravity", "1") for row in rows}


def _known(row: Row, column: str, unit: str) -> Known:
    return Known(row.number(column), unit, row.source, row.status)
