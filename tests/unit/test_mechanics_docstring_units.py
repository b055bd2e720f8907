"""The units part of every public docstring of the mechanics names a unit, not just the word."""

import importlib
import inspect
import pkgutil
import re

import pytest

import scantling.mechanics

UNIT = re.compile(
    r"`unit`|%|"
    r"\b(mm2?|N|N/mm2?|N m|kg|kg/m3|psi|degrees|miles|minutes|litres|kPa|lb|pieces|dBA|ratio|ratios|no unit|none)\b"
)


def units_part(text):
    """Return what stands between `Units:` and `Valid:`."""
    found = re.search(r"Units:(.*?)Valid:", text, re.DOTALL)
    return found.group(1) if found else ""


def walk():
    for found in pkgutil.iter_modules(scantling.mechanics.__path__):
        module = importlib.import_module(f"scantling.mechanics.{found.name}")
        for name, function in inspect.getmembers(module, inspect.isroutine):
            if not name.startswith("_") and function.__module__ == module.__name__:
                yield f"{found.name}.{name}", function


WALKED = list(walk())


def test_there_is_something_to_walk():
    names = [name for name, _ in WALKED]
    assert len(names) > 150
    assert {"beams.deflection", "strength.wood_values", "plates.plate_factors"} <= set(names)  # cached ones too


@pytest.mark.parametrize(("name", "function"), WALKED, ids=[n for n, _ in WALKED])
def test_units_are_named(name, function):
    assert UNIT.search(units_part(function.__doc__ or "")), f"{name} names no unit"


def test_the_walk_would_notice():
    assert not UNIT.search(units_part("Return the load. Units: as usual. Valid: always."))
    assert not UNIT.search(units_part("Return the load."))
