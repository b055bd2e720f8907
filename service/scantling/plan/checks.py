"""Everything checked about one built piece: that it goes together, that its screws hold, how it stands."""

from dataclasses import dataclass
from typing import Any

from scantling.findings import Finding

from .building import Built


@dataclass(frozen=True, slots=True)
class Checked:
    """What the checks of a piece found, and the order of work they computed (empty where the author's own stands)."""

    findings: tuple[Finding, ...]
    steps: list[dict[str, Any]]


def check(built: Built) -> Checked:
    """Run every check on a built piece."""
    return Checked((), [])
