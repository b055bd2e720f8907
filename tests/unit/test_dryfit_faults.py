"""The catalogue of deliberate faults: each is found, with the right ids, and nothing else is reported."""

from collections import Counter

import pytest

from dryfit_faults import FAULTS
from dryfit_pieces import bench, box, corner, post, tray
from pieces import MODULES
from scantling.dryfit import verify
from scantling.findings import Severity, catalogue

HARMLESS = {
    "pilot-needed",
    "screw-near-end",
    "screw-in-end-grain",
    "loose-part-slides",
    "opens-behind",
}  # notes that sound pieces carry as well


@pytest.mark.parametrize("build", [bench, box, corner, post, tray], ids=lambda b: b.__name__)
def test_sound_pieces_have_notes_at_most(build):
    fit = verify(build())
    assert [f for f in fit.findings if f.severity is not Severity.NOTE] == []
    assert fit.order.feasible and fit.fits


@pytest.mark.parametrize("fault", FAULTS, ids=lambda f: f.name)
def test_a_deliberate_fault_is_found_and_nothing_else(fault):
    findings = fault.found()
    found = [f for f in findings if f.code == fault.code]
    assert found, [f.message for f in findings]
    loud = {f.code for f in findings} - {fault.code} - set(fault.also)
    assert loud <= HARMLESS, [(f.code, f.message) for f in findings if f.code in loud - HARMLESS]
    assert all(f.severity is Severity.NOTE for f in findings if f.code in loud)
    named = {p for f in found for p in f.parts}
    driven = {i for f in found for i in f.fasteners}
    assert named == set(fault.parts) or not fault.parts
    assert driven == set(fault.fasteners)
    if fault.value is not None:
        assert any(f.value == pytest.approx(fault.value, abs=0.02) for f in found), [f.value for f in found]
    for f in found:
        assert f.remedy and f.message.endswith(".")


def test_the_catalogue_has_two_faults_for_every_code():
    """Every code of the dry fit, its order, gluing, motions and proofs."""
    counted = Counter(f.code for f in FAULTS)
    codes = [e.code for e in catalogue().values() if e.subject == "dryfit"]
    assert {c: counted[c] for c in codes if counted[c] < 2} == {}
    assert set(counted) <= set(codes)


def test_the_catalogue_goes_over_many_shipped_modules():
    modules = {f.build().module for f in FAULTS} & set(MODULES)
    assert len(modules) >= 8, modules
