"""Pieces drawn apart, one picture a step, and where the screws go."""

import re
from math import hypot

import pytest

from pieces import MODULES, build
from scantling.board import Hole, cut_list
from scantling.board.vector import add
from scantling.drawing.assembling import step_pictures
from scantling.drawing.checks import off_page, overlapping
from scantling.drawing.dimension import Sizes
from scantling.drawing.explode import Bring, exploded
from scantling.drawing.rims import SIDES, rims
from scantling.drawing.screw_map import screw_maps, spots_of
from scantling.drawing.shapes import Circle, Segments
from scantling.dryfit import verify
from scantling.measure import Tape

METRIC = Tape.parse("1 mm")


def brings(piece):
    return [Bring(s.brings, s.to, s.off) for s in verify(piece).order.steps]


def boxes_overlap(a, b):
    return all(a[0][k] < b[1][k] - 1e-6 and b[0][k] < a[1][k] - 1e-6 for k in range(3))


@pytest.mark.parametrize("module", sorted(MODULES))
def test_drawn_apart_no_box_overlaps_another(module):
    piece = build(module)
    moves = exploded(piece, brings(piece))
    boxes = {p.id: tuple(add(c, moves[p.id]) for c in p.bounds()) for p in piece.parts.values()}
    assert any(m != (0.0, 0.0, 0.0) for m in moves.values())
    ids = list(boxes)
    for i, a in enumerate(ids):
        for b in ids[i + 1 :]:
            if moves[a] != pytest.approx(moves[b], abs=1e-6):
                assert not boxes_overlap(boxes[a], boxes[b]), (a, b)


@pytest.mark.parametrize("module", sorted(MODULES))
def test_without_an_order_a_piece_still_comes_apart(module):
    moves = exploded(build(module), [])
    assert len({tuple(round(c, 3) for c in m) for m in moves.values()}) > 1


@pytest.mark.parametrize("module", sorted(MODULES))
def test_there_is_a_tidy_picture_for_every_step(module):
    piece = build(module)
    steps = brings(piece)
    drawings = step_pictures(piece, steps, 110, 75)
    assert len(drawings) == len(steps) > 0
    for step, drawing in zip(steps, drawings, strict=True):
        assert not list(off_page(drawing)) and not list(overlapping(drawing))
        heavy = [s for s in drawing.shapes if isinstance(s, Segments) and s.stroke == "new"]
        assert len(heavy) == 1 and heavy[0].lines
        words = " ".join(t.text for t in drawing.texts())
        if 0 < len(step.parts) <= 3:
            assert all(id in words or "…" in words for id in step.parts)
    assert [d.shapes for d in step_pictures(piece, steps, 110, 75)] == [d.shapes for d in drawings]


@pytest.mark.parametrize("module", sorted(MODULES))
def test_screw_maps_show_every_screw_where_it_is(module):
    piece = build(module)
    drawings = screw_maps(piece, Sizes(METRIC), list(piece.parts))
    told = 0
    for drawing in drawings:
        assert not list(off_page(drawing))
        assert [(a.text, b.text) for a, b in overlapping(drawing)] == []
        black = [s for s in drawing.shapes if isinstance(s, Circle) and s.fill == "black"]
        rows = [int(n) for t in drawing.texts() for n in re.findall(r"^[a-z]+: S\d+.* \((\d+)\): ", t.text)]
        assert black and sum(rows) % len(black) == 0  # alike parts share a map: each has as many as there are dots
        told += sum(rows)
    assert told == len(piece.fasteners)


@pytest.mark.parametrize("module", ["corner-seat", "cabinet", "planter-polygon"])
def test_every_head_is_written_as_its_distance_from_the_datum_corner(module):
    """Running dimensions after ISO 129-1: each place from one datum, never from its neighbour."""
    piece = build(module)
    maps = screw_maps(piece, Sizes(METRIC), list(piece.parts))
    for part in piece.parts.values():
        for spot in spots_of(piece, part):
            if spot.side not in ("face", "back"):
                continue
            drawing = next(d for d in maps if part.id in d.title and d.title.endswith(f"from the {spot.side}"))
            written = {t.text for t in drawing.texts()}
            assert {METRIC.show(part.length), METRIC.show(part.width)} <= written
            for place in (spot.x, spot.y):  # heads within 0.3 mm share one line, so the mark may be the next one
                assert {METRIC.show(place), METRIC.show(place - 0.3), METRIC.show(place + 0.3)} & written


def test_a_screw_is_measured_from_the_start_and_the_near_edge():
    piece = build("leaning-seat")
    part = piece.parts["front rail"]
    for spot in spots_of(piece, part):
        # the rail lies level with its length along x, its width up: the head's own place tells both
        assert spot.x == pytest.approx(spot.screw.head[0] - part.x0)
        assert spot.y == pytest.approx(spot.screw.head[2] - part.z0)
        assert spot.side == "face" and 0 < spot.x < part.length
    rows = cut_list(piece)
    assert sum(len(spots_of(piece, piece.parts[id])) for r in rows for id in r.parts) == len(piece.fasteners)


def test_the_rims_of_holes_lie_on_the_faces_they_are_drilled_into():
    piece = build("corner-seat")
    drilled = [p for p in piece.parts.values() if any(isinstance(c, Hole) for c in p.cuts)]
    assert drilled
    for part in drilled:
        holes = [c for c in part.cuts if isinstance(c, Hole)]
        assert len(rims(part)) == sum(SIDES * (2 if h.depth is None else 1) for h in holes)
        for a, b in rims(part):
            for x, y, z in (part.frame.local(a), part.frame.local(b)):
                assert min(abs(z), abs(z - part.thickness)) < 1e-9
                assert any(hypot(x - h.x, y - h.y) == pytest.approx(h.diameter / 2) for h in holes)
