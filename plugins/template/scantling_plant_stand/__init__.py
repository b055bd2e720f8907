"""A plugin for scantling: the object `plugin` below is what the entry point names."""

from scantling.kit import INTERFACE, hook

from .plant_stand import PlantStand


class Plugin:
    """Says which interface it speaks and which furniture it adds."""

    interface = INTERFACE

    @hook
    def furniture_modules(self):
        """Return the furniture modules of this distribution."""
        return [PlantStand]


plugin = Plugin()
