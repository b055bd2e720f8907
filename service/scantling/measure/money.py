"""Money: decimal text at the door, whole ten-thousandths of the currency unit inside.

A JSON number is refused, because a binary fraction cannot hold 0.10. Four places carry the price of one screw out of
a box of a thousand; what is charged is rounded to the cent once, at the end, halves away from zero.
"""

import re

from .errors import MeasureError, shown

MICRO = 10_000  # ten-thousandths in one currency unit
PLACES = 4
MAX_MONEY_DIGITS = 12  # before the point
ACCEPTED_MONEY = 'an amount as text with a decimal point and at most four places, such as "62.00" or "0.0125"'

_AMOUNT = re.compile(r"(-?)([0-9]{1,12})(?:\.([0-9]+))?", re.ASCII)
_CURRENCY = re.compile(r"[A-Z]{3}", re.ASCII)


def parse_money(text: str, places: int = PLACES, *, signed: bool = False) -> int:
    """Return an amount of money in ten-thousandths of the currency unit: `"62.00"` is 620000.

    `places` (0 to 4) is how many decimal places are taken. Raises MeasureError; also for anything that is no text.
    """
    if not 0 <= places <= PLACES:
        raise ValueError(f"places must be 0 to {PLACES}, not {places}")
    if not isinstance(text, str):
        says = "money is written as text, because a number with a fraction cannot hold 0.10 exactly"
        raise _refusal(
            str(text)[:20] if isinstance(text, int | float) else type(text).__name__, says, None, "wrong-type"
        )
    if len(text) > MAX_MONEY_DIGITS + PLACES + 8:
        raise _refusal(text, "it is too long", None, "too-long")
    body = text.strip(" ")
    found = _AMOUNT.fullmatch(body)
    if found is None:
        raise _fault(text, body)
    minus, whole, after = found.groups()
    after = after or ""
    offset = len(text) - len(text.lstrip(" "))
    if len(after) > places:
        place = offset + found.start(3) + places
        raise _refusal(text, f"it has more than {places} decimal places", place, "too-many-places")
    amount = int(whole) * MICRO + int((after + "0000")[:PLACES])
    if minus and amount and not signed:
        raise _refusal(text, "an amount here is not below zero", offset, "negative")
    return -amount if minus else amount


def parse_currency(text: object) -> str:
    """Return a currency code, three capital letters as in ISO 4217. Raises MeasureError."""
    if isinstance(text, str) and _CURRENCY.fullmatch(text):
        return text
    accepted = "three capital letters as in ISO 4217, such as USD or EUR"
    given = text if isinstance(text, str) else type(text).__name__
    raise MeasureError(
        f"Cannot take the currency {shown(given)}. Accepted: {accepted}.", accepted=accepted, code="unknown-currency"
    )


def round_to_cent(amount: int) -> int:
    """Return an amount rounded to whole hundredths of the currency unit, still in ten-thousandths; halves go up."""
    cents = (abs(amount) + 50) // 100
    return -cents * 100 if amount < 0 else cents * 100


def plain_money(amount: int) -> str:
    """Return an amount exactly, as `parse_money` reads it: two places at least, four at most."""
    whole, part = divmod(abs(amount), MICRO)
    after = f"{part:04d}"
    after = after[:2] + after[2:].rstrip("0")
    return f"{'-' if amount < 0 else ''}{whole}.{after}"


def show_money(amount: int, currency: str) -> str:
    """Return an amount for people, rounded to the cent: `730.81 USD`."""
    return f"{plain_money(round_to_cent(amount))} {currency}"


def _fault(text: str, body: str) -> MeasureError:
    """Return the error for a text that is no amount of money."""
    if not body:
        return _refusal(text, "it is empty", None, "empty")
    place = next((i for i, c in enumerate(text) if c not in " -.0123456789"), None)
    if place is None:
        return _refusal(text, "it is not one decimal number", 0)
    if text[place] == ",":
        return _refusal(text, "amounts take a decimal point and no thousands marks", place)
    return _refusal(text, "the currency is given once for the whole request, and an amount is digits only", place)


def _refusal(text: str, says: str, position: int | None, code: str = "unreadable") -> MeasureError:
    return MeasureError(
        f"Cannot take the amount {shown(text)}: {says}. Accepted: {ACCEPTED_MONEY}.",
        text=text[:40],
        position=position,
        accepted=ACCEPTED_MONEY,
        code=code,
    )
