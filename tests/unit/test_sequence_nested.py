"""Real nestings cut up: whatever is found can be sawn apart as told, and is chosen so that the saws can do it."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.nesting import nest
from scantling.nesting.checker import check_nesting
from scantling.nesting.cutting_findings import beyond_saws, find_cutting
from scantling.nesting.nest_for_saws import nest_for_saws
from scantling.nesting.nouns import Cutting, Grain, Job, Piece, Stock, Trim
from scantling.nesting.saws import parse_saws
from scantling.nesting.sequence import cut_sequence, group_by_setting
from unit.test_sequence_cuts import SAWS, play, wanted

sizes = st.tuples(st.integers(8_000, 200_000), st.integers(4_000, 60_000), st.integers(1, 5), st.sampled_from(Grain))


@settings(max_examples=25, deadline=None)
@given(
    st.lists(sizes, min_size=1, max_size=8),
    st.sampled_from([Trim(), Trim(1000, 1000, 1000, 1000), Trim(0, 500, 100, 200)]),
    st.sampled_from([0, 178, 320]),
    st.sampled_from([None, 2, 3]),
    st.sampled_from(["either", "along", "across"]),
)
def test_every_nesting_can_be_sawn_apart_as_told(sizes, trim, kerf, stages, first_cut) -> None:
    pieces = tuple(Piece(f"p{i}", n, w, q, g) for i, (n, w, q, g) in enumerate(sizes))
    stock = (Stock("sheet", 244_000, 122_000, price=60, thickness=1800), Stock("half", 122_000, 122_000, price=35))
    job = Job(pieces, stock, Cutting(kerf, trim, stages, first_cut), effort=5_000)
    nesting = nest(job)
    assert check_nesting(job, nesting) == ()
    sequences = []
    for layout in nesting.layouts:
        for saws in (None, SAWS["all"], SHORT_GUIDE):
            cuts = cut_sequence(layout, job, saws)
            assert play(layout, job, cuts) == wanted(layout)
        sequences.append(cuts)
    gathered = [made for setup in group_by_setting(sequences) for made in setup.cuts]
    assert sorted(gathered) == [(i, c.number) for i, cuts in enumerate(sequences) for c in cuts]


SHORT_GUIDE = parse_saws([{"id": "rail saw", "kind": "track saw", "kerf": 2.2, "guide": 1400}])
PIECES = (
    Piece("side", 110_000, 38_000, 4, Grain.ALONG),
    Piece("shelf", 60_000, 37_000, 6, Grain.ALONG),
    Piece("rail", 95_000, 9_000, 4, Grain.ALONG),
)
JOB = Job(
    PIECES,
    (Stock("sheet", 244_000, 122_000, price=600_000, thickness=1800),),
    Cutting(220, Trim(1000, 1000, 1000, 1000), first_cut="either"),
    effort=60_000,
)


def test_a_guide_shorter_than_the_sheet_gets_layouts_cut_across_first() -> None:
    """A guide of 1400 mm reaches across a sheet of 2440 × 1220 mm, not along it."""
    along = nest(replace(JOB, cutting=replace(JOB.cutting, first_cut="along")))
    beyond = [c for layout in along.layouts for c in beyond_saws(cut_sequence(layout, JOB, SHORT_GUIDE))]
    assert beyond, "ripped along first, this job is beyond the guide"
    nesting = nest_for_saws(JOB, SHORT_GUIDE, nest)
    assert check_nesting(JOB, nesting) == ()
    assert not nesting.unplaced
    sequences = [cut_sequence(layout, JOB, SHORT_GUIDE) for layout in nesting.layouts]
    assert max(c.travel for cuts in sequences for c in cuts) <= 140_000
    assert not [f for f in find_cutting(nesting.layouts, sequences, JOB, SHORT_GUIDE) if f.code == "cut-beyond-saws"]


def test_what_no_layout_can_mend_comes_back_with_the_part_that_stops_it() -> None:
    job = replace(JOB, pieces=(Piece("top", 200_000, 50_000, 2),))
    nesting = nest_for_saws(job, SHORT_GUIDE, nest)
    assert not nesting.unplaced
    sequences = [cut_sequence(layout, job, SHORT_GUIDE) for layout in nesting.layouts]
    found = [f for f in find_cutting(nesting.layouts, sequences, job, SHORT_GUIDE) if f.code == "cut-beyond-saws"]
    assert found
    assert found[0].parts == ("top",)


@pytest.mark.parametrize("saws", [None, SAWS["all"]])
def test_other_ways_take_a_tenth_of_the_effort_when_the_first_can_be_cut(saws) -> None:
    calls = []

    def counted(job: Job):
        calls.append(job)
        return nest(job)

    nest_for_saws(JOB, saws, counted)
    assert sum(call.effort for call in calls) <= JOB.effort
    assert calls[0].effort >= JOB.effort * 0.9
    assert calls[0].cutting == JOB.cutting


def test_a_square_still_has_a_grain() -> None:
    """Grain across a square's length: it is turned on a sheet with grain, and the checker holds the search to it."""
    stock = (Stock("grained", 122_000, 122_000, price=3),)
    job = Job((Piece("tile", 30_000, 30_000, 5, Grain.ACROSS),), stock, Cutting(300), effort=2_000)
    nesting = nest(job)
    assert check_nesting(job, nesting) == ()
    assert {p.turned for layout in nesting.layouts for p in layout.placements} == {True}
