"""Case: seven blanks from one sheet, grain along its length (issuhub.com/view/index/4654?pageIndex=16).

A drawing shows 2 blanks of 60 x 12 in and 5 of 36 x 12 in on one sheet of 96 x 48 in. That holds for a blade without
width only; with a kerf of 1/8 in four rows of 12 in want 48 3/8, and 60 + 36 wants 96 1/8 (plain sums).
"""

from scantling.nesting import nestings

IN = 25.4


def request(kerf, side=(60, 12), shelf=(36, 12)):
    parts = [("side", side, 2), ("shelf", shelf, 5)]
    return {
        "saw": {"kerf": kerf * IN, "trim": 0.0},
        "parts": [
            {"id": name, "length": size[0] * IN, "width": size[1] * IN, "quantity": n, "grain": "along"}
            for name, size, n in parts
        ],
        "stock": [{"id": "sheet", "length": 96 * IN, "width": 48 * IN, "price": "60.00"}],
    }


def test_one_sheet_for_a_blade_without_width():
    answer = nestings(request(0))
    assert (answer["cost"], answer["proven_minimal"]) == ("60.00", True)


def test_two_sheets_with_a_kerf_and_what_would_save_one():
    answer = nestings(request(0.125))
    assert answer["cost"] == "120.00"
    assert answer["proven_minimal"]
    found = next(f for f in answer["findings"] if f["code"] == "nearly-fits")
    assert set(found["parts"]) == {"side", "shelf"}
    # widths of (48 - 3/8) / 4 = 11.906 in, and 59 7/8 in (1520.825 mm) for the longer blanks; both to 0.01 mm
    assert "302.42 mm or less in width instead of 304.8" in found["message"]
    assert "1520.83 mm or less in length instead of 1524" in found["message"]


def test_one_sheet_at_the_sizes_a_tape_can_show():
    # 11 7/8 and 59 7/8 in are the next steps below; the net widths of 11 1/4 fit as well
    for side, shelf in [((59.875, 11.875), (36, 11.875)), ((59.25, 11.25), (36, 11.25))]:
        answer = nestings(request(0.125, side, shelf))
        assert (answer["cost"], answer["proven_minimal"]) == ("60.00", True)
        assert [f["code"] for f in answer["findings"] if f["severity"] == "error"] == []


def test_no_room_to_spare_is_said():
    answer = nestings(request(0.125, (59.875, 11.875), (36, 11.875)))
    found = [f for f in answer["findings"] if f["code"] == "exact-fit"]
    assert found
    assert all(f["value"] < f["limit"] for f in found)
    assert "with that margin: 2 sheets" in found[0]["message"]
