"""What one fastener of a joint holds by Eurocode 5, as a design value for its load duration and service class."""

from collections.abc import Callable
from math import sqrt
from types import MappingProxyType
from typing import TypeVar

from scantling.tables import Status, UnknownRowError, look_up

from .adjustment import DURATIONS
from .basis import kmod_of
from .connection import Capacity, FastenerJoint
from .eurocode5_axial import declared_withdrawal, head_pull_through, screw_parameter, screw_withdrawal, smooth_nail
from .eurocode5_group import effective_axial, effective_nails
from .eurocode5_lateral import (
    ROPE_SHARE,
    SMALL_MM,
    Johansen,
    TimberShear,
    double_shear_timber,
    embedment_bolt,
    embedment_panel,
    embedment_timber,
    single_shear_timber,
    yield_moment,
)
from .validity import OutOfValidity
from .wood import Wood, worst

CODE = "EN 1995-1-1 (Eurocode 5, design values)"
GUARD_MM = 0.01
KMOD_ROWS = {"plywood": "plywood", "osb": "OSB/3 and OSB/4", "particleboard": "particleboard P4 and P5"}
T = TypeVar("T")


class _Missing(Exception):
    """The standard gives no value here; the text says why."""


def eurocode5_capacity(joint: FastenerJoint) -> Capacity:
    """Return the design values of one fastener: withdrawal, head pull-through, lateral with its mode.

    Units: N. Valid: what each clause is good for; anything else is None with its reason in `missing`. Screws under 6 mm
    need the maker's declared values (EN 14592) for axial loads. Raises: UnknownRowError for a load duration not there.
    Source: EN 1995-1-1 sections 2, 3 and 8; characteristic densities of the tables or the caller.
    """
    missing: dict[str, str] = {}
    factors: dict[str, float] = {}
    kmod = _try(missing, "kmod", lambda: _kmod(joint))
    if kmod is None:
        missing = dict.fromkeys(("withdrawal", "pull-through", "lateral"), missing["kmod"])
        withdrawal = pull = None
        lateral = None
    else:
        factors |= {"kmod": kmod, "partial factor": look_up("partial_factors", "factor", material="connections").value}
        group = effective_axial(joint.count) / joint.count
        factors["group, axial"] = group
        withdrawal = _try(missing, "withdrawal", lambda: _withdrawal(joint))
        pull = _try(missing, "pull-through", lambda: _head(joint))
        axial = [value for value in (withdrawal, pull) if value is not None]
        rope = min(axial) if withdrawal is not None and axial else 0.0
        lateral = _try(missing, "lateral", lambda: _lateral(joint, rope, factors))
    known = [w.characteristic for w in joint.woods if w.characteristic is not None]
    design = (kmod or 0.0) / factors.get("partial factor", 1.0)
    return Capacity(
        code=CODE,
        withdrawal_n=None if withdrawal is None else withdrawal * design * factors["group, axial"],
        pull_through_n=None if pull is None else pull * design * factors["group, axial"],
        lateral_n=None if lateral is None else lateral.value_n * design * factors.get("group, lateral", 1.0),
        lateral_mode=None if lateral is None else lateral.governing,
        modes=MappingProxyType({} if lateral is None else dict(lateral.modes)),
        factors=MappingProxyType(factors),
        missing=MappingProxyType(missing),
        status=worst(joint.size.status, _steel_status(joint), *(k.status for k in known)),
        sources=tuple(dict.fromkeys([joint.size.source, *(k.source for k in known)])),
    )


def _try(missing: dict[str, str], name: str, compute: Callable[[], T]) -> T | None:
    try:
        return compute()
    except (_Missing, OutOfValidity) as reason:
        missing[name] = str(reason)
        return None


def _kmod(joint: FastenerJoint) -> float:
    """Return kmod of the joint: for two materials the root of their product (Eq. 2.6)."""
    words = {nds: own for own, nds in DURATIONS.items()}
    duration = words.get(joint.duration, joint.duration)
    values = []
    for wood in joint.woods[-2:]:
        row = KMOD_ROWS.get(wood.family, "solid timber" if not wood.is_panel else "")
        if not row:
            raise _Missing(f"Eurocode 5 has no modification factor for {wood.title.lower()}")
        try:
            values.append(kmod_of(row, 3 if joint.wet else 1, duration))
        except (UnknownRowError, ValueError):
            raise _Missing(f"Eurocode 5 has no modification factor for {wood.title.lower()} in wet service") from None
    return sqrt(values[0] * values[-1])


def _density(wood: Wood) -> float:
    if wood.characteristic is None:
        raise _Missing(f"no characteristic density of {wood.title.lower()} is in the tables: give your own")
    return wood.characteristic.value


def _bite(joint: FastenerJoint) -> float:
    size, receiver = joint.size, joint.stack.receiver
    least = (8.0 if size.kind == "nail" else 6.0) * size.diameter_mm
    if size.kind != "bolt" and receiver.bite_mm < least - GUARD_MM:
        raise _Missing(
            f"the bite in {receiver.part} is {receiver.bite_mm:.1f} mm, Eurocode 5 wants at least {least:.1f} mm"
            " (8.3.1.2, 8.7.2) and gives no value below"
        )
    return receiver.bite_mm


