"""Angles: degrees, minutes, and rise over run."""

from math import atan, degrees

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.measure import MeasureError, Tape, parse_angle, rise, rise_over_run


@pytest.mark.parametrize(
    ("value", "deg"),
    [
        (12.5, 12.5),
        (-8, -8.0),
        ("12.5", 12.5),
        ("12.5°", 12.5),
        ("12.5 °", 12.5),
        ("-4 deg", -4.0),
        ("22 degrees", 22.0),
        ("22° 30'", 22.5),
        ("22°30′", 22.5),
        ("1 in 4", degrees(atan(1 / 4))),
        ("1:4", degrees(atan(1 / 4))),
        ("0.5 : 4", degrees(atan(1 / 8))),
        ("105 mm in 600 mm", degrees(atan(105 / 600))),
        ("4 1/8 in in 24 in", degrees(atan(4.125 / 24))),
        ('1 1/2" in 12"', degrees(atan(1.5 / 12))),
        ("10 cm : 1 m", degrees(atan(0.1))),
    ],
)
def test_reads(value, deg):
    assert parse_angle(value) == pytest.approx(deg, abs=1e-12)


@pytest.mark.parametrize(
    "value",
    [
        *(
            "",
            "nan",
            "steep",
            "1/4",
            "1 in",
            "in 4",
            "1 in 0",
            "1 in 4 in",
            "1 mm in 4",
            "12,5",
            "22° 75'",
            "400",
            "-361",
        ),
        *(400, float("nan"), float("inf"), 10**400, True, None, [], "1:" * 30, "9**9**9", "12.5.1", "1 in 4 in 5"),
    ],
)
def test_refuses(value):
    with pytest.raises(MeasureError) as caught:
        parse_angle(value)
    assert "1 in 4" in caught.value.accepted


def test_a_decimal_comma_only_where_declared():
    assert parse_angle("12,5°", decimal_comma=True) == 12.5
    assert parse_angle("1,5 in 12", decimal_comma=True) == pytest.approx(7.125016348901798)
    with pytest.raises(MeasureError):
        parse_angle("12.5°", decimal_comma=True)


def test_quantities_are_taken():
    units = pint.UnitRegistry()
    assert parse_angle(units.Quantity(0.5, "radian")) == pytest.approx(degrees(0.5))
    with pytest.raises(MeasureError):
        parse_angle(units.Quantity(0.5, "metre"))


def test_shown_as_rise_over_run():
    assert rise_over_run(degrees(atan(105 / 600))) == "105 mm in 600 mm"
    assert rise_over_run(10.0, 609.6, Tape.parse("1/16 in")) == '4 1/4" in 24"'
    assert rise(45.0, 600.0) == pytest.approx(600.0)
    with pytest.raises(ValueError, match=r"89\.9"):
        rise(90.0, 600.0)


@given(st.floats(0, 80))
def test_rise_over_run_reads_back(deg):
    text = rise_over_run(deg, 600.0, Tape.parse("0.1 mm"))
    assert parse_angle(text) == pytest.approx(deg, abs=0.006)


@given(st.one_of(st.text(max_size=60), st.text("0123456789 in:.°'m\"/-", max_size=50)))
def test_any_text_is_an_angle_or_a_measure_error(text):
    try:
        angle = parse_angle(text)
    except MeasureError as error:
        assert error.message
    else:
        assert -360 <= angle <= 360
