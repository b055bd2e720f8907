"""A wood or panel as the fastener checks see it: which densities are known, from the tables or from the caller."""

from dataclasses import dataclass

from scantling.tables import Known, Material, Status

CALLER = "given by the caller"


@dataclass(frozen=True, slots=True)
class Wood:
    """One layer's material: what it is, and its specific gravities and characteristic density where known."""

    id: str
    title: str
    kind: str
    family: str
    bearing: Known | None
    withdrawal: Known | None
    characteristic: Known | None
    handbook: Known | None = None

    @property
    def is_panel(self) -> bool:
        """Return True for sheet goods."""
        return self.kind == "panel"

    @property
    def softwood(self) -> bool:
        """Return True for softwood boards."""
        return self.kind == "softwood"

    @property
    def chips(self) -> bool:
        """Return True for fibreboard and particleboard: no standard gives their screws a design value."""
        return self.family in ("fibreboard", "particleboard")


def wood_of(
    material: Material, specific_gravity: float | None = None, characteristic_density: float | None = None
) -> Wood:
    """Return a material of the tables with the caller's own densities in place of the table's where given.

    Units: specific gravity a plain ratio on oven-dry volume, density kg/m3. Valid: any material of the tables.
    Raises: nothing. Source: tables specific_gravity and characteristic_density, each row its own.
    """
    own_gravity = None if specific_gravity is None else Known(specific_gravity, "1", CALLER, Status.READ)
    own_density = (
        None if characteristic_density is None else Known(characteristic_density, "kg/m3", CALLER, Status.READ)
    )
    return Wood(
        material.id,
        material.title,
        material.kind,
        material.family,
        own_gravity or material.bearing_gravity,
        own_gravity or material.withdrawal_gravity,
        own_density or material.characteristic_density,
        material.handbook_gravity,
    )


def wood_by_density(name: str, specific_gravity: float | None, characteristic_density: float | None) -> Wood:
    """Return a wood the tables do not hold, by the caller's own density alone.

    Units: specific gravity a plain ratio on oven-dry volume, density kg/m3. Valid: solid wood; end and edge distances
    are those of softwood, the longer ones. Raises: nothing. Source: the caller.
    """
    gravity = None if specific_gravity is None else Known(specific_gravity, "1", CALLER, Status.READ)
    density = None if characteristic_density is None else Known(characteristic_density, "kg/m3", CALLER, Status.READ)
    return Wood(name, name.replace("-", " ").capitalize(), "softwood", "solid", gravity, gravity, density)


def worst(*statuses: Status) -> Status:
    """Return the least certain of several statuses: memory before derived before read.

    Units: none. Valid: at least one status. Raises: ValueError for none. Source: rule of the house.
    """
    order = (Status.MEMORY, Status.DERIVED, Status.READ)
    return min(statuses, key=order.index)
