"""The tape: nearest mark, halves away from zero, and text that reads back."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.measure import TAPES, MeasureError, Tape, parse_length


def test_the_steps_of_the_tapes():
    assert {t.name: t.step_mm for t in TAPES.values()} == {
        "1/8 in": 3.175,
        "1/16 in": 1.5875,
        "1/32 in": 0.79375,
        "1/64 in": 0.396875,
        "1 mm": 1.0,
        "0.5 mm": 0.5,
        "0.1 mm": 0.1,
    }


@pytest.mark.parametrize("text", ["1/16 in", '1/16"', "1/16 IN.", "2/32 in"])
def test_a_tape_may_be_written_in_any_form(text):
    assert Tape.parse(text) is TAPES["1/16 in"]


@pytest.mark.parametrize("text", ["1/3 in", "2 mm", "0 mm", "", "abc", "1/16"])
def test_another_step_is_refused_with_the_list(text):
    with pytest.raises(MeasureError, match="1/64 in") as caught:
        Tape.parse(text)
    assert caught.value.code == "unknown-tape"


@pytest.mark.parametrize(
    ("tape", "mm", "shown"),
    [
        ("1/16 in", 349.25, '13 3/4"'),
        ("1/16 in", 0.0, '0"'),
        ("1/16 in", 25.4, '1"'),
        ("1/16 in", 12.7, '1/2"'),
        ("1/16 in", -12.7, '-1/2"'),
        ("1/16 in", -0.1, '0"'),
        ("1/32 in", 404.01875, '15 29/32"'),
        ("1/64 in", 0.396875, '1/64"'),
        ("0.5 mm", 349.5, "349.5 mm"),
        ("0.5 mm", 349.26, "349.5 mm"),
        ("1 mm", 349.26, "349 mm"),
        ("0.1 mm", 349.26, "349.3 mm"),
        ("0.5 mm", -349.26, "-349.5 mm"),
        ("0.1 mm", -0.01, "0 mm"),
        # halves go away from zero
        ("1/16 in", 25.4 / 32, '1/16"'),
        ("1/16 in", -25.4 / 32, '-1/16"'),
        ("1 mm", 7.5, "8 mm"),
        ("1 mm", 8.5, "9 mm"),
        ("1 mm", -7.5, "-8 mm"),
        ("0.1 mm", 0.35, "0.4 mm"),  # 0.35 is stored a little below the half
    ],
)
def test_shows(tape, mm, shown):
    assert TAPES[tape].show(mm) == shown


def test_feet_only_when_asked_for():
    tape = TAPES["1/16 in"]
    assert tape.show(54 * 25.4) == '54"'
    assert tape.show(54 * 25.4, feet=True) == "4' 6\""
    assert tape.show(60.75 * 25.4, feet=True) == "5' 0 3/4\""
    assert tape.show(11 * 25.4, feet=True) == '11"'


def test_the_rounding_error_is_shown():
    tape = TAPES["1/16 in"]
    assert tape.error(349.0) == pytest.approx(0.25)
    assert tape.show_with_error(349.0) == '13 3/4" (+0.3 mm)'
    assert tape.show_with_error(349.5) == '13 3/4" (-0.3 mm)'
    assert tape.show_with_error(349.05) == '13 3/4" (+0.2 mm)'
    assert tape.show_with_error(349.25) == '13 3/4"'
    assert TAPES["0.1 mm"].show_with_error(349.27) == "349.3 mm (+0.03 mm)"


@given(st.sampled_from(sorted(TAPES)), st.floats(-29_000, 29_000), st.booleans())
def test_what_is_shown_reads_back_to_within_half_a_step(name, mm, feet):
    tape = TAPES[name]
    text = tape.show(mm, feet=feet)
    assert abs(parse_length(text, signed=True) - mm) <= tape.step_mm / 2 * (1 + 1e-6)


@given(st.sampled_from(sorted(TAPES)), st.floats(0, 29_000))
def test_rounding_finds_the_nearest_mark(name, mm):
    """Against exact arithmetic on the same binary number."""
    tape = TAPES[name]
    step = Fraction(254, 10) / tape.denominator if tape.denominator else Fraction(str(tape.step_mm))
    exact = Fraction(mm) / step
    nearest = min((abs(exact - n), -n) for n in (int(exact), int(exact) + 1))
    slack = abs(abs(exact - tape.marks(mm)) - nearest[0])
    assert slack <= Fraction(1, 10**8)
    assert tape.down(mm) <= mm + tape.step_mm * 1e-8
    assert tape.up(mm) >= mm - tape.step_mm * 1e-8
    assert 0 <= tape.up(mm) - tape.down(mm) <= tape.step_mm * (1 + 1e-8)
