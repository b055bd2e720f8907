"""The report on one plugin: whether it loads, what it gives, and whether each of its modules builds."""

from collections.abc import Iterable, Sequence
from typing import Any

from .candidate import Candidate, Entry, Modules
from .guard import PluginFailed, Watch, calling
from .loading import load_host, readable

CONFORM_SECONDS = 300.0


def check_plugin(
    name: str,
    candidates: Iterable[Candidate] | None = None,
    *,
    folder: str = "",
    named: Sequence[str] = (),
    conform: bool = False,
) -> dict[str, Any]:
    """Return a report on one plugin: whether it loads, and whether each of its modules builds from its defaults.

    `conform` adds what the test kit has against it, as `faults`; a plugin with any does not pass.
    `passed` tells all in one word. A name that is not found gives `status` "not-found" with those that are.
    """
    host = load_host(allow=(name,), candidates=candidates, folder=folder, named=named)
    of_name = [entry for entry in host.entries if entry.candidate.name == name]
    if not of_name:
        known = ", ".join(sorted({entry.candidate.name for entry in host.entries})) or "none"
        return {
            "name": name,
            "status": "not-found",
            "passed": False,
            "reason": f"installed are: {known}",
            "modules": [],
            "warnings": [],
        }
    entry = next((one for one in of_name if one.state == "failed"), of_name[0])
    built = [_try_defaults(host.modules(), module) for module in sorted(entry.modules)]
    passed = entry.state == "loaded" and all(row["builds"] for row in built)
    report = {**entry.to_plain(), "passed": passed, "modules": built}
    if conform and entry.state == "loaded":
        report["faults"] = _faults(entry)
        report["passed"] = passed and not report["faults"]
    return report


def _faults(entry: Entry) -> list[str]:
    """Return what the test kit has against a loaded plugin; it is given a time, as any plugin's code is."""
    from scantling.testkit import plugin_faults

    name = entry.candidate.name
    try:
        with calling(name, "the test kit", CONFORM_SECONDS, Watch()):
            found = plugin_faults(entry.plugin, entry.candidate.manifest)
    except PluginFailed as slow:
        return [f"within budget ({name}): {slow.reason}"]
    return [readable(fault) for fault in found]


def _try_defaults(modules: Modules, module: str) -> dict[str, Any]:
    """Return whether a module builds from its defaults alone, and if not why."""
    from scantling.plan.building import build_module
    from scantling.plan.materials import Supplies

    try:
        built = build_module(modules, {"module": module, "parameters": {}}, Supplies("mm", {}), "")
    except (Exception, SystemExit) as error:
        return {"id": module, "builds": False, "parts": 0, "reason": readable(f"{type(error).__name__}: {error}")}
    parts = len(built.assembly.parts)
    return {"id": module, "builds": parts > 0, "parts": parts, "reason": None if parts else "it has no parts"}
