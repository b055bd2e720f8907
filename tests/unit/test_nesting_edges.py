"""Edge cases of nesting known from other libraries' threads, by the hand count each must come to.

The threads are named beside each test; none of their code or data is used.
"""

import random
import time
from dataclasses import replace

import pytest

from scantling.drawing.shapes import Path
from scantling.measure import RequestError, Tape, parse_length
from scantling.nesting import Cutting, Grain, Job, Piece, Stock, StoppedBy, Trim, nest, nestings
from scantling.nesting.boards import nest_boards
from scantling.nesting.checker import check_nesting
from scantling.nesting.nouns import Layout, Nesting, Node
from scantling.papers.layouts import layout_drawing

MM = 100
SHEET = {"id": "sheet", "length": 2440.0, "width": 1220.0, "price": "62.00"}


def request(parts, stock=(SHEET,), kerf=3.2, trim=0.0, **more):
    return {"parts": parts, "stock": list(stock), "saw": {"kerf": kerf, "trim": trim}, "effort": "quick", **more}


def sheets(answer):
    return sum(layout["count"] for layout in answer["layouts"])


def test_a_turned_part_is_reported_and_drawn_the_same_way():
    # soimy/maxrects-packer #55, #66: size and flag of a rotated part disagreed with where it lay
    answer = nestings(request([{"id": "tall", "length": 400.0, "width": 900.0, "grain": "any"}],
                              [SHEET | {"length": 1000.0, "width": 500.0}]))  # fmt: skip
    (layout,) = answer["layouts"]
    (placed,) = layout["placements"]
    assert (placed["length_mm"], placed["width_mm"], placed["turned"]) == (400.0, 900.0, True)
    drawing = layout_drawing(layout, 1, 1, Tape.parse("1 mm"))
    (outline,) = [s for s in drawing.shapes if isinstance(s, Path) and s.stroke == "outline"]
    wide, high = (max(p[i] for p in outline.points) - min(p[i] for p in outline.points) for i in (0, 1))
    assert wide / high == pytest.approx(900 / 400, rel=1e-3)


def test_a_defect_leaves_the_whole_of_both_sides():
    # fontanf/packingsolver #296, PR #109: with a kerf, room beside a defect was left unused
    clear = 50_000 + 300 + 50_000  # two pieces and the cut between them on either side of a knot of 100 mm
    board = Stock("board", 2 * clear + 10_000, price=1, defects=((clear, clear + 10_000),))
    job = Job((Piece("a", 50_000, quantity=4),), (board,), Cutting(300), 5_000)
    found = nest_boards(job)
    assert sum(layout.count for layout in found.layouts) == 1
    assert (
        sum(layout.count for layout in nest_boards(replace(job, pieces=(Piece("a", 50_001, quantity=4),))).layouts) == 2
    )


@pytest.mark.parametrize(("length", "count"), [("15 29/32 in", 1), ("15 15/16 in", 2)])
def test_fractions_of_an_inch_fit_exactly(length, count):
    # olragon/binpackingjs PR #20: 3 × 15 29/32 + 2 × 1/8 = 47 31/32 in, with 1/64 in trimmed off both ends of 48 in
    mm = parse_length(length, "in")
    answer = nestings(
        request(
            [{"id": "a", "length": mm, "width": 300.0, "quantity": 3}],
            [SHEET | {"length": 48 * 25.4, "width": 300.0}],
            kerf=25.4 / 8,
            trim={"start": 25.4 / 64, "end": 25.4 / 64, "near": 0.0, "far": 0.0},
        )
    )
    assert sheets(answer) == count


def test_unlimited_stock_beside_limited_stock():
    # fontanf/packingsolver #8: "as many as needed" was read as two
    limited = SHEET | {"id": "three", "length": 1000.0, "width": 500.0, "price": "1.00", "quantity": 3}
    endless = SHEET | {"id": "endless", "length": 1000.0, "width": 500.0, "price": "9.00", "quantity": None}
    answer = nestings(request([{"id": "a", "length": 990.0, "width": 490.0, "quantity": 20}], [limited, endless]))
    used = {s: sum(x["count"] for x in answer["layouts"] if x["stock"] == s) for s in ("three", "endless")}
    assert used == {"three": 3, "endless": 17}
    assert (answer["cost"], answer["proven_minimal"]) == ("156.00", True)  # 3 × 1 + 17 × 9


def test_alike_layouts_are_one_with_a_count():
    # fontanf/packingsolver #114: identical layouts listed ninety times
    answer = nestings(request([{"id": "a", "length": 1100.0, "width": 1100.0, "quantity": 180}]))
    assert [(x["count"], len(x["placements"])) for x in answer["layouts"]] == [(90, 2)]


def test_the_time_limit_holds_where_a_linear_program_is_solved():
    # HiGHS #885, #947, #2226, or-tools #4747: time limits overrun; bulk demand uses column generation
    pieces = tuple(Piece(f"p{i}", (200 + 37 * i) * MM, (110 + 23 * i) * MM, 60, Grain.ANY) for i in range(12))
    job = Job(pieces, (Stock("s", 2440 * MM, 1220 * MM, price=1),), Cutting(320), 10_000_000)
    nest(replace(job, effort=1))  # the kernel and the solver are loaded
    limit, started = 1.0, time.monotonic()
    found = nest(job, seconds=limit)
    assert time.monotonic() - started < 3 * limit  # the promise itself: a worker is killed two seconds after its time
    assert found.stopped_by in (StoppedBy.TIME, StoppedBy.PROOF)
    assert sum(x.count * len(x.placements) for x in found.layouts) == 720


