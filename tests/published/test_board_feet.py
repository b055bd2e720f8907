"""Board feet and surface measure against printed examples."""

import pytest

from scantling.measure import FIGURES, counts, parse_money, show_money

# thickness and width in inches (nominal), length in feet; as printed by furnituremaking.us and shipgsl
PRINTED = [(1, 4, 6, 2.0), (2, 6, 8, 8.0), (1, 12, 10, 10.0)]


@pytest.mark.parametrize(("thickness", "width", "length", "feet"), PRINTED)
def test_board_feet(thickness, width, length, feet):
    assert counts.board_feet(thickness, width, length) == pytest.approx(feet, abs=1e-12)
    answer = FIGURES["board-feet"].answer({"thickness": str(thickness), "width": str(width), "length": str(length)})
    assert answer.value == pytest.approx(feet, abs=1e-9)
    with_marks = {"thickness": f'{thickness}"', "width": f"{width} in", "length": f"{length * 12} in", "quantity": "3"}
    assert FIGURES["board-feet"].answer(with_marks).value == pytest.approx(3 * feet, abs=1e-9)


def test_a_board_foot_is_144_cubic_inches():
    """The definition of the unit (12 x 12 x 1 in; from memory NIST Handbook 130, method of sale)."""
    assert counts.board_feet(1, 12, 1) == pytest.approx(1.0)
    cubic_mm = 144 * 25.4**3
    assert counts.board_feet(50.8 / 25.4, 152.4 / 25.4, 2438.4 / 304.8) * cubic_mm == pytest.approx(
        50.8 * 152.4 * 2438.4
    )


def test_surface_measure():
    """A hardwood dealer (goodwoodcorp) prints 5.36 for a board 6 7/16 in wide and 10 ft long (and tallies 5)."""
    assert counts.surface_measure(6.4375, 10) == pytest.approx(5.36, abs=0.006)


def test_price_of_twelve_board_feet():
    """A cost guide (diybuildsnet) prints 39.00 for 12 board feet at 3.25."""
    assert show_money(12 * parse_money("3.25"), "USD") == "39.00 USD"
