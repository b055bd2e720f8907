"""Calling the seam from a request: one job, what can go wrong with it, and its end when the client is gone."""

import asyncio
import json
import logging
import time
from collections import Counter
from typing import Any

from fastapi import Request
from starlette.requests import empty_receive
from starlette.responses import Response

from scantling.measure import RequestError
from scantling.work import (
    AnswerTooLarge,
    Busy,
    NotRunning,
    OperationFailed,
    Plain,
    Seam,
    SeamError,
    TimeLimit,
    WorkerDied,
)

from . import drawn, plugged
from .faults import from_request_error
from .problems import Problem
from .respond import Form, as_json, render

LOG = logging.getLogger("scantling")


class ClientGone(Exception):
    """The client closed the connection; nobody waits for the answer."""


class Calls:
    """The jobs of one application: hands them to the seam and keeps count of them by client."""

    def __init__(self, seam: Seam, per_client: int) -> None:
        self.seam = seam
        self.per_client = per_client
        self.plugged = plugged.Plugged(seam)
        self._running: Counter[str] = Counter()

    async def answer(self, request: Request, operation: str, plain: Plain, form: Form, stem: str) -> Response:
        """Return the response with the operation's answer in the form asked for; raises as `run` does."""
        if form.plugged and form.drawn is not None:
            return plugged.sent(await self.run(request, plugged.OPERATION, plugged.job(form.drawn, form.format, plain)))
        if form.drawn is not None:
            return await self._drawn(request, plain, form, form.drawn)
        body = await self.run(request, operation, plain)
        return as_json(body) if form.format == "json" else render(json.loads(body), form, stem)

    async def _drawn(self, request: Request, plain: Plain, form: Form, kind: drawn.Kind) -> Response:
        """Return the response with the answer drawn: computed and drawn in one job."""
        try:
            body = await self.run(request, drawn.OPERATION, drawn.job(kind, form.format, form.view, plain))
        except Problem as problem:
            raise drawn.about_the_query(problem) from None
        return drawn.sent(form.format, json.loads(body))

    async def run(self, request: Request, operation: str, plain: Plain) -> bytes:
        """Return the operation's answer as JSON. Raises Problem for all that can go wrong, ClientGone."""
        client = request.client.host if request.client else "-"
        if self.per_client and self._running[client] >= self.per_client:
            raise Problem("too-many-requests", f"{self._running[client]} jobs are running for this client already.")
        self._running[client] += 1
        begun = time.perf_counter()
        try:
            return await self._watched(request, operation, plain)
        except RequestError as error:
            raise from_request_error(error) from None
        except SeamError as error:
            raise _problem(error) from error
        finally:
            request.scope["state"]["timings"]["work"] = time.perf_counter() - begun
            self._running[client] -= 1
            if not self._running[client]:
                del self._running[client]

    async def _watched(self, request: Request, operation: str, plain: Plain) -> bytes:
        """Run the job beside a watch on the connection; whichever ends first ends the other."""
        job = asyncio.ensure_future(self.seam.run_json(operation, plain))
        watch = asyncio.ensure_future(_gone(request))
        try:
            await asyncio.wait((job, watch), return_when=asyncio.FIRST_COMPLETED)
            if not job.done():
                raise ClientGone
            return job.result()
        finally:
            watch.cancel()
            if not job.done():
                job.cancel()
                await asyncio.wait((job,))


async def _gone(request: Request) -> None:
    """Return when the client has closed the connection; the body has been read before."""
    if request.method != "POST":
        await request.body()
    if request.receive is empty_receive:
        await asyncio.Event().wait()
    while (await request.receive())["type"] != "http.disconnect":
        pass


def _problem(error: SeamError) -> Problem:
    if isinstance(error, Busy):
        return Problem("busy", "All workers are busy.", headers={"Retry-After": str(error.retry_after)})
    if isinstance(error, TimeLimit):
        where = f" in the plugin {error.culprit!r}" if error.culprit else ""
        named: dict[str, Any] = {"plugin": error.culprit} if error.culprit else {}
        return Problem("time-limit", f"The job was stopped{where} after {error.seconds:g} seconds.", **named)
    if isinstance(error, NotRunning):
        return Problem("not-ready", "The workers are not running; the service is starting or stopping.")
    if isinstance(error, AnswerTooLarge):
        return Problem("answer-too-large", f"The answer takes {error.size} bytes; at most {error.limit} are sent.")
    extra: dict[str, Any] = {}
    detail = None
    if isinstance(error, OperationFailed):
        LOG.error("operation %s failed: %s\n%s", error.operation, error.reason, error.log)
        if error.culprit:
            extra["plugin"] = error.culprit
            why = f"The plugin {error.culprit!r} failed on this request: {error.reason}"
            detail = f"{why}. Everything else goes on working."
    elif isinstance(error, WorkerDied):
        LOG.error("operation %s failed: %s", error.operation, error.message)
        if error.culprit:
            extra["plugin"] = error.culprit
            detail = f"The worker process ended in the plugin {error.culprit!r}. Everything else goes on working."
    else:
        LOG.error("operation %s failed: %s", error.operation, error.message)
    return Problem("internal", detail, **extra)


def calls_of(request: Request) -> Calls:
    """Return the application's calls."""
    calls: Calls = request.app.state.calls
    return calls
