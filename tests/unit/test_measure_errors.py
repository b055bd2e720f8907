"""Errors cross process borders whole and never come empty."""

import pickle

import pytest

from scantling.measure import MeasureError, RequestError, RequestProblem, parse_length


def test_a_request_error_is_pickled_whole():
    error = RequestError([RequestProblem("/modules/0", "no such module", "unknown-module")])
    again = pickle.loads(pickle.dumps(error))  # noqa: S301 - pickled in this very test
    assert again.errors == error.errors
    assert "/modules/0" in str(again)


def test_a_request_error_is_never_empty():
    with pytest.raises(ValueError, match="at least one"):
        RequestError([])


def test_a_measure_error_is_pickled_whole_and_can_be_placed():
    with pytest.raises(MeasureError) as caught:
        parse_length("5 Mm")
    again = pickle.loads(pickle.dumps(caught.value))  # noqa: S301 - pickled in this very test
    assert (again.message, again.position, again.code, again.text) == (
        caught.value.message,
        2,
        "unknown-unit",
        "5 Mm",
    )
    assert again.under("parts", 0, "length").at == ("parts", 0, "length")


def test_control_characters_are_not_echoed():
    with pytest.raises(MeasureError) as caught:
        parse_length("5\x1b[31m")
    assert "\x1b" not in caught.value.message
