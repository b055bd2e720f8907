"""The plugin host: finds plugins by entry point, loads them one by one, and keeps the list of what failed and why.

A plugin is an object named by an entry point of the group `scantling`. It declares `interface = 1` and implements
hooks of `scantling.kit.hooks`. One that cannot be loaded is listed with the reason and harms no other. Plugin code
is loaded and run in worker processes only; the door never imports this file.
"""

import contextlib
import re
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from importlib.metadata import EntryPoint, entry_points
from types import FrameType, MappingProxyType
from typing import Any, Literal

import pluggy

from scantling.board import Assembly
from scantling.kit import INTERFACE, Build, Module, hooks
from scantling.plan.building import build_module
from scantling.plan.materials import Supplies
from scantling.plugin_check import Fault, check_module_classes

GROUP = "scantling"
OWN = "scantling"  # our distribution's plugins are loaded first, so that a stranger cannot take their names
ALL = "*"
LOAD_SECONDS = 10.0
_REASON = 400  # characters
_FOLDERS = re.compile(r"(?:[A-Za-z]:)?(?:[/\\][^/\\\s'\":]+)+[/\\]")

State = Literal["loaded", "failed", "left-out"]
Modules = Mapping[str, type[Module[Any]]]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A plugin that was found and not yet imported: its name, where it is from, and how to import it."""

    name: str
    target: str
    distribution: str
    version: str
    load: Callable[[], object]

    @property
    def origin(self) -> str:
        """Return where it is from, for people."""
        return f"{self.target} of {self.distribution} {self.version}"


@dataclass(frozen=True, slots=True)
class Entry:
    """What became of a plugin. `modules` are those it gives, by id; `reason` says why it is not loaded."""

    candidate: Candidate
    state: State
    modules: Modules
    reason: str | None = None
    interface: int | None = None

    def to_plain(self) -> dict[str, object]:
        """Return the entry as JSON members."""
        return {
            "name": self.candidate.name,
            "status": self.state,
            "distribution": self.candidate.distribution,
            "version": self.candidate.version,
            "target": self.candidate.target,
            "interface": self.interface,
            "modules": sorted(self.modules),
            "reason": self.reason,
        }


class ModuleFailed(Exception):  # noqa: N818 - what failed is named
    """A module's code answered rubbish; `culprit` names its plugin."""

    def __init__(self, culprit: str, message: str) -> None:
        self.culprit = culprit
        super().__init__(message)


