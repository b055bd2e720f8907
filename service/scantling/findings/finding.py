"""The one Finding type: something a computation noticed, as data."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum


class Severity(StrEnum):
    """How much a finding matters: an error must be mended before building, a warning weighed, a note read."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


_RANK = {Severity.ERROR: 0, Severity.WARNING: 1, Severity.NOTE: 2}


@dataclass(frozen=True, slots=True)
class Finding:
    """Something noticed: what, how bad, which parts and fasteners, where, how much, and what to do about it.

    `at_mm` is a point of the assembly in millimetres; `value` and `limit` are in `unit`; `source` names the
    published figure or says "practice". `pointer` is a JSON Pointer into the request where the finding is
    about something the caller wrote.
    """

    code: str
    severity: Severity
    message: str
    parts: tuple[str, ...] = ()
    fasteners: tuple[str, ...] = ()
    pointer: str | None = None
    at_mm: tuple[float, float, float] | None = None
    value: float | None = None
    limit: float | None = None
    unit: str | None = None
    source: str | None = None
    remedy: str | None = None

    def to_plain(self) -> dict[str, object]:
        """Return the finding as JSON members, all twelve always present."""
        return {
            "code": self.code,
            "severity": self.severity.value,
            "message": self.message,
            "parts": list(self.parts),
            "fasteners": list(self.fasteners),
            "pointer": self.pointer,
            "at_mm": None if self.at_mm is None else [round(c, 2) for c in self.at_mm],
            "value": None if self.value is None else round(self.value, 4),
            "limit": None if self.limit is None else round(self.limit, 4),
            "unit": self.unit,
            "source": self.source,
            "remedy": self.remedy,
        }


def ranked(findings: Iterable[Finding]) -> list[Finding]:
    """Return the findings sorted errors first, then by code and the parts they name; duplicates dropped."""
    unique = dict.fromkeys(findings)
    return sorted(unique, key=lambda f: (_RANK[f.severity], f.code, f.parts, f.fasteners, f.message))


def grouped(findings: Iterable[Finding], most: int = 2) -> list[Finding]:
    """Return the findings ranked, those of one code and severity beyond `most` gathered into one that names them all.

    A wall of notes is as bad as silence: the first keeps its words and says how many more are like it.
    """
    alike: dict[tuple[str, Severity], list[Finding]] = {}
    for finding in ranked(findings):
        alike.setdefault((finding.code, finding.severity), []).append(finding)
    gathered: list[Finding] = []
    for group in alike.values():
        if len(group) <= most:
            gathered.extend(group)
            continue
        parts = tuple(dict.fromkeys(p for f in group for p in f.parts))
        fasteners = tuple(dict.fromkeys(s for f in group for s in f.fasteners))
        message = f"{group[0].message.rstrip('.')} (and {len(group) - 1} more like it)."
        gathered.append(replace(group[0], message=message, parts=parts, fasteners=fasteners))
    return ranked(gathered)


def count_errors(findings: Iterable[Finding]) -> int:
    """Return how many findings have severity error."""
    return sum(f.severity is Severity.ERROR for f in findings)
