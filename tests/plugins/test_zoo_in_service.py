"""The whole zoo in one running service, in real workers: it stays healthy, and says of each plugin what is wrong."""

import json

import pytest

from contract.contract_helpers import assert_problem, client_for
from scantling.work import Limits, PluginChoice, PoolSeam

MANIFEST = """
name = "{name}"
version = "1.0"
interface = {interface}
licence = "Apache-2.0"
author = "A. Maker"
hooks = {hooks}
{more}
"""
# name, code of the plugin, hooks and ids of its manifest, interface, and words of the reason why it is not loaded.
FAILED = [
    ("raises-on-import", "raise ImportError('no mortise')", ["checks"], "", 2, "ImportError: no mortise"),
    ("leaves-on-import", "raise SystemExit(1)", ["checks"], "", 2, "SystemExit: 1"),
    ("hangs-on-import", "zoo.hangs_on_import()", ["checks"], "", 2, "took longer than 1 seconds to load"),
    ("wrong-argument", "plugin = zoo.WrongArgument()", ["furniture_modules"], "", 2, "its hooks do not fit"),
    ("unknown-hook", "plugin = zoo.WrongHook()", ["furniture_modules"], "", 2, "'furniture_module', which is no hook"),
    (
        "wrong-interface",
        "plugin = zoo.plugin(zoo.Shelf, interface=9)",
        ["furniture_modules"],
        "",
        9,
        "speaks interface 9",
    ),
    ("too-old", "plugin = zoo.plugin(zoo.Shelf, interface=0)", ["furniture_modules"], "", 0, "speaks interface 0"),
    (
        "duplicate-name",
        "plugin = zoo.plugin(zoo.changed('Twin', id='bookcase'))",
        ["furniture_modules"],
        'modules = ["bookcase"]',
        2,
        "its module 'bookcase' is also given by 'furniture' (scantling_furniture:plugin of scantling",
    ),
    (
        "manifest-disagrees",
        "plugin = zoo.plugin(zoo.changed('Other', id='other'))",
        ["furniture_modules"],
        'modules = ["another"]',
        2,
        "says modules another, and what is loaded has other",
    ),
    (
        "endless-stock",
        "plugin = hooks.answering(stock=lambda c: hooks.endless(hooks.STOCK))",
        ["stock"],
        "",
        2,
        "more than 50",
    ),
    ("rubbish-prices", "plugin = hooks.answering(price_lists=object())", ["price_lists"], "", 2, "answered a object"),
]
CHECKS = ("mutates", "raises", "leaves", "hangs", "rubbish", "floods", "lies")
MODULES = ("hangs", "kills", "raises", "rubbish", "mutates", "prints", "stubborn")
BUILDS = {"rubbish": "rubbish_from_build"}
HEADER = "from plugins import hook_zoo as hooks, plugin_zoo as zoo\nfrom dataclasses import replace\n"


def write(folder, name, code, hooks, more="", interface=2):
    manifest = MANIFEST.format(name=name, interface=interface, hooks=json.dumps(hooks), more=more)
    (folder / f"{name}.toml").write_text(manifest)
    (folder / f"{name}.py").write_text(HEADER + code)


@pytest.fixture(scope="module")
def service(tmp_path_factory):
    folder = tmp_path_factory.mktemp("zoo")
    for name, code, hooks, more, interface, _ in FAILED:
        write(folder, name, code, hooks, more, interface)
    for what in CHECKS:
        code = f"code = replace(hooks.CODE, code='{what}-code')\n"
        code += f"plugin = hooks.check(id='{what}', codes=(code,), look=hooks.{what})"
        write(folder, f"check-{what}", code, ["checks"], f'checks = ["{what}"]\ncodes = ["{what}-code"]')
    for what in MODULES:
        code = (
            f"plugin = zoo.plugin(zoo.changed('M', id='zoo-{what}', build=zoo.{BUILDS.get(what, what + '_in_build')}))"
        )
        write(folder, f"module-{what}", code, ["furniture_modules"], f'modules = ["zoo-{what}"]')
    for what, writer in (("slow", "hooks.hangs"), ("huge", "lambda e: b'x' * 2**25"), ("words", "lambda e: 'text'")):
        code = f"plugin = hooks.exporter(format='{what}', media_type='text/x-{what}', write={writer})"
        write(folder, f"form-{what}", code, ["exporters"], f'formats = ["{what}"]')
    limits = Limits(workers=1, time_limit=4.0)
    choice = PluginChoice(folder=str(folder), seconds=0.5)
    with client_for(PoolSeam(limits, choice)) as one:
        yield one


def healthy(service):
    """Other plugins' furniture is still worked out, and the service is ready."""
    assert service.get("/readyz").status_code == 200
    answer = service.post("/v1/modules/stool/parts", json={})
    assert answer.status_code == 200, answer.text
    return answer.json()


def test_what_cannot_be_loaded_is_listed_with_its_reason(service):
    rows = {row["name"]: row for row in service.get("/v1/plugins").json()["plugins"]}
    assert rows["furniture"]["status"] == "loaded"
    for name, _, hooks, _, interface, words in FAILED:
        assert rows[name]["status"] == "failed", name
        assert words in rows[name]["reason"], rows[name]["reason"]
        assert rows[name]["manifest"]["interface"] == interface
        assert rows[name]["manifest"]["hooks"] == hooks
    loaded = [name for name, row in rows.items() if row["status"] == "loaded"]
    assert len(loaded) == 1 + len(CHECKS) + len(MODULES) + 3
    healthy(service)


def test_checks_that_fail_are_findings_that_name_their_plugins(service):
    found = [f for f in healthy(service)["findings"] if f["code"] == "plugin-check-failed"]
    assert found
    assert "check-" in found[0]["message"]
    codes = {row["code"]: row["origin"] for row in service.get("/v1/findings").json()["findings"]}
    assert {codes[f"{what}-code"] for what in CHECKS} == {f"check-{what}" for what in CHECKS}


@pytest.mark.parametrize("what", ["hangs", "raises", "rubbish", "mutates"])
def test_a_module_that_fails_is_named_in_the_problem(service, what):
    problem = assert_problem(service.post(f"/v1/modules/zoo-{what}/parts", json={}), 500, "internal")
    assert problem["plugin"] == f"module-{what}"
    assert f"'module-{what}'" in problem["detail"]
    if what == "hangs":
        assert "took longer than 0.5 seconds" in problem["detail"]
    healthy(service)


def test_a_module_that_nothing_but_a_kill_stops_is_named(service):
    problem = assert_problem(service.post("/v1/modules/zoo-stubborn/parts", json={}), 503, "time-limit")
    assert problem["plugin"] == "module-stubborn"
    healthy(service)


def test_a_module_that_ends_its_process_is_named(service):
    problem = assert_problem(service.post("/v1/modules/zoo-kills/parts", json={}), 500, "internal")
    assert problem["plugin"] == "module-kills"
    healthy(service)


def test_a_module_that_prints_harms_nothing(service):
    assert service.post("/v1/modules/zoo-prints/parts", json={}).json()["parts"]


@pytest.mark.parametrize(
    ("form", "words"),
    [("slow", "took longer than 0.5 seconds"), ("huge", "wrote 33554432 bytes"), ("words", "wrote a str, not bytes")],
)
def test_a_form_that_cannot_be_written_is_named(service, form, words):
    answer = service.post(f"/v1/modules/stool/parts?format={form}", json={})
    problem = assert_problem(answer, 500, "internal")
    assert problem["plugin"] == f"form-{form}"
    assert words in problem["detail"]
    healthy(service)
