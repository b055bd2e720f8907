"""A yardstick of the processor for the benches: how long a fixed plain loop takes in this very run.

Bars are ratios to it, never seconds, so that a slow or busy machine moves both alike.
"""

import time

ROUNDS = 200_000


def plain_loop_ms(times=7):
    """Return the least processor time of a loop of 200,000 small sums, in ms."""
    return min(_once() for _ in range(times))


def _once():
    start = time.process_time()
    total = sum(i * i % 7 for i in range(ROUNDS))
    spent = (time.process_time() - start) * 1000
    if total != 399_999:  # the loop must really run
        raise AssertionError(total)
    return spent
