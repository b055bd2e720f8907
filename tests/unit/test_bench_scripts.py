"""Every bench is a script of its own: it finds what it imports from wherever it is started, with no path set."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

BENCHES = sorted((Path(__file__).resolve().parents[1] / "bench").glob("bench_*.py"))


@pytest.mark.parametrize("script", BENCHES, ids=lambda p: p.stem)
def test_a_bench_loads_without_help(script, tmp_path):
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONPATH"}
    loaded = f"import runpy; runpy.run_path({str(script)!r}, run_name='loaded')"
    subprocess.run([sys.executable, "-c", loaded], check=True, cwd=tmp_path, env=environment)


def test_there_are_benches():
    assert len(BENCHES) >= 8
