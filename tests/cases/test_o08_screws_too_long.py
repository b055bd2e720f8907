"""Case O8: two 3/8 in sheets face to face with 3/4 in screws driven below the face; points stick through.

Source of the case: a published workbench build (mikebrownprojects.net, WorkBench) that says to grind the points off.
The arithmetic is geometry: with the head sunk at all, a 3/4 in screw is longer than 3/4 in of wood.
"""

import pytest

from scantling.mechanics.fastener_check import fastener_checks
from scantling.nesting import nestings

INCH = 25.4


def check(sink_mm: float, length_in: float = 0.75, gauge: int = 8) -> dict:
    layer = {"material": "softwood-plywood", "thickness": 3 / 8 * INCH, "grain": "face"}
    joint = {
        "id": "doubled top",
        "layers": [layer, layer],
        "fastener": {"kind": "wood screw", "gauge": gauge, "length": length_in * INCH},
        "role": "clamps",
        "head_depth": sink_mm,
    }
    return fastener_checks({"joints": [joint]})["joints"][0]


@pytest.mark.parametrize("sink", [0.5, 1.0, 1.6, 3.0])
def test_any_sink_brings_the_point_out_by_that_much(sink: float) -> None:
    answer = check(sink)
    out = next(f for f in answer["findings"] if f["code"] == "screw-point-out")
    assert answer["point"]["protrusion_mm"] == pytest.approx(0.75 * INCH + sink - 0.75 * INCH)
    assert out["severity"] == "error"


def test_a_head_left_flush_does_not_bring_it_out() -> None:
    answer = check(0.0)
    assert answer["point"]["protrusion_mm"] == 0
    assert "screw-point-out" not in {f["code"] for f in answer["findings"]}


def test_a_shorter_screw_is_advised_and_clears_the_error() -> None:
    answer = check(1.0)
    out = next(f for f in answer["findings"] if f["code"] == "screw-point-out")
    assert "#6 x 5/8 in" in out["remedy"]
    shorter = check(1.0, length_in=5 / 8, gauge=6)
    assert shorter["point"]["protrusion_mm"] == 0
    assert not [f for f in shorter["findings"] if f["severity"] == "error"]


def test_the_window_holds_no_screw_that_comes_out() -> None:
    window = check(1.0)["length_window"]
    assert window["longest_mm"] + 1.0 <= 0.75 * INCH


@pytest.mark.parametrize(("length_in", "quantity", "boards"), [(35, 8, 4), (38, 4, 2)])
def test_the_boards_it_takes(length_in: float, quantity: int, boards: int) -> None:
    """The same build: 8 pieces of 35 in from 96 in boards take 4 (its list buys 8), 4 legs of 38 in take 2."""
    request = {
        "saw": {"kerf": INCH / 8},
        "parts": [{"id": "piece", "length": length_in * INCH, "quantity": quantity}],
        "stock": [{"id": "board", "length": 96 * INCH}],
    }
    answer = nestings(request)
    assert sum(layout["count"] for layout in answer["layouts"]) == boards
    assert answer["unplaced"] == []
