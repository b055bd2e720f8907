"""Lengths in a request: what is read, what is refused, and that the published pattern says the same as the grammar."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from contract.contract_helpers import FakeSeam, client_for, pointers
from scantling.api.schemas.length_text import MAX_TEXT, PATTERN, has_the_form
from scantling.measure import MeasureError, parse_length

# Printed in the tool's own trouble reports and worked by hand: 1 in = 25.4 mm exactly (NIST Handbook 44, Appendix C).
FORMS = [
    ("19", "mm", 19.0),
    (19, "mm", 19.0),
    ("19 mm", "in", 19.0),
    ("1.9 cm", "mm", 19.0),
    ("3/4 in", "mm", 19.05),
    ("3/4", "in", 19.05),
    (0.75, "in", 19.05),
    ('13 3/4"', "mm", 349.25),
    ("13-3/4 in", "mm", 349.25),
    ("1' 4-1/2\"", "mm", 419.1),
    ("4'-6\"", "mm", 1371.6),
    ("½ in", "mm", 12.7),
    ("1½ in", "mm", 38.1),
    ("1 ft 1-1/2 in", "mm", 342.9),
    ("10 3/8 IN.", "mm", 263.525),
    ("5' 3/4\"", "mm", 1543.05),
    ("4'2-1/4\"", "mm", 1276.35),
    ("50.125 in", "mm", 1273.175),
    ("1/2 in", "mm", 12.7),
    ("1.2 m", "mm", 1200.0),
    ("4’–6”", "mm", 1371.6),
]
REFUSED = [
    "",
    " ",
    "nan",
    "inf",
    "1e400",
    "1e3",
    "9**9**9 mm",
    "5' 3/4",
    "46085",
    "4-Mar",
    "04/03/26",
    "2026-03-04",
    "18,5 mm",
    "-3 mm",
    "1220x2440",
    "three",
    "19 mmm",
    "19\nmm",
    "19 mm\n",
    "3//4 in",
    "3/0 in",
    "1 5/4 in",
    "5' 13\"",
    "1" * 40,
]


@pytest.fixture(scope="module")
def asked():
    """Return a function that asks for a part of a length: the response, and what reached the seam."""
    seam = FakeSeam(nestings=lambda request: {"layouts": [], "unplaced": []})
    with client_for(seam) as client:

        def ask(length, units="mm"):
            seam.asked.clear()
            part = {"id": "a", "length": length}
            body = {"units": units, "parts": [part], "stock": [{"id": "s", "length": "2440 mm"}]}
            return client.post("/v1/nestings", json=body), seam.asked[0][1] if seam.asked else None

        yield ask


@pytest.mark.parametrize(("written", "units", "mm"), FORMS)
def test_lengths_reach_the_seam_in_millimetres(asked, written, units, mm):
    response, plain = asked(written, units)
    assert response.status_code == 200, response.text
    assert plain["parts"][0]["length"] == pytest.approx(mm, abs=1e-9)
    assert plain["stock"][0]["length"] == 2440.0


@pytest.mark.parametrize("written", REFUSED)
@pytest.mark.parametrize("units", ["mm", "in"])
def test_what_is_no_length_is_refused_with_its_place(asked, written, units):
    response, plain = asked(written, units)
    assert response.status_code == 422, (written, plain)
    assert list(pointers(response.json())) == ["#/parts/0/length"]


@pytest.mark.parametrize("written", [None, True, [], {}, 0, -1, 46085, 1e9, 20000.1])
def test_other_values_are_refused_too(asked, written):
    response, _ = asked(written)
    assert response.status_code == 422
    assert list(pointers(response.json())) == ["#/parts/0/length"]


def test_the_range_holds_after_the_unit(asked):
    assert pointers(asked(10_000, "in")[0].json()) == {"#/parts/0/length": "length-out-of-range"}
    assert pointers(asked("0.05 mm")[0].json()) == {"#/parts/0/length": "length-out-of-range"}
    assert pointers(asked("25 m")[0].json()) == {"#/parts/0/length": "length-out-of-range"}
    assert asked(787, "in")[0].status_code == 200


def test_a_refusal_says_what_would_be_accepted(asked):
    detail = asked("5' 3/4")[0].json()["errors"][0]["detail"]
    assert "5' 3/4\"" in detail and "character" in detail
    assert "spreadsheet" in asked(46085)[0].json()["errors"][0]["detail"]


@pytest.mark.parametrize(("written", "units", "mm"), [form for form in FORMS if isinstance(form[0], str)])
def test_the_published_pattern_lets_every_form_through(written, units, mm):
    assert has_the_form(written)


def _read(text):
    """Return the length in mm whatever unit a bare number has, or None where the grammar refuses it."""
    for unit in ("mm", "in"):
        try:
            return parse_length(text, unit)
        except MeasureError as error:
            code = error.code
    return None if code != "out-of-range" else float("inf")


@settings(max_examples=400, deadline=None, derandomize=True)
@given(st.from_regex(re.compile(PATTERN), fullmatch=True).filter(lambda text: len(text) <= MAX_TEXT))
def test_what_the_pattern_lets_through_is_read_or_its_parts_disagree(text):
    if _read(text) is not None:
        return
    fraction = re.search(r"([0-9]+)\s*[/⁄∕]\s*([0-9]+)", text)
    whole = fraction is not None and int(fraction[1]) >= int(fraction[2])
    feet = re.search(r"['′’‘ʹ]|[Ff][Tt]|[Ff][Oo][Oo][Tt]|[Ff][Ee][Ee][Tt]", text)
    assert whole or feet, text


@settings(max_examples=400, deadline=None, derandomize=True)
@given(st.text(alphabet="0123456789 ./-'\"½¼mcinft,eE+*x\n", max_size=14))
def test_what_the_pattern_stops_is_not_a_length_of_a_shop(text):
    value = _read(text)
    if value is None or has_the_form(text):
        return
    digits = max(len(run) for run in re.findall(r"[0-9]+", text))
    assert digits > 4 or text.strip().startswith(("+", "-")) or value == float("inf"), text
