"""Case O11: queen bed slats, 1x2 on edge against 1x3 and 1x4 flat (woodworkersjournal.com, bed slats strongest)."""

import pytest

from scantling.mechanics.beams import rectangle

IN = 25.4
EDGE, FLAT3, FLAT4 = rectangle(0.75 * IN, 1.5 * IN), rectangle(2.5 * IN, 0.75 * IN), rectangle(3.5 * IN, 0.75 * IN)


def test_inertia_in_inches():
    assert [s.inertia_mm4 / IN**4 for s in (EDGE, FLAT3, FLAT4)] == pytest.approx([0.2109, 0.0879, 0.1230], abs=5e-5)


def test_modulus_in_inches():
    assert [s.modulus_mm3 / IN**3 for s in (EDGE, FLAT3, FLAT4)] == pytest.approx([0.281, 0.234, 0.328], abs=5e-4)


def test_the_edge_slat_is_stiffest_and_the_wide_one_strongest():
    assert EDGE.inertia_mm4 > FLAT4.inertia_mm4 > FLAT3.inertia_mm4
    assert FLAT4.modulus_mm3 > EDGE.modulus_mm3 > FLAT3.modulus_mm3
