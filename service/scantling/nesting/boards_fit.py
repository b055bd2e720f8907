"""Boards that are full to the last: what is left over is less than the cuts may be off their line.

Boards are sold a little long rather than short, so only the cutting error counts here.
"""

from collections import Counter
from dataclasses import dataclass, replace
from itertools import pairwise

from scantling.findings import Finding, Severity

from .boards_ends import SQUARE, lie_of
from .boards_problem import clear_stretches, ends_of
from .nouns import Job, Layout, Nesting, Placement

_MOST_FINDINGS = 3


@dataclass(frozen=True, slots=True)
class FullStretch:
    """A stretch of a board whose cuts want more room than is left (0.01 mm).

    `margin` is for the cuts it takes now, `wanted` for one more: where something is left, it has to be cut off.
    """

    stock: str
    parts: tuple[str, ...]
    left: int
    margin: int
    wanted: int


def full_stretches(job: Job, layout: Layout) -> list[FullStretch]:
    """Return the stretches of a board layout that leave less than their cuts may be off."""
    stock = next(s for s in job.stock if s.id == layout.stock)
    found = []
    for start, room in clear_stretches(stock, job):
        end = start + room - job.cutting.kerf
        pieces = sorted((p for p in layout.placements if start <= p.x < end), key=lambda p: p.x)
        if not pieces:
            continue
        left = end - pieces[-1].x - pieces[-1].length
        before, sloped = _cuts(job, pieces)
        cuts, error = before + (left > 0 or sloped), job.cutting.cutting_error
        if left < cuts * error:
            parts = tuple(p.part for p in pieces)
            found.append(FullStretch(stock.id, parts, left, cuts * error, (before + 1) * error))
    return found


def _cuts(job: Job, pieces: list[Placement]) -> tuple[int, bool]:
    """Return how many cuts a row takes before its last end, and whether that slopes.

    Neighbours whose facing ends do not agree take two, and a sloped first end takes one of its own.
    """
    by_id = {p.id: p for p in job.pieces}
    row = [lie_of(ends_of(by_id[p.part]), p.end_for_end, p.face_down) for p in pieces]
    between = sum(1 if a.end == b.start else 2 for a, b in pairwise(row))
    return between + (row[0].start != SQUARE), row[-1].end != SQUARE


def with_wider_cuts(job: Job) -> Job:
    """Return the job with the kerf wider by what a cut may be off, at a quarter of the effort."""
    kerf = job.cutting.kerf + job.cutting.cutting_error
    return replace(job, cutting=replace(job.cutting, kerf=kerf), effort=job.effort // 4)


def full_board_findings(full: list[FullStretch], nesting: Nesting, careful: Nesting) -> tuple[Finding, ...]:
    """Return a finding for each of the fullest stretches; `careful` is the nesting with wider cuts."""
    different = sorted(set(full), key=lambda f: (f.left - f.margin, f.stock, f.parts))
    return tuple(_finding(stretch, nesting, careful) for stretch in different[:_MOST_FINDINGS])


def _finding(full: FullStretch, nesting: Nesting, careful: Nesting) -> Finding:
    part, times = max(Counter(full.parts).items(), key=lambda item: (item[1], item[0]))
    change = -(-(full.wanted - full.left) // times)
    row = " + ".join(f"{n} × {p}" if n > 1 else p for p, n in sorted(Counter(full.parts).items()))
    return Finding(
        "exact-fit",
        Severity.WARNING,
        f"“{full.stock}”: {row} leave {full.left / 100:g} mm; the cuts may be {full.margin / 100:g} mm off in all. "
        f"{_told(nesting, careful)}",
        parts=tuple(sorted(set(full.parts))),
        value=full.left / 100,
        limit=full.margin / 100,
        unit="mm",
        source="cutting error as stated, or 0.5 mm a cut (practice)",
        remedy=f"Measure the board first, or make {part} {change / 100:g} mm shorter.",
    )


def _told(nesting: Nesting, careful: Nesting) -> str:
    """Say what the margin costs, proved or not."""
    count, wary = (sum(layout.count for layout in n.layouts) for n in (nesting, careful))
    proved = "proved least" if careful.proven_minimal else "not proved least"
    if sum(u.quantity for u in careful.unplaced) > sum(u.quantity for u in nesting.unplaced):
        return "With room for that not every part finds a place."
    if careful.objective == nesting.objective:
        return f"There is a way with room for that from as much stock ({wary}, {proved})."
    return f"With room for that it takes {wary} boards instead of {count} ({proved})."