def _leaves(node: Node) -> list[Node]:
    return [node] if not node.children else [leaf for child in node.children for leaf in _leaves(child)]


def _branches(node: Node) -> int:
    return (len(node.children) - 1 if node.children else 0) + sum(_branches(c) for c in node.children)


def test_cost_cuts_and_offcuts_are_what_the_tree_of_cuts_says():
    # fontanf/packingsolver #328, #347: cost of cuts reported as 0, offcuts measured as a bounding box
    draw = random.Random(9)
    pieces = tuple(
        Piece(f"p{i}", draw.randrange(200, 900) * MM, draw.randrange(100, 500) * MM, 2, Grain.ANY) for i in range(9)
    )
    stock = Stock("s", 2440 * MM, 1220 * MM, price=620_000)
    job = Job(pieces, (stock,), Cutting(320, Trim(1000, 1000, 1000, 1000)), 20_000)
    found = nest(job)
    assert found.cost == 620_000 * sum(x.count for x in found.layouts)
    for layout in found.layouts:
        assert layout.tree is not None
        ends = _leaves(layout.tree)
        kept = sorted((n.x, n.y, n.along_x, n.along_y) for n in ends if n.kept)
        assert kept == sorted((o.x, o.y, o.along_x, o.along_y) for o in layout.offcuts)
        # every kept rectangle is whole and wide: no piece reaches into it
        for x, y, dx, dy in kept:
            assert not [p for p in layout.placements if p.x < x + dx and x < p.x + p.along_x
                        and p.y < y + dy and y < p.y + p.along_y]  # fmt: skip
        assert _branches(layout.tree) >= len(layout.placements) - 1


def test_a_spoilt_answer_of_a_solver_is_caught():
    # or-tools #3012, #3168: replicated or absent intervals; whatever a solver says is checked again
    job = Job((Piece("a", 100, 100, 2),), (Stock("s", 1_000, 1_000, price=1),), Cutting(), 1_000)
    found = nest(job)
    (layout,) = found.layouts
    doubled = replace(layout, placements=(layout.placements[0],) * 2)
    for spoilt in (doubled, replace(layout, placements=layout.placements[:1]), Layout("s", 1, (), ())):
        assert check_nesting(job, replace(found, layouts=(spoilt,))) != ()
    assert check_nesting(job, found) == ()
    assert isinstance(found, Nesting)


def test_a_kerf_wider_than_a_part():
    # parts of 3 mm with a kerf of 4: 100 = 14 × 3 + 13 × 4 + 6 left
    answer = nestings(request([{"id": "slip", "length": 100.0, "width": 3.0, "quantity": 14}],
                              [SHEET | {"length": 100.0, "width": 94.0}], kerf=4.0))  # fmt: skip
    assert sheets(answer) == 1
    answer = nestings(request([{"id": "slip", "length": 100.0, "width": 3.0, "quantity": 14}],
                              [SHEET | {"length": 100.0, "width": 93.9}], kerf=4.0))  # fmt: skip
    assert sheets(answer) == 2


def test_all_parts_are_whole_sheets():
    answer = nestings(request([{"id": "top", "length": 2440.0, "width": 1220.0, "quantity": 5}]))
    assert (sheets(answer), answer["cuts"], answer["proven_minimal"]) == (5, 0, True)


def test_more_asked_for_than_there_is():
    short = SHEET | {"quantity": 2}
    answer = nestings(request([{"id": "top", "length": 2440.0, "width": 1220.0, "quantity": 5}], [short]))
    assert (sheets(answer), answer["cost"]) == (2, "124.00")
    (left,) = answer["unplaced"]
    assert (left["part"], left["quantity"], left["nearest_stock"]) == ("top", 3, "sheet")
    assert "3 more of “sheet”" in left["reason"]
    assert answer["bound"] == "124.00"  # what is placed needs both sheets, whatever the cuts
    assert answer["proven_minimal"] is False


@pytest.mark.parametrize(
    ("second", "place"),
    [
        ({"length": 300.0, "material": "ply"}, "/parts/1/group"),
        ({"length": 300.0, "width": 100.0, "material": "mdf"}, "/parts/1/material"),
        ({"length": 300.0, "width": 100.0, "material": "ply", "thickness": 12.0}, "/parts/1/thickness"),
    ],
)
def test_a_group_that_cannot_come_from_one_sheet_is_refused(second, place):
    first = {"id": "a", "length": 400.0, "width": 200.0, "group": "g", "material": "ply", "thickness": 18.0}
    stock = [
        SHEET | {"id": f"{material} {thick}", "material": material, "thickness": thick}
        for material in ("ply", "mdf")
        for thick in (12.0, 18.0)
    ]
    board = {"id": "board", "length": 2000.0, "price": "5.00", "material": "ply", "thickness": 18.0}
    parts = [first, {"id": "b", "group": "g", "thickness": 18.0} | second]
    with pytest.raises(RequestError) as refused:
        nestings(request(parts, [*stock, board]))
    assert [(e.pointer, e.code) for e in refused.value.errors] == [(place, "contradiction")]
