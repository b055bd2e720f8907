"""Reading what a hook answered: a list of one type, not endless, each with an id of its own."""

import re
from collections.abc import Mapping
from itertools import islice
from typing import TypeVar

from .fault import Fault, called

ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
LONGEST_ID = 64
LONGEST_TEXT = 1_000
T = TypeVar("T")


def listed(answer: object, of: type[T], hook: str, most: int) -> list[T]:
    """Return what a hook or a member answered as a list of one type. Raises Fault for anything else, or for too much.

    A generator is read too, but never past `most`: one that does not end harms nobody.
    """
    if isinstance(answer, str | bytes | Mapping) or not hasattr(answer, "__iter__"):
        raise Fault(f"{hook} answered {called(answer)}, not a list of {of.__name__}")
    found = list(islice(iter(answer), most + 1))
    if len(found) > most:
        raise Fault(f"{hook} answered more than {most} entries; at most {most} are taken")
    for one in found:
        if not isinstance(one, of):
            raise Fault(f"{hook} gave {called(one)}, which is no {of.__name__}")
    return found


def by_id(found: list[T], what: str, name: str = "id") -> dict[str, T]:
    """Return things by id. Raises Fault for an id that is none, or stands twice."""
    table: dict[str, T] = {}
    for one in found:
        id = getattr(one, name, None)
        if not isinstance(id, str) or len(id) > LONGEST_ID or not ID.fullmatch(id):
            raise Fault(f"the {name} of a {what} is {id!r}; it is small letters, digits and single hyphens")
        if id in table:
            raise Fault(f"it gives two {what}s with the {name} {id!r}")
        table[id] = one
    return table


def texts(one: object, what: str, *members: str) -> None:
    """Check texts for people. Raises Fault for one that is missing, empty or endless."""
    for member in members:
        text = getattr(one, member, None)
        if not isinstance(text, str) or not text.strip() or len(text) > LONGEST_TEXT:
            shown = repr(text) if text is None or (isinstance(text, str) and len(text) < 60) else called(text)
            raise Fault(f"{what}: {member} is {shown}; it is a text for people of at most {LONGEST_TEXT} characters")


def number(value: object, what: str, least: float, most: float) -> float:
    """Return a number in a range. Raises Fault."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not least <= value <= most:
        raise Fault(f"{what} is {value!r}; it is a number from {least:g} to {most:g}")
    return float(value)
