"""Everything checked about one built piece: that it goes together, that its screws hold, how it stands."""

from dataclasses import dataclass
from typing import Any

from scantling.findings import Finding
from scantling.mechanics.fastener_check import FastenerCheck

from .building import Built
from .fastening import fastener_rows


@dataclass(frozen=True, slots=True)
class Checked:
    """What the checks of a piece found, what its screws hold, and the order of work that was computed.

    `steps` is empty where the author's own stands.
    """

    findings: tuple[Finding, ...]
    fastening: tuple[FastenerCheck, ...]
    steps: list[dict[str, Any]]


def check(built: Built, *, wet: bool = False) -> Checked:
    """Run every check on a built piece; `wet` takes the wet-service figures of fasteners."""
    fastening = tuple(fastener_rows(built.assembly, built.woods, wet))
    findings = [f for row in fastening for f in row.findings]
    return Checked(tuple(findings), fastening, [])
