"""Shelf spans against the printed table of the Architectural Woodwork Standards, and the metric shop formula."""

import pytest

from scantling.mechanics.beams import allowed_span, deflection
from scantling.mechanics.shelves import creep_factor, sag_limit, shelf_deflection_metric, shelf_load

IN, PSI = 25.4, 0.006894757
PSF = 47.8803e-6  # N per mm2

CELLS = [
    # modulus psi, thickness in, psf, printed span in
    (950_000, 0.75, 40, 40),
    (950_000, 0.75, 50, 37),
    (950_000, 1.0, 40, 53),
    (950_000, 1.0, 50, 49),
    (1_800_000, 0.75, 40, 49),
    (1_800_000, 0.75, 50, 46),
    (1_800_000, 1.0, 40, 66),
    (1_800_000, 1.0, 50, 61),
    (1_820_000, 0.75, 40, 49),
    (1_820_000, 0.75, 50, 46),
    (1_820_000, 1.0, 40, 66),
    (1_820_000, 1.0, 50, 61),
]


@pytest.mark.parametrize(("modulus", "thickness", "psf", "printed"), CELLS)
def test_shelf_spans(modulus, thickness, psf, printed):
    """AWI/AWMAC/WI, Architectural Woodwork Standards, 1st ed. (2009), pp. 253 and 279: longest spans at span/144.

    The table prints whole inches, so the formula may lie up to an inch above (1.5 %) and by rounding just below.
    """
    stiffness = modulus * PSI * (thickness * IN) ** 3 / 12
    span = allowed_span("uniform-simple", psf * PSF, stiffness, 144) / IN
    assert -0.0006 <= span / printed - 1 <= 0.015


def test_metric_shelf_formula_is_the_beam_formula():
    """mdf-info.eu, MDF shelves: 5 W L^3 9.81/(32 E b t^3) is 5 q L^4/384 E I (Wood Handbook Table 9-1)."""
    beam = deflection("uniform-simple", 25 * 9.81, 800, 2500 * 300 * 18**3 / 12)
    assert shelf_deflection_metric(25, 800, 2500, 300, 18) == pytest.approx(beam, rel=1e-9)


def test_area_loads():
    """Architectural Woodwork Standards 2009, pp. 253, 279: 50 psf (2.39 kPa) and 40 psf (1.92 kPa)."""
    assert shelf_load("library shelf", 1000).line_n_per_mm == pytest.approx(2.39, abs=0.005)
    assert shelf_load("other shelf", 1000).line_n_per_mm == pytest.approx(1.92, abs=0.006)


def test_books_are_a_line_load():
    """Shelf design guidelines: 20 to 25 lb of books a running foot, whatever the depth: 25 lb/ft is 0.365 N/mm."""
    assert shelf_load("books", 200).line_n_per_mm == shelf_load("books", 400).line_n_per_mm
    assert shelf_load("books", 300).line_n_per_mm == pytest.approx(0.3648, abs=0.0002)
    assert "line load" in shelf_load("books", 300).label


@pytest.mark.parametrize(
    ("family", "service_class", "printed"),
    [
        ("softwood", 1, 1.6),
        ("plywood", 1, 1.8),
        ("particleboard", 1, 3.25),
        ("fibreboard", 1, 3.25),
        ("softwood", 2, 1.8),
    ],
)
def test_eurocode_creep(family, service_class, printed):
    """EN 1995-1-1 Table 3.2: 1 + kdef."""
    assert creep_factor(family, service_class)[0] == pytest.approx(printed)


@pytest.mark.parametrize(("family", "printed"), [("hardwood", 1.5), ("plywood", 2.0), ("osb", 2.0)])
def test_nds_creep(family, printed):
    """NDS 2018 3.5.2: Kcr 1.5 for dry lumber, 2.0 for wood structural panels."""
    assert creep_factor(family, method="nds")[0] == printed


def test_visible_sag():
    """Shelf design guidelines: the eye notices 1/32 in per running foot, 3/32 in on a 3 ft shelf."""
    assert sag_limit("visible", 36 * IN)[0] / IN == pytest.approx(3 / 32)
