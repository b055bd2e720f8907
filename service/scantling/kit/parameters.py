"""Parameters of a furniture module: a typed class whose fields carry unit, range, default and a sentence.

    @dataclass(frozen=True)
    class BenchParameters(Parameters):
        length: float = length(1200, least=400, most=2400, says="Overall length of the seat.")
        legs: int = count(4, least=4, most=8, says="How many legs.")

From this the host makes the JSON Schema, reads and checks what a caller posts, and writes the documentation.
"""

from collections.abc import Mapping
from dataclasses import MISSING, Field, dataclass, field, fields
from typing import Any, Self

from scantling.measure import (
    MeasureError,
    RequestError,
    RequestProblem,
    Thickness,
    parse_angle,
    parse_length,
    parse_size,
    pointer,
    snap,
)

KEY = "scantling"


@dataclass(frozen=True, slots=True)
class ParameterKind:
    """What a parameter is: its quantity, its limits (mm, degrees or a count), its choices, and a sentence about it."""

    quantity: str
    says: str
    least: float | None = None
    most: float | None = None
    choices: tuple[str, ...] = ()


def _field(default: object, kind: ParameterKind) -> Any:  # noqa: ANN401 - typed by the author's annotation
    return field(default=default, metadata={KEY: kind})


def length(default: float, *, least: float, most: float, says: str) -> Any:  # noqa: ANN401 - whatever a caller sent
    """Declare a length in mm; callers may write it in any unit of the grammar."""
    return _field(float(default), ParameterKind("length", says, least, most))


def angle(default: float, *, least: float, most: float, says: str) -> Any:  # noqa: ANN401 - whatever a caller sent
    """Declare an angle in degrees; callers may also write rise over run ("1 in 4")."""
    return _field(float(default), ParameterKind("angle", says, least, most))


def count(default: int, *, least: int, most: int, says: str) -> Any:  # noqa: ANN401 - whatever a caller sent
    """Declare a whole number."""
    return _field(default, ParameterKind("count", says, least, most))


def ratio(default: float, *, least: float, most: float, says: str) -> Any:  # noqa: ANN401 - whatever a caller sent
    """Declare a plain number without a unit."""
    return _field(float(default), ParameterKind("number", says, least, most))


def choice(default: str, *choices: str, says: str) -> Any:  # noqa: ANN401 - whatever a caller sent
    """Declare a choice of words."""
    return _field(default, ParameterKind("choice", says, choices=choices))


def flag(default: bool, *, says: str) -> Any:  # noqa: ANN401 - whatever a caller sent
    """Declare a yes or no."""
    return _field(default, ParameterKind("flag", says))


def cushion(width: float, depth: float, thickness: float, *, says: str, sink: float = 0.3, spread: float = 10.0) -> Any:  # noqa: ANN401 - whatever a caller sent
    """Declare a bought cushion: width, depth and thickness in mm; until measured it is assumed within ± `spread` mm.

    `sink` is the share of the thickness that is assumed to give way under a sitter.
    """
    sizes = [assumed_band(size - spread, size + spread) for size in (width, depth, thickness)]
    sunk = thickness * (1 - sink)
    sizes.append(assumed_band(sunk - 1.5 * spread, sunk + 1.5 * spread))
    return _field(CushionSize(*sizes), ParameterKind("cushion", says, 20, 2500))


def assumed_band(least: float, most: float) -> Thickness:
    """Return a size in mm that nobody has measured yet, known only to lie between two values."""
    return Thickness(snap(least), snap(most), snap((least + most) / 2), "assumed")


@dataclass(frozen=True, slots=True)
class CushionSize:
    """A bought cushion: each size as least and greatest measured (or assumed), and the thickness under a sitter, mm."""

    width: Thickness
    depth: Thickness
    thickness: Thickness
    loaded: Thickness

    @property
    def assumed(self) -> bool:
        """Whether any of its sizes has not been measured."""
        return any(s.status == "assumed" for s in (self.width, self.depth, self.thickness, self.loaded))


class Parameters:
    """Base of a module's parameter class; see the top of this file."""

    @classmethod
    def kinds(cls) -> dict[str, tuple[ParameterKind, Any]]:
        """Return name → (kind, default) of every declared parameter, in order."""
        found = {}
        for f in _dataclass_fields(cls):
            if KEY not in f.metadata or f.default is MISSING:
                raise TypeError(f"{cls.__name__}.{f.name}: declare it with length(), count(), angle(), choice() …")
            found[f.name] = (f.metadata[KEY], f.default)
        return found

    @classmethod
    def read(cls, plain: Mapping[str, Any], unit: str = "mm", at: str = "/parameters") -> Self:
        """Build the parameters from what a caller posted; absent ones take their default.

        A bare number is in `unit`. Raises RequestError that names every bad member and what would be accepted.
        """
        kinds = cls.kinds()
        problems, values = [], {}
        for name, value in plain.items():
            if name not in kinds:
                detail = f"{name!r} is not a parameter of this module; it has {', '.join(kinds)}"
                problems.append(RequestProblem(at + pointer(name), detail, "unknown-parameter"))
                continue
            try:
                values[name] = _read_value(kinds[name][0], value, unit)
            except (MeasureError, ValueError) as error:
                problems.append(RequestProblem(at + pointer(name), str(error), "bad-parameter"))
        if problems:
            raise RequestError(problems)
        return cls(**values)

    @classmethod
    def schema(cls) -> dict[str, Any]:
        """Return the JSON Schema (2020-12) of the parameters; lengths have defaults and limits in mm."""
        return {
            "type": "object",
            "additionalProperties": False,
            "properties": {name: _schema(kind, default) for name, (kind, default) in cls.kinds().items()},
        }

    def to_plain(self) -> dict[str, Any]:
        """Return the values as JSON members, lengths in mm."""
        return {f.name: _plain_value(getattr(self, f.name)) for f in _dataclass_fields(type(self))}


