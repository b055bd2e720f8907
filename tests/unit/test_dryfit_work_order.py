"""The order of work: which way up, turned how often, held by what, against exhaustive search and plain statics."""

from itertools import product

import pytest

from dryfit_pieces import bench, block, box, corner, empty, post, tray
from scantling.dryfit import DryfitSettings, plan_work, verify
from scantling.dryfit.attitude import ATTITUDES, Footing
from scantling.dryfit.scene import Scene
from scantling.dryfit.work_order import TURN_COST, _attitudes, _cost

BY_ID = {a.id: a for a in ATTITUDES}


def laid_out(piece):
    scene = Scene.of(piece, DryfitSettings())
    return scene, Footing(scene), verify(piece).order


def test_a_tall_board_stands_on_its_end_only_with_a_foot():
    """The centre of gravity over the footing, plain statics: 9 mm of thickness hold a centre 4.5 mm in."""
    piece = empty()
    piece.part("board", 900, 60, "thin").lay("z", "y").put(x0=0, y0=0, z0=0)
    block(piece, "foot", (200, 200), (-100, -100, -18))
    footing = Footing(Scene.of(piece, DryfitSettings()))
    assert not footing.stands([0], BY_ID["upright"])  # 4.5 mm on either side are less than the 5 asked for
    assert footing.stands([0], BY_ID["on-its-left-side"])
    assert footing.stands([0, 1], BY_ID["upright"])


@pytest.mark.parametrize("build", [bench, box, corner, post, tray], ids=lambda b: b.__name__)
def test_no_other_sequence_of_attitudes_costs_less(build):
    scene, footing, order = laid_out(build())
    steps = order.steps[:4]

    def total(sequence):
        cost = sum(_cost(scene, footing, s, a) for s, a in zip(steps, sequence, strict=True))
        for (s, a), (t, b) in zip(
            zip(steps, sequence, strict=True), zip(steps[1:], sequence[1:], strict=True), strict=False
        ):
            cost += TURN_COST if a is not b and set(s.built) & set(t.built) else 0.0
        return cost

    chosen = _attitudes(scene, footing, steps)
    assert total(chosen) == pytest.approx(min(total(s) for s in product(ATTITUDES, repeat=len(steps))))


@pytest.mark.parametrize("build", [bench, box, corner, post, tray], ids=lambda b: b.__name__)
def test_no_screw_is_driven_overhead(build):
    piece = build()
    for step, work in zip(
        verify(piece).order.steps, plan_work(piece, verify(piece).order, DryfitSettings()), strict=True
    ):
        (down,) = [a.down for a in ATTITUDES if a.says == work.attitude]
        for f in step.fasteners:
            assert sum(a * b for a, b in zip(piece.fasteners[f].direction, down, strict=True)) > -0.7


def test_every_part_is_labelled_once_and_sealed_before_it_is_closed():
    piece = box()
    piece.parts["bottom"].seal = ("near", "far")
    work = plan_work(piece, verify(piece).order, DryfitSettings())
    text = " ".join(line for w in work for line in w.before)
    for name in piece.parts:
        assert sum(name in line for w in work for line in w.before if line.startswith("Label")) == 1
    assert "bottom: seal the near edge and far edge, with tape where glue goes" in text
    assert any("dry" in line for w in work for line in w.before)


def test_a_frame_that_closes_is_proved_by_its_diagonals():
    piece = bench()
    work = plan_work(piece, verify(piece).order, DryfitSettings())
    assert [w.number for w in work if w.proof] == [3]
    assert "diagonals between left and right" in work[2].proof


def test_alone_a_clamp_holds_what_two_would_hold_by_hand():
    piece = bench()
    alone = plan_work(piece, verify(piece).order, DryfitSettings(hands=1))
    helped = plan_work(piece, verify(piece).order, DryfitSettings(hands=2))
    assert any("cleat screwed on for the time being" in line.lower() for w in alone for line in w.held)
    assert not any("cleat screwed" in line for w in helped for line in w.held)
    assert any("second person" in line for w in helped for line in w.held)
