"""Quantities of the pint library become what the service reads; everything else passes through.

Lengths become text in mm, whatever `units` the request says; angles become degrees, forces newtons, masses kilograms.
pint itself is not needed to run this client.
"""

from collections.abc import Mapping
from typing import Any

from .errors import BadQuantity

ANGLES = frozenset({"degree", "radian"})
NUMBERS = ("newton", "kilogram")


def plain_quantities(value: Any) -> Any:  # noqa: ANN401 - JSON of any depth
    """Return JSON data in which every quantity is written as the service reads it. Raises BadQuantity."""
    if isinstance(value, Mapping):
        return {k: plain_quantities(v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [plain_quantities(v) for v in value]
    if hasattr(value, "magnitude") and hasattr(value, "to"):
        return _plain(value)
    return value


def _plain(quantity: Any) -> str | float:  # noqa: ANN401 - pint is not needed to run this client
    if str(quantity.units) in ANGLES:
        return float(quantity.to("degree").magnitude)
    length = _converted(quantity, "mm")
    if length is not None:
        return f"{length:.4f} mm"
    for unit in NUMBERS:
        number = _converted(quantity, unit)
        if number is not None:
            return number
    raise BadQuantity(f"{quantity} is neither a length, an angle, a force nor a mass")


def _converted(quantity: Any, unit: str) -> float | None:  # noqa: ANN401 - whatever a caller sent
    """Return the magnitude in a unit, or None where the quantity is of another kind."""
    try:
        return float(quantity.to(unit).magnitude)
    except (AttributeError, TypeError, ValueError):  # pint's DimensionalityError is a TypeError
        return None
