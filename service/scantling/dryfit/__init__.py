"""Proves an Assembly: that parts fit, screws hold and can be driven, and that there is an order to build it in."""

from .glueing import Clamp, Glue, GlueUp, glue_ups
from .motion import Motion, Swept, motion_findings, sweep
from .operation import dry_fits, settings_from_plain
from .proofs import Proof, Ranges, prove
from .result import DryFit
from .settings import Barrel, DryfitSettings, Load, Tool
from .verify import verify
from .work_order import WorkStep, work_order

__all__ = [
    "Barrel",
    "Clamp",
    "DryFit",
    "DryfitSettings",
    "Glue",
    "GlueUp",
    "Load",
    "Motion",
    "Proof",
    "Ranges",
    "Swept",
    "Tool",
    "WorkStep",
    "dry_fits",
    "glue_ups",
    "motion_findings",
    "prove",
    "settings_from_plain",
    "sweep",
    "verify",
    "work_order",
]
