"""`scantling demo`: serve on a free loopback port, plan the set through the Python client, write what comes of it."""

import json
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from scantling.measure import Tape
from scantling.papers import layout_svgs

from .project import demo_project

if TYPE_CHECKING:
    from uvicorn import Server

START_SECONDS = 60.0
PACKET = "packet.pdf"
INSTALL = "the demo speaks through the Python client: pip install ./clients/python"


def demo(out: Path) -> int:
    """Plan the demonstration set and write packet.pdf, project.json, plan.json, cut-list.csv and an SVG a layout.

    Returns 0 when the plan was written, 1 when the client is not installed.
    """
    try:
        from scantling_client import Client
    except ImportError:
        print(f"scantling: {INSTALL}", file=sys.stderr)
        return 1
    project = demo_project()
    with served() as address, Client(address) as client:
        plan = client.plan(project)
        cut_list = client.plan_csv(project)
        packet = client.plan_file(project, "pdf")
    out.mkdir(parents=True, exist_ok=True)
    files = {
        "project.json": json.dumps(project, indent=2, ensure_ascii=False) + "\n",
        "plan.json": json.dumps(plan, indent=1, ensure_ascii=False) + "\n",
        "cut-list.csv": cut_list,
        **layout_svgs(plan["nesting"], Tape.parse(project["tape"])),
    }
    for name, text in files.items():
        (out / name).write_text(text, encoding="utf-8", newline="")
    (out / PACKET).write_bytes(packet)
    for line in plan["summary"]:
        print(line)
    print(f"\nWritten to {out}: {', '.join([PACKET, *files])}")
    return 0


@contextmanager
def served() -> Iterator[str]:
    """Run the service on a free loopback port while the block runs; yields its address.

    Raises TimeoutError when it does not answer within a minute.
    """
    import uvicorn

    from scantling.api import create_app
    from scantling.api.settings import load_settings

    settings = load_settings(host="127.0.0.1", port=0, log_level="warning")
    config = uvicorn.Config(create_app(settings), host="127.0.0.1", port=0, log_level="warning", access_log=False)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{_port(server, thread)}"
    finally:
        server.should_exit = True
        thread.join(timeout=30)


def _port(server: "Server", thread: threading.Thread) -> int:
    waited = threading.Event()
    for _ in range(int(START_SECONDS / 0.05)):
        if server.started and server.servers:
            port: int = server.servers[0].sockets[0].getsockname()[1]
            return port
        if not thread.is_alive():
            break
        waited.wait(0.05)
    raise TimeoutError("the service did not start")
