"""Cases: freedom to turn parts must never make a nesting worse, nor hide the only fit.

(a) github.com/secnot/rectpack issue 22: four 2 x 3 in a bin of 4 x 6; without turning all four fit, with turning a
packer placed three. (b) github.com/soimy/maxrects-packer issue 55: four 260 x 80 in a bin of 256 x 1024 fit only turned
(three across take 240), yet a new bin was opened.
"""

import pytest

from scantling.nesting import nestings


def request(part, sheet, grain):
    return {
        "saw": {"kerf": 0.0, "trim": 0.0},
        "parts": [{"id": "piece", "length": part[0], "width": part[1], "quantity": 4, "grain": grain}],
        "stock": [{"id": "sheet", "length": sheet[0], "width": sheet[1], "price": "1.00"}],
        "effort": "quick",
    }


@pytest.mark.parametrize("grain", ["along", "across", "any"])
def test_four_in_one_bin_turned_or_not(grain):
    part = (3.0, 2.0) if grain == "across" else (2.0, 3.0)
    answer = nestings(request(part, (4.0, 6.0), grain))
    assert (answer["cost"], answer["proven_minimal"], len(answer["layouts"][0]["placements"])) == ("1.00", True, 4)


def test_only_turned_does_it_fit():
    answer = nestings(request((260.0, 80.0), (256.0, 1024.0), "any"))
    assert (answer["cost"], answer["proven_minimal"]) == ("1.00", True)
    assert all(p["turned"] and p["length_mm"] == 260.0 for p in answer["layouts"][0]["placements"])


def test_locked_it_comes_back_with_the_excess():
    answer = nestings(request((260.0, 80.0), (256.0, 1024.0), "along"))
    assert answer["layouts"] == []
    assert answer["unplaced"][0]["quantity"] == 4
    assert answer["unplaced"][0]["excess_mm"] == [4.0, 0.0]
