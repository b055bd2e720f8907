"""The test kit itself: a sound module passes, and forty broken ones are each caught by the rule meant for them."""

import pytest

from broken_modules import BROKEN, Shelf
from scantling.testkit import assert_conforms, faults


def test_a_sound_module_passes():
    assert faults(Shelf, random=8) == []


def test_there_are_forty_ways_to_be_broken():
    assert len(BROKEN) >= 40
    assert len({name for name, _, _ in BROKEN}) == len(BROKEN)


@pytest.mark.parametrize(("name", "rule", "module"), BROKEN, ids=[name for name, _, _ in BROKEN])
def test_each_fault_is_caught_for_the_right_reason(name, rule, module):
    found = faults(module, random=8)
    assert rule in {fault.rule for fault in found}, [str(f) for f in found[:3]]


def test_the_report_names_module_rule_and_point():
    module = next(m for n, _, m in BROKEN if n == "promises_another_size")
    with pytest.raises(AssertionError, match="promises_another_size breaks") as report:
        assert_conforms(module, random=2)
    assert "dry fit (defaults): size-wrong" in str(report.value)
