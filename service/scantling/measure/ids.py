"""Ids: the caller's own names for parts, stock and modules, echoed back unchanged.

They end up in spreadsheet cells, so none begins with a character that a spreadsheet takes for a formula.
"""

import re
from collections.abc import Iterable

from .errors import MeasureError, RequestProblem, pointer, shown

MAX_ID = 64
ACCEPTED_ID = "1 to 64 printable characters that do not begin with a space, = + - @ or a quote"

# Not printable: control characters, line separators, direction marks and invisible joiners. Lone surrogates cannot be
# written as UTF-8 and are checked beside the pattern, which other regular expression engines must be able to read.
_HIDDEN = r"\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff"
ID_PATTERN = rf"^[^ \u00a0=+\-@'\"`‘’“”{_HIDDEN}][^{_HIDDEN}]{{0,{MAX_ID - 1}}}$"
_ID = re.compile(ID_PATTERN.removesuffix("$"))


def parse_id(value: object) -> str:
    """Return an id unchanged. Raises MeasureError where it breaks the rule."""
    if not isinstance(value, str):
        raise _refusal(type(value).__name__, "it is not a text", None)
    if not value:
        raise _refusal("", "it is empty", None)
    if len(value) > MAX_ID:
        raise _refusal(value, f"it has {len(value)} characters", MAX_ID)
    if not _ID.fullmatch(value):
        place = next((i for i in range(len(value)) if not _ID.fullmatch(value[: i + 1])), 0)
        says = f"it begins with {shown(value[0])}" if place == 0 else "it holds a character that cannot be printed"
        raise _refusal(value, says, place)
    for place, character in enumerate(value):
        if "\ud800" <= character <= "\udfff":
            raise _refusal(value, "it holds half of a character", place)
    return value


def repeated_ids(ids: Iterable[str], *list_at: str | int, member: str = "id") -> list[RequestProblem]:
    """Return a problem for every id that stands a second time in its list; `list_at` leads to the list."""
    first: dict[str, int] = {}
    problems = []
    for index, one in enumerate(ids):
        if one in first:
            earlier = pointer(*list_at, first[one])
            detail = f"The id {shown(one)} already stands at {earlier}; ids are unique in their list."
            problems.append(RequestProblem(pointer(*list_at, index, member), detail, "id-repeated"))
        else:
            first[one] = index
    return problems


def _refusal(text: str, says: str, position: int | None) -> MeasureError:
    return MeasureError(
        f"Cannot take the id {shown(text)}: {says}. Accepted: {ACCEPTED_ID}.",
        text=text[:MAX_ID],
        position=position,
        accepted=ACCEPTED_ID,
        code="bad-id",
    )
