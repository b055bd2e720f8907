"""What neighbours of a set must agree in: parameters of a class they share, and fronts, seats and tops in space."""

from collections.abc import Mapping
from math import dist
from typing import Any

from scantling.board import Assembly
from scantling.findings import Finding
from scantling.kit import Parameters
from scantling.mechanics.notice import notice

from .arrangement import Arrangement
from .building import Built
from .neighbours import Beside
from .poses import Stood

SAME_MM = 1.0  # a step between two fronts or seats that is neither seen nor felt; practice


def set_findings(arrangement: Arrangement, beside: Beside, pieces: Mapping[str, Built]) -> list[Finding]:
    """Say in what two neighbours differ that are of one set, or are bolted to each other: one finding for both."""
    left, right = arrangement.stood[beside.left], arrangement.stood[beside.right]
    one, other = pieces[left.stand.module], pieces[right.stand.module]
    shared = shared_parameters(one.parameters, other.parameters)
    if not shared and not beside.pairs:
        return []
    said = [_differ(name, a, b) for name, a, b in shared if a != b]
    steps = _steps(left, right)
    said += [f"{what} {abs(step):.1f} mm" for what, step in steps if abs(step) > SAME_MM]
    if not said:
        return []
    worst = max((abs(step) for _, step in steps), default=0.0)
    text = f"{left.name} and {right.name} differ: {'; '.join(said)}."
    return [
        notice(
            "neighbours-differ", text, parts=(left.name, right.name), value=worst, limit=SAME_MM, unit="mm",
            source="what a set shares",
        )
    ]  # fmt: skip


def shared_parameters(one: Parameters, other: Parameters) -> list[tuple[str, Any, Any]]:
    """Return what two pieces take from a parameter class both are made from: name and both values.

    What a module's own class adds (how many seats, which arms) is its own; what stands in a class below is the set's.
    """
    bases = [c for c in type(one).__mro__[1:] if c in type(other).__mro__[1:] and issubclass(c, Parameters)]
    common = next((c for c in bases if c is not Parameters), None)
    if common is None:
        return []
    a, b = one.to_plain(), other.to_plain()
    return [(name, a[name], b[name]) for name in common.kinds()]


def _differ(name: str, a: Any, b: Any) -> str:  # noqa: ANN401 - parameters as plain JSON
    word = name.replace("_", " ")
    if isinstance(a, dict):
        return f"their {word}s are not the same"
    return f"{word} {round(a, 1):g} and {round(b, 1):g}" if isinstance(a, float) else f"{word} {a} and {b}"


def _steps(left: Stood, right: Stood) -> list[tuple[str, float]]:
    """Return the steps between two neighbours where they meet, mm: fronts, bare seats, tops."""
    fronts = dist(left.corner(True, False), right.corner(right.stand.corner, False))
    steps = [("fronts step by", fronts), ("tops step by", right.assembly.bounds()[1][2] - left.assembly.bounds()[1][2])]
    seats = [_seat(s.assembly) for s in (left, right)]
    if seats[0] is not None and seats[1] is not None:
        steps.append(("seats step by", seats[1] - seats[0]))
    return steps


def _seat(assembly: Assembly) -> float | None:
    return next((c.origin[2] for c in assembly.cushions if c.kind == "seat"), None)
