"""Boards in plain requests and answers: sloped ends, defects, layouts pinned as an answer gave them."""

from math import sqrt

import pytest

from scantling.measure import RequestError
from scantling.nesting import nestings

FRAME = {"id": "frame", "length": 600.0, "quantity": 6, "start_slope": 45.0, "end_slope": -45.0}
BOARD = {"id": "2x4", "length": 2440.0, "board_width": 89.0, "price": "6.40"}
SAW = {"kerf": 3.2}


def test_slopes_go_in_and_come_back_as_the_pieces_lie():
    """Four blanks of 600 mm need 2400 mm and three kerfs; mitred at 45° 89 mm of width give 84.47 mm a joint back."""
    answer = nestings({"parts": [{**FRAME, "quantity": 4}], "stock": [{**BOARD, "length": 2150.0}], "saw": SAW})
    (layout,) = answer["layouts"]
    placed = layout["placements"]
    assert 4 * 600 - 3 * (89 - 3.2 * sqrt(2)) < 2150 < 4 * 600
    assert [p["end_slope"] for p in placed[:-1]] == [p["start_slope"] for p in placed[1:]]
    assert {abs(p["start_slope"]) for p in placed} == {45.0}
    assert any(p["end_for_end"] or p["face_down"] for p in placed)
    assert answer["proven_minimal"]


def test_square_pieces_say_nothing_of_slopes():
    answer = nestings({"parts": [{"id": "rail", "length": 600.0}], "stock": [BOARD], "saw": SAW})
    (placed,) = answer["layouts"][0]["placements"]
    assert placed == {"part": "rail", "x_mm": 0.0, "y_mm": 0.0, "length_mm": 600.0}


def test_a_layout_of_an_answer_is_pinned_as_it_is():
    request = {"parts": [FRAME], "stock": [BOARD], "saw": SAW}
    first = nestings(request)
    for layout in first["layouts"]:
        again = nestings({**request, "layouts": [layout]})
        assert again["cost"] == first["cost"]
        assert again["layouts"][0]["placements"] == layout["placements"]
        assert again["proven_minimal"]


def test_a_pinned_layout_with_a_piece_turned_so_that_slopes_meet_wrongly_is_refused():
    request = {"parts": [FRAME], "stock": [BOARD], "saw": SAW}
    layout = nestings(request)["layouts"][0]
    placements = [dict(p) for p in layout["placements"]]
    placements[1]["end_for_end"] = not placements[1]["end_for_end"]
    with pytest.raises(RequestError) as caught:
        nestings({**request, "layouts": [{"stock": "2x4", "placements": placements}]})
    assert caught.value.errors[0].pointer == "/layouts/0"


def test_no_piece_touches_a_defect_of_a_request():
    board = {**BOARD, "quantity": 1, "defects": [{"start": 700.0, "end": 730.0}]}
    answer = nestings({"parts": [{"id": "rail", "length": 650.0, "quantity": 3}], "stock": [board], "saw": SAW})
    places = sorted(p["x_mm"] for p in answer["layouts"][0]["placements"])
    assert places == [0.0, 730.0, pytest.approx(1383.2)]


@pytest.mark.parametrize(
    ("stock", "code"),
    [
        ({**BOARD, "defects": [{"start": 730.0, "end": 700.0}]}, "values-do-not-go-together"),
        ({**BOARD, "defects": [{"start": 2400.0, "end": 2500.0}]}, "values-do-not-go-together"),
        ({"id": "sheet", "length": 2440.0, "width": 1220.0, "defects": [{"start": 1.0, "end": 2.0}]}, "contradiction"),
    ],
)
def test_a_defect_that_cannot_be_is_refused_with_its_place(stock, code):
    with pytest.raises(RequestError) as caught:
        nestings({"parts": [{"id": "rail", "length": 650.0}], "stock": [stock], "saw": SAW})
    (problem,) = caught.value.errors
    assert (problem.pointer, problem.code) == ("/stock/0/defects/0", code)


def test_a_part_with_a_width_of_its_own_is_cut_from_a_square_blank():
    board = {**BOARD, "length": 2200.0}  # takes three blanks of 600 mm, or four that share cuts
    for width, boards in (({}, 1), ({"width": 60.0}, 2)):
        answer = nestings({"parts": [{**FRAME, **width, "quantity": 4}], "stock": [board], "saw": SAW})
        assert sum(x["count"] for x in answer["layouts"]) == boards
    assert not any("start_slope" in p for x in answer["layouts"] for p in x["placements"])
