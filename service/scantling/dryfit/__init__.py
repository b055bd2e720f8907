"""Proves an Assembly: that parts fit, screws hold and can be driven, and that there is an order to build it in.

`verify` is what every plan needs and is imported at once; the other questions are imported when first asked, which
halves what the import of this package costs (measured: tests/bench/bench_dryfit.py).
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

from .result import DryFit
from .settings import Barrel, DryfitSettings, Load, Tool
from .verify import verify

if TYPE_CHECKING:
    from .glueing import Clamp, Glue, GlueUp, glue_ups
    from .motion import Motion, Swept, motion_findings, sweep
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
    "Motion",
    "Proof",
    "Ranges",
    "Swept",
    "Tool",
    "WorkStep",
    "dry_fits",
    "glue_ups",
    "motion_findings",
    "plan_work",
    "prove",
    "settings_from_plain",
    "sweep",
    "verify",
]

_LATER = {
    "Clamp": "glueing",
    "Glue": "glueing",
    "GlueUp": "glueing",
    "glue_ups": "glueing",
    "Motion": "motion",
    "Swept": "motion",
    "motion_findings": "motion",
    "sweep": "motion",
    "dry_fits": "operation",
    "settings_from_plain": "operation",
    "Proof": "proofs",
    "Ranges": "proofs",
    "prove": "proofs",
    "WorkStep": "work_order",
    "plan_work": "work_order",
}


def __getattr__(name: str) -> Any:  # noqa: ANN401 - any name of a module that is not loaded yet
    if name not in _LATER:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f".{_LATER[name]}", __name__), name)
