"""The units a take-off counts and measures in, and how a pack in one unit fills a need in another.

Exact by definition: 1 in = 25.4 mm, 1 US gallon = 231 in3, 1 lb = 453.59237 g (NIST Handbook 44, Appendix C);
1 board foot = 144 in3.
"""

from fractions import Fraction

from .nouns import Kind

COUNTED = ("piece", "sheet", "board", "pair", "set", "roll", "lot", "h")

_INCH = Fraction("25.4")
_LITRE = {
    "mL": Fraction(1),
    "L": Fraction(1000),
    "fl oz": _INCH**3 * 231 / 128 / 1000,
    "qt": _INCH**3 * 231 / 4 / 1000,
    "gal": _INCH**3 * 231 / 1000,
}
_GRAM = {"g": Fraction(1), "kg": Fraction(1000), "oz": Fraction("453.59237") / 16, "lb": Fraction("453.59237")}
_GROUPS = {
    "length": {"mm": Fraction(1), "m": Fraction(1000), "in": _INCH, "ft": 12 * _INCH},
    "area": {"m2": Fraction(10**6), "ft2": (12 * _INCH) ** 2},
    "timber": {"bf": 144 * _INCH**3, "m3": Fraction(10**9)},
    "liquid": _LITRE,
    "mass": _GRAM,
}
_GROUP_OF = {unit: group for group, units in _GROUPS.items() for unit in units}
UNITS = (*COUNTED[:-1], *_GROUP_OF)


def in_unit(quantity: Fraction, unit: str, wanted: str, kind: Kind = Kind.OTHER) -> Fraction | None:
    """Return a quantity in the wanted unit, or None where the two do not measure the same thing.

    Glue counts 1 mL as 1 g: wood glues are a little heavier than water, so a bottle holds rather more than that.
    """
    if unit == wanted:
        return quantity
    group, other = _GROUP_OF.get(unit), _GROUP_OF.get(wanted)
    if group is None or other is None:
        return None
    if group != other and not (kind is Kind.GLUE and {group, other} == {"liquid", "mass"}):
        return None
    return quantity * _GROUPS[group][unit] / _GROUPS[other][wanted]
