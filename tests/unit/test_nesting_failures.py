"""Failures seen in packing and cutting libraries, each as a regression test of ours.

Sources are public issue threads (named beside each test); the expected counts are plain arithmetic. Every nesting
is also re-verified inside `nest` by the independent checker.
"""

import random
from dataclasses import replace

import pytest

from scantling.measure import RequestError
from scantling.nesting import (
    Cutting,
    Grain,
    Job,
    Nesting,
    Piece,
    Stock,
    StockGrain,
    StoppedBy,
    Trim,
    nest,
    nesting_to_plain,
    nestings,
)
from scantling.nesting.checker import check_nesting
from scantling.nesting.cutting_plan import cutting_plan

MM = 100
SHEET = Stock("sheet", 2440 * MM, 1220 * MM, price=620_000)


def job(pieces, stock=(SHEET,), kerf=0.0, trim=0.0, effort=20_000, **cutting):
    edge = round(trim * MM)
    saw = Cutting(kerf=round(kerf * MM), trim=Trim(edge, edge, edge, edge), **cutting)
    return Job(tuple(pieces), tuple(stock), saw, effort)


def piece(name, length, width, quantity=1, grain=Grain.ANY, **more):
    return Piece(name, round(length * MM), round(width * MM), quantity, grain, **more)


def sheets(nesting: Nesting) -> int:
    return sum(layout.count for layout in nesting.layouts)


def placed(nesting: Nesting) -> int:
    return sum(layout.count * len(layout.placements) for layout in nesting.layouts)


def test_part_that_fits_nowhere_comes_back_by_name():
    # secnot/rectpack #7: dropped silently
    found = nest(job([piece("long", 2500, 300), piece("ok", 500, 300)], kerf=3))
    assert [(u.part, u.quantity, u.nearest_stock, u.excess) for u in found.unplaced] == [
        ("long", 1, "sheet", (60 * MM, 0))
    ]
    assert placed(found) == 1
    assert not found.proven_minimal
    assert [f.severity.value for f in found.findings if f.code == "part-does-not-fit"] == ["error"]


@pytest.mark.parametrize("seed", range(8))
def test_freedom_to_turn_never_costs_more(seed):
    # secnot/rectpack #22, free-tex-packer-core #14
    draw = random.Random(seed)
    sizes = [(draw.randrange(100, 1200), draw.randrange(60, 600), draw.randrange(1, 5)) for _ in range(10)]
    locked = [piece(f"p{i}", *s, grain=Grain.ALONG) for i, s in enumerate(sizes)]
    some = [replace(p, grain=Grain.ANY) if i % 2 else p for i, p in enumerate(locked)]
    free = [replace(p, grain=Grain.ANY) for p in locked]
    costs = [nest(job(pieces, kerf=3.2, trim=10)).objective for pieces in (locked, some, free)]
    assert costs == sorted(costs, reverse=True)


def test_part_that_fits_only_turned():
    # soimy/maxrects-packer #55 and #66: compared sizes before checking the fit
    found = nest(job([piece("tall", 400, 900)], [Stock("s", 1000 * MM, 500 * MM)]))
    placement = found.layouts[0].placements[0]
    assert placement.turned
    assert (placement.length, placement.width) == (400 * MM, 900 * MM)
    assert (placement.along_x, placement.along_y) == (900 * MM, 400 * MM)


def test_part_longer_than_the_short_side():
    # fontanf/packingsolver PR #426: a turned part wider than the bin crashed
    found = nest(job([piece("rail", 2000, 100, 5)]))
    assert (sheets(found), placed(found), found.proven_minimal) == (1, 5, True)


@pytest.mark.parametrize(("kerf", "trim"), [(0, 0), (3.2, 0), (3.2, 10), (0, 12.5), (3, 2)])
def test_part_exactly_as_large_as_the_usable_sheet(kerf, trim):
    # fontanf/packingsolver #296, PR #109, #155, #156: trims and kerf
    found = nest(job([piece("top", 2440 - 2 * trim, 1220 - 2 * trim)], kerf=kerf, trim=trim))
    assert (sheets(found), found.proven_minimal) == (1, True)
    too_large = nest(job([piece("top", 2440 - 2 * trim + 0.01, 1220 - 2 * trim)], kerf=kerf, trim=trim))
    assert [u.excess for u in too_large.unplaced] == [(1, 0)]


