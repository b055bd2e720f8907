"""A glued dowel pulled out of its hole: bond on the area of the hole, as tests found it. No standard designs it."""

from math import pi

from scantling.tables import Known, look_up

from .figures import figure
from .inch_pound import N_MM2_PER_PSI, QUARTER_INCH_MM
from .lateral import Shear, bearing_large, bearing_small, reductions, single_shear
from .validity import positive, within

TESTED = "glued dowel tests, 6 to 12 mm"


def dowel_bond(case: str) -> Known:
    """Return the mean bond strength tests found for a kind of dowel and glue line.

    Units: N/mm2 on the area of the hole. Valid: the cases of the table dowel_bond. Raises: UnknownRowError naming them.
    Source: Podlena et al., BioResources 13(3) 5179 (2018) and 15(1) 1665 (2020). Means of tests, not design values.
    """
    return look_up("dowel_bond", "bond", case=case)


def dowel_pull_out(diameter_mm: float, glued_mm: float, bond: float) -> float:
    """Return the mean load that pulls a glued dowel out of one part: pi d L times the bond strength.

    Units: mm, N/mm2, result N. Valid: dowels of 6 to 12 mm glued over 1.5 diameters or more, until the dowel itself
    breaks. Raises: OutOfValidity outside that.
    Source: pull-out on the area of the hole as in BioResources 13(3) 5179 (2018); Crews, Michigan State University
    (1959): strength grows with the area until the dowel breaks.
    """
    d = within("dowel diameter", diameter_mm, 6.0, 12.0, "mm", TESTED)
    length = within("glued length", glued_mm, 1.5 * d, 100.0, "mm", TESTED)
    return pi * d * length * positive("bond strength", bond, "N/mm2", TESTED)


def dowel_breaking(diameter_mm: float, tension_strength: float) -> float:
    """Return the load that breaks the dowel itself in tension: the ceiling of what its bond can carry.

    Units: mm, N/mm2 along the grain, result N. Valid: dowels of 6 to 12 mm, strength above zero.
    Raises: OutOfValidity outside that. Source: statics of a round bar.
    """
    d = within("dowel diameter", diameter_mm, 6.0, 12.0, "mm", TESTED)
    return pi / 4 * d**2 * positive("tension strength", tension_strength, "N/mm2", "statics")


def screening_pull(mean_n: float) -> float:
    """Return what a glued dowel may be asked to carry along itself, from the mean of tests: a screening value.

    Units: N in, N out. Valid: means of short tests; 5 % exclusion at a coefficient of variation of 16 %, over 2.1 for
    years of load and safety, as clear wood is brought to an allowable value. It only ever warns.
    Raises: OutOfValidity for nothing. Source: ASTM D245 and D2555 (not opened), the same derivation as for 1 in boards.
    """
    cov, over = figure("rupture-cov"), figure("clear-wood-divisor")
    return positive("mean of tests", mean_n, "N", TESTED) * (1 - 1.645 * cov.value) / over.value


def screening_shear(diameter_mm: float, depths_mm: tuple[float, float], gravities: tuple[float, float]) -> float:
    """Return what a wooden dowel may be asked to carry across itself: the yield equations with a pin of birch.

    Units: mm, specific gravities on oven-dry volume; N for ten years of load. Valid: dowels of 6 to 12 mm, two
    parts; the pin bends at the modulus of rupture of paper birch, its lower 5 %. It only ever warns.
    Raises: OutOfValidity outside that. Source: NDS 2018 12.3.1 (yield modes, meant for steel: practice for wood); Wood
    Handbook, FPL-GTR-282, Table 5-3 (paper birch, 12,300 psi).
    """
    d = within("dowel diameter", diameter_mm, 6.0, 12.0, "mm", TESTED)
    bends = 12_300 * N_MM2_PER_PSI * (1 - 1.645 * figure("rupture-cov").value)
    main, side = (bearing_small(g) if d < QUARTER_INCH_MM else bearing_large(g, d, 90.0) for g in gravities)
    shear = Shear(d, depths_mm[0], depths_mm[1], main, side, bends, reductions(d, d, 90.0))
    return single_shear(shear).value_n


def dowel_size(thickness_mm: float) -> tuple[float, float]:
    """Return the least and greatest usual dowel diameter for the thinner of two parts.

    Units: mm. Valid: parts of 9 to 40 mm. Raises: OutOfValidity outside that.
    Source: common practice: a third to a half of the thickness (advice differs).
    """
    t = within("thickness", thickness_mm, 9.0, 40.0, "mm", "workshop practice on dowels")
    return t / 3, t / 2
