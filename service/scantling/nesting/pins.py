"""Layouts that the caller pins: read as an answer gives them, checked before any work, kept as they are."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from scantling.measure import RequestError, RequestProblem, pointer

from .checker import check_layout
from .checker_cuts import find_wrong_stages
from .checker_groups import check_groups
from .nouns import UNITS_PER_MM, Job, Layout, Nesting, Node, Offcut, Piece, Placement, Stock
from .pinned_tree import Locked, tree_of
from .sheets import cut_size

Plain = Mapping[str, Any]
_AXES = {"along": ("y",), "across": ("x",), "either": ("y", "x")}


def with_plain_pins(job: Job, plain: Sequence[Plain]) -> Job:
    """Return the job with its pinned layouts. Raises RequestError with the place of every contradiction."""
    problems: list[RequestProblem] = []
    pinned: list[Layout] = []
    stocks = {s.id: s for s in job.stock}
    pieces = {p.id: p for p in job.pieces}
    for index, entry in enumerate(plain):
        stock = stocks.get(entry["stock"])
        if stock is None:
            detail = f"there is no stock {entry['stock']!r}; a layout is pinned to one of this request"
            problems.append(RequestProblem(pointer("layouts", index, "stock"), detail, "unknown-id"))
            continue
        unknown = [
            RequestProblem(pointer("layouts", index, "placements", at, "part"), f"no part {p['part']!r}", "unknown-id")
            for at, p in enumerate(entry["placements"])
            if p["part"] not in pieces
        ]
        problems += unknown
        if not unknown:
            layout, found = _read(entry, index, stock, pieces, job)
            problems += found
            pinned.append(layout)
    if not problems:
        problems = [*_too_many(job, pinned), *_split_groups(job, pinned)]
    if problems:
        raise RequestError(problems)
    return replace(job, pinned=tuple(pinned))


def without_pins(job: Job) -> Job:
    """Return what is left to nest: the parts and the stock that no pinned layout takes."""
    placed: Counter[str] = Counter()
    used: Counter[str] = Counter()
    for layout in job.pinned:
        used[layout.stock] += layout.count
        for p in layout.placements:
            placed[p.part] += layout.count
    pieces = tuple(replace(p, quantity=p.quantity - placed[p.id]) for p in job.pieces)
    stock = tuple(s if s.quantity is None else replace(s, quantity=s.quantity - used[s.id]) for s in job.stock)
    return replace(job, pieces=pieces, stock=stock, pinned=())


def with_pins(job: Job, rest: Nesting) -> Nesting:
    """Return the nesting of a whole job from that of its rest; the bound holds for whatever keeps the pins."""
    if not job.pinned:
        return rest
    stocks = {s.id: s for s in job.stock}
    priced = rest.cost is not None
    spent = sum(layout.count * _adds(stocks[layout.stock], priced) for layout in job.pinned)
    return replace(
        rest,
        layouts=(*job.pinned, *rest.layouts),
        cost=None if rest.cost is None else rest.cost + spent,
        bound=None if rest.bound is None else rest.bound + spent,
        two_stage_bound=None if rest.two_stage_bound is None else rest.two_stage_bound + spent,
        objective=rest.objective + spent,
        objective_bound=rest.objective_bound + spent,
    )


def _adds(stock: Stock, priced: bool) -> int:
    if priced:
        return stock.price or 0
    return 0 if stock.offcut else stock.length * (stock.width or 1)


def _read(
    entry: Plain, index: int, stock: Stock, pieces: Mapping[str, Piece], job: Job
) -> tuple[Layout, list[RequestProblem]]:
    """Return a pinned layout with its cuts, and what is wrong with it by itself."""
    placements = tuple(_placement(p, pieces[p["part"]], stock, job.cutting.kerf) for p in entry["placements"])
    layout = Layout(stock.id, entry.get("count", 1), placements, ())
    if stock.width is None:
        layout = replace(layout, offcuts=_board_offcuts(placements, stock, job))
        faults = check_layout(job, layout)
    else:
        layout, faults = _sheet(layout, stock, job)
    place = pointer("layouts", index)
    return layout, [RequestProblem(place, f"the pinned layout cannot be kept: {f}", "contradiction") for f in faults]


def _placement(plain: Plain, piece: Piece, stock: Stock, kerf: int) -> Placement:
    board = stock.width is None
    own = (piece.length + piece.oversize, 0) if board else cut_size(piece, kerf)
    length = plain.get("length_mm")
    width = plain.get("width_mm")
    return Placement(
        part=piece.id,
        x=_units(plain["x_mm"]),
        y=_units(plain.get("y_mm") or 0.0),
        length=own[0] if length is None else _units(length),
        width=None if board else own[1] if width is None else _units(width),
        turned=bool(plain.get("turned")),
        end_for_end=bool(plain.get("end_for_end")),
        face_down=bool(plain.get("face_down")),
    )


def _units(mm: float) -> int:
    return round(mm * UNITS_PER_MM)


def _sheet(layout: Layout, stock: Stock, job: Job) -> tuple[Layout, list[str]]:
    """Return the layout with a tree that keeps to the stages and the first cut, where there is one."""
    bare = [f for f in check_layout(job, layout) if f != "has no tree of cuts"]
    if bare:
        return layout, bare  # out of the trim, too close, the wrong way: no tree would mend it
    best: tuple[tuple[int, int], Layout, list[str]] | None = None
    for number, axis in enumerate(_AXES[job.cutting.first_cut]):
        try:
            tree = tree_of(layout.placements, stock, job.cutting, job.least_offcut, axis)
        except Locked as locked:
            return layout, [str(locked)]
        offcuts = tuple(Offcut(n.x, n.y, n.along_x, n.along_y) for n in _ends(tree) if n.kept)
        cut = replace(layout, tree=tree, offcuts=offcuts)
        faults = [*check_layout(job, cut), *find_wrong_stages(tree, job.cutting)]
        rank = (len(faults), number)
        if best is None or rank < best[0]:
            best = (rank, cut, list(dict.fromkeys(faults)))
    assert best is not None  # noqa: S101 - for the type checker; there is always an axis
    return best[1], best[2]


def _ends(node: Node) -> Iterator[Node]:
    if not node.children:
        yield node
    for child in node.children:
        yield from _ends(child)


def _board_offcuts(placements: Sequence[Placement], stock: Stock, job: Job) -> tuple[Offcut, ...]:
    """Return what is left at the end of a board where it is worth keeping."""
    kerf = job.cutting.kerf
    begin = max((p.x + p.length for p in placements), default=0) + 2 * kerf
    left = stock.length - job.cutting.trim.end - begin
    return (Offcut(begin, 0, left, 0),) if left >= job.least_offcut[0] else ()


def _too_many(job: Job, pinned: Sequence[Layout]) -> Iterator[RequestProblem]:
    """More pieces pinned than asked for, more sheets than there are."""
    wanted = {p.id: p.quantity for p in job.pieces}
    there = {s.id: s.quantity for s in job.stock}
    for index, layout in enumerate(pinned):
        quantity = there[layout.stock]
        if quantity is not None:
            there[layout.stock] = quantity - layout.count
            if quantity < layout.count:
                detail = f"{layout.count} of {layout.stock!r} are pinned here, {max(0, quantity)} are left"
                yield RequestProblem(pointer("layouts", index, "count"), detail, "contradiction")
        for at, p in enumerate(layout.placements):
            wanted[p.part] -= layout.count
            if -layout.count <= wanted[p.part] < 0:
                detail = f"more of {p.part!r} are pinned than are asked for"
                yield RequestProblem(pointer("layouts", index, "placements", at, "part"), detail, "contradiction")


def _split_groups(job: Job, pinned: Sequence[Layout]) -> Iterator[RequestProblem]:
    """A group is pinned whole, on one sheet and in its sequence, or not at all."""
    for fault in check_groups(job, pinned):
        group = next((i for i, x in enumerate(pinned) if any(f"group {g} " in fault for g in _groups(x, job))), 0)
        yield RequestProblem(pointer("layouts", group), f"the pinned layout cannot be kept: {fault}", "contradiction")


def _groups(layout: Layout, job: Job) -> set[str]:
    group_of = {p.id: p.group for p in job.pieces if p.group is not None}
    return {group_of[p.part] for p in layout.placements if p.part in group_of}
