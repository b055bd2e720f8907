"""The seam with workers: jobs run in other processes, with a limit, a kill and a progress channel.

A job is admitted while fewer than workers + queue are in the house, waits for a free worker here (so that giving
up while waiting kills nobody), and then runs. It ends by answering, by failing, by overrunning its time (the
worker is killed), or by being cancelled: cancel the task that awaits `run` and the worker is killed too.
"""

import asyncio
import itertools
import json
import logging
from collections.abc import Mapping, Sequence
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool
from typing import Any

from .crew import Crew
from .errors import Busy, NotRunning, OperationFailed, SeamError, TimeLimit, WorkerDied
from .execute import Outcome, Plain, PluginChoice, execute, settle
from .inline import find
from .limits import Limits
from .operations import OPERATIONS, Operation
from .progress import Listener, Report, nobody, throttled
from .worker import Job

_log = logging.getLogger(__name__)


class _CrewLost(Exception):
    """The pool broke before or while a job ran in it, through no fault of the job that is known."""


class PoolSeam:
    """Runs operations in worker processes. Start, run and stop it in one event loop."""

    def __init__(
        self,
        limits: Limits | None = None,
        plugins: PluginChoice | None = None,
        operations: Mapping[str, Operation] = OPERATIONS,
    ) -> None:
        self.limits = limits or Limits()
        self.plugins = plugins or PluginChoice()
        self._operations = operations
        self._crew: Crew | None = None
        self._preload: tuple[Operation, ...] = ()
        self._renewing = asyncio.Lock()
        self._free = asyncio.Semaphore(self.limits.workers)
        self._numbers = itertools.count(1)
        self._jobs = 0
        self._closing: set[asyncio.Task[None]] = set()

    async def start(self, warm: Sequence[str] = ()) -> None:
        """Start the workers and wait until each is ready; then run the operations `warm` once a worker.

        A worker that takes the place of a killed one loads what `warm` names before it takes a job. A warming
        operation that fails is logged and does no harm. Raises TimeoutError when the workers do not come up within
        `limits.start_limit`.
        """
        self._preload = tuple(find(self._operations, name) for name in warm)
        crew = self._new_crew()
        await asyncio.to_thread(crew.open)
        try:
            async with asyncio.timeout(self.limits.start_limit):
                await crew.ready.wait()
        except TimeoutError:
            await asyncio.to_thread(crew.close)
            raise
        self._crew = crew
        for operation in warm:
            await asyncio.gather(*(self._warm(operation) for _ in range(self.limits.workers)))

    async def stop(self) -> None:
        """Kill the workers; whoever still waits for a job gets NotRunning."""
        crew, self._crew = self._crew, None
        if crew is not None:
            crew.end()
            await asyncio.to_thread(crew.close)
        await asyncio.gather(*self._closing)

    @property
    def ready(self) -> bool:
        """Whether jobs are taken."""
        return self._crew is not None

    @property
    def jobs(self) -> int:
        """How many jobs run or wait."""
        return self._jobs

    async def run(self, operation: str, request: Plain, progress: Listener | None = None) -> Plain:
        """Return what the operation answers; `progress` is called in the event loop while it runs.

        Raises RequestError for a request that cannot be computed; Busy, TimeLimit, WorkerDied, OperationFailed,
        AnswerTooLarge, NotRunning; UnknownOperation. Cancelling the awaiting task kills the job.
        """
        answer: Plain = json.loads(await self.run_json(operation, request, progress))
        return answer

    async def run_json(self, operation: str, request: Plain, progress: Listener | None = None) -> bytes:
        """Return what the operation answers as the JSON that the worker wrote; otherwise as `run`."""
        found = find(self._operations, operation)
        if found.inline:
            return settle(found, self._here(found, request, progress), self.limits.answer_bytes)
        if self._crew is None:
            raise NotRunning(operation)
        if self._jobs >= self.limits.workers + self.limits.queue:
            raise Busy(operation, self.limits.retry_after)
        self._jobs += 1
        try:
            outcome = await self._wait_and_compute(found, request, progress)
        finally:
            self._jobs -= 1
        return settle(found, outcome, self.limits.answer_bytes)

    def _here(self, operation: Operation, request: Plain, progress: Listener | None) -> Outcome:
        report: Report = nobody if progress is None else throttled(progress)
        seconds = self.limits.soft_seconds(operation.name)
        return execute(operation, request, answer_bytes=self.limits.answer_bytes, seconds=seconds, report=report)

    async def _wait_and_compute(self, operation: Operation, request: Plain, progress: Listener | None) -> Outcome:
        try:
            async with asyncio.timeout(self.limits.wait_limit):
                await self._free.acquire()
        except TimeoutError:
            raise Busy(operation.name, self.limits.retry_after) from None
        try:
            try:
                return await self._compute(operation, request, progress)
            except _CrewLost:  # operations are pure, so a second try is safe
                return await self._compute(operation, request, progress)
        except _CrewLost:
            raise WorkerDied(operation.name) from None
        finally:
            self._free.release()

    async def _compute(self, operation: Operation, request: Plain, progress: Listener | None) -> Outcome:
        crew = self._crew
        if crew is None:
            raise NotRunning(operation.name)
        soft, hard = self.limits.soft_seconds(operation.name), self.limits.seconds(operation.name)
        job = Job(next(self._numbers), operation, request, soft, progress is not None)
        if progress is not None:
            crew.relay(job.number, progress)
        try:
            future = crew.schedule(job, hard)
            try:
                return await self._outcome(crew, future, operation, job.number)
            finally:
                future.cancel()  # kills the job where it still runs; nothing where it is done
        except RuntimeError as error:  # BrokenProcessPool is one
            _log.warning("the worker pool broke (%s) and is replaced", type(error).__name__)
            await self._renew(crew)
            raise _CrewLost from error
        finally:
            crew.receiver.forget(job.number)

    async def _outcome(self, crew: Crew, future: "Future[Outcome]", operation: Operation, job: int) -> Outcome:
        waiting = asyncio.wrap_future(future)
        waiting.add_done_callback(_look_at)
        both: set[asyncio.Future[Any]] = {waiting, crew.ended}
        await asyncio.wait(both, timeout=self.limits.start_limit, return_when=asyncio.FIRST_COMPLETED)
        if not waiting.done() and not crew.ended.done():
            if not future.running():
                raise BrokenProcessPool("no worker took the job")
            await asyncio.wait(both, return_when=asyncio.FIRST_COMPLETED)
        if not waiting.done():
            if self._crew is None:
                raise NotRunning(operation.name)
            raise BrokenProcessPool("the pool was replaced while the job ran")
        return _result(waiting, operation.name, self.limits.seconds(operation.name), crew.receiver.culprit(job))

    async def _renew(self, broken: Crew) -> None:
        """Put a new crew in the place of a broken one; once, however many jobs noticed."""
        async with self._renewing:
            if self._crew is not broken:
                return
            broken.end()
            crew = self._new_crew()
            await asyncio.to_thread(crew.open)
            self._crew = crew
            closing = asyncio.create_task(asyncio.to_thread(broken.close))
            self._closing.add(closing)
            closing.add_done_callback(self._closing.discard)

    def _new_crew(self) -> Crew:
        return Crew(self.limits, self.plugins, self._preload, asyncio.get_running_loop())

    async def _warm(self, operation: str) -> None:
        try:
            await self.run(operation, {})
        except (SeamError, ValueError) as error:
            _log.warning("warming up with %s failed: %s", operation, error)


def _result(waiting: "asyncio.Future[Outcome]", operation: str, seconds: float, culprit: str | None) -> Outcome:
    """Return the outcome, or raise what the pool's own errors mean."""
    from pebble import ProcessExpired

    try:
        return waiting.result()
    except BrokenProcessPool:
        raise
    except TimeoutError:
        raise TimeLimit(operation, seconds, culprit) from None
    except ProcessExpired as error:
        raise WorkerDied(operation, error.exitcode, culprit) from None
    except Exception as error:
        raise OperationFailed(operation, f"the pool could not carry it ({type(error).__name__})") from error


def _look_at(waiting: "asyncio.Future[Outcome]") -> None:
    """Look at the exception of a job that nobody waits for any more, so that it is not reported as lost."""
    if not waiting.cancelled():
        waiting.exception()
