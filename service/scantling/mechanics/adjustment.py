"""What the NDS multiplies a reference value of a connection by: load duration, wet service, end grain, groups."""

from math import sqrt

from scantling.tables import Known, look_up

from .inch_pound import MM_PER_INCH, N_MM2_PER_PSI, N_MM_PER_LB_IN, QUARTER_INCH_MM
from .validity import positive, within

DURATIONS = {
    "permanent": "permanent",
    "long": "ten years",
    "medium": "two months",
    "short": "seven days",
    "instantaneous": "ten minutes",
}


def load_duration(duration: str) -> Known:
    """Return CD for how long the load stands: permanent, long, medium, short, instantaneous or the NDS's own words.

    Units: a plain ratio; long is ten years, medium two months, short seven days, instantaneous ten minutes.
    Valid: those names; the factor for impact is not for connections. Raises: UnknownRowError for another name.
    Source: NDS 2018 Table 2.3.2.
    """
    return look_up("load_duration", "factor", duration=DURATIONS.get(duration, duration))


def wet_service(load: str, fastener: str, diameter_mm: float, wet_when_made: bool, wet_in_use: bool) -> Known:
    """Return CM of a connection for `load` lateral or withdrawal.

    Units: a plain ratio, diameter in mm. Valid: sawn lumber; toe-nails in withdrawal take none.
    Raises: UnknownRowError for another load. Source: NDS 2018 Table 11.3.3 and its footnotes.
    """
    if load not in ("lateral", "withdrawal"):
        case = load
    elif load == "withdrawal":
        if fastener == "smooth nail" and wet_when_made != wet_in_use:
            case = "nails, withdrawal, moisture changes between making and use"
        elif wet_in_use and not fastener.endswith("nail"):
            case = "screws and lags, withdrawal, wet in use"
        else:
            case = "lateral, dry when made, dry in use"
    elif wet_in_use:
        case = "lateral, wet in use"
    elif wet_when_made:
        case = "lateral, wet when made, dry in use" + (", under 1/4 in" if diameter_mm < QUARTER_INCH_MM else "")
    else:
        case = "lateral, dry when made, dry in use"
    return look_up("connection_factors", "value", factor="wet service", case=case)


def temperature(degrees_c: float, wet: bool) -> Known:
    """Return Ct for wood that is held warm.

    Units: degrees Celsius in, a plain ratio out. Valid: up to 65.6 C (150 F). Raises: OutOfValidity above.
    Source: NDS 2018 Table 11.3.4.
    """
    fahrenheit = within("temperature", degrees_c, -60.0, 65.6, "degrees C", "NDS 2018 Table 11.3.4") * 9 / 5 + 32
    if fahrenheit <= 100:
        return look_up("connection_factors", "value", factor="temperature", case="up to 100 degF")
    band = "100 to 125 degF" if fahrenheit <= 125 else "125 to 150 degF"
    return look_up("connection_factors", "value", factor="temperature", case=f"{band}, {'wet' if wet else 'dry'}")


def end_grain(load: str) -> Known:
    """Return Ceg: `lateral`, `lag withdrawal`, or `screw and nail withdrawal`, which is nothing.

    Units: a plain ratio. Valid: sawn lumber. Raises: UnknownRowError for another load.
    Source: NDS 2018 12.5.2, 12.2.2, 12.2.3.
    """
    return look_up("connection_factors", "value", factor="end grain", case=load)


def toe_nail(load: str) -> Known:
    """Return Ctn of a nail or screw driven at 30 degrees a third of its length from the end: lateral or withdrawal.

    Units: a plain ratio. Valid: nails; screws by the same shape (practice). Raises: UnknownRowError for another load.
    Source: NDS 2018 12.5.4.
    """
    return look_up("connection_factors", "value", factor="toe-nail", case=load)


def group(
    diameter_mm: float, spacing_mm: float, count: int, main_stiffness_n: float, side_stiffness_n: float, metal: bool
) -> float:
    """Return Cg of a row of fasteners: not all of them pull alike.

    Units: mm; stiffnesses E A of the parts in N; result a plain ratio. Valid: 1 fastener and more, diameters of 1/4 in
    and more (1.0 below). Raises: OutOfValidity for lengths or stiffnesses not above zero.
    Source: NDS 2018 Eq. 11.3-1 and Tables 11.3.6A to 11.3.6D.
    """
    within("count in a row", count, 1, 1000, "", "NDS 2018 11.3.6")
    if diameter_mm < QUARTER_INCH_MM - 1e-6 or count == 1:
        return 1.0
    main, side = positive("stiffness", main_stiffness_n, "N"), positive("stiffness", side_stiffness_n, "N")
    inches = positive("diameter", diameter_mm, "mm") / MM_PER_INCH
    slip = (270_000 if metal else 180_000) * inches**1.5 * N_MM_PER_LB_IN
    ratio = min(main / side, side / main)
    u = 1 + slip * positive("spacing", spacing_mm, "mm") / 2 * (1 / main + 1 / side)
    m = u - sqrt(u**2 - 1)
    top: float = m * (1 - m ** (2 * count))
    bottom: float = count * ((1 + ratio * m**count) * (1 + m) - 1 + m ** (2 * count))
    return float(top / bottom * (1 + ratio) / (1 - m))


def stiffness_n(modulus_psi: float, area_in2: float) -> float:
    """Return E A of a part given in the inch-pound units of the NDS tables.

    Units: psi and square inches in, N out. Valid: above zero. Raises: OutOfValidity otherwise.
    Source: definition.
    """
    area = positive("area", area_in2, "in2") * MM_PER_INCH**2
    return positive("modulus", modulus_psi, "psi") * N_MM2_PER_PSI * area
