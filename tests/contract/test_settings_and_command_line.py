"""Settings from the environment, and the commands."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from scantling import __version__
from scantling.api.openapi import text
from scantling.api.settings import Settings, SettingsError, load_settings, table, unknown_variables
from scantling.cli import main

SEAT = '{"id": "a", "module": "leaning-seat"'
PROJECT = {"modules": [{"id": "bench", "module": "leaning-seat", "parameters": {"bays": 2}}], "effort": "quick"}


def test_nothing_needs_to_be_set(monkeypatch):
    for name in list(os.environ):
        if name.startswith("SCANTLING_"):
            monkeypatch.delenv(name)
    settings = load_settings()
    assert (settings.host, settings.port, settings.body_limit) == ("127.0.0.1", 8000, 2 * 1024 * 1024)
    assert settings.cors_origins == ()


def test_variables_are_read_and_arguments_rule_over_them(monkeypatch):
    monkeypatch.setenv("SCANTLING_PORT", "9000")
    monkeypatch.setenv("SCANTLING_ALLOWED_HOSTS", "shop.local, 10.0.0.5,")
    assert load_settings().port == 9000
    assert load_settings(port=9001, host=None).port == 9001
    assert load_settings().allowed_hosts == ("shop.local", "10.0.0.5")


@pytest.mark.parametrize(
    ("name", "value"),
    [("PORT", "eighty"), ("PORT", "70000"), ("WORKERS", "-1"), ("LOG_LEVEL", "loud"), ("ROOT_PATH", "shop")],
)
def test_a_bad_value_is_told_in_one_line_with_its_variable(monkeypatch, name, value):
    monkeypatch.setenv(f"SCANTLING_{name}", value)
    with pytest.raises(SettingsError, match=f"SCANTLING_{name}={value!r}") as caught:
        load_settings()
    assert "\n" not in str(caught.value)


def test_a_misspelt_variable_is_noticed(monkeypatch):
    monkeypatch.setenv("SCANTLING_PROT", "1")
    monkeypatch.setenv("SCANTLING_TEST_DEPTH", "quick")
    assert "SCANTLING_PROT" in unknown_variables()
    assert "SCANTLING_TEST_DEPTH" not in unknown_variables()


def test_every_setting_has_a_sentence():
    rows = table()
    assert len(rows) == len(Settings.model_fields)
    assert all(re.fullmatch(r"SCANTLING_[A-Z_]+", row["variable"]) and row["meaning"].endswith(".") for row in rows)


def test_a_bad_setting_ends_serve_with_one_line(monkeypatch, capsys):
    monkeypatch.setenv("SCANTLING_PORT", "eighty")
    assert main(["serve"]) == 2
    error = capsys.readouterr().err
    assert error.startswith("scantling: SCANTLING_PORT") and error.count("\n") == 1


def test_openapi_is_printed(capsys):
    assert main(["openapi"]) == 0
    assert capsys.readouterr().out == text()


def test_settings_are_listed(capsys):
    assert main(["settings"]) == 0
    out = capsys.readouterr().out
    assert out.count("\n") == len(Settings.model_fields) and "SCANTLING_BODY_LIMIT" in out


def test_a_project_is_planned_without_a_service(tmp_path, capsys):
    project = tmp_path / "project.json"
    project.write_text(json.dumps(PROJECT), encoding="utf-8")
    out = tmp_path / "plan"
    assert main(["plan", str(project), "--out", str(out)]) == 0
    plan = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    assert 1 <= len(plan["summary"]) <= 7
    assert capsys.readouterr().out.startswith(plan["summary"][0])
    assert (out / "cut-list.csv").read_bytes().startswith(b"module,id,name,quantity,")
    assert {path.name for path in out.iterdir()} >= {
        "plan.json", "cut-list.csv", "placements.csv", "lines.csv", "packet.pdf", "workbook.xlsx", "layouts.dxf",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("{", "is not JSON"),
        ("[]", "cannot be planned"),
        ('{"modules": []}', "#/modules"),
        ('{"modules": [{"id": "a", "module": "no-such-thing"}]}', "#/modules/0/module"),
        (f'{{"modules": [{SEAT}, "parameters": {{"bay": 1}}}}]}}', "#/modules/0/parameters/bay"),
        (f'{{"modules": [{SEAT}}}], "saws": [{{"id": "s", "kind": "table saw", "kerf": "2 in"}}]}}', "#/saws/0/kerf"),
    ],
)
def test_a_bad_project_is_told_with_its_place(tmp_path, capsys, content, says):
    project = tmp_path / "project.json"
    project.write_text(content, encoding="utf-8")
    assert main(["plan", str(project), "--out", str(tmp_path / "out")]) == 2
    error = capsys.readouterr().err
    assert says in error and "Traceback" not in error
    assert not (tmp_path / "out").exists()


def test_a_project_that_is_not_there_is_told(tmp_path, capsys):
    assert main(["plan", str(tmp_path / "none.json"), "--out", str(tmp_path)]) == 2
    assert "cannot be read" in capsys.readouterr().err


def test_a_plugin_is_checked(capsys):
    assert main(["check-plugin", "furniture"]) == 0
    assert json.loads(capsys.readouterr().out)["passed"] is True
    assert main(["check-plugin", "no-such-plugin"]) == 1
    assert json.loads(capsys.readouterr().out)["status"] == "not-found"


def test_no_command_shows_the_commands(capsys):
    assert main([]) == 2
    out = capsys.readouterr().out
    assert all(name in out for name in ("serve", "plan", "demo", "check-plugin", "openapi"))


def test_the_version_is_told():
    run = subprocess.run(
        [sys.executable, "-m", "scantling.cli", "--version"], capture_output=True, text=True, check=True
    )
    assert run.stdout == f"scantling {__version__}\n"


def test_the_settings_table_of_the_readme_is_whole():
    readme = Path(__file__).parents[2] / "README.md"
    known = {row["variable"] for row in table()}
    named = set(re.findall(r"SCANTLING_[A-Z_]+", readme.read_text(encoding="utf-8")))
    assert {name for name in named if not name.startswith(("SCANTLING_TEST_", "SCANTLING_BENCH_"))} <= known
