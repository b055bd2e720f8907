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

    def on_tape(self, tape: Tape) -> "TapedChain":
        """Return the chain as read on a tape: every link rounded but the closing one, which takes the rest."""
        total = tape.round(self.total)
        rounded = {link.label: tape.round(link.size) for link in self.links if link.label != self.closing}
        counted = sum(rounded[link.label] for link in self.links if link.label != self.closing)
        return TapedChain(self, total, rounded, total - counted)


@dataclass(frozen=True, slots=True)
class TapedChain:
    """A chain in tape readings: they add up to `total` exactly because `closing_size` was derived, not rounded."""

    chain: Chain
    total: float
    rounded: dict[str, float]
    closing_size: float

    def lines(self, tape: Tape) -> list[str]:
        """Return one line a link for people: the closing one is fitted to the work."""
        lines = []
        for link in self.chain.links:
            if link.label == self.chain.closing:
                lines.append(f"{link.label}: fit to the work, about {tape.show(self.closing_size)}")
            else:
                lines.append(f"{link.label}: {tape.show_with_error(link.size)}")
        return lines
