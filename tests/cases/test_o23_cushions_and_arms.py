"""Case O23: sofas of an L with three cushions each (designtobuildblog.com), and a cushion maker's tight rows."""

import pytest

from scantling.mechanics.upholstery import row_of_cushions, row_slack, tight_cover

IN = 25.4
ARM = 1.5


@pytest.mark.parametrize(("outside", "arms"), [(72.0, 2), (70.5, 1)])
def test_without_one_arm_the_sofa_is_an_arm_shorter_and_seats_the_same(outside, arms):
    clear = (outside - arms * ARM) * IN
    assert clear - row_slack(clear, 3, 22 * IN) == pytest.approx(66 * IN)
    assert row_slack(clear, 3, 22 * IN) / IN == pytest.approx(3)


def test_three_cushions_leave_slack_that_is_reported():
    assert row_of_cushions(3, 22 * IN) / IN == pytest.approx(66)
    assert row_slack(64.5 * IN, 3, 22 * IN) / IN == pytest.approx(-1.5)


def test_tight_row():
    assert tight_cover(22 * IN) / IN == pytest.approx(21.5)
    assert row_of_cushions(3, tight_cover(22 * IN)) / IN == pytest.approx(64.5)


def test_row_with_gaps():
    """Three 24 in cushions with 1/8 in gaps take 72.5 in (n w + (n + 1) g, worked out)."""
    assert row_of_cushions(3, 24 * IN, 0.125 * IN) / IN == pytest.approx(72.5)
