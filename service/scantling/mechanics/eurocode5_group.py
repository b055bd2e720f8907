"""Several fasteners by Eurocode 5: how many of a row count, splitting across the grain, design values."""

from itertools import pairwise
from math import sqrt

from scantling.tables import look_up

from .validity import positive, within

ROWS = ((4.0, 0.5), (7.0, 0.7), (10.0, 0.85), (14.0, 1.0))  # EN 1995-1-1 Table 8.1: a1/d and kef


def effective_axial(count: int) -> float:
    """Return how many of a group of screws count in withdrawal.

    Units: pieces. Valid: 1 and more. Raises: OutOfValidity otherwise. Source: EN 1995-1-1 Eq. 8.41.
    """
    return float(within("count", count, 1, 1000, "", "EN 1995-1-1 8.7.2(8)") ** 0.9)


def effective_nails(count: int, spacing_mm: float, diameter_mm: float, predrilled: bool) -> tuple[float, float]:
    """Return kef and how many of a row of nails (or screws up to 6 mm) along the grain count.

    Units: mm, result a ratio and pieces. Valid: spacings from 7 d, from 4 d in predrilled holes.
    Raises: OutOfValidity below that. Source: EN 1995-1-1 8.3.1.1(8), Eq. 8.17, Table 8.1 (linear between).
    """
    d = positive("diameter", diameter_mm, "mm")
    ratio = within("spacing in diameters", spacing_mm / d, 4.0 if predrilled else 7.0, 1e6, "", "EN 1995-1-1 Table 8.1")
    exponent = 1.0
    for (low, k_low), (high, k_high) in pairwise(ROWS):
        if low <= ratio <= high:
            exponent = k_low + (ratio - low) / (high - low) * (k_high - k_low)
            break
    return exponent, float(within("count", count, 1, 1000, "", "EN 1995-1-1 8.3.1.1") ** exponent)


def effective_bolts(count: int, spacing_mm: float, diameter_mm: float, angle_deg: float) -> float:
    """Return how many of a row of bolts (or screws above 6 mm) count, at an angle of the load to the grain.

    Units: mm, degrees, result pieces. Valid: count 1 and more, spacing above zero, 0 to 90 degrees.
    Raises: OutOfValidity otherwise. Source: EN 1995-1-1 8.5.1.1(4), Eq. 8.34; linear between along and across.
    """
    number = within("count", count, 1, 1000, "", "EN 1995-1-1 8.5.1.1")
    reach = positive("spacing", spacing_mm, "mm") / (13 * positive("diameter", diameter_mm, "mm"))
    along = min(number, float(number**0.9) * float(reach**0.25))
    share = within("angle to the grain", angle_deg, 0.0, 90.0, "degrees", "EN 1995-1-1 8.5.1.1") / 90
    return along + (number - along) * share


def splitting(width_mm: float, depth_mm: float, loaded_edge_mm: float) -> float:
    """Return the characteristic resistance of softwood against splitting by a load across the grain.

    Units: mm, result N; `loaded_edge` from that edge to the furthest fastener.
    Valid: loaded edge under the depth.
    Raises: OutOfValidity outside that. Source: EN 1995-1-1 8.1.4, Eq. 8.4 (w = 1).
    """
    h = positive("depth", depth_mm, "mm")
    he = within("distance from the loaded edge", loaded_edge_mm, 1e-6, h * (1 - 1e-9), "mm", "EN 1995-1-1 8.1.4")
    return 14 * positive("width", width_mm, "mm") * sqrt(he / (1 - he / h))


def design_value(characteristic: float, kmod: float, material: str = "connections") -> float:
    """Return a design value: kmod times the characteristic value over the partial factor of `material`.

    Units: those of the value, e.g. N or N/mm2. Valid: kmod 0.2 to 1.1. Raises: OutOfValidity outside that,
    UnknownRowError for another material. Source: EN 1995-1-1 Eq. 2.14, Table 2.3.
    """
    factor = within("kmod", kmod, 0.2, 1.1, "", "EN 1995-1-1 Table 3.1")
    return factor * characteristic / look_up("partial_factors", "factor", material=material).value
