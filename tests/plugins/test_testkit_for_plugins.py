"""The test kit for whole plugins: a sound one passes, and each broken one is caught by the rule meant for it."""

from pathlib import Path

import pytest

from broken_modules import Shelf
from broken_plugins import BROKEN, MANIFEST, sound
from scantling.testkit import assert_plugin_conforms, plugin_faults
from scantling.testkit.golden import assert_golden


def test_a_sound_plugin_passes():
    assert plugin_faults(sound(), MANIFEST, random=2) == []


def test_no_two_are_called_alike():
    assert len({name for name, *_ in BROKEN}) == len(BROKEN) >= 25


@pytest.mark.parametrize(("name", "rule", "plugin", "manifest"), BROKEN, ids=[name for name, *_ in BROKEN])
def test_each_fault_is_caught_by_its_rule_and_no_other_is_named(name, rule, plugin, manifest):
    found = plugin_faults(plugin, manifest, random=2)
    assert {fault.rule for fault in found} == {rule}, [str(fault) for fault in found[:3]]


def test_the_report_names_rule_and_place():
    plugin, manifest = next((p, m) for n, _, p, m in BROKEN if n == "check_changes_the_piece")
    with pytest.raises(AssertionError, match="the plugin breaks 1 rules") as report:
        assert_plugin_conforms(plugin, manifest, random=2)
    assert "check (weight on test-shelf): check 'weight' changed the piece" in str(report.value)


def test_the_shipped_plugin_is_found_by_its_name_with_its_manifest():
    """Its modules are tried one by one elsewhere; here nothing but the plugin's own rules may speak."""
    found = plugin_faults("furniture", random=0)
    assert {fault.rule for fault in found} & {"manifest", "interface", "answers", "same again", "quiet"} == set()


def test_the_manifest_may_be_a_file(tmp_path: Path):
    file = tmp_path / "scantling_plugin.toml"
    file.write_text(MANIFEST, encoding="utf-8")
    assert_plugin_conforms(sound(), file, random=1)


def test_a_changed_golden_file_shows_the_lines_that_changed(tmp_path):
    file = tmp_path / "shelf.txt"
    assert_golden(Shelf, file, update=True)
    assert_golden(Shelf, file, update=False)
    with pytest.raises(AssertionError) as changed:
        assert_golden(Shelf, file, update=False, values={"width": 600})
    lines = str(changed.value).splitlines()
    assert lines[0] == "Shelf builds something else than before:"
    before = [line for line in lines if line.startswith("-") and "shelf" in line]
    now = [line for line in lines if line.startswith("+") and "shelf" in line]
    assert "464.00" in before[0] and "564.00" in now[0]  # 500 and 600 mm less two sides of 18 mm


def test_both_fixtures_are_there(conforms, plugin_conforms):
    conforms(Shelf, random=1)
    plugin_conforms(sound(), MANIFEST, random=1)
