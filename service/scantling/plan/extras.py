"""What is handed to a plan from outside: the checks of plugins. A plan never imports a plugin."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Any, Protocol

from scantling.board import Assembly
from scantling.findings import Finding
from scantling.kit import Surroundings

from .building import Built
from .checks import ANYBODY, Checked
from .circumstances import EXPOSURES, Circumstances

_WRITTEN = MappingProxyType({known: written for written, known in EXPOSURES.items()})


class Extras(Protocol):
    """What is asked of whoever hands them in."""

    def look(
        self, module: str, family: str, assembly: Assembly, parameters: Mapping[str, Any], place: Surroundings
    ) -> Sequence[Finding]:
        """Return what further checks notice about a piece; never raises for what a check does."""


def looked_at(built: Built, checked: Checked, extras: Extras | None, who: Circumstances = ANYBODY) -> Checked:
    """Return the checks of a piece with what further checks noticed added; nothing that was found is taken away."""
    if extras is None or not built.assembly.parts:
        return checked
    place = Surroundings(_WRITTEN[who.exposure], who.use, who.children, who.hands)
    module = built.module
    more = extras.look(module.id, module.family, built.assembly, built.parameters.to_plain(), place)
    return replace(checked, findings=(*checked.findings, *more)) if more else checked
