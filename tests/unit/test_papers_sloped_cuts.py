"""How the list of saw settings tells a sloped cut."""

from scantling.nesting import nestings
from scantling.papers.cutting_list import _slopes

FRAME = {"id": "frame", "length": 600.0, "quantity": 3, "start_slope": 45.0, "end_slope": -45.0}
BOARD = {"id": "2x4", "length": 2440.0, "board_width": 89.0}


def told(part):
    answer = nestings({"parts": [part], "stock": [BOARD], "saw": {"kerf": 3.2}})
    return [_slopes(setting, answer) for setting in answer["settings"]]


def test_cuts_that_lean_the_other_way_are_named():
    first, rest = told(FRAME)
    assert first == ["mitre 45°"]
    assert rest == ["mitre 45°", "board turned over for L1: 2, 4"]


def test_a_setting_the_other_way_is_one_of_its_own():
    assert ["mitre 45°", "saw set the other way"] in told({**FRAME, "one_face": True})


def test_square_cuts_say_nothing():
    assert told({"id": "rail", "length": 600.0, "quantity": 2}) == [[]]
