"""Members that take one of several JSON types: the type decides the branch, so that errors tell of one only."""

from pydantic import BaseModel, Discriminator, Tag

TEXT, NUMBER, LIST, OBJECT = "‹text", "‹number", "‹list", "‹object"
text, number, listed, mapped = Tag(TEXT), Tag(NUMBER), Tag(LIST), Tag(OBJECT)


def _kind(value: object) -> str | None:
    if isinstance(value, str):
        return TEXT
    if isinstance(value, list):
        return LIST
    if isinstance(value, dict | BaseModel):
        return OBJECT
    return NUMBER if isinstance(value, int | float) and not isinstance(value, bool) else None


def _length_kind(value: object) -> str:
    """Return the branch where a length may be a number or text: anything that is no list or object is its affair."""
    kind = _kind(value)
    return kind if kind in (LIST, OBJECT) else NUMBER


def by_type(accepted: str) -> Discriminator:
    """Return the discriminator of a union by JSON type; `accepted` says what the member takes."""
    return Discriminator(
        _kind,
        custom_error_type="wrong-type",
        custom_error_message=f"a value of another type; accepted: {accepted}",
    )


def length_or(accepted: str) -> Discriminator:
    """Return the discriminator of a union of a length with a list or an object."""
    return Discriminator(
        _length_kind,
        custom_error_type="wrong-type",
        custom_error_message=f"a value of another type; accepted: {accepted}",
    )
