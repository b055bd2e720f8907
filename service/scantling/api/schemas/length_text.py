"""The published pattern of a written length.

It is the length grammar in the dialect of JSON Schema (ECMA-262), with as many digits as a length in a home shop
needs. What it lets through is read by the grammar, except where the parts of the text do not agree: a fraction of
one or more after a whole number, or twelve inches and more after feet.
"""

import re

MAX_TEXT = 32
_SPACE = "[ \\t\u00a0\u2002\u2003\u2007\u2009\u200a\u202f]*"
_HYPHEN = "[-‐‑–−]"
_FOOT = "([Ff][Tt]\\.?|[Ff][Oo][Oo][Tt]|[Ff][Ee][Ee][Tt]|['′’‘ʹ])"
_INCH = "([Ii][Nn]\\.?|[Ii][Nn][Cc][Hh]([Ee][Ss])?|[\"″”“ʺ]|''|′′|’’)"
_VULGAR = "[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]"
_WHOLE = "([0-9]{1,4}|[12][0-9]{4})"
_POINT = "\\."
_DECIMAL = f"({_WHOLE}({_POINT}[0-9]{{1,6}})?|{_POINT}[0-9]{{1,6}})"
_JOINT = f"({_HYPHEN}|[ \u00a0\u2009\u202f]+)"
_FRACTION = f"([0-9]{{1,4}}{_JOINT})?[1-9][0-9]{{0,3}}[/⁄∕][1-9][0-9]{{0,3}}"
_SIGN = f"([0-9]{{1,4}}({_HYPHEN}|{_SPACE}))?{_VULGAR}"
_NUMBER = f"({_DECIMAL}|{_FRACTION}|{_SIGN})"
_UNIT = f"(mm|cm|m|{_INCH}|{_FOOT})"
_SINGLE = f"{_NUMBER}{_SPACE}{_UNIT}?"
_FEET = f"[0-9]{{1,2}}{_SPACE}{_FOOT}{_SPACE}{_HYPHEN}?{_SPACE}{_NUMBER}{_SPACE}{_INCH}"
PATTERN = f"^{_SPACE}({_SINGLE}|{_FEET}){_SPACE}$"
PATTERN_EITHER_MARK = PATTERN.replace(f"{_POINT}[0-9]", "[.,][0-9]")  # where the decimal mark is a setting
_COMPILED = re.compile(PATTERN)


def has_the_form(text: str) -> bool:
    """Tell whether a text has the published form of a length."""
    return len(text) <= MAX_TEXT and not text.endswith("\n") and _COMPILED.search(text) is not None
