"""Deliberate faults: each is a sound piece with one mistake made in it, and what the dry fit must say about it.

`parts` and `fasteners` are the ids that must be named; `also` are codes that are true as well, because of the mistake.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from scantling.board import Assembly
from scantling.dryfit import DryfitSettings, verify
from scantling.findings import Finding

Ask = Callable[[Assembly, DryfitSettings], Sequence[Finding]]


@dataclass(frozen=True)
class Fault:
    """One mistake: the code to be found, how to build it, whom it names, and what follows from it."""

    code: str
    build: Callable[[], Assembly]
    parts: tuple[str, ...] = ()
    fasteners: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    value: float | None = None
    settings: DryfitSettings = field(default_factory=DryfitSettings)
    ask: Ask = lambda piece, settings: verify(piece, settings).findings

    def found(self) -> Sequence[Finding]:
        """Build the piece and ask what is wrong with it."""
        return self.ask(self.build(), self.settings)

    @property
    def name(self) -> str:
        """How tests call it."""
        return f"{self.code}-{self.build.__name__}"


FAULTS: list[Fault] = []


def fault(code, parts=(), fasteners=(), also=(), value=None, ask=None, **settings):
    """Register a builder as a fault; `ask` is the question that finds it, where that is not the dry fit itself."""

    def register(build):
        asks = () if ask is None else (ask,)
        FAULTS.append(Fault(code, build, parts, fasteners, also, value, DryfitSettings(**settings), *asks))
        return build

    return register
