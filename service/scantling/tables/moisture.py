"""How wood moves: shrinkage and change coefficients by wood."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from .errors import UnknownMaterial
from .table import Status, load_table


@dataclass(frozen=True, slots=True)
class Shrinkage:
    """Shrinkage from green to oven-dry, per cent of the green size."""

    radial: float
    tangential: float
    volumetric: float
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class Movement:
    """Share of the size gained per per cent of moisture content, within 6 to 14 %; None where not printed."""

    radial: float | None
    tangential: float
    source: str
    status: Status


@cache
def shrinkages() -> Mapping[str, Shrinkage]:
    """Return shrinkage by wood, per cent (Wood Handbook Table 4-3)."""
    return MappingProxyType(
        {
            row.text("wood"): Shrinkage(
                row.number("radial"), row.number("tangential"), row.number("volumetric"), row.source, row.status
            )
            for row in load_table("shrinkage").rows
        }
    )


@cache
def movements() -> Mapping[str, Movement]:
    """Return change coefficients by wood, per per cent of moisture content (Wood Handbook Table 13-5)."""
    return MappingProxyType(
        {
            row.text("wood"): Movement(row.maybe("radial"), row.number("tangential"), row.source, row.status)
            for row in load_table("movement").rows
        }
    )


def shrinkage(wood: str) -> Shrinkage:
    """Return the shrinkage of a wood, per cent. Raises UnknownMaterial with the nearest woods."""
    try:
        return shrinkages()[wood]
    except KeyError:
        raise UnknownMaterial(wood, sorted(shrinkages())) from None


def movement(wood: str) -> Movement:
    """Return the change coefficients of a wood. Raises UnknownMaterial with the nearest woods."""
    try:
        return movements()[wood]
    except KeyError:
        raise UnknownMaterial(wood, sorted(movements())) from None
