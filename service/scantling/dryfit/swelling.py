"""Solid wood through the seasons: gaps that close when it swells, and gaps and joints that open when it shrinks.

A board moves across the grain only, width by width x coefficient x change of moisture content (Wood Handbook,
FPL-GTR-282, chapter 13; tangential coefficient, which is the larger). It is held in the middle by its screws, so each
edge moves by half.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from scantling.board import Assembly, Part, patches
from scantling.findings import Finding, Severity
from scantling.tables import movements

REACH_MM = 15.0
LEAST_GAP_MM = 1.0  # what swollen boards should still leave between them: practice
EDGES = ("near", "far")


@dataclass(frozen=True, slots=True)
class Seasonal:
    """A gap between two boards in mm: as built, when both have swollen, and when both have shrunk."""

    parts: tuple[str, str]
    built: float
    swollen: float
    shrunk: float

    def to_plain(self) -> dict[str, Any]:
        """Return the gap as JSON members."""
        return {
            "parts": list(self.parts),
            "built_mm": round(self.built, 2),
            "swollen_mm": round(self.swollen, 2),
            "shrunk_mm": round(self.shrunk, 2),
        }


def seasonal_gaps(assembly: Assembly, wetter: float, drier: float) -> list[Seasonal]:
    """Return the gaps between edges of solid boards when their moisture content rises or falls by so many per cent."""
    boards = [p for p in assembly.parts.values() if p.material.stock_kind == "board" and _coefficient(p) is not None]
    found = []
    for a, b in combinations(boards, 2):
        facing = [p for p in patches(a, b, REACH_MM) if p.side_a in EDGES and p.side_b in EDGES]
        if facing and facing[0].least_gap >= 0:
            built = facing[0].least_gap
            moves = (_grows(a) + _grows(b)) / 2
            found.append(Seasonal((a.id, b.id), built, built - moves * wetter, built + moves * drier))
    return found


def _coefficient(part: Part) -> float | None:
    row = movements().get(part.material.material)
    return None if row is None else row.tangential


def _grows(part: Part) -> float:
    """Return what a board's width gains per per cent of moisture content, in mm."""
    return part.width * (_coefficient(part) or 0.0)


def seasonal_findings(gaps: list[Seasonal]) -> Iterator[Finding]:
    """Report gaps between boards that swelling nearly closes, once, by the tightest."""
    tight = [g for g in gaps if g.built > 0.05 and g.swollen < LEAST_GAP_MM]
    if tight:
        worst = min(tight, key=lambda g: (g.swollen, g.parts))
        shut = "closes and the boards push each other" if worst.swollen < 0 else f"closes to {worst.swollen:.1f} mm"
        more = f" So do {len(tight) - 1} more." if len(tight) > 1 else ""
        yield Finding(
            "swells-shut", Severity.WARNING,
            f"Swollen, the gap of {worst.built:.1f} mm between {worst.parts[0]} and {worst.parts[1]} {shut}.{more}",
            tuple(dict.fromkeys(p for g in tight for p in g.parts)), value=worst.swollen, limit=LEAST_GAP_MM, unit="mm",
            source="Wood Handbook FPL-GTR-190, Table 13-5; least gap practice",
            remedy=f"Leave {worst.built - worst.swollen + LEAST_GAP_MM:.0f} mm between boards laid at this moisture.",
        )  # fmt: skip
