"""The seam: everything heavy, and all plugin code, runs through `run(operation, plain request) -> plain answer`.

`PoolSeam` runs operations in worker processes with a time limit, a kill and a progress channel; `InlineSeam` has
the same interface and runs them in the calling process.
"""

from typing import Protocol

from .errors import (
    AnswerTooLarge,
    Busy,
    NotRunning,
    OperationFailed,
    SeamError,
    TimeLimit,
    UnknownOperation,
    WorkerDied,
)
from .execute import Plain, PluginChoice
from .inline import InlineSeam, run
from .limits import Limits, RequestLimits, default_workers
from .operations import OPERATIONS, Operation, registry
from .pool import PoolSeam
from .progress import Listener, Progress


class Seam(Protocol):
    """What the door sees of the seam, whichever it is."""

    limits: Limits

    async def start(self, warm: "list[str] | tuple[str, ...]" = ()) -> None:
        """Start what has to be started."""

    async def stop(self) -> None:
        """Stop it."""

    @property
    def ready(self) -> bool:
        """Whether jobs are taken."""
        ...

    @property
    def jobs(self) -> int:
        """How many jobs run or wait."""
        ...

    async def run(self, operation: str, request: Plain, progress: Listener | None = None) -> Plain:
        """Return what the operation answers."""
        ...

    async def run_json(self, operation: str, request: Plain, progress: Listener | None = None) -> bytes:
        """Return what the operation answers as JSON: what is passed on need not be read."""
        ...


__all__ = [
    "OPERATIONS",
    "AnswerTooLarge",
    "Busy",
    "InlineSeam",
    "Limits",
    "Listener",
    "NotRunning",
    "Operation",
    "OperationFailed",
    "Plain",
    "PluginChoice",
    "PoolSeam",
    "Progress",
    "RequestLimits",
    "Seam",
    "SeamError",
    "TimeLimit",
    "UnknownOperation",
    "WorkerDied",
    "default_workers",
    "registry",
    "run",
]
