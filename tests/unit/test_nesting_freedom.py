"""Freedom never costs more: against the same search of the same pieces with less freedom and its share of the work."""

import hypothesis.strategies as st
import pytest
from hypothesis import given, settings

from scantling.nesting import Cutting, Grain, Job, Piece, Stock, nest
from scantling.nesting.search import FIRST_SLICE, SHARE, START_SLICE, SheetSearch
from scantling.nesting.search_starts import less_freedom
from scantling.nesting.sheets import build_problem

pieces = st.lists(st.tuples(st.integers(15, 70), st.integers(10, 60), st.integers(1, 4)), min_size=2, max_size=12)
stocks = st.lists(st.tuples(st.integers(75, 120), st.integers(75, 110), st.integers(40, 99)), min_size=1, max_size=3)


def make_job(sizes, sheets, grain, effort=1):
    own = tuple(Piece(f"p{i:02}", a, b, n, grain) for i, (a, b, n) in enumerate(sizes))
    return Job(own, tuple(Stock(f"s{i}", x, y, price=p) for i, (x, y, p) in enumerate(sheets)), Cutting(2), effort)


def search_of(job):
    return SheetSearch(build_problem(job, job.pieces, job.stock, True)[0], job.seed)


def spent(search, effort, slices=1):
    while search.work < effort and not search.finished:
        search.advance(min(effort - search.work, -(-effort // slices)))
    return search


@settings(deadline=None)
@given(pieces, stocks, st.integers(1, 6), st.integers(1, 5))
def test_the_whole_never_costs_more_than_its_parts_with_their_share_of_the_work(sizes, sheets, rounds, slices):
    whole = search_of(make_job(sizes, sheets, Grain.ANY))
    fewer = less_freedom(whole.problem)
    first = FIRST_SLICE + START_SLICE * max(1, len(fewer))
    effort = first + rounds * 16_000
    spent(whole, effort, slices)
    assert whole.complete
    for less in fewer:
        alone = spent(SheetSearch(less.problem, whole.seed), max(START_SLICE, effort // (SHARE * len(fewer))))
        assert whole.cost <= alone.cost


@settings(deadline=None, max_examples=25)
@given(pieces, st.integers(40, 120))
def test_turning_and_more_sizes_never_cost_more_as_jobs(sizes, price):
    one = [(120, 110, 80)]
    locked = nest(make_job(sizes, one, Grain.ALONG, 2_000))
    turning = nest(make_job(sizes, one, Grain.ANY, 80_000))
    assert turning.cost <= locked.cost
    more = nest(make_job(sizes, [*one, (100, 75, price)], Grain.ANY, 200_000))
    assert more.cost <= nest(make_job(sizes, one, Grain.ANY, 2_000)).cost


@pytest.mark.parametrize("grain", list(Grain))
def test_what_changes_nothing_is_not_searched_twice(grain):
    problem = search_of(make_job([(40, 30, 2), (50, 20, 1)], [(100, 80, 1)], grain)).problem
    assert len(less_freedom(problem)) == (1 if grain is Grain.ANY else 0)
