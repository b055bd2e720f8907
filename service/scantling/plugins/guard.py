"""Round every call of plugin code: a limit in time, prints sent aside, and its plugin named when it fails.

The limit in time is an alarm of the process, where there is one and the call is made in the main thread, as it is in
workers; what an alarm cannot stop is stopped by the seam, which kills the worker.
"""

import contextlib
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from types import FrameType


class PluginFailed(Exception):
    """A plugin's code took too long or answered what it may not; `culprit` names it, `reason` says what, for all."""

    def __init__(self, culprit: str, reason: str) -> None:
        self.culprit = culprit
        self.reason = reason
        super().__init__(reason)


class TooSlow(BaseException):
    """The alarm went off while plugin code ran; no plugin's `except Exception` shall swallow it."""


class Watch:
    """Who runs: told before each call of plugin code, and None after it, so that a kill can name a culprit."""

    def __init__(self) -> None:
        self.tell: Callable[[str | None], None] = _nobody


def _nobody(plugin: str | None) -> None:
    """Tell nobody."""


@contextlib.contextmanager
def calling(plugin: str, what: str, seconds: float, watch: Watch) -> Iterator[None]:
    """Guard the block. Raises PluginFailed for what takes too long; anything else is raised with its `culprit`."""
    watch.tell(plugin)
    try:
        with stdout_aside(), alarm(seconds):
            yield
    except TooSlow:
        raise PluginFailed(plugin, f"{what} took longer than {seconds:g} seconds") from None
    except (Exception, SystemExit) as error:
        with contextlib.suppress(AttributeError, TypeError):
            error.culprit = plugin  # type: ignore[union-attr]
        raise
    finally:
        watch.tell(None)


@contextlib.contextmanager
def alarm(seconds: float) -> Iterator[None]:
    """Raise TooSlow in the block after the seconds; does nothing off the main thread or without an alarm."""
    if not hasattr(signal, "setitimer") or threading.current_thread() is not threading.main_thread():
        yield
        return

    def ring(number: int, frame: FrameType | None) -> None:
        raise TooSlow

    before = signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


@contextlib.contextmanager
def stdout_aside() -> Iterator[None]:
    """Send what plugin code prints to standard error: standard output belongs to the program's answer."""
    with contextlib.redirect_stdout(sys.stderr):
        yield
