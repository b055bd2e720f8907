"""Case O22: cross pieces cut to the width of the top, although they sit between two rails.

Source: dannyman.toldme.com, "Basic mobile workbench, day 1", 22 November 2020: cut to 18 10/16 in for a top of that
width, but they sit between two 1.5 in rails: 3 in too long, an extra board and trip.
"""

import pytest

from pieces import ply
from scantling.board import Assembly
from scantling.dryfit import verify

IN = 25.4
TOP = 18.625 * IN


def frame(cross_length, rail=1.5 * IN):
    """Two rails with their outsides the top's width apart, a cross piece laid between them."""
    piece = Assembly("frame", "frame", {"beam": ply(rail, "beam")})
    front = piece.part("front rail", 1200, 89, "beam").lay("x", "z").put(x0=0, y0=0, z0=0)
    back = piece.part("back rail", 1200, 89, "beam").lay("x", "z").put(x0=0, y1=TOP, z0=0)
    cross = piece.part("cross", cross_length, 89, "beam").lay("y", "z").put(xc=600, yc=TOP / 2, z0=0)
    for one in (front, back):
        piece.join("glue", one, cross, glued=True)
    return piece, front, back


def test_from_what_it_touches_it_is_15_5_8():
    _, front, back = frame(300.0)
    assert (back.y0 - front.y1) / IN == pytest.approx(15.625)


def test_it_goes_together_at_that_length_and_not_at_the_width_of_the_top():
    piece, _, _ = frame(15.625 * IN)
    assert not [f for f in verify(piece).findings if f.code in ("parts-overlap", "joint-apart")]
    wrong, _, _ = frame(TOP)
    overlaps = [f for f in verify(wrong).findings if f.code == "parts-overlap"]
    assert len(overlaps) == 2
    assert overlaps[0].value == pytest.approx(1.5 * IN, abs=0.01)


@pytest.mark.parametrize("rail", [1.4 * IN, 1.5 * IN])
def test_the_apron_of_a_table_is_shortened_by_the_legs_it_stands_between(rail):
    """The same in a shipped module: the front apron is the frame less two leg boards, as they measure."""
    from pieces import build

    piece = build("dining-table", {"width": 1500, "overhang": 0}, leg=rail)
    assert piece.parts["front apron"].length == pytest.approx(1500 - 2 * rail, abs=0.01)
