"""What each hook is handed: the facts of the service that an author may want to hold his own against."""

from collections.abc import Mapping, Sequence

from scantling import __version__
from scantling.costing.nouns import Kind
from scantling.costing.units import UNITS
from scantling.findings import catalogue
from scantling.kit import Context
from scantling.tables import materials
from scantling.tables.finishing import coverages
from scantling.tables.screws import screw_gauges

from .offer import CONTEXTS


def context_for(
    hook: str, plugin: str, interface: int, formats: Sequence[str] = (), media_types: Sequence[str] = ()
) -> Context:
    """Return what a hook of a plugin is handed; `formats` and `media_types` are the service's own."""
    facts: Mapping[str, Mapping[str, object]] = {
        "furniture_modules": {"materials": tuple(materials())},
        "stock": {"materials": tuple(materials()), "gauges": tuple(screw_gauges())},
        "price_lists": {"kinds": tuple(kind.value for kind in Kind), "units": UNITS},
        "checks": {"codes": tuple(catalogue())},
        "exporters": {"formats": tuple(formats), "media_types": tuple(media_types)},
        "finishes": {"kinds": tuple(dict.fromkeys(kind for kind, _ in coverages()))},
    }
    return CONTEXTS[hook](plugin, interface, __version__, **facts[hook])
