"""Lengths: what is read, what is refused and where, and that nothing else ever comes out."""

import time
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from length_texts import written_lengths
from scantling.measure import MeasureError, hundredths, parse_length, parse_length_exact, snap, to_quantity

INCH = 25.4  # exact; NIST SP 811 (2008), appendix B.8

READ = [
    ("19", 19.0),
    ("19 mm", 19.0),
    ("19mm", 19.0),
    (" 19 mm ", 19.0),
    ("1.9 cm", 19.0),
    ("0.5 m", 500.0),
    (".75 in", 0.75 * INCH),
    ("3/4 in", 0.75 * INCH),
    ("1/2 in", 12.7),
    ('13 3/4"', 13.75 * INCH),
    ("13-3/4 in", 13.75 * INCH),
    ("13\u20113/4 in", 13.75 * INCH),  # non-breaking hyphen
    ("1' 4-1/2\"", 16.5 * INCH),
    ("4'-6\"", 54 * INCH),
    ("4' - 6\"", 54 * INCH),
    ("½ in", 12.7),
    ('13 ½"', 13.5 * INCH),
    ('13½"', 13.5 * INCH),
    ("1⁄2 in", 12.7),
    ("1 ft 1-1/2 in", 13.5 * INCH),
    ("10 3/8 IN.", 263.525),
    ("6 feet", 72 * INCH),
    ("2.5 ft", 30 * INCH),
    ("1/2 ft", 6 * INCH),
    ("5''", 5 * INCH),
    ("5′ 3/4″", 60.75 * INCH),
    ("5’ 3/4”", 60.75 * INCH),
    ("0 3/4 in", 0.75 * INCH),
    ("5/4 in", 1.25 * INCH),
    ("1/2 m", 500.0),
    ("19\u00a0mm", 19.0),  # no-break space
    ("0", 0.0),
    ("30 m", 30_000.0),
]


@pytest.mark.parametrize(("text", "mm"), READ)
def test_reads(text, mm):
    assert parse_length(text) == pytest.approx(mm, abs=1e-9)


