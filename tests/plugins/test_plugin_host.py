"""The plugin host against a zoo of plugins: what is loaded, what is refused and why, and that no one harms another."""

import json
import time
from types import MappingProxyType

import pytest

from plugins import plugin_zoo as zoo
from scantling.kit import INTERFACE, Module
from scantling.plan.building import build_module
from scantling.plan.materials import Supplies
from scantling.plugins import Candidate, check_plugin, load_host, plugins


def candidate(load, name="workshop", distribution="workshop-furniture", version="2.1"):
    return Candidate(name, f"{name}:plugin", distribution, version, load if callable(load) else lambda: load)


GOOD = candidate(lambda: zoo.plugin(zoo.Shelf), "good", "good-furniture")


def beside_a_good_one(load, **more):
    """Load a plugin beside a good one and return its row; the good one must not have suffered."""
    host = load_host(candidates=[GOOD, candidate(load, **more)], seconds=0.3)
    rows = {row["name"]: row for row in host.describe()}
    assert rows["good"]["status"] == "loaded"
    assert "wall-shelf" in host.modules()
    return rows["workshop"]


def other(**members):
    """Return a plugin that gives one changed module."""
    return lambda: zoo.plugin(zoo.changed("Other", **{"id": "other", **members}))


def test_a_good_plugin_is_loaded_and_described():
    host = load_host(candidates=[GOOD])
    (row,) = host.describe()
    assert row.pop("warnings")[0]["code"] == "no-manifest"
    assert not any(row.pop("offers").values())
    assert row == {
        "name": "good",
        "status": "loaded",
        "source": "entry point",
        "distribution": "good-furniture",
        "version": "2.1",
        "target": "good:plugin",
        "interface": INTERFACE,
        "hooks": ["furniture_modules"],
        "modules": ["wall-shelf"],
        "reason": None,
        "manifest": None,
    }
    assert issubclass(host.modules()["wall-shelf"], Module)
    assert host.origin("wall-shelf") == "good"
    assert not host.failed
    answer = plugins({}, host=host)
    assert answer["plugins"] == host.describe()
    json.dumps(answer)


@pytest.mark.parametrize(
    ("load", "reason"),
    [
        (zoo.raises_on_import, "ImportError: No module named 'mortise'"),
        (zoo.leaves_on_import, "SystemExit: 1"),
        (zoo.Undeclared, f"declares no interface; a plugin for this host says `interface = {INTERFACE}`"),
        (
            lambda: zoo.plugin(zoo.Shelf, interface=INTERFACE + 1),
            f"interface {INTERFACE + 1} and this host speaks {INTERFACE} and {INTERFACE - 1}; it needs a newer host",
        ),
        (lambda: zoo.plugin(zoo.Shelf, interface=INTERFACE - 2), "a newer release of the plugin"),
        (lambda: zoo.plugin(zoo.Shelf, interface="1"), "'1', not a whole number"),
        (lambda: zoo.plugin(zoo.Shelf, interface=True), "True, not a whole number"),
        (zoo.WrongHook, "'furniture_module', which is no hook of this host; did you mean 'furniture_modules'?"),
        (zoo.WrongArgument, "its hooks do not fit"),
        (zoo.NoHook, "implements no hook"),
        (zoo.RaisesInHook, "LookupError: no drawings in shelf.txt"),
        (lambda: zoo.Answers(7), "answered a int, not a list of module classes"),
        (lambda: zoo.Answers({"a": zoo.Shelf}), "answered a dict"),
        (lambda: zoo.Answers([zoo.Shelf()]), "a Shelf, which is no subclass of Module"),
        (lambda: zoo.Answers([dict]), "gave dict, which is no subclass of Module"),
        (lambda: zoo.plugin(zoo.Unfinished), "Unfinished does not implement build"),
        (other(id="Other Shelf"), "Other.id is 'Other Shelf'; it is small letters"),
        (other(title=" "), "Other.title is ' '; it is a text for people"),
        (other(when_not=None), "Other.when_not is None"),
        (other(parameters=zoo.PlainParameters), "PlainParameters, which is no subclass of Parameters"),
        (other(parameters=zoo.UndeclaredParameter), "UndeclaredParameter is not a dataclass"),
        (other(roles={}), "Other.roles is a dict; it maps"),
        (other(roles={"board": "plywood"}), "Other.roles['board'] is a str, not a Role"),
        (lambda: zoo.plugin(zoo.changed("A", id="a"), zoo.changed("B", id="a")), "two modules with the id 'a'"),
        (object, "declares no interface"),
        (lambda: None, "declares no interface"),
    ],
)
def test_a_bad_plugin_is_listed_with_its_reason_and_harms_no_other(load, reason):
    row = beside_a_good_one(load)
    assert row["status"] == "failed"
    assert reason in row["reason"]
    assert row["modules"] == []
    assert "/" not in row["reason"]


def test_a_plugin_that_hangs_on_import_is_given_up():
    began = time.monotonic()
    row = beside_a_good_one(zoo.hangs_on_import)
    assert time.monotonic() - began < 3
    assert row["reason"] == "it took longer than 0.3 seconds to load"


