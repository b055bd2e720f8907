"""Real cases as built pieces: thin stretchers that hold no screw, and the ordinary glued and screwed plywood box.

The thin stretchers: a published build of an outdoor bench (17 April 2016): 5/8 in stock could not hold the seat
screws; 1 1/2 in cleats were added. The least bite of 6 diameters: NDS 2018 12.1.5.
"""

import pytest

from checked_pieces import board, checked, codes, piece, sheet
from scantling.plan.circumstances import Circumstances

IN = 25.4


def bench(stretcher_in):
    """Slats of 3/4 in screwed down to two stretchers laid flat on ends; `stretcher_in` is how thick those are."""
    thick = stretcher_in * IN
    a = piece(
        board("slat", 0.75 * IN, 89.0, "spruce-pine-fir"), board("stretcher", thick, 64.0, "spruce-pine-fir"), sheet()
    )
    ends = [
        a.part(f"end {x}", 400, 300, "ply", name="end").lay("z", "y").put(y0=0, z0=0, **at)
        for x, at in (("left", {"x0": 0.0}), ("right", {"x1": 1000.0}))
    ]
    stretchers = []
    for y in (20.0, 216.0):
        s = a.part(f"stretcher {y:.0f}", 1000, 64, "stretcher", name="stretcher").lay("x", "y").put(x0=0, y0=y, z0=400)
        for end in ends:
            a.screws(s, end, n=1, role="locates", length=3 * IN)
        stretchers.append(s)
    for i in range(10):
        slat = (
            a.part(f"slat {i}", 300, 89, "slat", name="slat").lay("y", "x").put(x0=10 + i * 99.0, y0=0, z0=400 + thick)
        )
        for s in stretchers:
            a.screws(slat, s, n=1, role="holds", length=1.25 * IN if stretcher_in < 1 else 2 * IN)
        a.carries(slat, kind="mass", amount=10.0)
    return a


def test_stretchers_of_five_eighths_hold_no_seat_screw_and_cleats_do():
    thin, thick = codes(checked(bench(5 / 8))), codes(checked(bench(1.5)))
    assert thin["receiver-too-thin"] == "warning"
    assert "receiver-too-thin" not in thick
    assert "screw-shallow" not in thick


def test_it_is_said_once_for_all_the_slats():
    found = [f for f in checked(bench(5 / 8)).findings if f.code == "receiver-too-thin"]
    assert len(found) == 1
    assert len(found[0].fasteners) == 20
    assert "19 other joints" in found[0].message


def box():
    """A box of 18 mm plywood, bottom and top glued and screwed between its sides with #8 screws: shop practice."""
    a = piece(sheet())
    left = a.part("left", 400, 300, "ply", name="side").lay("z", "y").put(x0=0, y0=0, z0=0)
    right = a.part("right", 400, 300, "ply", name="side").lay("z", "y").put(x1=600, y0=0, z0=0)
    for id, z in (("bottom", 60.0), ("top", 382.0)):
        level = a.part(id, 564, 300, "ply").lay("x", "y").put(x0=18, y0=0, z0=z)
        for side in (left, right):
            a.screws(side, level, n=3, inset=50, role="clamps", glued=True, length=41.3)
    return a


@pytest.mark.parametrize("exposure", ["dry", "damp", "weather"])
@pytest.mark.parametrize("family", ["storage", "tables"])
def test_an_ordinary_glued_and_screwed_box_of_plywood_has_no_error(exposure, family):
    found = checked(box(), Circumstances(exposure=exposure), family)
    assert "error" not in codes(found).values()


def test_books_on_a_glued_box_go_down_the_glue_line():
    a = box()
    a.carries(a.parts["top"], kind="books")
    found = checked(a, family="storage")
    assert "error" not in codes(found).values()
    (line,) = [r for r in found.rows if r.check == "glue line"]
    # half of 25 lb/ft over 564 mm on each side; the ply edge is credited for every second ply
    assert line.demand == pytest.approx(25 * 4.448222 / 304.8 * 564 / 2)
    assert "ply edge" in line.governing
    assert line.duration == "long"
    assert line.ratio < 1