# text, position counted from 0, code, and a piece of the sentence that must help
REFUSED = [
    ("", None, "empty", "empty"),
    ("   ", None, "empty", "empty"),
    ("nan", 0, "not-a-number", "not a number"),
    ("-inf", 0, "not-a-number", "not a number"),
    ("1e400", 1, "unreadable", "write the number out"),
    ("1e3 mm", 1, "unreadable", "write the number out"),
    ("9**9**9 mm", 1, "unreadable", "arithmetic"),
    ("2*3 mm", 1, "unreadable", "arithmetic"),
    ("5' 3/4", 6, "mark-missing", "5' 3/4\""),
    ("5'6", 3, "mark-missing", "mark"),
    ("5 Mm", 2, "unknown-unit", "write mm"),
    ("5 MM", 2, "unknown-unit", "write mm"),
    ("5 M", 2, "unknown-unit", "write m "),
    ("5 yd", 2, "unknown-unit", "mm, cm, m, in and ft"),
    ("5 µm", 2, "unknown-unit", "mm, cm, m, in and ft"),
    ("5 ın", 2, "unknown-unit", "mm, cm, m, in and ft"),  # dotless i
    ("3/4", 3, "unit-missing", "3/4 in"),
    ("13 ½", 4, "unit-missing", "3/4 in"),
    ("46085", 0, "spreadsheet-date", "format the column as text"),
    ("46085.0", 0, "spreadsheet-date", "format the column as text"),
    ("40000", 0, "spreadsheet-date", "format the column as text"),
    ("60000", 0, "spreadsheet-date", "format the column as text"),
    ("4-Mar", 0, "spreadsheet-date", "format the column as text"),
    ("Mar-04", 0, "spreadsheet-date", "format the column as text"),
    ("4. März", 0, "spreadsheet-date", "format the column as text"),
    ("2026-03-04", 0, "spreadsheet-date", "format the column as text"),
    ("2026-03-04 00:00:00", 0, "spreadsheet-date", "format the column as text"),
    ("04/03/26", 0, "spreadsheet-date", "format the column as text"),
    ("3/4/2026", 0, "spreadsheet-date", "format the column as text"),
    ("04.03.2026", 0, "spreadsheet-date", "format the column as text"),
    ("04/03", 0, "spreadsheet-date", "format the column as text"),
    ("1" * 33, 32, "too-long", "33 characters"),
    ("-5", 0, "negative", "below zero"),
    ("-13 3/4 in", 0, "negative", "below zero"),
    ("18,5 mm", 2, "unreadable", "declared"),
    ("1,220", 1, "unreadable", "thousands"),
    ("1 220 mm", 2, "unreadable", "side by side"),
    ("13 - 3/4 in", 3, "unreadable", "hyphen"),
    ("5-3", 1, "unreadable", "hyphen"),
    ("1/0 in", 2, "unreadable", "divided by zero"),
    ("1 5/4 in", 2, "unreadable", "less than 1"),
    ("1' 14\"", 0, "unreadable", "less than 12"),
    ("1.5' 3\"", 0, "unreadable", "whole feet"),
    ("5 in 3", 5, "unreadable", "follow the unit"),
    ("5 mm mm", 5, "unreadable", "follow the unit"),
    ("1' 2' 3\"", 4, "unreadable", "twice"),
    ("1' 30 mm", 6, "unreadable", "metric"),
    ("mm", 0, "unreadable", "number is missing"),
    ("'", 0, "unreadable", "number is missing"),
    ("5.", 1, "unreadable", "digits after"),
    ("3/", 1, "unreadable", "both sides"),
    ("3 / 4 in", 2, "unreadable", "both sides"),
    ("1220x2440", 4, "unreadable", "one length at a time"),
    ("½½", 1, "unreadable", "follow the ½"),
    ("13½0 in", 3, "unreadable", "follow the ½"),
    ("+", 0, "unreadable", "number is missing"),
    ("-", 0, "unreadable", "number is missing"),
    ("1_000", 1, "unreadable", "no place"),
    ("٣ mm", 0, "unreadable", "0 to 9"),
    ("  5 Mm", 4, "unknown-unit", "write mm"),  # positions count the leading spaces
    ("30.01 m", None, "out-of-range", "30 m"),
    ("46085 mm", None, "out-of-range", "30 m"),
    ("99 ft", None, "out-of-range", "30 m"),
    ("\x00", 0, "unreadable", "no place"),
]


@pytest.mark.parametrize(("text", "position", "code", "help_"), REFUSED)
def test_refuses_with_place_and_help(text, position, code, help_):
    with pytest.raises(MeasureError) as caught:
        parse_length(text)
    error = caught.value
    assert (error.position, error.code) == (position, code)
    assert help_ in error.message
    assert "13 3/4" in error.accepted
    if position is not None and code not in {"unit-missing", "negative", "too-long", "spreadsheet-date"}:
        assert f"at character {position + 1}" in error.message


@pytest.mark.parametrize(
    "value",
    [True, False, None, float("nan"), float("inf"), 10**400, 46085, 46085.0, -1, -0.5, 30_001, [], {}, b"5", 3j],
)
def test_refuses_values_that_are_no_length(value):
    with pytest.raises(MeasureError):
        parse_length(value)


def test_a_bare_number_is_in_the_declared_unit():
    assert parse_length("3/4", "in") == 19.05
    assert parse_length("13 3/4", "in") == 349.25
    assert parse_length("2", "ft") == 609.6
    assert parse_length(30, "in") == 762.0
    assert parse_length("19 mm", "in") == 19.0
    with pytest.raises(MeasureError, match="spreadsheet"):
        parse_length("46085", "in")
    with pytest.raises(ValueError, match="unit must be"):
        parse_length("19", "yd")


def test_a_decimal_comma_is_read_only_where_declared():
    assert parse_length("18,5 mm", decimal_comma=True) == 18.5
    assert parse_length("10 3/8 in.", decimal_comma=True) == 263.525
    for text in ("18.5 mm", "1.220", "1,5,5", ",5 mm,"):
        with pytest.raises(MeasureError):
            parse_length(text, decimal_comma=True)


