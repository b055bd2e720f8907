"""The seam without workers: every operation runs in the calling process. For tests and for use as a library."""

import copy
import json
from collections.abc import Mapping, Sequence

from .errors import UnknownOperation
from .execute import Plain, PluginChoice, execute, settle
from .limits import Limits
from .operations import OPERATIONS, Operation
from .progress import Listener, Report, nobody, throttled


def find(operations: Mapping[str, Operation], name: str) -> Operation:
    """Return the operation of this name. Raises UnknownOperation."""
    try:
        return operations[name]
    except KeyError:
        raise UnknownOperation(f"no operation is called {name!r}; there are {', '.join(operations)}") from None


class InlineSeam:
    """Runs operations here and now. There is no kill: `seconds` is told to the operation and nothing enforces it."""

    def __init__(
        self,
        limits: Limits | None = None,
        plugins: PluginChoice | None = None,
        operations: Mapping[str, Operation] = OPERATIONS,
    ) -> None:
        self.limits = limits or Limits()
        self.plugins = plugins or PluginChoice()
        self._operations = operations

    async def start(self, warm: Sequence[str] = ()) -> None:
        """Do nothing: there is nothing to start."""

    async def stop(self) -> None:
        """Do nothing: there is nothing to stop."""

    @property
    def ready(self) -> bool:
        """Whether jobs are taken: always."""
        return True

    @property
    def jobs(self) -> int:
        """How many jobs run or wait: none outside a call."""
        return 0

    async def run(self, operation: str, request: Plain, progress: Listener | None = None) -> Plain:
        """Return what the operation answers; see `call`."""
        return self.call(operation, request, progress)

    async def run_json(self, operation: str, request: Plain, progress: Listener | None = None) -> bytes:
        """Return what the operation answers as JSON; see `call`."""
        return self._settled(operation, request, progress)

    def call(self, operation: str, request: Plain, progress: Listener | None = None) -> Plain:
        """Return what the operation answers to a copy of the request.

        Raises RequestError for a request that cannot be computed, OperationFailed, AnswerTooLarge,
        UnknownOperation.
        """
        answer: Plain = json.loads(self._settled(operation, request, progress))
        return answer

    def _settled(self, operation: str, request: Plain, progress: Listener | None) -> bytes:
        found = find(self._operations, operation)
        report: Report = nobody if progress is None else throttled(progress)
        outcome = execute(
            found,
            copy.deepcopy(request),
            plugins=self.plugins,
            answer_bytes=self.limits.answer_bytes,
            seconds=self.limits.soft_seconds(operation),
            report=report,
        )
        return settle(found, outcome, self.limits.answer_bytes)


def run(operation: str, request: Plain, progress: Listener | None = None) -> Plain:
    """Run one operation in this process with all installed plugins; see `InlineSeam.call`."""
    return InlineSeam().call(operation, request, progress)
