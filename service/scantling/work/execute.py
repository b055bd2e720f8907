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
Tell = Callable[[str | None], None]


def untold(plugin: str | None) -> None:
    """Tell nobody."""


@dataclass(frozen=True, slots=True)
class PluginChoice:
    """Which plugins to load, by name: those of `allow` (all where it is empty) without those of `block`.

    `*` in `block` loads none. `folder` holds plugins that are not installed (none where it is empty), `named` lists
    more of them as module:object. `seconds` bounds each call of their code.
    """

    allow: tuple[str, ...] = ()
    block: tuple[str, ...] = ()
    folder: str = ""
    named: tuple[str, ...] = ()
    seconds: float = 5.0


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
    tell: Tell = untold,
) -> Outcome:
    """Run the operation; never raises for what the operation does, SystemExit included.

    `tell` is called with a plugin's name before its code runs, and with None after it.
    """
    try:
        function = operation.load()
        wanted = _wanted(operation, plugins, report, seconds, tell)
        if "lists" in operation.needs and _names_lists(request):
            answer = _with_lists(function, request, wanted, plugin_host(plugins))
        else:
            answer = function(request, **wanted)
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


def _with_lists(function: Callable[..., Any], request: Plain, wanted: Mapping[str, object], host: Any) -> Any:  # noqa: ANN401 - whatever an operation answers
    """Return the answer to a request with the lists that it names put in; pointers lead into what the caller wrote."""
    filled = host.fill(request)
    try:
        return filled.answered(function(filled.request, **wanted))
    except RequestError as error:
        raise filled.refused(error) from error


def _names_lists(request: Plain) -> bool:
    """Whether a request names a list of a plugin, in itself or in the request that it carries."""
    inner = request.get("request")
    body = inner if isinstance(inner, dict) else request
    finish = body.get("finish")
    named = isinstance(body.get("stock"), dict) or isinstance(body.get("prices"), dict)
    return named or (isinstance(finish, dict) and "system" in finish)


def _wanted(
    operation: Operation, plugins: PluginChoice, report: Report, seconds: float, tell: Tell
) -> Mapping[str, object]:
    wanted: dict[str, object] = {}
    if "progress" in operation.needs:
        wanted |= {"progress": report, "seconds": seconds}
    if operation.runs_plugins:
        host = plugin_host(plugins)
        host.watch.tell = tell
        asked = {"host": host, "extras": host, "modules": host.modules()}
        wanted |= {name: value for name, value in asked.items() if name in operation.needs}
    return wanted


@cache
def plugin_host(plugins: PluginChoice) -> Any:  # noqa: ANN401 - the host's type is a neighbour's
    """Return the plugin host for a choice of plugins, loaded once a process."""
    # By name: the host is a neighbour, and only processes that run plugin code may load it.
    load: Callable[..., Any] = import_module("scantling.plugins").load_host
    return load(
        allow=plugins.allow,
        block=plugins.block,
        folder=plugins.folder,
        named=plugins.named,
        call_seconds=plugins.seconds,
    )


def _reason(error: BaseException) -> str:
    """Return what happened without the error's own text, which may hold anything."""
    if isinstance(error, MemoryError):
        return "it ran out of memory"
    if isinstance(error, RecursionError):
        return "it called itself too deeply"
    told = getattr(error, "reason", None)
    if isinstance(told, str) and getattr(error, "culprit", None):  # the plugin host's own words
        return told
    return f"it raised {type(error).__name__}"


def _trace(error: BaseException, most: int = 20_000) -> str:
    return "".join(traceback.format_exception(error))[-most:]
