"""Dimension chains in space: where each begins and ends, whether its links close, and which chain rules another.

A link named after a part lies where that part lies, so a chain has a place: an axis, a start and an end along it. Two
chains over one span, or one whose span is a run of another's links, count the same wood; the one first stated (of two
spans the longer) rules, and the other is derived from it. Links that are not parts are gaps, in order or lumped.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product
from typing import Any

from scantling.board import Assembly, Chain, Part
from scantling.board.chain import TapedChain
from scantling.board.vector import Vector, X, Y, Z, dot, scale
from scantling.measure import Tape

PARALLEL = 1 - 1e-9
Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Slip:
    """Where a chain does not close: `off` mm that no link counts between two parts (negative: counted twice)."""

    parts: tuple[str, str]
    off: float
    at: Vector


@dataclass(frozen=True, slots=True)
class Placed:
    """A chain in space: it runs from `start` to `end` mm along a unit axis; `marks` are the ends of its links there.

    `marks` is empty where gaps were counted in one lump. `slip` is what it leaves open; `ruled_by` is the chain (by its
    index; `ruler` is its name) it is derived from, and `run` which of that one's links it covers.
    """

    index: int
    chain: Chain
    axis: Vector
    start: float
    end: float
    marks: tuple[float, ...] = ()
    slip: Slip | None = None
    ruled_by: int | None = None
    ruler: str | None = None
    run: tuple[int, int] = (0, 0)

    def to_plain(self) -> dict[str, Any]:
        """Return the place of a chain as JSON members."""
        return {
            "name": self.chain.name,
            "axis": [round(c, 6) + 0.0 for c in self.axis],
            "from_mm": round(self.start, 2),
            "to_mm": round(self.end, 2),
            "total_mm": round(self.chain.total, 2),
            "closing": self.chain.closing,
            "ruled_by": self.ruler,
        }


def place_chains(assembly: Assembly, fit: float) -> list[Placed]:
    """Return the chains that have a place, in order, each with the one that rules it."""
    placed = [p for i, c in enumerate(assembly.chains) if (p := _place(assembly, i, c, fit)) is not None]
    return [_ruled(p, placed, fit) for p in placed]


def _place(assembly: Assembly, index: int, chain: Chain, fit: float) -> Placed | None:
    """Return where a chain lies; None where it names no part, or its parts do not tell one line."""
    named = [(k, assembly.parts[link.label]) for k, link in enumerate(chain.links) if link.label in assembly.parts]
    found = [_along(assembly, index, chain, named, axis, fit) for axis in _axes(chain, named, fit)]
    lying = [p for p in found if p is not None]
    sound = [p for p in lying if p.slip is None]
    if sound:
        return sound[0] if len(sound) == 1 or len(named) > 1 else None
    return min(lying, key=lambda p: abs(p.slip.off) if p.slip is not None else 0.0, default=None)


def _axes(chain: Chain, named: Sequence[tuple[int, Part]], fit: float) -> Iterator[Vector]:
    """Yield the directions in which every named part is as long as its link says."""
    tried: list[Vector] = []
    own = (d for _, p in named for d in (p.frame.along, p.frame.across, p.frame.through))
    for axis in (X, Y, Z, *own):
        if all(abs(dot(axis, t)) < PARALLEL for t in tried):
            tried.append(axis)
    for axis in tried:
        spans = [(k, reach(part, axis)) for k, part in named]
        if spans and all(abs(high - low - chain.links[k].size) <= fit for k, (low, high) in spans):
            yield axis


def reach(part: Part, axis: Vector) -> Span:
    """Return the least and greatest place of a part along a unit axis, mm."""
    heights = [dot(c, axis) for cell in part.cells() for c in cell.corners]
    return min(heights), max(heights)


def _along(
    assembly: Assembly, index: int, chain: Chain, named: Sequence[tuple[int, Part]], axis: Vector, fit: float
) -> Placed | None:
    """Lay a chain along an axis: its gaps where they are named, else lumped, at its ends or between its parts."""
    spans = [reach(part, axis) for _, part in named]
    if len(spans) > 1 and sum(spans[0]) > sum(spans[-1]):  # told from the far end
        axis = scale(axis, -1.0)
        spans = [(-high, -low) for low, high in spans]
    rows = sorted(zip(spans, named, strict=True), key=lambda row: row[0])
    first, last = named[0][0], named[-1][0]
    lead = sum(link.size for link in chain.links[:first])
    trail = sum(link.size for link in chain.links[last + 1 :])
    start, end = rows[0][0][0], rows[-1][0][1]
    in_order = [row[1] for row in rows] == list(named)
    slips = list(_slips(chain, rows, axis, in_order=in_order))
    if in_order and all(abs(s.off) <= fit for s in slips):
        placed = Placed(index, chain, axis, start - lead, end + trail, _marks(chain, start - lead))
        return placed if _ends_somewhere(assembly, placed, lead, trail, fit) else None
    counted = chain.total - sum(chain.links[k].size for k, _ in named)
    held = sum(b[0][0] - a[0][1] for a, b in pairwise(rows))
    apart = all(b[0][0] - a[0][1] >= -fit for a, b in pairwise(rows))
    for before, after in product((0.0, lead), (0.0, trail)):
        if apart and abs(held + before + after - counted) <= fit:
            return Placed(index, chain, axis, start - before, end + after)
    worst = max(slips, key=lambda s: abs(s.off), default=None)
    if worst is None:
        return None
    if abs(worst.off) <= fit:
        worst = replace(worst, off=held - counted)
    return Placed(index, chain, axis, start - lead, end + trail, slip=worst)


def _slips(
    chain: Chain, rows: Sequence[tuple[Span, tuple[int, Part]]], axis: Vector, *, in_order: bool
) -> Iterator[Slip]:
    """Yield what lies between every two neighbours of a chain, less what its links count there."""
    for ((_, high), (i, a)), ((low, _), (k, b)) in pairwise(rows):
        counted = sum(link.size for link in chain.links[i + 1 : k]) if in_order else 0.0
        middle = b.volume_and_centre()[1]
        at = tuple(m + (high - dot(middle, axis)) * d for m, d in zip(middle, axis, strict=True))
        yield Slip((a.id, b.id), low - high - counted, (at[0], at[1], at[2]))


def _marks(chain: Chain, start: float) -> tuple[float, ...]:
    found = [start]
    for link in chain.links:
        found.append(found[-1] + link.size)
    return tuple(found)


def _ends_somewhere(assembly: Assembly, placed: Placed, lead: float, trail: float, fit: float) -> bool:
    """Whether an end that a gap makes lies on a side of some part, or on an end of the whole piece."""
    ends = [placed.start] if lead else []
    ends += [placed.end] if trail else []
    if not ends:
        return True
    sides = [s for part in assembly.parts.values() for s in reach(part, placed.axis)]
    return all(any(abs(end - s) <= fit for s in sides) for end in ends)


def _ruled(p: Placed, all_: Sequence[Placed], fit: float) -> Placed:
    """Return a chain with the one that rules it: the first stated of those over its span, or of the longer ones."""
    for other in all_:
        if other.index == p.index or other.slip is not None or abs(dot(other.axis, p.axis)) < PARALLEL:
            continue
        start, end = (p.start, p.end) if dot(other.axis, p.axis) > 0 else (-p.end, -p.start)
        same = abs(other.start - start) <= fit and abs(other.end - end) <= fit
        if same and (other.index < p.index or p.slip is not None):
            return replace(p, ruled_by=other.index, ruler=other.chain.name, run=(0, len(other.chain.links)))
        longer = other.end - other.start > end - start + fit
        i, k = (_mark(other.marks, at, fit) for at in (start, end))
        if longer and i is not None and k is not None:
            return replace(p, ruled_by=other.index, ruler=other.chain.name, run=(i, k))
    return p


def _mark(marks: Sequence[float], at: float, fit: float) -> int | None:
    return next((i for i, m in enumerate(marks) if abs(m - at) <= fit), None)


def ruling_size(p: Placed, chains: Sequence[Chain]) -> float | None:
    """Return what the chain that rules another counts over its span, in mm; None where nothing rules it."""
    if p.ruled_by is None:
        return None
    ruling = chains[p.ruled_by]
    whole = p.run == (0, len(ruling.links))
    return ruling.total if whole else sum(link.size for link in ruling.links[slice(*p.run)])


def taped_chains(assembly: Assembly, tape: Tape, fit: float) -> list[TapedChain]:
    """Return every chain as read on a tape. The total of a ruled one is what its ruler reads over the same span."""
    rulers = {p.index: p for p in place_chains(assembly, fit)}
    found: dict[int, TapedChain] = {}

    def read(i: int) -> TapedChain:
        p = rulers.get(i)
        if i not in found:
            total = None
            if p is not None and p.ruled_by is not None and p.slip is None:
                total = sum(read(p.ruled_by).readings[slice(*p.run)])
            found[i] = assembly.chains[i].on_tape(tape, total)
        return found[i]

    return [read(i) for i in range(len(assembly.chains))]
