"""Sheets taken, against the best known results: the tiny set always, published instances where their folder is named.

Published: the Berkey-Wang and Martello-Vigo bin packing instances as collected with per-instance best known
guillotine results; 1491 and 1442 are the best known totals of the 100 instances with k = 5 or 10. Bulk demand: the
twelve gcut sets of G. F. Cintra, F. K. Miyazawa, Y. Wakabayashi and E. C. Xavier, "Algorithms for two-dimensional
cutting stock and strip packing problems using dynamic programming and column generation", European Journal of
Operational Research 191 (2008), with their least number of sheets in three stages; ours may cut deeper.
"""

import warnings

import pytest

import nesting_sets as sets
from scantling.nesting import nest

EFFORT = 500_000  # about half a second of one core an instance
BULK_EFFORT = 4_500_000  # about five seconds


def sheets(instance):
    return sum(layout.count for layout in nest(instance.job).layouts)


@pytest.mark.parametrize("instance", list(sets.tiny(50_000)), ids=lambda i: i.name)
def test_tiny_set_takes_the_least(instance):
    assert sheets(instance) == instance.best


@pytest.mark.parametrize(("turning", "most", "best"), [(False, 1496, 1491), (True, 1447, 1442)])
def test_sample_of_the_500(turning, most, best):
    if sets.folder() is None:
        warnings.warn(sets.MISSING, stacklevel=1)
        pytest.skip(sets.MISSING)
    taken = [(sheets(i), i.best) for i in sets.bin_packing(turning, EFFORT, (5, 10))]
    assert all(ours <= known + 1 for ours, known in taken)
    assert best <= sum(ours for ours, _ in taken) <= most


@pytest.mark.parametrize("number", range(1, 13))
def test_bulk_demand_within_one_sheet_of_the_least_in_three_stages(number):
    if sets.folder() is None:
        warnings.warn(sets.MISSING, stacklevel=1)
        pytest.skip(sets.MISSING)
    (instance,) = [i for i in sets.bulk(BULK_EFFORT) if i.name == f"gcut{number}d"]
    assert sheets(instance) <= instance.best + 1
