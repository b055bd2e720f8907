"""The numbered interface: which numbers this host speaks, until when, and what a hook of each number takes.

A plugin that speaks the number before the current one still runs, with a warning that names it and a date.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from inspect import signature
from types import MappingProxyType
from typing import Any

from scantling.kit import INTERFACE, hooks

from .fault import Fault
from .offer import HOOKS

SPOKEN = (INTERFACE, INTERFACE - 1)
UNTIL: Mapping[int, str] = MappingProxyType({1: "2027-06-30"})  # the last day on which a release still speaks it
IN_FIRST = ("furniture_modules",)  # the hooks there were in interface 1
ARGUMENT = "context"


@dataclass(frozen=True, slots=True)
class Warned:
    """Something about a plugin that is loaded all the same; `until` is the last day on which it still is, if any."""

    code: str
    message: str
    until: str | None = None

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        return {"code": self.code, "message": self.message, "until": self.until}


def implemented_hooks(plugin: object) -> set[str]:
    """Return the names of this host's hooks that a plugin implements, as the marker of the kit leaves them."""
    mark = f"{hooks.PROJECT}_impl"
    return {name for name in HOOKS if hasattr(getattr(plugin, name, None), mark)}


def declared_interface(plugin: object) -> int:
    """Return the interface a plugin speaks. Raises Fault for one that this host does not speak."""
    declared = getattr(plugin, "interface", None)
    spoken = " and ".join(str(number) for number in SPOKEN)
    if declared is None:
        raise Fault(f"it declares no interface; a plugin for this host says `interface = {INTERFACE}`")
    if isinstance(declared, bool) or not isinstance(declared, int):
        raise Fault(f"its interface is {declared!r}, not a whole number; this host speaks {spoken}")
    if declared not in SPOKEN:
        which = "a newer host" if declared > INTERFACE else "a newer release of the plugin"
        raise Fault(f"it speaks interface {declared} and this host speaks {spoken}; it needs {which}")
    return declared


def check_hooks(plugin: object, implemented: set[str], interface: int) -> None:
    """Check that hooks take what their interface hands them. Raises Fault."""
    for name in HOOKS:
        if name not in implemented:
            continue
        takes = list(signature(getattr(plugin, name)).parameters)
        if interface == 1 and name not in IN_FIRST:
            raise Fault(f"its hook {name!r} came with interface 2, and it declares interface 1")
        if interface == 1 and takes:
            raise Fault(f"its hook {name!r} takes {', '.join(takes)}; in interface 1 it takes nothing")
        if interface >= 2 and takes != [ARGUMENT]:
            has = f"takes {', '.join(takes)}" if takes else "takes nothing"
            raise Fault(f"its hook {name!r} {has}; in interface {interface} a hook takes one argument, `{ARGUMENT}`")


def deprecated(name: str, interface: int) -> tuple[Warned, ...]:
    """Return the warning about a plugin that speaks the interface before the current one."""
    if interface == INTERFACE:
        return ()
    until = UNTIL[interface]
    message = (
        f"the plugin {name!r} speaks interface {interface}; releases up to {until} still take it, later ones speak "
        f"{INTERFACE} alone: let its hooks take `{ARGUMENT}` and say `interface = {INTERFACE}`"
    )
    return (Warned("interface-deprecated", message, until),)
