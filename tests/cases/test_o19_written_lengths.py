"""Case: lengths that general-purpose parsers got wrong, from public issue trackers
(rafelafrance/traiter 8, olbrich/ruby-units 276, wolph/alfred-converter 18, hgrecco/pint 329).

A text parser read `10 3/8 IN.` as 10; a units library read `5' 3/4"` as three quarters of an inch; another refuses
`1/2 in`.
"""

import pytest

from scantling.measure import TAPES, MeasureError, parse_length


@pytest.mark.parametrize(
    ("text", "inches"),
    [("10 3/8 IN.", 10.375), ("5' 3/4\"", 60.75), ("4'2-1/4\"", 50.25), ("1/2 in", 0.5), ("50.125 in", 50.125)],
)
def test_read_right(text, inches):
    assert parse_length(text) == pytest.approx(inches * 25.4, abs=1e-9)


def test_in_millimetres():
    assert parse_length("10 3/8 IN.") == 263.525
    assert parse_length("1/2 in") == 12.7


def test_shown_in_feet_and_inches():
    assert TAPES["1/16 in"].show(parse_length("50.125 in"), feet=True) == "4' 2 1/8\""
    assert parse_length("4'2-1/8\"") == pytest.approx(50.125 * 25.4)


def test_without_its_mark_it_is_refused():
    with pytest.raises(MeasureError, match="mark"):
        parse_length("5' 3/4")
