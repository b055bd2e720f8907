"""A fastener check: one screw in its stack, what it bites, what it holds, which lengths would do.

`fastener_checks` is the operation behind a request; `check_joint` is the same for a joint read from placed parts.
"""

from dataclasses import replace
from math import atan2, degrees, hypot
from typing import Any

from scantling.findings import ranked
from scantling.tables import (
    LengthWindow,
    StockScrew,
    screw_gauges,
    screw_window,
    stocked_length,
    stocked_lengths,
)
from scantling.tables.screw_lengths import window_for_bite, window_for_diameter

from .combined import eurocode5_ratio, nds_nail_at_angle, nds_screw_at_angle
from .connection import Capacity, FastenerJoint
from .dowel_check import check_dowel
from .eurocode5_connection import eurocode5_capacity
from .fastener_answer import FastenerCheck
from .fastener_findings import length_findings
from .fastener_request import read_joints
from .fastener_use_findings import grain_findings, load_findings, place_findings
from .handbook_connection import handbook_withdrawal
from .holes import Countersink, Hole, bolt_hole, clearance_hole, countersink, lag_pilot, nail_hole, pilot_hole
from .nds_connection import nds_capacity
from .own_fastener import own_capacity

DENSE, MIDDLING = 0.65, 0.50  # specific gravities that pick a row of the lead holes, practice
__all__ = ["FastenerCheck", "another_screw", "check_joint", "fastener_checks", "inside_screw", "length_window"]

LEAST_DRILLED_MM = 2.0  # thinner nails, pins and staples are driven without a hole, practice
BOLT_OVER = (1.25, 2.5)  # diameters past the wood for washer and nut, practice


def fastener_checks(plain: dict[str, Any]) -> dict[str, Any]:
    """Check every joint of a request and return `{"joints": [...], "cautions": [...]}`.

    Units: every length of the request in mm, loads in N. Valid: see the request's members. Raises: RequestError naming
    each member at fault and what would be accepted. Source: NDS 2018 or EN 1995-1-1 as `method` asks.
    """
    method, joints = read_joints(plain)
    return {
        "method": method,
        "joints": [check_joint(joint, method).to_plain() for joint in joints],
        "cautions": [
            "A screening against published figures, not a statement of conformity: local codes and licensed practice"
            " decide where people can be hurt. Glue and screws in one joint are not added together."
        ],
    }


def check_joint(joint: FastenerJoint, method: str = "nds") -> FastenerCheck:
    """Check one joint.

    Units: mm and N. Valid: method `nds` or `eurocode5`. Raises: UnknownRowError for a load duration that is not there.
    Source: NDS 2018 chapters 11 and 12, or EN 1995-1-1 section 8; lengths of screws that clamp or locate: practice.
    """
    if joint.size.kind == "dowel":
        return check_dowel(joint)
    shallow = replace(joint, stack=joint.bite_stack)
    capacity = _capacity(shallow, method)
    ultimate = handbook_withdrawal(shallow)
    window = length_window(joint)
    stocked = stocked_lengths(window, joint.size.gauge) if joint.size.gauge is not None else ()
    pick = stocked_length(window, joint.size.gauge) if joint.size.gauge is not None else None
    ratios, unknown = _ratios(joint, capacity, method)
    governing = max(ratios, key=lambda name: ratios[name]) if ratios else None
    ratio = ratios[governing] if governing is not None else None
    findings = [
        *length_findings(joint, window, pick, *((None, None) if pick else (another_screw(joint), inside_screw(joint)))),
        *grain_findings(joint),
        *place_findings(joint, method),
        *load_findings(joint, capacity, ratios, unknown),
    ]
    return FastenerCheck(
        joint=joint,
        capacity=capacity,
        ultimate_withdrawal_n=None if ultimate is None else round(ultimate, 1),
        demand_n=joint.demand(),
        ratio=ratio,
        governing=governing,
        window=window,
        stocked=stocked,
        pick=pick,
        pilot=_pilot(joint),
        clearance=_clearance(joint),
        countersink=_countersink(joint),
        findings=tuple(ranked(findings)),
    )


def _capacity(joint: FastenerJoint, method: str) -> Capacity:
    if joint.size.kind == "other":
        return own_capacity(joint)
    return eurocode5_capacity(joint) if method == "eurocode5" else nds_capacity(joint)


def length_window(joint: FastenerJoint) -> LengthWindow:
    """Return the lengths that do for a joint's fastener, role and head depth.

    Units: mm. Valid: any joint; a window may be empty. Raises: nothing for a read joint.
    Source: NDS 2018 12.1.4 to 12.1.6 for `holds`; practice for `clamps` and `locates`.
    """
    stack, size = joint.stack, joint.size
    if size.kind == "bolt":
        through = stack.receiver.exit_mm - stack.head_mm
        return LengthWindow(through + BOLT_OVER[0] * size.diameter_mm, through + BOLT_OVER[1] * size.diameter_mm)
    depth, thick = joint.window_mm
    if size.gauge is not None:
        return screw_window(depth, thick, size.gauge, joint.role, stack.head_mm)
    if joint.role != "holds" or size.bite_mm == 0:
        return window_for_diameter(depth, thick, size.diameter_mm, joint.role, stack.head_mm)
    enough = size.full_diameters * size.diameter_mm + (size.bite_mm - size.bite_diameters * size.diameter_mm)
    return window_for_bite(depth, thick, size.bite_mm, enough, joint.role, stack.head_mm)


