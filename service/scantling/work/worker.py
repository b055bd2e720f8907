"""What runs in a worker process: getting ready, and one job after another."""

import contextlib
import gc
import multiprocessing
import os
import signal
import sys
import threading
from dataclasses import dataclass
from multiprocessing.connection import Connection

from .execute import Outcome, Plain, PluginChoice, execute, plugin_host
from .operations import Operation
from .progress import Progress, Report, nobody, send_to, tell_to, throttled

READY = 0  # the job number under which a worker says that it is ready, its process id as `best`


@dataclass(frozen=True, slots=True)
class Setup:
    """What a worker is told once, when it starts; it loads the operations of `preload` before it takes a job."""

    preload: tuple[Operation, ...]
    plugins: PluginChoice
    answer_bytes: int
    memory_bytes: int | None
    progress: Connection


@dataclass(frozen=True, slots=True)
class Job:
    """One job: its number, what to compute from what, the seconds it may use, whether anyone listens."""

    number: int
    operation: Operation
    request: Plain
    seconds: float
    listened_to: bool


# A pipe's end can be handed to a process only while the process is being started, so the worker has to keep it.
_setup: list[Setup] = []


def get_ready(setup: Setup) -> None:
    """Prepare this process to run jobs. Raises nothing: a worker that fails here would take the pool along."""
    _setup[:] = [setup]
    signal.signal(signal.SIGTERM, signal.SIG_DFL)  # a kill must work inside compiled code too
    _keep_prints_out_of_stdout()
    _limit_memory(setup.memory_bytes)
    threading.Thread(target=_leave_with_service, daemon=True).start()
    _preload(setup)
    gc.collect()
    gc.freeze()  # what is loaded now stays; collecting it again in every job only costs time
    send_to(setup.progress, READY)(Progress(best=os.getpid()))


def work(job: Job) -> Outcome:
    """Run one job; called by the pool in the worker process."""
    setup = _setup[0]
    report: Report = throttled(send_to(setup.progress, job.number)) if job.listened_to else nobody
    outcome = execute(
        job.operation,
        job.request,
        plugins=setup.plugins,
        answer_bytes=setup.answer_bytes,
        seconds=job.seconds,
        report=report,
        tell=tell_to(setup.progress, job.number),
    )
    with contextlib.suppress(OSError, ValueError):
        sys.stdout.flush()
    return outcome


def _preload(setup: Setup) -> None:
    """Load operations, and plugins where they need them; what cannot be loaded fails when it is asked for."""
    for operation in setup.preload:
        with contextlib.suppress(Exception):
            operation.load()
            if operation.runs_plugins:
                plugin_host(setup.plugins)


def _keep_prints_out_of_stdout() -> None:
    """Send what plugin code prints to standard error, and give it nothing to read."""
    with contextlib.suppress(OSError):
        os.dup2(2, 1)
    with contextlib.suppress(OSError):
        nothing = os.open(os.devnull, os.O_RDONLY)
        os.dup2(nothing, 0)
        os.close(nothing)


def _limit_memory(most: int | None) -> None:
    if most is None or sys.platform == "win32":
        return
    import resource

    with contextlib.suppress(OSError, ValueError):
        _, hard = resource.getrlimit(resource.RLIMIT_AS)
        resource.setrlimit(resource.RLIMIT_AS, (most, hard))


def _leave_with_service() -> None:
    """End this process when the service is gone, so that a killed service leaves nothing computing."""
    service = multiprocessing.parent_process()
    if service is not None:
        service.join()
        os._exit(1)
