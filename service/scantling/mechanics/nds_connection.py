"""What one fastener of a joint holds by the National Design Specification, adjusted for how it is used."""

from collections.abc import Callable
from types import MappingProxyType
from typing import TypeVar

from scantling.tables import Known, UnknownRowError, look_up

from .adjustment import end_grain, load_duration, toe_nail, wet_service
from .connection import Capacity, FastenerJoint
from .inch_pound import QUARTER_INCH_MM
from .lateral import Shear, Yield, bearing_large, bearing_small, double_shear, reductions, single_shear
from .pull_through import bearing_across_grain, design_pull_through, washer_bearing
from .spacing import end_distance, spacing
from .validity import OutOfValidity
from .withdrawal import design_withdrawal
from .wood import Wood, worst

CODE = "NDS 2018 (allowable stress design)"
GUARD_MM = 0.01
T = TypeVar("T")


class _Missing(Exception):
    """The standard gives no value here; the text says why."""


def nds_capacity(joint: FastenerJoint) -> Capacity:
    """Return the adjusted design values of one fastener: withdrawal, head pull-through, lateral with its mode.

    Units: N. Valid: what each formula is good for; anything else is None with its reason in `missing`, never guessed.
    Raises: UnknownRowError for a load duration that is not there.
    Source: NDS 2018 chapters 11 and 12; panels by Table 12.3.3B and the equivalent specific gravity of APA.
    """
    duration = load_duration(joint.duration)
    factors: dict[str, float] = {"load duration": duration.value}
    missing: dict[str, str] = {}
    withdrawal = _try(missing, "withdrawal", lambda: _withdrawal(joint, factors))
    pull = _try(missing, "pull-through", lambda: _pull_through(joint, factors))
    answer = _try(missing, "lateral", lambda: _lateral(joint, factors))
    if joint.count > 1 and joint.size.diameter_mm >= QUARTER_INCH_MM - 1e-6:
        missing["group"] = "the group factor of a row is not in it: it needs the parts' widths (NDS 2018 11.3.6)"
    used = [joint.size.status, *(k.status for w in joint.woods for k in (w.bearing, w.withdrawal) if k)]
    return Capacity(
        code=CODE,
        withdrawal_n=withdrawal,
        pull_through_n=pull,
        lateral_n=None if answer is None else answer[1],
        lateral_mode=None if answer is None else answer[0].governing,
        modes=MappingProxyType({} if answer is None else dict(answer[0].modes)),
        factors=MappingProxyType(factors),
        missing=MappingProxyType(missing),
        status=worst(*used),
        sources=_sources(joint),
    )


def _try(missing: dict[str, str], name: str, compute: Callable[[], T]) -> T | None:
    try:
        return compute()
    except (_Missing, OutOfValidity) as reason:
        missing[name] = str(reason)
        return None


def _sources(joint: FastenerJoint) -> tuple[str, ...]:
    known = [k for wood in joint.woods for k in (wood.bearing, wood.withdrawal) if k is not None]
    return tuple(dict.fromkeys([joint.size.source, *(k.source for k in known)]))


def _bite(joint: FastenerJoint) -> float:
    """Return the penetration that counts, mm; below the least of the standard there is none."""
    size, receiver = joint.size, joint.stack.receiver
    if receiver.bite_mm < size.bite_mm - GUARD_MM:
        raise _Missing(
            f"the bite in {receiver.part} is {receiver.bite_mm:.1f} mm, the standard wants at least"
            f" {size.bite_mm:.1f} mm ({size.bite_diameters:g} diameters) and gives no value below (NDS 2018 12.1)"
        )
    inside = joint.stack.protrusion_mm == 0
    return receiver.bite_mm - (size.tip_mm if size.kind == "lag screw" and inside else 0.0)


