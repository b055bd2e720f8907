"""The hooks a plugin may implement (interface 1). Host and plugins share the pluggy project name "scantling"."""

from collections.abc import Sequence

import pluggy

from .module import Module

PROJECT = "scantling"
hookspec = pluggy.HookspecMarker(PROJECT)
hook = pluggy.HookimplMarker(PROJECT)


@hookspec
def furniture_modules() -> Sequence[type[Module[object]]]:  # type: ignore[type-var,empty-body]
    """Return the furniture module classes this plugin adds."""
