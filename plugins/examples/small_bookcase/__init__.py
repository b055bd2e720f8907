"""A bookcase in less than forty lines: see `bookcase.py`."""

from collections.abc import Sequence
from typing import Any

from scantling.kit import INTERFACE, FurnitureContext, Module, hook

from .bookcase import SmallBookcase


class Plugin:
    """The plugin."""

    interface = INTERFACE

    @hook
    def furniture_modules(self, context: FurnitureContext) -> Sequence[type[Module[Any]]]:
        """Return the bookcase."""
        return (SmallBookcase,)


plugin = Plugin()
