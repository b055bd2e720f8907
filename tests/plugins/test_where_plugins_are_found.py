"""Where plugins come from: a folder, a list of names, entry points; loaded one by one, with what failed rolled back."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from scantling.api.settings import load_settings, plugin_choice
from scantling.plugins import check_plugin, in_folder, load_host
from scantling.work import InlineSeam, PluginChoice

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "plugins" / "examples"
MANIFEST = """
name = "{name}"
version = "1.0"
interface = 2
licence = "Apache-2.0"
author = "A. Maker"
hooks = ["finishes"]
finishes = ["{name}-wax"]
"""
CODE = """
from scantling.kit import FinishSystem, hook

class Plugin:
    interface = 2

    @hook
    def finishes(self, context):
        return [FinishSystem("{name}-wax", "Wax", "Wax.", "oil", 1, 8, 9, 0, 24, 6, ("indoors",), "practice")]

plugin = Plugin()
"""


def module(folder, name, code=CODE):
    (folder / f"{name}.toml").write_text(MANIFEST.format(name=name))
    (folder / f"{name}.py").write_text(code.format(name=name))


def package(folder, name, code=CODE):
    (folder / name).mkdir()
    (folder / name / "scantling_plugin.toml").write_text(MANIFEST.format(name=name))
    (folder / name / "__init__.py").write_text("from .inner import plugin")
    (folder / name / "inner.py").write_text(code.format(name=name))


def rows_of(folder):
    return {row["name"]: row for row in load_host(candidates=in_folder(folder)).describe()}


def test_a_folder_holds_packages_and_single_files(tmp_path):
    module(tmp_path, "one")
    package(tmp_path, "two")
    (tmp_path / "notes.txt").write_text("not a plugin")
    (tmp_path / "lonely.py").write_text("raise SystemExit")  # without a manifest it is none, and is not imported
    (tmp_path / "empty").mkdir()
    rows = rows_of(tmp_path)
    assert {name: row["status"] for name, row in rows.items()} == {"one": "loaded", "two": "loaded"}
    assert {row["source"] for row in rows.values()} == {"folder"}
    assert rows["two"]["offers"]["finishes"] == ["two-wax"]
    assert rows["one"]["version"] == "1.0"


def test_what_fails_in_a_folder_is_rolled_back_and_told(tmp_path):
    module(tmp_path, "good")
    package(tmp_path, "bad", "raise ImportError('no module named mortise')")
    package(tmp_path, "other", CODE.replace("{name}-wax", "good-wax"))
    (tmp_path / "codeless").mkdir()
    (tmp_path / "codeless" / "scantling_plugin.toml").write_text(MANIFEST.format(name="codeless"))
    (tmp_path / "garbled").mkdir()
    (tmp_path / "garbled" / "scantling_plugin.toml").write_bytes(b"\xff\xfe\x00")
    rows = rows_of(tmp_path)
    assert rows["good"]["status"] == "loaded"
    assert rows["bad"]["reason"] == "ImportError: no module named mortise"
    assert "its manifest says finishes other-wax, and what is loaded has good-wax" in rows["other"]["reason"]
    assert rows["codeless"]["reason"] == "there is no __init__.py beside its manifest"
    assert "not TOML" in rows["garbled"]["reason"]
    assert not [
        name
        for name in sys.modules
        if name.startswith(("scantling_plugin_folder_bad", "scantling_plugin_folder_other"))
    ]
    assert not any("/" in (row["reason"] or "") for row in rows.values())


def test_a_folder_that_is_not_there_is_told_as_a_plugin_that_failed(tmp_path):
    host = load_host(folder=str(tmp_path / "nowhere"), allow=("plugins-folder",))
    (failed,) = host.failed
    assert failed.reason == "the folder of plugins cannot be read: No such file or directory"


@pytest.fixture
def importable(tmp_path, monkeypatch):
    folder = tmp_path / "site"
    folder.mkdir()
    (folder / "loose_wax.py").write_text(CODE.format(name="loose"))
    package(folder, "waxes")
    monkeypatch.syspath_prepend(str(folder))
    yield folder
    for name in [name for name in sys.modules if name.split(".")[0] in ("loose_wax", "waxes")]:
        del sys.modules[name]


def test_a_list_names_plugins_that_are_not_installed(importable):
    names = ("loose_wax:plugin", "waxes:plugin", "no_such:plugin", "lathe")
    host = load_host(named=names, allow=("loose-wax", "waxes", "no-such", "lathe"))
    rows = [(r["name"], r["status"], r["source"], r["reason"]) for r in host.describe() if r["source"] == "list"]
    assert ("loose-wax", "loaded", "list", None) in rows
    assert ("waxes", "loaded", "list", None) in rows
    assert ("no-such", "failed", "list", "ModuleNotFoundError: No module named 'no_such'") in rows
    assert any("accepted: module:object, such as boot_rack:plugin" in (row[3] or "") for row in rows)
    assert set(host.finishes()) == {"loose-wax", "waxes-wax"}


def test_what_is_installed_already_is_not_loaded_twice():
    host = load_host(named=("scantling_furniture:plugin",), allow=("furniture",))
    assert [row["source"] for row in host.describe() if row["name"] == "furniture"] == ["entry point"]


def test_the_environment_chooses(monkeypatch):
    for name in [name for name in os.environ if name.startswith("SCANTLING_PLUGIN")]:
        monkeypatch.delenv(name)
    assert plugin_choice(load_settings()) == PluginChoice()  # no folder and no list by default
    monkeypatch.setenv("SCANTLING_PLUGINS_FOLDER", "plugins")
    monkeypatch.setenv("SCANTLING_PLUGINS", "a:plugin, b:plugin")
    monkeypatch.setenv("SCANTLING_PLUGINS_ALLOW", "furniture,a")
    monkeypatch.setenv("SCANTLING_PLUGINS_BLOCK", "b")
    monkeypatch.setenv("SCANTLING_PLUGIN_SECONDS", "2.5")
    assert plugin_choice(load_settings()) == PluginChoice(
        ("furniture", "a"), ("b",), "plugins", ("a:plugin", "b:plugin"), 2.5
    )


def test_none_is_none_from_wherever_they_come():
    seam = InlineSeam(plugins=PluginChoice(block=("*",), folder=str(EXAMPLES), named=("x:plugin",)))
    answer = seam.call("plugins", {})
    assert {row["status"] for row in answer["plugins"]} == {"left-out"}
    assert len(answer["plugins"]) >= 6
    assert seam.call("modules", {}) == {"modules": []}


def check(name, *more, **variables):
    environment = {k: v for k, v in os.environ.items() if not k.startswith("SCANTLING_PLUGIN")} | variables
    return subprocess.run(
        [sys.executable, "-m", "scantling.cli", "check-plugin", name, *more],
        capture_output=True,
        text=True,
        env=environment,
        cwd=ROOT,
    )


def test_the_command_checks_a_plugin_of_the_folder_and_tries_it_by_the_kit():
    done = check("cut-card", "--conform", SCANTLING_PLUGINS_FOLDER=str(EXAMPLES))
    assert done.returncode == 0, done.stdout + done.stderr
    assert '"faults": []' in done.stdout
    assert check("cut-card").returncode == 1  # the folder is off by default


def test_the_command_ends_with_an_error_for_a_plugin_that_is_not_sound(tmp_path):
    module(
        tmp_path,
        "chatty",
        CODE.replace("def finishes(self, context):", "def finishes(self, context):\n        print(1)"),
    )
    module(tmp_path, "broken", CODE.replace('"oil"', '"lacquer"'))
    variables = {"SCANTLING_PLUGINS_FOLDER": str(tmp_path)}
    assert check("chatty", **variables).returncode == 0
    done = check("chatty", "--conform", **variables)
    assert done.returncode == 1
    assert "quiet" in done.stdout
    broken = check("broken", **variables)
    assert broken.returncode == 1
    assert "of the kind 'lacquer'" in broken.stdout


def test_the_command_warns_of_an_older_interface(tmp_path):
    (tmp_path / "old.toml").write_text(
        'name = "old"\nversion = "1"\ninterface = 1\nlicence = "x"\nauthor = "y"\nhooks = ["furniture_modules"]\n'
    )
    (tmp_path / "old.py").write_text(
        "from scantling.kit import hook\nclass P:\n    interface = 1\n    @hook\n"
        "    def furniture_modules(self):\n        return []\nplugin = P()\n"
    )
    done = check("old", SCANTLING_PLUGINS_FOLDER=str(tmp_path))
    assert done.returncode == 0
    assert "'old' speaks interface 1; releases up to 2027-06-30 still take it" in done.stderr
    assert check_plugin("old", in_folder(tmp_path))["warnings"][0]["until"] == "2027-06-30"
