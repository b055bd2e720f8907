"""What opens when square cuts are not quite square and lengths not quite right: ends, edges, and parts between others.

A crosscut leans both ways by its error, over the width of the board and over its thickness; a rip runs along the fence
and leans over the thickness alone. What meets such a side gapes by the tangent over the length in contact.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import radians, tan
from typing import Any

from scantling.board import Assembly, Part, Patch, SawCut
from scantling.board.vector import Vector, dot
from scantling.findings import Finding, Severity

from .saw_errors import SLOPED_DEG, Opening
from .scene import STAND_APART, Scene
from .settings import DryfitSettings
from .tape_rounding import measured_lengths

ENDS = ("start", "end")
EDGES = ("near", "far")


@dataclass(frozen=True, slots=True)
class LengthError:
    """A part between two others, cut `error` mm too short: its joints stand open by as much; too long, it stays out."""

    part: str
    joints: tuple[str, ...]
    error: float

    def text(self) -> str:
        """Return the sentence people need."""
        return (
            f"Cut {self.error:.2g} mm short, {self.part} leaves its joints open by that; too long, it does not go in."
        )

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        return {"part": self.part, "joints": list(self.joints), "error_mm": self.error, "text": self.text()}


def square_openings(scene: Scene, error: float) -> list[Opening]:
    """Return how every joint at a square cut gapes when that cut is `error` degrees out of square, the widest first."""
    found = []
    for joint, pair in scene.meetings:
        if joint.kind in STAND_APART:
            continue  # what lies loose or moves stands as it likes
        a, b = (scene.parts[i] for i in pair)
        tight = [p for p in scene.patches(pair) if max(abs(p.least_gap), abs(p.greatest_gap)) <= scene.settings.fit]
        wedges = [w for p in tight if (w := _wedge(a, b, p, error)) is not None]
        if wedges:
            opens, cuts = max(wedges)
            found.append(Opening(joint.id, (a.id, b.id), error, opens, cuts, square=True))
    return sorted(found, key=lambda o: (-round(o.opens, 6), o.joint))


def _wedge(a: Part, b: Part, patch: Patch, error: float) -> tuple[float, int] | None:
    """Return how far a patch gapes with the square cuts at it off by an error, and how many there are."""
    runs = [r for part, side in ((a, patch.side_a), (b, patch.side_b)) if (r := _run(part, side, patch)) > 0]
    return (sum(runs) * tan(radians(error)), len(runs)) if runs else None


def _run(part: Part, side: str, patch: Patch) -> float:
    """Return over what length of a patch a square cut leans, mm; 0 where the side is a face, or cut at an angle."""
    sloped = any(isinstance(c, SawCut) and c.side == side and max(c.mitre, c.bevel) > SLOPED_DEG for c in part.cuts)
    if sloped or side not in (*ENDS, *EDGES):
        return 0.0
    thick = _extent(patch, part.frame.through)
    return max(thick, _extent(patch, part.frame.across)) if side in ENDS else thick


def _extent(patch: Patch, direction: Vector) -> float:
    heights = [dot(c, direction) for c in patch.corners]
    return max(heights) - min(heights)


def length_errors(scene: Scene, error: float) -> list[LengthError]:
    """Return the parts that open their joints when they are cut `error` mm short: those nobody fits to the work."""
    return [LengthError(part.id, joints, error) for part, joints in measured_lengths(scene)]


def length_findings(assembly: Assembly, found: list[LengthError], settings: DryfitSettings) -> Iterator[Finding]:
    """Warn once of glued or visible joints that the error of a length opens by more than the limit."""
    over = [e for e in found if e.error > settings.open_limit and _matters(assembly, e)]
    if over:
        more = f" So do {len(over) - 1} more parts." if len(over) > 1 else ""
        yield Finding(
            "length-error-opens", Severity.WARNING, over[0].text() + more, tuple(e.part for e in over),
            value=over[0].error, limit=settings.open_limit, unit="mm", source="practice",
            remedy="Cut parts of one length against one stop, and those between others to fit the work.",
        )  # fmt: skip


def _matters(assembly: Assembly, e: LengthError) -> bool:
    return any(assembly.joints[j].glued or assembly.joints[j].shows for j in e.joints)
