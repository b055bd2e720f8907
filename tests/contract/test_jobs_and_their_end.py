"""A job ends when its client is gone, a long one does not hold up the rest, and the service stops at once."""

import asyncio
import http.client
import json
import os
import re
import signal
import subprocess
import sys

import pytest

from contract.contract_helpers import FakeSeam, client_for
from scantling.api import Settings, create_app
from scantling.api.app import PluginsFailedError

BODY = json.dumps({"parts": [{"id": "a", "length": 300}], "stock": [{"id": "s", "length": 2440}]}).encode()


JOB_SECONDS = 10.0


class _Slow(FakeSeam):
    """A seam whose one operation takes long and tells how it ended."""

    def __init__(self):
        super().__init__(nestings=self._nest)
        self.ended = "not begun"
        self.begun = asyncio.Event()

    async def _nest(self, request):
        self.ended = "running"
        self.begun.set()
        try:
            await asyncio.sleep(JOB_SECONDS)
        except asyncio.CancelledError:
            self.ended = "cancelled"
            raise
        self.ended = "answered"
        return {"layouts": [], "unplaced": []}


def _scope(method, path, *headers):
    return {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": method,
        "scheme": "http",
        "path": path,
        "raw_path": path.encode(),
        "query_string": b"",
        "root_path": "",
        "headers": [(b"host", b"localhost"), *headers],
        "client": ("127.0.0.1", 5000),
        "server": ("localhost", 80),
        "state": {},
    }


async def _ask(app, scope, messages):
    """Call the application; `messages` is a queue of what the client sends."""
    sent = []

    async def send(message):
        sent.append(message)

    await app(scope, messages.get, send)
    return sent


async def _abandon():
    seam = _Slow()
    app = create_app(Settings(access_log=False), seam)
    messages = asyncio.Queue()
    messages.put_nowait({"type": "http.request", "body": BODY, "more_body": False})
    scope = _scope("POST", "/v1/nestings", (b"content-type", b"application/json"))
    asked = asyncio.create_task(_ask(app, scope, messages))
    await asyncio.wait_for(seam.begun.wait(), 5)

    probe = asyncio.Queue()
    probe.put_nowait({"type": "http.request", "body": b"", "more_body": False})
    alive = await asyncio.wait_for(_ask(app, _scope("GET", "/livez"), probe), 1)

    messages.put_nowait({"type": "http.disconnect"})
    return seam, alive, await asyncio.wait_for(asked, JOB_SECONDS / 2)


def test_a_job_ends_when_its_client_is_gone_and_holds_up_nobody_meanwhile():
    """It ends long before the job itself would: half of its length is the most that is waited."""
    seam, alive, sent = asyncio.run(_abandon())
    assert alive[0]["status"] == 200
    assert seam.ended == "cancelled"
    assert sent == []


def test_a_job_whose_client_stays_is_answered():
    async def stay():
        seam = FakeSeam(nestings=lambda request: {"layouts": [], "unplaced": []})
        app = create_app(Settings(access_log=False), seam)
        messages = asyncio.Queue()
        messages.put_nowait({"type": "http.request", "body": BODY, "more_body": False})
        scope = _scope("POST", "/v1/nestings", (b"content-type", b"application/json"))
        return await asyncio.wait_for(_ask(app, scope, messages), 5), app.state.calls

    sent, calls = asyncio.run(stay())
    assert sent[0]["status"] == 200
    assert not calls._running


@pytest.mark.parametrize("strict", [True, False])
def test_a_plugin_that_fails_stops_a_strict_service_only(strict):
    failed = {"name": "oddments", "status": "failed", "reason": "it speaks another interface"}
    seam = FakeSeam(plugins=lambda request: {"interface": 1, "plugins": [failed]})
    client = client_for(seam, plugins_strict=strict)
    if strict:
        with pytest.raises(PluginsFailedError, match="oddments"), client:
            pass
    else:
        with client:
            assert client.get("/v1/plugins").json()["plugins"] == [failed]


@pytest.fixture(scope="module")
def service():
    """Run the real service with one worker on a free port; yield its process and address."""
    environment = os.environ | {"PYTHONPATH": os.pathsep.join(p for p in sys.path if p), "SCANTLING_WORKERS": "1"}
    command = [sys.executable, "-m", "scantling.cli", "serve", "--port", "0"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=environment)
    for line in process.stdout:
        found = re.search(r"running on (http://\S+)", line)
        if found:
            break
    else:
        pytest.fail(f"the service ended with {process.wait()}")
    yield process, found[1]
    if process.poll() is None:
        process.send_signal(signal.SIGTERM)
        process.wait(20)


def _fetch(address, path, body=None):
    connection = http.client.HTTPConnection(address.removeprefix("http://"), timeout=60)
    headers = {"Content-Type": "application/json"} if body is not None else {}
    connection.request("GET" if body is None else "POST", path, body, headers)
    response = connection.getresponse()
    status, answer = response.status, json.load(response)
    connection.close()
    return status, answer


def test_the_service_serves_under_a_real_server_with_real_workers(service):
    _, address = service
    assert _fetch(address, "/readyz")[1]["ready"] is True
    assert [m["id"] for m in _fetch(address, "/v1/modules")[1]["modules"]]
    status, answer = _fetch(address, "/v1/modules/leaning-seat/parts", b'{"parameters": {"bays": 2}}')
    assert status == 200 and len(answer["parts"]) > 5


def test_the_service_stops_at_once(service):
    process, _ = service
    process.send_signal(signal.SIGTERM)
    code = process.wait(20)  # it has no job to wait for; one that hangs is a failure here
    assert code in (0, -signal.SIGTERM)
