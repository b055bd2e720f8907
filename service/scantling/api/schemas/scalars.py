"""The strict scalars that every request is made of, so that what is accepted is what the schema says.

JSON Schema counts 2.0 as an integer and `false` as no number; pydantic by itself does neither. `Field` stands
first in each `Annotated`, or the published schema would lose its limits.
"""

import math
from typing import Annotated, Any

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints
from pydantic.json_schema import WithJsonSchema
from pydantic_core import PydanticCustomError

from scantling.measure import ID_PATTERN
from scantling.measure.ids import ACCEPTED_ID

from .marks import CURRENCY_UNIT


def _whole(value: object) -> object:
    """Return 3 for 3.0: JSON has one kind of number."""
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return int(value)
    return value


Whole = BeforeValidator(_whole)
Int = Annotated[int, Field(strict=True), Whole]
Float = Annotated[float, Field(strict=True, allow_inf_nan=False)]
Bool = Annotated[bool, Field(strict=True)]
Ratio = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=1)]

TEXT_PATTERN = r"^[^\u0000-\u001f\u007f-\u009f\u2028-\u202e\u2060-\u206f\ufeff]*$"
SLUG_PATTERN = r"^[a-z0-9]+(-[a-z0-9]+)*$"

MONEY_PATTERN = r"^[0-9]{1,9}(\.[0-9]{1,4})?$"
CURRENCY_PATTERN = r"^[A-Z]{3}$"
Money = Annotated[
    str,
    StringConstraints(strict=True, max_length=14, pattern=MONEY_PATTERN),
    Field(examples=["12.50"], json_schema_extra=CURRENCY_UNIT),
]
Currency = Annotated[str, StringConstraints(strict=True, max_length=3, pattern=CURRENCY_PATTERN)]
Slug = Annotated[
    str,
    StringConstraints(strict=True, min_length=1, max_length=64, pattern=SLUG_PATTERN),
    Field(examples=["leaning-seat"]),
]
Id = Annotated[
    str,
    StringConstraints(strict=True, min_length=1, max_length=64, pattern=ID_PATTERN),
    Field(examples=["north bench"]),
]


def _printable(value: str) -> str:
    if not value.isprintable():
        raise PydanticCustomError("not-printable", "a character that cannot be printed; accepted: text on one line")
    return value


Name = Annotated[str, StringConstraints(strict=True, max_length=200, pattern=TEXT_PATTERN), AfterValidator(_printable)]

PATTERN_WORDS = {
    ID_PATTERN: ACCEPTED_ID,
    TEXT_PATTERN: "text on one line, without control characters",
    SLUG_PATTERN: "small letters, digits and single hyphens",
    MONEY_PATTERN: 'an amount as text with at most four decimal places, such as "62.00"',
    CURRENCY_PATTERN: "three capital letters as in ISO 4217, such as USD or EUR",
}

DEEPEST, MOST_MEMBERS, LONGEST_TEXT = 8, 2000, 2000


def _bounded(value: object) -> object:
    """Refuse an open object that is too deep, too large or not finite; say which."""
    todo: list[tuple[object, int]] = [(value, 0)]
    members = 0
    while todo:
        one, depth = todo.pop()
        members += 1
        if members > MOST_MEMBERS:
            raise ValueError(f"more than {MOST_MEMBERS} values; accepted: at most {MOST_MEMBERS}")
        if depth > DEEPEST:
            raise ValueError(f"nested more than {DEEPEST} deep; accepted: at most {DEEPEST}")
        if isinstance(one, dict):
            todo += [(inner, depth + 1) for pair in one.items() for inner in pair]
        elif isinstance(one, list):
            todo += [(inner, depth + 1) for inner in one]
        elif isinstance(one, str) and len(one) > LONGEST_TEXT:
            raise ValueError(f"text of {len(one)} characters; accepted: at most {LONGEST_TEXT}")
        elif isinstance(one, float) and not math.isfinite(one):
            raise ValueError("a number is not finite; accepted: ordinary numbers")
    return value


_OPEN_SCHEMA = {"type": "object", "additionalProperties": True, "maxProperties": 200, "examples": [{}]}
OpenObject = Annotated[
    dict[str, Any],
    Field(max_length=200),
    BeforeValidator(_bounded),
    WithJsonSchema(_OPEN_SCHEMA),
]


class Closed(BaseModel):
    """A request or a part of one: unknown members are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Open(BaseModel):
    """An answer or a part of one: members may be added, so clients ignore those they do not know."""

    model_config = ConfigDict(extra="allow", defer_build=True)
