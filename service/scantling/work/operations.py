"""The operations that the service computes: one frozen table.

An operation is a function of plain data to plain data, named by its dotted path and imported where it runs, so
that a worker loads only what it is asked for. `needs` says what it wants beside the request, by keyword:

- `progress`: a function `progress(share, best, bound)` to report to, and `seconds`, the time it may use;
- `host`: the plugin host;
- `modules`: the furniture modules that the plugin host found, by name;
- `extras`: the host again, for what plugins add to a plan: further checks.

`lists` asks for nothing by keyword: a request that names a plugin's list of stock or prices, or its finish, is handed
over with that put in.

`inline` marks what is ours, touches no plugin and takes under 5 ms: it runs in the calling process.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib import import_module
from types import MappingProxyType
from typing import Any

NEEDS = frozenset({"progress", "host", "modules", "extras", "lists"})


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation: its name, where its function is (`package.module:function`), what it needs, where it runs."""

    name: str
    function: str
    needs: tuple[str, ...] = ()
    inline: bool = False

    def __post_init__(self) -> None:
        if unknown := set(self.needs) - NEEDS:
            raise ValueError(f"operation {self.name!r} needs {sorted(unknown)}; known are {sorted(NEEDS)}")
        if self.inline and self.runs_plugins:
            raise ValueError(f"operation {self.name!r} runs plugin code, so it cannot run inline")

    @property
    def runs_plugins(self) -> bool:
        """Whether code of plugins runs in it."""
        return bool({"host", "modules", "extras"} & set(self.needs))

    def load(self) -> Callable[..., Any]:
        """Import the function. Raises ImportError or AttributeError where there is none."""
        module, _, name = self.function.partition(":")
        function: Callable[..., Any] = getattr(import_module(module), name)
        return function


def registry(*operations: Operation) -> Mapping[str, Operation]:
    """Return the frozen table of the operations. Raises ValueError when two have one name."""
    table = {operation.name: operation for operation in operations}
    if len(table) != len(operations):
        raise ValueError("two operations have one name")
    return MappingProxyType(table)


OPERATIONS = registry(
    Operation("plugins", "scantling.plugins:plugins", needs=("host",)),
    Operation("stock-lists", "scantling.plugins.operations:stock_lists", needs=("host",)),
    Operation("price-lists", "scantling.plugins.operations:price_lists", needs=("host",)),
    Operation("finish-systems", "scantling.plugins.operations:finish_systems", needs=("host",)),
    Operation("exports", "scantling.plugins.operations:exports", needs=("host", "progress", "lists")),
    Operation("modules", "scantling.plan.catalogue:modules", needs=("host",)),
    Operation("module", "scantling.plan.catalogue:module", needs=("host",)),
    Operation("parts", "scantling.plan.parts:parts", needs=("modules", "extras")),
    Operation("projects", "scantling.plan.projects:projects", needs=("modules", "extras", "progress", "lists")),
    Operation("proofs", "scantling.plan.proofs:proofs", needs=("modules",)),
    Operation("dry-fits", "scantling.dryfit:dry_fits"),
    Operation("papers", "scantling.papers.operation:papers", needs=("modules", "extras", "progress", "lists")),
    Operation("nestings", "scantling.nesting:nestings", needs=("progress", "lists")),
    Operation("fastener-checks", "scantling.mechanics:fastener_checks"),
    Operation("costings", "scantling.costing:costings", needs=("lists",)),
)
