"""A crew: one pool of worker processes with its progress pipe, opened and closed as a whole.

When a pool is beyond repair (a worker died while holding a lock, all died at once) the seam opens a new crew.
"""

import asyncio
import contextlib
import multiprocessing
import tempfile
from collections.abc import Callable
from concurrent.futures import Future
from typing import TYPE_CHECKING

from .execute import Outcome, PluginChoice
from .limits import Limits
from .operations import Operation
from .progress import Progress, Receiver
from .worker import READY, Job, Setup, get_ready, work

if TYPE_CHECKING:
    from pebble import ProcessPool


def start_method() -> str:
    """Return how workers are started: from a clean server process, or each afresh where there can be none.

    The server needs a socket in a folder for temporary files; a read-only container may have no such folder.
    """
    if "forkserver" not in multiprocessing.get_all_start_methods():
        return "spawn"
    try:
        tempfile.gettempdir()
    except FileNotFoundError:
        return "spawn"
    return "forkserver"


class Crew:
    """Worker processes and the pipe their progress comes back on. `ended` is done when the crew takes no more jobs."""

    def __init__(
        self,
        limits: Limits,
        plugins: PluginChoice,
        preload: tuple[Operation, ...],
        loop: asyncio.AbstractEventLoop,
    ) -> None:
        self.ended: asyncio.Future[None] = loop.create_future()
        self.ready = asyncio.Event()
        self._limits = limits
        self._loop = loop
        context = multiprocessing.get_context(start_method())
        reader, self._writer = context.Pipe(duplex=False)
        self._reader = reader
        self.receiver = Receiver(reader)
        self._workers_ready: set[float] = set()
        self.receiver.listen(READY, self._count_ready)
        self._setup = Setup(preload, plugins, limits.answer_bytes, limits.memory_bytes, self._writer)
        self._context = context
        self._pool: ProcessPool | None = None

    def open(self) -> None:
        """Start the workers; blocks for some tens of milliseconds, so call it in a thread."""
        from pebble import ProcessPool

        if self._context.get_start_method() == "forkserver":
            # Loaded once in the server, shared by every worker it forks: a killed worker is replaced in milliseconds.
            self._context.set_forkserver_preload(["scantling.work.worker", "pebble.pool.process"])
        self.receiver.start()
        self._pool = ProcessPool(
            max_workers=self._limits.workers,
            max_tasks=self._limits.jobs_per_worker,
            initializer=get_ready,
            initargs=(self._setup,),
            context=self._context,
        )
        if not self._pool.active:  # asking is what starts it
            raise RuntimeError("the worker pool did not start")

    def schedule(self, job: Job, seconds: float) -> "Future[Outcome]":
        """Hand a job to the pool. Raises RuntimeError when the pool is broken or closed."""
        if self._pool is None:
            raise RuntimeError("the crew has not been opened")
        future: Future[Outcome] = self._pool.schedule(work, args=(job,), timeout=seconds)
        return future

    def end(self) -> None:
        """Take no more jobs, and wake everyone who waits for one; call it in the event loop."""
        if not self.ended.done():
            self.ended.set_result(None)

    def close(self) -> None:
        """Stop the workers and close the pipe; blocks until they are gone, so call it in a thread."""
        if self._pool is not None:
            self._pool.stop()  # type: ignore[no-untyped-call]
            self._pool.join()
        with contextlib.suppress(OSError):
            self._writer.send_bytes(b"")
        self._writer.close()

    def relay(self, job: int, listener: Callable[[Progress], None]) -> None:
        """Hand the progress of a job to `listener` in the event loop, until `forget`."""

        def deliver(progress: Progress) -> None:
            if self.receiver.listens(job):
                listener(progress)

        def hand_over(progress: Progress) -> None:
            with contextlib.suppress(RuntimeError):  # the loop has been closed
                self._loop.call_soon_threadsafe(deliver, progress)

        self.receiver.listen(job, hand_over)

    def _count_ready(self, progress: Progress) -> None:
        if progress.best is not None:
            self._workers_ready.add(progress.best)
        if len(self._workers_ready) >= self._limits.workers:
            with contextlib.suppress(RuntimeError):
                self._loop.call_soon_threadsafe(self.ready.set)
