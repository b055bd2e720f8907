"""What opens when the saw is not set to the degree: sloped joints with both cuts off by the setting error."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from scantling.board import Assembly, Cut, Joint, Part, Patch, SawCut, patches
from scantling.board.cuts import MOST_BEVEL_DEG
from scantling.findings import Finding, Severity

from .settings import DryfitSettings

REACH_MM = 12.0
SLOPED_DEG = 0.01
SAME_DEG = 1e-9


@dataclass(frozen=True, slots=True)
class Opening:
    """How far a joint opens, in mm, when each of its cuts is `error` degrees off its setting, or off `square`."""

    joint: str
    parts: tuple[str, ...]
    error: float
    opens: float
    cuts: int
    square: bool = False

    def text(self) -> str:
        """Return the sentence people need."""
        strips = "both cuts" if self.cuts > 1 else "its cut"
        off = "out of square" if self.square else "off"
        return f"With {strips} {abs(self.error):.2g}° {off}, {' and '.join(self.parts)} open {self.opens:.2f} mm."

    def to_plain(self) -> dict[str, Any]:
        """Return the opening as JSON members."""
        return {
            "joint": self.joint,
            "parts": list(self.parts),
            "error_deg": self.error,
            "square": self.square,
            "opens_mm": round(self.opens, 3),
            "text": self.text(),
        }


def openings(assembly: Assembly, error: float) -> list[Opening]:
    """Return how every joint at a sloped cut opens when its cuts are `error` degrees off, the widest first.

    Each cut turns about its long point, which keeps its length; a cut that is too shallow opens the other side of the
    joint by as much, so the larger of both ways is told.
    """
    found = [o for joint in assembly.joints.values() if (o := _opening(assembly, joint, abs(error))) is not None]
    return sorted(found, key=lambda o: (-round(o.opens, 6), o.joint))


def _opening(assembly: Assembly, joint: Joint, error: float) -> Opening | None:
    a, b = (assembly.parts[p] for p in (joint.parts[0], joint.parts[-1]))
    touching = [p for p in patches(a, b) if abs(p.least_gap) <= 0.05 and p.greatest_gap <= 0.05]
    if not touching:
        return None
    patch = touching[0]
    cuts = _sloped(a, patch.side_a) + _sloped(b, patch.side_b)
    if cuts == 0:
        return None
    opens = max(_gap(a, b, patch, sign * error) for sign in (1, -1))
    return Opening(joint.id, (a.id, b.id), error, opens, cuts)


def _sloped(part: Part, side: str) -> int:
    return sum(isinstance(c, SawCut) and c.side == side and max(c.mitre, c.bevel) > SLOPED_DEG for c in part.cuts)


def _gap(a: Part, b: Part, patch: Patch, error: float) -> float:
    """Return the wedge between two faces, each turned by an error: greatest less least gap."""
    one, other = _off(a, patch.side_a, error), _off(b, patch.side_b, error)
    met = [p for p in patches(one, other, REACH_MM) if (p.side_a, p.side_b) == (patch.side_a, patch.side_b)]
    return max((p.greatest_gap - p.least_gap for p in met), default=0.0)


def _off(part: Part, side: str, error: float) -> Part:
    """Return a part with the sloped angle of its cut at a side off by an error; the steeper of both angles is."""
    cuts: list[Cut] = []
    for cut in part.cuts:
        if isinstance(cut, SawCut) and cut.side == side and max(cut.mitre, cut.bevel) > SLOPED_DEG:
            which = "bevel" if cut.bevel >= cut.mitre else "mitre"
            angle = min(MOST_BEVEL_DEG, max(0.0, getattr(cut, which) + error))
            cuts.append(replace(cut, bevel=angle) if which == "bevel" else replace(cut, mitre=angle))
        else:
            cuts.append(cut)
    return replace(part, cuts=tuple(cuts), promises=[], _local=None, _world=None)


def opening_findings(assembly: Assembly, found: list[Opening], settings: DryfitSettings) -> Iterator[Finding]:
    """Report glued or visible joints that the saw's error opens by more than the limit, once for all alike."""
    rows: dict[tuple[str, ...], list[Opening]] = {}
    for opening in found:
        joint = assembly.joints[opening.joint]
        if (joint.glued or joint.shows) and opening.opens > settings.open_limit:
            names = tuple(sorted(assembly.parts[p].name for p in opening.parts))
            names = ("square",) if opening.square else names  # square cuts are all set alike: they are told once
            rows.setdefault(names, []).append(opening)
    for row in rows.values():
        worst = row[0]
        like = "" if worst.square else " like it"
        more = f" So do {len(row) - 1} more joints{like}." if len(row) > 1 else ""
        yield Finding(
            "saw-error-opens", Severity.WARNING, worst.text() + more,
            tuple(dict.fromkeys(p for o in row for p in o.parts)), value=worst.opens, limit=settings.open_limit,
            unit="mm", source="practice", remedy="Set the blade with a digital gauge; try it on scraps first.",
        )  # fmt: skip
