"""The part of the independent checker that looks at the order of cuts: it cuts a sheet up on paper, cut by cut.

Nothing here is shared with the search, nor with what puts the cuts in order. Everything is in 0.01 mm.
"""

from collections import Counter
from collections.abc import Sequence

from .checker_board_cuts import check_board_cuts
from .nouns import Job, Layout, Offcut, Placement
from .sequence import Cut

_Box = tuple[int, int, int, int]  # x, y, along_x, along_y


def check_cuts(job: Job, layouts: Sequence[Layout], sequences: Sequence[Sequence[Cut]]) -> tuple[str, ...]:
    """Return every fault of the order in which layouts are cut; empty means each can be cut as listed.

    Checked of sheets and of boards with square ends: the piece held is there when it is cut, every cut runs through
    it and leaves exactly what is said on both sides of the blade, and at the end every part is there, as often as it
    is placed, with every offcut inside a piece that is kept. Of all: numbers run on, nothing comes before the cut that
    frees it. Boards with sloped ends are sawn up edge by edge (checker_board_cuts).
    """
    faults: list[str] = []
    for number, (layout, cuts) in enumerate(zip(layouts, sequences, strict=True), start=1):
        found = _faults_of_order(cuts)
        sloped = any(c.slope or c.bevel for c in cuts)
        found += check_board_cuts(job, layout, cuts) if sloped else _faults_of_cutting(job, layout, cuts)
        faults += [f"layout {number} ({layout.stock}): {f}" for f in found]
    return tuple(faults)


def _faults_of_order(cuts: Sequence[Cut]) -> list[str]:
    faults = []
    if [c.number for c in cuts] != list(range(1, len(cuts) + 1)):
        faults.append("the numbers of its cuts do not run on from 1")
    faults += [
        f"cut {c.number} comes before cut {c.after}, which frees its piece"
        for c in cuts
        if c.after is not None and c.after >= c.number
    ]
    return faults


def _faults_of_cutting(job: Job, layout: Layout, cuts: Sequence[Cut]) -> list[str]:
    """Cut one sheet or board up as listed."""
    stock = next(s for s in job.stock if s.id == layout.stock)
    there: Counter[_Box] = Counter({(0, 0, stock.length, stock.width or 0): 1})
    made: Counter[tuple[str | None, _Box]] = Counter()
    kept: list[_Box] = []
    for cut in cuts:
        held = (cut.held.x, cut.held.y, cut.held.along_x, cut.held.along_y)
        if not there[held]:
            return [f"the piece held for cut {cut.number} is not there"]
        there[held] -= 1
        wrong = _wrong_sides(cut, held, job.cutting.kerf)
        if wrong is not None:
            return [wrong]
        for fall in (cut.falls, cut.rest):
            if fall is None:
                continue
            box = (fall.x, fall.y, fall.along_x, fall.along_y)
            if fall.kind == "part":
                made[fall.name, box] += 1
            elif fall.kind == "offcut":
                kept.append(box)
            elif fall.kind == "piece":
                there[box] += 1
    if not cuts:
        made.update((p.part, (p.x, p.y, p.along_x, p.along_y)) for p in layout.placements if _whole(p, there))
        kept = list(there)
    placed: Counter[tuple[str | None, _Box]] = Counter(
        (p.part, (p.x, p.y, p.along_x, p.along_y)) for p in layout.placements
    )
    faults = [f"{part} does not come off as it is placed" for (part, _) in placed - made]
    faults += [f"{part} comes off where none is placed" for (part, _) in made - placed]
    if any(n for n in there.values()) and cuts:
        faults.append("a piece is left that is to be cut further")
    faults += ["an offcut is not kept whole" for o in layout.offcuts if not any(_inside(o, box) for box in kept)]
    return faults


def _wrong_sides(cut: Cut, held: _Box, kerf: int) -> str | None:
    """Return what is wrong with where the blade goes through the piece held, or None."""
    along = 0 if cut.axis == "x" else 1
    begin, end = held[along], held[along] + held[2 + along]
    through = begin <= cut.at and cut.at + cut.kerf <= end and min(1, kerf) <= cut.kerf <= kerf
    if cut.axis not in ("x", "y") or not through:
        return f"the blade of cut {cut.number} does not go through the piece held"
    sides = [(begin, cut.at - begin), (cut.at + cut.kerf, end - cut.at - cut.kerf)]
    wanted = Counter(_side(held, along, *s) for s in sides if s[1] > 0)
    falls = [f for f in (cut.falls, cut.rest) if f is not None]
    stated = Counter((f.x, f.y, f.along_x, f.along_y) for f in falls)
    if wanted != stated:
        return f"cut {cut.number} does not leave what it is said to"
    return None


def _side(held: _Box, along: int, begin: int, size: int) -> _Box:
    if along == 0:
        return begin, held[1], size, held[3]
    return held[0], begin, held[2], size


def _whole(p: Placement, there: Counter[_Box]) -> bool:
    return bool(there[p.x, p.y, p.along_x, p.along_y])


def _inside(o: Offcut, box: _Box) -> bool:
    return box[0] <= o.x and box[1] <= o.y and o.x + o.along_x <= box[0] + box[2] and o.y + o.along_y <= box[1] + box[3]
