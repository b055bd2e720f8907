"""Layouts, the aims of a request and the plans of an answer, as plain members; lengths in mm, angles in degrees."""

from collections.abc import Mapping
from typing import Any

from scantling.measure import plain_money

from .boards_plain import plain_ends
from .nouns import UNITS_PER_MM, Aim, Job, Layout, Objective, Plan
from .plans import in_words


def read_aims(objective: Mapping[str, Any]) -> Objective:
    """Return what a plan is chosen by, from the `objective` of a request."""
    order, worth = objective.get("order"), objective.get("worth")
    usual = Objective()
    return Objective(
        usual.order if order is None else tuple(Aim(word) for word in order),
        usual.worth if worth is None else round(float(worth) * 100),
    )


def plan_to_plain(job: Job, plan: Plan) -> dict[str, Any]:
    """Return a plan as an entry of `plans`; one that is not chosen brings its layouts, so that they can be pinned."""
    m = plan.measures
    boards = {s.id for s in job.stock if s.width is None}
    plain: dict[str, Any] = {
        "name": plan.name,
        "chosen": plan.chosen,
        "summary": in_words(plan),
        "cost": None if plan.cost is None else plain_money(plan.cost),
        "settings": m.settings,
        "cuts": m.cuts,
        "distinct_layouts": m.layouts,
        "remainder": None,
    }
    if m.remainder[0]:
        on_boards = all(layout.stock in boards for layout in plan.layouts if layout.offcuts)
        width = None if on_boards else to_mm(m.remainder[1])
        plain["remainder"] = {"length_mm": to_mm(m.remainder[0]), "width_mm": width}
    if not plan.chosen:
        plain["layouts"] = [layout_to_plain(job, layout) for layout in plan.layouts]
    return plain


def to_mm(units: int) -> float:
    """Return a length in millimetres."""
    return units / UNITS_PER_MM


def layout_to_plain(job: Job, layout: Layout) -> dict[str, Any]:
    """Return where the pieces of a layout lie and what is left of it, as members of an answer; lengths in mm."""
    placements = []
    stock = next(s for s in job.stock if s.id == layout.stock)
    pieces = {piece.id: piece for piece in job.pieces}
    for p in layout.placements:
        plain: dict[str, Any] = {"part": p.part, "x_mm": to_mm(p.x), "y_mm": to_mm(p.y), "length_mm": to_mm(p.length)}
        if p.width is not None:
            plain |= {"width_mm": to_mm(p.width), "turned": p.turned}
        else:
            plain |= plain_ends(pieces[p.part], p, stock)
        placements.append(plain)
    offcuts = []
    for o in layout.offcuts:
        plain = {"x_mm": to_mm(o.x), "y_mm": to_mm(o.y), "length_mm": to_mm(o.along_x)}
        if layout.tree is not None:
            plain["width_mm"] = to_mm(o.along_y)
        offcuts.append(plain)
    return {
        "stock": layout.stock,
        "length_mm": to_mm(stock.length),
        "width_mm": None if stock.width is None else to_mm(stock.width),
        "count": layout.count,
        "placements": placements,
        "cuts": [],
        "offcuts": offcuts,
    }