def test_a_plugin_may_answer_a_generator():
    row = beside_a_good_one(lambda: zoo.Answers(zoo.changed("G", id=name) for name in ("one", "two")))
    assert row["modules"] == ["one", "two"]


def test_prints_do_not_reach_standard_output(capsys):
    host = load_host(candidates=[candidate(zoo.chatters_on_import)])
    assert host.describe()[0]["status"] == "loaded"
    loud = load_host(candidates=[candidate(lambda: zoo.plugin(zoo.changed("L", build=zoo.prints_in_build)))])
    assert build_module(loud.modules(), {"module": "wall-shelf"}, Supplies("mm", {}), "").assembly.parts
    heard = capsys.readouterr()
    assert heard.out == ""
    assert "hello from the plugin" in heard.err
    assert "building" in heard.err


def test_a_module_id_that_is_taken_is_refused_with_both_origins():
    row = beside_a_good_one(lambda: zoo.plugin(zoo.changed("Fine", id="fine"), zoo.Shelf))
    assert row["status"] == "failed"
    assert "its module 'wall-shelf' is also given by 'good' (good:plugin of good-furniture 2.1)" in row["reason"]
    assert "workshop:plugin of workshop-furniture 2.1" in row["reason"]
    host = load_host(candidates=[GOOD, candidate(lambda: zoo.plugin(zoo.changed("Fine", id="fine"), zoo.Shelf))])
    assert set(host.modules()) == {"wall-shelf"}  # nothing of the refused plugin is left


def test_a_plugin_name_that_is_taken_is_refused_with_the_origin():
    twin = candidate(other(), "good", "zebra-furniture")
    host = load_host(candidates=[twin, GOOD])
    assert [(row["distribution"], row["status"]) for row in host.describe()] == [
        ("good-furniture", "loaded"),
        ("zebra-furniture", "failed"),
    ]
    assert "taken by good:plugin of good-furniture 2.1" in host.failed[0].reason


def test_a_stranger_cannot_take_the_name_of_what_ships():
    ours = candidate(lambda: zoo.plugin(zoo.Shelf), "furniture", "scantling")
    stranger = candidate(lambda: zoo.plugin(zoo.Shelf), "aardvark", "aardvark")
    host = load_host(candidates=[stranger, ours])
    assert host.origin("wall-shelf") == "furniture"
    assert [entry.candidate.name for entry in host.failed] == ["aardvark"]


def test_what_is_left_out_is_not_even_imported():
    def never():
        raise AssertionError("it was imported")

    for choice in ({"block": ("workshop",)}, {"block": ("*",)}, {"allow": ("good",)}):
        host = load_host(candidates=[candidate(never)], **choice)
        (row,) = host.describe()
        assert row["status"] == "left-out"
        assert "settings" in row["reason"]
        assert not host.failed
    assert set(load_host(candidates=[GOOD, candidate(never)], allow=("good",)).modules()) == {"wall-shelf"}
    assert load_host(candidates=[GOOD], allow=("good",), block=("good",)).modules() == {}


def test_one_load_leaves_nothing_for_the_next():
    assert set(load_host(candidates=[GOOD]).modules()) == {"wall-shelf"}
    assert load_host(candidates=[]).modules() == {}


@pytest.mark.parametrize(
    ("build", "reason"),
    [
        (zoo.raises_in_build, "ZeroDivisionError"),
        (zoo.rubbish_from_build, "PluginFailed"),
        (zoo.leaves_in_build, "SystemExit"),
        (zoo.mutates_in_build, "AttributeError"),
    ],
)
def test_a_module_that_fails_names_its_plugin(build, reason):
    host = load_host(candidates=[candidate(lambda: zoo.plugin(zoo.changed("Bad", build=build)))])
    with pytest.raises((Exception, SystemExit)) as caught:
        build_module(host.modules(), {"module": "wall-shelf"}, Supplies("mm", {}), "")
    assert type(caught.value).__name__ == reason
    assert caught.value.culprit == "workshop"


def test_a_build_is_handed_materials_it_cannot_change():
    seen = []

    def look(self, build):
        seen.append(build.materials)
        return zoo.Shelf.build(self, build)

    host = load_host(candidates=[candidate(lambda: zoo.plugin(zoo.changed("Looks", build=look)))])
    build_module(host.modules(), {"module": "wall-shelf"}, Supplies("mm", {}), "")
    assert isinstance(seen[0], MappingProxyType)


def test_the_check_of_a_plugin_says_what_builds():
    report = check_plugin("good", [GOOD])
    assert report["passed"] is True
    assert report["modules"] == [{"id": "wall-shelf", "builds": True, "parts": 1, "reason": None}]
    bad = check_plugin("workshop", [candidate(lambda: zoo.plugin(zoo.changed("Bad", build=zoo.raises_in_build)))])
    assert bad["passed"] is False
    assert bad["modules"][0]["reason"] == "ZeroDivisionError: a shelf of no length"
    broken = check_plugin("workshop", [candidate(zoo.raises_on_import)])
    assert (broken["status"], broken["passed"]) == ("failed", False)
    missing = check_plugin("lathe", [GOOD])
    assert (missing["status"], missing["reason"]) == ("not-found", "installed are: good")
