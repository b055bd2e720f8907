"""Deriving and verifying shipped pieces, and how the dry fit grows from 25 to 250 parts; prints ms beside targets.

Run: python tests/bench/bench_dryfit.py
"""

import json
import subprocess
import sys
import time
from collections.abc import Callable
from importlib import resources
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from pieces import MODULES, build
from scantling.board import Assembly, RoleMaterial
from scantling.dryfit import verify

TARGETS = {"30 parts and 70 screws": 35.0, "60 parts and 140 screws": 60.0, "the demo set": 150.0}
IMPORT_TARGET = 100.0
ROUNDS = 7


def best(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    """Return the best of some runs in ms of processor time, to which others on the machine add less; no cold run."""
    work()
    found = float("inf")
    for _ in range(rounds):
        start = time.process_time()
        work()
        found = min(found, time.process_time() - start)
    return found * 1e3


def demo_set(*, copies: bool = True) -> list[str]:
    """Return the modules of the demonstration project: once for every piece, or once for every entry as a plan does."""
    project = json.loads((resources.files("scantling.demo") / "project.json").read_text(encoding="utf-8"))
    return [m["module"] for m in project["modules"] for _ in range(m.get("quantity", 1) if copies else 1)]


def row_of_frames(n: int) -> Assembly:
    """Build n frames of five parts and twelve screws in a row, each tied to the next."""
    ply = RoleMaterial("ply", "birch-plywood", 18.0, 18.0, 18.0, False, 680.0)
    piece = Assembly("frames", "", {"ply": ply})
    last = None
    for i in range(n):
        x = i * 436.0
        left = piece.part(f"left {i}", 400, 300, "ply").lay("z", "y").put(x0=x, y0=0, z0=0)
        right = piece.part(f"right {i}", 400, 300, "ply").lay("z", "y").put(x0=x + 418, y0=0, z0=0)
        shelves = [
            piece.part(f"shelf {i} {k}", 400, 300, "ply").lay("x", "y").put(x0=x + 18, y0=0, z0=40 + 120 * k)
            for k in range(3)
        ]
        for shelf in shelves:
            piece.screws(left, shelf, n=2, inset=40)
            piece.screws(right, shelf, n=2, inset=40)
        if last is not None:
            piece.glue(last, left)
        last = right
    return piece


def import_ms() -> float:
    """Return what importing the dry fit costs over numpy alone, in ms, the best of five fresh interpreters."""
    code = (
        "import time, numpy, dataclasses, enum, decimal; t = time.process_time(); import scantling.dryfit;"
        " print((time.process_time() - t) * 1e3)"
    )
    runs = (subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True) for _ in range(5))
    return min(float(r.stdout) for r in runs)


def measure() -> dict[str, float]:
    """Return the measured times in ms by what they measure."""
    both = row_of_frames(12)
    return {
        "30 parts and 70 screws": best(lambda: verify(build("storage-footstool"))),
        "60 parts and 140 screws": best(lambda: verify(row_of_frames(12))),
        "60 parts and 140 screws, verify alone": best(lambda: verify(both)),
        "the demo set": best(lambda: [verify(build(id)) for id in demo_set()]),
        "the demo set, its two alike footstools verified once, as a plan does": best(
            lambda: [verify(build(id)) for id in demo_set(copies=False)]
        ),
    }


def main() -> None:
    """Print every time beside its target, then the growth."""
    for name, ms in measure().items():
        print(f"{name}: {ms:.1f} ms" + (f" (target {TARGETS[name]:.0f})" if name in TARGETS else ""))
    for id in MODULES:
        piece = build(id)
        parts, screws = len(piece.parts), len(piece.fasteners)
        derive, check = best(lambda id=id: build(id)), best(lambda piece=piece: verify(piece))
        print(f"{id}: {parts} parts, {screws} screws: derive {derive:.1f}, verify {check:.1f} ms")
    base = None
    for n in (5, 10, 20, 50):
        piece = row_of_frames(n)
        ms = best(lambda piece=piece: verify(piece), 3)
        base = base or ms / len(piece.parts)
        growth = ms / len(piece.parts) / base
        print(f"{len(piece.parts)} parts, {len(piece.fasteners)} screws: {ms:.0f} ms, {growth:.1f} × as much a part")
    print(f"import over numpy: {import_ms():.0f} ms (target {IMPORT_TARGET:.0f})")


if __name__ == "__main__":
    main()