def _dataclass_fields(cls: type) -> tuple[Field[Any], ...]:
    return fields(cls)


def _read_value(kind: ParameterKind, value: object, unit: str) -> object:
    if kind.quantity == "length":
        below_zero = kind.least is not None and kind.least < 0
        return _within(kind, snap(parse_length(value, unit, signed=below_zero)), "mm")  # type: ignore[arg-type]
    if kind.quantity == "angle":
        return _within(kind, parse_angle(value), "degrees")  # type: ignore[arg-type]
    if kind.quantity == "cushion":
        return _read_cushion(kind, value, unit)
    if kind.quantity == "flag":
        if not isinstance(value, bool):
            raise ValueError(f"{value!r} is neither true nor false")
        return value
    if kind.quantity == "choice":
        if value not in kind.choices:
            raise ValueError(f"{value!r} is not offered; choose {', '.join(kind.choices)}")
        return value
    return _read_number(kind, value)


def _read_number(kind: ParameterKind, value: object) -> float | int:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError(f"{value!r} is not a number")
    if kind.quantity == "count":
        if value != int(value):
            raise ValueError(f"{value!r} is not a whole number")
        return int(_within(kind, float(value), ""))
    return _within(kind, float(value), "")


def _within(kind: ParameterKind, value: float, unit: str) -> float:
    if (kind.least is not None and value < kind.least) or (kind.most is not None and value > kind.most):
        of = f" {unit}" if unit else ""
        raise ValueError(f"{value:g}{of} lies outside {kind.least:g} to {kind.most:g}{of}")
    return value


def _read_cushion(kind: ParameterKind, value: object, unit: str) -> CushionSize:
    names = ("width", "depth", "thickness", "loaded")
    if not isinstance(value, Mapping) or any(k not in names for k in value):
        raise ValueError("a cushion is an object with width, depth, thickness and, once somebody sat on it, loaded")
    missing = [n for n in names[:3] if n not in value]
    if missing:
        raise ValueError(f"the cushion lacks {', '.join(missing)}")
    sizes = {n: parse_size(value[n], unit, what=f"cushion's {n}") for n in names if n in value}
    for name, size in sizes.items():
        if not (kind.least or 0) <= size.least <= size.most <= (kind.most or 0):
            raise ValueError(
                f"{name} {size.least:g} to {size.most:g} mm lies outside {kind.least:g} to {kind.most:g} mm"
            )
    if "loaded" not in sizes:
        thick = sizes["thickness"].typical
        sizes["loaded"] = assumed_band(0.55 * thick, 0.85 * thick)
    if sizes["loaded"].most > sizes["thickness"].most:
        raise ValueError("loaded is the thickness with somebody sitting on it; it cannot exceed the thickness")
    return CushionSize(**sizes)


def _schema(kind: ParameterKind, default: Any) -> dict[str, Any]:  # noqa: ANN401 - whatever a caller sent
    schema: dict[str, Any] = {"description": kind.says}
    limits = {"minimum": kind.least, "maximum": kind.most}
    if kind.quantity == "length":
        schema |= {"type": ["number", "string"], "x-quantity": "length", "x-unit": "mm", "default": default, **limits}
    elif kind.quantity == "angle":
        schema |= {
            "type": ["number", "string"],
            "x-quantity": "angle",
            "x-unit": "degree",
            "default": default,
            **limits,
        }
    elif kind.quantity == "count":
        schema |= {"type": "integer", "default": default, **limits}
    elif kind.quantity == "number":
        schema |= {"type": "number", "default": default, **limits}
    elif kind.quantity == "choice":
        schema |= {"type": "string", "enum": list(kind.choices), "default": default}
    elif kind.quantity == "flag":
        schema |= {"type": "boolean", "default": default}
    else:
        schema |= _cushion_schema(default)
    return schema


def _cushion_schema(default: CushionSize) -> dict[str, Any]:
    says = {
        "width": "Width as it lies in the seat.",
        "depth": "Depth from front edge to back.",
        "thickness": "Thickness unloaded.",
        "loaded": "Thickness under a sitter: put it on a hard floor, sit, measure. Left out, it is assumed.",
    }
    size = {"x-quantity": "length", "x-unit": "mm"}
    return {
        "type": "object",
        "x-quantity": "cushion",
        "additionalProperties": False,
        "required": ["width", "depth", "thickness"],
        "properties": {
            name: {"description": f"{text} A length, a list of readings, or {{status, least, most}}.", **size}
            for name, text in says.items()
        },
        "default": _plain_value(default),
    }


def _plain_value(value: Any) -> Any:  # noqa: ANN401 - whatever a caller sent
    if isinstance(value, CushionSize):
        return {n: _plain_value(getattr(value, n)) for n in ("width", "depth", "thickness", "loaded")}
    if isinstance(value, Thickness):
        return {"status": value.status, "least": value.least, "most": value.most}
    return value
