"""Case O24: two ends that are mirror images, a base before its back, uprights cut at 6°, a corner of two 45s.

Sources: nathansalapat.com, "2x4 sofa": ends with posts of 40, 29 and 26 in, rails with tops at 15; branchbarks.com,
"Outdoor sectional, part III", 2 November 2020: base first, then backs with both ends cut at 6°, 45° where runs meet.
"""

import pytest

from pieces import build, ply
from scantling.board import Assembly, alike, cut_list, patches, saw_settings
from scantling.dryfit import verify

IN = 25.4


def test_two_ends_that_are_mirror_images_are_listed_as_left_and_right():
    """The notch of the arm lies towards the inside of each end: cut twice alike, one of them would be lost."""
    piece = Assembly("sofa", "sofa", {"board": ply(1.5 * IN, "board")})
    left = piece.part("post left", 40 * IN, 3.5 * IN, "board", name="back post").notch((15 * IN, 16.5 * IN), (-1, 20))
    right = piece.add(left.mirrored("x", 600.0, "post right"))
    groups = alike([left, right])
    assert sorted(g.hand for g in groups) == ["left", "right"]
    assert groups[0].twin == groups[1].id
    assert len([row for row in cut_list(piece) if row.name.startswith("back post")]) == 2


def test_uprights_have_both_ends_cut_at_6_degrees_and_parallel():
    post = build("leaning-seat", {"lean": 6}).parts["post 1"]
    assert [s.mitre for s in saw_settings(post)] == pytest.approx([6, 6])
    start, end = post.plane("start").normal, post.plane("end").normal
    assert [a + b for a, b in zip(start, end, strict=True)] == pytest.approx([0, 0, 0], abs=1e-9)


def test_the_base_stands_before_the_back_slats_come():
    piece = build("leaning-seat", {"lean": 6})
    order = verify(piece).order
    assert order is not None
    brought = {part: step.number for step in order.steps for part in step.brings}
    base = [
        brought[i] for i, p in piece.parts.items() if p.name in ("rib", "front rail", "leaning post") and i in brought
    ]
    backs = [brought[i] for i, p in piece.parts.items() if p.name == "back slat" and i in brought]
    assert backs
    assert max(base) < min(backs)


def test_runners_that_meet_at_a_corner_are_two_45s_and_close():
    piece = Assembly("corner", "corner", {"board": ply(1.5 * IN, "board")})
    one = piece.part("runner 1", 900, 3.5 * IN, "board").saw("end", mitre=45, long_edge="far")
    one.lay("x", "y").put(x0=0, y0=0, z0=0)
    other = piece.part("runner 2", 900, 3.5 * IN, "board").saw("start", mitre=45, long_edge="far")
    other.lay("-y", "x").put(x1=one.x1, y1=one.y1, z0=0)
    angles = [s.mitre for part in (one, other) for s in saw_settings(part)]
    assert sum(angles) == pytest.approx(90)
    (patch, *_) = patches(one, other)
    assert (patch.least_gap, patch.greatest_gap) == pytest.approx((0, 0), abs=0.01)
