"""What a tape measure makes of the sizes: gaps that come from reading it to its marks and from nothing else.

In a dimension chain the closing part is cut to the work and takes up the rounding of all the others. A part outside
every chain is cut to its rounded reading, and the joint at its end gapes, or does not go together, by the error.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from scantling.findings import Finding, Severity
from scantling.measure import Tape

from .chains import taped_chains
from .scene import Scene

ENDS = ("start", "end")
LEAST_MM = 0.005


@dataclass(frozen=True, slots=True)
class Rounding:
    """A part cut to a tape reading: `error` mm longer (or shorter) than derived, and the joints at its ends."""

    part: str
    error: float
    joints: tuple[str, ...]

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        return {"part": self.part, "error_mm": round(self.error, 3), "joints": list(self.joints)}


@dataclass(frozen=True, slots=True)
class TakenUp:
    """A chain on the tape: its closing part is cut to the work and takes up `error` mm of rounding."""

    chain: str
    closing: str
    error: float

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        return {"chain": self.chain, "closing": self.closing, "takes_up_mm": round(self.error, 3)}


@dataclass(frozen=True, slots=True)
class OnTape:
    """All that a tape makes of a piece: gaps wholly due to rounding, and what closing parts take up."""

    tape: Tape
    limit: float
    roundings: tuple[Rounding, ...]
    chains: tuple[TakenUp, ...]

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        return {
            "tape": self.tape.name,
            "limit_mm": self.limit,
            "gaps": [r.to_plain() for r in self.roundings],
            "closing": [c.to_plain() for c in self.chains],
        }


def on_tape(scene: Scene, tape: Tape) -> OnTape:
    """Return what a tape makes of the sizes of a piece."""
    rounded = tuple(roundings(scene, tape))
    return OnTape(tape, scene.settings.open_limit, rounded, tuple(chains_on_tape(scene, tape)))


def chains_on_tape(scene: Scene, tape: Tape) -> list[TakenUp]:
    """Return what the closing part of every chain takes up, in mm, the overall size read on the tape as well.

    A chain that another one rules adds up to what that one reads over the same span.
    """
    taped = taped_chains(scene.assembly, tape, scene.settings.fit)
    return [TakenUp(t.chain.name, t.chain.closing, t.takes_up) for t in taped]


def roundings(scene: Scene, tape: Tape) -> list[Rounding]:
    """Return the parts whose length is rounded on the tape and whose ends meet other parts at both ends.

    Parts that are cut to the work, and those that close a chain, are left out: their length is not read off a tape.
    """
    fitted = {c.closing for c in scene.assembly.chains} | {p.id for p in scene.parts if p.closing}
    found = []
    for part in scene.parts:
        error = tape.error(part.length)
        if part.id in fitted or abs(error) < LEAST_MM:
            continue
        joints = _at_ends(scene, part.id)
        if len(joints) > 1:  # between two others; an end in the open hurts nobody
            found.append(Rounding(part.id, error, tuple(joints)))
    return found


def _at_ends(scene: Scene, part: str) -> list[str]:
    """Return the joints that the ends of a part make."""
    met = []
    for joint, pair in scene.meetings:
        if part in scene.ids(*pair) and any(
            _side_of(p.a, p.side_a, p.side_b, part) in ENDS for p in scene.patches(pair)
        ):
            met.append(joint.id)
    return list(dict.fromkeys(met))


def _side_of(a: str, side_a: str, side_b: str, part: str) -> str:
    return side_a if a == part else side_b


def rounding_findings(scene: Scene, found: OnTape) -> Iterator[Finding]:
    """Warn once of the worst joint, glued or seen, that rounding alone opens or presses by more than the limit."""
    limit, tape = found.limit, found.tape
    over = [r for r in found.roundings if abs(r.error) > limit and _matters(scene, r)]
    if not over:
        return
    worst = max(over, key=lambda r: (abs(r.error), r.part))
    does = "leaves its joints open" if worst.error < 0 else "does not go in"
    more = f" So do {len(over) - 1} more parts." if len(over) > 1 else ""
    yield Finding(
        "tape-rounding", Severity.WARNING,
        f"Cut to the nearest {tape.name}, {worst.part} {does} by {abs(worst.error):.2f} mm.{more}",
        tuple(r.part for r in over), value=abs(worst.error), limit=limit, unit="mm", source="practice",
        remedy="Cut it to fit the work, read a finer tape, or choose sizes that lie on its marks.",
    )  # fmt: skip


def _matters(scene: Scene, rounding: Rounding) -> bool:
    return any(scene.assembly.joints[j].glued or scene.assembly.joints[j].shows for j in rounding.joints)
