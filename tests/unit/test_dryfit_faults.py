"""The catalogue of deliberate faults: each is found, with the right ids, and nothing else is reported."""

from collections import Counter

import pytest

from dryfit_faults import FAULTS
from dryfit_pieces import bench, box, corner, post, tray
from scantling.dryfit import verify
from scantling.findings import Severity, catalogue

ELSEWHERE = {  # found by other questions than a dry fit: see test_dryfit_proofs and _glueing
    "saw-error-opens", "swells-shut", "clamps-too-short", "clamps-too-few", "open-time-too-short",
}  # fmt: skip
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
    piece = fault.build()
    fit = verify(piece, fault.settings)
    found = [f for f in fit.findings if f.code == fault.code]
    assert found, [f.message for f in fit.findings]
    loud = {f.code for f in fit.findings} - {fault.code} - set(fault.also)
    assert loud <= HARMLESS, [(f.code, f.message) for f in fit.findings if f.code in loud - HARMLESS]
    assert all(f.severity is Severity.NOTE for f in fit.findings if f.code in loud)
    named = {p for f in found for p in f.parts}
    driven = {i for f in found for i in f.fasteners}
    assert named == set(fault.parts) or not fault.parts
    assert driven == set(fault.fasteners)
    if fault.value is not None:
        assert any(f.value == pytest.approx(fault.value, abs=0.02) for f in found), [f.value for f in found]
    for f in found:
        assert f.remedy and f.message.endswith(".")


def test_the_catalogue_has_two_faults_for_every_code():
    counted = Counter(f.code for f in FAULTS)
    codes = [e.code for e in catalogue().values() if e.subject == "dryfit" and e.code not in ELSEWHERE]
    assert {c: counted[c] for c in codes if counted[c] < 2} == {}