def test_pieces_and_kerfs_that_fill_the_sheet_exactly():
    # n pieces take n - 1 kerfs: (1000 - 4 x 3.2) / 5 = 197.44
    stock = [Stock("s", 1000 * MM, 300 * MM)]
    assert sheets(nest(job([piece("a", 197.44, 300, 5)], stock, kerf=3.2))) == 1
    assert sheets(nest(job([piece("a", 197.45, 300, 5)], stock, kerf=3.2))) == 2


def test_rest_narrower_than_the_kerf_goes_into_sawdust():
    found = nest(job([piece("a", 998, 300)], [Stock("s", 1000 * MM, 300 * MM)], kerf=3.2))
    assert (sheets(found), found.layouts[0].offcuts) == (1, ())


def test_tenths_add_up_exactly():
    # enzoruiz/3dbinpacking #5: 0.1 + 0.2 != 0.3 in binary fractions
    found = nest(job([piece("a", 0.1, 0.3), piece("b", 0.2, 0.3)], [Stock("s", 30, 30)]))
    assert sheets(found) == 1


def test_limited_stock_is_counted_from_the_answer():
    # fontanf/packingsolver #13: three used, two in stock; #8: "infinite" read as two
    stock = [Stock("offcut", 800 * MM, 600 * MM, price=0, quantity=2, offcut=True), SHEET]
    found = nest(job([piece("a", 790, 590, 13, Grain.ALONG)], stock, kerf=3))
    used = {s.id: sum(x.count for x in found.layouts if x.stock == s.id) for s in stock}
    assert used == {"offcut": 2, "sheet": 2}
    assert found.unplaced == ()


def test_stock_that_runs_out_is_an_answer():
    found = nest(job([piece("a", 2000, 1000, 3)], [replace(SHEET, quantity=2)]))
    assert (sheets(found), found.cost, found.proven_minimal) == (2, 1_240_000, False)
    assert [(u.part, u.quantity) for u in found.unplaced] == [("a", 1)]
    assert "1 more of “sheet”" in found.unplaced[0].reason


def test_thousands_of_equal_parts():
    # fontanf/packingsolver #19, dvdoug/BoxPacker #81: overflow, hang. 6 x 4 of 400 x 250 with a 3.2 kerf and 10 trim
    found = nest(job([piece("a", 400, 250, 1000, Grain.ALONG)], kerf=3.2, trim=10))
    assert (sheets(found), placed(found)) == (42, 1000)
    assert len(found.layouts) <= 2  # packingsolver #114: alike layouts listed ninety times


def test_ten_thousand_parts_in_five_kinds_are_all_there():
    pieces = [piece(f"p{i}", 300 + 70 * i, 150 + 30 * i, 2000) for i in range(5)]
    found = nest(job(pieces, kerf=3.2, trim=10, effort=1))
    assert (placed(found), found.unplaced) == (10_000, ())


@pytest.mark.parametrize("effort", [1, 1000])
def test_one_trivial_part(effort):
    # fontanf/packingsolver #481, #419, #447: no answer for one part, a hang after it, 31 s for nine
    found = nest(job([piece("a", 100, 100)], effort=effort))
    assert (sheets(found), found.proven_minimal, found.stopped_by) == (1, True, StoppedBy.PROOF)


def test_no_parts_at_all_and_a_quantity_of_zero():
    assert nest(job([])).layouts == ()
    assert placed(nest(job([piece("a", 100, 100, 0), piece("b", 100, 100)]))) == 1


def test_a_homogeneous_grid_is_found():
    # secnot/rectpack #52: 30 of 24 x 18 in 114 x 120 found, not 31. By hand: 5 columns of 5 turned (18 wide, 24 high)
    # and one of 6 (24 wide, 18 high): 5 x 18 + 24 = 114, 5 x 24 = 120; the area holds no more (31.67).
    found = nest(job([piece("a", 24, 18, 31)], [Stock("s", 114 * MM, 120 * MM)], effort=200_000))
    assert sheets(found) == 1


