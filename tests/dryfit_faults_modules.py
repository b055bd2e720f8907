"""Deliberate faults in shipped modules: one mistake each, of fit, screws, order or balance."""

from dataclasses import replace

from dryfit_fault import fault
from dryfit_pieces import block, moved
from pieces import build
from scantling.board import Promise, Step
from scantling.dryfit import Load

SEEN = ("screw-head-hidden",)  # notes that these modules carry anyhow


@fault("tips-over", also=SEEN, loads=(Load("somebody on the end", 100.0, (-260.0, 210.0, 785.0)),))
def a_trolley_with_somebody_beside_it():
    return build("drinks-trolley")


@fault("off-the-floor", ("front apron",), also=SEEN, value=638.0)
def an_apron_promised_to_the_floor():
    piece = build("dining-table")
    piece.promises.append(Promise("floor", ("front left leg", "front apron"), (), 0.0))
    return piece


@fault("not-clear", ("top slat 1", "top slat 2"), also=SEEN, value=5.0)
def slats_closer_than_promised():
    piece = build("low-table")
    piece.clear(piece.parts["top slat 1"], piece.parts["top slat 2"], 7.0)
    return piece


@fault("size-wrong", also=SEEN, value=450.0)
def a_side_table_narrower_than_promised():
    piece = build("side-table")
    piece.promises.append(Promise("size", (), ("x",), 470.0))
    return piece


@fault("part-adrift", ("tile",), also=SEEN)
def a_tile_under_a_chair():
    piece = build("chair")
    block(piece, "tile", (40, 40), (200, 200, 0), "slat")
    return piece


@fault("screw-in-the-air", also=SEEN, fasteners=("S1",))
def a_stool_screw_far_away():
    piece = build("stool")
    moved(piece, "S1", (0, 0, 3000))
    return piece


@fault("steps-leave-out", ("slat 13",), also=SEEN)
def a_bed_slat_that_no_step_brings():
    piece = build("bed-with-slats")
    driven = tuple(f.id for f in piece.fasteners.values() if "slat 13" not in f.parts)
    parts = tuple(p for p in piece.parts if p != "slat 13")
    for id in [f.id for f in piece.fasteners.values() if "slat 13" in f.parts]:
        del piece.fasteners[id]
    piece.steps = [Step("Part by part.", (p,), _last(piece, p, parts, driven)) for p in parts]
    return piece


def _last(piece, part, order, driven):
    """Return the fasteners whose last part this is."""
    place = {p: i for i, p in enumerate(order)}
    return tuple(f for f in driven if max(piece.fasteners[f].parts, key=place.__getitem__) == part)


@fault("clearance-lost", ("front panel", "lid cleat front"), also=SEEN)
def a_footstool_lid_whose_cleat_has_lost_its_play():
    piece = build("storage-footstool")
    for id, joint in piece.joints.items():
        if set(joint.parts) == {"front panel", "lid cleat front"}:
            piece.joints[id] = replace(joint, clearance=joint.clearance + 1.0)
    return piece