def _gravity(wood: Wood, known: Known | None) -> float:
    if wood.chips:
        cases = (f"screw {side} holding, MDF, maker" for side in ("face", "edge"))
        face, edge = (look_up("panel_fastening", "value", case=case) for case in cases)
        raise _Missing(
            f"no standard gives design values for screws in {wood.title.lower()}: use the maker's figures"
            f" (one maker of MDF declares {face.value:g} N in the face and {edge.value:g} N in the edge at failure)"
        )
    if known is None:
        raise _Missing(f"no specific gravity of {wood.title.lower()} is published in the NDS: give your own")
    return known.value


def _withdrawal(joint: FastenerJoint, factors: dict[str, float]) -> float:
    size, receiver, wood = joint.size, joint.stack.receiver, joint.woods[-1]
    if size.kind == "bolt":
        raise _Missing("a bolt holds by its nut and washer, not by withdrawal")
    penetration = _bite(joint)
    gravity = _gravity(wood, wood.withdrawal)
    length = penetration
    if size.kind != "nail":
        inside = joint.stack.protrusion_mm == 0
        length = receiver.thread_mm - (size.tip_mm if size.kind == "lag screw" and inside else 0.0)
    value = design_withdrawal(size.withdrawal_row, gravity, size.diameter_mm) * max(0.0, length)
    wet = wet_service("withdrawal", size.withdrawal_row, size.diameter_mm, False, joint.wet).value
    factors["wet service, withdrawal"] = 1.0 if joint.toe else wet
    value *= factors["load duration"] * factors["wet service, withdrawal"]
    if joint.toe:
        factors["toe-nail, withdrawal"] = toe_nail("withdrawal").value
        value *= factors["toe-nail, withdrawal"]
    return value * _withdrawal_grain(joint, factors)


def _withdrawal_grain(joint: FastenerJoint, factors: dict[str, float]) -> float:
    """Return the factor for panel edges and end grain, noting it."""
    grain, wood = joint.stack.receiver.grain, joint.woods[-1]
    if wood.is_panel and grain in ("edge", "end"):
        factors["panel edge, withdrawal"] = look_up(
            "panel_fastening", "value", case="screw in a panel edge against its face"
        ).value
        return factors["panel edge, withdrawal"]
    if grain == "end":
        case = "lag withdrawal" if joint.size.kind == "lag screw" else "screw and nail withdrawal"
        factors["end grain, withdrawal"] = end_grain(case).value
        return factors["end grain, withdrawal"]
    return 1.0


def _under_washer(joint: FastenerJoint, factors: dict[str, float]) -> float:
    size, wood = joint.size, joint.woods[0]
    if size.head_mm is None:
        raise _Missing(f"give the diameter of the washer under the {size.kind} as head_diameter")
    try:
        bearing = bearing_across_grain(wood.id)
    except UnknownRowError as error:
        raise _Missing(error.message) from None
    wet = look_up("connection_factors", "value", factor="wet service", case="bearing across the grain, wet in use")
    factors["wet service, bearing"] = wet.value if joint.wet else 1.0
    return washer_bearing(size.head_mm, size.diameter_mm, bearing.value) * factors["wet service, bearing"]


def _pull_through(joint: FastenerJoint, factors: dict[str, float]) -> float:
    size, wood, layer = joint.size, joint.woods[0], joint.stack.layers[0]
    if size.kind in ("lag screw", "bolt"):
        return _under_washer(joint, factors)
    if len(joint.stack.layers) < 2:
        raise _Missing("there is no part under the head besides the one that holds the point")
    if size.head_mm is None:
        raise _Missing(f"no head diameter is published for {size.label}: give the maker's as head_diameter")
    _bite(joint)
    gravity = _gravity(wood, wood.bearing)
    wet = wet_service("withdrawal", "wood screw", size.diameter_mm, False, joint.wet).value
    factors["wet service, pull-through"] = wet
    return design_pull_through(size.head_mm, gravity, layer.bite_mm) * factors["load duration"] * wet


