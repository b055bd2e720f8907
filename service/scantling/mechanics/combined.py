"""Pulling and shearing at once: what a fastener holds at an angle."""

from math import cos, radians, sin

from .validity import not_negative, positive, within


def nds_screw_at_angle(withdrawal_n: float, lateral_n: float, angle_deg: float) -> float:
    """Return what a screw or lag holds against a load at an angle to the surface (90 is straight out).

    Units: adjusted withdrawal and lateral values in N, degrees, result in N. Valid: 0 to 90 degrees, values above zero.
    Raises: OutOfValidity outside that. Source: NDS 2018 12.4.1, Eq. 12.4-1.
    """
    w, z, a = _angle(withdrawal_n, lateral_n, angle_deg)
    return w * z / (w * cos(a) ** 2 + z * sin(a) ** 2)


def nds_nail_at_angle(withdrawal_n: float, lateral_n: float, angle_deg: float) -> float:
    """Return what a nail holds against a load at an angle to the surface (90 is straight out).

    Units: adjusted withdrawal and lateral values in N, degrees, result in N. Valid: 0 to 90 degrees, values above zero.
    Raises: OutOfValidity outside that. Source: NDS 2018 12.4.2, Eq. 12.4-2.
    """
    w, z, a = _angle(withdrawal_n, lateral_n, angle_deg)
    return w * z / (w * cos(a) + z * sin(a))


def eurocode5_ratio(
    axial_n: float, axial_capacity_n: float, lateral_n: float, lateral_capacity_n: float, smooth_nail: bool
) -> float:
    """Return the use of a fastener pulled and sheared at once: 1 is all of it.

    Units: N, result a plain ratio. Valid: loads of zero or more, capacities above zero.
    Raises: OutOfValidity otherwise.
    Source: EN 1995-1-1 8.3.3, Eq. 8.27 (smooth nails, sum) and 8.28 (others, sum of squares).
    """
    axial = not_negative("axial load", axial_n, "N") / positive("axial capacity", axial_capacity_n, "N")
    lateral = not_negative("lateral load", lateral_n, "N") / positive("lateral capacity", lateral_capacity_n, "N")
    return axial + lateral if smooth_nail else axial**2 + lateral**2


def _angle(withdrawal_n: float, lateral_n: float, angle_deg: float) -> tuple[float, float, float]:
    angle = within("angle of the load", angle_deg, 0.0, 90.0, "degrees", "NDS 2018 12.4")
    return (
        positive("withdrawal value", withdrawal_n, "N"),
        positive("lateral value", lateral_n, "N"),
        radians(angle),
    )
