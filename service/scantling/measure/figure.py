"""A figure: one small question with a number for an answer, asked with named values written as text.

The question knows its parameters, so that a web address, a spreadsheet cell or a command line can ask it alike.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from .angle import parse_angle
from .errors import MeasureError, RequestError, RequestProblem, pointer, shown
from .length import parse_length

KINDS = ("length", "count", "angle", "number", "choice")
_COUNT = re.compile(r" *([0-9]{1,7}) *", re.ASCII)
_NUMBER = re.compile(r" *([0-9]{1,9}(?:\.[0-9]{1,9})?) *", re.ASCII)

Value = float | int | str


@dataclass(frozen=True, slots=True)
class Parameter:
    """One value a figure is asked with.

    `kind` is length (mm after parsing), angle (degrees), count, number or choice. `default` is written as the caller
    would write it; None means the value must be given. `default_in` is the default for callers who work in inches,
    where it differs. `unit` is what a bare length is in: "" for the caller's own units. `least` and `most` bound the
    parsed value, both included.
    """

    name: str
    kind: str
    sentence: str
    default: str | None = None
    default_in: str | None = None
    unit: str = ""
    choices: tuple[str, ...] = ()
    least: float = 0.0
    most: float = 30_000.0

    def __post_init__(self) -> None:
        if self.kind not in KINDS or (self.kind == "choice") != bool(self.choices):
            raise ValueError(f"parameter {self.name}: kind {self.kind!r} with choices {self.choices}")

    def default_for(self, units: str) -> str | None:
        """Return the default for callers whose units are "mm" or "in"; None where the value must be given."""
        return self.default_in if units == "in" and self.default_in is not None else self.default

    def read(self, text: str, units: str = "mm", *, decimal_comma: bool = False) -> Value:
        """Return the value a text stands for. Raises MeasureError."""
        if self.kind == "choice":
            if text in self.choices:
                return text
            raise self._refusal(text, "it is none of the words taken", ", ".join(self.choices))
        value = self._number(text, units, decimal_comma)
        if not self.least <= value <= self.most:
            raise self._refusal(text, f"it is not {self._bounds()}", self._bounds())
        return value

    def _number(self, text: str, units: str, decimal_comma: bool) -> float | int:
        if self.kind == "length":
            return parse_length(text, self.unit or units, decimal_comma=decimal_comma)
        if self.kind == "angle":
            return parse_angle(text, decimal_comma=decimal_comma)
        if self.kind == "count":
            found = _COUNT.fullmatch(text)
            if found:
                return int(found.group(1))
            raise self._refusal(text, "it is not a whole number", f"a whole number {self._bounds()}")
        plain = text.replace(",", ".") if decimal_comma and "." not in text else text
        found = _NUMBER.fullmatch(plain)
        if found:
            return float(found.group(1))
        raise self._refusal(text, "it is not a decimal number", f"a decimal number {self._bounds()}")

    def _bounds(self) -> str:
        unit = {"length": " mm", "angle": "°"}.get(self.kind, "")
        return f"between {self.least:g}{unit} and {self.most:.6g}{unit}"

    def _refusal(self, text: str, says: str, accepted: str) -> MeasureError:
        message = f"Cannot take {shown(text)} as {self.name}: {says}. Accepted: {accepted}."
        return MeasureError(message, text=text[:40], accepted=accepted, code="out-of-range")


@dataclass(frozen=True, slots=True)
class FigureAnswer:
    """The one value, its unit ("" for a plain count), the answer as a sentence or reading, and a small table.

    A row is (what, value, unit, text); the first row is the value itself. `proven` is False where a better value may
    exist, `note` says what was assumed.
    """

    value: float
    unit: str
    text: str
    rows: tuple[tuple[str, float, str, str], ...]
    note: str = ""
    proven: bool = True

    def to_plain(self) -> dict[str, object]:
        """Return the answer as JSON members."""
        return {
            "value": _clean(self.value),
            "unit": self.unit,
            "text": self.text,
            "rows": [{"what": w, "value": _clean(v), "unit": u, "text": t} for w, v, u, t in self.rows],
            "note": self.note,
            "proven": self.proven,
        }


COLUMNS = ("what", "value", "unit", "text")


@dataclass(frozen=True, slots=True)
class Figure:
    """A named question: its sentence, its parameters, and `compute`, which takes them parsed, by name.

    `compute` raises ValueError, with a sentence for people, where values that are each in bounds do not go together.
    """

    name: str
    sentence: str
    parameters: tuple[Parameter, ...]
    compute: Callable[..., FigureAnswer]

    def answer(self, given: Mapping[str, str], units: str = "mm", *, decimal_comma: bool = False) -> FigureAnswer:
        """Return the answer to values written as text; `units` ("mm" or "in") is what bare lengths are in.

        Raises RequestError with a problem for every value at fault; their pointers are `/<parameter name>`.
        """
        problems = [self._unknown(name) for name in given if name not in {p.name for p in self.parameters}]
        values: dict[str, Value] = {}
        for parameter in self.parameters:
            text = given.get(parameter.name, parameter.default_for(units))
            if text is None:
                detail = f"The value {parameter.name} is missing. {parameter.sentence}"
                problems.append(RequestProblem(pointer(parameter.name), detail, "missing"))
                continue
            # a default stands in its own unit, or for decimals with a point, whatever the caller declared
            comma = decimal_comma and parameter.name in given
            try:
                values[parameter.name] = parameter.read(text, units, decimal_comma=comma)
            except MeasureError as error:
                problems.append(RequestProblem(pointer(parameter.name), error.message, error.code))
        if problems:
            raise RequestError(problems)
        try:
            return self.compute(**values)
        except ValueError as error:
            raise RequestError([RequestProblem("", str(error), "values-do-not-go-together")]) from error

    def _unknown(self, name: str) -> RequestProblem:
        names = ", ".join(p.name for p in self.parameters)
        detail = f"There is no value {shown(name)} in this figure. Accepted: {names}."
        return RequestProblem(pointer(name), detail, "unknown-member")


def _clean(value: float) -> float | int:
    """Return a number fit for JSON: whole where it is whole, else to six places."""
    rounded = round(value, 6)
    return int(rounded) if rounded == int(rounded) else rounded
