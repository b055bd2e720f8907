"""Money: exact ten-thousandths, decimal text only."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.measure import (
    MeasureError,
    parse_currency,
    parse_money,
    plain_money,
    round_to_cent,
    show_money,
)


@pytest.mark.parametrize(
    ("text", "amount"),
    [("62.00", 620_000), ("62", 620_000), ("0.0125", 125), ("0.1", 1_000), ("0", 0), (" 9.25 ", 92_500), ("-0.00", 0)],
)
def test_reads(text, amount):
    assert parse_money(text) == amount


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("0.01255", "too-many-places"),
        ("1,50", "unreadable"),
        ("1,000.00", "unreadable"),
        ("$5", "unreadable"),
        ("5 USD", "unreadable"),
        ("5.", "unreadable"),
        (".5", "unreadable"),
        ("", "empty"),
        ("1e5", "unreadable"),
        ("nan", "unreadable"),
        ("1.2.3", "unreadable"),
        ("٣", "unreadable"),
        ("-1", "negative"),
        ("9" * 13, "unreadable"),
        ("9" * 1000, "too-long"),
        (62, "wrong-type"),
        (62.5, "wrong-type"),
        (True, "wrong-type"),
        (None, "wrong-type"),
    ],
)
def test_refuses(text, code):
    with pytest.raises(MeasureError) as caught:
        parse_money(text)
    assert caught.value.code == code
    assert "decimal point" in caught.value.accepted


def test_fewer_places_and_signs_where_asked_for():
    assert parse_money("-1.50", signed=True) == -15_000
    assert parse_money("1.50", places=2) == 15_000
    with pytest.raises(MeasureError) as caught:
        parse_money("1.505", places=2)
    assert caught.value.position == 4
    with pytest.raises(ValueError, match="places"):
        parse_money("1", places=5)


def test_shown_rounded_to_the_cent_halves_away_from_zero():
    assert show_money(7_308_135, "USD") == "730.81 USD"
    assert show_money(7_308_150, "USD") == "730.82 USD"
    assert show_money(-50, "EUR") == "-0.01 EUR"
    assert show_money(49, "EUR") == "0.00 EUR"


@given(st.integers(-(10**15), 10**15))
def test_plain_money_reads_back_and_rounds_like_decimal(amount):
    assert parse_money(plain_money(amount), signed=True) == amount
    cents = (Decimal(amount) / 10_000).quantize(Decimal("0.01"), ROUND_HALF_UP)
    assert Decimal(round_to_cent(amount)) / 10_000 == cents


@given(st.decimals(0, 10**9, places=4))
def test_reads_what_decimal_reads(value):
    assert Decimal(parse_money(f"{value:f}")) / 10_000 == value


@given(st.text(max_size=30))
def test_any_text_is_money_or_a_measure_error(text):
    try:
        parse_money(text)
    except MeasureError as error:
        assert error.message


def test_currency():
    assert parse_currency("USD") == "USD"
    for bad in ("usd", "US", "$", "", None, "USDX", "U$D"):
        with pytest.raises(MeasureError):
            parse_currency(bad)
