"""Gaps between boards laid side by side: seat slats, back slats, table tops; read from the placed parts."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from scantling.board import Assembly, Part
from scantling.board.vector import dot

WIDEST_MM = 230.0  # boards further apart are not a row of boards: 9 in, the widest opening that holds a head


@dataclass(frozen=True, slots=True)
class Gap:
    """A gap of a row of boards of one name: its clear width, the board beside it and how deep it is, mm."""

    name: str
    parts: tuple[str, str]
    clear_mm: float
    board_mm: float
    depth_mm: float
    board: Part


def gaps_of(assembly: Assembly) -> list[Gap]:
    """Return the least and the widest gap of every row of parallel boards of one name."""
    rows: dict[str, list[Part]] = {}
    for part in assembly.parts.values():
        rows.setdefault(part.name, []).append(part)
    found = []
    for row in rows.values():
        if len(row) > 1:
            gaps = sorted(_between(row), key=lambda g: (round(g.clear_mm, 2), g.parts))
            found += gaps[:1] + ([gaps[-1]] if len(gaps) > 1 and gaps[-1].clear_mm - gaps[0].clear_mm > 0.5 else [])
    return found


def _between(row: list[Part]) -> Iterator[Gap]:
    """Yield the gaps between neighbours that lie side by side in one plane with their edges towards each other."""
    across, through = row[0].frame.across, row[0].frame.through
    alike = [p for p in row if abs(dot(p.frame.across, across)) > 0.999]
    placed = sorted(((min(s), max(s), p) for p in alike if (s := _ends(p, row[0]))), key=lambda e: (e[0], e[2].id))
    for (_, end, a), (start, _, b) in pairwise(placed):
        level = abs(dot(through, a.frame.origin) - dot(through, b.frame.origin)) < max(a.thickness, b.thickness)
        if level and 0.05 < start - end < WIDEST_MM:
            yield Gap(a.name, (a.id, b.id), start - end, (a.width + b.width) / 2, min(a.thickness, b.thickness), a)


def _ends(part: Part, first: Part) -> tuple[float, float]:
    """Return where a part begins and ends across the row."""
    across = first.frame.across
    start = dot(across, part.frame.origin)
    return start, start + part.width * dot(across, part.frame.across)