class PluginHost:
    """The plugins of one process: those that are loaded, and those that are not with the reason."""

    def __init__(self, entries: Iterable[Entry]) -> None:
        self._entries = tuple(entries)
        self._modules = {id: cls for entry in self._entries for id, cls in entry.modules.items()}
        self._origins = {id: entry.candidate.name for entry in self._entries for id in entry.modules}

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Return what became of each plugin, by name."""
        return self._entries

    @property
    def failed(self) -> tuple[Entry, ...]:
        """Return the plugins that should have been loaded and were not."""
        return tuple(entry for entry in self._entries if entry.state == "failed")

    def modules(self) -> dict[str, type[Module[Any]]]:
        """Return the furniture modules by id, each guarded: its failure names its plugin."""
        return dict(sorted(self._modules.items()))

    def origin(self, module: str) -> str:
        """Return the name of the plugin a module came from. Raises KeyError."""
        return self._origins[module]

    def describe(self) -> list[dict[str, object]]:
        """Return one row a plugin, for GET /v1/plugins."""
        return [entry.to_plain() for entry in self._entries]


def load_host(
    allow: Sequence[str] = (),
    block: Sequence[str] = (),
    candidates: Iterable[Candidate] | None = None,
    seconds: float = LOAD_SECONDS,
) -> PluginHost:
    """Load the installed plugins (or the candidates given) and return the host; a bad plugin never raises here.

    `allow`: load only these, by name; empty for all. `block`: do not load these; `*` for none at all. What is left
    out is not even imported. `seconds` bounds the import of each plugin where the platform has an alarm.
    """
    manager = pluggy.PluginManager(hooks.PROJECT)
    manager.add_hookspecs(hooks)
    found = installed() if candidates is None else list(candidates)
    entries: list[Entry] = []
    for candidate in sorted(found, key=lambda c: (c.distribution != OWN, c.name, c.distribution)):
        reason = _left_out(candidate.name, allow, block)
        if reason is not None:
            entries.append(Entry(candidate, "left-out", {}, reason))
        else:
            entries.append(_load_one(manager, candidate, entries, seconds))
    return PluginHost(sorted(entries, key=lambda e: (e.candidate.name, e.candidate.distribution)))


def installed() -> list[Candidate]:
    """Return the plugins that the installed distributions offer; nothing is imported."""
    return [_candidate(point) for point in entry_points(group=GROUP)]


def plugins(plain: Mapping[str, object], *, host: PluginHost) -> dict[str, object]:
    """Answer GET /v1/plugins: the interface the host speaks, and what became of every plugin."""
    return {"interface": INTERFACE, "plugins": host.describe()}


def check_plugin(name: str, candidates: Iterable[Candidate] | None = None) -> dict[str, object]:
    """Return a report on one plugin: whether it loads, and whether each of its modules builds from its defaults.

    `passed` tells all in one word. A name that is not installed gives `status` "not-found" with those that are.
    """
    host = load_host(allow=(name,), candidates=candidates)
    named = [entry for entry in host.entries if entry.candidate.name == name]
    if not named:
        known = ", ".join(sorted({entry.candidate.name for entry in host.entries})) or "none"
        return {
            "name": name,
            "status": "not-found",
            "passed": False,
            "reason": f"installed are: {known}",
            "modules": [],
        }
    entry = next((one for one in named if one.state == "failed"), named[0])
    built = [_try_defaults(host.modules(), module) for module in sorted(entry.modules)]
    passed = entry.state == "loaded" and all(row["builds"] for row in built)
    return {**entry.to_plain(), "passed": passed, "modules": built}


def _candidate(point: EntryPoint) -> Candidate:
    distribution = point.dist
    name = "unknown" if distribution is None else distribution.name
    version = "" if distribution is None else distribution.version
    return Candidate(point.name, point.value, name, version, point.load)


def _left_out(name: str, allow: Sequence[str], block: Sequence[str]) -> str | None:
    if ALL in block or name in block:
        return "blocked by the settings"
    if allow and name not in allow:
        return "not among the plugins that the settings allow"
    return None


def _load_one(manager: "pluggy.PluginManager", candidate: Candidate, earlier: Sequence[Entry], seconds: float) -> Entry:
    """Load one plugin whole or not at all."""
    twin = next((e for e in earlier if e.candidate.name == candidate.name and e.state == "loaded"), None)
    if twin is not None:
        return _failed(candidate, f"the name {candidate.name!r} is taken by {twin.candidate.origin}")
    plugin: object = None
    try:
        with _stdout_aside(), _alarm(seconds):
            plugin = candidate.load()
            interface = _interface(plugin)
            _register(manager, plugin, candidate.name)
            classes = _hook_answer(manager, plugin)
        modules = check_module_classes(classes)
        _refuse_clashes(modules, candidate, earlier)
    except Fault as fault:
        return _rolled_back(manager, plugin, candidate, str(fault))
    except _TooSlow:
        return _rolled_back(manager, plugin, candidate, f"it took longer than {seconds:g} seconds to load")
    except (Exception, SystemExit) as error:
        return _rolled_back(manager, plugin, candidate, f"{type(error).__name__}: {error}")
    guarded = {id: _guarded(cls, candidate.name) for id, cls in modules.items()}
    return Entry(candidate, "loaded", MappingProxyType(guarded), None, interface)


def _interface(plugin: object) -> int:
    declared = getattr(plugin, "interface", None)
    if declared is None:
        raise Fault(f"it declares no interface; a plugin for this host says `interface = {INTERFACE}`")
    if isinstance(declared, bool) or not isinstance(declared, int):
        raise Fault(f"its interface is {declared!r}, not a whole number; this host speaks {INTERFACE}")
    if declared != INTERFACE:
        which = "a newer host" if declared > INTERFACE else "a newer release of the plugin"
        raise Fault(f"it speaks interface {declared} and this host speaks {INTERFACE}; it needs {which}")
    return declared


def _register(manager: "pluggy.PluginManager", plugin: object, name: str) -> None:
    """Register the plugin and refuse hooks that this host does not have. Raises Fault."""
    try:
        manager.register(plugin, name)
    except (pluggy.PluginValidationError, ValueError) as error:
        raise Fault(f"its hooks do not fit: {error}") from error
    callers = manager.get_hookcallers(plugin) or []
    known = [hook.name for hook in vars(manager.hook).values() if hook.has_spec()]
    for caller in callers:
        if not caller.has_spec():
            near = get_close_matches(caller.name, known, n=1) or known
            raise Fault(f"it implements {caller.name!r}, which is no hook of this host; did you mean {near[0]!r}?")
    if not callers:
        raise Fault(f"it implements no hook; mark one with `@hook`: {', '.join(known)}")


def _hook_answer(manager: "pluggy.PluginManager", plugin: object) -> object:
    """Return what this plugin alone answers to the hook."""
    others = [other for other in manager.get_plugins() if other is not plugin]
    answers = manager.subset_hook_caller("furniture_modules", others)()
    return answers[0] if answers else ()


def _refuse_clashes(modules: Modules, candidate: Candidate, earlier: Sequence[Entry]) -> None:
    for entry in earlier:
        both = sorted(set(modules) & set(entry.modules))
        if both:
            raise Fault(
                f"its module {both[0]!r} is also given by {entry.candidate.name!r} ({entry.candidate.origin}); "
                f"this one is {candidate.origin}"
            )


def _rolled_back(manager: "pluggy.PluginManager", plugin: object, candidate: Candidate, reason: str) -> Entry:
    if plugin is not None and manager.is_registered(plugin):
        manager.unregister(plugin)
    return _failed(candidate, reason)


def _failed(candidate: Candidate, reason: str) -> Entry:
    line = " ".join(_FOLDERS.sub("", reason).split())
    return Entry(candidate, "failed", {}, line[:_REASON])


def _guarded(cls: type[Module[Any]], plugin: str) -> type[Module[Any]]:
    """Return the module class with a build that cannot change what it is handed and whose failures name the plugin."""

    def build(self: Module[Any], given: Build[Any]) -> Assembly:
        safe = Build(given.parameters, MappingProxyType(dict(given.materials)))
        try:
            with _stdout_aside():
                assembly: object = cls.build(self, safe)
        except (Exception, SystemExit) as error:
            with contextlib.suppress(AttributeError, TypeError):
                error.culprit = plugin  # type: ignore[union-attr]
            raise
        if not isinstance(assembly, Assembly):
            raise ModuleFailed(plugin, f"{cls.id} built {type(assembly).__name__}, not an Assembly")
        return assembly

    members = {"build": build, "__module__": cls.__module__, "__qualname__": cls.__qualname__, "__doc__": cls.__doc__}
    return type(cls.__name__, (cls,), members)


def _try_defaults(modules: Modules, module: str) -> dict[str, object]:
    """Return whether a module builds from its defaults alone, and if not why."""
    try:
        built = build_module(modules, {"module": module, "parameters": {}}, Supplies("mm", {}), "")
    except (Exception, SystemExit) as error:
        reason = " ".join(_FOLDERS.sub("", f"{type(error).__name__}: {error}").split())
        return {"id": module, "builds": False, "parts": 0, "reason": reason[:_REASON]}
    parts = len(built.assembly.parts)
    return {"id": module, "builds": parts > 0, "parts": parts, "reason": None if parts else "it has no parts"}


class _TooSlow(BaseException):
    """The alarm went off while a plugin was loading; no plugin's `except Exception` shall swallow it."""


@contextlib.contextmanager
def _alarm(seconds: float) -> Iterator[None]:
    """Raise _TooSlow in the block after the seconds; does nothing off the main thread or without an alarm."""
    if not hasattr(signal, "setitimer") or threading.current_thread() is not threading.main_thread():
        yield
        return

    def ring(number: int, frame: FrameType | None) -> None:
        raise _TooSlow

    before = signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


@contextlib.contextmanager
def _stdout_aside() -> Iterator[None]:
    """Send what plugin code prints to standard error: standard output belongs to the program's answer."""
    with contextlib.redirect_stdout(sys.stderr):
        yield
