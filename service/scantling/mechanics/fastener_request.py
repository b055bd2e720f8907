"""Reading a fastener-check request: every member checked, every fault reported with its pointer."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from scantling.measure import MeasureError, RequestError, RequestProblem, Thickness, parse_thickness
from scantling.measure import pointer as json_pointer
from scantling.tables import UnknownRowError, lag_screws, material

from .adjustment import load_duration
from .connection import METHODS, ROLES, FastenerJoint, Loads
from .fastener import KINDS, FastenerSize, bolt, dowel, driven_nail, lag, round_nail, with_own_figures, wood_screw
from .own_fastener import STAPLE_LEGS, other_fastener, screw_by_diameter, staple
from .stack import GRAINS, Stack, layers_to_intervals, read_stack
from .wood import Wood, wood_by_density, wood_of

MOST_LENGTH_MM = 1000.0
MOST_LAYERS = 12
OWN_FIGURES = {
    "root_diameter": "root_mm",
    "head_diameter": "head_mm",
    "thread_length": "thread_mm",
    "bending_yield": "bending_yield",
    "tensile_strength": "tensile_strength",
    "withdrawal_parameter": "withdrawal_parameter",
    "head_parameter": "head_parameter",
    "declared_density": "declared_density",
    "yield_moment": "yield_moment",
}
OWN_VALUES = ("design_withdrawal_n", "design_lateral_n")


@dataclass(frozen=True, slots=True)
class _Layer:
    part: str
    material: str
    grain: str
    typical: float
    least: float
    most: float


@dataclass(slots=True)
class _Reader:
    """Collects faults while members are read, so the caller hears of all of them at once."""

    problems: list[RequestProblem] = field(default_factory=list)

    def refuse(self, pointer: str, detail: str, code: str) -> None:
        self.problems.append(RequestProblem(pointer, detail, code))

    def number(
        self, place: Mapping[str, Any], name: str, pointer: str, *, low: float, high: float, default: float | None
    ) -> float | None:
        """Return a number of a member, its default where it is absent; a fault is noted and answers None."""
        value = place.get(name)
        at = f"{pointer}/{name}"
        if value is None:
            if default is None:
                self.refuse(at, f"{name} is missing", "missing")
            return default
        if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
            self.refuse(at, f"{name} is {value!r}, not a number", "not-a-number")
            return None
        if not low <= value <= high:
            self.refuse(at, f"{name} is {value:g}; {low:g} to {high:g} is accepted", "out-of-range")
            return None
        return float(value)

    def choice(self, place: Mapping[str, Any], name: str, pointer: str, known: tuple[str, ...], default: str) -> str:
        """Return a word of a closed list; a fault is noted and answers the default."""
        value = place.get(name, default)
        if value is None:
            return default
        if value not in known:
            self.refuse(f"{pointer}/{name}", f"{name} is {value!r}; known: {', '.join(known)}", f"unknown-{name}")
            return default
        return str(value)

    def optional(self, place: Mapping[str, Any], name: str, pointer: str) -> float | None:
        """Return a length that may be absent, mm."""
        if place.get(name) is None:
            return None
        return self.number(place, name, pointer, low=0.0, high=MOST_LENGTH_MM, default=None)


def read_joints(plain: Mapping[str, Any]) -> tuple[str, list[FastenerJoint]]:
    """Return the method and the joints of a plain request.

    Units: lengths in mm, loads in N. Valid: at least one joint, each with layers and a fastener; ids not repeated.
    Raises: RequestError with one RequestProblem a fault, each with a JSON Pointer. Source: the request.
    """
    reader = _Reader()
    method = reader.choice(plain, "method", "", METHODS, "nds")
    rows = plain.get("joints")
    if not isinstance(rows, list) or not rows:
        raise RequestError([RequestProblem("/joints", "joints is empty; at least one joint is needed", "missing")])
    joints, seen = [], set()
    for index, row in enumerate(rows):
        pointer = f"/joints/{index}"
        if not isinstance(row, Mapping):
            reader.refuse(pointer, "a joint is an object with layers and fastener", "not-an-object")
            continue
        name = str(row.get("id") or f"joint {index + 1}")
        if name in seen:
            reader.refuse(f"{pointer}/id", f"the id {name!r} stands there twice", "duplicate-id")
        seen.add(name)
        joint = _joint(reader, row, name, pointer)
        if joint is not None:
            joints.append(joint)
    if reader.problems:
        raise RequestError(reader.problems)
    return method, joints


def _joint(reader: _Reader, row: Mapping[str, Any], name: str, pointer: str) -> FastenerJoint | None:
    before = len(reader.problems)
    layers, woods = _layers(reader, row.get("layers"), f"{pointer}/layers")
    size = _fastener(reader, row.get("fastener"), f"{pointer}/fastener")
    role = reader.choice(row, "role", pointer, ROLES, "holds")
    wet = reader.choice(row, "service", pointer, ("dry", "wet"), "dry") == "wet"
    head_depth = reader.number(row, "head_depth", pointer, low=0.0, high=MOST_LENGTH_MM, default=0.0)
    count = reader.number(row, "count", pointer, low=1, high=1000, default=1.0)
    angle = reader.number(row, "load_angle", pointer, low=0.0, high=90.0, default=90.0)
    loads = _loads(reader, row.get("loads"), f"{pointer}/loads")
    duration = _duration(reader, row, pointer)
    if isinstance(row.get("fastener"), Mapping) and row["fastener"].get("kind") == "staple" and count is not None:
        count *= STAPLE_LEGS  # each leg is reckoned as a nail
    distances = {f"{d}_mm": reader.optional(row, d, pointer) for d in ("edge_distance", "end_distance", "spacing")}
    if len(reader.problems) > before or size is None or head_depth is None or count is None or angle is None:
        return None
    if size.kind == "dowel":
        if len(layers) != 2:
            reader.refuse(f"{pointer}/layers", "a dowel joins two parts, half of it in each", "out-of-range")
            return None
        head_depth = max(0.0, layers[0].typical - size.length_mm / 2)
    elif head_depth >= layers[0].least:
        detail = f"head_depth is {head_depth:g} mm, the part under the head {layers[0].least:g} mm thick"
        reader.refuse(f"{pointer}/head_depth", detail, "out-of-range")
        return None
    typical, thin, deep = _bands(layers)
    ranged = any(one.least < one.most for one in layers)
    stack = _stack(layers, typical, head_depth, size)
    return FastenerJoint(
        name,
        stack,
        tuple(woods),
        size,
        role,
        int(count),
        loads,
        wet,
        duration,
        row.get("pilot"),
        bool(row.get("toe", False)),
        load_angle=angle,
        pointer=pointer,
        thinnest=_stack(layers, thin, head_depth, size) if ranged else None,
        deepest=_stack(layers, deep, head_depth, size) if ranged else None,
        **distances,
    )


def _layers(reader: _Reader, rows: object, pointer: str) -> tuple[list[_Layer], list[Wood]]:
    layers: list[_Layer] = []
    woods: list[Wood] = []
    if not isinstance(rows, list) or not 1 <= len(rows) <= MOST_LAYERS:
        reader.refuse(pointer, f"layers is a list of 1 to {MOST_LAYERS} parts, head first", "missing")
        return layers, woods
    for index, row in enumerate(rows):
        at = f"{pointer}/{index}"
        if not isinstance(row, Mapping):
            reader.refuse(at, "a layer is an object with material and thickness", "not-an-object")
            continue
        thickness = _thickness(reader, row, at)
        grain = reader.choice(row, "grain", at, GRAINS, "side")
        wood = _wood(reader, row, at)
        if thickness is not None and wood is not None:
            part = str(row.get("part") or f"layer {index + 1}")
            layers.append(_Layer(part, wood.id, grain, thickness.typical, thickness.least, thickness.most))
            woods.append(wood)
    return layers, woods


def _thickness(reader: _Reader, row: Mapping[str, Any], pointer: str) -> Thickness | None:
    """Return a thickness: a number of mm, a list of readings, or an object with least and most."""
    value = row.get("thickness")
    if isinstance(value, list | Mapping):
        try:
            return parse_thickness(value)
        except MeasureError as error:
            reader.refuse(f"{pointer}/thickness" + json_pointer(*error.at), error.message, error.code)
            return None
    size = reader.number(row, "thickness", pointer, low=0.1, high=MOST_LENGTH_MM, default=None)
    return None if size is None else Thickness(size, size, size)


def _bands(layers: list[_Layer]) -> tuple[list[float], list[float], list[float]]:
    """Return three sets of thicknesses, mm: typical, all at their least, upper parts at their most over the least."""
    least = [one.least for one in layers]
    return [one.typical for one in layers], least, [*(one.most for one in layers[:-1]), least[-1]]


def _stack(layers: list[_Layer], thicknesses: list[float], head_depth_mm: float, size: FastenerSize) -> Stack:
    placed = [(one.part, one.material, mm, one.grain) for one, mm in zip(layers, thicknesses, strict=True)]
    return read_stack(
        layers_to_intervals(placed),
        length_mm=size.length_mm,
        head_depth_mm=head_depth_mm,
        thread_mm=size.thread_mm,
        threads_per_inch=size.threads_per_inch,
    )


def _wood(reader: _Reader, row: Mapping[str, Any], pointer: str) -> Wood | None:
    gravity = density = None
    if row.get("specific_gravity") is not None:
        gravity = reader.number(row, "specific_gravity", pointer, low=0.2, high=1.2, default=None)
    if row.get("characteristic_density") is not None:
        density = reader.number(row, "characteristic_density", pointer, low=100.0, high=1500.0, default=None)
    try:
        return wood_of(material(str(row.get("material"))), gravity, density)
    except UnknownRowError as error:
        if gravity is not None or density is not None:
            return wood_by_density(str(row.get("material")), gravity, density)
        reader.refuse(f"{pointer}/material", error.message, "unknown-material")
        return None


def _fastener(reader: _Reader, row: object, pointer: str) -> FastenerSize | None:
    if not isinstance(row, Mapping):
        reader.refuse(pointer, "fastener is an object with kind, size and length", "missing")
        return None
    kind = str(row.get("kind", "wood screw"))
    if kind not in KINDS:
        reader.refuse(f"{pointer}/kind", f"kind is {kind!r}; known: {', '.join(KINDS)}", "unknown-kind")
        return None
    own = {}
    for name, column in OWN_FIGURES.items():
        if row.get(name) is not None:
            value = reader.number(row, name, pointer, low=1e-6, high=1e6, default=None)
            if value is not None:
                own[column] = value
    try:
        size = _size(reader, row, kind, pointer)
        return None if size is None else with_own_figures(size, own)
    except UnknownRowError as error:
        member = {"wood screw": "gauge", "lag screw": "diameter", "nail": "pennyweight"}[kind]
        reader.refuse(f"{pointer}/{member}", error.message, f"unknown-{member}")
    except ValueError as error:
        reader.refuse(pointer, str(error), "out-of-range")
    return None


def _size(reader: _Reader, row: Mapping[str, Any], kind: str, pointer: str) -> FastenerSize | None:
    if kind == "nail" and row.get("pennyweight") is not None:
        own = reader.number(row, "length", pointer, low=3.0, high=MOST_LENGTH_MM, default=0.0)
        return (
            None if own is None else driven_nail(str(row.get("style", "common")), str(row["pennyweight"]), own or None)
        )
    length = reader.number(row, "length", pointer, low=3.0, high=MOST_LENGTH_MM, default=None)
    if kind == "wood screw" and row.get("gauge") is None and row.get("diameter") is not None:
        return _by_diameter(reader, row, pointer, length)
    if kind == "wood screw":
        gauge = _gauge(reader, row, pointer)
        return None if gauge is None or length is None else wood_screw(gauge, length)
    if kind == "lag screw" and isinstance(row.get("diameter"), str):
        label = str(row["diameter"]).removesuffix("in").strip()
        return None if length is None else lag(label, length)
    diameter = reader.number(row, "diameter", pointer, low=1.0, high=30.0, default=None)
    if diameter is None or length is None:
        return None
    if kind == "lag screw":
        return lag(_nearest_lag(diameter), length)
    if kind == "other":
        pulled, pushed = (_own_value(reader, row, name, pointer) for name in OWN_VALUES)
        return other_fastener(str(row.get("name") or "fastener"), diameter, length, pulled, pushed)
    if kind == "staple":
        return staple(diameter, length)
    if kind == "nail":
        return round_nail(diameter, length, None)
    return dowel(diameter, length) if kind == "dowel" else bolt(diameter, length)


def _by_diameter(reader: _Reader, row: Mapping[str, Any], pointer: str, length: float | None) -> FastenerSize | None:
    """Return a screw by its diameter, which needs the maker's root: the tables go by gauge."""
    diameter = reader.number(row, "diameter", pointer, low=1.0, high=30.0, default=None)
    if row.get("root_diameter") is None:
        detail = "a wood screw is given by its gauge, or by its diameter and the maker's root_diameter"
        reader.refuse(f"{pointer}/root_diameter", detail, "missing")
        return None
    root = reader.number(row, "root_diameter", pointer, low=0.5, high=30.0, default=None)
    if diameter is None or root is None or length is None:
        return None
    return screw_by_diameter(diameter, root, length)


