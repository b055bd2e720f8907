"""Everything checked about one built piece: that it goes together, that its screws hold, how it stands."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from scantling.dryfit import verify
from scantling.findings import Finding
from scantling.mechanics.fastener_check import FastenerCheck
from scantling.mechanics.seating import Sitter

from .building import Built
from .fastening import fastener_rows
from .sitting import check_sitting


@dataclass(frozen=True, slots=True)
class Checked:
    """What the checks of a piece found, what its screws hold, and the order of work that was computed.

    `steps` is empty where the author's own stands.
    """

    findings: tuple[Finding, ...]
    fastening: tuple[FastenerCheck, ...]
    steps: list[dict[str, Any]]


def check(built: Built, *, wet: bool = False, household: Sequence[Sitter] = ()) -> Checked:
    """Run every check on a built piece; `wet` takes wet-service figures, `household` are those who will sit on it."""
    fastening = tuple(fastener_rows(built.assembly, built.woods, wet))
    fit = verify(built.assembly)
    findings = (
        *fit.findings,
        *(f for row in fastening for f in row.findings),
        *check_sitting(built.assembly, household),
    )
    steps = [step.to_plain() for step in fit.order.steps] if fit.order is not None else []
    return Checked(findings, fastening, steps)
