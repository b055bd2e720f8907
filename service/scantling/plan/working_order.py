"""The order of work of a piece: how it lies and is held at each step, and glue-ups that fit the open time."""

from dataclasses import dataclass
from typing import Any

from scantling.board import Assembly
from scantling.dryfit import DryFit, DryfitSettings
from scantling.dryfit.glueing import glue_ups
from scantling.dryfit.work_order import plan_work
from scantling.findings import Finding

from .circumstances import Circumstances


@dataclass(frozen=True, slots=True)
class WorkingOrder:
    """The steps of the work and the stages of gluing as JSON members, and what was noticed about clamps and time."""

    work: tuple[dict[str, Any], ...] = ()
    glue_ups: tuple[dict[str, Any], ...] = ()
    findings: tuple[Finding, ...] = ()


def order_of_work(assembly: Assembly, fit: DryFit, who: Circumstances, settings: DryfitSettings) -> WorkingOrder:
    """Return the order of work of a piece that has an order of assembly; glue-ups where the glue's label is given."""
    if fit.order is None or not fit.order.feasible:
        return WorkingOrder()
    work = tuple(step.to_plain() for step in plan_work(assembly, fit.order, settings))
    if who.label is None:
        return WorkingOrder(work)
    ups = glue_ups(assembly, fit.order, who.clamps, who.label, settings)
    return WorkingOrder(work, tuple(stage.to_plain() for stage in ups.stages), ups.findings)
