"""Proves an Assembly: that parts fit, screws hold and can be driven, and that there is an order to build it in.

`verify` is what every plan needs and is imported at once; the other questions are imported when first asked, which
halves what the import of this package costs (measured: tests/bench/bench_dryfit.py).
"""

from typing import TYPE_CHECKING

from scantling.later import loaded_later

from .result import DryFit
from .settings import Barrel, DryfitSettings, Load, Tool
from .verify import verify

if TYPE_CHECKING:
    from .glueing import Clamp, Glue, GlueUp, glue_ups
    from .motion import Swept, room_of, sweep
    from .moving import Moved, lifts, motion_findings, moved
    from .operation import dry_fits, settings_from_plain
    from .proofs import Proof, Ranges, prove
    from .work_order import WorkStep, plan_work

__all__ = [
    "Barrel",
    "Clamp",
    "DryFit",
    "DryfitSettings",
    "Glue",
    "GlueUp",
    "Load",
    "Moved",
    "Proof",
    "Ranges",
    "Swept",
    "Tool",
    "WorkStep",
    "dry_fits",
    "glue_ups",
    "lifts",
    "motion_findings",
    "moved",
    "plan_work",
    "prove",
    "room_of",
    "settings_from_plain",
    "sweep",
    "verify",
]

if not TYPE_CHECKING:
    __getattr__ = loaded_later(
        __name__,
        {
            "glueing": ("Clamp", "Glue", "GlueUp", "glue_ups"),
            "motion": ("Swept", "room_of", "sweep"),
            "moving": ("Moved", "lifts", "motion_findings", "moved"),
            "operation": ("dry_fits", "settings_from_plain"),
            "proofs": ("Proof", "Ranges", "prove"),
            "work_order": ("WorkStep", "plan_work"),
        },
    )
