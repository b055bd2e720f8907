"""The plugins of one process: what they offer together, where each thing is from, and their code behind guards."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Any

from scantling.board import Assembly
from scantling.board.assembly import MOST_PARTS
from scantling.findings import Finding, Severity
from scantling.kit import Build, Exporter, FinishSystem, Module, PriceList, StockList, Surroundings
from scantling.kit.exporters import PlanKind
from scantling.plugin_check import Fault, look, whole_piece, write

from .candidate import Entry
from .guard import PluginFailed, Watch, calling
from .lists import Filled, fill

CALL_SECONDS = 5.0


class PluginHost:
    """Those that are loaded, and those that are not with the reason. `watch` is told whose code runs."""

    def __init__(self, entries: Iterable[Entry], seconds: float = CALL_SECONDS) -> None:
        self.watch = Watch()
        self._seconds = seconds
        self._entries = tuple(entries)
        self._modules = {
            id: self._guarded(cls, entry.candidate.name)
            for entry in self._entries
            for id, cls in entry.offer.modules.items()
        }
        self._origins = {id: entry.candidate.name for entry in self._entries for id in entry.offer.modules}

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

    def describe(self) -> list[dict[str, Any]]:
        """Return one row a plugin, for GET /v1/plugins."""
        return [entry.to_plain() for entry in self._entries]

    def stock(self) -> dict[str, tuple[StockList, str]]:
        """Return the stock lists by id, each with the plugin it came from."""
        return {id: (one, e.candidate.name) for e in self._entries for id, one in e.offer.stock.items()}

    def price_lists(self) -> dict[str, tuple[PriceList, str]]:
        """Return the price lists by id, each with the plugin it came from."""
        return {id: (one, e.candidate.name) for e in self._entries for id, one in e.offer.price_lists.items()}

    def finishes(self) -> dict[str, tuple[FinishSystem, str]]:
        """Return the finish systems by id, each with the plugin it came from."""
        return {id: (one, e.candidate.name) for e in self._entries for id, one in e.offer.finishes.items()}

    def exporters(self) -> dict[str, tuple[Exporter, str]]:
        """Return the exporters by format word, each with the plugin it came from."""
        return {id: (one, e.candidate.name) for e in self._entries for id, one in e.offer.exporters.items()}

    def codes(self) -> list[dict[str, Any]]:
        """Return the finding codes of all checks as rows of GET /v1/findings."""
        return [
            {
                "code": code.code,
                "subject": check.id,
                "severity": code.severity.value,
                "title": code.title,
                "meaning": code.meaning,
                "remedy": code.remedy,
                "origin": entry.candidate.name,
            }
            for entry in self._entries
            for check in entry.offer.checks.values()
            for code in check.codes
        ]

    def fill(self, request: Mapping[str, Any]) -> Filled:
        """Return a request with the lists that it names put in. Raises RequestError for one that there is not."""
        return fill(request, self)

    def look(
        self, module: str, family: str, assembly: Assembly, parameters: Mapping[str, Any], place: Surroundings
    ) -> list[Finding]:
        """Return what the checks of all plugins noticed about a piece; one that fails is a finding that names it."""
        found: list[Finding] = []
        for entry in self._entries:
            name = entry.candidate.name
            for check in entry.offer.checks.values():
                try:
                    with calling(name, f"the check {check.id!r}", self._seconds, self.watch):
                        found += look(check, module, family, assembly, parameters, place)
                except (Fault, PluginFailed) as error:
                    found.append(_check_failed(name, str(error)))
                except (Exception, SystemExit) as error:
                    found.append(_check_failed(name, f"the check {check.id!r} raised {type(error).__name__}"))
        return found

    def export(
        self, form: str, kind: PlanKind, name: str, plan: Mapping[str, Any], request: Mapping[str, Any]
    ) -> bytes:
        """Return what the exporter of a format writes. Raises PluginFailed, or what it raised with its `culprit`."""
        exporter, plugin = self.exporters()[form]
        with calling(plugin, f"the exporter {form!r}", self._seconds, self.watch):
            try:
                return write(exporter, kind, name, plan, request)
            except Fault as fault:
                raise PluginFailed(plugin, str(fault)) from fault

    def _guarded(self, cls: type[Module[Any]], plugin: str) -> type[Module[Any]]:
        """Return the module class with a build that cannot change what it is handed; its failures name the plugin."""
        seconds, watch = self._seconds, self.watch

        def build(self: Module[Any], given: Build[Any]) -> Assembly:
            safe = Build(given.parameters, MappingProxyType(dict(given.materials)), given.screws)
            with calling(plugin, f"building {cls.id!r}", seconds, watch):
                try:
                    return whole_piece(cls.build(self, safe), cls.id, MOST_PARTS)
                except Fault as fault:
                    raise PluginFailed(plugin, str(fault)) from fault

        named = {"__module__": cls.__module__, "__qualname__": cls.__qualname__, "__doc__": cls.__doc__}
        return type(cls.__name__, (cls,), {"build": build, **named})


def _check_failed(plugin: str, why: str) -> Finding:
    return Finding(
        "plugin-check-failed",
        Severity.WARNING,
        f"The plugin {plugin!r} could not look at this piece: {why}.",
        remedy="Everything else was checked as usual; tell the plugin's author, or block the plugin by the settings.",
    )