def test_below_zero_is_read_only_where_asked_for():
    assert parse_length("-13 3/4 in", signed=True) == -349.25
    assert parse_length("−5", signed=True) == -5.0
    assert parse_length(-5, signed=True) == -5.0
    assert parse_length("-1' 6\"", signed=True) == -18 * INCH


@given(written_lengths())
def test_reads_exactly_what_was_built(pair):
    text, mm = pair
    if len(text) <= 32 and mm <= 30_000:
        assert parse_length_exact(text) == mm
        assert parse_length(text) == float(mm)


MARKS = "0123456789/ -.,'\"½¾′″infmctINF*eE:+()"


@given(st.one_of(st.text(max_size=40), st.text(MARKS, max_size=34)), st.sampled_from(["mm", "in"]), st.booleans())
def test_any_text_is_a_length_or_a_measure_error(text, unit, comma):
    try:
        mm = parse_length(text, unit, decimal_comma=comma)
    except MeasureError as error:
        assert error.message
        assert error.accepted
        assert error.position is None or 0 <= error.position <= len(text)
    else:
        assert 0.0 <= mm <= 30_000.0


@given(st.one_of(st.integers(), st.floats(), st.booleans(), st.none(), st.lists(st.integers()), st.binary()))
def test_any_other_value_is_a_length_or_a_measure_error(value):
    try:
        mm = parse_length(value)
    except MeasureError as error:
        assert error.message
    else:
        assert mm == value
        assert 0.0 <= mm <= 30_000.0


HOSTILE = [
    "9**9**9 mm",
    "9" * 32,
    " " * 32,
    "1 " * 16,
    "1/" * 16,
    "-" * 32,
    "'" * 32,
    "½" * 32,
    "0." * 16,
    "9" * 3_000_000,
    " " * 3_000_000,
    "1/1" * 1_000_000,
    "janv" * 8,
    "1" + " " * 30 + "x",
]


@pytest.mark.parametrize("text", HOSTILE, ids=[f"{t[:6]}x{len(t)}" for t in HOSTILE])
def test_hostile_text_is_refused_at_once(text):
    """A hundred times the 50 µs it takes here; a parser that backtracks would need seconds."""
    best = 1.0
    for _ in range(3):
        start = time.perf_counter()
        with pytest.raises(MeasureError):
            parse_length(text)
        best = min(best, time.perf_counter() - start)
    assert best < 0.005


@pytest.mark.parametrize("text", ["18.5 mm", "3/4 in", "0.75 in", "6 feet", "1.9 cm", "0.5 m", "2 ft"])
def test_agrees_with_pint_where_pint_reads_right(text):
    expected = pint.UnitRegistry().Quantity(text).to("mm").magnitude
    assert parse_length(text) == pytest.approx(expected, rel=1e-12)


def test_quantities_are_taken_at_the_border():
    units = pint.UnitRegistry()
    assert parse_length(units.Quantity(0.75, "inch")) == pytest.approx(19.05)
    assert parse_length(units.Quantity(46.085, "m") / 2) == pytest.approx(23_042.5)
    assert to_quantity(25.4).to("inch").magnitude == pytest.approx(1.0)
    for bad in (units.Quantity(1, "kg"), units.Quantity(float("nan"), "m"), units.Quantity(-1, "m")):
        with pytest.raises(MeasureError):
            parse_length(bad)


def test_snapping_is_to_a_hundredth_and_away_from_zero():
    assert snap(18.25625) == 18.26
    assert snap(0.005) == 0.01
    assert snap(-0.005) == -0.01
    assert snap(1.005) == 1.01  # 1.005 is stored a little below the half
    assert hundredths(3.175) == 318
    assert str(snap(-0.001)) == "0.0"


@given(st.floats(-30_000, 30_000))
def test_snapping_moves_by_at_most_half_a_hundredth_and_stays(mm):
    assert abs(snap(mm) - mm) <= 0.005 + 1e-8
    assert snap(snap(mm)) == snap(mm)
    assert Fraction(hundredths(mm), 100) == Fraction(str(snap(mm)))
