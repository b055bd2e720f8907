"""Screws in plywood: APA Technical Note E830, Fastener Loads for Plywood: Screws (June 2011), Tables 1 and 2, in lb."""

import pytest

from scantling.mechanics import fastener_checks
from scantling.mechanics.inch_pound import N_PER_LB
from scantling.mechanics.plywood_screws import ultimate_in_plywood, ultimate_through_plywood
from scantling.mechanics.validity import OutOfValidity
from scantling.tables import Status, UnknownRowError

INCH = 25.4


@pytest.mark.parametrize(
    ("screw", "gauge", "penetration", "printed"),
    [
        ("wood", 8, 0.5, 415),
        ("wood", 12, 0.5, 590),
        ("tapping", 8, 0.5, 465),
        ("tapping", 12, 0.5, 670),
        ("tapping", 8, 0.625, 500),
        ("tapping", 12, 0.625, 705),
        ("tapping", 8, 0.75, 590),
        ("tapping", 12, 0.75, 715),
    ],
)
def test_table_1_into_plywood(screw: str, gauge: int, penetration: float, printed: int) -> None:
    found = ultimate_in_plywood(screw, gauge, penetration * INCH)
    assert found.value / N_PER_LB == pytest.approx(printed)
    assert found.status is Status.READ


def test_table_1_estimates_are_marked_as_such() -> None:
    """The numbers in brackets are APA's own estimates."""
    found = ultimate_in_plywood("wood", 10, 0.5 * INCH)
    assert found.value / N_PER_LB == pytest.approx(500)
    assert found.status is Status.DERIVED


@pytest.mark.parametrize(
    ("thickness", "printed"),
    [("1/4", (360, 380, 400, 410)), ("1/2", (700, 890, 900, 920)), ("3/4", (700, 950, 1300, 1390))],
)
def test_table_2_through_plywood(thickness: str, printed: tuple[int, ...]) -> None:
    for gauge, value in zip((8, 10, 12, 14), printed, strict=True):
        assert ultimate_through_plywood(thickness, gauge).value / N_PER_LB == pytest.approx(value)


def test_less_penetration_than_tested_is_refused() -> None:
    with pytest.raises(OutOfValidity, match="E830"):
        ultimate_in_plywood("wood", 8, 9.5)
    with pytest.raises(UnknownRowError, match="wood 8"):
        ultimate_in_plywood("wood", 9, 12.7)


@pytest.mark.parametrize("gauge", [8, 10, 12])
def test_our_design_value_in_plywood_stays_well_under_the_tested_ultimate(gauge: int) -> None:
    """An outside check of the whole chain: NDS design values into plywood against APA's averages at failure.

    The ultimate is under a steel plate, ours wood to wood with a full bite: at least four times under it.
    """
    layers = [{"material": "softwood-plywood", "thickness": 19.05}, {"material": "softwood-plywood", "thickness": 76.2}]
    fastener = {"gauge": gauge, "length": 76.2}
    answer = fastener_checks({"joints": [{"id": "a", "layers": layers, "fastener": fastener}]})["joints"][0]
    ultimate = ultimate_in_plywood("wood", gauge, 0.5 * INCH).value
    assert 4 < ultimate / answer["capacity"]["lateral_n"] < 12
