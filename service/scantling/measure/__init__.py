"""What people write and read: lengths, angles, money, ids and thicknesses; rounding to the tape, display.

Everything that comes from outside as text passes through here once, and is a plain float or whole number after that.
"""

from typing import TYPE_CHECKING

from scantling.later import loaded_later

from .errors import MeasureError, RequestError, RequestProblem, pointer
from .snapping import hundredths, snap
from .tape import TAPES, Tape

if TYPE_CHECKING:
    from .angle import parse_angle, rise, rise_over_run
    from .figures import FIGURES, Figure, FigureAnswer, Parameter
    from .ids import ID_PATTERN, parse_id, repeated_ids
    from .length import LIMIT_MM, parse_length, parse_length_exact
    from .money import MICRO, parse_currency, parse_money, plain_money, round_to_cent, show_money
    from .quantity import to_quantity
    from .thickness import Thickness, parse_size, parse_thickness

__all__ = [
    "FIGURES",
    "ID_PATTERN",
    "LIMIT_MM",
    "MICRO",
    "TAPES",
    "Figure",
    "FigureAnswer",
    "MeasureError",
    "Parameter",
    "RequestError",
    "RequestProblem",
    "Tape",
    "Thickness",
    "hundredths",
    "parse_angle",
    "parse_currency",
    "parse_id",
    "parse_length",
    "parse_length_exact",
    "parse_money",
    "parse_size",
    "parse_thickness",
    "plain_money",
    "pointer",
    "repeated_ids",
    "rise",
    "rise_over_run",
    "round_to_cent",
    "show_money",
    "snap",
    "to_quantity",
]

if not TYPE_CHECKING:
    __getattr__ = loaded_later(
        __name__,
        {
            "angle": ("parse_angle", "rise", "rise_over_run"),
            "figures": ("FIGURES", "Figure", "FigureAnswer", "Parameter"),
            "ids": ("ID_PATTERN", "parse_id", "repeated_ids"),
            "length": ("LIMIT_MM", "parse_length", "parse_length_exact"),
            "money": ("MICRO", "parse_currency", "parse_money", "plain_money", "round_to_cent", "show_money"),
            "quantity": ("to_quantity",),
            "thickness": ("Thickness", "parse_size", "parse_thickness"),
        },
    )
