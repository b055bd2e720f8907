"""Layout drawings: every part and every cut on paper, nothing over another, mirrored where the sheet lies face down."""

from itertools import pairwise
from xml.etree import ElementTree

import pytest

from scantling.drawing.checks import off_page, overlapping
from scantling.drawing.shapes import Circle, Path
from scantling.drawing.svg import to_svg
from scantling.measure import Tape
from scantling.nesting import nestings
from scantling.papers import layout_drawings, layout_svgs
from scantling.papers.layouts import bound_text

TAPE = Tape.parse("1/16 in")


def request(parts, **more):
    return {
        "parts": parts,
        "stock": [{"id": "sheet", "length": 2440.0, "width": 1220.0, "price": "60.00"}],
        "saw": {"kerf": 3.2, "trim": 6.0},
        "effort": "quick",
        **more,
    }


PARTS = [
    {"id": "side", "length": 900.0, "width": 300.0, "quantity": 4},
    {"id": "shelf", "length": 764.0, "width": 280.0, "quantity": 7},
    {"id": "narrow strip", "length": 500.0, "width": 25.0, "quantity": 5},
]


@pytest.fixture(scope="module")
def answer():
    return nestings(request(PARTS))


def test_every_part_and_cut_stands_on_the_paper(answer):
    for layout, drawing in zip(answer["layouts"], layout_drawings(answer, TAPE), strict=True):
        words = " ".join(t.text for t in drawing.texts())
        assert all(p["part"] in words for p in layout["placements"])
        rings = [s for s in drawing.shapes if isinstance(s, Circle) and s.fill == "white"]
        assert len(rings) == len(layout["cuts"]) > 0
        assert f"{len(layout['cuts'])} cuts" in words and "proven" in words


def test_nothing_runs_off_the_page_or_over_another(answer):
    for drawing in layout_drawings(answer, TAPE):
        assert not list(off_page(drawing))
        assert [(a.text, b.text) for a, b in overlapping(drawing)] == []


def test_the_rings_of_cuts_stand_apart(answer):
    for drawing in layout_drawings(answer, TAPE):
        rings = [s for s in drawing.shapes if isinstance(s, Circle) and s.fill == "white"]
        for i, a in enumerate(rings):
            for b in rings[i + 1 :]:
                assert max(abs(a.x - b.x), abs(a.y - b.y)) >= 2 * a.radius - 1e-6


def test_parts_have_their_true_proportion_on_paper(answer):
    layout, drawing = answer["layouts"][0], layout_drawings(answer, TAPE)[0]
    boxes = [s for s in drawing.shapes if isinstance(s, Path) and s.closed and s.stroke in ("heavy", "outline")]
    (x0, _), _, (x1, _), _ = boxes[0].points
    scale = (x1 - x0) / layout["length_mm"]
    for p, box in zip(layout["placements"], boxes[1:], strict=True):
        w, h = (p["width_mm"], p["length_mm"]) if p["turned"] else (p["length_mm"], p["width_mm"])
        assert box.points[2][0] - box.points[0][0] == pytest.approx(w * scale)
        assert box.points[2][1] - box.points[0][1] == pytest.approx(h * scale)


def test_a_sheet_with_its_good_face_down_is_drawn_as_it_is_seen(answer):
    layout = answer["layouts"][0]
    up = layout_drawings({**answer, "layouts": [{**layout, "face_up": "face", "mirrored": False}]}, TAPE)[0]
    down = layout_drawings({**answer, "layouts": [{**layout, "face_up": "back", "mirrored": True}]}, TAPE)[0]
    places = [[s.points[0] for s in d.shapes if isinstance(s, Path) and s.stroke == "outline"] for d in (up, down)]
    frames = [next(s for s in d.shapes if isinstance(s, Path) and s.stroke == "heavy").points for d in (up, down)]
    heights = [
        [s.points[2][1] - s.points[0][1] for s in d.shapes if isinstance(s, Path) and s.stroke == "outline"]
        for d in (up, down)
    ]
    for i, ((xa, ya), (xb, yb)) in enumerate(zip(*places, strict=True)):
        assert xa == pytest.approx(xb)
        assert ya - frames[0][0][1] == pytest.approx(frames[1][2][1] - yb - heights[1][i])
    assert any("down" in t.text for t in down.texts()) and not any("down" in t.text for t in up.texts())


