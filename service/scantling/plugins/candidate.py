"""A plugin that was found and not yet imported, and what became of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Literal

from scantling.kit import Module
from scantling.plugin_check import Manifest, Offer, Warned

State = Literal["loaded", "failed", "left-out"]
Source = Literal["entry point", "folder", "list"]
Modules = Mapping[str, type[Module[Any]]]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A plugin that was found: its name, where it is from, how to import it, and its manifest where it has one.

    `manifest_fault` says what is wrong with a manifest that cannot be read. `forget` undoes an import that failed.
    """

    name: str
    target: str
    distribution: str
    version: str
    load: Callable[[], object]
    source: Source = "entry point"
    manifest: Manifest | None = None
    manifest_fault: str | None = None
    forget: Callable[[], None] | None = None

    @property
    def origin(self) -> str:
        """Return where it is from, for people."""
        return f"{self.target} of {self.distribution} {self.version}".strip()


@dataclass(frozen=True, slots=True)
class Entry:
    """What became of a plugin: what it offers where it is loaded; `reason` says why it is not."""

    candidate: Candidate
    state: State
    offer: Offer = field(default_factory=Offer)
    reason: str | None = None
    interface: int | None = None
    hooks: tuple[str, ...] = ()
    warnings: tuple[Warned, ...] = ()
    plugin: object = None

    @property
    def modules(self) -> Modules:
        """Return the furniture modules it gives, by id."""
        return MappingProxyType(dict(self.offer.modules))

    def to_plain(self) -> dict[str, Any]:
        """Return the entry as JSON members."""
        manifest = self.candidate.manifest
        names = self.offer.names()
        modules = names.pop("modules")
        return {
            "name": self.candidate.name,
            "status": self.state,
            "source": self.candidate.source,
            "distribution": self.candidate.distribution,
            "version": self.candidate.version,
            "target": self.candidate.target,
            "interface": self.interface,
            "hooks": sorted(self.hooks),
            "modules": modules,
            "offers": names,
            "reason": self.reason,
            "warnings": [warned.to_plain() for warned in self.warnings],
            "manifest": None if manifest is None else manifest.to_plain(),
        }
