"""What a piece says of itself: cautions, promised sizes that hold, names that tell parts apart."""

from collections.abc import Iterator
from typing import Any

from scantling.board import Assembly
from scantling.kit import Module

from .building import Trial

Faults = Iterator[tuple[str, str, str]]


def says_what_it_should(module: type[Module[Any]], trials: list[Trial]) -> Faults:
    """The piece at its defaults has a caution, promises a size and declares its joints; its steps name real parts."""
    first = trials[0].assembly
    if first is None:
        return
    if not first.cautions:
        yield "cautions", "defaults", "no caution: say at least what it must not be used for"
    if not any(p.kind == "size" for p in first.promises):
        yield "promises", "defaults", "no overall size is promised, so nothing checks it"
    if len(first.parts) > 1 and not first.joints:
        yield "joints", "defaults", f"{len(first.parts)} parts and no joint between any of them"
    named = ghosts(first)
    if named:
        yield "steps", "defaults", f"a step names {', '.join(named)}, which the piece does not have"


def ghosts(assembly: Assembly) -> list[str]:
    """Return the names in the author's steps that are no part of the piece."""
    return [name for step in assembly.steps for name in step.parts if name not in assembly.parts]
