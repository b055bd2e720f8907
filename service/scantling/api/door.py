"""The outermost layer of the door, as plain ASGI: what holds for every request, whatever answers it.

It gives each request its id, checks the host name, answers HEAD and OPTIONS, turns what escapes into a problem
document, and adds the headers that every answer carries.
"""

import logging
import re
import time
import uuid
from collections.abc import Iterable

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from .calls import ClientGone
from .problems import PROBLEM_TYPE, Problem, answer

LOG = logging.getLogger("scantling")
REQUEST_ID = re.compile(r"[A-Za-z0-9._-]{1,64}")
OWN_HEAD = "/v1/figures/"  # a spreadsheet sends HEAD before GET: answered without looking at the query
QUIET = ("/livez", "/readyz")  # probes come every few seconds and say nothing


class Door:
    """Wraps the application; every answer leaves through `_Out`, which adds the headers."""

    def __init__(
        self, app: ASGIApp, *, root_path: str, allowed_hosts: Iterable[str], body_limit: int, access_log: bool
    ) -> None:
        self.app = app
        self.root_path = root_path
        self.hosts = frozenset(host.lower() for host in allowed_hosts)
        self.body_limit = body_limit
        self.access_log = access_log

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        if self.root_path:
            scope["root_path"] = self.root_path  # whether the proxy strips the prefix or keeps it
        headers = Headers(scope=scope)
        given = headers.get("x-request-id", "")
        state = scope.setdefault("state", {})
        state["request_id"] = given if REQUEST_ID.fullmatch(given) else uuid.uuid4().hex
        state["timings"] = {}
        state["root_path"] = scope.get("root_path", "")
        out = _Out(scope, send)
        if scope["method"] == "HEAD" and OWN_HEAD not in scope["path"]:
            scope["method"] = "GET"
        try:
            await self._answer(scope, receive, out, headers)
        except Problem as problem:
            await self._rescue(problem, scope, receive, out)
        except ClientGone:
            LOG.info("request %s: the client is gone", state["request_id"])
            return
        except Exception:
            LOG.exception("request %s failed", state["request_id"])
            await self._rescue(Problem("internal"), scope, receive, out)
        if self.access_log and scope["path"] not in QUIET:
            LOG.info("%s", out.line())

    async def _answer(self, scope: Scope, receive: Receive, out: "_Out", headers: Headers) -> None:
        if not self._host_allowed(headers.get("host", "")):
            raise Problem("host-not-allowed")
        length = headers.get("content-length", "")
        if length.isascii() and length.isdigit() and int(length[:18]) > self.body_limit:
            raise Problem("too-large", f"The body is larger than {self.body_limit} bytes.")
        await self.app(scope, receive, out)

    async def _rescue(self, problem: Problem, scope: Scope, receive: Receive, out: "_Out") -> None:
        if not out.started:
            await answer(problem, scope)(scope, receive, out)

    def _host_allowed(self, host: str) -> bool:
        if "*" in self.hosts:
            return True
        name = host.lower()
        return (name.split("]")[0] + "]" if name.startswith("[") else name.split(":")[0]) in self.hosts


class _Out:
    """The way out: adds what every answer carries and remembers the status for the log."""

    def __init__(self, scope: Scope, send: Send) -> None:
        self.scope = scope
        self.send = send
        self.begun = time.perf_counter()
        self.method = scope["method"]
        self.status = 0

    @property
    def started(self) -> bool:
        return self.status != 0

    async def __call__(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            message = self._start(message)
        elif self.bodiless:
            message = {**message, "body": b""}
        await self.send(message)

    @property
    def bodiless(self) -> bool:
        return self.method == "HEAD" or self.status == 204

    def _start(self, message: Message) -> Message:
        self.status = message["status"]
        headers = MutableHeaders(raw=list(message["headers"]))
        if self.method == "OPTIONS" and self.status == 405:
            self.status = 204  # what the router says of a method it does not know is the answer to OPTIONS
            for name in ("Content-Type", "Content-Length"):
                del headers[name]
        headers["X-Request-ID"] = self.scope["state"]["request_id"]
        headers["X-Content-Type-Options"] = "nosniff"
        headers.setdefault("Cache-Control", "no-store")
        headers["Server-Timing"] = self._timing()
        return {**message, "status": self.status, "headers": headers.raw}

    def _timing(self) -> str:
        parts = {**self.scope["state"]["timings"], "total": time.perf_counter() - self.begun}
        return ", ".join(f"{name};dur={seconds * 1000:.1f}" for name, seconds in parts.items())

    def line(self) -> str:
        client = (self.scope.get("client") or ("-",))[0]
        took = (time.perf_counter() - self.begun) * 1000
        path = self.scope["path"].encode("unicode_escape").decode("ascii")
        return f"{client} {self.method} {path} {self.status} {took:.1f} ms {self.scope['state']['request_id']}"


class PlainTextProblems:
    """Turns the few error answers that libraries write themselves as plain text into problem documents."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request; an error that is no problem document is replaced by one."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        replaced = False

        async def out(message: Message) -> None:
            nonlocal replaced
            if message["type"] == "http.response.start" and message["status"] >= 400:
                kind = Headers(raw=message["headers"]).get("content-type", "")
                if not kind.startswith(PROBLEM_TYPE):
                    replaced = True
                    await self._replacement(message["status"], scope)(scope, receive, send)
                    return
            if not replaced:
                await send(message)

        await self.app(scope, receive, out)

    def _replacement(self, status: int, scope: Scope) -> Response:
        if status == 413:
            return answer(Problem("too-large", "The body is larger than the service takes."), scope)
        if status == 400 and scope["method"] == "OPTIONS":
            return answer(Problem("origin-not-allowed"), scope)
        return answer(Problem("bad-request" if status < 500 else "internal"), scope)
