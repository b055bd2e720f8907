"""The door's bars: how heavy its import is, what it adds to a request, what it holds when idle."""

import sys

import pytest

from bench import bench_http, bench_import


def test_importing_the_door_is_no_heavier_than_its_libraries():
    assert bench_import.main() <= bench_import.BAR


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="reads the memory of processes from /proc")
def test_the_door_adds_little_to_a_request_and_holds_little_when_idle():
    for _ in range(3):  # the best of three, as the machine may be busy with something else
        figures = bench_http.measure()
        print(f"\n{figures}")
        if figures.ratio <= bench_http.OVERHEAD_BAR:
            break
    assert figures.ratio <= bench_http.OVERHEAD_BAR
    assert figures.idle_mb < bench_http.IDLE_BAR_MB
