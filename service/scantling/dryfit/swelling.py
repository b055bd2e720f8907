"""Solid wood through the seasons: gaps that close or open, panels in their grooves, glued-up widths, whole outlines.

A board moves across the grain only, width by width x coefficient x change of moisture content (Wood Handbook,
FPL-GTR-282, chapter 13; tangential coefficient, which is the larger). What is glued edge to edge moves as one panel; it
is held in the middle, so each edge moves by half. Sheets are taken to stand still.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any, Literal

from scantling.board import Assembly, JointKind, Part, Patch, patches
from scantling.board.vector import dot
from scantling.findings import Finding, Severity
from scantling.tables import movements

from .chains import reach
from .joints import tied

REACH_MM = 15.0
LEAST_GAP_MM = 1.0  # what swollen boards should still leave between them: practice
LEAST_HELD_MM = 2.0  # what a shrunk panel should still have in its groove: practice
LEAST_MM = 0.05
EDGES = ("near", "far")
OVERALL = ("width", "depth", "height")
Kind = Literal["gap", "groove", "panel", "overall"]
SOURCE = "Wood Handbook FPL-GTR-190, Table 13-5; {} practice"


@dataclass(frozen=True, slots=True)
class Seasonal:
    """A size in mm as built, when the solid wood round it has swollen, and when it has shrunk.

    `kind` says of what: the gap beside a board's edge, how deep a panel stands in a groove, the width of boards glued
    up, or an overall size of the piece, named by `what`.
    """

    parts: tuple[str, ...]
    built: float
    swollen: float
    shrunk: float
    kind: Kind = "gap"
    what: str = ""

    def to_plain(self) -> dict[str, Any]:
        """Return the size as JSON members."""
        return {
            "kind": self.kind,
            "what": self.what,
            "parts": list(self.parts),
            "built_mm": round(self.built, 2),
            "swollen_mm": round(self.swollen, 2),
            "shrunk_mm": round(self.shrunk, 2),
        }


@dataclass(frozen=True, slots=True)
class Panel:
    """Solid boards glued edge to edge (or one board), and what their width gains per per cent of moisture, in mm."""

    parts: tuple[Part, ...]
    width: float
    grows: float


def seasons(assembly: Assembly, wetter: float, drier: float) -> list[Seasonal]:
    """Return every size that the moisture content changes when it rises or falls by so many per cent."""
    panels = _panels(assembly)
    of = {p.id: panel for panel in panels for p in panel.parts}
    return [
        *_gaps(assembly, of, wetter, drier),
        *_grooves(assembly, of, wetter, drier),
        *_widths(panels, wetter, drier),
        *_overall(assembly, panels, wetter, drier),
    ]


def _coefficient(part: Part) -> float | None:
    row = movements().get(part.material.material)
    return None if row is None or part.material.stock_kind != "board" else row.tangential


def _panels(assembly: Assembly) -> list[Panel]:
    """Return the solid boards of a piece, those glued edge to edge as one."""
    boards = [p for p in assembly.parts.values() if _coefficient(p) is not None]
    index = {p.id: i for i, p in enumerate(boards)}
    pairs = []
    for joint in assembly.joints.values():
        a, b = (index.get(p, -1) for p in (joint.parts[0], joint.parts[-1]))
        if joint.glued and a >= 0 and b >= 0 and _edge_to_edge(boards[a], boards[b]):
            pairs.append((a, b))
    panels = []
    for group in tied(len(boards), pairs):
        parts = tuple(boards[i] for i in group)
        grows = sum(p.width * (_coefficient(p) or 0.0) for p in parts)
        panels.append(Panel(parts, sum(p.width for p in parts), grows))
    return panels


def _edge_to_edge(a: Part, b: Part) -> bool:
    return any(p.side_a in EDGES and p.side_b in EDGES and abs(p.least_gap) <= LEAST_MM for p in patches(a, b))


def _gaps(assembly: Assembly, of: dict[str, Panel], wetter: float, drier: float) -> Iterator[Seasonal]:
    """Yield the gaps between a board's edge and what it faces: other boards, posts, the bottom of a groove, a case."""
    glued = {frozenset(j.parts) for j in assembly.joints.values() if j.glued}
    for a, b in combinations(assembly.parts.values(), 2):
        same = a.id in of and of[a.id] is of.get(b.id)
        if same or (a.id not in of and b.id not in of) or frozenset((a.id, b.id)) in glued:
            continue
        facing = [p for p in patches(a, b, REACH_MM) if _moves(a, p.side_a, of) or _moves(b, p.side_b, of)]
        if facing and facing[0].least_gap >= 0 and (facing[0].least_gap > LEAST_MM or _both_edges(facing[0])):
            moves = _half(a, facing[0].side_a, of) + _half(b, facing[0].side_b, of)
            built = facing[0].least_gap
            yield Seasonal((a.id, b.id), built, built - moves * wetter, built + moves * drier)