def test_boards_are_drawn_as_strips():
    board = {"id": "board", "length": 2400.0, "price": "9.00"}
    answer = nestings(request([{"id": "leg", "length": 700.0, "quantity": 3}], stock=[board]))
    drawing = layout_drawings(answer, TAPE)[0]
    assert not list(off_page(drawing)) and not list(overlapping(drawing))
    assert any("leg" in t.text for t in drawing.texts())


def test_same_bytes_again_and_valid_xml(answer):
    files = layout_svgs(answer, TAPE)
    assert files == layout_svgs(nestings(request(PARTS)), TAPE) and next(iter(files)) == "layout-01.svg"
    for text in files.values():
        ElementTree.fromstring(text)  # noqa: S314 - our own output
    assert to_svg(layout_drawings(answer, TAPE)[0]) == files["layout-01.svg"]


def test_pieces_with_sloped_ends_are_drawn_as_they_lie_inside_each_other():
    """Three mitred pieces share cuts on a board 89 mm wide: a kerf / cos between outlines whose ends lean."""
    part = {"id": "frame", "length": 600.0, "quantity": 3, "start_slope": 45.0, "end_slope": -45.0}
    stock = {"id": "2x4", "length": 2440.0, "board_width": 89.0}
    answer = nestings({"parts": [part], "stock": [stock], "saw": {"kerf": 3.2}})
    (layout,) = answer["layouts"]
    for p in layout["placements"]:
        assert abs(p["far_mm"][1] - p["far_mm"][0] - p["near_mm"][1] + p["near_mm"][0]) == pytest.approx(
            2 * 89, abs=0.03
        )
    for left, right in pairwise(layout["placements"]):
        for edge in ("near_mm", "far_mm"):
            assert right[edge][0] - left[edge][1] == pytest.approx(3.2 * 2**0.5, abs=0.02)
    (drawing,) = layout_drawings(answer, TAPE)
    leaning = [
        s for s in drawing.shapes if isinstance(s, Path) and s.stroke == "outline" and s.points[0][0] != s.points[3][0]
    ]
    assert len(leaning) == 3


def test_a_stack_and_the_side_the_blade_tilts_to_are_written_on_the_drawing():
    saws = [{"id": "bench saw", "kind": "table saw", "kerf": 3.2, "rip": 1300.0, "crosscut": 1300.0, "tilts": "left"}]
    parts = [{"id": "top", "length": 2300.0, "width": 1100.0, "quantity": 5}]
    stacked = nestings(request(parts, saws=saws, stack={"sheets": 2}))
    (drawing,) = layout_drawings(stacked, TAPE)
    words = " ".join(t.text for t in drawing.texts())
    assert "cut in stacks of 2, 3 times over" in words
    assert "Show side up, for the bench saw (its blade tilts to the left)." in words
    assert not list(off_page(drawing))
    assert not list(overlapping(drawing))
    alone = " ".join(t.text for t in layout_drawings(nestings(request(parts, saws=saws)), TAPE)[0].texts())
    assert "stack" not in alone


def test_how_near_to_the_least_is_told_with_two_stages_where_they_need_more():
    nesting = {"cost": "90.00", "bound": "45.00", "two_stage_bound": "90.00", "currency": "EUR"}
    assert bound_text(nesting) == "all stock 90.00, proven not below 45.00 EUR, in two stages of cuts not below 90.00"
    assert bound_text({**nesting, "two_stage_bound": "45.00"}) == "all stock 90.00, proven not below 45.00 EUR"
    assert bound_text({**nesting, "two_stage_bound": None}) == "all stock 90.00, proven not below 45.00 EUR"
