"""Workshop rules of thumb for screw length. Common practice, from memory: no standard says so; ours need only agree.

Rules: about two thirds of a screw in the base part; length two and a half to three times the thin part; the screw
must not come out. The base is thick here, as the rules assume.
"""

import pytest

from scantling.tables import screw_window, stocked_length


@pytest.mark.parametrize(("thin_mm", "gauge"), [(12.7, 6), (15.9, 8), (18.3, 8), (19.05, 8), (19.05, 10), (25.4, 10)])
def test_a_holding_screw_puts_about_two_thirds_into_the_base(thin_mm: float, gauge: int) -> None:
    chosen = stocked_length(screw_window(thin_mm, 60.0, gauge, "holds", 0.0), gauge)
    assert chosen is not None
    share = (chosen.length_mm - thin_mm) / chosen.length_mm
    assert 0.60 <= share <= 0.75


@pytest.mark.parametrize(("thin_mm", "gauge"), [(12.7, 6), (15.9, 6), (18.3, 8), (19.05, 8), (25.4, 10)])
def test_its_length_is_two_and_a_half_to_three_and_a_half_times_the_thin_part(thin_mm: float, gauge: int) -> None:
    """The upper end of the rule stretched by a stocked length: 2-1/2 in for 3/4 in stock is 3.3 times."""
    chosen = stocked_length(screw_window(thin_mm, 60.0, gauge, "holds", 0.0), gauge)
    assert chosen is not None
    assert 2.5 <= chosen.length_mm / thin_mm <= 3.5
