"""Case O23 with the shipped seats: an arm away makes the run shorter by the arm, an L of two runs seats six.

Source: designtobuildblog.com, "DIY outdoor sectional sofa": with two arms 72 in long, with one 70.5, three cushions
22 × 24 in; two of them make an L that seats six.
"""

import pytest

from pieces import build

IN = 25.4
CUSHION = {"width": 22 * IN, "depth": 24 * IN, "thickness": 5 * IN, "loaded": 3.5 * IN}
SHARED = {"seat_cushion": CUSHION, "bays": 3}


def outside(arms):
    low, high = build("leaning-seat", {**SHARED, "arms": arms}, post=1.5 * IN).bounds()
    return (high[0] - low[0]) / IN


def test_without_an_arm_the_run_is_an_arm_shorter():
    assert outside("both") - outside("left") == pytest.approx(1.5)
    assert outside("left") - outside("none") == pytest.approx(1.5)


def test_the_free_width_is_the_three_cushions_and_the_slack_is_told():
    piece = build("leaning-seat", {**SHARED, "arms": "left"})
    slat = piece.parts["seat slat 1"]
    assert slat.length / IN == pytest.approx(66, abs=1e-3)
    (told,) = [f for f in piece.findings if f.code == "cushion-row-slack"]
    assert told.value == pytest.approx(0, abs=0.02)
    assert "slack" in told.message


def test_two_runs_and_their_corner_make_an_l_that_seats_six_beside_the_corner():
    runs = [build("leaning-seat", {**SHARED, "arms": arms}) for arms in ("left", "right")]
    corner = build("corner-seat", {"seat_cushion": CUSHION})
    assert sum(c.kind == "seat" for run in runs for c in run.cushions) == 6
    deck = {round(c.origin[2], 2) for piece in (*runs, corner) for c in piece.cushions if c.kind == "seat"}
    assert len(deck) == 1
