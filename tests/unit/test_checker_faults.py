"""The independent checker: a sound nesting passes, and each way of spoiling it is caught."""

import time
from collections.abc import Callable
from dataclasses import replace
from importlib import import_module

import pytest

from scantling.nesting.checker import check_nesting
from scantling.nesting.checker_groups import check_groups
from scantling.nesting.checker_sequence import check_cuts
from scantling.nesting.fault import NestingFault
from scantling.nesting.nouns import (
    Cutting,
    Grain,
    Job,
    Layout,
    Nesting,
    Node,
    Offcut,
    Piece,
    Placement,
    Stock,
    StoppedBy,
    Trim,
    Unplaced,
)
from scantling.nesting.sequence import Cut, Fall, cut_sequence
from yardstick import plain_loop_ms

KERF = 300
# A sheet of 1000 × 600 mm, trimmed 10 mm all round: two sides 400 × 280 on the near strip, a rail 500 × 100 turned.
JOB = Job(
    pieces=(
        Piece("side", 40_000, 28_000, quantity=2, grain=Grain.ALONG, material="ply", thickness=1800),
        Piece("rail", 27_000, 10_000, quantity=1, grain=Grain.ACROSS, material="ply", thickness=1800),
        Piece("slat", 50_000, quantity=2, material="pine", thickness=1900),
        Piece("beam", 900_000, quantity=1, material="pine", thickness=1900),
    ),
    stock=(
        Stock("sheet", 100_000, 60_000, material="ply", thickness=1800, price=400_000, quantity=1),
        Stock("board", 240_000, material="pine", thickness=1900, price=50_000, quantity=3, defects=((60_000, 65_000),)),
    ),
    cutting=Cutting(kerf=KERF, trim=Trim(1000, 1000, 1000, 1000)),
    effort=1,
)


def leaf(x: int, y: int, dx: int, dy: int, **kw: object) -> Node:
    return Node(x, y, dx, dy, **kw)  # type: ignore[arg-type]


def sound_tree() -> Node:
    strip = Node(
        1000,
        1000,
        98_000,
        28_000,
        axis="x",
        children=(
            leaf(1000, 1000, 40_000, 28_000, part="side"),
            leaf(41_300, 1000, 40_000, 28_000, part="side"),
            Node(
                81_600,
                1000,
                17_400,
                28_000,
                axis="y",
                children=(
                    Node(
                        81_600,
                        1000,
                        17_400,
                        27_000,
                        axis="x",
                        children=(
                            leaf(81_600, 1000, 10_000, 27_000, part="rail", turned=True),
                            leaf(91_900, 1000, 7100, 27_000),
                        ),
                    ),
                    leaf(81_600, 28_300, 17_400, 700),
                ),
            ),
        ),
    )
    core = Node(1000, 1000, 98_000, 58_000, axis="y", children=(strip, leaf(1000, 29_300, 98_000, 29_700, kept=True)))
    columns = Node(
        0,
        1000,
        100_000,
        58_000,
        axis="x",
        children=(leaf(0, 1000, 700, 58_000), core, leaf(99_300, 1000, 700, 58_000)),
    )
    return Node(
        0, 0, 100_000, 60_000, axis="y", children=(leaf(0, 0, 100_000, 700), columns, leaf(0, 59_300, 100_000, 700))
    )


SHEET = Layout(
    "sheet",
    1,
    (
        Placement("side", 1000, 1000, 40_000, 28_000),
        Placement("side", 41_300, 1000, 40_000, 28_000),
        Placement("rail", 81_600, 1000, 27_000, 10_000, turned=True),
    ),
    (Offcut(1000, 29_300, 98_000, 29_700),),
    sound_tree(),
)
BOARD = Layout(
    "board",
    1,
    (Placement("slat", 1000, 0, 50_000, None), Placement("slat", 65_000, 0, 50_000, None)),
    (Offcut(115_300, 0, 100_000, 0),),
)
SOUND = Nesting(
    layouts=(SHEET, BOARD),
    unplaced=(Unplaced("beam", 1, "longer than any board", "board", (662_000, 0)),),
    cost=450_000,
    bound=450_000,
    proven_minimal=False,
    work=1,
    stopped_by=StoppedBy.EFFORT,
    objective=450_000,
    objective_bound=450_000,
)


def with_sheet(**changes: object) -> Nesting:
    return replace(SOUND, layouts=(replace(SHEET, **changes), BOARD))  # type: ignore[arg-type]


def with_board(**changes: object) -> Nesting:
    return replace(SOUND, layouts=(SHEET, replace(BOARD, **changes)))  # type: ignore[arg-type]


