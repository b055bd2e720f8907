"""Glued dowels: bond strengths found in tests (BioResources 13(3) 5179, 2018; 15(1) 1665, 2020), area by hand."""

from math import pi

import pytest

from scantling.mechanics.dowels import dowel_bond, dowel_breaking, dowel_pull_out, dowel_size
from scantling.mechanics.validity import OutOfValidity
from scantling.tables import UnknownRowError


@pytest.mark.parametrize(
    ("case", "printed"),
    [
        ("glued dowel, spiral single groove", 4.9),
        ("glued dowel, pre-glued", 3.0),
        ("8 mm beech in oak, dry", 8.6),
        ("8 mm beech in oak, after humidity cycling", 3.0),
    ],
)
def test_bond_strengths_as_printed(case: str, printed: float) -> None:
    assert dowel_bond(case).value == printed


def test_pull_out_is_bond_times_the_area_of_the_hole() -> None:
    assert dowel_pull_out(8.0, 25.0, 4.9) == pytest.approx(pi * 8 * 25 * 4.9)
    assert dowel_breaking(8.0, 60.0) == pytest.approx(pi * 16 * 60)


def test_outside_the_tests_is_refused() -> None:
    with pytest.raises(OutOfValidity, match="6 to 12"):
        dowel_pull_out(20.0, 60.0, 4.9)
    with pytest.raises(OutOfValidity, match="glued length"):
        dowel_pull_out(8.0, 5.0, 4.9)
    with pytest.raises(UnknownRowError, match="spiral"):
        dowel_bond("glued dowel, spiral")


def test_size_by_practice() -> None:
    """A third to a half of the thickness: 3/8 in dowels in 3/4 in stock stand at the upper end (common practice)."""
    least, most = dowel_size(19.05)
    assert least < 9.525 <= most
