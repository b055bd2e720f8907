"""Packages that load their names when first asked for answer the right thing, whatever was imported before."""

import subprocess
import sys
from importlib import import_module

import pytest

LAZY = ("scantling.board", "scantling.dryfit", "scantling.measure", "scantling.tables")
PROBE = """
import importlib, pkgutil, sys, types
package = importlib.import_module(sys.argv[1])
if sys.argv[2] == "after":
    for module in pkgutil.iter_modules(package.__path__):
        importlib.import_module(f"{package.__name__}.{module.name}")
print([n for n in package.__all__ if isinstance(getattr(package, n), types.ModuleType)])
"""


@pytest.mark.parametrize("when", ["before", "after"])
@pytest.mark.parametrize("package", LAZY)
def test_every_name_is_what_it_says_and_no_module_of_the_same_name(package, when):
    command = [sys.executable, "-c", PROBE, package, when]
    assert subprocess.run(command, capture_output=True, text=True, check=True).stdout.strip() == "[]"


@pytest.mark.parametrize("package", LAZY)
def test_a_name_that_is_not_there_is_told(package):
    with pytest.raises(AttributeError, match="no_such_name"):
        import_module(package).no_such_name  # noqa: B018 - the look-up is the test


def test_the_dry_fit_loads_no_reader_of_files_and_no_grammar():
    """What the geometry needs is arithmetic; tables are read when the first screw is looked at."""
    code = "import sys, numpy; before = set(sys.modules); import scantling.dryfit; print(set(sys.modules) - before)"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    for name in (
        "csv",
        "tomllib",
        "pint",
        "pydantic",
        "scantling.measure.length_grammar",
        "scantling.tables.fasteners",
    ):
        assert f"'{name}'" not in loaded


def test_an_idle_worker_holds_no_plan_and_no_papers():
    """Every worker loads the plugin host at its start; the plan doubles its memory and waits for the first job."""
    code = "import sys, scantling.plugins as p; p.load_host(); print(*sorted(sys.modules))"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert "scantling_furniture" in loaded
    heavy = {"scantling.plan.projects", "scantling.plan.checks", "scantling.papers.bundle", "scantling.nesting.nest"}
    assert not heavy & set(loaded)
