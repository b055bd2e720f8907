"""Strategies for written lengths: texts built piece by piece together with what they are worth."""

from fractions import Fraction

from hypothesis import strategies as st

INCH = Fraction(254, 10)
VULGAR = {"½": Fraction(1, 2), "¼": Fraction(1, 4), "¾": Fraction(3, 4), "⅛": Fraction(1, 8), "⅝": Fraction(5, 8)}


@st.composite
def proper_fractions(draw):
    """A fraction below 1 as a tape has it: its text and its value."""
    bottom = draw(st.sampled_from([2, 4, 8, 16, 32, 64]))
    top = draw(st.integers(1, bottom - 1))
    return f"{top}/{bottom}", Fraction(top, bottom)


@st.composite
def decimals(draw, most=999):
    """A decimal number: its text and its value."""
    whole = draw(st.integers(0, most))
    after = draw(st.text("0123456789", max_size=3))
    return (f"{whole}.{after}" if after else str(whole)), Fraction(f"{whole}.{after or 0}")


@st.composite
def inch_numbers(draw, most=300):
    """A number as inches are written: decimal, fraction, or whole number with fraction."""
    kind = draw(st.sampled_from(["decimal", "fraction", "mixed", "vulgar"]))
    if kind == "decimal":
        return draw(decimals(most=most - 1))
    text, value = draw(proper_fractions())
    if kind == "fraction":
        return text, value
    whole = draw(st.integers(0, most - 1))
    if kind == "mixed":
        return f"{whole}{draw(st.sampled_from([' ', '-', '  ']))}{text}", whole + value
    sign = draw(st.sampled_from(sorted(VULGAR)))
    return f"{whole}{draw(st.sampled_from(['', ' ', '-']))}{sign}", whole + VULGAR[sign]


@st.composite
def written_lengths(draw):
    """A length with its unit written: (text, exact millimetres)."""
    kind = draw(st.sampled_from(["metric", "inch", "foot", "feet and inches"]))
    gap = draw(st.sampled_from(["", " "]))
    if kind == "metric":
        unit, worth = draw(st.sampled_from([("mm", 1), ("cm", 10), ("m", 1000)]))
        text, value = draw(decimals(most=29 if unit == "m" else 999))
        return f"{text}{gap}{unit}", value * worth
    inch = draw(st.sampled_from(["in", "IN.", "in.", "inch", "inches", '"', "″", "”", "''"]))
    if kind == "inch":
        text, value = draw(inch_numbers())
        return f"{text}{gap}{inch}", value * INCH
    foot = draw(st.sampled_from(["ft", "FT", "ft.", "foot", "feet", "'", "′", "’"]))
    if kind == "foot":
        text, value = draw(inch_numbers(most=90))
        return f"{text}{gap}{foot}", value * 12 * INCH
    feet = draw(st.integers(0, 97))
    text, value = draw(inch_numbers(most=12))
    between = draw(st.sampled_from([" ", "-", "", " - "]))
    return f"{feet}{gap}{foot}{between}{text}{gap}{inch}", (feet * 12 + value) * INCH
