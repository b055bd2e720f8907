"""What the door costs: overhead of `/parts` beside a bare FastAPI echo of the same body, and memory when idle.

Both are served by uvicorn and asked by turns over one kept connection each. The overhead is what a request takes
outside the worker (Server-Timing tells the time inside) and the round trip to a worker, which is measured with a job
that does next to nothing. So nothing large is taken from something large, and a busy machine disturbs little.
"""

import http.client
import json
import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

OVERHEAD_BAR = 3.0
IDLE_BAR_MB = 150.0
TURNS = 60
WARM = 5
MODULE = "storage-footstool"
BODY = {
    "units": "mm",
    "tape": "1/16 in",
    "parameters": {"height": 400},
    "materials": {"panel": {"material": "birch-plywood", "thickness": [9.1, 9.0, 9.2]}},
}
ECHO = """
import gc, sys
from typing import Any
import uvicorn
from fastapi import FastAPI
from pydantic import BaseModel

class Body(BaseModel):
    units: str
    tape: str
    parameters: dict[str, Any]
    materials: dict[str, Any]

app = FastAPI()

@app.post("/echo")
async def echo(body: Body) -> Body:
    return body

gc.collect(); gc.freeze()
uvicorn.run(app, port=0, access_log=False)
"""


@contextmanager
def served(*command: str) -> Iterator[tuple[subprocess.Popen[str], http.client.HTTPConnection]]:
    """Run a server while the block runs; yield its process and a connection to it."""
    environment = os.environ | {"PYTHONPATH": os.pathsep.join(p for p in sys.path if p), "SCANTLING_WORKERS": "1"}
    process = subprocess.Popen(
        [sys.executable, *command], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=environment
    )
    assert process.stdout is not None
    try:
        seen = []
        for line in process.stdout:
            seen.append(line)
            found = re.search(r"running on .*?http://([\d.]+:\d+)", line)
            if found:
                yield process, http.client.HTTPConnection(found[1], timeout=60)
                return
        raise RuntimeError("the server did not start:\n" + "".join(seen))
    finally:
        process.terminate()
        process.wait(20)


def ask(connection: http.client.HTTPConnection, method: str, path: str, body: bytes | None) -> tuple[float, float]:
    """Return the milliseconds of one request, and those of them spent on work by its Server-Timing."""
    begun = time.perf_counter()
    connection.request(method, path, body, {"Content-Type": "application/json"} if body else {})
    response = connection.getresponse()
    response.read()
    took = (time.perf_counter() - begun) * 1000
    if response.status != 200:
        raise RuntimeError(f"{method} {path} answered {response.status}")
    work = re.search(r"work;dur=([\d.]+)", response.getheader("Server-Timing", ""))
    return took, float(work[1]) if work else 0.0


def resident_mb(process: int) -> float:
    """Return the resident memory of a process and its children that nobody shares, in MB (Linux: Pss)."""
    threads = Path(f"/proc/{process}/task").glob("*/children")  # a child belongs to the thread that started it
    children = [child for thread in threads for child in thread.read_text().split()]
    own = re.search(r"^Pss:\s+(\d+) kB", Path(f"/proc/{process}/smaps_rollup").read_text(), re.MULTILINE)
    assert own is not None
    return int(own[1]) / 1024 + sum(resident_mb(int(child)) for child in children)


@dataclass(frozen=True, slots=True)
class Figures:
    """First tenths in milliseconds, and the idle memory in MB."""

    parts: float
    outside: float
    trip: float
    echo: float
    idle_mb: float

    @property
    def ratio(self) -> float:
        """How many echoes the overhead of /parts is."""
        return (self.outside + self.trip) / self.echo

    def __str__(self) -> str:
        return (
            f"/parts {self.parts:.1f} ms: outside the worker {self.outside:.2f} ms, round trip {self.trip:.2f} ms; "
            f"bare echo {self.echo:.2f} ms; overhead {self.ratio:.2f} echoes (bar {OVERHEAD_BAR:g}); "
            f"idle with one worker {self.idle_mb:.0f} MB (bar {IDLE_BAR_MB:g})"
        )


def measure(turns: int = TURNS) -> Figures:
    """Serve both, ask them by turns, and return the figures."""
    body = json.dumps(BODY).encode()
    path = f"/v1/modules/{MODULE}/parts"
    serve = ("-m", "scantling.cli", "serve", "--port", "0")
    with served(*serve) as (service, ours), served("-c", ECHO) as (_, theirs):
        time.sleep(1.0)
        idle = resident_mb(service.pid)
        runs = []
        for _ in range(turns + WARM):
            took, work = ask(ours, "POST", path, body)
            _, trip = ask(ours, "GET", "/v1/plugins", None)
            echo, _ = ask(theirs, "POST", "/echo", body)
            runs.append((took, took - work, trip, echo))
    return Figures(*(_low(column) for column in zip(*runs[WARM:], strict=True)), idle)


def _low(column: Sequence[float]) -> float:
    """Return the first tenth of the values: what it costs when the machine's other work does not come between."""
    return sorted(column)[len(column) // 10]


if __name__ == "__main__":
    print(measure())
