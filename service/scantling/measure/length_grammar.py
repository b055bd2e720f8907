"""The grammar of a written length, as regular expressions that a text must match whole.

    length   = [sign] ( number [unit] | whole feet-mark [ ["-"] number inch-mark ] )
    number   = decimal | fraction | whole (space | "-") fraction | whole [space] "½"
    decimal  = digits [ "." digits ] | "." digits          (a comma in place of the point where declared)
    fraction = digits "/" digits, neither with a leading zero | one of ½ ⅓ ⅔ ¼ ¾ ⅕ ⅖ ⅗ ⅘ ⅙ ⅚ ⅛ ⅜ ⅝ ⅞
    unit     = "mm" | "cm" | "m"                           (in just this spelling)
             | in | in. | inch | inches | " | ″ | ”        (in any case)
             | ft | ft. | foot | feet | ' | ′ | ’          (in any case)

Typographic primes, quotes, hyphens, minus signs and spaces are first turned into the plain ones, one character for
one, so that a position in the plain text is a position in the text as given. No group repeats inside a repeat and a
text has at most 32 characters, so matching takes linear time.
"""

import re
from types import MappingProxyType

MAX_TEXT = 32  # characters; the longest sensible length, `12 ft 11-63/64 inches`, has 21

_PLAIN = {
    **dict.fromkeys("′’‘ʹ", "'"),
    **dict.fromkeys("″”“ʺ", '"'),
    **dict.fromkeys("‐‑–−", "-"),
    **dict.fromkeys("⁄∕", "/"),
    **dict.fromkeys("\u00a0\u2002\u2003\u2007\u2009\u200a\u202f\t", " "),
}
_TO_PLAIN = str.maketrans(_PLAIN)

VULGAR = MappingProxyType(
    {
        "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4),
        "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6),
        "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
    }
)  # fmt: skip

# millimetres in one unit, as a ratio of whole numbers (1 in = 25.4 mm exactly)
RATIO = MappingProxyType({"mm": (1, 1), "cm": (10, 1), "m": (1000, 1), "in": (127, 5), "ft": (1524, 5)})

_INCH = r"""(?i:inches|inch|in\.?)|"|''"""
_FOOT = r"(?i:feet|foot|ft\.?)|'(?!')"
_VULGAR_CLASS = "[" + "".join(VULGAR) + "]"


def _number(sign: str) -> str:
    """Return the pattern of a number; groups: decimal | whole, numerator, denominator | whole, vulgar."""
    return (
        rf"(?:([0-9]+(?:{sign}[0-9]+)?|{sign}[0-9]+)"
        r"|(?:([0-9]+)(?:\ +|-))?([1-9][0-9]*)/([1-9][0-9]*)"
        rf"|(?:([0-9]+)(?:\ *|-))?({_VULGAR_CLASS}))"
    )


def _patterns(sign: str) -> tuple[re.Pattern[str], re.Pattern[str]]:
    number = _number(sign)
    single = re.compile(rf"\ *([+-]?)\ *{number}\ *(?:(mm|cm|m)|({_INCH})|({_FOOT}))?\ *", re.ASCII)
    feet = re.compile(rf"\ *([+-]?)\ *([0-9]+)\ *(?:{_FOOT})\ *-?\ *{number}\ *(?:{_INCH})\ *", re.ASCII)
    return single, feet


_POINT = _patterns(r"\.")
_COMMA = _patterns(",")


def plain(text: str) -> str:
    """Return the text with typographic marks turned into plain ones, one character for one."""
    return text if text.isascii() and "\t" not in text else text.translate(_TO_PLAIN)


def _ratio(groups: tuple[str | None, ...], sign: str) -> tuple[int, int] | None:
    """Return a matched number as numerator and denominator; None for a fraction not below 1 after a whole."""
    decimal, whole, top, bottom, vulgar_whole, vulgar = groups
    if decimal is not None:
        before, _, after = decimal.partition(sign)
        return int(before + after), 10 ** len(after)
    if top is not None and bottom is not None:
        n, d = int(top), int(bottom)
        if whole is None:
            return n, d
        return (int(whole) * d + n, d) if n < d else None
    n, d = VULGAR[str(vulgar)]
    return int(vulgar_whole or 0) * d + n, d


def match(text: str, decimal_comma: bool) -> tuple[int, int, str, bool] | None:
    """Return (numerator, denominator, unit, is_fraction) of a plain text, or None where it is no length.

    `unit` is "" where none is written. Feet with inches come back in inches. The value may be negative.
    """
    single, feet = _COMMA if decimal_comma else _POINT
    sign = "," if decimal_comma else "."
    found = single.fullmatch(text)
    if found is not None:
        minus, *number, metric, inch, foot = found.groups()
        ratio = _ratio(tuple(number), sign)
        if ratio is None:
            return None
        unit = metric or ("in" if inch else "ft" if foot else "")
        return (-ratio[0] if minus == "-" else ratio[0], ratio[1], unit, number[0] is None)
    found = feet.fullmatch(text)
    if found is None:
        return None
    minus, whole_feet, *number = found.groups()
    ratio = _ratio(tuple(number), sign)
    if ratio is None or ratio[0] >= 12 * ratio[1]:
        return None
    total = int(whole_feet or 0) * 12 * ratio[1] + ratio[0]
    return (-total if minus == "-" else total, ratio[1], "in", number[0] is None)
