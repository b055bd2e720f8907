"""Where a module is tried: its defaults, every parameter at its least and most, and random points of a fixed seed."""

from collections.abc import Iterator
from dataclasses import dataclass
from random import Random
from typing import Any

from scantling.kit import CushionSize, Module
from scantling.kit.parameters import ParameterKind

EDGE_OF_CUSHION = 0.85, 1.15  # a cushion is tried a little smaller and a little larger than its default


@dataclass(frozen=True, slots=True)
class Point:
    """One set of parameters as a caller would post it (lengths in mm), and what it is called in a report."""

    name: str
    values: dict[str, Any]


def points(module: type[Module[Any]], random: int, seed: int = 1) -> Iterator[Point]:
    """Yield the defaults, every parameter at its least and most alone, every choice, then `random` random points."""
    kinds = module.parameters.kinds()
    yield Point("defaults", {})
    for name, (kind, default) in kinds.items():
        for label, value in _edges(kind, default):
            yield Point(f"{name} {label}", {name: value})
    dice = Random(seed)
    for i in range(random):
        yield Point(f"random {i + 1}", {n: _random(kind, default, dice) for n, (kind, default) in kinds.items()})


def _edges(kind: ParameterKind, default: Any) -> Iterator[tuple[str, Any]]:  # noqa: ANN401 - any parameter's value
    if kind.quantity == "choice":
        yield from ((choice, choice) for choice in kind.choices if choice != default)
    elif kind.quantity == "flag":
        yield str(not default).lower(), not default
    elif kind.quantity == "cushion":
        for label, share in zip(("small", "large"), EDGE_OF_CUSHION, strict=True):
            yield label, _cushion(default, share, share)
    else:
        yield "at least", _whole(kind, kind.least)
        yield "at most", _whole(kind, kind.most)


def _random(kind: ParameterKind, default: Any, dice: Random) -> Any:  # noqa: ANN401 - any parameter's value
    if kind.quantity == "choice":
        return dice.choice(kind.choices)
    if kind.quantity == "flag":
        return dice.random() < 0.5
    if kind.quantity == "cushion":
        return _cushion(default, dice.uniform(*EDGE_OF_CUSHION), dice.uniform(*EDGE_OF_CUSHION))
    low, high = kind.least or 0.0, kind.most or 0.0
    return dice.randint(int(low), int(high)) if kind.quantity == "count" else round(dice.uniform(low, high), 1)


def _whole(kind: ParameterKind, value: float | None) -> float | int | None:
    return int(value) if kind.quantity == "count" and value is not None else value


def _cushion(default: CushionSize, flat: float, thick: float) -> dict[str, Any]:
    """Return a measured cushion near the default one."""
    loaded = default.loaded.typical / default.thickness.typical
    thickness = round(default.thickness.typical * thick, 1)
    return {
        "width": round(default.width.typical * flat, 1),
        "depth": round(default.depth.typical * flat, 1),
        "thickness": thickness,
        "loaded": round(thickness * loaded, 1),
    }
