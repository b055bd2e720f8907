"""The tape people measure with: rounding to its marks, and lengths shown as they are read off it.

Halves are rounded away from zero (7.5 marks become 8, -7.5 become -8), as a person at the bench would; a half that
misses by a thousand-millionth of a mark through binary arithmetic still counts as one. Rounding is for display:
nothing is computed further with a rounded length.
"""

from dataclasses import dataclass
from functools import cache
from math import ceil, floor, gcd
from types import MappingProxyType
from typing import TYPE_CHECKING

from .errors import MeasureError, shown

if TYPE_CHECKING:
    from fractions import Fraction

_TIE = 1e-9  # of a mark
_INCH = 25.4


@dataclass(frozen=True, slots=True)
class Tape:
    """A reading step: `name` as written, `step_mm`, and for inch tapes the `denominator` (0 on metric tapes)."""

    name: str
    step_mm: float
    denominator: int = 0

    @staticmethod
    def parse(text: str) -> "Tape":
        """Return the tape of a step such as `1/16 in`, `1/16"` or `0.5 mm`. Raises MeasureError for another step."""
        from .length import parse_length_exact  # here, so that who is handed a tape need not be able to read one

        accepted = ", ".join(TAPES)
        try:
            return _by_step()[parse_length_exact(text)]
        except (MeasureError, KeyError):
            raise MeasureError(
                f"Cannot take the tape step {shown(text)}. Accepted: {accepted}.",
                text=text[:40],
                accepted=accepted,
                code="unknown-tape",
            ) from None

    def marks(self, mm: float) -> int:
        """Return the number of the nearest mark; halves go away from zero."""
        count = floor(abs(mm) / self.step_mm + 0.5 + _TIE)
        return -count if mm < 0 else count

    def round(self, mm: float) -> float:
        """Return the length of the nearest mark, in mm."""
        return self.marks(mm) * self.step_mm

    def down(self, mm: float) -> float:
        """Return the length of the last mark that is not longer, in mm; for the largest piece that still fits."""
        return floor(mm / self.step_mm + _TIE) * self.step_mm

    def up(self, mm: float) -> float:
        """Return the length of the first mark that is not shorter, in mm."""
        return ceil(mm / self.step_mm - _TIE) * self.step_mm

    def error(self, mm: float) -> float:
        """Return the rounding error, rounded minus exact, in mm."""
        return self.round(mm) - mm

    def show(self, mm: float, *, feet: bool = False) -> str:
        """Return the length as read off the tape: `13 3/4"` or `349.5 mm`; with `feet`, `1' 1 3/4"`.

        What is shown is read back by `parse_length` to within half a step.
        """
        marks = self.marks(mm)
        sign = "-" if marks < 0 else ""
        marks = abs(marks)
        if not self.denominator:
            return f"{sign}{_decimal(marks * self.step_mm)} mm"
        inches, rest = divmod(marks, self.denominator)
        if feet and inches >= 12:
            return f"{sign}{inches // 12}' " + _inches(inches % 12, rest, self.denominator, after_feet=True)
        return sign + _inches(inches, rest, self.denominator)

    def show_with_error(self, mm: float, *, feet: bool = False) -> str:
        """Return `show` with the rounding error behind it: `13 3/4" (+0.3 mm)`; none where it is under 0.005 mm."""
        error = self.error(mm)
        size = floor(abs(error) * 100 + 0.5 + _TIE) / 100
        if not size:
            return self.show(mm, feet=feet)
        places = 2
        if size >= 0.05:
            size, places = floor(abs(error) * 10 + 0.5 + _TIE) / 10, 1
        return f"{self.show(mm, feet=feet)} ({'-' if error < 0 else '+'}{size:.{places}f} mm)"


def _inches(whole: int, marks: int, denominator: int, *, after_feet: bool = False) -> str:
    """Return whole inches and so many marks as text, the fraction in lowest terms; after feet also 0 whole inches."""
    if not marks:
        return f'{whole}"'
    common = gcd(marks, denominator)
    text = f'{marks // common}/{denominator // common}"'
    return f"{whole} {text}" if whole or after_feet else text


def _decimal(mm: float) -> str:
    """Return millimetres with at most one decimal and no idle zero."""
    return f"{mm:.1f}".removesuffix(".0")


TAPES = MappingProxyType(
    {
        tape.name: tape
        for tape in (
            *(Tape(f"1/{d} in", _INCH / d, d) for d in (8, 16, 32, 64)),
            Tape("1 mm", 1.0),
            Tape("0.5 mm", 0.5),
            Tape("0.1 mm", 0.1),
        )
    }
)


@cache
def _by_step() -> "MappingProxyType[Fraction, Tape]":
    """Return the tapes by their exact step in mm."""
    from .length import parse_length_exact

    return MappingProxyType({parse_length_exact(name): tape for name, tape in TAPES.items()})
