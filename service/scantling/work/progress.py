"""The progress of a running job, and the channel it comes back on.

All workers share the writing end of one pipe. A message is one write of less than the 512 bytes that POSIX lets
no pipe tear apart (PIPE_BUF), so no lock is needed and a worker killed in the middle of a job leaves nothing
locked and nothing half-written.
"""

import contextlib
import json
import math
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection

INTERVAL = 0.1  # seconds between two messages of a job; a person does not read faster
_LONGEST_NAME = 64
_LARGEST = 480  # bytes, below the least PIPE_BUF that POSIX allows (512) with the pipe's own four-byte header


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a job has come: `share` of the work done (0 to 1), the `best` value so far and its `bound`."""

    share: float | None = None
    best: float | None = None
    bound: float | None = None


Listener = Callable[[Progress], None]
Report = Callable[[float | None, float | None, float | None], None]


def nobody(share: float | None = None, best: float | None = None, bound: float | None = None) -> None:
    """Report to nobody."""


def throttled(send: Listener, interval: float = INTERVAL) -> Report:
    """Return a report function that passes on at most one message each `interval` seconds, the first at once."""
    last = -math.inf

    def report(share: float | None = None, best: float | None = None, bound: float | None = None) -> None:
        nonlocal last
        now = time.monotonic()
        if now - last >= interval:
            last = now
            send(Progress(_finite(share), _finite(best), _finite(bound)))

    return report


def send_to(writer: Connection, job: int) -> Listener:
    """Return a listener that writes the progress of `job` to the shared pipe."""

    def send(progress: Progress) -> None:
        message = json.dumps([job, progress.share, progress.best, progress.bound]).encode()
        if len(message) <= _LARGEST:
            with contextlib.suppress(OSError):  # the service is stopping
                writer.send_bytes(message)

    return send


def tell_to(writer: Connection, job: int) -> Callable[[str | None], None]:
    """Return a function that writes to the shared pipe whose plugin code now runs in `job`; None: none any more."""

    def tell(plugin: str | None) -> None:
        message = json.dumps([job, None if plugin is None else plugin[:_LONGEST_NAME]]).encode()
        if len(message) <= _LARGEST:
            with contextlib.suppress(OSError):  # the service is stopping
                writer.send_bytes(message)

    return tell


class Receiver:
    """Reads the shared pipe in a thread and hands each message to the listener of its job.

    It remembers whose plugin code runs in each job, so that a job that has to be killed can name it.
    """

    def __init__(self, reader: Connection) -> None:
        self._reader = reader
        self._runs: dict[int, str] = {}
        self._listeners: dict[int, Listener] = {}
        self._thread = threading.Thread(target=self._read, name="scantling-progress", daemon=True)

    def start(self) -> None:
        """Start reading."""
        self._thread.start()

    def listen(self, job: int, listener: Listener) -> None:
        """Hand the messages of `job` to `listener`, which is called in the reading thread."""
        self._listeners[job] = listener

    def forget(self, job: int) -> None:
        """Drop what still comes from `job`."""
        self._listeners.pop(job, None)
        self._runs.pop(job, None)

    def culprit(self, job: int) -> str | None:
        """Return the plugin whose code ran last in `job` and has not returned; None where none has."""
        return self._runs.get(job)

    def listens(self, job: int) -> bool:
        """Whether anyone still listens to `job`."""
        return job in self._listeners

    def _read(self) -> None:
        while message := self._next():
            with contextlib.suppress(ValueError, TypeError):  # only a worker's stray write could be malformed
                job, *rest = json.loads(message)
                if len(rest) == 1:
                    self._note(job, rest[0])
                    continue
                share, best, bound = rest
                listener = self._listeners.get(job)
                if listener is not None:
                    listener(Progress(share, best, bound))

        self._reader.close()

    def _note(self, job: int, plugin: str | None) -> None:
        if plugin is None:
            self._runs.pop(job, None)
        else:
            self._runs[job] = plugin

    def _next(self) -> bytes:
        """Return the next message; an empty one when no more will come."""
        try:
            return self._reader.recv_bytes(_LARGEST)
        except (EOFError, OSError):
            return b""


def _finite(value: float | None) -> float | None:
    return None if value is None or not math.isfinite(value) else value
