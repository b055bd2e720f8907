"""A check of a plugin: the codes it may find, and a function that looks at a piece and says what it noticed."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from scantling.board import Assembly
from scantling.findings import Finding, Severity


@dataclass(frozen=True, slots=True)
class Code:
    """A finding code of a check: kebab-case, with what it is called, what it means and what usually mends it."""

    code: str
    title: str
    meaning: str
    remedy: str
    severity: Severity = Severity.WARNING


@dataclass(frozen=True, slots=True)
class Surroundings:
    """Where a piece stands and who is about: `exposure` is indoors, damp, covered outdoors or outdoors."""

    exposure: str = "indoors"
    use: str = "home"
    children: bool = False
    hands: int = 1


@dataclass(frozen=True, slots=True)
class Inspection:
    """What a check is handed: the piece (a copy; changing it is a fault), and what is known of it and its place."""

    module: str
    family: str
    assembly: Assembly
    parameters: Mapping[str, Any] = field(default_factory=dict)
    place: Surroundings = Surroundings()


@dataclass(frozen=True, slots=True)
class Check:
    """One check: `look` takes an Inspection and returns Findings, each with one of its `codes`."""

    id: str
    title: str
    says: str
    codes: Sequence[Code]
    look: Callable[[Inspection], Iterable[Finding]]
