"""Manifests: read without importing, shown for every plugin whatever became of it, and held to what is loaded."""

import sys
from importlib.metadata import distribution
from pathlib import Path

import pytest

from plugins import plugin_zoo as zoo
from scantling.plugin_check import Fault, manifest_of, read_manifest
from scantling.plugins import Candidate, load_host

SOUND = """
name = "workshop"
version = "2.1"
interface = 2
title = "Workshop"
licence = "Apache-2.0"
author = "A. Maker"
hooks = ["furniture_modules"]
modules = ["wall-shelf"]
"""
ROOT = Path(__file__).parents[2]


def shelf():
    return zoo.plugin(zoo.Shelf)


def candidate(text, load=shelf, version="2.1"):
    return Candidate("workshop", "w:plugin", "workshop-furniture", version, load, manifest=read_manifest(text))


def row_of(text, load=shelf, **more):
    return load_host(candidates=[candidate(text, load)], **more).describe()[0]


def test_a_manifest_that_agrees_is_shown_and_warned_of_nothing():
    row = row_of(SOUND)
    assert (row["status"], row["reason"], row["warnings"]) == ("loaded", None, [])
    assert row["manifest"]["author"] == "A. Maker"
    assert row["manifest"]["modules"] == ["wall-shelf"]
    assert row["manifest"]["stock"] == []


def test_the_manifest_of_a_plugin_that_is_left_out_or_failed_is_shown_all_the_same():
    def never():
        raise AssertionError("it was imported")

    left_out = row_of(SOUND, never, block=("workshop",))
    assert (left_out["status"], left_out["manifest"]["modules"]) == ("left-out", ["wall-shelf"])
    failed = row_of(SOUND, zoo.raises_on_import)
    assert (failed["status"], failed["manifest"]["title"]) == ("failed", "Workshop")


DISAGREE = [
    ('name = "workshop"', 'name = "shop"', "says name 'shop', and what is loaded has 'workshop'"),
    ('version = "2.1"', 'version = "2.0"', "says version '2.0', and what is loaded has '2.1'"),
    ("interface = 2", "interface = 1", "says interface 1, and what is loaded has 2"),
    ('modules = ["wall-shelf"]', 'modules = ["desk"]', "says modules desk, and what is loaded has wall-shelf"),
    ('modules = ["wall-shelf"]', "", "says modules none, and what is loaded has wall-shelf"),
    ('"furniture_modules"]', '"furniture_modules", "stock"]', "says hooks furniture_modules, stock"),
    ('modules = ["wall-shelf"]', 'modules = ["wall-shelf"]\nstock = ["yard"]', "says stock yard, and what is loaded"),
    ('modules = ["wall-shelf"]', 'modules = ["wall-shelf"]\nformats = ["md"]', "says formats md, and what is loaded"),
    (
        'modules = ["wall-shelf"]',
        'modules = ["wall-shelf"]\n[schemas.wall-shelf]\ntype = "object"',
        "'wall-shelf' is not",
    ),
]


@pytest.mark.parametrize(("old", "new", "reason"), DISAGREE)
def test_a_manifest_that_disagrees_with_what_is_loaded_is_a_fault(old, new, reason):
    assert old in SOUND
    row = row_of(SOUND.replace(old, new))
    assert row["status"] == "failed"
    assert reason in row["reason"]
    assert row["modules"] == []


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("name = ", "not TOML"),
        ("", "does not say name, interface, hooks, licence, author"),
        (SOUND + "\ncolour = 'red'", "a member 'colour'"),
        (SOUND.replace("interface = 2", 'interface = "2"'), "interface is '2', not a whole number"),
        (SOUND.replace('["wall-shelf"]', '"wall-shelf"'), "modules is no list"),
        (SOUND.replace('"A. Maker"', '""'), "author is no text"),
        (SOUND + "\nschemas = 3", "schemas is no table"),
    ],
)
def test_a_manifest_that_cannot_be_read_says_where(text, reason):
    with pytest.raises(Fault, match=reason):
        read_manifest(text)


def test_a_schema_in_the_manifest_is_that_of_the_module():
    import tomllib

    schema = zoo.ShelfParameters.schema()
    manifest = read_manifest(SOUND)
    same = type(manifest)(
        **{**{f: getattr(manifest, f) for f in manifest.__slots__}, "schemas": {"wall-shelf": schema}}
    )
    host = load_host(candidates=[Candidate("workshop", "w:plugin", "d", "2.1", shelf, manifest=same)])
    assert host.describe()[0]["status"] == "loaded"
    assert tomllib.loads(SOUND)["modules"] == list(host.modules())


def test_the_shipped_plugin_is_described_without_importing_it():
    text = manifest_of("scantling_furniture:plugin", distribution("scantling"))
    manifest = read_manifest(text)
    assert manifest.name == "furniture"
    assert len(manifest.lists["modules"]) >= 18


@pytest.fixture
def never_imported(tmp_path, monkeypatch):
    """A distribution that ends the process when it is imported, installed for this test."""
    package = tmp_path / "blows_up" / "inner"
    package.mkdir(parents=True)
    (tmp_path / "blows_up" / "__init__.py").write_text("raise SystemExit('imported')")
    (package / "__init__.py").write_text("")
    (package / "scantling_plugin.toml").write_text(SOUND)
    monkeypatch.syspath_prepend(str(tmp_path))
    return tmp_path


def test_a_manifest_is_found_below_a_package_that_is_not_imported(never_imported):
    assert manifest_of("blows_up.inner.code:plugin", None) == SOUND
    assert "blows_up" not in sys.modules
    assert manifest_of("no_such_package.inner:plugin", None) is None


def test_every_example_and_the_template_have_a_manifest_that_can_be_read():
    files = [*(ROOT / "plugins").rglob("scantling_plugin.toml")]
    assert len(files) >= 7
    for file in files:
        manifest = read_manifest(file.read_text(encoding="utf-8"))
        assert manifest.licence and manifest.author, file
