"""Drawings of single parts: chains that close, every size on paper, nothing over another."""

import pytest

from pieces import MODULES, build, ply
from scantling.board import Part, cut_list
from scantling.drawing.checks import off_page, overlapping
from scantling.drawing.dimension import Sizes, level_chain, places_of
from scantling.drawing.flat import part_drawing
from scantling.drawing.flat_notes import working_face
from scantling.drawing.shapes import Circle, Segments
from scantling.drawing.style import STROKES
from scantling.measure import Tape, parse_length

INCH, METRIC, FINE = Tape.parse("1/16 in"), Tape.parse("1 mm"), Tape.parse("0.1 mm")
VARIANTS = {
    "leaning-seat": ({}, {"bays": 4, "arms": "none", "lean": 25}, {"bays": 1, "lean": 5}),
    "storage-footstool": ({}, {"height": 500, "overhang": 20}),
}


def all_parts():
    for id in MODULES:
        for parameters in VARIANTS.get(id, ({},)):
            piece = build(id, parameters)
            for row in cut_list(piece):
                yield pytest.param(piece.parts[row.parts[0]], id=f"{id} {row.parts[0]} {parameters}")


def rich():
    """A part with everything: mitred and bevelled ends, a bevelled edge, housings, holes, easings, seals."""
    part = Part("rich", "rich", ply(), 900, 240, 18, seal=("start", "far"))
    part.saw("start", mitre=20, bevel=30, long_edge="far").saw("end", mitre=12, long_edge="near")
    part.saw("far", bevel=15, long_face="face")
    part.dado(300, width=18, depth=6, into="face").rabbet("near", width=9, depth=9)
    part.notch((500, 560), (200, 260))
    for x in (420, 432, 444):
        part.hole(x, 60, 8)
    return part.ease("far/face", size=3.0)


def seen(text):
    """A written size in mm, as the length grammar reads it."""
    return parse_length(text)


@pytest.mark.parametrize("part", [*all_parts(), pytest.param(rich(), id="rich")])
@pytest.mark.parametrize("tape", [INCH, METRIC], ids=lambda t: t.name)
@pytest.mark.parametrize("up", ["face", "back"])
def test_every_chain_closes_and_nothing_overlaps(part, tape, up):
    drawing = part_drawing(part, Sizes(tape), up=up)
    written = [t.text for t in drawing.texts()]
    for chain in drawing.chains:
        assert sum(seen(t) for t in chain.links) == pytest.approx(seen(chain.whole), abs=1e-6)
        assert sum(chain.links_mm) == pytest.approx(chain.whole_mm)
        assert all(t in written for t in chain.links)
        for text, mm in zip(chain.links, chain.links_mm, strict=True):
            assert abs(seen(text) - mm) <= tape.step_mm + 1e-6
    assert {"length", "width", "thickness"} <= {c.name for c in drawing.chains}
    assert not list(off_page(drawing))
    assert [(a.text, b.text) for a, b in overlapping(drawing)] == []


def test_two_tapes_close_each_by_itself():
    drawing = part_drawing(rich(), Sizes(INCH, METRIC))
    assert not list(off_page(drawing)) and not list(overlapping(drawing))
    chain = next(c for c in drawing.chains if c.name == "along the bottom edge")
    for pick in (0, 1):
        texts = [t.replace(")", "").split(" (")[pick] for t in (*chain.links, chain.whole)]
        assert sum(seen(t) for t in texts[:-1]) == pytest.approx(seen(texts[-1]), abs=1e-6)


def test_sizes_on_paper_are_those_of_the_part():
    part = rich()
    drawing = part_drawing(part, Sizes(FINE))
    chains = {c.name: c for c in drawing.chains}
    assert chains["length"].links_mm == (900,) and chains["width"].links_mm == (240,)
    # the rabbet leaves 9 mm in the back, the dado takes 6 mm from the face: 9 + 3 + 6 = 18
    assert chains["thickness"].links_mm == pytest.approx((9, 3, 6))
    along = chains["along the bottom edge"].links_mm
    places = [sum(along[:i]) for i in range(len(along) + 1)]
    assert any(abs(p - 300) < 0.01 for p in places) and any(abs(p - 318) < 0.01 for p in places)


def test_saw_settings_stand_on_the_drawing_with_rise_over_run():
    words = " ".join(t.text for t in part_drawing(build("leaning-seat").parts["post 1"], Sizes(METRIC)).texts())
    assert "mitre 12.0°" in words and "(19 mm in 89 mm)" in words  # 89 tan 12° = 18.9
    leg = " ".join(
        t.text for t in part_drawing(build("storage-footstool").parts["front leg left"], Sizes(METRIC)).texts()
    )
    assert "45.0° (18.0 in 18.0 mm)" in leg and "Seal" in leg


def test_holes_are_counted_from_one_datum_and_marked():
    drawing = part_drawing(rich(), Sizes(METRIC))
    words = " ".join(t.text for t in drawing.texts())
    for x in (420, 432, 444):
        assert f"{x} mm from start, 60 mm from near" in words
    datum = [s for s in drawing.shapes if isinstance(s, Circle) and s.fill == "black"]
    assert len(datum) == 1
    holes = [s for s in drawing.shapes if isinstance(s, Circle) and s.fill == "none"]
    scale = (holes[1].x - holes[0].x) / 12
    assert holes[0].x - datum[0].x == pytest.approx(420 * scale)
    assert datum[0].y - holes[0].y == pytest.approx(60 * scale)


def test_turned_over_near_and_far_trade_places():
    up, down = (part_drawing(rich(), Sizes(METRIC), up=u) for u in ("face", "back"))
    for drawing, sign in ((up, 1), (down, -1)):
        datum = next(s for s in drawing.shapes if isinstance(s, Circle) and s.fill == "black")
        hole = next(s for s in drawing.shapes if isinstance(s, Circle) and s.fill == "none")
        assert (datum.y - hole.y) * sign > 0
    assert any("turned over" in t.text for t in down.texts())


def test_sealed_sides_are_dashed_and_hidden_edges_too():
    drawing = part_drawing(rich(), Sizes(METRIC))
    strokes = [s.stroke for s in drawing.shapes if isinstance(s, Segments)]
    assert strokes.count("seal") == 2 and "hidden" in strokes and STROKES["hidden"].dash


def test_crowded_links_are_written_upright_and_stay_apart():
    places = places_of([0, 1000], [400 + 6 * i for i in range(12)])
    row = level_chain("slots", places, Sizes(FINE), lambda x: x / 8, 10, lambda _: 0, down=True, room=(0, 125))
    from scantling.drawing.shapes import Drawing

    drawing = Drawing(125, 40, "", row.shapes)
    assert not list(overlapping(drawing)) and not list(off_page(drawing))
    assert row.chain.links == (*["400 mm"], *["6 mm"] * 11, "534 mm")


def test_a_part_worked_from_behind_lies_with_its_back_up():
    assert working_face(Part("a", "a", ply(), 400, 200, 18).dado(100, width=18, depth=6, into="back")) == "back"
    assert working_face(Part("b", "b", ply(), 400, 200, 18).dado(100, width=18, depth=6, into="face")) == "face"
    both = Part("c", "c", ply(), 400, 200, 18).dado(100, width=18, depth=6, into="back")
    assert working_face(both.groove(50, width=6, depth=6, into="face")) == "face"
    assert working_face(Part("d", "d", ply(), 400, 200, 18).notch((0, 50), (0, 50)).hole(90, 90, 8)) == "face"
