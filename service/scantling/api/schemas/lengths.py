"""Lengths at the door: a number in the request's `units`, or text by the length grammar.

A length is read when the body is validated, so that what cannot be read is told with its place; it becomes
millimetres in `plain`, when the request's `units` are known.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Literal, cast

from pydantic import BaseModel, Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema
from typing_extensions import TypeAliasType

from scantling.measure import MeasureError, parse_length

from ..faults import invalid
from ..problems import Fault, pointer
from .branches import length_or, listed, mapped, number
from .length_text import MAX_TEXT, PATTERN, has_the_form
from .scalars import Closed

Units = Literal["mm", "in"]
SHORTEST = 0.1  # mm
LONGEST = 20_000.0  # mm; nothing in a home shop is longer than 20 m
THICKEST = 300.0  # mm
Broken = tuple[list[str | int], str, str]  # the place within a part of a request, the sentence, the code
KEPT_NULLS = ("pack",)  # null says something there: a quantity without packs
PARTS = {"out-of-range": "length-out-of-range", "spreadsheet-date": "spreadsheet-date"}


@dataclass(frozen=True, slots=True)
class LengthRule:
    """Marks a member as a length and holds its least and most in millimetres; both are good lengths.

    The schema cannot know the unit of a bare number, so it asks only for one above 0 (or 0, where that is the
    least) and not above `most`; the rest of the range is a cross-field rule.
    """

    least: float = SHORTEST
    most: float = LONGEST

    def read(self, value: object) -> "Reading":
        """Return the reading. Raises what pydantic turns into an error with the member's place."""
        if isinstance(value, bool) or not isinstance(value, int | float | str):
            raise PydanticCustomError("wrong-type", "{problem}", {"problem": _not_a_length(value)})
        if isinstance(value, str):
            self._check_text(value)
            return Reading(value, self)
        try:
            parse_length(value, "mm")
        except MeasureError as error:
            raise PydanticCustomError(_code(error), "{problem}", {"problem": error.message}) from error
        if value > self.most or (value == 0 and self.least > 0):
            problem = f"{value!r} is out of range; accepted: {self.accepted()}"
            raise PydanticCustomError("out-of-range", "{problem}", {"problem": problem})
        return Reading(value, self)

    def _check_text(self, text: str) -> None:
        """Refuse a text that no unit would make a length; whether it is in range is told when `units` are known."""
        formed = has_the_form(text)
        try:
            parse_length(text, "mm")
        except MeasureError as error:
            if formed and error.code == "unit-missing":
                return  # a bare fraction: good where the request's units are inches
            code = _code(error) if not formed else PARTS.get(error.code, "length-parts-disagree")
            raise PydanticCustomError(code, "{problem}", {"problem": error.message}) from error
        if not formed:
            problem = f"{text!r} has more digits or signs than a length needs; accepted: text such as 19 mm or 3/4 in"
            raise PydanticCustomError("bad-length", "{problem}", {"problem": problem})

    def holds(self, value: float) -> bool:
        """Tell whether a number of millimetres lies between the least and the most."""
        return self.least <= value <= self.most

    def accepted(self) -> str:
        """Return the range in words."""
        return f"{self.least:g} to {self.most:g} mm"

    def examples(self) -> list[float | str]:
        """Return a number and a text that are good whatever the units."""
        return [min(25.0, self.most), "3/4 in"] if self.least <= 19 else [100.0, "18 in"]

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        number = {"type": "number", "exclusiveMinimum" if self.least > 0 else "minimum": 0}
        text = {"type": "string", "pattern": PATTERN, "minLength": 1, "maxLength": MAX_TEXT}
        return {
            "anyOf": [{**number, "maximum": self.most}, text],
            "examples": self.examples(),
            "x-unit": "units",
            "x-quantity": "length",
            "x-least-mm": self.least,
            "x-most-mm": self.most,
        }


@dataclass(frozen=True, slots=True)
class Reading:
    """A length as it was written, with the rule of its member."""

    written: float | str
    rule: LengthRule

    def mm(self, units: Units) -> float:
        """Return millimetres. Raises ValueError when the length is out of its member's range."""
        value = parse_length(self.written, units)
        if not self.rule.holds(value):
            shown = self.written if isinstance(self.written, str) else f"{self.written:g} {units}"
            raise ValueError(f"{shown} is {value:g} mm; accepted: {self.rule.accepted()}")
        return value


def _code(error: MeasureError) -> str:
    """Return a measure's code as an entry of `errors` carries it."""
    return "bad-length" if error.code == "unreadable" else error.code


