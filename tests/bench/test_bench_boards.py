"""The bar of one-dimensional cutting on a sample of the published classes, and on instances made here."""

import pytest

from bench.bench_boards import FILE, made_here, measure, published

SAMPLE = 68  # every so many of the 1360 instances: 20 of them


def test_boards_cut_up_without_waste_are_put_together_again_and_proved():
    (tally,) = measure(made_here(), seconds=10.0).values()
    assert tally.proved == tally.instances == 6


def test_a_sample_of_the_published_classes_is_proved():
    instances = published()
    if instances is None:
        pytest.skip(f"SCANTLING_BENCH_DATA does not lead to {FILE}: the published classes are NOT checked")
    tallies = measure(instances[::SAMPLE], seconds=10.0)
    assert sum(t.proved for t in tallies.values()) == sum(t.instances for t in tallies.values()) == 20