def another_screw(joint: FastenerJoint) -> StockScrew | None:
    """Return a stocked wood screw of another gauge that suits the joint's stack and role, the nearest gauge first.

    Units: mm. Valid: any joint. Raises: nothing. Source: as length_window; stock is common practice.
    """
    own = joint.size.gauge
    if own is None:
        return None
    for gauge in sorted(screw_gauges(), key=lambda g: (abs(g - own), g)):
        window = screw_window(*joint.window_mm, gauge, joint.role, joint.stack.head_mm)
        found = stocked_length(window, gauge)
        if found is not None:
            return found
    return None


def inside_screw(joint: FastenerJoint) -> StockScrew | None:
    """Return the longest stocked wood screw that reaches the receiver and stays inside, the nearest gauge first.

    Units: mm. Valid: any joint. Raises: nothing. Source: geometry; stock is common practice.
    """
    own = joint.size.gauge
    if own is None:
        return None
    for gauge in sorted(screw_gauges(), key=lambda g: (abs(g - own), g)):
        reach = window_for_bite(*joint.window_mm, 0.0, 0.0, "holds", joint.stack.head_mm)
        found = stocked_lengths(reach, gauge)
        if found:
            return found[-1]
    return None


def _ratios(joint: FastenerJoint, capacity: Capacity, method: str) -> tuple[dict[str, float], tuple[str, ...]]:
    """Return load over capacity by mode, and the names of what a load needs and nobody publishes."""
    if joint.role != "holds":
        return {}, ()
    pulled, pushed = joint.loads.withdrawal_n / joint.count, joint.loads.lateral_n / joint.count
    ratios: dict[str, float] = {}
    wanted = []
    if pulled > 0 and joint.size.kind != "bolt":
        wanted.append(("withdrawal", pulled, capacity.withdrawal_n))
    # One part alone has nothing to be pulled through; Eurocode 5 counts a nail's head with its withdrawal.
    head_within = joint.size.kind == "other" or (method == "eurocode5" and joint.size.kind == "nail")
    if pulled > 0 and len(joint.stack.layers) > 1 and not head_within:
        wanted.append(("pull-through", pulled, capacity.pull_through_n))
    if pushed > 0:
        wanted.append((f"lateral {capacity.lateral_mode}", pushed, capacity.lateral_n))
    for name, demand, holds in wanted:
        if holds:
            ratios[name] = demand / holds
    if pulled > 0 and pushed > 0 and capacity.withdrawal_n and capacity.lateral_n:
        ratios["withdrawal and lateral together"] = _together(joint, capacity, pulled, pushed, method)
    short = joint.bite_stack.receiver.bite_mm < joint.size.bite_mm - 0.01
    unknown = () if short else tuple(name.split(" ")[0] for name, _, holds in wanted if holds is None)
    return ratios, unknown


def _together(joint: FastenerJoint, capacity: Capacity, pulled: float, pushed: float, method: str) -> float:
    if method == "eurocode5":
        smooth = joint.size.kind == "nail"
        return eurocode5_ratio(pulled, capacity.axial_n or 0.0, pushed, capacity.lateral_n or 0.0, smooth)
    at_angle = nds_nail_at_angle if joint.size.kind == "nail" else nds_screw_at_angle
    holds = at_angle(capacity.withdrawal_n or 0.0, capacity.lateral_n or 0.0, degrees(atan2(pulled, pushed)))
    return hypot(pulled, pushed) / holds


def _pilot(joint: FastenerJoint) -> Hole | None:
    """Return the pilot hole; where no specific gravity is published, MDF and particleboard count as dense wood (they
    split without one), other woods as 0.50, where a small hole does no harm: both practice."""
    size, wood = joint.size, joint.woods[-1]
    unpublished = DENSE if wood.chips else MIDDLING
    value = unpublished if wood.bearing is None else wood.bearing.value
    if size.kind == "wood screw":
        sideways = joint.loads.lateral_n > joint.loads.withdrawal_n
        return pilot_hole(size.diameter_mm, size.root_mm, value, sideways)
    if size.kind == "lag screw":
        return lag_pilot(size.diameter_mm, value)
    drilled = size.kind == "nail" and size.diameter_mm >= LEAST_DRILLED_MM
    return nail_hole(size.diameter_mm, value) if drilled else None


def _clearance(joint: FastenerJoint) -> Hole | None:
    """Return the hole through the upper parts; a screw needs it where its thread would hold them off the receiver."""
    if joint.size.kind in ("nail", "other"):
        return None
    if joint.size.kind == "bolt":
        return bolt_hole(joint.size.diameter_mm)
    threaded = any(bite.thread_mm > 0 for bite in joint.stack.layers[:-1])
    return replace(clearance_hole(joint.size.diameter_mm), needed=threaded)


def _countersink(joint: FastenerJoint) -> Countersink | None:
    size = joint.size
    return countersink(size.head_mm, size.diameter_mm) if size.kind == "wood screw" and size.head_mm else None
