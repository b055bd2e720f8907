"""Case: how exact the sixteen cuts of an octagon frame must be.

A page on accurate mitres (ts-aligner.com/accuratemiters.htm): joints 2 in long, gap 1/64 in allowed: 0.45° in all,
0.028° a cut; 3 in long: 0.30° and 0.019°. A gap of 1/8 in means 1/128 in a cut.
"""

import pytest

from scantling.measure import FIGURES


@pytest.mark.parametrize(("joint", "total", "per_cut"), [("2 in", 0.4476, 0.02798), ("3 in", 0.2984, 0.01865)])
def test_octagon(joint, total, per_cut):
    answer = FIGURES["mitre-error"].answer({"sides": "8", "joint": joint, "gap": "1/64 in"})
    assert answer.value == pytest.approx(per_cut, abs=5e-6)
    assert answer.rows[1][1] == pytest.approx(total, abs=5e-5)
    assert "16 cuts" in answer.rows[1][0]


def test_gap_of_one_cut():
    answer = FIGURES["mitre-error"].answer({"sides": "8", "joint": "2 in", "gap": "1/8 in"})
    assert answer.rows[2][1] == pytest.approx(25.4 / 128)