def _not_a_length(value: object) -> str:
    kind = {bool: "true or false", list: "a list", dict: "an object", type(None): "null"}.get(type(value), "this")
    return f"{kind} is no length; accepted: a number, or text such as 19 mm or 3/4 in"


Length = TypeAliasType("Length", Annotated[Reading, LengthRule()])
LengthOrZero = TypeAliasType("LengthOrZero", Annotated[Reading, LengthRule(least=0)])
Thickness = TypeAliasType("Thickness", Annotated[Reading, LengthRule(most=THICKEST)])


class Band(Closed):
    """A thickness known only within a range."""

    status: Literal["assumed", "measured"] = Field(
        description="`assumed` until the sheet has been measured with a caliper: joints are not cut to it."
    )
    least: Thickness = Field(description="Least thickness.")
    most: Thickness = Field(description="Greatest thickness, not below `least`.")


Readings = Annotated[list[Thickness], Field(min_length=1, max_length=50)]
AnyThickness = TypeAliasType(
    "AnyThickness",
    Annotated[
        Annotated[Thickness, number] | Annotated[Readings, listed] | Annotated[Band, mapped],
        length_or("a length, a list of readings, or {status, least, most}"),
    ],
)
THICKNESS_HELP = "One length, a list of caliper readings, or `{status, least, most}`."


class Measured(Closed):
    """A request whose bare numbers are lengths in `units`."""

    units: Units = Field("mm", description="What a bare number means where a length is asked for.")


def plain_millimetres(request: "Checked") -> dict[str, Any]:
    """Return a request whose lengths are millimetres by their names, as the seam takes it."""
    return _checked(request, "mm")


def plain(request: Measured) -> dict[str, Any]:
    """Return the request as the seam takes it: plain JSON, every length in millimetres, absent members left out.

    Raises Problem (422) when a length is out of range once its unit is applied, or a range is upside down.
    """
    return _checked(request, request.units)


def _checked(request: BaseModel, units: Units) -> dict[str, Any]:
    faults: list[Fault] = []
    body = _plain(request, units, [], faults)
    if faults:
        raise invalid(faults)
    return cast(dict[str, Any], body)


def _plain(value: object, units: Units, place: list[str | int], faults: list[Fault]) -> object:
    if isinstance(value, Reading):
        try:
            return value.mm(units)
        except MeasureError as error:
            code = "unit-missing" if error.code == "unit-missing" else "length-out-of-range"
            faults.append(Fault(error.message, code, pointer=pointer(place)))
        except ValueError as error:
            faults.append(Fault(str(error), "length-out-of-range", pointer=pointer(place)))
        return 0.0
    if isinstance(value, BaseModel):
        return _plain_model(value, units, place, faults)
    if isinstance(value, list):
        return [_plain(one, units, [*place, i], faults) for i, one in enumerate(value)]
    if isinstance(value, dict):
        return {name: _plain(one, units, [*place, name], faults) for name, one in value.items()}
    return value


def _plain_model(model: BaseModel, units: Units, place: list[str | int], faults: list[Fault]) -> dict[str, object]:
    before = len(faults)
    names = _wire_names(type(model))
    body = {
        names[name]: _plain(value, units, [*place, names[name]], faults)
        for name, value in model.__dict__.items()
        if value is not None or name in KEPT_NULLS
    }
    if isinstance(model, Band) and len(faults) == before and cast(float, body["least"]) > cast(float, body["most"]):
        faults.append(Fault("least is above most", "least-above-most", pointer=pointer(place)))
    if isinstance(model, Checked):
        faults += [Fault(detail, code, pointer=pointer([*place, *steps])) for steps, detail, code in model.faults()]
    return body


@cache
def _wire_names(model: type[BaseModel]) -> dict[str, str]:
    """Return the member names of a model as they stand in JSON."""
    return {name: field.alias or name for name, field in model.model_fields.items()}


class Checked(Closed):
    """A part of a request with rules of its own between members."""

    def faults(self) -> list[Broken]:
        """Return (place within this part, sentence, code) for each rule that is broken."""
        raise NotImplementedError


def repeated(entries: Sequence[Any], *place: str | int) -> list[Broken]:
    """Return a fault for each entry of a list whose id stands there already; `place` leads to the list."""
    faults: list[Broken] = []
    seen: dict[str, int] = {}
    for index, entry in enumerate(entries):
        if entry.id in seen:
            detail = f"the id {entry.id!r} stands in entry {seen[entry.id]} already; ids are unique in their list"
            faults.append(([*place, index, "id"], detail, "id-repeated"))
        seen.setdefault(entry.id, index)
    return faults
