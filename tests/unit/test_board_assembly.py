"""Joining parts: screws find their patch and a stocked length, housings cut what they need, chains close."""

from math import hypot

import pytest

from pieces import MODULES, build, ply
from scantling.board import (
    Assembly,
    AssemblyError,
    Chain,
    ChainError,
    Link,
    Recess,
    assembly_from_plain,
    assembly_to_plain,
    ray_through,
)
from scantling.measure import RequestError, Tape
from scantling.tables import screw_stock


def corner(t=18.0):
    """Two boards of plywood: a side standing, a shelf lying against its inner face."""
    piece = Assembly("test", "corner", {"frame": ply(t)})
    side = piece.part("side", 600, 300, "frame").lay("z", "y").put(x0=0, y0=0, z0=0)
    shelf = piece.part("shelf", 400, 300, "frame").lay("x", "y").put(x0=side.x1, y0=0, zc=300)
    return piece, side, shelf


def test_a_row_of_screws_lies_on_the_middle_of_the_patch_and_points_into_the_receiver():
    piece, side, shelf = corner()
    piece.screws(side, shelf, n=3, inset=50, role="clamps", glued=True)
    screws = list(piece.fasteners.values())
    assert [s.head[1] for s in screws] == pytest.approx([50, 150, 250])
    assert all(s.head[2] == pytest.approx(300) for s in screws)
    assert all(s.head[0] == pytest.approx(0) for s in screws)
    assert all(s.direction == pytest.approx((1, 0, 0)) for s in screws)


@pytest.mark.parametrize("t", [12.0, 15.0, 17.2, 18.0, 21.0])
@pytest.mark.parametrize("role", ["holds", "clamps", "locates"])
def test_the_length_is_stocked_bites_and_stays_inside(t, role):
    piece, side, shelf = corner(t)
    piece.screws(side, shelf, n=2, gauge=6, role=role)
    for screw in piece.fasteners.values():
        assert any(abs(s.length_mm - screw.length) < 0.01 for s in screw_stock() if s.gauge == 6)
        tip = screw.head_depth + screw.length
        enter, leave = ray_through(shelf, screw.head, screw.direction)[0]
        assert enter < tip < leave - 1.99
        if role == "holds":
            assert tip - enter >= 6 * 3.5052 - 0.01  # 6 D, NDS 2018 12.1.5


def test_parts_that_do_not_touch_cannot_be_screwed_and_the_gap_is_named():
    piece, side, shelf = corner()
    shelf.put(x0=side.x1 + 0.4)
    with pytest.raises(AssemblyError, match=r"do not touch; the nearest faces are 0\.40 mm apart"):
        piece.screws(side, shelf, n=2)


def test_no_stocked_screw_is_said_with_the_window():
    piece, side, _ = corner()
    thin = piece.part("thin", 300, 100, "frame")
    thin.thickness = 18.0
    thin.lay("z", "y").put(x1=side.x0, y0=0, z0=0)
    with pytest.raises(AssemblyError, match="it must be"):
        piece.screws(thin, side, n=2, gauge=14, role="holds")


def test_screws_through_three_parts_pass_all_of_them():
    piece, side, shelf = corner()
    strip = piece.part("strip", 600, 60, "frame").lay("z", "y").put(x1=side.x0, y0=100, z0=0)
    piece.screws(strip, shelf, through=[side], n=2, inset=10, role="clamps")
    screw = piece.fasteners["S1"]
    assert screw.parts == ("strip", "side", "shelf")
    assert screw.head[0] == pytest.approx(-18)


def test_housed_cuts_the_dado_that_the_panel_needs():
    piece, side, shelf = corner()
    shelf.put(x0=side.x1 - 6)
    joint = piece.housed(shelf, side, slack=0.2)
    (cut,) = [c for c in side.cuts if isinstance(c, Recess)]
    assert cut.kind == "dado"
    assert cut.x1 - cut.x0 == pytest.approx(18.2)
    assert min(cut.z1, 18) - max(cut.z0, 0) == pytest.approx(6)
    assert joint.clearance == pytest.approx(0.1)
    volume = side.volume_and_centre()[0]
    assert volume == pytest.approx(600 * 300 * 18 - 18.2 * 300 * 6)


def test_repeat_sets_copies_at_even_steps():
    piece, _, shelf = corner()
    row = piece.repeat(shelf, 3, (0, 0, 100), "shelf")
    assert [p.z0 for p in row] == pytest.approx([291, 391, 491])
    assert set(piece.parts) == {"side", "shelf", "shelf 2", "shelf 3"}


def test_an_id_is_used_once():
    piece, _, _ = corner()
    with pytest.raises(AssemblyError, match="used twice"):
        piece.part("side", 100, 100, "frame")


def test_a_chain_that_does_not_close_is_refused_with_the_difference():
    with pytest.raises(ChainError, match=r"add up to 98\.00 mm, the whole is 100\.00 mm"):
        Chain("width", 100, (Link("a", 49), Link("b", 49)), "b")


@pytest.mark.parametrize("tape", ["1/16 in", "1/32 in", "0.5 mm", "1 mm"])
def test_on_a_tape_the_closing_part_takes_the_rounding_of_the_others(tape):
    """Whatever the tape, the links as read add up to the whole as read, which is what a builder cuts by."""
    links = tuple(Link(f"slat {i}", 88.9 + i * 0.31) for i in range(6))
    chain = Chain("deck", sum(k.size for k in links), links, "slat 5")
    taped = chain.on_tape(Tape.parse(tape))
    assert sum(taped.readings) == pytest.approx(taped.total)
    assert "fit to the work, about" in taped.lines(Tape.parse(tape))[-1]


@pytest.mark.parametrize("id", sorted(MODULES))
def test_the_json_form_of_a_piece_comes_back_the_same(id):
    plain = assembly_to_plain(build(id))
    again = assembly_from_plain(plain)
    assert assembly_to_plain(again) == plain
    low, high = again.bounds()
    assert hypot(*(b - a for a, b in zip(low, high, strict=True))) > 100


def broken(change):
    plain = assembly_to_plain(build("storage-footstool"))
    change(plain)
    with pytest.raises(RequestError) as caught:
        assembly_from_plain(plain)
    return {(e.pointer, e.code) for e in caught.value.errors}


@pytest.mark.parametrize(
    ("change", "pointer", "code"),
    [
        (lambda a: a["parts"][0].update(length_mm=0.0), "/assembly/parts/0", "bad-assembly"),
        (lambda a: a["parts"][1].update(id=a["parts"][0]["id"]), "/assembly/parts/1/id", "duplicate-id"),
        (lambda a: a["parts"][0].update(role="steel"), "/assembly/parts/0/role", "bad-assembly"),
        (lambda a: a["parts"][0]["frame"].update(width=[0, 0, 2]), "/assembly/parts/0", "bad-assembly"),
        (lambda a: a["parts"][0]["cuts"].append({"kind": "burn"}), "/assembly/parts/0/cuts/1", "bad-cut"),
        (lambda a: a["joints"][0].update(parts=["ghost"]), "/assembly/joints/0/parts", "unknown-part"),
        (lambda a: a["fasteners"][0].update(joint="none"), "/assembly/fasteners/0/joint", "unknown-joint"),
        (lambda a: a["steps"].append({"text": "x", "parts": ["ghost"]}), "/assembly/steps/0/parts", "unknown-part"),
        (lambda a: a["chains"][0].update(total_mm=1.0), "/assembly/chains/0", "open-chain"),
    ],
)
def test_what_is_wrong_with_a_foreign_assembly_is_named_with_its_place(change, pointer, code):
    assert (pointer, code) in broken(change)
