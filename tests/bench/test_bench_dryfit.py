"""The bars of the dry fit: ms with room for a busy machine, and growth that a busy machine does not change."""

from bench.bench_dryfit import TARGETS, best, measure, row_of_frames
from scantling.dryfit import verify

BUSY = 4.0  # a shared machine may be this much slower than the one the targets were set on


def test_the_targets_are_kept_within_what_a_busy_machine_may_add():
    found = measure()
    assert {name: ms for name, ms in found.items() if ms > BUSY * TARGETS.get(name, 1e9)} == {}


def test_ten_times_the_parts_cost_at_most_thirty_times_as_much():
    small, large = row_of_frames(5), row_of_frames(50)
    assert best(lambda: verify(large), 3) <= 30 * best(lambda: verify(small), 5)
