"""Panels as strips and plates against printed examples and tables."""

import math

import pytest

from scantling.mechanics.panels import capacity_per_width, rated_panel, stiffness_per_width, strip_capacity
from scantling.mechanics.plates import (
    flange_buckling_stress,
    four_edges,
    orthotropic_four_edges,
    plate_factors,
    plate_stiffness,
)
from scantling.mechanics.strength import wood_values

IN, LB = 25.4, 4.448222
PSF = 0.0478803  # kPa


def teco_strip():
    """PFS TECO, Design Capacities for Structural Plywood: 32/16 plywood over three spans of 32 in."""
    return strip_capacity(
        capacity_per_width(407),
        32 * IN,
        spans=3,
        duration=1.15,
        stiffness_nmm=stiffness_per_width(126_500),
        clear_span_mm=30.5 * IN,
        sag_mm=32 / 240 * IN,
    )


def test_strip_by_bending():
    """PFS TECO example: wb = 120 FbS CD/l1^2 = 54.85 psf."""
    assert teco_strip().bending_kpa / PSF == pytest.approx(54.85, rel=1e-3)


def test_strip_by_shear():
    """PFS TECO example: ws = 20 Fs CD/l2 = 149.3 psf with Fs 198 lb/ft, l2 30.5 in, CD 1.15."""
    shear = 198 * LB / 304.8
    strip = strip_capacity(1e6, 32 * IN, spans=3, duration=1.15, shear_n_per_mm=shear, clear_span_mm=30.5 * IN)
    assert strip.shear_kpa / PSF == pytest.approx(149.3, rel=1e-3)


def test_strip_by_deflection():
    """PFS TECO example: 32.88 psf at span/240, figured on 30.75 in."""
    assert teco_strip().deflection_kpa / PSF == pytest.approx(32.88, rel=1e-3)
    assert teco_strip().governing == "deflection"


def test_strip_constant_is_a_three_span_beam():
    """PFS TECO prints 1743; a beam over three spans sags 0.0069 w L^4/(E I), so 12/0.0069 = 1,739."""
    one = strip_capacity(1.0, 100.0, spans=3, stiffness_nmm=1.0, sag_mm=1.0)
    assert 12 / (1000 / (one.deflection_kpa * 100**4)) == pytest.approx(1743, rel=1e-6)
    assert pytest.approx(1743, rel=0.003) == 12 / 0.0069


@pytest.mark.parametrize(
    ("spans", "bending", "sag"),
    [(1, 96.0, 921.6), (2, 96.0, 2220.0), (3, 120.0, 1743.0)],
)
def test_strip_constants(spans, bending, sag):
    """APA D510C (one and two spans) and PFS TECO (three): the constants for psf on a strip a foot wide."""
    strip = strip_capacity(capacity_per_width(1), 1 * IN, spans=spans, stiffness_nmm=stiffness_per_width(1), sag_mm=IN)
    assert strip.bending_kpa / PSF == pytest.approx(bending, rel=1e-4)
    assert strip.deflection_kpa / PSF == pytest.approx(sag, rel=1e-4)


def test_square_plate():
    """Classical table of plates (nu 0.3), square, resting on four edges: alpha 0.004062, beta 0.0479."""
    alpha, beta = plate_factors(1.0)
    assert alpha == pytest.approx(0.004062, rel=1e-3)
    assert beta == pytest.approx(0.0479, abs=0.00005)


@pytest.mark.parametrize(
    ("ratio", "alpha", "beta"),
    [
        (1.2, 0.00565, 0.0627),
        (1.4, 0.00708, 0.0755),
        (1.5, 0.00772, 0.0812),
        (1.6, 0.00831, 0.0862),
        (2.0, 0.01013, 0.1017),
        (3.0, 0.01223, 0.1189),
    ],
)
def test_oblong_plates(ratio, alpha, beta):
    """Classical table of plates (nu 0.3), resting on four edges, by side ratio."""
    assert plate_factors(ratio)[0] == pytest.approx(alpha, abs=0.000006)
    assert plate_factors(ratio)[1] == pytest.approx(beta, abs=0.00006)


def test_plate_deflection_from_factors():
    """Plate theory: alpha q a^4/D with D = E t^3/12(1 - nu^2), and the orthotropic series agrees."""
    d = plate_stiffness(7000, 6)
    plain = four_edges(0.001, 300, 400, d)
    assert plain.deflection_mm == pytest.approx(plate_factors(4 / 3)[0] * 0.001 * 300**4 / d, rel=1e-9)
    series = orthotropic_four_edges(0.001, 300, 400, d, d, d)
    assert series.deflection_mm == pytest.approx(plain.deflection_mm, rel=1e-4)


def test_flange_stress():
    """Wood Handbook, FPL-GTR-282 (2021), Eq 9-31: 0.044 E t^2/b^2, against an independent data package."""
    assert flange_buckling_stress(10_000, 18, 180) == pytest.approx(4.4, rel=1e-9)
    from geotech_references.wood_handbook import structural_stability as package

    other = package.flange_instability_stress(10_000, 18, 180)
    assert flange_buckling_stress(10_000, 18, 180) == pytest.approx(other["fcr"])


def test_birch_plywood_values():
    """Structural Engineer's Pocket Book, p. 266: birch plywood 18 mm: 40.2 N/mm2, E 10,048 along and 7,452 across."""
    along, across = (wood_values("birch-plywood", 18, 300, along=way) for way in (True, False))
    assert (along.bending, along.modulus, across.modulus) == (40.2, 10_048, 7_452)


@pytest.mark.parametrize(("thickness", "printed"), [(9, 11_395), (12, 10_719), (18, 10_048)])
def test_birch_plywood_moduli(thickness, printed):
    """Structural Engineer's Pocket Book, p. 266: birch plywood, mean modulus along the face grain."""
    assert wood_values("birch-plywood", thickness, 300).modulus == printed


@pytest.mark.parametrize(
    ("duration", "service_class", "gamma", "strength", "printed"),
    [("medium", 1, 1.3, 24, 14.77), ("short", 2, 1.3, 21, 14.54), ("permanent", 3, 1.3, 2.2, 0.846)],
)
def test_eurocode_design_values(duration, service_class, gamma, strength, printed):
    """EN 1995-1-1 with EN 338 (xcfem/xc, test_EC5Wood_01 and _03): C24 fm,d, C24 fc,0,d, C18 fc,90,d."""
    name = "c18" if strength == 2.2 else "c24"
    design = wood_values(name, 75, 200).service(duration, service_class)
    found = {24: design.bending, 21: design.compression, 2.2: design.bearing}[strength]
    assert found == pytest.approx(printed, abs=0.005)
    assert math.isclose(design.factor * gamma, {"medium": 0.8, "short": 0.9, "permanent": 0.5}[duration])


@pytest.mark.parametrize(
    ("rating", "along", "moment", "stiffness"),
    [
        ("24/16", True, 385, 78_000),
        ("32/16", True, 445, 115_000),
        ("32/16", False, 165, 25_000),
        ("48/24", True, 1000, 400_000),
        ("48/24", False, 405, 91_500),
    ],
)
def test_rated_panels(rating, along, moment, stiffness):
    """APA D510C (2012), capacities of OSB by span rating: FbS in lb in/ft and EI in lb in2/ft."""
    m, ei, _ = rated_panel(rating, along=along)
    assert m / capacity_per_width(1) == pytest.approx(moment)
    assert ei / stiffness_per_width(1) == pytest.approx(stiffness)
