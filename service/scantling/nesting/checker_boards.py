"""The part of the independent checker that looks at one board: where its pieces really lie, corner by corner.

Nothing here is shared with the search. A piece is its two end planes, each told by where it crosses the four long
edges of the board (near and far, lower and upper face); turning a piece moves those crossings about. Everything is in
0.01 mm.
"""

from dataclasses import dataclass, replace
from itertools import pairwise
from math import hypot, radians, tan

from .nouns import Job, Layout, Piece, Placement, Stock

EDGES = ((0, 0), (0, 1), (1, 0), (1, 1))  # (far from near, upper from lower)
_LOST = 1e-3  # 0.01 mm: what tangents lose

Crossings = dict[tuple[int, int], float]


@dataclass(frozen=True, slots=True)
class Lying:
    """A piece or an offcut on the board: where its ends cross the edges, and what the blade takes of each at an end."""

    name: str
    starts: Crossings
    ends: Crossings
    kerf_at_start: float
    kerf_at_end: float


def check_board(job: Job, layout: Layout, stock: Stock) -> list[str]:
    """Return what is wrong with one board: out of the trim, on a defect, too close, turned over against its face.

    Between two neighbours the saw makes a cut along the end of each, from edge to edge; neither may touch the other
    piece, at any edge.
    """
    faults = [] if layout.tree is None else ["has a tree of cuts on a board"]
    pieces = {p.id: p for p in job.pieces}
    lying = []
    for p in sorted(layout.placements, key=lambda p: p.x):
        piece = pieces.get(p.part)
        if piece is None:
            continue  # told already by the check of the parts
        if p.face_down and piece.one_face:
            faults.append(f"{p.part} at {_mm(p.x)} lies on the face that must show")
        lying.append(lie_of_placement(p, piece, stock, job.cutting.kerf))
        faults += _faults_of_place(lying[-1], p, job, stock)
    for offcut in layout.offcuts:
        begin, end = offcut.x, offcut.x + offcut.along_x
        if begin < 0 or end > stock.length:
            faults.append("an offcut lies outside the board")
        if offcut.along_x < job.least_offcut[0]:
            faults.append(f"an offcut of {_mm(offcut.along_x)} is shorter than is worth keeping")
        kerf = float(job.cutting.kerf)
        lying.append(
            Lying("an offcut", dict.fromkeys(EDGES, float(begin)), dict.fromkeys(EDGES, float(end)), kerf, kerf)
        )
    lying.sort(key=lambda x: min(x.starts.values()))
    for left, right in pairwise(lying):
        faults += _faults_between(left, right)
    return faults


def lie_of_placement(p: Placement, piece: Piece, stock: Stock, kerf: int) -> Lying:
    """Work out where a placed piece's end planes cross the edges of the board."""
    width, thickness = stock.board_width or 0, stock.thickness or 0
    if piece.width is not None:  # ripped to its width later: a square blank
        piece = replace(piece, start_slope=0, end_slope=0, start_bevel=0, end_bevel=0)
    starts = _plane(piece.start_slope, piece.start_bevel, width, thickness)
    ends = _plane(piece.end_slope, piece.end_bevel, width, thickness)
    first, last = min(starts.values()), max(ends.values())
    starts = {edge: x - first for edge, x in starts.items()}
    ends = {edge: x - last + p.length for edge, x in ends.items()}
    at_start = kerf * _stretch(piece.start_slope, piece.start_bevel)
    at_end = kerf * _stretch(piece.end_slope, piece.end_bevel)
    if p.end_for_end:
        starts, ends = (
            {(1 - far, up): p.length - x for (far, up), x in ends.items()},
            {(1 - far, up): p.length - x for (far, up), x in starts.items()},
        )
        at_start, at_end = at_end, at_start
    if p.face_down:
        starts = {(1 - far, 1 - up): x for (far, up), x in starts.items()}
        ends = {(1 - far, 1 - up): x for (far, up), x in ends.items()}
    return Lying(
        p.part, {e: p.x + x for e, x in starts.items()}, {e: p.x + x for e, x in ends.items()}, at_start, at_end
    )


def _plane(slope: int, bevel: int, width: int, thickness: int) -> Crossings:
    across, through = width * tan(radians(slope / 100)), thickness * tan(radians(bevel / 100))
    through *= hypot(1.0, tan(radians(slope / 100)))
    return {(far, up): far * across + up * through for far, up in EDGES}


def _stretch(slope: int, bevel: int) -> float:
    """Return how much longer than straight across a cut's width is along the board."""
    p = tan(radians(slope / 100))
    q = tan(radians(bevel / 100)) * hypot(1.0, p)
    return hypot(1.0, p, q)


def _faults_of_place(piece: Lying, p: Placement, job: Job, stock: Stock) -> list[str]:
    faults = []
    begin, end = min(piece.starts.values()), max(piece.ends.values())
    if abs(begin - p.x) > _LOST or abs(end - p.x - p.length) > _LOST:
        faults.append(f"{p.part} does not reach from {_mm(p.x)} to {_mm(p.x + p.length)}")
    if begin < job.cutting.trim.start - _LOST or end > stock.length - job.cutting.trim.end + _LOST:
        faults.append(f"{p.part} lies outside the trimmed board")
    if any(piece.starts[edge] >= piece.ends[edge] for edge in EDGES):
        faults.append(f"the ends of {p.part} cross each other")
    faults += [f"{p.part} lies on the defect at {_mm(a)}" for a, b in stock.defects if p.x < b and a < p.x + p.length]
    return faults


def _faults_between(left: Lying, right: Lying) -> list[str]:
    """Check that the cut along each of two facing ends passes the other piece at every edge."""
    gap = min(right.starts[edge] - left.ends[edge] for edge in EDGES)
    kerf = max(left.kerf_at_end, right.kerf_at_start)
    if gap >= kerf - _LOST:
        return []
    how = "overlap" if gap < -_LOST else f"lie closer than the kerf of {_mm(kerf)}"
    return [f"{left.name} and {right.name} at {_mm(min(right.starts.values()))} {how}"]


def _mm(units: float) -> str:
    return f"{units / 100:.2f} mm"
