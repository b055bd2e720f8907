"""The numbered interface: this number and the one before it run, the one before with a dated warning; no other does."""

from datetime import date

import pytest

from plugins import hook_zoo, plugin_zoo
from scantling.kit import INTERFACE, hook
from scantling.plugins import SPOKEN, UNTIL, Candidate, check_plugin, load_host, plugins


def candidate(plugin, name="workshop"):
    return Candidate(name, f"{name}:plugin", "workshop-furniture", "2.1", lambda: plugin)


def row_of(plugin):
    host = load_host(candidates=[candidate(plugin)])
    return host, host.describe()[0]


class First:
    """A plugin as interface 1 had it: one hook, and it takes nothing."""

    interface = 1

    @hook
    def furniture_modules(self):
        return [plugin_zoo.Shelf]


class FirstWithAnArgument(First):
    @hook
    def furniture_modules(self, context):
        return [plugin_zoo.Shelf]


class FirstWithANewHook(First):
    @hook
    def stock(self):
        return [hook_zoo.STOCK]


class SecondWithoutAnArgument(First):
    interface = 2


def test_this_host_speaks_two_numbers():
    assert INTERFACE == 2
    assert SPOKEN == (2, 1)
    assert plugins({}, host=load_host(candidates=[]))["interfaces"] == [2, 1]


def test_the_current_interface_runs_without_a_warning():
    host, row = row_of(plugin_zoo.plugin(plugin_zoo.Shelf))
    assert (row["status"], row["interface"]) == ("loaded", INTERFACE)
    assert [w["code"] for w in row["warnings"]] == ["no-manifest"]
    assert "wall-shelf" in host.modules()


def test_the_interface_before_runs_with_a_warning_that_has_its_name_and_a_date():
    host, row = row_of(First())
    assert (row["status"], row["interface"]) == ("loaded", 1)
    assert "wall-shelf" in host.modules()
    (warned,) = [w for w in row["warnings"] if w["code"] == "interface-deprecated"]
    assert "'workshop'" in warned["message"]
    assert warned["until"] in warned["message"]
    assert date.fromisoformat(warned["until"]) == date.fromisoformat(UNTIL[1])
    report = check_plugin("workshop", [candidate(First())])
    assert report["passed"] is True
    assert report["warnings"][0]["until"] == warned["until"]


def test_every_number_before_the_current_one_has_its_date():
    assert set(UNTIL) == set(SPOKEN) - {INTERFACE}


@pytest.mark.parametrize(
    ("interface", "reason"), [(INTERFACE - 2, "a newer release of the plugin"), (INTERFACE + 1, "a newer host")]
)
def test_other_numbers_are_refused(interface, reason):
    host, row = row_of(plugin_zoo.plugin(plugin_zoo.Shelf, interface=interface))
    assert row["status"] == "failed"
    assert f"it speaks interface {interface} and this host speaks 2 and 1; it needs {reason}" in row["reason"]
    assert host.modules() == {}


@pytest.mark.parametrize(
    ("plugin", "reason"),
    [
        (FirstWithAnArgument(), "'furniture_modules' takes context; in interface 1 it takes nothing"),
        (FirstWithANewHook(), "'stock' came with interface 2, and it declares interface 1"),
        (SecondWithoutAnArgument(), "'furniture_modules' takes nothing; in interface 2 a hook takes one argument"),
    ],
)
def test_a_hook_takes_what_its_interface_hands_it(plugin, reason):
    _, row = row_of(plugin)
    assert row["status"] == "failed"
    assert reason in row["reason"]
