"""Deliberate faults: each is a sound piece with one mistake made in it, and what the dry fit must say about it.

`parts` and `fasteners` are the ids that must be named; `also` are codes that are true as well, because of the mistake.
"""

from collections.abc import Callable
from dataclasses import dataclass, field

from scantling.board import Assembly
from scantling.dryfit import DryfitSettings


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

    @property
    def name(self) -> str:
        """How tests call it."""
        return f"{self.code}-{self.build.__name__}"


FAULTS: list[Fault] = []


def fault(code, parts=(), fasteners=(), also=(), value=None, **settings):
    """Register a builder as a fault."""

    def register(build):
        FAULTS.append(Fault(code, build, parts, fasteners, also, value, DryfitSettings(**settings)))
        return build

    return register
