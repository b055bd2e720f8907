"""The rules, gathered: those a declaration keeps, and those a build keeps at every point."""

from collections.abc import Callable, Iterator
from typing import Any

from scantling.kit import Module

from .building import Trial, builds, refuses_in_words, same_again, within_budget
from .declaration import declared
from .shape import dry_fits, handed_in_pairs, larger_takes_more, round_trips, units_agree
from .words import says_what_it_should

Rule = Callable[[type[Module[Any]], list[Trial]], Iterator[tuple[str, str, str]]]


def tried() -> tuple[Rule, ...]:
    """Return the rules tried on builds, in the order they are reported."""
    return (
        builds, refuses_in_words, same_again, within_budget, dry_fits, handed_in_pairs, round_trips, units_agree,
        larger_takes_more, says_what_it_should,
    )  # fmt: skip


__all__ = ["Rule", "declared", "tried"]
