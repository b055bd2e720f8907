"""The bars of the dry fit: ratios to a plain loop of the same run, and growth with the number of parts."""

from bench.bench_dryfit import TARGETS, best, measure, row_of_frames
from scantling.dryfit import verify
from yardstick import plain_loop_ms

LOOP_MS = 12.0  # the plain loop where the targets in ms were set
ROOM = 2.0  # what neighbours on the machine may add between the two measurements


def test_the_targets_are_kept_as_ratios_to_a_plain_loop():
    loop = plain_loop_ms()
    found = {name: ms / loop for name, ms in measure().items() if name in TARGETS}
    assert {name: r for name, r in found.items() if r > ROOM * TARGETS[name] / LOOP_MS} == {}


def test_ten_times_the_parts_cost_at_most_thirty_times_as_much():
    small, large = row_of_frames(5), row_of_frames(50)
    assert best(lambda: verify(large), 3) <= 30 * best(lambda: verify(small), 5)
