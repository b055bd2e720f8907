"""The furniture that ships with scantling, found through its entry point exactly as a stranger's is."""

from collections.abc import Sequence
from typing import Any

from scantling.kit import INTERFACE, FurnitureContext, Module, hook

from .bed import Bed
from .bench import PlainBench
from .cabinet import Cabinet
from .chair import Chair
from .chest import Chest
from .corner import CornerSeat
from .dining_table import DiningTable
from .low_table import LowTable
from .planter import PlanterPolygon, PlanterSquare
from .seating import LeaningSeat
from .shelving import Bookcase
from .small_tables import SideTable, Stool
from .storage import StorageFootstool
from .trolley import DrinksTrolley
from .wall_shelf import WallShelf
from .work_tables import Desk, WorkTable

MODULES: tuple[type[Module[Any]], ...] = (
    Bed,
    Bookcase,
    Cabinet,
    Chair,
    Chest,
    CornerSeat,
    Desk,
    DiningTable,
    DrinksTrolley,
    LeaningSeat,
    LowTable,
    PlainBench,
    PlanterPolygon,
    PlanterSquare,
    SideTable,
    Stool,
    StorageFootstool,
    WallShelf,
    WorkTable,
)


class FurniturePlugin:
    """The plugin object the entry point names."""

    interface = INTERFACE

    @hook
    def furniture_modules(self, context: FurnitureContext) -> Sequence[type[Module[Any]]]:
        """Return the furniture modules of this distribution."""
        return MODULES


plugin = FurniturePlugin()
