"""Ids: printable, short, and no spreadsheet formula."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.measure import ID_PATTERN, MeasureError, parse_id, pointer, repeated_ids


@pytest.mark.parametrize("value", ["side", "north bench", "A-1", "Füße", "棚板", "x" * 64, "1", "(left)", "a=b"])
def test_taken(value):
    assert parse_id(value) == value


@pytest.mark.parametrize(
    "value",
    [
        *(
            "",
            "x" * 65,
            "=1+1",
            "+x",
            "-x",
            "@x",
            "'x",
            '"x',
            "“x",
            " x",
            "a\nb",
            "a\x00",
            "a\u202eb",
            "\ud800",
            "a\ud800",
        ),
        *(None, 5, True, ["a"]),
    ],
)
def test_refused(value):
    with pytest.raises(MeasureError) as caught:
        parse_id(value)
    assert caught.value.code == "bad-id"


@given(st.text(max_size=70))
def test_the_pattern_says_the_same_as_the_function(value):
    """`$` of Python also matches before a last newline, which the pattern itself forbids."""
    surrogate = any("\ud800" <= c <= "\udfff" for c in value)
    try:
        parse_id(value)
        taken = True
    except MeasureError:
        taken = False
    assert taken == (re.search(ID_PATTERN, value) is not None and not value.endswith("\n") and not surrogate)


def test_a_repeated_id_points_at_the_later_one():
    problems = repeated_ids(["a", "b", "a"], "parts")
    assert [p.pointer for p in problems] == ["/parts/2/id"]
    assert "/parts/0" in problems[0].detail
    assert not repeated_ids(["a", "b"], "parts")


def test_pointer_is_rfc_6901():
    """The escapes of RFC 6901 section 5 (examples a/b, m~n, the empty key) and section 3."""
    assert pointer() == ""
    assert pointer("foo", 0) == "/foo/0"
    assert pointer("") == "/"
    assert pointer("a/b") == "/a~1b"
    assert pointer("m~n") == "/m~0n"
    assert pointer("~1") == "/~01"
