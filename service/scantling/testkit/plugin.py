"""The pytest plugin: the fixtures `conforms`, `plugin_conforms` and `golden`, and the option --update-golden."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from scantling.kit import Module

from .conform import assert_conforms
from .golden import assert_golden
from .plugins import assert_plugin_conforms


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add --update-golden, which rewrites golden files instead of comparing with them."""
    parser.addoption("--update-golden", action="store_true", help="rewrite the golden files of furniture modules")


@pytest.fixture
def conforms() -> Callable[[type[Module[Any]]], None]:
    """Return the check that a furniture module keeps every rule: `conforms(MyStand)`."""
    return assert_conforms


@pytest.fixture
def plugin_conforms() -> Callable[..., None]:
    """Return the check that a plugin keeps every rule: `plugin_conforms("my-plugin")`."""
    return assert_plugin_conforms


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[..., None]:
    """Return the comparison with a golden file beside the test: `golden(MyStand)` or `golden(MyStand, width=700)`."""
    folder = Path(request.path).parent / "golden"
    update = bool(request.config.getoption("--update-golden"))

    def compare(module: type[Module[Any]], **values: Any) -> None:  # noqa: ANN401 - any parameter's value
        folder.mkdir(exist_ok=True)
        name = "-".join([module.id, *(f"{k}-{v}" for k, v in sorted(values.items()))])
        assert_golden(module, folder / f"{name}.txt", update, values)

    return compare
