"""The sequence of cuts, played through piece by piece: every cut goes edge to edge and the right parts come out."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.nesting.boards import nest_boards
from scantling.nesting.nouns import Cutting, Grain, Job, Layout, Node, Offcut, Piece, Placement, Stock, Trim
from scantling.nesting.saws import Saws, parse_saws
from scantling.nesting.sequence import Cut, cut_sequence, group_by_setting

KERF = 300
Box = tuple[int, int, int, int]


def guillotine(x: int, y: int, dx: int, dy: int, cuts: str, parts: list[tuple[str, Box]]) -> Node:
    """Make a small tree of cuts: letters x and y split a box into thirds or halves, alternating, until they run out."""
    if not cuts or min(dx, dy) < 4 * KERF + 400:
        name = f"p{len(parts)}"
        parts.append((name, (x, y, dx, dy)))
        return Node(x, y, dx, dy, part=name)
    axis, rest = cuts[0], cuts[1:]
    size = dx if axis == "x" else dy
    first = (size - KERF) * 2 // 5
    second = size - KERF - first
    if axis == "x":
        boxes = [(x, y, first, dy), (x + first + KERF, y, second, dy)]
    else:
        boxes = [(x, y, dx, first), (x, y + first + KERF, dx, second)]
    return Node(x, y, dx, dy, axis, tuple(guillotine(*b, rest, parts) for b in boxes))


def sheet_job(length: int, width: int, trim: Trim, cuts: str, kerf: int = KERF) -> tuple[Layout, Job]:
    """A sheet whose inside is split by the letters of `cuts`, trimmed as a whole first."""
    parts: list[tuple[str, Box]] = []
    core = guillotine(trim.start, trim.near, length - trim.start - trim.end, width - trim.near - trim.far, cuts, parts)
    inner = core
    for axis, before, after, whole in (("y", trim.near, trim.far, width), ("x", trim.start, trim.end, length)):
        if not before and not after:
            continue
        wastes = []
        for begin, size in ((0, before - kerf), (whole - after + kerf, after - kerf)):
            if size > 0:
                box = (begin, inner.y, size, inner.along_y) if axis == "x" else (inner.x, begin, inner.along_x, size)
                wastes.append(Node(*box))
        children = sorted([*wastes, inner], key=lambda n: (n.x, n.y))
        box = (0, inner.y, whole, inner.along_y) if axis == "x" else (inner.x, 0, inner.along_x, whole)
        inner = Node(*box, axis, tuple(children))
    placements = tuple(Placement(name, b[0], b[1], b[2], b[3]) for name, b in parts)
    pieces = tuple(Piece(p.part, p.length, p.width, grain=Grain.ANY) for p in placements)
    job = Job(pieces, (Stock("s", length, width, thickness=1800),), Cutting(kerf, trim), 1)
    return Layout("s", 1, placements, (), inner), job


def play(layout: Layout, job: Job, cuts: Sequence[Cut]) -> Counter[tuple[str, Box]]:
    """Saw a stock up as told and return the parts (name, place) that come out. Fails where a cut cannot be made."""
    stock = next(s for s in job.stock if s.id == layout.stock)
    whole: Box = (0, 0, stock.length, stock.width or 0)
    if not cuts:
        return Counter((p.part, whole) for p in layout.placements)
    bench: dict[Box, str] = {whole: "whole"}
    out: Counter[tuple[str, Box]] = Counter()
    for number, cut in enumerate(cuts, start=1):
        assert cut.number == number
        held = (cut.held.x, cut.held.y, cut.held.along_x, cut.held.along_y)
        assert held in bench, f"cut {number} needs a piece that is not there"
        del bench[held]
        begin, size = (held[0], held[2]) if cut.axis == "x" else (held[1], held[3])
        wide = held[3] if stock.width is not None else stock.board_width or 0
        assert cut.travel == (wide if cut.axis == "x" else held[2])
        assert begin <= cut.at
        assert cut.at + cut.kerf <= begin + size
        assert min(1, job.cutting.kerf) <= cut.kerf <= job.cutting.kerf
        pieces = [(begin, cut.at), (cut.at + cut.kerf, begin + size)]
        boxes = [
            (a, held[1], b - a, held[3]) if cut.axis == "x" else (held[0], a, held[2], b - a)
            for a, b in pieces
            if b > a
        ]
        stated = [f for f in (cut.falls, cut.rest) if f is not None]
        assert sorted(boxes) == sorted((f.x, f.y, f.along_x, f.along_y) for f in stated)
        for f in stated:
            box = (f.x, f.y, f.along_x, f.along_y)
            if f.kind == "part":
                out[f.name or "", box] += 1
            elif f.kind == "piece":
                bench[box] = f.name or ""
    assert not bench, f"left uncut: {bench}"
    return out


def wanted(layout: Layout) -> Counter[tuple[str, Box]]:
    return Counter((p.part, (p.x, p.y, p.along_x, p.along_y)) for p in layout.placements)


TRIMS = [Trim(), Trim(1000, 1000, 1000, 1000), Trim(0, 0, 500, 0), Trim(200, 100, 250, 300), Trim(end=900, far=900)]


@pytest.mark.parametrize("trim", TRIMS)
@pytest.mark.parametrize("cuts", ["x", "y", "xy", "yx", "yxy", "xyx", "yyxx", "xxyyx", ""])
def test_every_part_comes_out_and_every_cut_is_edge_to_edge(trim: Trim, cuts: str) -> None:
    layout, job = sheet_job(244_000, 122_000, trim, cuts)
    assert play(layout, job, cut_sequence(layout, job)) == wanted(layout)


@settings(max_examples=60, deadline=None)
@given(
    st.text("xy", max_size=6),
    st.tuples(*[st.integers(0, 1500)] * 4),
    st.sampled_from(("track", "table", "none", "all")),
)
def test_any_split_sheet_is_cut_up_whatever_the_saws(cuts: str, trim: tuple[int, ...], which: str) -> None:
    layout, job = sheet_job(244_000, 122_000, Trim(*trim), cuts)
    sequence = cut_sequence(layout, job, SAWS[which])
    assert play(layout, job, sequence) == wanted(layout)


TABLE = {"id": "table saw", "kind": "table saw", "kerf": 3.0, "rip": 600, "error": 0.2}
TRACK = {"id": "track saw", "kind": "track saw", "kerf": 2.2, "guide": 2800, "error": 0.4}
CIRCULAR = {"id": "hand-held saw", "kind": "circular saw", "kerf": 2.0, "guide": 2500}
MITRE = {"id": "mitre saw", "kind": "mitre saw", "kerf": 2.4, "crosscut": 300}
SAWS: dict[str, Saws | None] = {
    "none": None,
    "track": parse_saws([TRACK]),
    "table": parse_saws([TABLE, CIRCULAR]),
    "all": parse_saws([TABLE, TRACK, MITRE]),
}


def test_the_near_long_edge_is_trued_first_then_all_rips_then_the_crosscuts() -> None:
    layout, job = sheet_job(244_000, 122_000, Trim(1000, 1000, 1000, 1000), "yyx")
    cuts = cut_sequence(layout, job)
    assert (cuts[0].kind, cuts[0].axis) == ("trim", "y")
    assert cuts[0].travel == 244_000
    axes = [c.axis for c in cuts]
    assert axes == sorted(axes, reverse=True)
    assert not any(c.axis == "x" and c.travel > 122_000 // 2 for c in cuts), "no crosscut of the whole sheet"


def test_cuts_at_one_setting_follow_each_other() -> None:
    """Three like strips with the same three parts each: one rip setting and one setting a crosscut length."""
    strips = []
    placements = []
    x_sizes = (60_000, 50_000, 40_000)
    for row in range(3):
        y, x = row * (20_000 + KERF), 0
        leaves = []
        for column, size in enumerate(x_sizes):
            leaves.append(Node(x, y, size, 20_000, part=f"c{column}"))
            placements.append(Placement(f"c{column}", x, y, size, 20_000))
            x += size + KERF
        strips.append(Node(0, y, x - KERF, 20_000, "x", tuple(leaves)))
    length, width = 150_000 + 2 * KERF, 60_000 + 2 * KERF
    root = Node(0, 0, length, width, "y", tuple(strips))
    pieces = tuple(Piece(f"c{i}", s, 20_000, 3) for i, s in enumerate(x_sizes))
    job = Job(pieces, (Stock("s", length, width),), Cutting(KERF), 1)
    layout = Layout("s", 1, tuple(placements), (), root)
    cuts = cut_sequence(layout, job)
    assert play(layout, job, cuts) == wanted(layout)
    changes = sum(a.setup != b.setup for a, b in pairwise(cuts))
    assert changes == 2
    assert [c.setting for c in cuts] == [20_000] * 2 + [60_000] * 3 + [50_000] * 3


def test_pieces_in_between_are_lettered_as_they_come_off_and_a_trimmed_sheet_is_still_the_sheet() -> None:
    layout, job = sheet_job(244_000, 122_000, Trim(1000, 1000, 1000, 1000), "xyx")
    cuts = cut_sequence(layout, job)
    assert [c.held.name for c in cuts[:3]] == ["sheet", "sheet", "sheet"]
    assert (cuts[0].kind, cuts[0].setting) == ("trim", 1000 - KERF)
    named = [f.name for c in cuts for f in (c.falls, c.rest) if f is not None and f.kind == "piece"]
    fresh = list(dict.fromkeys(n for n in named if n != "sheet"))
    assert fresh == [chr(ord("A") + i) for i in range(len(fresh))]


def test_settings_are_gathered_across_sheets_without_cutting_what_is_not_there() -> None:
    first, job = sheet_job(244_000, 122_000, Trim(1000, 1000, 1000, 1000), "yx")
    second = replace(first)
    sequences = [cut_sequence(first, job), cut_sequence(second, job)]
    setups = group_by_setting(sequences)
    done: set[tuple[int, int]] = set()
    for setup in setups:
        for index, number in setup.cuts:
            after = sequences[index][number - 1].after
            assert after is None or (index, after) in done
            done.add((index, number))
    assert len(done) == len(sequences[0]) * 2
    alone = group_by_setting(sequences[:1])
    assert len(setups) == len(alone), "a second sheet like the first asks for no further setting"
    assert setups[0].to_plain()["cuts"] == [{"layout": 1, "cut": 1}, {"layout": 2, "cut": 1}]


def test_an_offcut_is_kept_whole() -> None:
    part = Node(0, 0, 100_000, 30_000, part="p")
    kept = Node(0, 30_000 + KERF, 100_000, 40_000, kept=True)
    width = 70_000 + KERF
    root = Node(0, 0, 100_000, width, "y", (part, kept))
    job = Job((Piece("p", 100_000, 30_000),), (Stock("s", 100_000, width),), Cutting(KERF), 1)
    layout = Layout("s", 1, (Placement("p", 0, 0, 100_000, 30_000),), (Offcut(0, kept.y, 100_000, 40_000),), root)
    (cut,) = cut_sequence(layout, job)
    assert (cut.falls.kind if cut.falls else None, cut.rest.kind) == ("part", "offcut")


def test_a_sheet_that_is_the_part_needs_no_cut() -> None:
    layout, job = sheet_job(100_000, 50_000, Trim(), "")
    assert cut_sequence(layout, job) == ()


def test_boards_are_crosscut_with_a_mark_from_the_end() -> None:
    pieces = (Piece("leg", 70_000, quantity=2), Piece("rail", 60_000))
    job = Job(pieces, (Stock("b", 240_000, price=1, defects=((71_000, 74_000),)),), Cutting(KERF, Trim(500, 500)), 10)
    nesting = nest_boards(job)
    for layout in nesting.layouts:
        cuts = cut_sequence(layout, job)
        assert play(layout, job, cuts) == Counter((p.part, (p.x, 0, p.length, 0)) for p in layout.placements)
        assert {c.axis for c in cuts} == {"x"}
        assert all(c.mark == c.at for c in cuts)
        assert cuts[0].kind == "trim"


def test_a_board_whose_width_is_known_is_weighed_and_goes_to_a_saw_that_is_wide_enough() -> None:
    """A 2 × 12 of 38 × 286 mm, 2.4 m long, at 500 kg/m³ weighs 13 kg and is too wide for a chop saw of 140 mm."""
    board = Stock("b", 240_000, price=1, material="fir", thickness=3800, board_width=28_600)
    job = Job((Piece("step", 90_000, quantity=2),), (board,), Cutting(KERF), 10)
    saws = parse_saws([MITRE | {"crosscut": 140}, TRACK])
    (layout,) = nest_boards(job).layouts
    cuts = cut_sequence(layout, job, saws, {"fir": 500.0})
    assert [c.saw for c in cuts] == ["track saw", "track saw"]
    assert cuts[0].travel == 28_600
    assert cuts[0].held.mass_kg == pytest.approx(2.4 * 0.286 * 0.038 * 500)
    play(layout, job, cuts)


def test_a_cut_speaks_millimetres() -> None:
    layout, job = sheet_job(244_000, 122_000, Trim(0, 0, 1000, 0), "y")
    plain = cut_sequence(layout, job, SAWS["track"])[0].to_plain()
    assert plain["length_mm"] == 2440.0
    assert plain["number"] == 1
    assert plain["saw"] == "track saw"
    assert plain["held"] == {
        "name": "sheet", "x_mm": 0.0, "y_mm": 0.0, "along_x_mm": 2440.0, "along_y_mm": 1220.0, "mass_kg": None,
    }  # fmt: skip


def test_the_piece_held_is_weighed_where_the_density_is_known() -> None:
    """2440 × 1220 × 18 mm at 680 kg/m³ weighs 36.4 kg."""
    layout, job = sheet_job(244_000, 122_000, Trim(), "y")
    heavy = replace(job, stock=(replace(job.stock[0], material="ply"),))
    held = cut_sequence(layout, heavy, densities={"ply": 680.0})[0].held
    assert held.mass_kg == pytest.approx(2.44 * 1.22 * 0.018 * 680)
    known = replace(job, stock=(replace(job.stock[0], material="birch-plywood"),))
    assert (cut_sequence(layout, known)[0].held.mass_kg or 0) > 25


def test_a_rough_saw_cuts_oversize_where_waste_leaves_room_and_the_exact_one_finishes() -> None:
    part = Node(0, 0, 100_000, 30_000, part="p")
    width = 90_000
    root = Node(0, 0, 100_000, width, "y", (part, Node(0, 30_000 + KERF, 100_000, width - 30_000 - KERF)))
    stock = Stock("s", 100_000, width, thickness=1800, material="birch-plywood")
    job = Job((Piece("p", 100_000, 30_000),), (stock,), Cutting(KERF), 1)
    layout = Layout("s", 1, (Placement("p", 0, 0, 100_000, 30_000),), (), root)
    saws = parse_saws([TABLE | {"rip": 450}, CIRCULAR], carry_kg=5.0)
    cuts = cut_sequence(layout, job, saws)
    assert play(layout, job, cuts) == wanted(layout)
    assert [(c.saw, c.allowance, c.finish) for c in cuts] == [("hand-held saw", 300, False), ("table saw", 0, True)]
    assert cuts[0].setting == 30_300
    assert cuts[1].setting == 30_000


def test_five_thousand_cuts_are_put_in_order_quickly() -> None:
    columns, rows, step = 50, 100, 1300
    root = Node(
        0, 0, columns * step - KERF, rows * step - KERF, "y",
        tuple(
            Node(
                0, r * step, columns * step - KERF, 1000, "x",
                tuple(Node(c * step, r * step, 1000, 1000, part="p") for c in range(columns)),
            )
            for r in range(rows)
        ),
    )  # fmt: skip
    stock = Stock("s", root.along_x, root.along_y)
    placements = tuple(Placement("p", c * step, r * step, 1000, 1000) for r in range(rows) for c in range(columns))
    job = Job((Piece("p", 1000, 1000, columns * rows),), (stock,), Cutting(KERF), 1)
    layout = Layout("s", 1, placements, (), root)
    cuts = cut_sequence(layout, job, SAWS["all"])
    assert len(cuts) == rows - 1 + rows * (columns - 1)
    assert play(layout, job, cuts) == wanted(layout)