def test_order_of_the_input_does_not_matter():
    draw = random.Random(5)
    pieces = [
        piece(f"p{i:02}", draw.randrange(100, 900), draw.randrange(60, 500), draw.randrange(1, 4)) for i in range(15)
    ]
    asked = job(pieces, kerf=3.2, trim=10)
    shuffled = replace(asked, pieces=tuple(draw.sample(pieces, len(pieces))))
    plain = [
        nesting_to_plain(j, found, cutting_plan(j, found), "USD") for j in (asked, shuffled) for found in [nest(j)]
    ]
    assert plain[0] == plain[1]


def test_equal_prices_price_zero_and_an_offcut_smaller_than_its_trim():
    stock = [
        Stock("a", 1000 * MM, 500 * MM, price=100_000),
        Stock("b", 500 * MM, 1000 * MM, price=100_000),
        Stock("free", 300 * MM, 300 * MM, price=0, quantity=1, offcut=True),
        Stock("sliver", 15 * MM, 300 * MM, price=0, quantity=1, offcut=True),
    ]
    found = nest(job([piece("x", 270, 270), piece("y", 470, 970, 1)], stock, kerf=3, trim=10))
    assert found.cost == 100_000
    assert found.proven_minimal
    assert {layout.stock for layout in found.layouts} <= {"a", "b", "free"}


def test_an_offcut_never_forces_a_further_sheet():
    # the offcut is free, but what it takes must not be missed elsewhere; all fits on one sheet either way
    stock = [SHEET, Stock("offcut", 700 * MM, 400 * MM, price=50_000, quantity=1, offcut=True)]
    found = nest(job([piece("a", 600, 300, 4)], stock, kerf=3))
    assert found.cost == 620_000


@pytest.mark.parametrize("grain", list(Grain))
@pytest.mark.parametrize("stock_grain", list(StockGrain))
def test_grain_of_part_and_stock(grain, stock_grain):
    stock = [replace(SHEET, grain=stock_grain)]
    found = nest(job([piece("a", 1500, 500, 1, grain)], stock))
    if grain is Grain.ACROSS and stock_grain is StockGrain.ALONG:
        assert [u.part for u in found.unplaced] == ["a"]  # 1500 across a sheet 1220 wide
    else:
        assert found.unplaced == ()


def test_materials_and_thicknesses_are_separate():
    stock = [
        Stock("ply 18", 2440 * MM, 1220 * MM, "ply", 1800, 600_000),
        Stock("ply 12", 2440 * MM, 1220 * MM, "ply", 1200, 500_000),
        Stock("mdf 18", 2440 * MM, 1220 * MM, "mdf", 1800, 400_000),
    ]
    pieces = [
        piece("a", 700, 500, 2, material="ply", thickness=1800),
        piece("b", 700, 500, 2, material="ply", thickness=1200),
        piece("c", 700, 500, 2, material="mdf", thickness=1800),
        piece("d", 700, 500, 2, material="mdf", thickness=1200),
    ]
    found = nest(job(pieces, stock, kerf=3))
    assert {x.stock: {p.part for p in x.placements} for x in found.layouts} == {
        "ply 18": {"a"},
        "ply 12": {"b"},
        "mdf 18": {"c"},
    }
    assert [u.part for u in found.unplaced] == ["d"]
    assert found.cost == 1_500_000


def test_a_group_comes_from_one_sheet_in_sequence():
    fronts = [piece(f"front {i}", 400, 150 + 40 * i, 1, Grain.ALONG, group="bank") for i in range(4)]
    others = [piece("side", 700, 500, 10, Grain.ALONG)]
    found = nest(job([*fronts, *others], kerf=3.2, trim=10))
    where = [i for i, x in enumerate(found.layouts) for p in x.placements if p.part.startswith("front")]
    assert len(set(where)) == 1
    layout = found.layouts[where[0]]
    assert layout.count == 1
    row = sorted((p.y, p.x, p.part) for p in layout.placements if p.part.startswith("front"))
    assert [name for *_, name in row] == [f"front {i}" for i in range(4)]


def test_a_pinned_part_takes_its_stock():
    stock = [SHEET, Stock("oak offcut", 900 * MM, 500 * MM, price=0, quantity=1, offcut=True)]
    found = nest(job([piece("a", 300, 300, 1), piece("b", 300, 300, 1, stock="oak offcut")], stock))
    assert {p.part: x.stock for x in found.layouts for p in x.placements}["b"] == "oak offcut"


