"""Angles as people write them: degrees, degrees and minutes, or a rise over a run."""

import re
from math import atan2, degrees, isfinite, radians, tan
from numbers import Real

from .errors import MeasureError, shown
from .length import parse_written_length
from .length_grammar import plain
from .quantity import QuantityError, QuantityLike, magnitude
from .tape import TAPES, Tape

LIMIT_DEG = 360.0
MAX_ANGLE_TEXT = 48  # characters
ACCEPTED_ANGLE = "degrees such as 12.5, 12.5° or 22° 30', or a rise over a run such as 1 in 4, 1:4 or 105 mm in 600 mm"

_DEGREES = re.compile(r" *([+-]?[0-9]+(?:[.,][0-9]+)?) *(?:°|(?i:degrees|degree|deg\.?))? *", re.ASCII)
_MINUTES = re.compile(r" *([+-]?)([0-9]+) *° *([0-9]+(?:[.,][0-9]+)?) *' *", re.ASCII)
_PURE = re.compile(r" *[0-9]+(?:[.,][0-9]+)? *", re.ASCII)
_OVER = re.compile(r":| in (?=[ 0-9.½⅓⅔¼¾⅛⅜⅝⅞])")


def parse_angle(value: "str | int | float | QuantityLike", *, decimal_comma: bool = False) -> float:
    """Return an angle in degrees, from -360 to 360. Raises MeasureError.

    A number is degrees. `1 in 4`, `1:4` and `105 mm in 600 mm` are the angle whose tangent is rise over run, from 0
    to below 90 degrees; either both carry a unit or neither does.
    """
    if isinstance(value, str):
        angle = _read_text(value, decimal_comma)
    elif isinstance(value, Real) and not isinstance(value, bool):
        angle = _finite(value)
    elif isinstance(value, QuantityLike):
        try:
            angle = magnitude(value, "degree")
        except QuantityError as error:
            raise _refusal(type(value).__name__, str(error), code="wrong-dimension") from None
    else:
        raise _refusal(type(value).__name__, "it is neither a number nor a text")
    if not isfinite(angle) or abs(angle) > LIMIT_DEG:
        raise _refusal(str(value)[:MAX_ANGLE_TEXT], "it is not between -360 and 360 degrees", code="out-of-range")
    return angle


def rise(degrees_: float, run: float) -> float:
    """Return how far a line at so many degrees rises over a run (any length unit). ValueError outside ±89.9°."""
    if not abs(degrees_) <= 89.9:
        raise ValueError(f"an angle of {degrees_}° has no usable rise over run; it must lie within 89.9° of the run")
    return run * tan(radians(degrees_))


def rise_over_run(degrees_: float, run: float = 600.0, tape: Tape | None = None) -> str:
    """Return an angle as rise over run, as one sets a bevel gauge by: `105 mm in 600 mm`; run in mm."""
    tape = tape or TAPES["1 mm"]
    return f"{tape.show(rise(degrees_, run))} in {tape.show(run)}"


def _read_text(text: str, decimal_comma: bool) -> float:
    if len(text) > MAX_ANGLE_TEXT:
        raise _refusal(text, f"it has more than {MAX_ANGLE_TEXT} characters", MAX_ANGLE_TEXT, "too-long")
    body = plain(text)
    wrong, right = (".", ",") if decimal_comma else (",", ".")
    found = _DEGREES.fullmatch(body)
    minutes = _MINUTES.fullmatch(body)
    if (found or minutes) and wrong in body.replace("deg.", ""):
        says = "decimals here are written with a " + ("comma" if decimal_comma else "point")
        raise _refusal(text, says, body.find(wrong))
    if found:
        return float(found.group(1).replace(right, "."))
    if minutes:
        sign, whole, part = minutes.groups()
        size = float(part.replace(right, "."))
        if size >= 60:
            raise _refusal(text, "the minutes of an angle are less than 60", minutes.start(3))
        return (int(whole) + size / 60) * (-1 if sign == "-" else 1)
    return _read_rise_over_run(text, body, decimal_comma)


def _read_rise_over_run(text: str, body: str, decimal_comma: bool) -> float:
    """Return the angle of `rise in run` or `rise:run`."""
    trouble: MeasureError | None = None
    for over in _OVER.finditer(body):
        above, below = body[: over.start()], body[over.end() :]
        try:
            up, along = (_pure_or_written(part, decimal_comma) for part in (above, below))
        except MeasureError as error:
            trouble = trouble or error
            continue
        if bool(_PURE.fullmatch(above)) != bool(_PURE.fullmatch(below)):
            raise _refusal(text, "either both the rise and the run carry a unit, or neither does")
        if along <= 0:
            raise _refusal(text, "the run must be more than zero", over.end())
        return degrees(atan2(up, along))
    if trouble is not None:
        raise _refusal(text, trouble.message)
    raise _refusal(text, "it is no angle", 0)


def _pure_or_written(part: str, decimal_comma: bool) -> float:
    """Return a bare number as it is, a length with its unit in mm."""
    if _PURE.fullmatch(part) and (("," in part) <= decimal_comma) and (("." in part) <= (not decimal_comma)):
        return float(part.replace(",", "."))
    return parse_written_length(part, decimal_comma=decimal_comma)


def _finite(value: Real) -> float:
    try:
        return float(value)
    except OverflowError:
        raise _refusal("", "the number is far too large", code="out-of-range") from None


def _refusal(text: str, says: str, position: int | None = None, code: str = "unreadable") -> MeasureError:
    return MeasureError(
        f"Cannot read the angle {shown(text)}: {says.rstrip('.')}. Accepted: {ACCEPTED_ANGLE}.",
        text=text[:MAX_ANGLE_TEXT],
        position=position,
        accepted=ACCEPTED_ANGLE,
        code=code,
    )
