"""Runs one operation here and now and turns whatever comes of it into an Outcome.

Used in the worker process, and in the calling process for what runs inline; so an operation behaves alike in both.
"""

import json
import traceback
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from typing import Any, Literal

from scantling.measure.errors import RequestError, RequestProblem

from .errors import AnswerTooLarge, OperationFailed
from .operations import Operation
from .progress import Report, nobody

Status = Literal["answered", "refused", "failed", "too-large"]
Plain = dict[str, Any]


@dataclass(frozen=True, slots=True)
class PluginChoice:
    """Which plugins to load, by name: those of `allow` (all where it is empty) without those of `block`.

    `*` in `block` loads none.
    """

    allow: tuple[str, ...] = ()
    block: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a job: the answer as JSON bytes, or why there is none."""

    status: Status
    body: bytes = b""
    problems: tuple[tuple[str, str, str], ...] = ()
    reason: str = ""
    log: str = ""
    culprit: str | None = None
    size: int = 0


def execute(
    operation: Operation,
    request: Plain,
    *,
    plugins: PluginChoice = PluginChoice(),
    answer_bytes: int,
    seconds: float,
    report: Report = nobody,
) -> Outcome:
    """Run the operation; never raises for what the operation does, SystemExit included."""
    try:
        function = operation.load()
        answer = function(request, **_wanted(operation, plugins, report, seconds))
        body = encode(answer)
    except RequestError as error:
        return Outcome("refused", problems=tuple((p.pointer, p.detail, p.code) for p in error.errors))
    except (Exception, SystemExit) as error:
        culprit = getattr(error, "culprit", None)
        return Outcome("failed", reason=_reason(error), log=_trace(error), culprit=culprit)
    if len(body) > answer_bytes:
        return Outcome("too-large", size=len(body))
    return Outcome("answered", body=body)


def encode(answer: object) -> bytes:
    """Return the answer as JSON. Raises TypeError or ValueError when it is not a dict of plain, finite data."""
    if not isinstance(answer, dict):
        raise TypeError(f"an operation answers a dict, not {type(answer).__name__}")
    text = json.dumps(answer, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    return text.encode("utf-8", "backslashreplace")  # half a character becomes its JSON escape


def settle(operation: Operation, outcome: Outcome, answer_bytes: int) -> bytes:
    """Return the answer as JSON, or raise what stands for the outcome: RequestError or an error of the seam."""
    if outcome.status == "answered":
        return outcome.body
    if outcome.status == "refused":
        raise RequestError(errors=[RequestProblem(*problem) for problem in outcome.problems])
    if outcome.status == "too-large":
        raise AnswerTooLarge(operation.name, outcome.size, answer_bytes)
    raise OperationFailed(operation.name, outcome.reason, outcome.log, outcome.culprit)


def _wanted(operation: Operation, plugins: PluginChoice, report: Report, seconds: float) -> Mapping[str, object]:
    wanted: dict[str, object] = {}
    if "progress" in operation.needs:
        wanted |= {"progress": report, "seconds": seconds}
    if "host" in operation.needs:
        wanted["host"] = plugin_host(plugins)
    if "modules" in operation.needs:
        wanted["modules"] = plugin_host(plugins).modules()
    return wanted


@cache
def plugin_host(plugins: PluginChoice) -> Any:  # noqa: ANN401 - the host's type is a neighbour's
    """Return the plugin host for a choice of plugins, loaded once a process."""
    # By name: the host is a neighbour, and only processes that run plugin code may load it.
    load: Callable[..., Any] = import_module("scantling.plugins").load_host
    return load(allow=plugins.allow, block=plugins.block)


def _reason(error: BaseException) -> str:
    """Return what happened without the error's own text, which may hold anything."""
    if isinstance(error, MemoryError):
        return "it ran out of memory"
    if isinstance(error, RecursionError):
        return "it called itself too deeply"
    return f"it raised {type(error).__name__}"


def _trace(error: BaseException, most: int = 20_000) -> str:
    return "".join(traceback.format_exception(error))[-most:]
