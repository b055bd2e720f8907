"""Every public function of mechanics says its units, validity, what it raises and its source."""

import importlib
import inspect
import pkgutil

import pytest

import scantling.mechanics

MODULES = sorted(module.name for module in pkgutil.iter_modules(scantling.mechanics.__path__))


def public_functions(name: str) -> list[tuple[str, str]]:
    module = importlib.import_module(f"scantling.mechanics.{name}")
    return [
        (member, inspect.getdoc(value) or "")
        for member, value in vars(module).items()
        if inspect.isroutine(value) and not member.startswith("_") and value.__module__ == module.__name__
    ]


@pytest.mark.parametrize("name", MODULES)
def test_docstrings_name_units_validity_raises_and_source(name: str) -> None:
    for function, text in public_functions(name):
        for word in ("Units:", "Valid:", "Raises:", "Source:"):
            assert word in text, f"{name}.{function} does not say {word}"


def test_the_walk_finds_functions() -> None:
    assert sum(len(public_functions(name)) for name in MODULES) > 50
