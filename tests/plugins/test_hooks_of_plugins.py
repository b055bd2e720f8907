"""The hooks beside furniture: what a plugin may answer, what is refused and why, and that no other plugin suffers."""

from dataclasses import replace

import pytest

from plugins import hook_zoo as zoo
from plugins import plugin_zoo
from scantling.findings import Finding, Severity
from scantling.kit import Surroundings
from scantling.plan.building import build_module
from scantling.plan.checks import check
from scantling.plan.extras import looked_at
from scantling.plan.materials import Supplies
from scantling.plugins import Candidate, PluginFailed, load_host


def candidate(plugin, name="workshop"):
    return Candidate(name, f"{name}:plugin", f"{name}-tools", "2.1", lambda: plugin)


FURNITURE = candidate(plugin_zoo.plugin(plugin_zoo.Shelf), "furniture")
WHOLE = zoo.answering(
    stock=[zoo.STOCK],
    price_lists=[zoo.PRICES],
    checks=[zoo.CHECK],
    exporters=[zoo.EXPORTER],
    finishes=[zoo.FINISH],
)


def loaded(*plugins, **more):
    return load_host(candidates=[FURNITURE, *(candidate(p, f"tool-{i}") for i, p in enumerate(plugins))], **more)


def shelf(host):
    return build_module(host.modules(), {"module": "wall-shelf"}, Supplies("mm", {}), "")


def test_a_plugin_may_give_everything_at_once():
    host = loaded(WHOLE)
    assert not host.failed
    assert set(host.stock()) == set(host.price_lists()) == {"yard"}
    assert set(host.exporters()) == {"txt"}
    assert set(host.finishes()) == {"soap"}
    assert [(row["code"], row["origin"]) for row in host.codes()] == [("heavier-than-liked", "tool-0")]
    row = next(row for row in host.describe() if row["name"] == "tool-0")
    assert row["hooks"] == ["checks", "exporters", "finishes", "price_lists", "stock"]
    assert row["offers"] == {
        "stock": ["yard"],
        "price_lists": ["yard"],
        "checks": ["weight"],
        "codes": ["heavier-than-liked"],
        "formats": ["txt"],
        "media_types": ["text/x-cut-list"],
        "finishes": ["soap"],
    }


@pytest.mark.parametrize(("plugin", "reason"), zoo.BAD, ids=[reason[:40] for _, reason in zoo.BAD])
def test_a_bad_answer_is_refused_in_words_and_harms_no_other(plugin, reason):
    host = loaded(plugin, WHOLE)
    rows = {row["name"]: row for row in host.describe()}
    assert rows["tool-0"]["status"] == "failed"
    assert reason in rows["tool-0"]["reason"]
    assert rows["furniture"]["status"] == rows["tool-1"]["status"] == "loaded"
    assert set(host.stock()) == {"yard"}  # the good one's, and nothing of the bad one


CLASHES = [
    ("stock", "stock list 'yard'", zoo.stock(title="Another yard")),
    ("price_lists", "price list 'yard'", zoo.prices(title="Another yard")),
    ("checks", "check 'weight'", zoo.check(codes=(replace(zoo.CODE, code="too-heavy"),))),
    ("codes", "finding code 'heavier-than-liked'", zoo.check(id="weight-too")),
    ("formats", "format 'txt'", zoo.exporter(media_type="text/x-other")),
    ("media_types", "media type 'text/x-cut-list'", zoo.exporter(format="txt2")),
    ("finishes", "finish 'soap'", zoo.finish(title="Another soap")),
]


@pytest.mark.parametrize(("sort", "named", "second"), CLASHES, ids=[sort for sort, _, _ in CLASHES])
def test_a_name_that_is_taken_is_refused_with_both_origins(sort, named, second):
    host = loaded(WHOLE, second)
    (failed,) = host.failed
    assert f"its {named} is also given by 'tool-0' (tool-0:plugin of tool-0-tools 2.1)" in failed.reason
    assert "this one is tool-1:plugin of tool-1-tools 2.1" in failed.reason
    row = next(row for row in host.describe() if row["name"] == "tool-0")
    assert row["status"] == "loaded"
    assert len(row["offers"][sort]) == 1


def test_every_hook_is_handed_its_own_context():
    seen = {}

    def note(name, answer):
        return lambda context: seen.setdefault(name, context) and answer

    plugin = zoo.answering(
        stock=note("stock", [zoo.STOCK]),
        price_lists=note("price_lists", [zoo.PRICES]),
        checks=note("checks", [zoo.CHECK]),
        exporters=note("exporters", [zoo.EXPORTER]),
        finishes=note("finishes", [zoo.FINISH]),
        furniture_modules=note("furniture_modules", ()),
    )
    assert not loaded(plugin).failed
    assert {name: type(context).__name__ for name, context in seen.items()} == {
        "stock": "StockContext",
        "price_lists": "PricesContext",
        "checks": "ChecksContext",
        "exporters": "ExportersContext",
        "finishes": "FinishesContext",
        "furniture_modules": "FurnitureContext",
    }
    assert {context.plugin for context in seen.values()} == {"tool-0"}
    assert "birch-plywood" in seen["stock"].materials and 8 in seen["stock"].gauges
    assert "glue" in seen["price_lists"].kinds and "mL" in seen["price_lists"].units
    assert "parts-overlap" in seen["checks"].codes
    assert "pdf" in seen["exporters"].formats and "application/pdf" in seen["exporters"].media_types
    assert "oil" in seen["finishes"].kinds


