"""A corner sawn off a board: the line goes where it was told, whichever way the cut is said (plane geometry)."""

import pytest

from pieces import ply
from scantling.board import CutError, Part, saw_settings


def plate():
    return Part("plate", "plate", ply(), 300.0, 200.0, 18.0)


@pytest.mark.parametrize(("along", "across"), [(40, 90), (90, 40), (50, 50), (300, 200)])
@pytest.mark.parametrize("end", ["start", "end"])
@pytest.mark.parametrize("edge", ["near", "far"])
def test_what_is_left_is_the_board_less_a_triangle(end, edge, along, across):
    part = plate().corner(end, edge, along=along, across=across)
    volume, _ = part.volume_and_centre()
    assert volume == pytest.approx((300 * 200 - along * across / 2) * 18)
    x = 0 if end == "start" else 300
    y = 0 if edge == "near" else 200
    corners = {(round(c[0], 3), round(c[1], 3)) for cell in part.cells_local() for f in cell.faces for c in f.corners}
    assert (x, y) not in corners
    assert (abs(x - along), y) in corners
    assert (x, abs(y - across)) in corners


def test_an_octagon_is_four_corners_cut_at_45_degrees():
    """A regular octagon in a square of 1 leaves corners of 1 − 1/√2 … 0.29289 of the side off (plane geometry)."""
    side, leg = 200.0, 200.0 * (1 - 2**-0.5)
    part = Part("bottom", "bottom", ply(), side, side, 18.0)
    for end in ("start", "end"):
        for edge in ("near", "far"):
            part.corner(end, edge, along=leg, across=leg)
    assert part.volume_and_centre()[0] == pytest.approx(18 * 2 * (2**0.5 - 1) * side**2)
    assert [s.mitre for s in saw_settings(part)] == pytest.approx([45.0] * len(saw_settings(part)))


def test_a_corner_of_no_size_is_refused():
    with pytest.raises(CutError, match="two sizes above 0"):
        plate().corner("end", "far", along=0, across=20)
