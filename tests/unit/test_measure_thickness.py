"""Thickness: one reading, several, or an assumed range."""

import pytest

from scantling.measure import MeasureError, Thickness, parse_thickness


def test_a_single_length_is_measured():
    assert parse_thickness(17.6) == Thickness(17.6, 17.6, 17.6, "measured")
    assert parse_thickness("23/32 in") == Thickness(18.26, 18.26, 18.26, "measured")
    assert parse_thickness("23/32", "in").typical == 18.26


def test_readings_keep_their_spread():
    one = parse_thickness([17.6, "17.4 mm", 18.1])
    assert (one.least, one.most, one.typical, one.status) == (17.4, 18.1, 17.6, "measured")
    assert one.spread == pytest.approx(0.7)
    assert not one.assumed
    assert parse_thickness([17.0, 18.0, 18.2, 19.0]).typical == 18.1


def test_a_range_may_be_assumed():
    one = parse_thickness({"status": "assumed", "least": "0.688 in", "most": "0.750 in"})
    assert one.assumed
    assert (one.least, one.most) == (17.48, 19.05)
    assert one.typical == pytest.approx(18.265, abs=0.01)
    assert not parse_thickness({"status": "measured", "least": 17, "most": 18}).assumed


@pytest.mark.parametrize(
    ("value", "at", "says"),
    [
        (46085, (), "spreadsheet"),
        ("46085", (), "spreadsheet"),
        ("4-Mar", (), "spreadsheet"),
        ([18, 46085], (1,), "spreadsheet"),
        ({"status": "assumed", "least": 17, "most": "4-Mar"}, ("most",), "spreadsheet"),
        (0, (), "more than zero"),
        (-18, (), "below zero"),
        (306, (), "thicker"),
        ("2440 mm", (), "thicker"),
        ([], (), "readings"),
        ([18] * 101, (), "readings"),
        ([True], (0,), "neither a number nor a text"),
        ({}, (), "status"),
        ({"status": "assumed", "least": 17}, (), "most"),
        ({"status": "guessed", "least": 17, "most": 18}, ("status",), "assumed"),
        ({"status": ["assumed"], "least": 17, "most": 18}, ("status",), "assumed"),
        ({"status": "assumed", "least": 19, "most": 18}, ("least",), "more than most"),
        ({"status": "assumed", "least": 17, "most": 18, "typical": 17}, ("typical",), "not known"),
        (None, (), "neither"),
    ],
)
def test_refused_with_the_way_to_the_member(value, at, says):
    with pytest.raises(MeasureError) as caught:
        parse_thickness(value)
    assert caught.value.at == at
    assert says in caught.value.message
