"""A glued dowel across a joint: how deep it sits on each side, which lengths do, and what tests found it to hold."""

from collections.abc import Iterator
from types import MappingProxyType

from scantling.findings import Finding, ranked
from scantling.tables import LengthWindow, Status, bite_diameters

from .connection import Capacity, FastenerJoint
from .dowels import dowel_bond, dowel_pull_out
from .fastener_answer import FastenerCheck
from .fastener_findings import GUARD_MM, finding
from .holes import dowel_hole
from .validity import OutOfValidity

CODE = "tests of glued dowels (no standard designs them)"
WEAKEST = "glued dowel, pre-glued"  # the lowest mean bond of the tests, and what humidity cycling left of the best
BOTTOM_MM = 3.0  # wood left under the hole and room for glue, practice
NO_VALUE = "no standard gives design values for glued dowels"


def check_dowel(joint: FastenerJoint) -> FastenerCheck:
    """Check a dowel that sits half in each of two parts.

    Units: mm and N. Valid: a joint of two parts read with a dowel. Raises: nothing for a read joint.
    Source: bond strengths of BioResources 13(3) 5179 (2018) and 15(1) 1665 (2020), means of tests; depths: practice.
    """
    ultimate = _ultimate(joint)
    window = _window(joint)
    reason = NO_VALUE if ultimate is None else f"{NO_VALUE}; tests found about {ultimate:.0f} N at failure, as a mean"
    capacity = Capacity(
        code=CODE,
        withdrawal_n=None,
        pull_through_n=None,
        lateral_n=None,
        lateral_mode=None,
        modes=MappingProxyType({}),
        factors=MappingProxyType({}),
        missing=MappingProxyType({"withdrawal": reason, "lateral": NO_VALUE}),
        status=Status.READ,
        sources=(dowel_bond(WEAKEST).source,),
    )
    return FastenerCheck(
        joint=joint,
        capacity=capacity,
        ultimate_withdrawal_n=None if ultimate is None else round(ultimate, 1),
        demand_n=joint.demand(),
        ratio=None,
        governing=None,
        window=window,
        stocked=(),
        pick=None,
        pilot=dowel_hole(joint.size.diameter_mm),
        clearance=None,
        countersink=None,
        findings=tuple(ranked(_findings(joint, window, capacity))),
    )


def _ultimate(joint: FastenerJoint) -> float | None:
    """Return the mean pull-out of the shallower side, None outside the tests and in end grain of no test."""
    glued = min(bite.bite_mm for bite in joint.stack.layers)
    try:
        return dowel_pull_out(joint.size.diameter_mm, glued, dowel_bond(WEAKEST).value)
    except OutOfValidity:
        return None


def _window(joint: FastenerJoint) -> LengthWindow:
    least, full = bite_diameters("dowel", "holds")
    thinner = min(bite.thickness_mm for bite in joint.out_stack.layers)
    shortest, longest = 2 * least * joint.size.diameter_mm, 2 * max(0.0, thinner - BOTTOM_MM)
    return LengthWindow(shortest, longest, joint.role, min(longest, 2 * full * joint.size.diameter_mm))


def _findings(joint: FastenerJoint, window: LengthWindow, capacity: Capacity) -> Iterator[Finding]:
    half, size = joint.size.length_mm / 2, joint.size
    remedy = f"A dowel {window.shortest_mm:.0f} to {window.longest_mm:.0f} mm long does."
    if window.empty:
        remedy = "Take a thinner dowel or thicker parts."
    out = [bite for bite in joint.out_stack.layers if half > bite.thickness_mm + GUARD_MM]
    for bite in out:
        text = f"half of the dowel is {half:.1f} mm, {bite.part} only {bite.thickness_mm:.1f} mm deep"
        yield finding(
            joint,
            "screw-point-out",
            text,
            value=half,
            limit=bite.thickness_mm,
            unit="mm",
            source="geometry",
            remedy=remedy,
        )
    if not out and size.length_mm < window.shortest_mm - GUARD_MM:
        text = f"the dowel is {size.length_mm:.1f} mm long; {window.shortest_mm:.1f} mm is usual for its thickness"
        yield finding(
            joint,
            "screw-shallow",
            text,
            value=size.length_mm,
            limit=window.shortest_mm,
            unit="mm",
            source="practice",
            remedy=remedy,
        )
    if joint.loads.any and joint.role == "holds":
        reasons = "; ".join(dict.fromkeys(capacity.missing.values()))
        yield finding(joint, "fastener-capacity-unknown", reasons, source=CODE)
