"""Case O23 in its place: two sofas of three cushions make an L that seats six, one running past the end of the other.

Source: designtobuildblog.com, "DIY outdoor sectional sofa": 72 in with two arms, 70.5 with one, 25 in deep.
"""

import pytest

from floor_blocks import arranged, block, walls
from scantling.plan.room_checks import overlap_findings
from scantling.plan.wall_fit import fits_of

IN = 25.4
LONG, SHORT = block(72 * IN, 25 * IN, 800), block(70.5 * IN, 25 * IN, 800)


def l_of_two(first, second, gap):
    stands = [{"module": "long", "wall": "a"}, {"module": "short", "wall": "b", "gap": gap}]
    return arranged({"walls": walls(first, second), "stands": stands}, {"long": LONG, "short": SHORT})


def test_the_second_starts_where_the_depth_of_the_first_ends():
    """Wall a takes 72 in; along wall b the first one's 25 in of depth and the second's 70.5 make 95.5."""
    _, found = l_of_two(72 * IN, 95.5 * IN, 25 * IN)
    pieces = {"long": (LONG, LONG), "short": (SHORT, SHORT)}
    slack = {f.wall: f.slack for f in fits_of(found, pieces)}
    assert slack == {"a": pytest.approx(0), "b": pytest.approx(0)}
    assert overlap_findings(found) == []


def test_without_room_for_the_first_ones_depth_they_stand_in_each_other():
    _, found = l_of_two(72 * IN, 95.5 * IN, 20 * IN)
    (said,) = overlap_findings(found)
    assert said.value == pytest.approx(5 * IN)


def test_without_the_arm_the_corner_is_shorter_by_it():
    """70.5 + 25 against 72 + 25: an arm of 1.5 in."""
    used = [
        l_of_two(72 * IN, 120 * IN, 25 * IN)[1].used[1],
        arranged(
            {"walls": walls(72 * IN, 120 * IN), "stands": [{"module": "long", "wall": "b", "gap": 25 * IN}]},
            {"long": LONG},
        )[1].used[1],
    ]
    assert used[1] - used[0] == pytest.approx(1.5 * IN)
