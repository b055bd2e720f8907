"""A fastener pulled along its axis by Eurocode 5: screws, declared or by formula; nails; heads."""

from math import cos, radians, sin

from .validity import not_negative, positive, within

CLAUSE = "EN 1995-1-1 8.3.2 and 8.7.2"
NAIL_FULL, NAIL_NONE = 12.0, 8.0  # diameters of penetration of a smooth nail, 8.3.2(7)
THREADED_FULL, THREADED_NONE = 8.0, 6.0
SCREW_LEAST = 6.0  # diameters of thread at the point, 8.7.2(3)


def screw_parameter(density: float, diameter_mm: float, thread_mm: float) -> float:
    """Return the characteristic withdrawal strength of a screw of 6 to 12 mm across the grain.

    Units: kg/m3, mm, result N/mm2. Valid: outer diameters 6 to 12 mm, root 0.6 to 0.75 of them, thread of 6 d and more.
    Raises: OutOfValidity outside that. Source: EN 1995-1-1 Eq. 8.39.
    """
    rho = within("characteristic density", density, 200.0, 1000.0, "kg/m3", CLAUSE)
    d = within("screw diameter", diameter_mm, 6.0, 12.0, "mm", "EN 1995-1-1 8.7.2(4)")
    thread = within("thread in the point side part", thread_mm, SCREW_LEAST * d, 2000.0, "mm", "EN 1995-1-1 8.7.2(3)")
    return 0.52 * float(d**-0.5) * float(thread**-0.1) * float(rho**0.8)


def screw_withdrawal(parameter: float, diameter_mm: float, thread_mm: float, angle_deg: float) -> float:
    """Return the characteristic withdrawal resistance of one screw of 6 to 12 mm by Eq. 8.38.

    Units: N/mm2, mm, degrees to the grain, result N. Valid: diameters 6 to 12 mm, 30 to 90 degrees.
    Raises: OutOfValidity outside that. Source: EN 1995-1-1 Eq. 8.38, 8.40 (kd = d/8, at most 1), 8.7.2(4).
    """
    d = within("screw diameter", diameter_mm, 6.0, 12.0, "mm", "EN 1995-1-1 8.7.2(4)")
    return positive("withdrawal strength", parameter, "N/mm2") * d * thread_mm * min(d / 8, 1.0) / _slope(angle_deg)


def declared_withdrawal(
    parameter: float, declared_density: float, density: float, diameter_mm: float, thread_mm: float, angle_deg: float
) -> float:
    """Return the characteristic withdrawal resistance of one screw by the maker's declared strength.

    Units: N/mm2, kg/m3, mm, degrees to the grain, result N. Valid: thread of 6 d and more, 30 to 90 degrees.
    Raises: OutOfValidity outside that. Source: EN 1995-1-1 Eq. 8.40a with fax,k declared to EN 14592.
    """
    d = positive("screw diameter", diameter_mm, "mm")
    thread = within("thread in the point side part", thread_mm, SCREW_LEAST * d, 2000.0, "mm", "EN 1995-1-1 8.7.2(3)")
    share = _density_share(density, declared_density)
    return positive("withdrawal strength", parameter, "N/mm2") * d * thread * share / _slope(angle_deg)


def head_pull_through(parameter: float, head_mm: float, density: float, declared_density: float) -> float:
    """Return the characteristic resistance of a screw head against pulling through.

    Units: N/mm2, mm, kg/m3, result N. Valid: values above zero. Raises: OutOfValidity otherwise.
    Source: EN 1995-1-1 Eq. 8.40b with fhead,k declared to EN 14592.
    """
    share = _density_share(density, declared_density)
    return positive("head strength", parameter, "N/mm2") * positive("head diameter", head_mm, "mm") ** 2 * share


def smooth_nail(
    density: float, diameter_mm: float, penetration_mm: float, head_side_mm: float, head_mm: float
) -> float:
    """Return the characteristic withdrawal resistance of one smooth nail, its head included.

    Units: kg/m3, mm, result N. Valid: nails across the grain, not for permanent or long loads; under 8 d nothing is
    counted and under 12 d a share. Raises: OutOfValidity for sizes not above zero.
    Source: EN 1995-1-1 8.3.2, Eq. 8.24 to 8.26 and (7).
    """
    rho = within("characteristic density", density, 200.0, 1000.0, "kg/m3", CLAUSE)
    d = positive("nail diameter", diameter_mm, "mm")
    share = nail_share(penetration_mm, d, threaded=False)
    point = 20e-6 * rho**2 * share * d * not_negative("penetration", penetration_mm, "mm")
    head = (
        20e-6 * rho**2 * d * not_negative("thickness under the head", head_side_mm, "mm") + 70e-6 * rho**2 * head_mm**2
    )
    return min(point, head)


def nail_share(penetration_mm: float, diameter_mm: float, threaded: bool) -> float:
    """Return the share of the withdrawal strength a nail's penetration earns.

    Units: mm, result a plain ratio. Valid: any penetration; smooth nails 8 d to 12 d, threaded ones 6 d to 8 d.
    Raises: OutOfValidity for a diameter not above zero. Source: EN 1995-1-1 8.3.2(7).
    """
    none, full = (THREADED_NONE, THREADED_FULL) if threaded else (NAIL_NONE, NAIL_FULL)
    ratio = penetration_mm / positive("nail diameter", diameter_mm, "mm")
    if ratio < none:
        return 0.0
    return min(1.0, ratio / 2 - 3 if threaded else ratio / 4 - 2) if ratio < full else 1.0


def _density_share(density: float, declared_density: float) -> float:
    ratio = positive("density", density, "kg/m3") / positive("declared density", declared_density, "kg/m3")
    return float(ratio**0.8)


def _slope(angle_deg: float) -> float:
    angle = radians(within("angle to the grain", angle_deg, 30.0, 90.0, "degrees", "EN 1995-1-1 8.7.2(4)"))
    return 1.2 * cos(angle) ** 2 + sin(angle) ** 2
