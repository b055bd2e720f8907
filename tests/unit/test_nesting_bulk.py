"""Jobs of many pieces: the remainder that is left, and that looking after it costs nothing."""

import random
from collections import Counter

from scantling.nesting import Cutting, Grain, Job, Piece, Stock, search_columns
from scantling.nesting.search_bulk import BulkSearch
from scantling.nesting.sheet_trees import Branch, leaves
from scantling.nesting.sheets import build_problem

WORTH = (300, 300)


def kept(tree):
    """Cubes of the areas of the remainders worth keeping, kerf included: one large one beats many small ones."""
    if not isinstance(tree, Branch):
        return 0
    rest = (tree.rest, tree.size[1]) if tree.axis == 0 else (tree.size[0], tree.rest)
    own = (rest[0] * rest[1]) ** 3 if min(rest) >= WORTH[0] else 0
    return own + sum(kept(child) for child in tree.children)


def pieces(search):
    return Counter(leaf.kind for _, tree in search.solution() for leaf in leaves(tree))


def test_polish_keeps_sheets_and_pieces_and_makes_the_remainder_larger():
    sizes = [(430, 310, 160), (520, 180, 150), (260, 240, 130), (610, 350, 90)]
    own = tuple(Piece(f"p{i}", a, b, n, Grain.ANY) for i, (a, b, n) in enumerate(sizes))
    job = Job(own, (Stock("s", 2440, 1220, price=1),), Cutting(kerf=3), 1)
    search = BulkSearch(build_problem(job, job.pieces, job.stock, True)[0], 1)
    search.advance(20_000)
    cost, before, rest = search.cost, pieces(search), sum(kept(tree) for _, tree in search.solution())
    assert search.complete
    work = search.work
    search.polish(40_000, WORTH)
    assert search.work > work
    assert (search.cost, pieces(search)) == (cost, before)
    after = sum(kept(tree) for _, tree in search.solution())
    assert after > rest


def test_column_generation_that_runs_out_of_rounds_still_places_every_piece(monkeypatch):
    # so many kinds that pricing has not ended when its rounds have
    monkeypatch.setattr(search_columns, "_ROUNDS", 3)
    draw = random.Random(3)
    sizes = [(draw.randrange(150, 900), draw.randrange(80, 500)) for _ in range(40)]
    own = tuple(Piece(f"p{i}", a, b, 16, Grain.ALONG) for i, (a, b) in enumerate(sizes))
    job = Job(own, (Stock("s", 2440, 1220, price=1),), Cutting(kerf=3), 1)
    search = BulkSearch(build_problem(job, job.pieces, job.stock, True)[0], 1)
    search.advance(300_000)
    assert search.complete
    assert pieces(search) == Counter(dict.fromkeys(range(40), 16))
