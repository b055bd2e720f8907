"""Every way to cut a few pieces in two stages, written apart from the bound: sizes and kerfs added up one by one."""

from functools import cache
from itertools import product

from scantling.nesting import Grain, Job, Piece, Stock, StockGrain


def _ways(piece: Piece, stock: Stock) -> list[tuple[int, int]]:
    size = (piece.length, piece.width)
    if stock.grain is StockGrain.NONE or piece.grain is Grain.ANY:
        return [size, size[::-1]]
    return [size[::-1] if piece.grain is Grain.ACROSS else size]


def _rooms(job: Job, stock: Stock) -> list[tuple[int, tuple[int, int]]]:
    """(axis of the first stage, room inside the trim): the other axis than asked for only after a waste cut."""
    trim, held = job.cutting.trim, {"across": 0, "along": 1}.get(job.cutting.first_cut)
    whole = (stock.length - trim.start - trim.end, stock.width - trim.near - trim.far)
    found = []
    for axis in (0, 1):
        room = list(whole)
        if held == 1 - axis:
            room[held] -= 1
        found.append((axis, (room[0], room[1])))
    return found


def _fits(pieces: list[Piece], stock: Stock, job: Job) -> bool:
    kerf = job.cutting.kerf
    for axis, room in _rooms(job, stock):

        @cache
        def strip(members: int, axis: int = axis, room: tuple[int, int] = room) -> int | None:
            """The narrowest strip that holds these pieces end to end."""
            own = [_ways(p, stock) for i, p in enumerate(pieces) if members >> i & 1]
            found = [
                max(w[axis] for w in ways)
                for ways in product(*own)
                if sum(w[1 - axis] for w in ways) + kerf * (len(ways) - 1) <= room[1 - axis]
            ]
            return min(found, default=None)

        @cache
        def width(members: int) -> int:
            """The least width of strips for these pieces, each with the kerf after it."""
            if not members:
                return 0
            rest, best, part = members & (members - 1), 10**9, members & (members - 1)
            while True:
                own = strip(members ^ part)
                if own is not None:
                    best = min(best, own + kerf + width(part))
                if part == 0:
                    return best
                part = (part - 1) & rest

        if width((1 << len(pieces)) - 1) <= room[axis] + kerf:
            return True
    return False


def cheapest(job: Job) -> int | None:
    """The least cost of a complete two-stage plan; None where there is none."""
    pieces = [p for p in job.pieces for _ in range(p.quantity)]
    full = (1 << len(pieces)) - 1

    @cache
    def on(stock: int, members: int) -> bool:
        return _fits([p for i, p in enumerate(pieces) if members >> i & 1], job.stock[stock], job)

    @cache
    def cost(members: int, left: tuple[int, ...]) -> int:
        if not members:
            return 0
        best, rest = 10**9, members & (members - 1)
        part = rest
        while True:
            for t, n in enumerate(left):
                if n and on(t, members ^ part):
                    fewer = (*left[:t], n - 1, *left[t + 1 :])
                    best = min(best, (job.stock[t].price or 0) + cost(part, fewer))
            if part == 0:
                return best
            part = (part - 1) & rest

    found = cost(full, tuple(len(pieces) if s.quantity is None else s.quantity for s in job.stock))
    return None if found == 10**9 else found
