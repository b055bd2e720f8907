"""What can go wrong between asking for an operation and having its answer.

A request that cannot be computed is none of these: an operation raises `scantling.measure.RequestError` for it,
and that travels back through the seam unchanged.
"""


class SeamError(Exception):
    """An operation gave no answer. `operation` names it; the message is fit for people and leaks nothing."""

    def __init__(self, operation: str, message: str) -> None:
        self.operation = operation
        self.message = message
        super().__init__(message)


class Busy(SeamError):
    """As many jobs run and wait as the service takes. `retry_after` is in whole seconds."""

    def __init__(self, operation: str, retry_after: int) -> None:
        self.retry_after = retry_after
        super().__init__(operation, f"all workers are busy; ask for {operation} again in {retry_after} seconds")


class TimeLimit(SeamError):
    """The job ran longer than `seconds` and its worker was killed; `culprit` names the plugin whose code ran."""

    def __init__(self, operation: str, seconds: float, culprit: str | None = None) -> None:
        self.seconds = seconds
        self.culprit = culprit
        by = f" in plugin {culprit}" if culprit else ""
        super().__init__(operation, f"{operation} was stopped{by} after {seconds:g} seconds")


class WorkerDied(SeamError):
    """The worker process ended before the operation did: out of memory, a crash in compiled code, a kill.

    `culprit` names the plugin whose code ran, or is None.
    """

    def __init__(self, operation: str, exit_code: int | None = None, culprit: str | None = None) -> None:
        self.exit_code = exit_code
        self.culprit = culprit
        by = f" in plugin {culprit}" if culprit else ""
        super().__init__(operation, f"the worker process ended{by} while it was computing {operation}")


class OperationFailed(SeamError):
    """The operation raised, or answered something that is not plain data.

    `log` is the traceback, for the log only. `culprit` names the plugin whose code failed, or is None.
    """

    def __init__(self, operation: str, reason: str, log: str = "", culprit: str | None = None) -> None:
        self.reason = reason
        self.log = log
        self.culprit = culprit
        by = f" in plugin {culprit}" if culprit else ""
        super().__init__(operation, f"{operation} failed{by}: {reason}")


class AnswerTooLarge(SeamError):
    """The answer takes more bytes than `limit`."""

    def __init__(self, operation: str, size: int, limit: int) -> None:
        self.size = size
        self.limit = limit
        super().__init__(operation, f"the answer of {operation} takes {size} bytes; at most {limit} are sent")


class NotRunning(SeamError):
    """The workers have not been started, or are stopping."""

    def __init__(self, operation: str) -> None:
        super().__init__(operation, f"the workers are not running, so {operation} cannot be computed")


class UnknownOperation(LookupError):
    """No operation of this name is registered: a mistake of the caller's code, never of a request."""