def test_oversize_is_added_to_both_sides():
    found = nest(job([piece("a", 990, 490, 1, oversize=10 * MM)], [Stock("s", 1000 * MM, 500 * MM)]))
    assert (found.layouts[0].placements[0].length, found.layouts[0].placements[0].width) == (1000 * MM, 500 * MM)


@pytest.mark.parametrize("stages", [1, 2, 3])
@pytest.mark.parametrize("first", ["along", "across", "either"])
def test_stages_and_the_first_cut(stages, first):
    draw = random.Random(3)
    pieces = [piece(f"p{i}", draw.randrange(200, 900), draw.randrange(100, 500), 2) for i in range(8)]
    asked = job(pieces, kerf=3.2, trim=10, stages=stages, first_cut=first)
    found = nest(asked)  # the checker counts the stages and looks at the first cut
    assert placed(found) == 16
    assert check_nesting(asked, found) == ()


def test_more_effort_is_never_worse():
    draw = random.Random(11)
    pieces = [
        piece(f"p{i}", draw.randrange(150, 900), draw.randrange(80, 500), draw.randrange(1, 6)) for i in range(20)
    ]
    costs = [nest(job(pieces, kerf=3.2, trim=10, effort=e)).objective for e in (1, 5_000, 40_000, 200_000)]
    assert costs == sorted(costs, reverse=True)


def test_time_that_runs_out_still_answers():
    pieces = [piece(f"p{i}", 150 + 31 * i, 80 + 17 * i, 6) for i in range(20)]
    found = nest(job(pieces, kerf=3.2, trim=10, effort=10_000_000), seconds=0.2)
    assert placed(found) == 120
    assert found.stopped_by in (StoppedBy.TIME, StoppedBy.PROOF)


REQUEST = {
    "parts": [{"id": "a", "length": 500.0, "width": 300.0}],
    "stock": [{"id": "s", "length": 2440.0, "width": 1220.0, "price": "62.00"}],
    "saw": {"kerf": 3.2, "trim": 10.0},
    "effort": "quick",
}


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"saw": {"kerf": 3000.0}}, "/saw/kerf"),
        ({"saw": {"kerf": 3.2, "trim": 700.0}}, "/saw/trim"),
        ({"saw": {"kerf": -1.0}}, "/saw/kerf"),
        ({"saw": {"kerf": float("nan")}}, "/saw/kerf"),
        ({"parts": []}, "/parts"),
        ({"stock": []}, "/stock"),
        ({"parts": [{"id": "a", "length": 0.0, "width": 300.0}]}, "/parts/0/length"),
        ({"parts": [{"id": "a", "length": 10.0, "width": -300.0}]}, "/parts/0/width"),
        ({"parts": [{"id": "a", "length": float("nan"), "width": 30.0}]}, "/parts/0/length"),
        ({"parts": [{"id": "a", "length": 10.0, "width": 30.0, "quantity": 0}]}, "/parts/0/quantity"),
        ({"parts": [{"id": "a", "length": 10.0, "width": 30.0, "quantity": 20_001}]}, "/parts"),
        ({"parts": [{"id": "a", "length": 10.0, "width": 30.0, "stock": "none such"}]}, "/parts/0/stock"),
        ({"parts": [{"id": str(i), "length": 10.0, "width": 30.0} for i in range(501)]}, "/parts"),
        ({"effort": "endless"}, "/effort"),
    ],
)
def test_requests_that_cannot_be_computed(change, pointer):
    with pytest.raises(RequestError) as refused:
        nestings(REQUEST | change)
    assert pointer in {p.pointer for p in refused.value.errors}


def test_contradictory_pins_are_refused():
    parts = [
        {"id": "a", "length": 100.0, "width": 100.0, "group": "g", "stock": "s"},
        {"id": "b", "length": 100.0, "width": 100.0, "group": "g", "stock": "t"},
    ]
    stock = [REQUEST["stock"][0], {"id": "t", "length": 900.0, "width": 900.0, "price": "1.00"}]
    with pytest.raises(RequestError) as refused:
        nestings(REQUEST | {"parts": parts, "stock": stock})
    assert [(p.pointer, p.code) for p in refused.value.errors] == [("/parts/1/stock", "contradiction")]


def test_the_same_request_gives_the_same_bytes():
    assert repr(nestings(REQUEST)) == repr(nestings(REQUEST))
