"""The border to a units library: quantities come in and go out, but no text is ever parsed by one.

Any object with `.to(unit)` and `.magnitude` is taken, so pint is not imported to read a quantity.
"""

from numbers import Real
from typing import TYPE_CHECKING, Protocol, runtime_checkable

if TYPE_CHECKING:
    from pint import Quantity


@runtime_checkable
class QuantityLike(Protocol):
    """A number with a unit from a units library, such as a pint Quantity."""

    def to(self, unit: str) -> "QuantityLike":
        """Return the same quantity in another unit."""
        ...

    @property
    def magnitude(self) -> object:
        """The number without its unit."""
        ...


class QuantityError(ValueError):
    """A quantity of another dimension, or one that holds no single plain number."""


def magnitude(quantity: QuantityLike, unit: str) -> float:
    """Return the number of a quantity in `unit`. Raises QuantityError."""
    try:
        value = quantity.to(unit).magnitude
        if isinstance(value, Real) and not isinstance(value, bool):
            return float(value)
    except Exception as error:
        raise QuantityError(f"the quantity cannot be given in {unit} ({type(error).__name__})") from error
    raise QuantityError("the quantity does not hold one plain number")


def to_quantity(mm: float) -> "Quantity[float]":
    """Return a length in millimetres as a pint Quantity of pint's application registry."""
    from pint import Quantity

    return Quantity(mm, "mm")
