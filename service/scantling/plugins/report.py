"""The report on one plugin: whether it loads, what it gives, and whether each of its modules builds."""

from collections.abc import Iterable, Sequence
from typing import Any

from scantling.plan.building import build_module
from scantling.plan.materials import Supplies

from .candidate import Candidate, Modules
from .loading import load_host, readable


def check_plugin(
    name: str, candidates: Iterable[Candidate] | None = None, *, folder: str = "", named: Sequence[str] = ()
) -> dict[str, Any]:
    """Return a report on one plugin: whether it loads, and whether each of its modules builds from its defaults.

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
    return {**entry.to_plain(), "passed": passed, "modules": built}


def _try_defaults(modules: Modules, module: str) -> dict[str, Any]:
    """Return whether a module builds from its defaults alone, and if not why."""
    try:
        built = build_module(modules, {"module": module, "parameters": {}}, Supplies("mm", {}), "")
    except (Exception, SystemExit) as error:
        return {"id": module, "builds": False, "parts": 0, "reason": readable(f"{type(error).__name__}: {error}")}
    parts = len(built.assembly.parts)
    return {"id": module, "builds": parts > 0, "parts": parts, "reason": None if parts else "it has no parts"}
