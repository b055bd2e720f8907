"""Counting equal pieces, against brute force and a recursive search over every through cut."""

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.measure import counts


@given(st.integers(1, 500), st.integers(1, 60), st.integers(0, 5))
def test_pieces_in_a_length_by_cutting_one_after_another(length, piece, kerf):
    rest, free, exact = length, 0, 0
    while rest >= piece:
        exact += 1
        free += rest >= piece + kerf
        rest -= piece + kerf
    assert counts.pieces_in_length(length, piece, kerf) == exact
    assert counts.pieces_in_length(length, piece, kerf, cut_last=True) == free


def test_inch_sizes_that_divide_evenly_are_not_lost_to_binary_arithmetic():
    """Sixty-four strips of 3/8 in and sixty-three 1/8 in kerfs are exactly 31 7/8 in."""
    assert counts.pieces_in_length(31.875 * 25.4, 0.375 * 25.4, 0.125 * 25.4) == 64
    assert counts.pieces_in_length(31.875 * 25.4 - 0.01, 0.375 * 25.4, 0.125 * 25.4) == 63


@cache
def most_by_through_cuts(length, width, a, b, kerf):
    """Return the most a x b pieces, turned or not, that any sequence of through cuts gets from a sheet."""
    if min(length, width) < min(a, b):
        return 0
    best = int((length >= a and width >= b) or (length >= b and width >= a))
    for size in range(1, length - kerf):
        best = max(
            best,
            most_by_through_cuts(size, width, a, b, kerf)
            + most_by_through_cuts(length - size - kerf, width, a, b, kerf),
        )
    for size in range(1, width - kerf):
        best = max(
            best,
            most_by_through_cuts(length, size, a, b, kerf)
            + most_by_through_cuts(length, width - size - kerf, a, b, kerf),
        )
    return best


@settings(max_examples=60, deadline=None)
@given(st.integers(4, 16), st.integers(4, 16), st.integers(2, 7), st.integers(2, 7), st.integers(0, 1))
def test_a_sheet_never_gives_more_than_the_search_finds_and_never_less_than_a_grid(length, width, a, b, kerf):
    best = most_by_through_cuts(length, width, a, b, kerf)
    found = counts.sheet_yield(length, width, a, b, kerf)
    grids = [
        counts.pieces_in_length(length, x, kerf) * counts.pieces_in_length(width, y, kerf) for x, y in ((a, b), (b, a))
    ]
    assert max(grids) <= found.count <= best <= found.bound
    if found.proven:
        assert found.count == best


def test_two_blocks_beat_the_grid():
    """On 8 x 8 a grid holds two of 5 x 3 either way, two blocks hold three.

    Four fit in a pinwheel around a hole, which no through cut gets out: so the bound is 4 and 3 is not called proven.
    """
    found = counts.sheet_yield(8, 8, 5, 3, 0)
    assert (found.count, found.bound, found.proven) == (3, 4, False)
    assert most_by_through_cuts(8, 8, 5, 3, 0) == 3
    found = counts.sheet_yield(13, 8, 5, 3, 0)
    assert (found.count, found.proven, len(found.blocks)) == (6, True, 2)


@given(st.integers(1, 60), st.integers(1, 60), st.integers(1, 20), st.integers(1, 20), st.integers(0, 3))
def test_with_grain_the_grid_is_the_answer(length, width, a, b, kerf):
    along = counts.sheet_yield(length, width, a, b, kerf, "along")
    across = counts.sheet_yield(length, width, b, a, kerf, "across")
    assert along.count == across.count
    assert along.count == counts.pieces_in_length(length, a, kerf) * counts.pieces_in_length(width, b, kerf)
    assert along.proven
    assert not any(block.turned for block in along.blocks)
    assert all(block.turned for block in across.blocks)


def test_what_has_no_answer_is_refused():
    with pytest.raises(ValueError, match="longer than zero"):
        counts.pieces_in_length(100, 0, 3)
    with pytest.raises(ValueError, match="no piece"):
        counts.sheets_needed(3, 0)
    with pytest.raises(ValueError, match="at least one strip"):
        counts.equal_width(100, 0, 3)
    with pytest.raises(ValueError, match="grain"):
        counts.sheet_yield(10, 10, 1, 1, 0, "diagonal")


def test_equal_strips_fill_the_width():
    width = counts.equal_width(1219.2, 3, 3.175)
    assert 3 * width + 2 * 3.175 == pytest.approx(1219.2)
    assert counts.pieces_in_length(1219.2, width, 3.175) == 3
