"""Cuts of boards with sloped ends: one where facing ends agree, two where not, and how the board is held for each."""

from dataclasses import replace

import pytest
from hypothesis import given, settings

from scantling.nesting.boards import nest_boards
from scantling.nesting.boards_cuts import OTHER_WAY, TURNED_OVER
from scantling.nesting.checker_sequence import check_cuts
from scantling.nesting.nouns import Cutting, Job, Piece, Trim
from scantling.nesting.saws import parse_saws
from scantling.nesting.sequence import Cut, cut_sequence, group_by_setting
from sloped_boards import KERF, MM, board, sloped_pieces

POST = Piece("post", 768 * MM, quantity=3, start_slope=1131, end_slope=1131)
FRAME = Piece("frame", 500 * MM, quantity=4, start_slope=4500, end_slope=-4500)


def cuts_of(job: Job, saws: object = None) -> tuple[Cut, ...]:
    (layout,) = nest_boards(job).layouts
    return cut_sequence(layout, job, saws)  # type: ignore[arg-type]


def test_parallelograms_take_one_cut_each_and_one_for_the_first_end():
    cuts = cuts_of(Job((POST,), (board(2400 * MM),), Cutting(KERF), 10_000))
    assert [c.kind for c in cuts] == ["trim", "crosscut", "crosscut", "crosscut"]
    assert {c.slope for c in cuts} == {1131}
    assert [c.lie for c in cuts] == [None] * 4
    assert [c.setting for c in cuts[1:]] == [768 * MM] * 3
    assert all(c.kerf == 327 for c in cuts)  # 3.2 mm / cos 11.31° = 3.263 mm, rounded up to 0.01 mm
    assert all(c.travel == 9077 for c in cuts)  # 89 mm / cos 11.31° = 90.762 mm, rounded up


def test_alternating_mitres_are_cut_with_the_board_turned_over():
    cuts = cuts_of(Job((FRAME,), (board(2400 * MM),), Cutting(KERF), 10_000))
    assert [c.slope for c in cuts] in ([4500, -4500, 4500, -4500, 4500], [-4500, 4500, -4500, 4500, -4500])
    assert [c.lie for c in cuts] == [None, TURNED_OVER, None, TURNED_OVER, None]
    plain = [c.to_plain() for c in cuts]
    assert {p["mitre_deg"] for p in plain} == {45.0}
    assert [p["lie"] for p in plain] == ["as it lies", TURNED_OVER] * 2 + ["as it lies"]
    edges = [p["long_edge"] for p in plain]  # the first cut shapes a start: its long point is across from an end's
    assert edges in (["near", "near", "far", "near", "far"], ["far", "far", "near", "far", "near"])


def test_a_piece_with_one_good_face_keeps_it_up_and_the_saw_is_set_the_other_way():
    shown = replace(FRAME, one_face=True)
    cuts = cuts_of(Job((shown,), (board(2400 * MM),), Cutting(KERF), 10_000))
    assert [c.lie for c in cuts] == [None, OTHER_WAY, None, OTHER_WAY, None]
    setups = group_by_setting([cuts])
    assert {(s.mitre, s.bevel) for s in setups} == {(4500, 0)}
    assert len(setups) > 2


def test_ends_that_do_not_agree_take_two_cuts():
    pieces = (Piece("a", 600 * MM, end_slope=2000, one_face=True), Piece("b", 500 * MM, end_slope=-2000, one_face=True))
    cuts = cuts_of(Job(pieces, (board(1500 * MM),), Cutting(KERF), 10_000))
    assert sum(c.kind == "crosscut" for c in cuts) == 2
    assert sorted(abs(c.slope) for c in cuts) == [0, 2000, 2000] or [abs(c.slope) for c in cuts] == [0, 0, 2000, 2000]


@pytest.mark.parametrize("kerf", [1, 100, 1700, 1780, 1781, 1900, 2500, 4000])
def test_a_kerf_wider_than_the_slope_leans_runs_out_over_the_end_of_the_board(kerf):
    """The post leans 17.8 mm over 89 mm: a blade as wide as that takes the first corner off and nothing beyond it."""
    job = Job((POST,), (board(2450 * MM),), Cutting(kerf), 10_000)
    (layout,) = nest_boards(job).layouts
    assert check_cuts(job, (layout,), (cut_sequence(layout, job, None),)) == ()


def test_trim_is_cut_off_at_the_slope_of_the_first_end():
    cuts = cuts_of(Job((POST,), (board(2450 * MM),), Cutting(KERF, Trim(10 * MM, 10 * MM)), 10_000))
    assert (cuts[0].kind, cuts[0].slope) == ("trim", 1131)
    assert cuts[0].falls is not None
    assert cuts[0].falls.kind == "waste"


@pytest.mark.parametrize(("limit", "by"), [(45.0, "chop"), (5.0, "hand saw")])
def test_a_mitre_saw_that_does_not_swing_so_far_does_not_make_the_cut(limit, by):
    saws = parse_saws([{"id": "chop", "kind": "mitre saw", "mitre_limit": limit, "crosscut": 300.0, "depth": 90.0}])
    cuts = cuts_of(Job((POST,), (board(2400 * MM),), Cutting(KERF), 10_000), saws)
    assert {c.saw for c in cuts if c.slope} == {by}
    assert all(not c.by_hand or c.obstacles[0].limit == "mitre_limit" for c in cuts)


@settings(max_examples=80, deadline=None)
@given(sloped_pieces(5))
def test_every_piece_comes_off_once_and_no_cut_is_made_that_no_end_wants(pieces):
    job = Job(pieces, (board(1600 * MM),), Cutting(KERF, Trim(0, 5 * MM)), 20_000, least_offcut=(100 * MM, 0))
    nesting = nest_boards(job)
    for layout in nesting.layouts:
        cuts = cut_sequence(layout, job)
        assert check_cuts(job, [layout], [cuts]) == ()
        falls = [f for c in cuts for f in (c.falls, c.rest) if f is not None and f.kind == "part"]
        placed = sorted((p.part, p.x, p.length) for p in layout.placements)
        assert sorted((f.name, f.x, f.along_x) for f in falls) == placed
        ends = 2 * len(layout.placements)
        assert len(layout.placements) - 1 <= len(cuts) <= ends
        offcuts = [f for c in cuts for f in (c.falls, c.rest) if f is not None and f.kind == "offcut"]
        assert len(offcuts) == len(layout.offcuts)
        for cut in cuts:
            assert cut.held.x + cut.held.along_x == 1600 * MM
            assert cut.kerf >= 0


@pytest.mark.parametrize(
    ("number", "change", "told"),
    [
        (2, {"slope": 3000}, "not at its slope"),
        (2, {"lie": None}, "how the board is held"),
        (2, {"marks": (50_000, 58_900)}, "off its place"),
        (3, {"kerf": 320}, "off its place"),
        (4, {"falls": None}, "does not come off"),
    ],
)
def test_the_checker_finds_a_cut_that_is_told_wrongly(number, change, told):
    pieces = (replace(FRAME, quantity=3), Piece("skew", 400 * MM, start_slope=2000, start_bevel=1500))
    job = Job(pieces, (board(2400 * MM),), Cutting(KERF), 20_000)
    (layout,) = nest_boards(job).layouts
    cuts = cut_sequence(layout, job)
    assert check_cuts(job, [layout], [cuts]) == ()
    sloped = [c.number for c in cuts if abs(c.slope) == 4500]
    wrong = [replace(c, **change) if c.number == sloped[number - 1] else c for c in cuts]
    assert any(told in fault for fault in check_cuts(job, [layout], [wrong]))
