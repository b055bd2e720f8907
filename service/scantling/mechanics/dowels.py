"""A glued dowel pulled out of its hole: bond on the area of the hole, as tests found it. No standard designs it."""

from math import pi

from scantling.tables import Known, look_up

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


def dowel_size(thickness_mm: float) -> tuple[float, float]:
    """Return the least and greatest usual dowel diameter for the thinner of two parts.

    Units: mm. Valid: parts of 9 to 40 mm. Raises: OutOfValidity outside that.
    Source: common practice: a third to a half of the thickness (advice differs).
    """
    t = within("thickness", thickness_mm, 9.0, 40.0, "mm", "workshop practice on dowels")
    return t / 3, t / 2
