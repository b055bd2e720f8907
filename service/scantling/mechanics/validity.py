"""A formula is used inside its limits or not at all: the error that names value, limits and source."""

import math


class OutOfValidity(ValueError):
    """A value outside what a formula or a test is good for; carries the limits and the source that sets them."""

    def __init__(self, name: str, value: float, low: float, high: float, unit: str, source: str) -> None:
        self.name = name
        self.value = value
        self.low = low
        self.high = high
        self.unit = unit
        self.source = source
        super().__init__(
            f"{name} is {value:g} {unit}; accepted is {_span(low, high)} {unit} ({source})".replace("  ", " ")
        )


def within(name: str, value: float, low: float, high: float, unit: str, source: str) -> float:
    """Return a value that lies in its limits, both included.

    Units: those of the value, named by `unit`, e.g. mm. Valid: any finite number between `low` and `high`.
    Raises: OutOfValidity for anything else, infinities and not-a-number included.
    Source: the caller names the one that sets the limits.
    """
    if not math.isfinite(value) or not low <= value <= high:
        raise OutOfValidity(name, value, low, high, unit, source)
    return value


def positive(
    name: str, value: float, unit: str, source: str = "a size, a stiffness or a strength has to be there"
) -> float:
    """Return a value above zero.

    Units: those of the value, named by `unit`, e.g. mm. Valid: any finite number above zero.
    Raises: OutOfValidity for anything else. Source: geometry and statics, or the caller's.
    """
    if not math.isfinite(value) or value <= 0:
        raise OutOfValidity(name, value, 0.0, math.inf, unit, source)
    return value


def not_negative(
    name: str, value: float, unit: str, source: str = "a load or a distance cannot be below nothing"
) -> float:
    """Return a value of zero or more.

    Units: those of the value, named by `unit`, e.g. N. Valid: any finite number of zero or more.
    Raises: OutOfValidity for anything else. Source: geometry and statics, or the caller's.
    """
    if not math.isfinite(value) or value < 0:
        raise OutOfValidity(name, value, 0.0, math.inf, unit, source)
    return value


def _span(low: float, high: float) -> str:
    if math.isinf(high):
        return f"more than {low:g}" if low == 0 else f"{low:g} or more"
    return f"{low:g} to {high:g}"
