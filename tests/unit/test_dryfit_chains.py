"""Dimension chains by their place in space: what they cover, which one rules, and where one leaves something out."""

import pytest

from dryfit_pieces import bench, empty
from pieces import MODULES, build
from scantling.board import Chain, Link
from scantling.dryfit import DryfitSettings, verify
from scantling.dryfit.chains import place_chains, taped_chains
from scantling.measure import Tape

FIT = 0.05


def chain_codes(piece):
    return [(f.code, f.parts, f.value, f.limit) for f in verify(piece).findings if f.code.startswith("chain")]


def divided(first=430.0):
    """The bench with an upright under its seat, which parts the rail's length in two."""
    piece = bench()
    upright = piece.part("upright", 150, 300, "ply").lay("z", "y").put(x0=18 + first, y0=0, z1=150)
    piece.glue(upright, piece.parts["rail"])
    return piece


def test_a_chain_lies_where_its_parts_lie():
    (chain,) = place_chains(bench(), FIT)
    assert chain.axis == (1, 0, 0) and (chain.start, chain.end) == (0, 900) and chain.marks == (0, 18, 882, 900)


def test_a_chain_told_from_the_far_end_runs_the_other_way():
    piece = bench()
    piece.chain("back to front", 900, [("right", 18), ("rail", 864), ("left", 18)], "rail")
    told = place_chains(piece, FIT)[1]
    assert told.axis[0] == -1 and (told.start, told.end) == (-900, 0) and told.ruled_by == 0


def test_a_piece_that_was_turned_keeps_its_chains():
    piece = bench()
    for part in piece.parts.values():
        part.turn("z", 33, (10, 20, 30)).turn("x", 21, (0, 0, 0))
    (chain,) = place_chains(piece, FIT)
    assert chain.slip is None and chain.end - chain.start == pytest.approx(900)


def test_of_two_chains_over_one_span_the_first_stated_rules_whatever_they_are_called():
    piece = bench()
    piece.chain("across the seat", 900, [("seat", 900)], "seat")
    first, second = place_chains(piece, FIT)
    assert first.ruled_by is None and second.ruled_by == 0


def test_a_chain_over_a_run_of_anothers_links_is_ruled_by_it():
    piece = divided()
    inside = [("room left", 430), ("upright", 18), ("room right", 416)]
    piece.chain("between the sides", 864, inside, "room right")
    second = place_chains(piece, FIT)[1]
    assert (second.start, second.end, second.ruled_by, second.run) == (18, 882, 0, (1, 2))


def test_chains_of_one_name_in_two_places_do_not_contradict_each_other():
    piece = bench()
    piece.chains.append(Chain("width", 300.0, (Link("seat", 300.0),), "seat"))
    assert chain_codes(piece) == []


def test_two_spans_that_differ_by_a_gap_nobody_counted_are_told_with_their_place():
    piece = bench()
    piece.chains.append(Chain("inside", 901.0, (Link("left", 18), Link("room", 865), Link("right", 18)), "room"))
    ((code, parts, value, limit),) = chain_codes(piece)
    assert (code, parts, value, limit) == ("chains-disagree", ("left", "right"), 901, 900)
    (finding,) = [f for f in verify(piece).findings if f.code == code]
    assert finding.at_mm == pytest.approx((18, 150, 200)) and "'room'" in finding.remedy and "'width'" in finding.remedy


def test_nested_chains_that_disagree_are_told_by_the_longer_one():
    piece = divided()
    inside = (Link("rail", 864.0), Link("upright", 18.0))
    piece.chains.append(Chain("rail and upright", 882.0, inside, "rail"))
    ((code, parts, *_),) = chain_codes(piece)
    assert (code, set(parts)) == ("chain-open", {"rail", "upright"})


@pytest.mark.parametrize(("shift", "says"), [(3.0, "leaves 3.00 mm"), (-3.0, "counts 3.00 mm")])
def test_links_that_leave_a_gap_or_lap_in_space_are_told_where(shift, says):
    piece = bench()
    piece.parts["right"].shift((shift, 0, 0))
    (finding,) = [f for f in verify(piece).findings if f.code == "chain-open"]
    assert finding.parts == ("rail", "right") and says in finding.message and finding.at_mm[0] == pytest.approx(882)
    assert (finding.value, finding.limit) == (900 + shift, 900)


def test_a_ruled_chain_reads_on_the_tape_what_its_ruler_reads_there():
    """902 mm is 35 1/2 in (901.7), 18 mm is 11/16 in (17.4625): 866.775 are left between, not round(866) = 865.98."""
    piece = empty()
    left = piece.part("left", 400, 300, "ply").lay("z", "y").put(x0=0, y0=0, z0=0)
    rail = piece.part("rail", 866, 89, "ply").lay("x", "z").put(x0=18, yc=150, z0=150)
    right = piece.part("right", 400, 300, "ply").lay("z", "y").put(x1=902, y0=0, z0=0)
    piece.glue(left, rail)
    piece.glue(right, rail)
    piece.chain("width", 902, [("left", 18), ("rail", 866), ("right", 18)], "rail")
    piece.chain("between", 866, [("rail", 866)], "rail")
    outer, inner = taped_chains(piece, Tape.parse("1/16 in"), FIT)
    assert outer.total == pytest.approx(901.7) and inner.total == pytest.approx(901.7 - 2 * 17.4625)
    assert inner.closing_size == outer.closing_size


@pytest.mark.parametrize("id", MODULES)
def test_every_chain_of_every_module_has_a_place_and_closes(id):
    piece = build(id)
    placed = place_chains(piece, FIT)
    assert [p.chain.name for p in placed] == [c.name for c in piece.chains]
    assert all(p.slip is None and p.end - p.start == pytest.approx(p.chain.total, abs=FIT) for p in placed)


@pytest.mark.parametrize("id", MODULES)
def test_a_part_that_slips_along_a_chain_is_noticed_in_every_module(id):
    piece = build(id)
    for chain in place_chains(piece, FIT):
        named = [link.label for link in chain.chain.links if link.label in piece.parts]
        if len(named) < 2:
            continue
        last = piece.parts[named[-1]]
        last.shift(tuple(2.0 * c for c in chain.axis))
        found = [f for f in verify(piece, DryfitSettings(seek_order=False)).findings if f.code == "chain-open"]
        assert named[-1] in {p for f in found for p in f.parts}, chain.chain.name
        last.shift(tuple(-2.0 * c for c in chain.axis))


def test_the_limit_is_an_input():
    piece = empty()
    left = piece.part("left", 400, 300, "ply").lay("z", "y").put(x0=0, y0=0, z0=0)
    rail = piece.part("rail", 860.45, 89, "ply").lay("x", "z").put(x0=18, yc=150, z0=150)
    right = piece.part("right", 400, 300, "ply").lay("z", "y").put(x0=878.45, y0=0, z0=0)
    piece.glue(left, rail)
    piece.glue(right, rail)
    tape = Tape.parse("1 mm")
    for limit, told in ((0.4, True), (0.5, False)):
        fit = verify(piece, DryfitSettings(tape=tape, open_limit=limit))
        assert ("tape-rounding" in {f.code for f in fit.findings}) is told
        assert [(r.part, round(r.error, 2)) for r in fit.taped.roundings] == [("rail", -0.45)]  # shown either way
