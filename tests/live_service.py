"""The whole service on a free loopback port, computing in this process: for tests that speak through a socket."""

import threading
import time
from contextlib import contextmanager

import uvicorn

from scantling.api import Settings, create_app
from scantling.work import InlineSeam, Limits


@contextmanager
def live_service(seam=None, **settings):
    """Serve while the block runs; yields the address."""
    settings.setdefault("access_log", False)
    app = create_app(Settings(**settings), seam or InlineSeam(Limits(time_limit=20.0)))
    server = uvicorn.Server(uvicorn.Config(app, host="127.0.0.1", port=0, log_level="warning", access_log=False))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    try:
        until = time.monotonic() + 30
        while not (server.started and server.servers):
            assert thread.is_alive(), "the service did not start"
            assert time.monotonic() < until, "the service did not start in time"
            time.sleep(0.01)
        yield f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}"
    finally:
        server.should_exit = True
        thread.join(timeout=30)