def moved(index: int, layout: Layout, **changes: object) -> tuple[Placement, ...]:
    placements = list(layout.placements)
    placements[index] = replace(placements[index], **changes)  # type: ignore[arg-type]
    return tuple(placements)


def edited(node: Node, path: tuple[int, ...], **changes: object) -> Node:
    if not path:
        return replace(node, **changes)  # type: ignore[arg-type]
    children = list(node.children)
    children[path[0]] = edited(children[path[0]], path[1:], **changes)
    return replace(node, children=tuple(children))


def test_a_sound_nesting_passes() -> None:
    assert check_nesting(JOB, SOUND) == ()


STRIP = (1, 1, 0)
RAIL = (1, 1, 0, 2, 0, 0)
SPOILT: dict[str, tuple[Callable[[], Nesting], str]] = {
    "piece outside the trim": (lambda: with_sheet(placements=moved(0, SHEET, y=900)), "outside the trimmed sheet"),
    "pieces overlap": (lambda: with_sheet(placements=moved(1, SHEET, x=40_000)), "overlap"),
    "closer than the kerf": (lambda: with_sheet(placements=moved(1, SHEET, x=41_299)), "closer than the kerf"),
    "grain turned": (
        lambda: with_sheet(placements=moved(2, SHEET, turned=False, length=27_000, width=10_000)),
        "grain the wrong way",
    ),
    "wrong size": (lambda: with_sheet(placements=moved(0, SHEET, length=39_999)), "cut 399.99 mm long"),
    "wrong width": (lambda: with_sheet(placements=moved(0, SHEET, width=27_999)), "cut 279.99 mm wide"),
    "unknown part": (lambda: with_sheet(placements=moved(0, SHEET, part="leg")), "never asked for"),
    "part missing": (lambda: with_sheet(placements=SHEET.placements[1:]), "1 placed or listed as left out, 2 asked"),
    "part twice": (lambda: with_sheet(placements=(*SHEET.placements, SHEET.placements[0])), "3 placed"),
    "placed but not cut": (lambda: with_sheet(placements=moved(0, SHEET, x=1001)), "placed but not cut"),
    "no tree": (lambda: with_sheet(tree=None), "no tree of cuts"),
    "tree from a smaller sheet": (
        lambda: with_sheet(tree=replace(sound_tree(), along_x=99_000)),
        "do not start from the whole sheet",
    ),
    "cut stops short of the edge": (
        lambda: with_sheet(tree=edited(sound_tree(), (*STRIP, 0), along_y=27_000)),
        "edge to edge",
    ),
    "neighbours not one kerf apart": (
        lambda: with_sheet(tree=edited(sound_tree(), (*STRIP, 1), x=41_301)),
        "the kerf is 3.00 mm",
    ),
    "cuts do not add up": (
        lambda: with_sheet(tree=edited(sound_tree(), (1, 2), along_x=100)),
        "do not add up to its size",
    ),
    "cut without a direction": (lambda: with_sheet(tree=edited(sound_tree(), STRIP, axis=None)), "no direction"),
    "cut piece cut further": (lambda: with_sheet(tree=edited(sound_tree(), STRIP, part="side")), "cut up further"),
    "first child shifted": (
        lambda: with_sheet(tree=edited(sound_tree(), RAIL, x=82_000, along_x=9600)),
        "leaves 4.00 mm unaccounted",
    ),
    "negative waste": (lambda: with_sheet(tree=edited(sound_tree(), (1, 2), along_x=-5)), "negative size"),
    "offcut not in the tree": (lambda: with_sheet(offcuts=()), "offcuts listed are not the ones"),
    "offcut over a piece": (
        lambda: with_sheet(offcuts=(Offcut(1000, 20_000, 98_000, 39_000),)),
        "overlap",
    ),
    "offcut outside": (lambda: with_sheet(offcuts=(Offcut(1000, 29_300, 99_001, 29_700),)), "outside the sheet"),
    "offcut too small": (
        lambda: with_sheet(offcuts=(*SHEET.offcuts, Offcut(92_000, 1000, 7000, 27_000))),
        "smaller than is worth keeping",
    ),
    "unknown stock": (lambda: with_sheet(stock="door"), "unknown stock"),
    "piece of board on a sheet": (lambda: with_sheet(placements=moved(0, SHEET, part="slat")), "piece of board"),
    "wrong material": (lambda: with_board(placements=moved(0, BOARD, part="side", length=40_000)), "the stock of pine"),
    "more sheets than there are": (lambda: with_sheet(count=2), "2 of stock sheet used, 1 there"),
    "made no times": (lambda: with_board(count=0), "is made 0 times"),
    "board outside the trim": (lambda: with_board(placements=moved(0, BOARD, x=999)), "outside the trimmed board"),
    "board on a defect": (lambda: with_board(placements=moved(1, BOARD, x=64_999)), "on the defect"),
    "board pieces too close": (
        lambda: with_board(placements=moved(1, BOARD, x=51_299)),
        "closer than the kerf",
    ),
    "board offcut too close": (lambda: with_board(offcuts=(Offcut(115_299, 0, 100_000, 0),)), "closer than the kerf"),
    "board offcut outside": (lambda: with_board(offcuts=(Offcut(115_300, 0, 124_701, 0),)), "outside the board"),
    "board offcut short": (lambda: with_board(offcuts=(Offcut(115_300, 0, 29_999, 0),)), "shorter than is worth"),
    "board with a sheet's placement": (lambda: with_board(placements=moved(0, BOARD, y=10)), "as if it were a sheet"),
    "left out and placed": (
        lambda: replace(SOUND, unplaced=(*SOUND.unplaced, Unplaced("slat", 1, "no room"))),
        "slat: 3 placed or listed",
    ),
    "left out without a reason": (lambda: replace(SOUND, unplaced=(Unplaced("beam", 1, ""),)), "with the reason"),
    "silently dropped": (lambda: replace(SOUND, unplaced=()), "beam: 0 placed"),
    "wrong cost": (lambda: replace(SOUND, cost=449_999), "cost is stated"),
    "wrong objective": (lambda: replace(SOUND, objective=450_001), "objective is stated"),
    "bound above": (lambda: replace(SOUND, objective_bound=450_001), "bound lies above"),
    "cost bound above": (lambda: replace(SOUND, bound=450_001), "bound of the cost"),
    "proof with parts left out": (lambda: replace(SOUND, proven_minimal=True), "parts are left out"),
    "false proof": (lambda: replace(SOUND, proven_minimal=True, objective_bound=1), "bound and objective differ"),
}


