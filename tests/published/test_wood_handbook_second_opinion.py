"""The Wood Handbook read twice: our tables and formulas against a registry package that digitised FPL-GTR-282 (2021).

The package (geotech-references, MIT) transcribed chapters 4, 5 and 8 with printed page numbers, in the metric columns;
ours hold the inch-pound columns. Both round, so strengths agree to 1.5 % and the exact formulas to the last digit.
"""

import pytest
from geotech_references.wood_handbook import fastenings
from geotech_references.wood_handbook import mechanical_properties as properties
from geotech_references.wood_handbook import moisture_relations as moisture

from scantling.mechanics.withdrawal import ultimate_withdrawal
from scantling.tables import clear_woods, load_table, screw_gauges, shrinkages

N_MM2_PER_PSI = 0.006894757
SPECIES = {
    "ash": "ash, white",
    "cherry": "cherry, black",
    "sugar-maple": "maple, sugar",
    "red-oak": "oak, northern red",
    "white-oak": "oak, white",
    "yellow-poplar": "yellow-poplar",
    "douglas-fir": "douglas-fir, coast",
    "loblolly-pine": "pine, loblolly",
    "lodgepole-pine": "pine, lodgepole",
    "longleaf-pine": "pine, longleaf",
    "engelmann-spruce": "spruce, engelmann",
}
COLUMNS = {
    "modulus_of_rupture_psi": "mor_kpa",
    "compression_parallel_psi": "comp_parallel_kpa",
    "compression_perpendicular_psi": "comp_perp_kpa",
    "shear_parallel_psi": "shear_kpa",
}


@pytest.mark.parametrize("wood", SPECIES)
def test_clear_wood_table_5_3(wood: str) -> None:
    """Table 5-3a (metric) and 5-3b (inch-pound), pp. 5-5 to 5-8. Small values round more coarsely: 50 kPa besides."""
    ours = clear_woods()[wood]
    theirs = properties.table_5_3_mechanical_properties(SPECIES[wood])
    assert ours.specific_gravity == theirs["sg"]
    assert ours.modulus_of_elasticity_mpsi * N_MM2_PER_PSI * 1e6 == pytest.approx(theirs["moe_mpa"], rel=0.012)
    for own, other in COLUMNS.items():
        assert getattr(ours, own) * N_MM2_PER_PSI * 1000 == pytest.approx(theirs[other], rel=0.015, abs=60), own


@pytest.mark.parametrize("wood", ["ash", "cherry", "sugar-maple", "white-oak", "yellow-poplar", "douglas-fir"])
def test_shrinkage_table_4_3(wood: str) -> None:
    """Table 4-3, p. 4-8: exact."""
    theirs = moisture.table_4_3_shrinkage(SPECIES[wood])
    ours = shrinkages()[wood]
    printed = tuple(theirs[f"{way}_pct"] for way in ("radial", "tangential", "volumetric"))
    assert (ours.radial, ours.tangential, ours.volumetric) == printed


@pytest.mark.parametrize("gauge", [4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 24])
def test_screw_shanks_table_8_9(gauge: int) -> None:
    """Table 8-9, p. 8-12: to the hundredth of a millimetre it prints."""
    theirs = fastenings.table_8_9_screw_shank_diameter(gauge)["diameter_mm"]
    assert screw_gauges()[gauge].diameter_mm == pytest.approx(theirs, abs=0.0051)


@pytest.mark.parametrize(
    ("fastener", "function"),
    [
        ("wood screw", "wood_screw_withdrawal"),
        ("smooth nail", "nail_withdrawal_common"),
        ("ring nail", "nail_withdrawal_annularly_threaded"),
        ("drift pin", "drift_bolt_withdrawal"),
        ("lag screw", "lag_screw_withdrawal"),
    ],
)
@pytest.mark.parametrize("gravity", [0.32, 0.48, 0.68])
def test_withdrawal_formulas_of_chapter_8(fastener: str, function: str, gravity: float) -> None:
    """Eq. 8-1, 8-2a, 8-9, 8-10, 8-14, pp. 8-2 to 8-12."""
    theirs = getattr(fastenings, function)(gravity, 4.17, 30.0)["withdrawal_load_n"]
    assert ultimate_withdrawal(fastener, gravity, 4.17, 30.0) == pytest.approx(theirs, rel=1e-9)


def test_lateral_coefficients_table_8_4() -> None:
    """Table 8-4, p. 8-6: every range, nails, screws and lags."""
    for row in load_table("proportional_lateral").rows:
        middle = (row.number("least") + row.number("most")) / 2
        for column, name in (("nail", "nails"), ("screw", "screws"), ("lag", "lag_screws")):
            theirs = fastenings.table_8_4_lateral_load_coefficient(f"{row.text('kind')}s", middle, name)
            assert row.number(column) == theirs["k"], (row.text("kind"), middle, name)
