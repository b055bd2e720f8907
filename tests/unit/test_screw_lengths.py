"""The window of screw lengths and the choice from stock: sums by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.tables import (
    UnknownGauge,
    UnknownRowError,
    screw_gauge,
    screw_gauges,
    screw_window,
    stocked_length,
    stocked_lengths,
)

D8 = 0.164 * 25.4


def test_the_window_by_hand() -> None:
    """18 mm over 38 mm, #8, head 1 mm down: 18 - 1 + 6 D to 18 - 1 + 38 - 2."""
    window = screw_window(18.0, 38.0, 8, "holds", 1.0)
    assert window.shortest_mm == pytest.approx(17 + 6 * D8)
    assert window.longest_mm == pytest.approx(53.0)
    assert not window.empty


@pytest.mark.parametrize(("role", "diameters"), [("holds", 6), ("clamps", 3), ("locates", 2)])
def test_each_role_has_its_bite(role: str, diameters: int) -> None:
    assert screw_window(18.0, 38.0, 8, role, 0.0).shortest_mm == pytest.approx(18 + diameters * D8)


def test_holding_screws_reach_ten_diameters_where_the_receiver_allows() -> None:
    window = screw_window(18.0, 200.0, 8, "holds", 0.0)
    chosen = stocked_length(window, 8)
    assert chosen is not None
    assert chosen.length_mm >= 18 + 10 * D8
    shorter = [s for s in stocked_lengths(window, 8) if s.length_mm < chosen.length_mm]
    assert all(s.length_mm < 18 + 10 * D8 for s in shorter)


def test_holding_screws_take_the_longest_that_stays_inside_a_thin_receiver() -> None:
    window = screw_window(18.0, 38.0, 8, "holds", 0.0)
    chosen = stocked_length(window, 8)
    assert chosen is not None
    assert chosen.label == "#8 x 2 in"


def test_nothing_stocked_is_none_and_an_empty_window_says_so() -> None:
    window = screw_window(9.5, 9.5, 8, "holds", 0.0)
    assert window.empty
    assert stocked_length(window, 8) is None


def test_bad_input_is_refused_by_name() -> None:
    with pytest.raises(UnknownGauge):
        screw_window(18.0, 38.0, 11, "holds", 0.0)
    with pytest.raises(UnknownRowError, match="role"):
        screw_window(18.0, 38.0, 8, "grips", 0.0)
    with pytest.raises(ValueError, match="receiver"):
        screw_window(18.0, -1.0, 8, "holds", 0.0)
    with pytest.raises(ValueError, match="head layers"):
        screw_window(float("nan"), 38.0, 8, "holds", 0.0)


@given(
    head=st.floats(3, 60),
    receiver=st.floats(5, 400),
    gauge=st.sampled_from(sorted(screw_gauges())),
    role=st.sampled_from(["holds", "clamps", "locates"]),
    sink=st.floats(0, 3),
)
def test_a_chosen_screw_never_comes_out_and_always_bites(
    head: float, receiver: float, gauge: int, role: str, sink: float
) -> None:
    window = screw_window(head, receiver, gauge, role, sink)
    chosen = stocked_length(window, gauge)
    if chosen is not None:
        assert sink + chosen.length_mm <= head + receiver - 2.0 + 0.011
        least = {"holds": 6, "clamps": 3, "locates": 2}[role] * screw_gauge(gauge).diameter_mm
        assert sink + chosen.length_mm - head >= least - 0.011
