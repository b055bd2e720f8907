"""The template and the tutorial: copied, renamed, installed beside the service and run as a stranger would."""

import json
import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from broken_modules import BROKEN
from broken_plugins import BROKEN as BROKEN_PLUGINS
from scantling import kit
from scantling.kit import INTERFACE, Assembly, Part, hooks
from scantling.plugin_check import HOOKS, UNTIL

ROOT = Path(__file__).resolve().parents[2]
TEMPLATE = ROOT / "plugins" / "template"
TUTORIAL = (ROOT / "plugins" / "README.md").read_text(encoding="utf-8")
FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
BLOCKS = FENCE.findall(TUTORIAL)
CONTINUED = " (continued)"
NOT_HANDED_ON = ("PIP_", "PYTEST_", "SCANTLING_")
LITTER = shutil.ignore_patterns("__pycache__", "build", "*.egg-info")


class Bench:
    """A folder with a copy of the template, and an environment in which `python` and `scantling` are the tests' own.

    What pip installs goes to a folder beside it, without a network, and is found as any installed distribution is.
    """

    def __init__(self, folder):
        self.folder = folder
        self.site = folder / "site"
        tools = folder / "bin"
        tools.mkdir(parents=True)
        for name, command in (("python", ""), ("scantling", " -m scantling.cli")):
            (tools / name).write_text(f'#!/bin/sh\nexec "{sys.executable}"{command} "$@"\n', encoding="utf-8")
            (tools / name).chmod(0o755)
        (folder / "plugins").mkdir()
        shutil.copytree(
            TEMPLATE, folder / "plugins" / "template", ignore=shutil.ignore_patterns("__pycache__", "build")
        )
        found = [path for path in (os.environ.get("PYTHONPATH"),) if path]
        self.environment = {
            **{
                name: value
                for name, value in os.environ.items()
                if not name.startswith(("PIP_", "PYTEST_", "SCANTLING_"))
            },
            "PATH": f"{tools}{os.pathsep}{os.environ['PATH']}",
            "PYTHONPATH": os.pathsep.join([str(self.site), *found]),
            "PYTHONDONTWRITEBYTECODE": "1",
            "PIP_TARGET": str(self.site),
            "PIP_UPGRADE": "1",
            "PIP_NO_DEPS": "1",
            "PIP_NO_INDEX": "1",
            "PIP_NO_BUILD_ISOLATION": "0",  # pip's way of saying: without isolation, so without a network
            "PIP_DISABLE_PIP_VERSION_CHECK": "1",
        }

    def sh(self, commands, cwd=None):
        """Run shell commands and return what they wrote to standard output."""
        done = subprocess.run(
            ["sh", "-euc", commands], cwd=cwd or self.folder, env=self.environment, capture_output=True, text=True
        )
        assert done.returncode == 0, f"{commands}\n{done.stdout[-3000:]}\n{done.stderr[-3000:]}"
        return done.stdout


@pytest.fixture(scope="module")
def bench(tmp_path_factory):
    """Return a bench on which the tutorial has been followed up to its last command."""
    one = Bench(tmp_path_factory.mktemp("bench"))
    one.said = follow(one)
    return one


def follow(bench):
    """Do what the tutorial says, block by block; return what each command wrote."""
    here, said = bench.folder, {}
    for language, text in BLOCKS:
        if language == "sh":
            said[text] = bench.sh(text, here)
            for step in re.findall(r"^cd (.+)$", text, re.MULTILINE):
                here = here / step
        elif language == "python" or (language == "toml" and text.startswith("# ")):
            comment, _, code = text.partition("\n")
            path = here / comment.removeprefix("# ").removesuffix(CONTINUED)
            assert path.parent.is_dir(), path
            if comment.endswith(CONTINUED):
                code = path.read_text(encoding="utf-8") + code
            path.write_text(code, encoding="utf-8")
        elif language == "json":
            (here / "project.json").write_text(text, encoding="utf-8")
    return said


def saying(bench, words):
    (answer,) = [answer for command, answer in bench.said.items() if words in command][-1:]
    return answer


# ---------------------------------------------------------------------- the template as it comes


@pytest.fixture(scope="module")
def plain_bench(tmp_path_factory):
    """Return a bench with the template installed under its own name."""
    one = Bench(tmp_path_factory.mktemp("plain"))
    one.sh("python -m pip install ./plugins/template")
    return one


def test_the_template_is_found_and_sound_as_it_comes(plain_bench):
    report = plain_bench.sh("scantling check-plugin plant-stand")
    assert '"status": "loaded"' in report
    assert '"plant-stand"' in report