# ---------------------------------------------------------------------- checks


def test_a_check_adds_to_what_is_found_and_takes_nothing_away():
    heavy = replace(zoo.CODE, code="heavy-2")
    host = loaded(zoo.check(look=zoo.clears), zoo.check(id="weight-2", codes=(heavy,)), zoo.exporter())
    built = shelf(host)
    built.assembly.findings.append(Finding("push-stick", Severity.NOTE, "Its author says so."))
    before = check(built)
    after = looked_at(built, before, host)
    assert after.findings[: len(before.findings)] == before.findings
    assert [f.code for f in after.findings[len(before.findings) :]] == ["plugin-check-failed"]  # a code not its own
    assert [f.code for f in built.assembly.findings if f.code == "push-stick"]  # cleared in the copy alone
    more = looked_at(built, before, loaded(zoo.check())).findings
    assert [f.code for f in more[len(before.findings) :]] == ["heavier-than-liked"]


def test_a_check_is_handed_the_place_and_the_parameters():
    seen = []
    host = loaded(zoo.check(look=lambda inspection: seen.append(inspection) or ()))
    built = shelf(host)
    host.look("wall-shelf", "storage", built.assembly, {"length": 600.0}, Surroundings("outdoors", "public", True, 2))
    (inspection,) = seen
    assert (inspection.module, inspection.family) == ("wall-shelf", "storage")
    assert inspection.parameters == {"length": 600.0}
    assert inspection.place == Surroundings("outdoors", "public", True, 2)
    assert inspection.assembly is not built.assembly
    assert list(inspection.assembly.parts) == list(built.assembly.parts)


@pytest.mark.parametrize(("function", "words"), zoo.BAD_CHECKS, ids=[f.__name__ for f, _ in zoo.BAD_CHECKS])
def test_a_check_that_fails_is_a_finding_that_names_its_plugin(function, words):
    good = zoo.check(id="other", codes=(replace(zoo.CODE, code="other-code"),), look=lambda inspection: ())
    host = loaded(zoo.check(look=function), good, call_seconds=0.3)
    built = shelf(host)
    parts = list(built.assembly.parts)
    found = host.look("wall-shelf", "storage", built.assembly, {}, Surroundings())
    assert [(f.code, f.severity) for f in found] == [("plugin-check-failed", Severity.WARNING)]
    assert "'tool-0'" in found[0].message
    assert words in found[0].message
    assert list(built.assembly.parts) == parts


def test_a_check_that_prints_says_nothing_on_standard_output(capsys):
    host = loaded(zoo.check(look=zoo.prints))
    assert [f.code for f in host.look("m", "f", shelf(host).assembly, {}, Surroundings())] == ["heavier-than-liked"]
    heard = capsys.readouterr()
    assert (heard.out, heard.err) == ("", "looking\n")


# ---------------------------------------------------------------------- exporters

PLAN = {"parts": [], "nested": {"a": [1]}}


def changes_it(export):
    export.plan["nested"]["a"].append(2)
    return b"changed"


BAD_WRITERS = [
    (lambda export: "text", "wrote a str, not bytes"),
    (lambda export: b"x" * (16 * 1024 * 1024 + 1), "wrote 16777217 bytes; at most 16777216 are sent"),
    (zoo.hangs, "the exporter 'txt' took longer than 0.3 seconds"),
]


@pytest.mark.parametrize(("write", "words"), BAD_WRITERS)
def test_an_exporter_that_fails_is_named(write, words):
    host = loaded(zoo.exporter(write=write), call_seconds=0.3)
    with pytest.raises(PluginFailed) as caught:
        host.export("txt", "parts", "shelf", PLAN, {})
    assert caught.value.culprit == "tool-0"
    assert words in caught.value.reason


def test_what_an_exporter_raises_carries_the_name_of_its_plugin():
    host = loaded(zoo.exporter(write=lambda export: export.plan["no such member"]))
    with pytest.raises(KeyError) as caught:
        host.export("txt", "parts", "shelf", PLAN, {})
    assert caught.value.culprit == "tool-0"


def test_an_exporter_cannot_change_the_plan():
    host = loaded(zoo.exporter(write=changes_it))
    assert host.export("txt", "parts", "shelf", PLAN, {}) == b"changed"
    assert PLAN == {"parts": [], "nested": {"a": [1]}}


# ---------------------------------------------------------------------- modules that build too much


def floods_in_build(self, build):
    assembly = plugin_zoo.Shelf.build(self, build)
    assembly.cautions = [f"Caution {i}" for i in range(100_000)]
    return assembly


def stuffs_parts(self, build):
    assembly = plugin_zoo.Shelf.build(self, build)
    (part,) = assembly.parts.values()
    assembly.parts = {str(i): part for i in range(5_000)}
    return assembly


@pytest.mark.parametrize(
    ("build", "words"),
    [
        (floods_in_build, "100000 cautions; at most 1000 are taken"),
        (stuffs_parts, "5000 parts; at most 400 are taken"),
        (plugin_zoo.hangs_in_build, "building 'wall-shelf' took longer than 0.3 seconds"),
    ],
)
def test_a_module_that_builds_too_much_or_for_too_long_is_named(build, words):
    host = load_host(
        candidates=[candidate(plugin_zoo.plugin(plugin_zoo.changed("Bad", build=build)))], call_seconds=0.3
    )
    with pytest.raises(PluginFailed) as caught:
        shelf(host)
    assert caught.value.culprit == "workshop"
    assert words in caught.value.reason
