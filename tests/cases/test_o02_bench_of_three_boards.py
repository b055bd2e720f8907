"""Case O2: a bench top of two boards on a frame; how far it stands out, and whether the boards bought are enough.

Source: instructables.com, "Wooden bench under $50": frame of 3/4 in boards, two rails of 70 and five cross pieces of 12
between them, two top boards 7.25 × 72 on it; bought 2 of 2 × 3 at 96, 3 of 1 × 4 at 72, 2 of 1 × 8 at 72 in. The top
stands out 1 in at each end and about 1/2 in at each side. The kerf of 1/8 in is ours.
"""

import pytest

from pieces import ply
from scantling.board import Assembly
from scantling.nesting.boards import nest_boards
from scantling.nesting.checker import check_nesting
from scantling.nesting.nouns import Cutting, Job, Piece, Stock

IN = 25.4
INCH = 2540


@pytest.fixture(scope="module")
def bench():
    piece = Assembly("bench", "bench", {"board": ply(0.75 * IN, "board")})
    front = piece.part("front rail", 70 * IN, 3.5 * IN, "board").lay("x", "z").put(x0=0, y0=0, z0=0)
    back = piece.part("back rail", 70 * IN, 3.5 * IN, "board").lay("x", "z").put(x0=0, y0=front.y1 + 12 * IN, z0=0)
    for i in range(5):
        cross = piece.part(f"cross {i + 1}", 12 * IN, 3.5 * IN, "board").lay("y", "z").put(z0=0)
        cross.put(xc=0.375 * IN + i * 69.25 * IN / 4).against("start", front, "back")
        piece.join("nails", front, cross)
        piece.join("nails", back, cross)
    for i in range(2):
        top = piece.part(f"top {i + 1}", 72 * IN, 7.25 * IN, "board").lay("x", "y")
        middle = (front.y0 + back.y1) / 2
        top.put(xc=35 * IN, z0=front.z1, **({"y1": middle} if i == 0 else {"y0": middle}))
        piece.join("nails", top, piece.parts["cross 1"])
    return piece


def test_the_cross_pieces_end_between_the_rails(bench):
    assert bench.parts["back rail"].y1 - bench.parts["front rail"].y0 == pytest.approx((12 + 1.5) * IN)
    assert bench.parts["cross 3"].y1 == pytest.approx(bench.parts["back rail"].y0)


def test_how_far_the_top_stands_out(bench):
    p = bench.parts
    assert (p["front rail"].x0 - p["top 1"].x0) / IN == pytest.approx(1.0)
    assert (p["top 1"].x1 - p["front rail"].x1) / IN == pytest.approx(1.0)
    assert (p["front rail"].y0 - p["top 1"].y0) / IN == pytest.approx(0.5)
    assert (p["top 2"].y1 - p["back rail"].y1) / IN == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("pieces", "board", "bought"),
    [
        (((64.5, 1), (9, 2), (17.25, 4)), 96, 2),
        (((12, 5), (70, 2)), 72, 3),
        (((72, 2),), 72, 2),
    ],
    ids=["2 × 3", "1 × 4", "1 × 8"],
)
def test_the_boards_bought_are_enough_with_the_saw_s_kerf(pieces, board, bought):
    wanted = tuple(Piece(f"piece {i}", round(length * INCH), quantity=n) for i, (length, n) in enumerate(pieces))
    job = Job(wanted, (Stock("board", board * INCH, quantity=bought),), Cutting(kerf=318), effort=100_000)
    nesting = nest_boards(job)
    assert check_nesting(job, nesting) == ()
    assert nesting.unplaced == ()
    assert sum(layout.count for layout in nesting.layouts) == bought
