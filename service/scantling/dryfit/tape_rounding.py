"""What a tape measure makes of the sizes: gaps that come from reading it to its marks and from nothing else.

In a dimension chain the closing part is cut to the work and takes up the rounding of all the others. A part outside
every chain is cut to its rounded reading, and the joint at its end gapes, or does not go together, by the error.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from scantling.board import Part
from scantling.board.vector import Vector, dot
from scantling.findings import Finding, Severity
from scantling.measure import Tape

from .chains import PARALLEL, reach, taped_chains
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
    """Return what rounding to the tape opens: the parts whose length is read off it and meets others at both ends."""
    rows = ((part, tape.error(part.length), joints) for part, joints in measured_lengths(scene))
    return [Rounding(part.id, error, joints) for part, error, joints in rows if abs(error) >= LEAST_MM]


def measured_lengths(scene: Scene) -> list[tuple[Part, tuple[str, ...]]]:
    """Return the parts that are cut by measure and meet others at both ends, with the joints there.

    Left out are parts that are cut to the work, those that close a chain, and those that run alongside one of these
    from the same place to the same place: they are cut at its setting. A frame mitred end to end grows with its parts.
    """
    fitted = {c.closing for c in scene.assembly.chains} | {p.id for p in scene.parts if p.closing}
    spans = [_span(part) for part in scene.parts if part.id in fitted]
    found = []
    for part in scene.parts:
        if part.id in fitted:
            continue
        ends = _at_ends(scene, part)
        if all(ends.values()) and not _ringed(ends) and not _alongside(_span(part), spans, scene.settings.fit):
            joints = dict.fromkeys(m.joint for met in ends.values() for m in met)
            found.append((part, tuple(joints)))
    return found


@dataclass(frozen=True, slots=True)
class _Met:
    """What an end of a part meets: the joint, the other part, and whether that is its end too."""

    joint: str
    other: Part
    end_to_end: bool


def _at_ends(scene: Scene, part: Part) -> dict[str, list[_Met]]:
    """Return what each end of a part meets in a joint; an end in the open hurts nobody."""
    met: dict[str, list[_Met]] = {end: [] for end in ENDS}
    for joint, pair in scene.meetings:
        for p in scene.patches(pair) if part.id in scene.ids(*pair) else ():
            mine, other, its = (p.side_a, p.b, p.side_b) if p.a == part.id else (p.side_b, p.a, p.side_a)
            if mine in met:
                met[mine].append(_Met(joint.id, scene.assembly.parts[other], its in ENDS))
    return met


def _ringed(ends: dict[str, list[_Met]]) -> bool:
    """Whether both ends meet ends of parts of one length: all of the frame is cut at one setting, and closes."""
    lengths = {round(m.other.length, 2) for met in ends.values() for m in met}
    return len(lengths) == 1 and all(m.end_to_end for met in ends.values() for m in met)


def _span(part: Part) -> tuple[Vector, float, float]:
    """Return the direction of a part's length, and from where to where it runs along it."""
    axis = part.frame.along
    return (axis, *reach(part, axis))


def _alongside(one: tuple[Vector, float, float], spans: Sequence[tuple[Vector, float, float]], fit: float) -> bool:
    """Whether a part runs from the same place to the same place as one of others."""
    axis, low, high = one
    for other, start, end in spans:
        turn = dot(axis, other)
        begins, stops = (start, end) if turn > 0 else (-end, -start)
        if abs(turn) > PARALLEL and abs(begins - low) <= fit and abs(stops - high) <= fit:
            return True
    return False


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
