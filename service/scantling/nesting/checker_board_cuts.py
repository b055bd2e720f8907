"""The part of the independent checker that saws a board with sloped ends up on paper, edge by edge.

Nothing here is shared with what wrote the cuts. Of each cut its marks on both edges of the upper face, its angles and
its kerf are taken; what is left of the board is known by where its start crosses the four long edges.
"""

from collections import Counter
from collections.abc import Sequence
from math import hypot, radians, tan

from .checker_boards import EDGES, Crossings, Lying, lie_of_placement
from .nouns import Job, Layout, Stock
from .sequence import Cut

_OFF = 3.0  # 0.01 mm: marks and kerfs are rounded to whole 0.01 mm, each joint twice


def check_board_cuts(job: Job, layout: Layout, cuts: Sequence[Cut]) -> list[str]:
    """Return what is wrong with the cuts of a board: a piece not freed as it is placed, a setting told wrongly.

    Checked: each cut holds what is left of the board; the ends of a piece that comes off lie where the piece was
    placed, at every edge; each piece comes off once; a slope against its setting says how the board is held for it.
    """
    stock = next(s for s in job.stock if s.id == layout.stock)
    pieces = {p.id: p for p in job.pieces}
    placed = [(p, lie_of_placement(p, pieces[p.part], stock, job.cutting.kerf)) for p in layout.placements]
    where: dict[tuple[str, int], Lying] = {(p.part, p.x): lying for p, lying in placed}
    faults: list[str] = []
    start: Crossings = dict.fromkeys(EDGES, 0.0)
    made: Counter[tuple[str, int]] = Counter()
    board_end: Crossings = dict.fromkeys(EDGES, float(stock.length))
    for cut in cuts:
        if abs(cut.held.x - min(start.values())) > _OFF or cut.held.x + cut.held.along_x != stock.length:
            faults.append(f"the piece held for cut {cut.number} is not what is left of the board")
        blade = _blade(cut, stock)
        leans = (stock.board_width or 0) * tan(radians(cut.slope / 100))
        if abs(blade[1, 1] - blade[0, 1] - leans) > _OFF:
            faults.append(f"the marks of cut {cut.number} are not at its slope")
        after = {edge: x + cut.kerf for edge, x in blade.items()}
        if cut.falls is not None and cut.falls.kind == "part":
            faults += _freed(cut, (cut.falls.name or "", cut.falls.x), (start, blade), where, made)
        if cut.rest.kind == "part":
            first = cut.kind == "trim" and cut.at >= cut.rest.x + cut.rest.along_x
            sides = (start, blade) if first else (after, board_end)
            faults += _freed(cut, (cut.rest.name or "", cut.rest.x), sides, where, made)
        start = after
    if cuts:
        faults += [f"{part} at {x / 100:.2f} mm does not come off" for part, x in _missing(where, made)]
    return faults + _settings(cuts)


def _missing(where: dict[tuple[str, int], Lying], made: Counter[tuple[str, int]]) -> list[tuple[str, int]]:
    return sorted(key for key in where if made[key] != 1)


def _blade(cut: Cut, stock: Stock) -> Crossings:
    """Return where the side of the blade nearer the board's start crosses the edges."""
    near, far = cut.marks if cut.marks is not None else (cut.at, cut.at)
    through = (stock.thickness or 0) * tan(radians(cut.bevel / 100)) * hypot(1.0, tan(radians(cut.slope / 100)))
    return {(a, up): (far if a else near) - (0.0 if up else through) for a, up in EDGES}


def _freed(
    cut: Cut,
    key: tuple[str, int],
    sides: tuple[Crossings, Crossings],
    where: dict[tuple[str, int], Lying],
    made: Counter[tuple[str, int]],
) -> list[str]:
    """Check that a piece comes off with the ends it was placed with."""
    made[key] += 1
    lying = where.get(key)
    if lying is None:
        return [f"cut {cut.number} frees {key[0]} where none is placed"]
    off = max(
        abs(cut_at[edge] - end[edge])
        for cut_at, end in zip(sides, (lying.starts, lying.ends), strict=True)
        for edge in EDGES
    )
    return [] if off <= _OFF else [f"cut {cut.number} frees {key[0]} with an end {off / 100:.2f} mm off its place"]


def _settings(cuts: Sequence[Cut]) -> list[str]:
    """Check that a slope leaning against its setting, and no other, says how the board is held."""
    faults = []
    first: dict[tuple[int, int], tuple[int, int]] = {}
    for cut in sorted(cuts, key=lambda c: c.number):
        slope = (cut.slope, cut.bevel)
        if slope == (0, 0):
            continue
        leans = first.setdefault((abs(cut.slope), abs(cut.bevel)), slope)
        if (cut.lie is None) != (slope == leans):
            faults.append(f"cut {cut.number} does not say how the board is held for it")
        if cut.lie == "board turned over" and slope != (-leans[0], -leans[1]):
            faults.append(f"turning the board over does not give the slope of cut {cut.number}")
    return faults
