"""Rows of screws over patches that a dado or a notch splits: they run on, and keep out of the gap."""

from itertools import pairwise

import pytest

from dryfit_pieces import empty
from scantling.dryfit import verify


def side_and_back(*dadoes):
    piece = empty()
    side = piece.part("side", 1100, 280, "ply").lay("z", "y").put(x0=0, y0=0, z0=0)
    for at in dadoes:
        side.dado(at, width=18, depth=6)
    back = piece.part("back", 1100, 400, "thin").lay("z", "x").put(x0=0, y0=280, z0=0)
    piece.screws(back, side, pitch=200, inset=40, gauge=6)
    return piece


@pytest.mark.parametrize("dadoes", [(), (500,), (70, 323, 576, 829, 1060)])
def test_a_back_is_screwed_along_the_whole_side_whatever_is_housed_in_it(dadoes):
    piece = side_and_back(*dadoes)
    heights = [f.head[2] for f in piece.fasteners.values()]
    assert min(heights) < 90 and max(heights) > 1010
    assert max(b - a for a, b in pairwise(heights)) <= 200 + 20
    assert not [f for f in verify(piece).findings if f.code.startswith("screw") and f.severity != "note"]


def test_no_head_lands_in_a_groove_of_the_part_it_goes_through():
    piece = empty()
    leg = piece.part("leg", 400, 89, "pine").lay("z", "x").put(x0=0, y0=0, z0=0)
    apron = piece.part("apron", 500, 89, "ply").lay("x", "z").put(x0=0, y0=38, z0=300)
    apron.groove(60, width=8, depth=8, into="face" if apron.plane("face").normal[1] > 0 else "back")
    piece.screws(apron, leg, n=2, inset=10)
    assert all(f.head[1] == pytest.approx(56) for f in piece.fasteners.values())