@pytest.mark.parametrize("name", SPOILT)
def test_each_fault_is_caught(name: str) -> None:
    make, words = SPOILT[name]
    faults = check_nesting(JOB, make())
    assert any(words in f for f in faults), faults


def test_material_and_thickness_match_where_both_are_stated() -> None:
    for change in ({"material": "mdf"}, {"thickness": 1801}):
        stock = (replace(JOB.stock[0], **change), JOB.stock[1])  # type: ignore[arg-type]
        assert check_nesting(replace(JOB, stock=stock), SOUND) != ()
    bare = tuple(replace(s, material=None, thickness=None) for s in JOB.stock)
    assert check_nesting(replace(JOB, stock=bare), SOUND) == ()


def test_a_part_comes_from_the_stock_the_caller_chose() -> None:
    def chosen(stock: str) -> Job:
        return replace(JOB, pieces=(replace(JOB.pieces[0], stock=stock), *JOB.pieces[1:]))

    assert check_nesting(chosen("sheet"), SOUND) == ()
    assert any("was to come from other" in f for f in check_nesting(chosen("other"), SOUND))


def test_a_group_stays_on_one_sheet() -> None:
    pieces = tuple(replace(p, group="front") if p.id in ("side", "slat") else p for p in JOB.pieces)
    faults = check_nesting(replace(JOB, pieces=pieces), SOUND)
    assert faults == ("group front is spread over 2 sheets",)


ROW = (
    Placement("a", 1000, 1000, 20_000, 10_000),
    Placement("b", 21_300, 1000, 20_000, 10_000),
    Placement("b", 41_600, 1000, 20_000, 10_000),
)
GROUP_JOB = replace(
    JOB, pieces=(Piece("b", 20_000, 10_000, 2, group="g"), Piece("a", 20_000, 10_000, 1, group="g")), stock=JOB.stock
)


def in_row(**changes: tuple[int, dict[str, object]]) -> list[str]:
    placements = list(ROW)
    for index, change in changes.values():
        placements[index] = replace(placements[index], **change)  # type: ignore[arg-type]
    return check_groups(GROUP_JOB, [Layout("sheet", 1, tuple(placements), ())])


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ((0, {"part": "b"}), "lies in the sequence b, b, b and not a, b, b"),
        ((1, {"x": 21_400}), "has 4.00 mm between a and b, the kerf is 3.00 mm"),
        ((2, {"y": 1001}), "does not lie along one line"),
        ((2, {"x": 1000, "y": 12_000}), "does not lie in one row"),
        ((2, {"turned": True}), "lies partly turned"),
        ((2, {"part": "c"}), "has 2 of its 3 members on the sheet"),
    ],
)
def test_a_group_lies_in_one_row_in_sequence(change: tuple[int, dict[str, object]], words: str) -> None:
    assert in_row() == []
    found = in_row(change=change)
    assert found == [f"group g {words}"] or any(words in f for f in found), found


