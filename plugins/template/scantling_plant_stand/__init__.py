"""A plugin for scantling: the object `plugin` below is what the entry point names."""

from collections.abc import Sequence
from typing import Any

from scantling.kit import INTERFACE, FurnitureContext, Module, hook

from .plant_stand import PlantStand


class Plugin:
    """Says which interface it speaks and which furniture it adds."""

    interface = INTERFACE

    @hook
    def furniture_modules(self, context: FurnitureContext) -> Sequence[type[Module[Any]]]:
        """Return the furniture modules of this distribution."""
        return (PlantStand,)


plugin = Plugin()
