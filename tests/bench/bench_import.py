"""How heavy `import scantling.api` is beside importing fastapi and numpy: new processes, interleaved, best of each.

The bar is a ratio measured in one run.
"""

import os
import subprocess
import sys

BAR = 1.5
ROUNDS = 7
OURS = "scantling.api"
YARDSTICK = "fastapi, numpy"
PROBE = """
import time
begun = time.perf_counter()
import {modules}
took = time.perf_counter() - begun
import resource
print(took, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def once(modules: str) -> tuple[float, float]:
    """Return seconds and megabytes of importing the modules in a new process."""
    environment = os.environ | {"PYTHONPATH": os.pathsep.join(p for p in sys.path if p)}
    command = [sys.executable, "-c", PROBE.format(modules=modules)]
    out = subprocess.run(command, capture_output=True, text=True, check=True, env=environment).stdout
    seconds, megabytes = out.split()
    return float(seconds), float(megabytes)


def measure(rounds: int = ROUNDS) -> tuple[float, float, float, float]:
    """Return the best seconds of ours and of the yardstick, and the least megabytes of each."""
    once(OURS), once(YARDSTICK)  # bytecode and file cache
    runs = [(once(OURS), once(YARDSTICK)) for _ in range(rounds)]
    ours, yardstick = [run[0] for run in runs], [run[1] for run in runs]
    return (
        min(s for s, _ in ours),
        min(s for s, _ in yardstick),
        min(m for _, m in ours),
        min(m for _, m in yardstick),
    )


def main() -> float:
    """Print the figures and return the ratio."""
    ours, yardstick, megabytes, beside = measure()
    print(
        f"\nimport {OURS}: {ours * 1000:.0f} ms, {megabytes:.0f} MB; import {YARDSTICK}: {yardstick * 1000:.0f} ms, "
        f"{beside:.0f} MB; ratio {ours / yardstick:.2f} (bar {BAR})"
    )
    return ours / yardstick


if __name__ == "__main__":
    main()