def test_a_group_lies_in_sequence_on_a_board_from_either_end() -> None:
    pieces = (Piece("a", 30_000, group="g"), Piece("b", 40_000, group="g"))
    job = replace(JOB, pieces=pieces)
    there = (Placement("a", 1000, 0, 30_000, None), Placement("b", 31_300, 0, 40_000, None))
    back = (Placement("b", 1000, 0, 40_000, None), Placement("a", 41_300, 0, 30_000, None))
    assert check_groups(job, [Layout("board", 1, there, ())]) == []
    assert check_groups(job, [Layout("board", 1, back, ())]) == []
    three = replace(job, pieces=(*pieces, Piece("c", 10_000, group="g")))
    mixed = (*there, Placement("c", 20_000, 0, 10_000, None))
    assert "sequence" in check_groups(three, [Layout("board", 1, mixed, ())])[0]


def test_what_the_caller_pinned_is_kept() -> None:
    pinned = replace(JOB, pinned=(SHEET,))
    assert check_nesting(pinned, SOUND) == ()
    elsewhere = replace(SHEET, placements=moved(2, SHEET, x=81_700))
    for job in (replace(JOB, pinned=(elsewhere,)), replace(JOB, pinned=(replace(SHEET, count=2),))):
        assert "a pinned layout of sheet is not kept" in check_nesting(job, SOUND)


CUTS = cut_sequence(SHEET, JOB)


def with_cut(index: int, **changes: object) -> tuple[Cut, ...]:
    cuts = list(CUTS)
    cuts[index] = replace(cuts[index], **changes)  # type: ignore[arg-type]
    return tuple(cuts)


def with_fall(index: int, which: str, **changes: object) -> tuple[Cut, ...]:
    return with_cut(index, **{which: replace(getattr(CUTS[index], which), **changes)})


FREES = next(i for i, c in enumerate(CUTS) if c.falls is not None and c.falls.kind == "part")
LATE = next(i for i, c in enumerate(CUTS) if c.after is not None and c.after == i)


def _wasted(fall: Fall | None) -> Fall | None:
    return replace(fall, kind="waste") if fall is not None and fall.kind == "offcut" else fall


SPOILT_ORDER: dict[str, tuple[Callable[[], tuple[Cut, ...]], str]] = {
    "a cut left out": (lambda: CUTS[:FREES] + CUTS[FREES + 1 :], "do not run on from 1"),
    "two cuts the other way about": (
        lambda: (
            *CUTS[: LATE - 1],
            replace(CUTS[LATE], number=LATE),
            replace(CUTS[LATE - 1], number=LATE + 1),
            *CUTS[LATE + 1 :],
        ),
        "is not there",
    ),
    "before the cut that frees it": (lambda: with_cut(LATE, after=LATE + 1), "which frees its piece"),
    "the blade beside the piece": (lambda: with_cut(FREES, at=CUTS[FREES].at + 200_000), "does not go through"),
    "no direction": (lambda: with_cut(FREES, axis="z"), "does not go through"),
    "a kerf too wide": (lambda: with_cut(FREES, kerf=KERF + 1), "does not go through"),
    "the blade elsewhere than said": (lambda: with_cut(FREES, at=CUTS[FREES].at + 1), "does not leave what"),
    "a fall too large": (lambda: with_fall(FREES, "falls", along_x=CUTS[FREES].falls.along_x + 1), "does not leave"),
    "nothing falls": (lambda: with_cut(FREES, falls=None), "does not leave what"),
    "another part falls": (lambda: with_fall(FREES, "falls", name="rail"), "does not come off as it is placed"),
    "a part thrown away": (lambda: with_fall(FREES, "falls", kind="waste"), "does not come off as it is placed"),
    "a part cut further": (lambda: with_fall(FREES, "falls", kind="piece"), "left that is to be cut further"),
    "an offcut thrown away": (
        lambda: tuple(replace(c, falls=_wasted(c.falls), rest=_wasted(c.rest) or c.rest) for c in CUTS),
        "an offcut is not kept whole",
    ),
}


def test_the_listed_cuts_of_a_sound_nesting_pass() -> None:
    assert check_cuts(JOB, SOUND.layouts, [CUTS, cut_sequence(BOARD, JOB)]) == ()