def _lateral(joint: FastenerJoint, factors: dict[str, float]) -> tuple[Yield, float]:
    stack, size = joint.stack, joint.size
    if len(stack.layers) < 2:
        raise _Missing("a lateral load needs two parts")
    if stack.layers[-1].entry_mm - stack.layers[-2].exit_mm > 0.5:
        raise _Missing("there is a gap between the parts, so the fastener would bend in the open")
    if size.kind == "bolt":
        shear = _shear(joint, 1, 0, None)
        found = double_shear(shear) if len(stack.layers) == 3 else single_shear(shear)
        value = found.value_n
    else:
        penetration = _bite(joint)
        found = single_shear(_shear(joint, -1, -2, penetration))
        full = size.full_diameters * size.diameter_mm
        share = min(1.0, penetration / full)
        factors["penetration"] = share
        # The tabulated value times p/10D, or the yield equations at the real bearing length: the lesser.
        value = min(found.value_n, share * single_shear(_shear(joint, -1, -2, max(full, penetration))).value_n)
    factors["wet service, lateral"] = wet_service("lateral", size.kind, size.diameter_mm, False, joint.wet).value
    value *= factors["load duration"] * factors["wet service, lateral"]
    if stack.receiver.grain == "end" or (joint.woods[-1].is_panel and stack.receiver.grain == "edge"):
        factors["end grain, lateral"] = end_grain("lateral").value
        value *= factors["end grain, lateral"]
    if size.diameter_mm >= QUARTER_INCH_MM - 1e-6:
        factors["geometry, lateral"] = _geometry(joint)
        value *= factors["geometry, lateral"]
    if joint.toe:
        factors["toe-nail, lateral"] = toe_nail("lateral").value
        value *= factors["toe-nail, lateral"]
    return found, value


def _geometry(joint: FastenerJoint) -> float:
    """Return the geometry factor of fasteners of 1/4 in and more by the stated end distance and spacing (12.5.1)."""
    diameter, softwood = joint.size.diameter_mm, joint.woods[-1].softwood
    factor = 1.0
    for stated, wanted in (
        (joint.end_distance_mm, end_distance(diameter, True, softwood)),
        (joint.spacing_mm, spacing(diameter, True)),
    ):
        if stated is None:
            continue
        if stated < wanted.prebored_mm - GUARD_MM:
            raise _Missing(
                f"{stated:.1f} mm ({wanted.what}) is under the least of {wanted.prebored_mm:.1f} mm for a"
                f" {joint.size.kind} (NDS 2018 Tables 12.5.1A and 12.5.1B)"
            )
        factor = min(factor, stated / wanted.plain_mm)
    return factor


def _shear(joint: FastenerJoint, main: int, side: int, penetration_mm: float | None) -> Shear:
    """Return the joint in shear between two layers; the point's taper counts half."""
    size, layers = joint.size, joint.stack.layers
    if size.shear_mm is None or size.bending_yield is None:
        raise _Missing(f"no root diameter is published for {size.label}: give the maker's")
    if penetration_mm is None:
        length = layers[main].bite_mm
    else:
        length = penetration_mm - size.tip_mm / 2
        if joint.stack.protrusion_mm > 0:
            length = layers[main].thickness_mm
    return Shear(
        size.shear_mm,
        length,
        layers[side].bite_mm,
        _bearing(joint, main),
        _bearing(joint, side),
        size.bending_yield,
        reductions(size.diameter_mm, size.shear_mm, joint.load_angle),
    )


def _bearing(joint: FastenerJoint, index: int) -> float:
    wood = joint.woods[index]
    gravity = _gravity(wood, wood.bearing)
    if joint.size.diameter_mm < QUARTER_INCH_MM - 1e-6:
        return bearing_small(gravity)
    if wood.is_panel:
        raise _Missing("bearing strengths of panels are published for fasteners up to 1/4 in (NDS 2018 Table 12.3.3B)")
    return bearing_large(gravity, joint.size.diameter_mm, joint.load_angle)
