"""What the door costs: overhead of `/parts` beside a bare FastAPI echo of the same body, and memory when idle.

Both are served by uvicorn with the same settings and asked by turns over one kept connection; the engine's own time
is measured in this process and taken off. Bars are ratios measured in one run.
"""

import http.client
import json
import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median

OVERHEAD_BAR = 3.0
IDLE_BAR_MB = 150.0
TURNS = 60
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


def ask(connection: http.client.HTTPConnection, path: str, body: bytes) -> float:
    """Return the seconds of one request."""
    begun = time.perf_counter()
    connection.request("POST", path, body, {"Content-Type": "application/json"})
    response = connection.getresponse()
    response.read()
    took = time.perf_counter() - begun
    assert response.status == 200
    return took


def engine_seconds(turns: int = TURNS) -> float:
    """Return the median seconds of the operation itself, as JSON: what the worker does without any door."""
    from scantling.work import InlineSeam

    seam = InlineSeam()
    took = []
    for _ in range(turns):
        begun = time.perf_counter()
        seam.call("parts", {"module": MODULE, **BODY})
        took.append(time.perf_counter() - begun)
    return median(took)


def resident_mb(process: int) -> float:
    """Return the resident memory of a process and its children that nobody shares, in MB (Linux: Pss)."""
    children = Path(f"/proc/{process}/task/{process}/children").read_text().split()
    own = re.search(r"^Pss:\s+(\d+) kB", Path(f"/proc/{process}/smaps_rollup").read_text(), re.MULTILINE)
    assert own is not None
    return int(own[1]) / 1024 + sum(resident_mb(int(child)) for child in children)


def measure(turns: int = TURNS) -> tuple[float, float, float, float]:
    """Return the median seconds of /parts, of the engine in it, of the echo; and the idle memory in MB."""
    body = json.dumps(BODY).encode()
    serve = ("-m", "scantling.cli", "serve", "--port", "0")
    with served(*serve) as (service, parts), served("-c", ECHO) as (_, echo):
        for _ in range(5):
            ask(parts, f"/v1/modules/{MODULE}/parts", body), ask(echo, "/echo", body)
        time.sleep(0.5)
        idle = resident_mb(service.pid)
        ours, theirs = [], []
        for _ in range(turns):
            ours.append(ask(parts, f"/v1/modules/{MODULE}/parts", body))
            theirs.append(ask(echo, "/echo", body))
    return median(ours), engine_seconds(turns), median(theirs), idle


def main() -> tuple[float, float]:
    """Print the figures and return the ratio of overheads and the idle memory."""
    ours, engine, echo, idle = measure()
    ratio = (ours - engine) / echo
    print(
        f"\n/parts {ours * 1000:.1f} ms, of it engine {engine * 1000:.1f} ms; bare echo {echo * 1000:.2f} ms; "
        f"overhead {ratio:.2f} echoes (bar {OVERHEAD_BAR}); idle with one worker {idle:.0f} MB (bar {IDLE_BAR_MB:.0f})"
    )
    return ratio, idle


if __name__ == "__main__":
    main()
