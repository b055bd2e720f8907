"""Nails by pennyweight: every style of the table has a length, and a length the caller states rules over it.

Sizes: ANSI/AWC NDS 2018, Appendix Table L4. Diameters were read there; the lengths of box nails are from memory, which
the nail says of itself, so that they inform and do not decide.
"""

import pytest

from scantling.mechanics import fastener_checks
from scantling.mechanics.fastener import driven_nail
from scantling.tables import Status
from scantling.tables.fasteners import nails

INCH = 25.4
LENGTHS = {"6d": 2.0, "8d": 2.5, "10d": 3.0, "12d": 3.25, "16d": 3.5, "20d": 4.0}
BOX_DIAMETERS = {"6d": 0.099, "8d": 0.113, "10d": 0.128, "16d": 0.135}


def one(fastener: dict) -> dict:
    layers = [{"material": "douglas-fir", "thickness": 19.0}, {"material": "douglas-fir", "thickness": 89.0}]
    joint = {"id": "slat", "layers": layers, "fastener": {"kind": "nail", **fastener}}
    return fastener_checks({"joints": [joint]})["joints"][0]


@pytest.mark.parametrize(("style", "size"), sorted(nails()))
def test_every_nail_of_the_table_is_answered(style: str, size: str) -> None:
    answer = one({"style": style, "pennyweight": size})
    nail = nails()[style, size]
    assert answer["point"]["at_mm"] == pytest.approx(nail.length_mm, abs=0.01)
    assert f"{size} {style} nail" in answer["fastener"]


@pytest.mark.parametrize("size", sorted(LENGTHS))
def test_common_nails_are_as_long_as_appendix_l4_says(size: str) -> None:
    nail = driven_nail("common", size)
    assert nail.length_mm == pytest.approx(LENGTHS[size] * INCH)
    assert nail.status is Status.READ


@pytest.mark.parametrize("size", sorted(BOX_DIAMETERS))
def test_box_nails_are_thinner_and_as_long_as_common_ones(size: str) -> None:
    nail = driven_nail("box", size)
    assert nail.diameter_mm == pytest.approx(BOX_DIAMETERS[size] * INCH)
    assert nail.length_mm == pytest.approx(LENGTHS[size] * INCH)
    assert nail.diameter_mm < driven_nail("common", size).diameter_mm
    assert nail.status is Status.MEMORY


def test_the_answer_says_that_a_length_is_from_memory() -> None:
    assert one({"style": "box", "pennyweight": "8d"})["capacity"]["status"] == "memory"
    assert one({"style": "common", "pennyweight": "8d"})["capacity"]["status"] == "read"


def test_a_stated_length_rules_over_the_table() -> None:
    answer = one({"style": "box", "pennyweight": "8d", "length": 60.0})
    assert answer["point"]["at_mm"] == 60.0
    assert answer["capacity"]["status"] == "read"
    assert one({"style": "common", "pennyweight": "8d", "length": 70.0})["point"]["at_mm"] == 70.0