def _own_value(reader: _Reader, row: Mapping[str, Any], name: str, pointer: str) -> float | None:
    if row.get(name) is None:
        return None
    return reader.number(row, name, pointer, low=0.1, high=1e6, default=None)


def _nearest_lag(diameter_mm: float) -> str:
    """Return the label of the lag of a diameter in mm, or the diameter in words, which no table holds."""
    label, row = min(lag_screws().items(), key=lambda item: abs(item[1].diameter_mm - diameter_mm))
    return label if abs(row.diameter_mm - diameter_mm) < 0.05 else f"{diameter_mm:g} mm"


def _gauge(reader: _Reader, row: Mapping[str, Any], pointer: str) -> int | None:
    value = row.get("gauge")
    if isinstance(value, str) and value.lstrip("#").strip().isdigit():
        return int(value.lstrip("#"))
    if isinstance(value, bool) or not isinstance(value, int | float) or value != int(value):
        detail = f"gauge is {value!r}; a wood screw has a whole number such as 8"
        reader.refuse(f"{pointer}/gauge", detail, "not-a-number")
        return None
    return int(value)


def _loads(reader: _Reader, row: object, pointer: str) -> Loads:
    if row is None:
        return Loads()
    if not isinstance(row, Mapping):
        reader.refuse(pointer, "loads is an object with withdrawal_n and lateral_n", "not-an-object")
        return Loads()
    pulled = reader.number(row, "withdrawal_n", pointer, low=0.0, high=1e6, default=0.0)
    pushed = reader.number(row, "lateral_n", pointer, low=0.0, high=1e6, default=0.0)
    return Loads(pulled or 0.0, pushed or 0.0)


def _duration(reader: _Reader, row: Mapping[str, Any], pointer: str) -> str:
    value = str(row.get("duration") or "long")
    try:
        load_duration(value)
    except UnknownRowError:
        known = "permanent, long, medium, short, instantaneous"
        reader.refuse(f"{pointer}/duration", f"duration is {value!r}; known: {known}", "unknown-duration")
    return value
