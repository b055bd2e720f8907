"""The plain bench: its web is the seat less two measured thicknesses, whatever the sheet is called."""

import pytest

from pieces import build
from scantling.board import patches
from scantling.kit import AssemblyError
from scantling.work import run


@pytest.mark.parametrize("board", [17.0, 18.0, 19.05, 25.0])
@pytest.mark.parametrize("webs", [1, 2])
def test_the_web_fits_between_the_ends(board, webs):
    piece = build("plain-bench", {"width": 1100, "webs": webs}, board=board)
    for web in (p for p in piece.parts.values() if p.name == "web"):
        assert web.length == pytest.approx(1100 - 2 * board)
        for end in ("end left", "end right"):
            (patch, *_) = patches(web, piece.parts[end])
            assert (patch.least_gap, patch.greatest_gap) == pytest.approx((0, 0), abs=0.01)


def test_it_stands_on_four_feet():
    piece = build("plain-bench", {"depth": 400})
    floor = {
        (round(c[0], 1), round(c[1], 1))
        for p in piece.parts.values()
        for cell in p.cells()
        for f in cell.faces
        for c in f.corners
        if c[2] < 1e-6
    }
    assert {y for _, y in floor} == {0.0, 70.0, 330.0, 400.0}


def test_longer_benches_get_higher_webs():
    short, long = (build("plain-bench", {"width": w}).parts["web front"].width for w in (800, 2000))
    assert short == pytest.approx(140)
    assert long > 170


def test_one_web_under_a_long_bench_is_refused():
    with pytest.raises(AssemblyError, match="take two webs"):
        build("plain-bench", {"width": 1800, "webs": 1})


def test_the_seat_goes_on_last_and_so_comes_off_first():
    """A worn seat is renewed without opening what is glued under it: its step is the last one and takes no glue."""
    for values in ({}, {"webs": 1}, {"width": 1873, "depth": 471}):
        request = {"module": "plain-bench", "parameters": values, "units": "mm", "tape": "1 mm"}
        last = run("parts", request)["steps"][-1]["text"]
        assert last.startswith("Bring seat from above"), values
        assert "glue" not in last
