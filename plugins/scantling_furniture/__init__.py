"""The furniture that ships with scantling, found through its entry point exactly as a stranger's is."""

from collections.abc import Sequence
from typing import Any

from scantling.kit import INTERFACE, Module, hook

from .corner import CornerSeat
from .low_table import LowTable
from .seating import LeaningSeat
from .shelving import Bookcase
from .storage import StorageFootstool

MODULES: tuple[type[Module[Any]], ...] = (Bookcase, CornerSeat, LeaningSeat, LowTable, StorageFootstool)


class FurniturePlugin:
    """The plugin object the entry point names."""

    interface = INTERFACE

    @hook
    def furniture_modules(self) -> Sequence[type[Module[Any]]]:
        """Return the furniture modules of this distribution."""
        return MODULES


plugin = FurniturePlugin()
