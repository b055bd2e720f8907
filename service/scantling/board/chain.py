"""Dimension chains: links that add up to an overall size, with one closing part that takes up the tape's rounding."""

from dataclasses import dataclass

from scantling.measure import Tape

CLOSES_MM = 0.005


class ChainError(ValueError):
    """A chain whose links do not add up; the message says by how much."""


@dataclass(frozen=True, slots=True)
class Link:
    """One size in a chain: a part's size or a gap, in mm."""

    label: str
    size: float


@dataclass(frozen=True, slots=True)
class Chain:
    """Sizes along one line that make up `total` mm. `closing` names the link that is fitted to the work."""

    name: str
    total: float
    links: tuple[Link, ...]
    closing: str

    def __post_init__(self) -> None:
        added = sum(link.size for link in self.links)
        if abs(added - self.total) > CLOSES_MM:
            raise ChainError(f"{self.name}: the links add up to {added:.2f} mm, the whole is {self.total:.2f} mm")
        if self.closing not in {link.label for link in self.links}:
            raise ChainError(f"{self.name}: the closing link {self.closing!r} is none of its links")

    def on_tape(self, tape: Tape, total: float | None = None) -> "TapedChain":
        """Return the chain as read on a tape: every link rounded but the closing one, which takes the rest.

        `total` in mm is what a chain that rules this one reads over the same span; else the total is rounded itself.
        """
        whole = tape.round(self.total) if total is None else total
        closing = [link.label for link in self.links].index(self.closing)
        readings = [0.0 if i == closing else tape.round(link.size) for i, link in enumerate(self.links)]
        readings[closing] = whole - sum(readings)
        return TapedChain(self, whole, tuple(readings), closing)


@dataclass(frozen=True, slots=True)
class TapedChain:
    """A chain in tape readings, one a link, in mm: they add up to `total` since that of link `closing` was derived."""

    chain: Chain
    total: float
    readings: tuple[float, ...]
    closing: int

    @property
    def closing_size(self) -> float:
        """The size of the closing link, which is fitted to the work."""
        return self.readings[self.closing]

    @property
    def takes_up(self) -> float:
        """What the closing link is longer than derived, mm: the rounding of all the others."""
        return self.closing_size - self.chain.links[self.closing].size

    def lines(self, tape: Tape) -> list[str]:
        """Return one line a link for people: the closing one is fitted to the work."""
        lines = []
        for i, link in enumerate(self.chain.links):
            if i == self.closing:
                lines.append(f"{link.label}: fit to the work, about {tape.show(self.closing_size)}")
            else:
                lines.append(f"{link.label}: {tape.show_with_error(link.size)}")
        return lines