def _withdrawal(joint: FastenerJoint) -> float:
    size, wood, receiver = joint.size, joint.woods[-1], joint.stack.receiver
    if size.kind == "bolt":
        raise _Missing("a bolt holds by its nut and washer, not by withdrawal")
    bite = _bite(joint)
    if receiver.grain == "end" or (wood.is_panel and receiver.grain == "edge"):
        raise _Missing("fasteners along the grain or in panel edges have no axial value (8.7.2(4))")
    density = _density(wood)
    if size.kind == "nail":
        if joint.duration in ("permanent", "long", "ten years"):
            raise _Missing("smooth nails carry no permanent or long-term axial load (8.3.2(1))")
        if joint.pilot:
            raise _Missing("nails in predrilled holes are not counted for withdrawal here")
        head = joint.stack.layers[0].bite_mm if len(joint.stack.layers) > 1 else 0.0
        return smooth_nail(density, size.diameter_mm, bite, head, size.head_mm or 0.0)
    thread = receiver.thread_mm
    if size.withdrawal_parameter is not None:
        declared = size.declared_density
        return declared_withdrawal(size.withdrawal_parameter, declared, density, size.diameter_mm, thread, 90.0)
    share = (size.root_mm or 0.0) / size.diameter_mm
    if size.diameter_mm < 6.0 or not 0.6 <= share <= 0.75:
        raise _Missing(
            "the formula is for screws of 6 to 12 mm whose root is 0.60 to 0.75 of the outside (8.7.2(4)); this one is"
            f" {size.diameter_mm:.2f} mm at {share:.2f}: give the maker's withdrawal_parameter"
        )
    return screw_withdrawal(screw_parameter(density, size.diameter_mm, thread), size.diameter_mm, thread, 90.0)


def _head(joint: FastenerJoint) -> float:
    size = joint.size
    if size.kind == "nail":
        raise _Missing("counted with the nail's withdrawal (Eq. 8.24)")
    if size.head_parameter is None or size.head_mm is None:
        raise _Missing("the head resistance is declared by the maker (EN 14592): give head_parameter and head_diameter")
    return head_pull_through(size.head_parameter, size.head_mm, _density(joint.woods[0]), size.declared_density)


def _lateral(joint: FastenerJoint, rope_n: float, factors: dict[str, float]) -> Johansen:
    size, layers, receiver = joint.size, joint.stack.layers, joint.stack.receiver
    if len(layers) < 2:
        raise _Missing("a lateral load needs two parts")
    if layers[-1].entry_mm - layers[-2].exit_mm > 0.5:
        raise _Missing("there is a gap between the parts, so the fastener would bend in the open")
    _bite(joint)
    if receiver.grain == "end" or (joint.woods[-1].is_panel and receiver.grain == "edge"):
        raise _Missing("fasteners in end grain or panel edges have no lateral value here (8.3.1.2(4))")
    diameter = size.diameter_mm
    if size.kind in ("wood screw", "lag screw"):
        if size.root_mm is None:
            raise _Missing(f"no root diameter is published for {size.label}: give the maker's")
        diameter = 1.1 * size.root_mm
    kind = {"nail": "round nail", "bolt": "bolt"}.get(size.kind, "screw")
    middle = 1 if size.kind == "bolt" and len(layers) == 3 else -1
    joined = TimberShear(
        diameter,
        layers[middle - 1].bite_mm,
        layers[middle].bite_mm,
        _embedment(joint, middle - 1, diameter),
        _embedment(joint, middle, diameter),
        size.yield_moment or yield_moment(_tensile(joint), diameter),
        rope_n,
        ROPE_SHARE[kind],
    )
    if joint.count > 1 and joint.spacing_mm is not None and diameter <= 6.0:
        _, effective = effective_nails(joint.count, joint.spacing_mm, size.diameter_mm, bool(joint.pilot))
        factors["group, lateral"] = effective / joint.count
    return double_shear_timber(joined) if middle == 1 else single_shear_timber(joined)


def _embedment(joint: FastenerJoint, index: int, diameter_mm: float) -> float:
    wood, layer = joint.woods[index], joint.stack.layers[index]
    if wood.is_panel:
        if diameter_mm > SMALL_MM or wood.family not in ("plywood", "osb", "particleboard"):
            raise _Missing(f"Eurocode 5 gives no embedment strength of {wood.title.lower()} for this fastener")
        density = _density(wood) if wood.family == "plywood" else 0.0
        return embedment_panel(wood.family, density, diameter_mm, layer.thickness_mm)
    if joint.size.kind == "bolt" or (joint.size.kind != "nail" and diameter_mm > 6.0):
        return embedment_bolt(_density(wood), diameter_mm, joint.load_angle, wood.softwood)
    return embedment_timber(_density(wood), diameter_mm, bool(joint.pilot))


def _tensile(joint: FastenerJoint) -> float:
    """Return the declared tensile strength, else the usual one, which is from memory: nothing is decided by it."""
    bolts = joint.size.kind in ("bolt", "lag screw")
    what = "bolt tensile strength" if bolts else "nail and screw wire tensile strength"
    return joint.size.tensile_strength or look_up("steel_strength", "value", what=what).value


def _steel_status(joint: FastenerJoint) -> Status:
    """Return memory where the strength of the steel is only the usual one, so nothing is decided by it."""
    own = joint.size.tensile_strength or joint.size.yield_moment
    return Status.READ if own else Status.MEMORY
