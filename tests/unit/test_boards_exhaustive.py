"""Small jobs against every way to cut them: several lengths with prices, numbers in stock, trim, defects, exact kerfs.

The exhaustive answer is written apart from the search: pieces in turn go into every stretch open so far and into one
more of every board, with the plain sum of lengths and kerfs.
"""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.nesting.boards import nest_boards
from scantling.nesting.checker import check_nesting
from scantling.nesting.nouns import Cutting, Job, Piece, Stock, Trim

KERF = 3


def stretches(stock: Stock, trim: Trim) -> list[int]:
    """The lengths between trim and defects; none here is narrower than the blade."""
    ends, start = [], trim.start
    for a, b in sorted(stock.defects):
        ends.append(a - start)
        start = max(start, b)
    return [x for x in (*ends, stock.length - trim.end - start) if x > 0]


def best_of_all(job: Job) -> tuple[int, int]:
    """The least (length missing, cost) of all ways to cut a job."""
    lengths = sorted((p.length for p in job.pieces for _ in range(p.quantity)), reverse=True)
    rooms = {s.id: stretches(s, job.cutting.trim) for s in job.stock}
    best = [sum(lengths), 0]

    def place(at: int, open_rooms: list[int], left: dict[str, int | None], missing: int, cost: int) -> None:
        if [missing, cost] >= best:
            return
        if at == len(lengths):
            best[:] = [missing, cost]
            return
        need = lengths[at]
        for i, room in enumerate(open_rooms):
            if room >= need and room not in open_rooms[:i]:
                open_rooms[i] = room - need - KERF
                place(at + 1, open_rooms, left, missing, cost)
                open_rooms[i] = room
        for s in job.stock:
            limit = left[s.id]
            if limit == 0 or max(rooms[s.id], default=0) < need:
                continue
            more = {**left, s.id: None if limit is None else limit - 1}
            for i, room in enumerate(rooms[s.id]):
                if room >= need:
                    others = [r - need - KERF if j == i else r for j, r in enumerate(rooms[s.id])]
                    place(at + 1, open_rooms + others, more, missing, cost + (s.price or 0))
        place(at + 1, open_rooms, left, missing + need, cost)

    place(0, [], {s.id: s.quantity for s in job.stock}, 0, 0)
    return best[0], best[1]


@st.composite
def jobs(draw, limited: bool):
    pieces = tuple(
        Piece(f"p{i}", draw(st.integers(10, 60)), quantity=draw(st.integers(1, 3)))
        for i in range(draw(st.integers(1, 3)))
    )
    stock = []
    for i in range(draw(st.integers(1, 3))):
        length = draw(st.integers(70, 150))
        a = draw(st.integers(20, 50))
        defects = draw(st.sampled_from([(), (), ((a, a + KERF + 2),)]))
        quantity = draw(st.integers(0, 2)) if limited else draw(st.sampled_from([None, 1, 2]))
        stock.append(Stock(f"s{i}", length, price=draw(st.integers(1, 20)), quantity=quantity, defects=defects))
    if not limited:
        stock.append(Stock("last", 90, price=draw(st.integers(1, 30))))
    trim = Trim(draw(st.sampled_from([0, 4])), draw(st.sampled_from([0, 5])))
    return Job(pieces, tuple(stock), Cutting(KERF, trim, cutting_error=0), 60_000, least_offcut=(5, 1))


@settings(max_examples=120, deadline=None)
@given(jobs(limited=False))
def test_the_cheapest_way_of_all_is_found_and_proved(job):
    nesting = nest_boards(job)
    assert check_nesting(job, nesting) == ()
    missing, cost = best_of_all(job)
    assert (missing, nesting.unplaced) == (0, ())
    assert nesting.bound <= cost
    assert nesting.cost == cost
    assert nesting.proven_minimal


@settings(max_examples=120, deadline=None)
@given(jobs(limited=True))
def test_when_boards_run_out_most_is_placed_and_the_bound_holds_for_it(job):
    nesting = nest_boards(job)
    assert check_nesting(job, nesting) == ()
    missing, cost = best_of_all(job)
    length = {p.id: p.length for p in job.pieces}
    assert sum(length[u.part] * u.quantity for u in nesting.unplaced) == missing
    if nesting.unplaced:
        gone = {p.id: sum(u.quantity for u in nesting.unplaced if u.part == p.id) for p in job.pieces}
        placed = tuple(replace(p, quantity=p.quantity - gone[p.id]) for p in job.pieces)
        least = best_of_all(replace(job, pieces=placed))
        assert nesting.bound == least[1] == nesting.cost
        assert not nesting.proven_minimal
    else:
        assert nesting.cost == cost
