"""The cabinet: half an inch beside each drawer, an even reveal, a drawer that the case can hold up."""

import pytest

from pieces import build
from scantling.board import Hole
from scantling.kit import AssemblyError


@pytest.mark.parametrize("slide", [12.7, 13.5])
@pytest.mark.parametrize("case", [17.1, 18.0, 18.5])
def test_each_slide_has_its_room(slide, case):
    """Side-mounted slides take 1/2 in each side unless their maker's sheet says otherwise (trade figures)."""
    piece = build("cabinet", {"slide": slide}, case=case)
    p = piece.parts
    assert p["drawer 1 left"].x0 - p["side left"].x1 == pytest.approx(slide)
    assert p["side right"].x0 - p["drawer 1 right"].x1 == pytest.approx(slide)


@pytest.mark.parametrize("width", [450, 800, 1000])
def test_doors_and_fronts_keep_one_reveal(width):
    piece = build("cabinet", {"width": width, "drawers": 2})
    p = piece.parts
    doors = sorted((q for q in p.values() if q.name == "door"), key=lambda q: q.x0)
    edges = [p["side left"].x1, *(e for d in doors for e in (d.x0, d.x1)), p["side right"].x0]
    assert [b - a for a, b in zip(edges[::2], edges[1::2], strict=True)] == pytest.approx(
        [3.0] * (len(doors) + 1), abs=0.02
    )
    stack = [p["shelf under drawers"].z1, p["drawer front 1"].z0, p["drawer front 1"].z1, p["drawer front 2"].z0]
    stack += [p["drawer front 2"].z1, p["top"].z0]
    assert [b - a for a, b in zip(stack[::2], stack[1::2], strict=True)] == pytest.approx([3.0] * 3, abs=0.02)


def test_the_drawer_bottom_sits_in_grooves_and_slides_out_at_the_back():
    piece = build("cabinet")
    p = piece.parts
    bottom = p["drawer 1 bottom"]
    assert p["drawer 1 left"].x1 - bottom.x0 == pytest.approx(6.0)
    assert bottom.z1 == pytest.approx(p["drawer 1 back"].z0)
    assert bottom.y1 == pytest.approx(p["drawer 1 back"].y1)


def test_the_slides_are_no_longer_than_the_case_holds_up():
    """50 lb (222 N) on one open drawer (ASTM F2057 before 2023, screening): moments about the front feet."""
    piece = build("cabinet")
    (run,) = [int(h.what.split()[4]) for h in piece.hardware if h.what.startswith("pair of drawer slides")]
    mass, centre = piece.mass_and_centre()
    assert 222.4 * (run + 18) <= mass * 9.80665 * centre[1] * 1.05
    assert run == piece.parts["drawer 1 left"].length


def test_it_is_strapped_to_the_wall_when_it_has_drawers():
    assert any(h.what.startswith("wall strap") for h in build("cabinet").hardware)


def test_drawers_that_leave_no_door_are_refused_in_words():
    with pytest.raises(AssemblyError, match="fewer or lower drawers"):
        build("cabinet", {"height": 500, "drawers": 3, "front": 200})


def test_pins_and_cups_are_bored_from_the_inside_where_they_meet_what_they_carry():
    """Seen from the room, each pin hole opens into the case and the middle row touches the shelf from below."""
    piece = build("cabinet")
    inside = piece.parts["loose shelf"].bounds()
    middle = [(a + b) / 2 for a, b in zip(*inside, strict=True)]
    for part in piece.parts.values():
        for hole in (c for c in part.cuts if isinstance(c, Hole) and c.purpose in ("shelf pin", "hinge cup")):
            assert hole.side == "back" and hole.depth < part.thickness
            into = part.frame.through  # from the back into the wood: away from the inside of the case
            at = part.frame.point((hole.x, hole.y, 0.0))
            assert sum(w * (m - a) for w, m, a in zip(into, middle, at, strict=True)) < 0
    shelf = piece.parts["loose shelf"]
    heights = sorted({round(part.frame.point((c.x, c.y, 0.0))[2], 3) for part in piece.parts.values()
                      for c in part.cuts if isinstance(c, Hole) and c.purpose == "shelf pin"})  # fmt: skip
    assert len(heights) == 5 and heights[2] + 2.5 == pytest.approx(shelf.z0)