def _both_edges(patch: Patch) -> bool:
    return patch.side_a in EDGES and patch.side_b in EDGES


def _moves(part: Part, side: str, of: dict[str, Panel]) -> bool:
    return part.id in of and side in EDGES


def _half(part: Part, side: str, of: dict[str, Panel]) -> float:
    """Return how far a side moves out per per cent of moisture content, in mm."""
    return of[part.id].grows / 2 if _moves(part, side, of) else 0.0


def _grooves(assembly: Assembly, of: dict[str, Panel], wetter: float, drier: float) -> Iterator[Seasonal]:
    """Yield how deep the edges of solid panels stand in the grooves that hold them without glue."""
    for joint in assembly.joints.values():
        if joint.kind is not JointKind.HOUSED or joint.glued:
            continue
        panel, into = (assembly.parts[p] for p in (joint.parts[0], joint.parts[-1]))
        if panel.id not in of:
            continue
        for side in EDGES:
            out = panel.plane(side).normal
            edge = max(dot(c, out) for cell in panel.cells() for c in cell.corners)
            low, high = reach(into, out)
            held, moves = edge - low, _half(panel, side, of)
            if 0 < held < high - low:  # this edge stands in it, the other one does not
                yield Seasonal(
                    (panel.id, into.id), held, held + moves * wetter, held - moves * drier, "groove", f"{side} edge"
                )


def _widths(panels: Sequence[Panel], wetter: float, drier: float) -> Iterator[Seasonal]:
    for panel in panels:
        if len(panel.parts) > 1:
            ids, width, grows = tuple(p.id for p in panel.parts), panel.width, panel.grows
            yield Seasonal(ids, width, width + grows * wetter, width - grows * drier, "panel", "width glued up")


def _overall(assembly: Assembly, panels: Sequence[Panel], wetter: float, drier: float) -> Iterator[Seasonal]:
    """Yield the overall sizes that a panel makes alone, from one side of the piece to the other."""
    low, high = assembly.bounds()
    for k, name in enumerate(OVERALL):
        axis = (float(k == 0), float(k == 1), float(k == 2))
        size = high[k] - low[k]
        spanning = [p for p in panels if abs(dot(p.parts[0].frame.across, axis)) > 1 - 1e-6 and _spans(p, k, low, high)]
        if spanning:
            most = max(spanning, key=lambda p: p.grows)
            ids = tuple(p.id for p in most.parts)
            yield Seasonal(ids, size, size + most.grows * wetter, size - most.grows * drier, "overall", name)


def _spans(panel: Panel, k: int, low: Sequence[float], high: Sequence[float]) -> bool:
    lows, highs = zip(*(p.bounds() for p in panel.parts), strict=True)
    return bool(min(v[k] for v in lows) <= low[k] + LEAST_MM and max(v[k] for v in highs) >= high[k] - LEAST_MM)


def seasonal_findings(found: Sequence[Seasonal]) -> Iterator[Finding]:
    """Report gaps that swelling nearly closes and panels that shrink out of their grooves, once, by the worst."""
    tight = [g for g in found if g.kind == "gap" and g.built > LEAST_MM and g.swollen < LEAST_GAP_MM]
    if tight:
        worst = min(tight, key=lambda g: (g.swollen, g.parts))
        shut = "closes and the parts push each other" if worst.swollen < 0 else f"closes to {worst.swollen:.1f} mm"
        yield _finding(
            "swells-shut", tight, worst.swollen, LEAST_GAP_MM, "least gap",
            f"Swollen, the gap of {worst.built:.1f} mm between {worst.parts[0]} and {worst.parts[1]} {shut}.",
            f"Leave {worst.built - worst.swollen + LEAST_GAP_MM:.0f} mm there at this moisture.",
        )  # fmt: skip
    loose = [g for g in found if g.kind == "groove" and g.shrunk < LEAST_HELD_MM]
    if loose:
        worst = min(loose, key=lambda g: (g.shrunk, g.parts))
        left = f"has {worst.shrunk:.1f} mm left" if worst.shrunk > 0 else "comes out"
        yield _finding(
            "shrinks-out", loose, worst.shrunk, LEAST_HELD_MM, "least depth",
            f"Shrunk, {worst.parts[0]} {left} of the {worst.built:.1f} mm it stands in {worst.parts[1]}.",
            f"Let it stand {worst.built - worst.shrunk + LEAST_HELD_MM:.0f} mm in the groove, or make it of sheet.",
        )  # fmt: skip


def _finding(
    code: str, rows: Sequence[Seasonal], value: float, limit: float, least: str, message: str, remedy: str
) -> Finding:
    more = f" So do {len(rows) - 1} more." if len(rows) > 1 else ""
    return Finding(
        code, Severity.WARNING, message + more, tuple(dict.fromkeys(p for g in rows for p in g.parts)), value=value,
        limit=limit, unit="mm", source=SOURCE.format(least), remedy=remedy,
    )  # fmt: skip
