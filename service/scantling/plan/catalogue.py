"""The furniture modules on offer: a list, and one with its roles and the schema of its parameters."""

from collections.abc import Mapping
from typing import Any, Protocol

from scantling.kit import Module, Role

from .building import find_module


class Host(Protocol):
    """What is asked of the plugin host: its modules by id, and the plugin each came from."""

    def modules(self) -> Mapping[str, type[Module[Any]]]:
        """Return the modules by id."""

    def origin(self, module: str) -> str:
        """Return the name of the plugin a module came from."""


def modules(request: Mapping[str, Any], *, host: Host) -> dict[str, Any]:
    """Answer GET /v1/modules."""
    found = host.modules()
    return {"modules": [_entry(found[id], host.origin(id)) for id in sorted(found)]}


def module(request: Mapping[str, Any], *, host: Host) -> dict[str, Any]:
    """Answer GET /v1/modules/{module}. Raises RequestError (unknown-module)."""
    cls = find_module(host.modules(), request["module"], "/module")
    return {
        **_entry(cls, host.origin(cls.id)),
        "when_not": cls.when_not,
        "sources": list(cls.sources),
        "roles": {name: _role(role) for name, role in cls.roles.items()},
        "parameters": cls.parameters.schema(),
    }


def _entry(cls: type[Module[Any]], plugin: str) -> dict[str, Any]:
    return {"id": cls.id, "title": cls.title, "sentence": cls.sentence, "family": cls.family, "plugin": plugin}


def _role(role: Role) -> dict[str, Any]:
    return {
        "says": role.says,
        "material": role.material,
        "thickness_mm": role.thickness,
        "least_mm": role.least,
        "most_mm": role.most,
        "stock_kind": role.stock_kind,
        "width_mm": role.width,
    }
