"""The bar of the length parser, measured beside pint in the same run."""

from bench.bench_lengths import BAR, measure


def test_reading_a_length_costs_at_most_a_twelfth_of_pint():
    ours, theirs = measure()
    assert ours / theirs <= BAR
