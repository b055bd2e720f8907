"""Lengths given as quantities of the pint library become text the service reads; everything else passes through."""

from collections.abc import Mapping
from typing import Any


def plain_lengths(value: Any) -> Any:  # noqa: ANN401 - JSON of any depth
    """Return JSON data in which every pint length is text in mm. Raises ValueError for a quantity that is no length."""
    if isinstance(value, Mapping):
        return {k: plain_lengths(v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [plain_lengths(v) for v in value]
    if hasattr(value, "magnitude") and hasattr(value, "to"):
        return f"{_in_mm(value):.4f} mm"
    return value


def _in_mm(quantity: Any) -> float:  # noqa: ANN401 - pint is not needed to run this client
    try:
        return float(quantity.to("mm").magnitude)
    except Exception as error:
        raise ValueError(f"{quantity} is not a length") from error
