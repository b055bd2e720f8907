"""Proves an Assembly: that parts fit, screws hold and can be driven, and that there is an order to build it in."""

from .operation import dry_fits, settings_from_plain
from .proofs import Proof, Ranges, prove
from .result import DryFit
from .settings import Barrel, DryfitSettings, Load, Tool
from .verify import verify
from .work_order import WorkStep, work_order

__all__ = [
    "Barrel",
    "DryFit",
    "DryfitSettings",
    "Load",
    "Proof",
    "Ranges",
    "Tool",
    "WorkStep",
    "dry_fits",
    "prove",
    "settings_from_plain",
    "verify",
    "work_order",
]