@pytest.mark.parametrize("name", SPOILT_ORDER)
def test_each_fault_of_the_order_of_cuts_is_caught(name: str) -> None:
    make, words = SPOILT_ORDER[name]
    faults = check_cuts(JOB, [SHEET], [make()])
    assert any(words in f for f in faults), faults


def test_a_board_cut_in_the_wrong_place_is_caught() -> None:
    cuts = cut_sequence(BOARD, JOB)
    wrong = (replace(cuts[0], at=cuts[0].at + 1), *cuts[1:])
    assert any("does not leave what" in f for f in check_cuts(JOB, [BOARD], [wrong]))


def test_an_order_that_cannot_be_cut_never_leaves_the_house(monkeypatch: pytest.MonkeyPatch) -> None:
    module = import_module("scantling.nesting.cutting_plan")
    monkeypatch.setattr(module, "check_cuts", lambda job, layouts, sequences: ("cut 2 comes before cut 3",))
    with pytest.raises(NestingFault, match="cut 2 comes before"):
        module.cutting_plan(JOB, SOUND)


def test_stages_and_first_cut_are_held() -> None:
    """Strips across the sheet, then squares from each strip: two stages, the first one across."""
    job, nesting = grid_of(3, 2)
    for stages, first_cut, words in ((1, "either", "need 2 stages"), (2, "along", "first cut should run along")):
        cutting = replace(job.cutting, stages=stages, first_cut=first_cut)
        faults = check_nesting(replace(job, cutting=cutting), nesting)
        assert len(faults) == 1
        assert words in faults[0]
    assert check_nesting(replace(job, cutting=replace(job.cutting, stages=2, first_cut="across")), nesting) == ()


def test_a_rip_before_the_crosscuts_counts_as_the_first_cut() -> None:
    along = replace(JOB, cutting=replace(JOB.cutting, stages=1, first_cut="along"))
    assert check_nesting(along, SOUND) == ()
    across = replace(JOB, cutting=replace(JOB.cutting, first_cut="across"))
    assert any("first cut should run across" in f for f in check_nesting(across, SOUND))


def test_a_pinwheel_cannot_be_sawn_apart() -> None:
    """Four 2 × 1 around a 1 × 1 hole: the textbook layout that no through-cut opens."""
    corners = ((0, 0, False), (20_000, 0, True), (10_000, 20_000, False), (0, 10_000, True))
    placements = tuple(Placement("p", x, y, 20_000, 10_000, turned=t) for x, y, t in corners)
    job = Job((Piece("p", 20_000, 10_000, 4, Grain.ANY),), (Stock("s", 30_000, 30_000, price=1),), Cutting(), 1)
    nesting = Nesting((Layout("s", 1, placements, (), None),), (), 1, 1, True, 0, StoppedBy.PROOF, (), 1, 1)
    faults = check_nesting(job, nesting)
    assert any("no through-cut takes these 4 pieces apart" in f for f in faults)
    assert not any("overlap" in f for f in faults)


def test_area_is_added_up_when_prices_are_missing() -> None:
    stock = tuple(replace(s, price=None) for s in JOB.stock)
    area = 100_000 * 60_000 + 240_000
    unpriced = replace(SOUND, cost=None, bound=None, objective=area, objective_bound=area)
    assert check_nesting(replace(JOB, stock=stock), unpriced) == ()
    assert check_nesting(replace(JOB, stock=stock), replace(unpriced, objective=area - 1)) != ()


def grid_of(columns: int, rows: int) -> tuple[Job, Nesting]:
    """One sheet of columns × rows squares of 10 mm, 3 mm apart."""
    step = 1300
    length, width = columns * step - KERF, rows * step - KERF
    placements = tuple(Placement("p", c * step, r * step, 1000, 1000) for c in range(columns) for r in range(rows))
    root = Node(
        0,
        0,
        length,
        width,
        "x",
        tuple(
            Node(
                c * step,
                0,
                1000,
                width,
                "y",
                tuple(Node(c * step, r * step, 1000, 1000, part="p") for r in range(rows)),
            )
            for c in range(columns)
        ),
    )
    job = Job((Piece("p", 1000, 1000, columns * rows),), (Stock("s", length, width, price=1),), Cutting(KERF), 1)
    return job, Nesting((Layout("s", 1, placements, (), root),), (), 1, 1, True, 0, StoppedBy.PROOF, (), 1, 1)


def test_five_thousand_pieces_are_checked_fast_enough_for_production() -> None:
    job, nesting = grid_of(100, 50)
    began = time.process_time()
    assert check_nesting(job, nesting) == ()
    assert (time.process_time() - began) * 1e3 < 60 * plain_loop_ms()  # measured about 7
