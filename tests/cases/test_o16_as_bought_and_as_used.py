"""Case O16: an outdoor sofa whose builder says how much of each purchase went into it.

Source: ana-white.com/community-projects/outdoor-sofa-2x4s-ryobi-nation: cushions 125, lumber 25 to 30, coating 29 of
which a quarter was used, screws 9 of which three quarters were used. So 188 to 193 bought, and 125 + 25..30 + 7.25 +
6.75 = 164 to 169 used.
"""

import pytest

from scantling.costing import costings


@pytest.mark.parametrize(("lumber", "bought", "used"), [("25.00", "188.00", "164.00"), ("30.00", "193.00", "169.00")])
def test_both_answers(lumber, bought, used):
    answer = costings(
        {
            "take_off": [
                {"id": "cushions", "kind": "cushion", "quantity": 1, "unit": "set"},
                {"id": "lumber", "kind": "board", "quantity": 1, "unit": "lot"},
                {"id": "coating", "kind": "finish", "quantity": 0.25, "unit": "gal"},
                {"id": "screws", "kind": "screw", "quantity": 75},
            ],
            "prices": [
                {"id": "cushions", "price": "125.00"},
                {"id": "lumber", "price": lumber},
                {"id": "coating", "price": "29.00", "pack": 1, "unit": "gal"},
                {"id": "screws", "price": "9.00", "pack": 100},
            ],
        }
    )
    assert answer["as_bought"]["total"] == answer["total"]["amount"] == bought
    assert answer["as_used"]["total"] == used
    assert answer["left_over"]["value"] == "24.00"  # 21.75 of coating, 2.25 of screws
    assert [(line["id"], line["value"]) for line in answer["left_over"]["lines"]] == [
        ("coating", "21.75"),
        ("screws", "2.25"),
    ]
    assert [f["code"] for f in answer["findings"]] == ["mostly-left-over"]  # the coating
