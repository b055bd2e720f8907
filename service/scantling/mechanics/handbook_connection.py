"""What tests of clear wood found one fastener of a joint to hold at the end: a mean, for loads that are tests."""

from .connection import FastenerJoint
from .validity import OutOfValidity
from .withdrawal import ultimate_withdrawal


def handbook_withdrawal(joint: FastenerJoint) -> float | None:
    """Return the mean ultimate withdrawal of one fastener from side grain, None where the handbook has no figure.

    Units: N. Valid: solid wood of the Wood Handbook's species, side grain, not toe-driven; never compared with a
    person's load in service. Raises: nothing. Source: Wood Handbook FPL-GTR-282 (2021) Eq. 8-1, 8-10, 8-14.
    """
    receiver, wood, size = joint.stack.receiver, joint.woods[-1], joint.size
    if wood.handbook is None or wood.is_panel or receiver.grain == "end" or joint.toe or size.kind in ("bolt", "other"):
        return None
    inside = joint.stack.protrusion_mm == 0
    thread = receiver.bite_mm if size.kind == "nail" else receiver.thread_mm
    if size.kind == "lag screw" and inside:
        thread = max(0.0, thread - size.tip_mm)
    try:
        return ultimate_withdrawal(size.withdrawal_row, wood.handbook.value, size.diameter_mm, thread)
    except OutOfValidity:
        return None
