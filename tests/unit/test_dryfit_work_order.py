"""The order of work: which way up, turned how often, held by what, against exhaustive search and plain statics."""

from itertools import product

import pytest

from dryfit_pieces import bench, block, box, corner, empty, post, tray
from pieces import MODULES, build
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
    assert [w.number for w in work if w.proof and "diagonals" in w.proof] == [3]
    assert "diagonals between left and right" in work[2].proof


def test_alone_a_clamp_holds_what_two_would_hold_by_hand():
    piece = bench()
    alone = plan_work(piece, verify(piece).order, DryfitSettings(hands=1))
    helped = plan_work(piece, verify(piece).order, DryfitSettings(hands=2))
    assert any("cleat screwed on for the time being" in line.lower() for w in alone for line in w.held)
    assert not any("cleat screwed" in line for w in helped for line in w.held)
    assert any("second person" in line for w in helped for line in w.held)


def test_a_shelf_is_not_slid_along_the_glue_of_its_housing():
    """Pushed in from the front it would wipe 274 mm of housing clean: all shelves come before the second side."""
    order = verify(build("bookcase")).order
    at = {p: s.number for s in order.steps for p in s.brings}
    assert max(at[p] for p in ("shelf 1", "shelf 2", "shelf 3")) < at["side right"]
    sides = next(s for s in order.steps if "side right" in s.brings)
    assert sides.off == (1.0, 0.0, 0.0)


def test_work_that_lies_is_told_by_the_bench_and_its_own_sides():
    work = plan_work(piece := build("bookcase"), verify(piece).order, DryfitSettings())
    lying = {w.attitude: w.text for w in work}
    assert "Bring back from above" in lying["on its front"]
    assert any("Bring plinth from the underside of the work" in w.text for w in work)


@pytest.mark.parametrize("id", MODULES)
def test_every_module_ends_with_a_proof_and_no_frame_is_proven_twice(id):
    piece = build(id)
    work = plan_work(piece, verify(piece).order, DryfitSettings())
    assert work[-1].proof and all("If " in w.proof for w in work if w.proof)
    frames = [w.proof.split(":")[0] for w in work if w.proof and "diagonals" in w.proof]
    assert len(frames) == len(set(frames)) <= len(piece.parts)


def test_a_ring_that_is_folded_shut_is_proved_when_its_last_side_comes():
    work = plan_work(piece := build("storage-footstool"), verify(piece).order, DryfitSettings())
    (square,) = [w for w in work if w.proof and "diagonals" in w.proof]
    assert square.text.startswith("Fold what was built round left panel")


def test_a_row_of_slats_is_proved_by_its_gaps_and_a_door_by_its_play():
    slats = plan_work(piece := build("stool"), verify(piece).order, DryfitSettings())
    assert any("spacer of 5.0 mm" in (w.proof or "") for w in slats)
    doors = plan_work(piece := build("cabinet"), verify(piece).order, DryfitSettings())
    assert any("play of door left and door right" in (w.proof or "") for w in doors)


@pytest.mark.parametrize("id", MODULES)
def test_no_spacer_is_longer_than_one_anybody_saws(id):
    work = plan_work(piece := build(id), verify(piece).order, DryfitSettings())
    for proof in (w.proof for w in work if w.proof and "spacer" in w.proof):
        assert float(proof.split("spacer of ")[1].split(" mm")[0]) <= 120


def test_a_piece_on_the_wall_hangs():
    work = plan_work(piece := build("wall-shelf"), verify(piece).order, DryfitSettings())
    assert "as it will hang" in {w.attitude for w in work}
