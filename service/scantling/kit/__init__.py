"""Everything an author of a plugin imports; nothing else is public to plugins."""

from scantling.board import (
    Assembly,
    AssemblyError,
    Cushion,
    CutError,
    Joint,
    JointKind,
    Part,
    PlacingError,
    ScrewRole,
)
from scantling.findings import Finding, Severity
from scantling.measure import rise_over_run, snap

from .checks import Check, Code, Inspection, Surroundings
from .contexts import (
    ChecksContext,
    Context,
    ExportersContext,
    FinishesContext,
    FurnitureContext,
    PricesContext,
    StockContext,
)
from .exporters import Export, Exporter
from .finishes import FinishSystem
from .hooks import hook
from .module import INTERFACE, Build, Module, Role
from .parameters import CushionSize, Parameters, angle, choice, count, cushion, flag, length, ratio
from .shop import Board, Price, PriceList, Screws, Sheet, StockList

__all__ = [
    "INTERFACE",
    "Assembly",
    "AssemblyError",
    "Board",
    "Build",
    "Check",
    "ChecksContext",
    "Code",
    "Context",
    "Cushion",
    "CushionSize",
    "CutError",
    "Export",
    "Exporter",
    "ExportersContext",
    "Finding",
    "FinishSystem",
    "FinishesContext",
    "FurnitureContext",
    "Inspection",
    "Joint",
    "JointKind",
    "Module",
    "Parameters",
    "Part",
    "PlacingError",
    "Price",
    "PriceList",
    "PricesContext",
    "Role",
    "ScrewRole",
    "Screws",
    "Severity",
    "Sheet",
    "StockContext",
    "StockList",
    "Surroundings",
    "angle",
    "choice",
    "count",
    "cushion",
    "flag",
    "hook",
    "length",
    "ratio",
    "rise_over_run",
    "snap",
]  # fmt: skip
