"""Names of a package that are loaded when first asked for, so that who needs one of its modules pays for no other."""

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any


def loaded_later(package: str, modules: Mapping[str, tuple[str, ...]]) -> Callable[[str], Any]:
    """Return the `__getattr__` of a package; `modules` says which of its modules holds which names.

    A name that was asked for once is kept in the package, so that the next time costs nothing.
    """
    home = {name: module for module, names in modules.items() for name in names}

    def attribute(name: str) -> Any:  # noqa: ANN401 - any name of a module that is not loaded yet
        if name not in home:
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        found = getattr(import_module(f"{package}.{home[name]}"), name)
        setattr(import_module(package), name, found)
        return found

    return attribute
