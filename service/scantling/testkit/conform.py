"""The rules a furniture module keeps, each tried and each fault named with the rule, the point and what is wrong."""

from collections.abc import Iterator
from dataclasses import dataclass
from os import environ
from typing import Any

from scantling.kit import Module

from .points import points
from .rules import declared, tried
from .rules.building import Trial, attempt

QUICK_POINTS, FULL_POINTS = 25, 500
MOST_SHOWN = 12


@dataclass(frozen=True, slots=True)
class Fault:
    """One rule a module breaks: the rule, the point where it was tried, and what is wrong."""

    rule: str
    point: str
    detail: str

    def __str__(self) -> str:
        """Return the fault in one line."""
        return f"{self.rule} ({self.point}): {self.detail}"


def faults(module: type[Module[Any]], random: int | None = None, seed: int = 1) -> list[Fault]:
    """Return every fault of a module; `random` points besides the edges (25, or 500 in full depth)."""
    count = random if random is not None else _depth()
    found = [Fault(rule, "declaration", detail) for rule, detail in declared(module)]
    if found:
        return found
    trials = [attempt(module, point) for point in points(module, count, seed)]
    return [Fault(*fault) for fault in _tried(module, trials)]


def assert_conforms(module: type[Module[Any]], random: int | None = None, seed: int = 1) -> None:
    """Raise AssertionError naming the faults of a module, the first dozen in full."""
    found = faults(module, random, seed)
    if found:
        lines = [f"{module.__name__} breaks {len(found)} rules of a furniture module:", *map(str, found[:MOST_SHOWN])]
        if len(found) > MOST_SHOWN:
            lines.append(f"… and {len(found) - MOST_SHOWN} more")
        raise AssertionError("\n  ".join(lines))


def _tried(module: type[Module[Any]], trials: list[Trial]) -> Iterator[tuple[str, str, str]]:
    for rule in tried():
        yield from rule(module, trials)


def _depth() -> int:
    return FULL_POINTS if environ.get("SCANTLING_TEST_DEPTH") == "full" else QUICK_POINTS
