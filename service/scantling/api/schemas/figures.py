"""Answers of the figures, and how their query values are published."""

from typing import Any

from pydantic import Field

from scantling.measure.figures import Figure, Parameter

from .length_text import MAX_TEXT, PATTERN_EITHER_MARK
from .marks import LINE_UNIT, unit
from .scalars import Open

MAX_ANGLE = 48
ANGLE_PATTERN = r"^[0-9 .,:+°'½¼¾a-zA-Z-]+$"
COUNT_PATTERN = r"^[0-9]{1,6}$"
NUMBER_PATTERN = r"^[0-9]{1,9}([.,][0-9]{1,9})?$"


class FigureRow(Open):
    """One line of a figure's table."""

    what: str = Field(description="What the value is.")
    value: float = Field(description="The value, in `unit`.", json_schema_extra=LINE_UNIT)
    unit: str = Field(description="Its unit; empty for a count.")
    text: str = Field(description="The value for people.")


class FigureValue(Open):
    """A figure: one value and the short table behind it."""

    name: str = Field(description="Name of the figure.")
    value: float = Field(description="The value, in `unit`.", json_schema_extra=LINE_UNIT)
    unit: str = Field(description="Its unit; empty for a count.")
    text: str = Field(description="The answer for people.")
    rows: list[FigureRow] = Field(description="The value and what goes with it.")
    note: str = Field(description="What was assumed.")
    proven: bool = Field(description="False where a better value may exist.")


class FigureParameter(Open):
    """One query value of a figure."""

    name: str = Field(description="Its name in the query.")
    kind: str = Field(description="`length`, `angle`, `count`, `number` or `choice`.")
    sentence: str = Field(description="What it is.")
    default: str | None = Field(description="Its default; null where it must be given.")
    default_in: str | None = Field(description="Its default where `units` is `in`; null where it must be given.")
    choices: list[str] = Field(description="The words it takes, where it is a choice.")
    least: float = Field(description="Least value, in mm, degrees or 1.", json_schema_extra=unit("mm, deg or 1"))
    most: float = Field(description="Greatest value, in mm, degrees or 1.", json_schema_extra=unit("mm, deg or 1"))


class FigureEntry(Open):
    """One figure that can be asked for."""

    name: str = Field(description="Its name in the address.")
    sentence: str = Field(description="What it answers.")
    parameters: list[FigureParameter] = Field(description="Its query values.")


class FigureList(Open):
    """The figures that can be asked for."""

    figures: list[FigureEntry] = Field(description="The figures.")


def entry(figure: Figure) -> dict[str, Any]:
    """Return a figure as the list of figures shows it."""
    parameters = [
        {
            "name": p.name,
            "kind": p.kind,
            "sentence": p.sentence,
            "default": p.default,
            "default_in": p.default_for("in"),
            "choices": list(p.choices),
            "least": p.least,
            "most": p.most,
        }
        for p in figure.parameters
    ]
    return {"name": figure.name, "sentence": figure.sentence, "parameters": parameters}


def query_schema(parameter: Parameter, example: str | None = None) -> dict[str, Any]:
    """Return the JSON Schema of a figure's query value: the text it may be; its range is told in words."""
    if parameter.kind == "choice":
        return {"type": "string", "enum": list(parameter.choices)}
    pattern, longest, unit = {
        "length": (PATTERN_EITHER_MARK, MAX_TEXT, "units"),
        "angle": (ANGLE_PATTERN, MAX_ANGLE, "deg"),
        "count": (COUNT_PATTERN, 6, "count"),
        "number": (NUMBER_PATTERN, 19, "1"),
    }[parameter.kind]
    schema: dict[str, Any] = {
        "type": "string",
        "pattern": pattern,
        "minLength": 1,
        "maxLength": longest,
        "x-unit": unit,
    }
    if example is not None or parameter.default is not None:
        schema["examples"] = [example or parameter.default]
    return schema | {"x-least": parameter.least, "x-most": parameter.most}


def openapi_parameter(parameter: Parameter, example: str | None) -> dict[str, Any]:
    """Return the OpenAPI parameter of a figure's query value."""
    unit = f" A bare number is in {parameter.unit}." if parameter.unit else ""
    defaults = "" if parameter.default is None else f" Default: {parameter.default}"
    if parameter.default_in not in (None, parameter.default):
        defaults += f", with units=in {parameter.default_in}"
    return {
        "name": parameter.name,
        "in": "query",
        "required": parameter.default is None,
        "description": f"{parameter.sentence}{unit}{defaults + '.' if defaults else ''}",
        "schema": query_schema(parameter, example),
    }