def test_the_templates_own_tests_pass(plain_bench):
    said = plain_bench.sh("python -m pytest -q -p no:cacheprovider plugins/template/tests")
    assert re.search(r"\d{2,} passed", said), said


def test_the_template_uses_the_kit_alone_and_is_short():
    (source,) = (TEMPLATE / "scantling_plant_stand").glob("plant_stand.py")
    lines = source.read_text(encoding="utf-8").splitlines()
    assert len(lines) < 80
    imports = [line.split()[1] for line in lines if line.startswith(("from ", "import "))]
    assert {name for name in imports if name.startswith("scantling")} == {"scantling.kit"}


@pytest.mark.parametrize("name", ["Boot Rack", "boot_rack", "-boot", "", "2nd"])
def test_a_name_that_cannot_be_one_is_refused(tmp_path, name):
    copy = shutil.copytree(TEMPLATE, tmp_path / "copy")
    done = subprocess.run([sys.executable, str(copy / "rename.py"), name], capture_output=True, text=True)
    assert done.returncode == 2
    assert "such as boot-rack" in done.stdout
    assert (copy / "scantling_plant_stand").is_dir()


def test_renaming_leaves_nothing_of_the_old_name(tmp_path):
    copy = shutil.copytree(TEMPLATE, tmp_path / "copy", ignore=LITTER)
    subprocess.run([sys.executable, str(copy / "rename.py"), "wine-shelf-2"], check=True)
    files = [path for path in copy.rglob("*") if path.is_file()]
    assert copy / "scantling_wine_shelf_2" / "wine_shelf_2.py" in files
    assert copy / "rename.py" not in files
    for path in files:
        text = path.read_text(encoding="utf-8")
        assert not re.search("plant.?stand", str(path.relative_to(copy)) + text, re.IGNORECASE), path
    assert "class WineShelf2(Module[WineShelf2Parameters])" in (
        copy / "scantling_wine_shelf_2" / "wine_shelf_2.py"
    ).read_text(encoding="utf-8")


# ---------------------------------------------------------------------- the tutorial, followed


def test_every_block_of_the_tutorial_is_of_a_kind_that_is_tried():
    assert {language for language, _ in BLOCKS} == {"sh", "python", "json", "toml", "dockerfile"}
    assert TUTORIAL.count("\n```") == 2 * len(BLOCKS)


def test_the_plugin_of_the_tutorial_is_listed(bench):
    assert '"status": "loaded"' in saying(bench, "check-plugin")


def test_the_tests_of_the_tutorial_pass(bench):
    assert "20 passed" in saying(bench, "pytest tests")


def test_the_project_of_the_tutorial_is_planned(bench):
    said = saying(bench, "scantling plan")
    assert len(said.splitlines()) >= 2
    cut_list = (bench.folder / "boot-rack" / "plan" / "cut-list.csv").read_text(encoding="utf-8")
    assert "by the door" in cut_list
    assert (bench.folder / "boot-rack" / "plan" / "plan.json").exists()


def test_the_wheel_of_the_tutorial_carries_its_entry_point(bench):
    import zipfile

    (wheel,) = (bench.folder / "boot-rack" / "dist").glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        (name,) = [name for name in archive.namelist() if name.endswith("entry_points.txt")]
        assert "[scantling]\nboot-rack = scantling_boot_rack:plugin" in archive.read(name).decode()


def test_the_entry_point_shown_is_the_one_the_template_gets(bench):
    (shown,) = [tomllib.loads(text) for language, text in BLOCKS if language == "toml" and "entry-points" in text]
    made = tomllib.loads((bench.folder / "boot-rack" / "pyproject.toml").read_text(encoding="utf-8"))
    assert shown["project"]["entry-points"] == made["project"]["entry-points"]
    assert shown["tool"]["setuptools"]["package-data"] == made["tool"]["setuptools"]["package-data"]


def test_the_wheel_of_the_tutorial_carries_its_manifest(bench):
    import zipfile

    (wheel,) = (bench.folder / "boot-rack" / "dist").glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        assert "scantling_boot_rack/scantling_plugin.toml" in archive.namelist()


def test_every_hook_of_the_reference_is_loaded_and_sound_by_the_kit(bench):
    said = saying(bench, "check-plugin boot-rack --conform")  # after what pip says
    report = json.loads(said[said.index("{\n") :])
    assert report["passed"] is True
    assert report["faults"] == report["warnings"] == []
    assert set(report["hooks"]) == set(HOOKS)
    assert report["offers"]["formats"] == ["label"]
    assert report["manifest"]["stock"] == report["offers"]["stock"] == ["boot-yard"]


