"""Case O15: an outdoor bench from two-by-threes, as its builder published it with what it cost.

Source: athomewithh.blogspot.com, "Bench + love seat = outdoor awesomeness", May 2012: 7 of 2x3x96, 1 of 2x4x96,
1 of 2x6x96, 2 of 2x2x96 in; wood 23.38, screws about 13 more. The split of the wood over the boards is ours; its sum
is the source's.
"""

from scantling.costing import costings

TAKE_OFF = [
    {"id": "2x3x96", "kind": "board", "quantity": 7, "unit": "board"},
    {"id": "2x4x96", "kind": "board", "quantity": 1, "unit": "board"},
    {"id": "2x6x96", "kind": "board", "quantity": 1, "unit": "board"},
    {"id": "2x2x96", "kind": "board", "quantity": 2, "unit": "board"},
    {"id": "screws", "kind": "screw", "quantity": 90},
]
BOARDS = [
    {"id": "2x3x96", "price": "1.98"},
    {"id": "2x4x96", "price": "2.58"},
    {"id": "2x6x96", "price": "3.98"},
    {"id": "2x2x96", "price": "1.48"},
]
SCREWS = {"kind": "screw", "price": "13.00", "pack": 100}


def test_the_total_holds_wood_and_screws():
    answer = costings({"take_off": TAKE_OFF, "prices": [*BOARDS, SCREWS]})
    wood = [line for line in answer["lines"] if line["kind"] == "board"]
    assert sum(round(float(line["as_bought"]) * 100) for line in wood) == 2338
    assert answer["total"]["amount"] == "36.38"
    assert answer["total"]["lower_bound"] is False
    (screws,) = (line for line in answer["lines"] if line["id"] == "screws")
    assert round(screws["share_percent"]) == 36


def test_wood_alone_is_never_the_whole_answer():
    answer = costings({"take_off": TAKE_OFF, "prices": BOARDS})
    assert answer["total"] == {"amount": "23.38", "lower_bound": True, "text": "at least 23.38 USD"}
    assert [(line["id"], line["quantity"]) for line in answer["unknown"]] == [("screws", 90)]
    assert any("screws" in line for line in answer["summary"])
    assert [f["code"] for f in answer["findings"]] == ["price-missing"]
