"""Spacings and distances of nails and screws by Eurocode 5, with and without predrilled holes, and when to predrill."""

from math import cos, radians, sin

from scantling.tables import look_up

from .spacing import Distance
from .validity import positive, within

CLAUSE = "EN 1995-1-1 Table 8.2"
PREDRILL_DENSITY = 500.0  # kg/m3, EN 1995-1-1 8.3.1.1(2)
PANEL_SHARE = 0.85  # panel to timber, EN 1995-1-1 8.3.1.3(1): spacings only


def nail_distance(distance: str, diameter_mm: float, angle_deg: float) -> Distance:
    """Return a spacing or distance of nails and screws up to 8 mm at an angle of the load to the grain.

    Units: mm, degrees. `distance` is a1, a2, end, loaded end, edge or loaded edge. Valid: diameters up to 8 mm, 0 to 90
    degrees, characteristic density up to 420 kg/m3. Raises: OutOfValidity outside that, UnknownRowError for another
    distance. Source: EN 1995-1-1 Table 8.2.
    """
    d = within("diameter", diameter_mm, 0.5, 8.0, "mm", CLAUSE)
    angle = radians(within("angle to the grain", angle_deg, 0.0, 90.0, "degrees", CLAUSE))
    thin = d < 5.0
    row = {
        "a1": "a1, d under 5" if thin else "a1, d from 5",
        "a2": "a2",
        "end": "a3 unloaded end",
        "loaded end": "a3 loaded end",
        "edge": "a4 unloaded edge",
        "loaded edge": "a4 loaded edge, d under 5" if thin else "a4 loaded edge, d from 5",
    }.get(distance, distance)
    plain, prebored = (
        look_up("ec5_spacing", kind, distance=row).value
        + look_up("ec5_spacing", f"{kind}_cosine", distance=row).value * cos(angle)
        + look_up("ec5_spacing", f"{kind}_sine", distance=row).value * sin(angle)
        for kind in ("plain", "prebored")
    )
    found = look_up("ec5_spacing", "plain", distance=row)
    return Distance(distance, plain * d, prebored * d, found.source, found.status)


def predrilling_needed(density: float, diameter_mm: float, thickness_mm: float) -> bool:
    """Return whether timber wants predrilled holes: dense wood, thick nails, or a part too thin for its nail.

    Units: characteristic density kg/m3, mm. Valid: values above zero. Raises: OutOfValidity otherwise.
    Source: EN 1995-1-1 8.3.1.1(2) and Eq. 8.18: t at least max(7 d, (13 d - 30) rho/400).
    """
    rho, d = positive("characteristic density", density, "kg/m3"), positive("diameter", diameter_mm, "mm")
    least = max(7 * d, (13 * d - 30) * rho / 400)
    return rho > PREDRILL_DENSITY or d > 6.0 or positive("thickness", thickness_mm, "mm") < least
