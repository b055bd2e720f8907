"""How wide text is: character widths of Helvetica, so that a view knows the room its letters take.

Widths in thousandths of the letter height, from the font metrics Adobe publishes for the 14 standard fonts of PDF
(Core 14 AFM files, from memory; a test compares them with an independent reader of those files). Other sans-serif
fonts differ by a few per cent, which the margin covers.
"""

from collections.abc import Iterator
from unicodedata import east_asian_width

MARGIN = 1.04
BOLD = 1.08
OTHER = 600  # a character that is not listed

_WIDTHS = {
    **dict.fromkeys("0123456789?_abdeghnopqu$#LΔ–", 556),
    **dict.fromkeys(" !,./:;I[\\]ft", 278),
    **dict.fromkeys("cksvxyzJ", 500),
    **dict.fromkeys("ABEKPSVXY&", 667),
    **dict.fromkeys("CDHNRUw", 722),
    **dict.fromkeys("GOQØ", 778),
    **dict.fromkeys("FTZø", 611),
    **dict.fromkeys("()-r`", 333),
    **dict.fromkeys("+<=>~×±÷", 584),
    **dict.fromkeys("¼½¾Mm", 833),
    **dict.fromkeys("ijl", 222),
    '"': 355,
    "%": 889,
    "'": 191,
    "*": 389,
    "@": 1015,
    "W": 944,
    "^": 469,
    "{": 334,
    "}": 334,
    "|": 260,
    "°": 400,
    "·": 278,
    "—": 1000,
    "…": 1000,
    "•": 350,
}


def text_width(text: str, size: float, bold: bool = False) -> float:
    """Return the length in mm of a line of text whose letters are `size` mm high, a little on the safe side."""
    return sum([_WIDTHS.get(c) or _other(c) for c in text]) * size / 1000 * MARGIN * (BOLD if bold else 1.0)


def _other(character: str) -> int:
    return 1000 if east_asian_width(character) in "WF" else OTHER


def fitted_size(text: str, room: float, wanted: float, bold: bool = False) -> float:
    """Return the letter height, at most `wanted` mm, at which a line fits into `room` mm."""
    width = text_width(text, wanted, bold)
    return wanted if width <= room else wanted * room / width


def wrapped(text: str, room: float, size: float, bold: bool = False) -> list[str]:
    """Return text broken into lines no longer than `room` mm; a word longer than a line is broken inside."""
    if text_width(text, size, bold) <= room:
        return [" ".join(text.split())]
    lines: list[list[str]] = [[]]
    blank, taken = text_width(" ", size, bold), 0.0
    for word in _words(text, room, size, bold):
        width = text_width(word, size, bold)  # these letters have no kerning: a line is as long as its words and blanks
        if lines[-1] and taken + blank + width > room:
            lines.append([])
        taken = taken + blank + width if lines[-1] else width
        lines[-1].append(word)
    return [" ".join(line) for line in lines]


def _words(text: str, room: float, size: float, bold: bool) -> Iterator[str]:
    for word in text.split():
        rest = word
        while text_width(rest, size, bold) > room and len(rest) > 1:
            n = len(rest) - 1
            while n > 1 and text_width(rest[:n], size, bold) > room:
                n -= 1
            yield rest[:n]
            rest = rest[n:]
        yield rest


def shortened(text: str, room: float, size: float, bold: bool = False) -> str:
    """Return text cut to `room` mm with an ellipsis where it is longer."""
    if text_width(text, size, bold) <= room:
        return text
    cut = text
    while cut and text_width(cut + "…", size, bold) > room:
        cut = cut[:-1]
    return cut.rstrip() + "…"
