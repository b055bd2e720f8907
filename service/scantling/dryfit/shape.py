"""Is a plain assembly of the right shape? Every member is looked at before anything is computed.

Problems carry JSON Pointers and say what would be accepted. Objects are closed: an unknown member is a typing error
that would otherwise be lost in silence.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Any

from scantling.measure import RequestProblem, pointer

FARTHEST_MM = 1e6
Check = Callable[[Any, str], Iterator[RequestProblem]]


def problem(at: str, detail: str, code: str = "bad-assembly") -> RequestProblem:
    """Return one problem."""
    return RequestProblem(at, detail, code)


def number(least: float = -FARTHEST_MM, most: float = FARTHEST_MM, *, above: bool = False) -> Check:
    """Accept a finite number from `least` to `most`; `above` leaves `least` itself out."""

    def check(value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - that is what is being found out
        accepted = f"a number {'above' if above else 'from'} {least:g} to {most:g}"
        if isinstance(value, bool) or not isinstance(value, int | float):
            yield problem(at, f"must be {accepted}", "not-a-number")
        elif not isfinite(value):
            yield problem(at, f"must be finite: {accepted}", "not-finite")
        elif not least <= value <= most or (above and value == least):
            yield problem(at, f"{value:g} is out of range: it must be {accepted}", "out-of-range")

    return check


def whole(least: int, most: int) -> Check:
    """Accept a whole number."""

    def check(value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - JSON as it came
        if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
            yield problem(at, f"must be a whole number from {least} to {most}", "not-a-number")

    return check


def text(longest: int = 200, *, empty: bool = False) -> Check:
    """Accept printable text."""

    def check(value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - JSON as it came
        if not isinstance(value, str) or len(value) > longest or (not value and not empty):
            yield problem(at, f"must be text of {0 if empty else 1} to {longest} characters", "not-text")
        elif not value.isprintable():
            yield problem(at, "must be printable text, without control characters", "not-text")

    return check


def word(*accepted: str) -> Check:
    """Accept one of some words."""

    def check(value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - JSON as it came
        if not isinstance(value, str) or value not in accepted:
            shown = value[:40] if isinstance(value, str) else value if isinstance(value, int | float) else "this"
            yield problem(at, f"{shown!r} is none of {', '.join(accepted)}", "unknown-word")

    return check


def flag(value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - JSON as it came
    """Accept true or false."""
    if not isinstance(value, bool):
        yield problem(at, "must be true or false", "not-a-flag")


def either_null(check: Check) -> Check:
    """Accept null as well."""

    def checked(value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - JSON as it came
        if value is not None:
            yield from check(value, at)

    return checked


def row(check: Check, *, least: int = 0, most: int = 10_000) -> Check:
    """Accept a list whose every member passes."""

    def checked(value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - JSON as it came
        if not isinstance(value, list):
            yield problem(at, "must be a list", "not-a-list")
        elif not least <= len(value) <= most:
            code = "too-many" if len(value) > most else "too-few"
            yield problem(at, f"{len(value)} entries; {least} to {most} are taken", code)
        else:
            for i, entry in enumerate(value):
                yield from check(entry, at + pointer(i))

    return checked


def vector(value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - JSON as it came
    """Accept three finite numbers."""
    yield from row(number(), least=3, most=3)(value, at)


def direction(value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - JSON as it came
    """Accept a direction: three finite numbers of length 1, to three places."""
    faults = list(vector(value, at))
    yield from faults
    if not faults and abs(sum(c * c for c in value) - 1.0) > 2e-3:
        yield problem(at, "must be a direction of length 1", "not-a-direction")


@dataclass(frozen=True)
class Members:
    """A closed object: its required and optional members with their checks."""

    required: Mapping[str, Check]
    optional: Mapping[str, Check]

    def __call__(self, value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - JSON as it came
        """Yield what is wrong with an object."""
        if not isinstance(value, dict):
            yield problem(at, "must be an object", "not-an-object")
            return
        for name in self.required:
            if name not in value:
                yield problem(at + pointer(name), "is missing", "missing")
        for name, member in value.items():
            check = self.required.get(name) or self.optional.get(name)
            if check is None:
                known = ", ".join((*self.required, *self.optional))
                yield problem(at + pointer(str(name)), f"is not known here; known are {known}", "unknown-member")
            else:
                yield from check(member, at + pointer(name))


def mapping(check: Check) -> Check:
    """Accept an object with any names whose every member passes."""

    def checked(value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - JSON as it came
        if not isinstance(value, dict):
            yield problem(at, "must be an object", "not-an-object")
            return
        for name, member in value.items():
            yield from text(64)(name, at + pointer(str(name)))
            yield from check(member, at + pointer(str(name)))

    return checked


def by_kind(kinds: Mapping[str, Members]) -> Check:
    """Accept an object whose member `kind` tells which other members it has."""

    def checked(value: Any, at: str) -> Iterator[RequestProblem]:  # noqa: ANN401 - JSON as it came
        if not isinstance(value, dict):
            yield problem(at, "must be an object", "not-an-object")
            return
        faults = list(word(*kinds)(value.get("kind"), at + pointer("kind")))
        yield from faults
        if not faults:
            yield from kinds[value["kind"]]({k: v for k, v in value.items() if k != "kind"}, at)

    return checked


def first_of(problems: Iterator[RequestProblem], most: int) -> Sequence[RequestProblem]:
    """Return the first few problems: a thousand of them help nobody."""
    found = []
    for fault in problems:
        found.append(fault)
        if len(found) == most:
            break
    return found
