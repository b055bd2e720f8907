"""Sheets taken, against the best known results: the tiny set always, published instances where their folder is named.

Published: the Berkey-Wang and Martello-Vigo bin packing instances as collected with per-instance best known
guillotine results; 1491 and 1442 are the best known totals of the 100 instances with k = 5 or 10.
"""

import warnings

import pytest

import nesting_sets as sets
from scantling.nesting import nest

EFFORT = 500_000  # about half a second of one core an instance


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
