"""Loading plugins one by one, whole or not at all: a bad one is listed with the reason and harms no other."""

import re
from collections.abc import Iterable, Sequence
from difflib import get_close_matches

import pluggy

from scantling.kit import hooks
from scantling.papers.forms import FORMATS
from scantling.plugin_check import (
    ARGUMENT,
    HOOKS,
    SORTS,
    Fault,
    Offer,
    Warned,
    check_hooks,
    context_for,
    declared_interface,
    deprecated,
    hold_to,
    read_offer,
)

from .candidate import Candidate, Entry
from .discovery import found as find_all
from .guard import PluginFailed, Watch, calling
from .host import PluginHost

OWN = "scantling"  # our distribution's plugins are loaded first, so that a stranger cannot take their names
ALL = "*"
LOADING = 2.0  # times the seconds of a call, for the import of a plugin
CALL_SECONDS = 5.0
OWN_FORMATS = ("json", "csv", "text", *FORMATS)
OWN_MEDIA_TYPES = ("application/json", "text/csv", "text/plain", "application/problem+json", *FORMATS.values())
_REASON = 400  # characters
_FOLDERS = re.compile(r"(?:[A-Za-z]:)?(?:[/\\][^/\\\s'\":]+)+[/\\]")


def load_host(
    allow: Sequence[str] = (),
    block: Sequence[str] = (),
    candidates: Iterable[Candidate] | None = None,
    seconds: float | None = None,
    *,
    folder: str = "",
    named: Sequence[str] = (),
    call_seconds: float = CALL_SECONDS,
) -> PluginHost:
    """Load the plugins there are (or the candidates given) and return the host; a bad plugin never raises here.

    `allow`: load only these, by name; empty for all. `block`: do not load these; `*` for none at all. What is left
    out is not even imported. `folder` and `named` add plugins that are not installed. `call_seconds` bounds each call
    of a plugin's code and `seconds` (twice that where it is None) its import, where the platform has an alarm.
    """
    to_load = LOADING * call_seconds if seconds is None else seconds
    manager = pluggy.PluginManager(hooks.PROJECT)
    manager.add_hookspecs(hooks)
    candidates = find_all(folder, named) if candidates is None else list(candidates)
    entries: list[Entry] = []
    for candidate in sorted(candidates, key=lambda c: (c.distribution != OWN, c.name, c.distribution)):
        reason = _left_out(candidate.name, allow, block)
        if reason is not None:
            entries.append(Entry(candidate, "left-out", reason=reason))
        else:
            entries.append(_load_one(manager, candidate, entries, to_load))
    return PluginHost(sorted(entries, key=lambda e: (e.candidate.name, e.candidate.distribution)), call_seconds)


def readable(error: object) -> str:
    """Return what went wrong in one line, without the folders of this machine."""
    return " ".join(_FOLDERS.sub("", str(error)).split())[:_REASON]


def _left_out(name: str, allow: Sequence[str], block: Sequence[str]) -> str | None:
    if ALL in block or name in block:
        return "blocked by the settings"
    if allow and name not in allow:
        return "not among the plugins that the settings allow"
    return None


def _load_one(manager: "pluggy.PluginManager", candidate: Candidate, earlier: Sequence[Entry], seconds: float) -> Entry:
    """Load one plugin whole or not at all."""
    twin = next((e for e in earlier if e.candidate.name == candidate.name and e.state == "loaded"), None)
    plugin: object = None
    try:
        if candidate.manifest_fault is not None:
            raise Fault(candidate.manifest_fault)
        if twin is not None:
            raise Fault(
                f"the name {candidate.name!r} is taken by {twin.candidate.origin}; this one is {candidate.origin}"
            )
        with calling(candidate.name, "loading it", seconds, Watch()):
            plugin = candidate.load()
            interface = declared_interface(plugin)
            implemented = _register(manager, plugin, candidate.name)
            check_hooks(plugin, implemented, interface)
            offer = read_offer(_answers(manager, plugin, implemented, candidate.name, interface))
        if candidate.manifest is not None:
            hold_to(candidate.manifest, candidate.name, candidate.version, interface, implemented, offer)
        _refuse_clashes(offer, candidate, earlier)
    except PluginFailed:
        return _rolled_back(manager, plugin, candidate, f"it took longer than {seconds:g} seconds to load")
    except Fault as fault:
        return _rolled_back(manager, plugin, candidate, str(fault))
    except (Exception, SystemExit) as error:
        return _rolled_back(manager, plugin, candidate, f"{type(error).__name__}: {error}")
    warnings = (*deprecated(candidate.name, interface), *_unmanifested(candidate))
    return Entry(candidate, "loaded", offer, None, interface, tuple(sorted(implemented)), warnings, plugin)


def _register(manager: "pluggy.PluginManager", plugin: object, name: str) -> set[str]:
    """Register the plugin and return the hooks it implements. Raises Fault for hooks that this host does not have."""
    try:
        manager.register(plugin, name)
    except (pluggy.PluginValidationError, ValueError) as error:
        raise Fault(f"its hooks do not fit: {error}") from error
    callers = manager.get_hookcallers(plugin) or []
    for caller in callers:
        if caller.name not in HOOKS:
            near = get_close_matches(caller.name, HOOKS, n=1) or HOOKS
            raise Fault(f"it implements {caller.name!r}, which is no hook of this host; did you mean {near[0]!r}?")
    if not callers:
        raise Fault(f"it implements no hook; mark one with `@hook`: {', '.join(HOOKS)}")
    return {caller.name for caller in callers}


def _answers(
    manager: "pluggy.PluginManager", plugin: object, implemented: set[str], name: str, interface: int
) -> dict[str, object]:
    """Return what this plugin alone answers to each hook it implements."""
    others = [other for other in manager.get_plugins() if other is not plugin]
    answers: dict[str, object] = {}
    for hook in HOOKS:
        if hook in implemented:
            context = context_for(hook, name, interface, OWN_FORMATS, OWN_MEDIA_TYPES)
            given = manager.subset_hook_caller(hook, others)(**{ARGUMENT: context})
            answers[hook] = given[0] if given else ()
    return answers


def _refuse_clashes(offer: Offer, candidate: Candidate, earlier: Sequence[Entry]) -> None:
    """Raise Fault where something has the name of another plugin's, or of the service's own."""
    own = {"formats": OWN_FORMATS, "media_types": OWN_MEDIA_TYPES}
    for sort, names in offer.names().items():
        taken = sorted(set(names) & set(own.get(sort, ())))
        if taken:
            raise Fault(f"its {SORTS[sort]} {taken[0]!r} is the service's own; this one is {candidate.origin}")
        for entry in earlier:
            both = sorted(set(names) & set(entry.offer.names()[sort]))
            if both:
                raise Fault(
                    f"its {SORTS[sort]} {both[0]!r} is also given by {entry.candidate.name!r} "
                    f"({entry.candidate.origin}); this one is {candidate.origin}"
                )


def _unmanifested(candidate: Candidate) -> tuple[Warned, ...]:
    if candidate.manifest is not None:
        return ()
    message = (
        f"the plugin {candidate.name!r} has no scantling_plugin.toml, so nothing is known of it until it is loaded"
    )
    return (Warned("no-manifest", message),)


def _rolled_back(manager: "pluggy.PluginManager", plugin: object, candidate: Candidate, reason: str) -> Entry:
    if plugin is not None and manager.is_registered(plugin):
        manager.unregister(plugin)
    if candidate.forget is not None:
        candidate.forget()
    return Entry(candidate, "failed", reason=readable(reason))
