"""Proofs through a range: the thicknesses a shop may sell, the angle a saw really gives, a year of moisture."""

from math import cos, radians, tan

import pytest

from pieces import MODULES
from scantling.measure import RequestError
from scantling.plan.proofs import proofs

STOOL = {"module": "storage-footstool"}


def test_the_footstool_fits_at_every_thickness_its_sheets_are_sold_at():
    answer = proofs(STOOL, modules=MODULES)
    assert answer["ranges"]["thickness_mm"]["frame"] == [17.1, 18.5]
    assert answer["variants"] == 9
    assert answer["failed"] == []


def test_a_mitre_with_both_strips_off_opens_by_the_tangent_of_both_errors():
    """Two 45° bevels on 18 mm, each half a degree off: the far end opens about 2 · 18/cos 45° · tan 0.5°, geometry."""
    answer = proofs({**STOOL, "ranges": {"saw_error_deg": 0.5}}, modules=MODULES)
    mitres = [o for o in answer["saw_errors"] if "leg" in str(o)]
    expected = 2 * 18 / cos(radians(45)) * tan(radians(0.5))
    assert any(abs(v - expected) < 0.03 for o in mitres for v in o.values() if isinstance(v, float)), mitres[0]


def test_no_saw_error_opens_nothing():
    exact = {"saw_error_deg": 0.0, "square_error_deg": 0.0, "length_error_mm": 0.0}
    answer = proofs({**STOOL, "ranges": exact}, modules=MODULES)
    assert answer["saw_errors"] == answer["length_errors"] == []


@pytest.mark.parametrize(
    ("thickness", "code"),
    [
        ({"top": {"least": 1.0, "most": 2.0}}, "unknown-role"),
        ({"frame": {"least": 19, "most": 17}}, "least-above-most"),
    ],
)
def test_bad_ranges_are_named(thickness, code):
    with pytest.raises(RequestError) as caught:
        proofs({**STOOL, "ranges": {"thickness": thickness}}, modules=MODULES)
    assert [e.code for e in caught.value.errors] == [code]
