"""Bevelled sides of parts from sheets: a tilted blade takes kerf / cos of the face, and the layout leaves room for it.

Figures by hand: kerf 4 mm at 45° takes 4 / cos 45° = 5.657 mm, 1.66 mm more than upright when rounded up to 0.01 mm.
"""

from dataclasses import replace

import pytest

from scantling.nesting import Cutting, Job, Piece, Stock, nest
from scantling.nesting.checker import check_nesting

KERF = 400
MORE = 166
PIECE = Piece("side", 50_000, 30_000, 2)


def job(piece: Piece, length: int, width: int = 30_000) -> Job:
    return Job((piece,), (Stock("s", length, width, price=1),), Cutting(KERF), 2_000)


def sheets(piece: Piece, length: int, width: int = 30_000) -> int:
    asked = job(piece, length, width)
    found = nest(asked)
    assert check_nesting(asked, found) == ()
    assert not found.unplaced
    return sum(layout.count for layout in found.layouts)


def test_a_bevelled_end_stands_off_by_the_tilted_kerf():
    straight = 2 * 50_000 + KERF
    assert sheets(PIECE, straight) == 1
    assert sheets(replace(PIECE, end_bevel=4_500), straight + 2 * MORE) == 1
    assert sheets(replace(PIECE, end_bevel=4_500), straight + 2 * MORE - 1) == 2
    assert sheets(replace(PIECE, end_bevel=-4_500), straight + 2 * MORE - 1) == 2
    both = replace(PIECE, start_bevel=4_500, end_bevel=4_500)
    assert sheets(both, straight + 4 * MORE) == 1
    assert sheets(both, straight + 4 * MORE - 1) == 2


def test_a_bevelled_edge_takes_room_in_the_width():
    piece = replace(PIECE, near_bevel=4_500)
    found = nest(job(piece, 120_000, 30_000 + MORE))
    assert [p.width for layout in found.layouts for p in layout.placements] == [30_000 + MORE] * 2
    (left,) = nest(job(piece, 120_000, 30_000 + MORE - 1)).unplaced
    assert (left.part, left.excess) == ("side", (0, 1))


@pytest.mark.parametrize("change", [{"end_bevel": 4_500}, {"far_bevel": 3_000}])
def test_the_checker_knows_how_large_the_blank_is(change):
    asked = job(PIECE, 120_000, 40_000)
    found = nest(asked)
    bevelled = replace(asked, pieces=(replace(PIECE, **change),))
    assert any("is cut" in fault for fault in check_nesting(bevelled, found))


def test_parts_of_one_size_and_other_bevels_are_told_apart():
    pieces = (replace(PIECE, id="a", quantity=1), replace(PIECE, id="b", quantity=1, end_bevel=4_500))
    asked = Job(pieces, (Stock("s", 2 * 50_000 + KERF + MORE, 30_000, price=1),), Cutting(KERF), 2_000)
    found = nest(asked)
    assert check_nesting(asked, found) == ()
    assert sum(layout.count for layout in found.layouts) == 1
    lengths = {p.part: p.length for layout in found.layouts for p in layout.placements}
    assert lengths == {"a": 50_000, "b": 50_000 + MORE}
