"""The saws of a shop as a request states them; what a saw can do and which one makes a cut stand beside this file."""

from collections.abc import Mapping, Sequence
from math import isfinite
from typing import Any

from scantling.measure import RequestError, RequestProblem, pointer

from .saw_choice import CARRY_KG, Choice, Obstacle, Operation, Saws, good_face
from .saw_profile import LIMITS, Saw, SawKind, bevelled_kerf, make_saw, usual_saw

__all__ = [
    "CARRY_KG",
    "Choice",
    "Obstacle",
    "Operation",
    "Saw",
    "SawKind",
    "Saws",
    "bevelled_kerf",
    "good_face",
    "parse_saws",
    "usual_saw",
]

_ANGLES = ("bevel_limit", "mitre_limit")
_OTHERS = ("id", "kind", "trim", "setting_error", "most_cuts", "tilts")


def parse_saws(plain: Sequence[Mapping[str, Any]], carry_kg: float = CARRY_KG, people: int = 1) -> Saws:
    """Read the saws of a request: `id`, `kind` and the limits of `Saw` in mm and degrees, each optional.

    What is not stated is filled from the table of usual limits and marked so. Raises RequestError with a JSON
    Pointer (from `/saws`) to every fault: an unknown kind or member, a size that is not a sensible number, an id twice.
    """
    problems: list[RequestProblem] = []
    saws = []
    seen: set[str] = set()
    for i, entry in enumerate(plain):
        faults = _faults(entry)
        name = entry.get("id")
        if isinstance(name, str) and name in seen:
            faults.append(("id", f"{name!r} is the id of two saws; accepted: a different one for each", "repeated-id"))
        if isinstance(name, str):
            seen.add(name)
        problems += [RequestProblem(pointer("saws", i, member), detail, code) for member, detail, code in faults]
        if not faults:
            saws.append(_read(entry))
    if problems:
        raise RequestError(problems)
    return Saws(tuple(saws), carry_kg, people)


def _read(entry: Mapping[str, Any]) -> Saw:
    stated = {limit: float(entry[limit]) for limit in LIMITS if entry.get(limit) is not None}
    return make_saw(
        entry["id"],
        SawKind(entry["kind"]),
        stated,
        angle_error=entry.get("setting_error"),
        most_cuts=entry.get("most_cuts"),
        tilts=entry.get("tilts"),
    )


def _faults(entry: Mapping[str, Any]) -> list[tuple[str, str, str]]:
    """Return (member, what is wrong and accepted, code) for every fault of one saw."""
    faults = []
    if not isinstance(entry.get("id"), str) or not entry["id"]:
        faults.append(("id", "a saw needs an id; accepted: a text", "missing"))
    kinds = ", ".join(SawKind)
    if entry.get("kind") not in list(SawKind):
        faults.append(("kind", f"{entry.get('kind')!r} is no kind of saw; accepted: {kinds}", "unknown-kind"))
    for member, value in entry.items():
        if member not in LIMITS and member not in _OTHERS:
            names = ", ".join((*LIMITS, *_OTHERS))
            faults.append((member, f"a saw has no {member!r}; accepted: {names}", "unknown-member"))
        elif member in LIMITS and value is not None and (detail := _bad_number(member, value)):
            faults.append((member, detail, "out-of-range"))
    cuts = entry.get("most_cuts")
    if cuts is not None and (not isinstance(cuts, int) or isinstance(cuts, bool) or not 0 <= cuts <= 1000):
        faults.append(("most_cuts", f"{cuts!r} is no number of cuts; accepted: 0 to 1000", "out-of-range"))
    if entry.get("tilts") not in (None, "left", "right"):
        faults.append(("tilts", f"{entry['tilts']!r} is no side; accepted: left, right", "unknown-side"))
    error = entry.get("setting_error")
    if error is not None and ((angle := _number(error)) is None or not 0 <= angle <= 5):
        faults.append(("setting_error", f"{error!r} is not in range; accepted: 0 to 5 degrees", "out-of-range"))
    return faults


def _bad_number(member: str, value: object) -> str | None:
    least, most, unit = (0.0, 60.0, "degrees") if member in _ANGLES else (0.01, 10_000.0, "mm")
    most = {"kerf": 20.0, "error": 20.0}.get(member, most)
    number = _number(value)
    if number is None or not least <= number <= most:
        return f"{value!r} is not in range; accepted: {least:g} to {most:g} {unit}"
    return None


def _number(value: object) -> float | None:
    if isinstance(value, int | float) and not isinstance(value, bool) and isfinite(value):
        return float(value)
    return None
