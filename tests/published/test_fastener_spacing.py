"""Edge, end and spacing of fasteners: NDS 2018 Commentary Tables C12.1.5.7 and C12.1.6.6, Tables 12.5.1A to C;
EN 1995-1-1 Table 8.2. Distances in diameters are printed; the inches are those diameters times the printed shank."""

import pytest

from scantling.mechanics.eurocode5_spacing import nail_distance, predrilling_needed
from scantling.mechanics.spacing import edge_distance, end_distance, spacing
from scantling.mechanics.validity import OutOfValidity
from scantling.tables import UnknownRowError

D8 = 0.164 * 25.4


def test_number_eight_in_prebored_pine() -> None:
    """NDS 2018 Commentary: edge 2.5 D = 0.41 in, end in tension 10 D = 1.64 in, in a row 10 D = 1.64 in."""
    assert edge_distance(D8).prebored_mm / 25.4 == pytest.approx(0.41, abs=0.005)
    assert end_distance(D8, toward_end=True, softwood=True).prebored_mm / 25.4 == pytest.approx(1.64, abs=0.005)
    assert spacing(D8, along_grain=True).prebored_mm / 25.4 == pytest.approx(1.64, abs=0.005)


@pytest.mark.parametrize(
    ("toward_end", "plain", "prebored"),
    [(True, 15, 10), (False, 10, 5)],
)
def test_small_fasteners_from_the_end(toward_end: bool, plain: float, prebored: float) -> None:
    found = end_distance(4.0, toward_end, softwood=True)
    assert found.plain_mm == pytest.approx(plain * 4.0)
    assert found.prebored_mm == pytest.approx(prebored * 4.0)


@pytest.mark.parametrize(
    ("toward_end", "softwood", "full", "least"),
    [(True, True, 7, 3.5), (True, False, 5, 2.5), (False, True, 4, 2)],
)
def test_large_fasteners_from_the_end_table_12_5_1a(
    toward_end: bool, softwood: bool, full: float, least: float
) -> None:
    found = end_distance(12.7, toward_end, softwood)
    assert found.plain_mm == pytest.approx(full * 12.7)
    assert found.prebored_mm == pytest.approx(least * 12.7)


def test_large_fasteners_in_a_row_and_from_the_edge() -> None:
    """NDS 2018 Table 12.5.1B: 4 D, 3 D at least; 12.5.1C: 4 D to a loaded edge across the grain."""
    assert spacing(12.7, True).plain_mm == pytest.approx(4 * 12.7)
    assert spacing(12.7, True).prebored_mm == pytest.approx(3 * 12.7)
    assert edge_distance(12.7).plain_mm == pytest.approx(4 * 12.7)


@pytest.mark.parametrize(
    ("distance", "diameter", "angle", "plain", "prebored"),
    [
        ("a1", 4.0, 0, 10, 5),
        ("a1", 4.0, 90, 5, 4),
        ("a1", 6.0, 0, 12, 5),
        ("a2", 4.0, 0, 5, 3),
        ("a2", 4.0, 90, 5, 4),
        ("loaded end", 4.0, 0, 15, 12),
        ("end", 4.0, 0, 10, 7),
        ("loaded edge", 4.0, 90, 7, 5),
        ("loaded edge", 6.0, 90, 10, 7),
        ("edge", 4.0, 90, 5, 3),
    ],
)
def test_eurocode_5_table_8_2(distance: str, diameter: float, angle: float, plain: float, prebored: float) -> None:
    """EN 1995-1-1 Table 8.2, characteristic density up to 420 kg/m3, in diameters."""
    found = nail_distance(distance, diameter, angle)
    assert found.plain_mm / diameter == pytest.approx(plain)
    assert found.prebored_mm / diameter == pytest.approx(prebored)


@pytest.mark.parametrize(
    ("density", "diameter", "thickness", "needed"),
    [(350, 3.4, 24.0, False), (350, 3.4, 23.0, True), (550, 3.4, 60.0, True), (350, 6.5, 100.0, True)],
)
def test_when_to_predrill(density: float, diameter: float, thickness: float, needed: bool) -> None:
    """EN 1995-1-1 8.3.1.1(2) and Eq. 8.18: 7 x 3.4 = 23.8 mm governs over (13 x 3.4 - 30) 350/400 = 12.4 mm."""
    assert predrilling_needed(density, diameter, thickness) is needed


def test_other_distances_and_thick_nails_are_refused() -> None:
    with pytest.raises(OutOfValidity, match=r"Table 8\.2"):
        nail_distance("a1", 12.0, 0)
    with pytest.raises(UnknownRowError, match="a2"):
        nail_distance("a9", 4.0, 0)
