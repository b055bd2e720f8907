"""Why a text is no length: finds the first place at fault and says what would be accepted.

Only called on a text the grammar has refused, so nothing here accepts anything: it always answers with an error.
"""

import re
from itertools import pairwise

from .errors import MeasureError, shown
from .length_grammar import VULGAR

ACCEPTED = 'a number with mm, cm, m, in or ft, such as 19 mm, 1.9 cm, 3/4 in, 13 3/4", 13-3/4 in or 4\'-6"'
DATE_SENTENCE = (
    "looks like a fraction that a spreadsheet turned into a date; format the column as text, "
    "or write the number as a decimal (0.75) or with its mark (3/4 in)"
)

_MONTHS = [
    *("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "sept", "oct", "nov", "dec"),
    *("mrz", "mär", "mai", "okt", "dez", "janv", "févr", "avr", "juin", "juil", "août", "déc", "ene", "abr", "ago"),
]
_MONTH = "(?:" + "|".join(sorted(_MONTHS, key=len, reverse=True)) + r")[a-zäéû]*\.?"
_DATES = re.compile(
    rf"[0-9]{{1,4}}([-/.])[0-9]{{1,2}}\1[0-9]{{1,4}}(?:[ t].*)?"  # 2026-03-04, 04/03/26, 4.3.2026
    rf"|[0-9]{{1,2}}\.?[-/ ]*{_MONTH}(?:[-/ ]*[0-9]{{2,4}})?"  # 4-Mar, 4. März 2026
    rf"|{_MONTH}[-/ ]*[0-9]{{1,4}}(?:,? *[0-9]{{4}})?"  # Mar-04, March 4, 2026
    r"|0[0-9]/[0-9]{1,4}|[0-9]{1,2}/0[0-9]",  # 04/03: nobody writes a fraction with leading zeros
    re.IGNORECASE,
)
_NOT_A_NUMBER = re.compile(r"[+-]?(?:nan|inf|infinity|none|null|true|false)", re.IGNORECASE)
_MARK = re.compile(r"[0-9]+|[A-Za-zµ]+\.?|''|.", re.DOTALL)
_INCH_WORDS = frozenset({"in", "in.", "inch", "inches", '"', "''"})
_FOOT_WORDS = frozenset({"ft", "ft.", "foot", "feet", "'"})
_METRIC_WORDS = frozenset({"mm", "cm", "m"})

Fault = tuple[str, int | None, str]


def length_fault(raw: str, plain_text: str, decimal_comma: bool) -> MeasureError:
    """Return the error for a text that is no length: `raw` as given, `plain_text` with plain marks."""
    body = plain_text.strip(" ")
    offset = len(plain_text) - len(plain_text.lstrip(" "))
    says, place, code = _whole_text_fault(body) or _mark_fault(body, decimal_comma)
    position = None if place is None else place + offset
    where = "" if position is None else f" at character {position + 1}"
    return MeasureError(
        f"Cannot read the length {shown(raw)}{where}: {says}. Accepted: {ACCEPTED}.",
        text=raw,
        position=position,
        accepted=ACCEPTED,
        code=code,
    )


def _whole_text_fault(body: str) -> Fault | None:
    """Return what is wrong with the text as a whole, if that is the trouble."""
    if not body:
        return "it is empty", None, "empty"
    if _NOT_A_NUMBER.fullmatch(body):
        return "it is not a number", 0, "not-a-number"
    if _DATES.fullmatch(body):
        return f"it {DATE_SENTENCE}", 0, "spreadsheet-date"
    return None


def _mark_fault(body: str, decimal_comma: bool) -> Fault:
    """Return the first mark at fault and why."""
    marks = [(m.group(), m.start()) for m in _MARK.finditer(body)]
    for index, (mark, start) in enumerate(marks):
        before = marks[index - 1][0] if index else ""
        after = marks[index + 1][0] if index + 1 < len(marks) else ""
        if mark.isascii() and mark.isdigit():
            continue
        if mark[0].isalpha():
            says = _word_fault(mark, before)
            code = "unknown-unit" if " unit" in says else "unreadable"
        else:
            says, code = _sign_fault(mark, before, after, decimal_comma), "unreadable"
        if says:
            return says, start, code
    return _order_fault(marks, len(body))


def _word_fault(mark: str, before: str) -> str:
    """Return why a run of letters is wrong, or "" where it is a unit."""
    bare = mark.rstrip(".")
    if mark in _METRIC_WORDS or mark.lower() in _INCH_WORDS | _FOOT_WORDS:
        return ""
    if bare.lower() == "e" and before.isdigit():
        return "powers of ten are not read; write the number out"
    if bare.lower() in _METRIC_WORDS:
        return f"{mark} is not a unit here; write {bare.lower()} in just this spelling"
    if bare.lower() in {"x", "by"}:
        return "one length at a time; give length and width separately"
    return f"{shown(mark)} is not a unit; the units are mm, cm, m, in and ft"


def _sign_fault(mark: str, before: str, after: str, decimal_comma: bool) -> str:
    """Return why a character that is neither digit nor letter is wrong, or "" where it may stand."""
    if mark in VULGAR or mark in {" ", '"', "'", "''", "-"}:
        return ""
    if mark == "+":
        return "" if not before else "sums are not worked out; give one length"
    if mark == "/":
        return "" if before.isdigit() and after.isdigit() else "a fraction needs a whole number on both sides of the /"
    if mark == ".":
        if decimal_comma:
            return "decimal commas were declared, so a point is not read; write 18,5"
        return "" if after.isdigit() else "a decimal point needs digits after it"
    if mark == ",":
        if not decimal_comma:
            return (
                "a comma is read only where decimal commas were declared; write 18.5 with a point, no thousands marks"
            )
        return "" if after.isdigit() and before.isdigit() else "a decimal comma needs digits on both sides"
    if mark in "*^×()=":
        return "arithmetic is not worked out; give one length"
    if mark.isdigit():
        return "digits are written 0 to 9"
    return f"the character {shown(mark)} has no place in a length"


def _order_fault(marks: list[tuple[str, int]], end: int) -> Fault:
    """Return why good marks stand in an order that is no length."""
    solid = [(t, s) for t, s in marks if t != " "]
    seen_foot = seen_inch = seen_metric = False
    for index, (mark, start) in enumerate(solid):
        word = mark.lower()
        following = solid[index + 1][0] if index + 1 < len(solid) else ""
        if (seen_inch or seen_metric) and mark != " ":
            return "nothing may follow the unit", start, "unreadable"
        if mark == "/" and (fault := _fraction_fault(solid, index)):
            return fault
        if word in _FOOT_WORDS:
            if seen_foot:
                return "feet are given twice", start, "unreadable"
            seen_foot = True
        seen_inch = seen_inch or word in _INCH_WORDS
        seen_metric = seen_metric or word in _METRIC_WORDS
        if seen_metric and seen_foot:
            return "feet cannot be followed by a metric length", start, "unreadable"
        if not index and (word in _INCH_WORDS | _FOOT_WORDS | _METRIC_WORDS):
            return "a number is missing before the unit", start, "unreadable"
        if mark == "-" and following == "-":
            return "one hyphen is enough", start, "unreadable"
    if seen_foot and not seen_inch:
        return "the inches after the feet need their mark, as in 5' 3/4\"", end, "mark-missing"
    if seen_foot:
        return "after whole feet the inches must be a number less than 12, as in 4'-6 1/2\"", solid[0][1], "unreadable"
    return _number_fault(solid)


def _fraction_fault(solid: list[tuple[str, int]], slash: int) -> Fault | None:
    """Return what is wrong with the fraction around a slash, if anything."""
    if not 0 < slash < len(solid) - 1:
        return "a fraction needs a whole number on both sides of the /", solid[slash][1], "unreadable"
    (top, place), (bottom, bottom_place) = solid[slash - 1], solid[slash + 1]
    if not bottom.strip("0"):
        return "a fraction cannot be divided by zero", bottom_place, "unreadable"
    if top.startswith("0") or bottom.startswith("0"):
        return "neither number of a fraction begins with a zero", place, "unreadable"
    if slash > 1 and solid[slash - 2][0] not in _FOOT_WORDS and int(top) >= int(bottom):
        return "after a whole number the fraction must be less than 1", place, "unreadable"
    return None


def _number_fault(solid: list[tuple[str, int]]) -> Fault:
    """Return why numbers without feet marks do not make one number."""
    for (mark, _), (following, place) in pairwise(solid):
        if mark.isdigit() and following.isdigit():
            return (
                "two numbers stand side by side; write a fraction as 13 3/4 and feet with their mark",
                place,
                "unreadable",
            )
        if mark in VULGAR and (following in VULGAR or following.isdigit()):
            return f"nothing but a unit may follow the {mark}", place, "unreadable"
    if len(solid) == 1 and not solid[0][0].isdigit():
        return "a number is missing", solid[0][1], "unreadable"
    hyphens = [s for t, s in solid[1:] if t == "-"]
    if hyphens:
        return "a hyphen may stand only between a whole number and its fraction, as in 13-3/4", hyphens[0], "unreadable"
    return "it does not make one number with one unit", 0, "unreadable"
