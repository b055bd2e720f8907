"""What each hook is handed when a plugin is loaded: one context object a hook, of its own type.

New facts are added to these objects, never as further arguments, so that a plugin written today keeps loading.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Context:
    """What every hook may want to know: the plugin's own name, the interface it is spoken to in, the service's version.

    Lengths that a plugin answers are millimetres, whatever a caller later posts.
    """

    plugin: str
    interface: int
    service: str


@dataclass(frozen=True, slots=True)
class FurnitureContext(Context):
    """For `furniture_modules`: the ids of the materials that a role may take by default."""

    materials: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class StockContext(Context):
    """For `stock`: the ids of the materials, and the gauges of wood screws that the tables know."""

    materials: tuple[str, ...] = ()
    gauges: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class PricesContext(Context):
    """For `price_lists`: the kinds of take-off lines, and the units in which a pack may be told."""

    kinds: tuple[str, ...] = ()
    units: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ChecksContext(Context):
    """For `checks`: the finding codes that are the service's own, which a plugin may not take."""

    codes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ExportersContext(Context):
    """For `exporters`: the format words and media types that are the service's own, which a plugin may not take."""

    formats: tuple[str, ...] = ()
    media_types: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FinishesContext(Context):
    """For `finishes`: the kinds of finish that the tables and the cautions know."""

    kinds: tuple[str, ...] = ()
