"""The published pattern of a written length.

It is the length grammar in the dialect of JSON Schema (ECMA-262), with as many digits as a length in a home shop
needs. What it lets through is read by the grammar, except where the parts of the text do not agree: a fraction of
one or more after a whole number, or twelve inches and more after feet.
"""

import re

MAX_TEXT = 32
_SPACE = "[ \\t\u00a0\u2002\u2003\u2007\u2009\u200a\u202f]{0,3}"
_HYPHEN = "[-‐‑–−]"
_FOOT = "([Ff][Tt]\\.?|[Ff][Oo][Oo][Tt]|[Ff][Ee][Ee][Tt]|['′’‘ʹ])"
_INCH = "([Ii][Nn]\\.?|[Ii][Nn][Cc][Hh]([Ee][Ss])?|[\"″”“ʺ]|''|′′|’’)"
_VULGAR = "[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]"
_POINT = "\\."
_JOINT = f"({_HYPHEN}|[ \u00a0\u2009\u202f]{{1,3}})"
_PART = "[1-9][0-9]{0,2}[/⁄∕][1-9][0-9]{0,2}"


def _number(whole: str) -> str:
    """Return the pattern of a number whose whole part is `whole`: a decimal, a fraction or a mixed number."""
    decimal = f"({whole}({_POINT}[0-9]{{1,6}})?|{_POINT}[0-9]{{1,6}})"
    return f"({decimal}|({whole}{_JOINT})?{_PART}|({whole}({_HYPHEN}|{_SPACE}))?{_VULGAR})"


# As many digits before the point as 20 m has in the unit.
_ONE_UNIT = "|".join(
    f"{_number(whole)}{_SPACE}{unit}"
    for whole, unit in (
        ("([0-9]{1,4}|1[0-9]{4})", "(mm)?"),
        ("1?[0-9]{1,3}", "cm"),
        ("[0-9]{1,3}", _INCH),
        ("[0-9]{1,2}", f"(m|{_FOOT})"),
    )
)
_FEET_AND_INCHES = f"[0-9]{{1,2}}{_SPACE}{_FOOT}{_SPACE}{_HYPHEN}?{_SPACE}{_number('[0-9]{1,2}')}{_SPACE}{_INCH}"
PATTERN = f"^{_SPACE}({_ONE_UNIT}|{_FEET_AND_INCHES}){_SPACE}$"
PATTERN_EITHER_MARK = PATTERN.replace(f"{_POINT}[0-9]", "[.,][0-9]")  # where the decimal mark is a setting
_COMPILED = re.compile(PATTERN)


def has_the_form(text: str) -> bool:
    """Tell whether a text has the published form of a length."""
    return len(text) <= MAX_TEXT and not text.endswith("\n") and _COMPILED.search(text) is not None
