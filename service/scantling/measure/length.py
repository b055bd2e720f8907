"""Lengths as people write them, read whole or refused: `parse_length`.

A text is read exactly, as a ratio of whole numbers, and becomes a float of millimetres at the very end. Where a
number stands without a unit it is in the declared one. Three rules go beyond the grammar (length_grammar.py):

* A bare fraction (`3/4` without a unit) is read where bare numbers are inches or feet, and refused where they are
  metric: nobody writes metric fractions, so it is more likely an inch fraction that lost its mark. With its unit
  written (`3/4 in`, `1/2 m`) it is read anywhere.
* A bare whole number from 40000 to 60000 is refused as the serial number of a date (2009 to 2064): that is what a
  spreadsheet makes of `3/4`.
* No length is longer than 30 m. Furniture, stock and rooms stay far below, and a slipped point or unit does not.
"""

from fractions import Fraction
from math import isfinite
from numbers import Real
from typing import cast

from .errors import MeasureError, shown
from .length_faults import ACCEPTED, DATE_SENTENCE, length_fault
from .length_grammar import MAX_TEXT, RATIO, match, plain
from .quantity import QuantityError, QuantityLike, magnitude

LIMIT_MM = 30_000
DATE_NUMBERS = range(40_000, 60_001)


def parse_length(
    value: "str | int | float | QuantityLike", unit: str = "mm", *, decimal_comma: bool = False, signed: bool = False
) -> float:
    """Return a length in millimetres.

    `value` is a text, a number in `unit` ("mm", "cm", "m", "in" or "ft"), or a quantity with a unit of its own.
    A length below zero is read only where `signed`. Raises MeasureError, and nothing else, for a bad value;
    ValueError for a `unit` that is none.
    """
    if isinstance(value, str):
        top, bottom = _read_text(value, unit, decimal_comma, signed)
        return top / bottom
    return _read_number(value, unit, signed)


def parse_length_exact(text: str, unit: str = "mm", *, decimal_comma: bool = False, signed: bool = False) -> Fraction:
    """Return a written length in millimetres as an exact fraction; otherwise as `parse_length`."""
    return Fraction(*_read_text(text, unit, decimal_comma, signed))


def parse_written_length(text: str, *, decimal_comma: bool = False) -> float:
    """Return a length in millimetres from a text that must name its unit. Raises MeasureError."""
    found = match(plain(text), decimal_comma) if len(text) <= MAX_TEXT else None
    if found is not None and not found[2]:
        raise MeasureError(
            f"The length {shown(text)} needs its unit. Accepted: {ACCEPTED}.",
            text=text,
            position=len(text),
            accepted=ACCEPTED,
            code="unit-missing",
        )
    return parse_length(text, decimal_comma=decimal_comma)


def _read_text(text: str, unit: str, decimal_comma: bool, signed: bool) -> tuple[int, int]:
    """Return a written length as a ratio of millimetres, checked."""
    if unit not in RATIO:
        raise ValueError(f"unit must be one of {', '.join(RATIO)}, not {unit!r}")
    if len(text) > MAX_TEXT:
        raise _refusal(
            text, f"it has {len(text)} characters, and no length needs more than {MAX_TEXT}", MAX_TEXT, "too-long"
        )
    body = plain(text)
    found = match(body, decimal_comma)
    if found is None:
        raise length_fault(text, body, decimal_comma)
    top, bottom, written, is_fraction = found
    if not written:
        if is_fraction and unit in {"mm", "cm", "m"}:
            says = f"a fraction without a unit is not read as {unit}; write 3/4 in for inches, or a decimal"
            raise _refusal(text, says, len(text), "unit-missing")
        _refuse_date_number(text, top, bottom)
    if top < 0 and not signed:
        raise _refusal(text, "a length here is not below zero", body.find("-"), "negative")
    over, under = RATIO[written or unit]
    top, bottom = top * over, bottom * under
    if abs(top) > LIMIT_MM * bottom:
        raise _refusal(text, f"it is longer than {LIMIT_MM // 1000} m, the longest length taken", None, "out-of-range")
    return top, bottom


def _read_number(value: object, unit: str, signed: bool) -> float:
    """Return millimetres from a number in `unit` or from a quantity."""
    if unit not in RATIO:
        raise ValueError(f"unit must be one of {', '.join(RATIO)}, not {unit!r}")
    if isinstance(value, Real) and not isinstance(value, bool):
        over, under = RATIO[unit]
        bare = True
    elif isinstance(value, QuantityLike):
        try:
            value, over, under, bare = magnitude(value, "mm"), 1, 1, False
        except QuantityError as error:
            raise _refusal(_name(value), str(error), None, "wrong-dimension") from None
    else:
        raise _refusal(_name(value), "it is neither a number nor a text", None, "wrong-type")
    number = _finite(cast("Real", value))
    if bare:
        _refuse_date_number(_name(number), *((int(number), 1) if number == int(number) else (0, 1)))
    if number < 0 and not signed:
        raise _refusal(_name(number), "a length here is not below zero", None, "negative")
    mm = number * over / under
    if abs(mm) > LIMIT_MM:
        says = f"it is longer than {LIMIT_MM // 1000} m, the longest length taken"
        raise _refusal(_name(number), says, None, "out-of-range")
    return mm


def _finite(value: Real) -> float:
    """Return a number as a float. Raises MeasureError for nan, infinity and what is too large for a float."""
    try:
        number = float(value)
    except OverflowError:
        raise _refusal("", "the number is far too large", None, "out-of-range") from None
    if not isfinite(number):
        raise _refusal(str(number), "it is not a finite number", None, "not-a-number")
    return number


def _refuse_date_number(text: str, top: int, bottom: int) -> None:
    """Raise MeasureError for a bare whole number that is the serial number of a date."""
    if DATE_NUMBERS.start * bottom <= top < DATE_NUMBERS.stop * bottom and top % bottom == 0:
        raise _refusal(text, f"it {DATE_SENTENCE}", 0, "spreadsheet-date")


def _name(value: object) -> str:
    """Return a short name of a value that is no text, for a message."""
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, float):
        return f"{value:.12g}"
    return type(value).__name__


def _refusal(text: str, says: str, position: int | None, code: str) -> MeasureError:
    """Return the error for a length that reads well and is refused all the same."""
    return MeasureError(
        f"Cannot take the length {shown(text)}: {says}. Accepted: {ACCEPTED}.",
        text=text if len(text) <= MAX_TEXT else text[:MAX_TEXT] + "…",
        position=position,
        accepted=ACCEPTED,
        code=code,
    )