def test_the_page_on_testing_is_followed(bench):
    written = bench.folder / "boot-rack" / "tests" / "golden" / "boot-rack-width-800.txt"
    assert "Boot rack: 800.00" in written.read_text(encoding="utf-8")
    assert "1 passed" in saying(bench, "tests/test_conforms.py")


def test_every_rule_of_the_kit_is_on_the_page_on_testing():
    page = TUTORIAL.split("## Testing", 1)[1].split("\n## ", 1)[0]
    named = {
        name
        for row in page.splitlines()
        if row.startswith("| `")
        for name in re.findall("`([a-z ]+)`", row.split("|")[1])
    }
    caught = {rule for _, rule, _ in BROKEN} | {rule for _, rule, *_ in BROKEN_PLUGINS}
    assert caught <= named, caught - named


def test_authors_are_told_what_changed_with_every_interface():
    changes = TUTORIAL.split("## Changes for authors", 1)[1]
    assert f"| {INTERFACE} | 0.1.0 |" in changes
    for number, until in UNTIL.items():
        (row,) = [line for line in changes.splitlines() if line.startswith(f"| {number} |")]
        assert row.endswith(f"| {until} |")


def test_every_file_that_the_page_leads_to_is_there():
    links = re.findall(r"\]\(([a-z_./]+)\)", TUTORIAL)
    assert len(links) > 8
    for link in links:
        assert (ROOT / "plugins" / link).exists(), link


def test_the_image_shown_goes_back_to_the_user_without_rights():
    (shown,) = [text for language, text in BLOCKS if language == "dockerfile"]
    users = [line.split()[1] for line in shown.splitlines() if line.startswith("USER")]
    own = re.search(r"^USER (\S+)$", (ROOT / "Dockerfile").read_text(encoding="utf-8"), re.MULTILINE)
    assert users == ["0", own[1]]
    assert shown.startswith("FROM scantling\n")
    assert "/opt/venv/bin/python -m pip install" in shown


# ---------------------------------------------------------------------- the reference


def words_of(heading):
    """Return the names in the first column of the table under a heading, as they are called."""
    rows = TUTORIAL.split(f"| on {heading}", 1)[1].split("\n\n", 1)[0].splitlines()[2:]
    cells = [row.split("|")[1] for row in rows]
    return [name for cell in cells for name in re.findall(r"`(\w+)", cell)] + promised_by(heading.split()[-1])


def promised_by(what):
    """Return the words of the table of promises that are called on a piece, or on a part."""
    table = TUTORIAL.split("| promise |", 1)[1].split("\n\n", 1)[0]
    return re.findall(rf"`{what}\.(\w+)", table)


@pytest.mark.parametrize(("heading", "owner"), [("the piece", Assembly), ("a part", Part)])
def test_every_word_of_the_reference_exists(heading, owner):
    words = words_of(heading)
    assert len(words) > 8
    for word in words:
        assert hasattr(owner, word), f"{owner.__name__} has no {word}"


@pytest.mark.parametrize(("heading", "owner"), [("the piece", Assembly), ("a part", Part)])
def test_the_reference_names_everything_an_author_may_call(heading, owner):
    looked_at_only = {
        "bounds", "cells", "cells_local", "cut", "grain_angle", "mass_and_centre", "mass_kg", "plane", "plane_local",
        "pt", "volume_and_centre",
    }  # fmt: skip
    public = {
        name
        for name, member in vars(owner).items()
        if callable(member) and not name.startswith("_") and not isinstance(member, type)
    }
    assert public - looked_at_only <= set(words_of(heading)), "name it in the reference"


def test_every_hook_is_documented_with_an_example():
    specs = [name for name, member in vars(hooks).items() if hasattr(member, f"{hooks.PROJECT}_spec")]
    assert specs
    for name in specs:
        section = TUTORIAL.split(f"### `{name}`", 1)[1].split("\n## ", 1)[0]
        assert f"def {name}(" in section


def test_every_parameter_kind_is_named():
    makers = [name for name in kit.__all__ if callable(getattr(kit, name)) and name.islower()]
    kinds = set(makers) - {"hook", "snap", "rise_over_run"}
    (line,) = re.findall(r"^Parameters: (.*?)\. To refuse", TUTORIAL, re.MULTILINE | re.DOTALL)
    assert kinds == set(re.findall(r"`(\w+)`", line))
