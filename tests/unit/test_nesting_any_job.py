"""Random jobs: whatever is asked, the independent checker agrees with the answer (it runs inside `nest`, and again
here), nothing is lost, and the order of the input does not matter.
"""

import random
from dataclasses import replace
from importlib import import_module

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scantling.nesting import Cutting, Grain, Job, Piece, Stock, StockGrain, Trim, nest
from scantling.nesting.checker import check_nesting

SIZES = st.integers(10, 1300).map(lambda mm: mm * 100)
GRAINS = st.sampled_from(list(Grain))


@st.composite
def pieces(draw):
    count = draw(st.integers(1, 8))
    groups = draw(st.lists(st.sampled_from([None, None, None, "g"]), min_size=count, max_size=count))
    return tuple(
        Piece(
            f"p{i}",
            draw(SIZES),
            draw(st.integers(10, 600)) * 100,
            draw(st.integers(1, 6)),
            draw(GRAINS),
            group=groups[i],
            oversize=draw(st.sampled_from([0, 0, 150])),
        )
        for i in range(count)
    )


@st.composite
def stocks(draw):
    count = draw(st.integers(1, 3))
    priced = draw(st.booleans())
    return tuple(
        Stock(
            f"s{i}",
            draw(st.integers(200, 2500)) * 100,
            draw(st.integers(100, 1300)) * 100,
            price=draw(st.integers(0, 900_000)) if priced else None,
            quantity=draw(st.sampled_from([None, None, 0, 1, 3])),
            offcut=draw(st.booleans()),
            grain=draw(st.sampled_from(list(StockGrain))),
        )
        for i in range(count)
    )


CUTTINGS = st.builds(
    Cutting,
    kerf=st.sampled_from([0, 100, 317, 320]),
    trim=st.builds(Trim, *(st.sampled_from([0, 100, 1000]) for _ in range(4))),
    stages=st.sampled_from([None, None, 1, 2, 3]),
    first_cut=st.sampled_from(["either", "either", "along", "across"]),
)
JOBS = st.builds(Job, pieces(), stocks(), CUTTINGS, st.sampled_from([1, 2_000, 8_000]))


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(JOBS)
def test_the_checker_agrees_and_nothing_is_lost(job):
    found = nest(job)
    assert check_nesting(job, found) == ()
    placed = sum(x.count * len(x.placements) for x in found.layouts)
    assert placed + sum(u.quantity for u in found.unplaced) == sum(p.quantity for p in job.pieces)
    assert all(u.reason for u in found.unplaced)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(JOBS, st.integers(0, 2**32))
def test_shuffled_input_gives_the_same_answer(job, seed):
    draw = random.Random(seed)
    shuffled = replace(
        job,
        pieces=tuple(draw.sample(job.pieces, len(job.pieces))),
        stock=tuple(draw.sample(job.stock, len(job.stock))),
    )
    assert nest(shuffled) == nest(job)


def test_a_wrong_layout_is_never_answered(monkeypatch):
    module = import_module("scantling.nesting.nest")  # the package holds a function of the same name
    monkeypatch.setattr(module, "check_nesting", lambda job, nesting: ("two parts overlap",))
    job = Job((Piece("a", 100, 100),), (Stock("s", 1000, 1000),), Cutting(), 1)
    with pytest.raises(module.NestingFault, match="two parts overlap"):
        nest(job)
