"""Figures for a spreadsheet cell: text, CSV and JSON, errors that fit in a cell, decimal commas."""

import pytest

from contract.contract_helpers import assert_problem
from scantling.api.schemas.examples import FIGURE_QUERIES
from scantling.measure.figures import FIGURES

BOARD = {"thickness": "1", "width": "6", "length": "8"}


def test_a_cell_gets_one_bare_number(client):
    """A board foot is 144 cubic inches (NIST Handbook 44, Appendix C): 1 in x 6 in x 8 ft is four of them."""
    response = client.get("/v1/figures/board-feet", params=BOARD | {"format": "text"})
    assert response.headers["content-type"] == "text/plain; charset=utf-8"
    assert response.text == "4"


def test_accept_text_is_the_same(client):
    response = client.get("/v1/figures/board-feet", params=BOARD, headers={"accept": "text/plain"})
    assert response.text == "4"
    assert response.headers["vary"].startswith("Accept")


def test_the_table_behind_it_comes_as_csv(client):
    response = client.get("/v1/figures/board-feet", params=BOARD | {"quantity": "5", "format": "csv"})
    assert response.content.split(b"\r\n")[:2] == [b"what,value,unit,text", b"all,20,bf,20.00 board feet"]


def test_a_hexagon_is_cut_at_thirty_degrees(client):
    """A frame of n sides lying flat has mitres of 180/n degrees; a box standing upright has bevels of 180/n."""
    ask = {"sides": "6", "slope": "0", "slope_from": "flat", "format": "text"}
    assert float(client.get("/v1/figures/mitre-and-bevel", params=ask).text) == pytest.approx(30.0)
    ask = {"sides": "6", "slope": "0", "slope_from": "upright"}
    answer = client.get("/v1/figures/mitre-and-bevel", params=ask).json()
    assert {row["what"]: row["value"] for row in answer["rows"]}["bevel"] == pytest.approx(30.0)


def test_a_comma_locale_gets_commas_and_semicolons(client):
    """Calc in a comma locale reads 60.325 as 60325: a number in text must carry the locale's own mark."""
    ask = {"angle": "12,5", "run": "600", "decimal": ",", "sep": ";"}
    text = client.get("/v1/figures/lean", params=ask | {"format": "text"}).text
    assert "," in text and "." not in text
    assert float(text.replace(",", ".")) == pytest.approx(133.017, abs=0.001)  # 600 tan 12.5 degrees
    lines = client.get("/v1/figures/lean", params=ask | {"format": "csv"}).text.splitlines()
    assert lines[0] == "what;value;unit;text"
    assert lines[1].split(";")[1].startswith("133,")


def test_units_say_what_bare_lengths_are(client):
    ask = {"length": "24", "width": "12", "quantity": "16", "units": "in", "format": "text"}
    assert client.get("/v1/figures/sheets-needed", params=ask).text == "2"


@pytest.mark.parametrize(
    ("query", "code"),
    [
        ({"thickness": "1", "width": "6"}, "missing-member"),
        (BOARD | {"colour": "red"}, "unknown-member"),
        (BOARD | {"width": "46085"}, "spreadsheet-date"),
        (BOARD | {"width": "4-Mar"}, "spreadsheet-date"),
        (BOARD | {"quantity": "0"}, "value-out-of-range"),
        (BOARD | {"quantity": "many"}, "out-of-range"),
        (BOARD | {"width": "9**9**9"}, "bad-text"),
        (BOARD | {"units": "cubits"}, "not-one-of"),
    ],
)
def test_a_bad_value_is_named(client, query, code):
    problem = assert_problem(client.get("/v1/figures/board-feet", params=query), 422, "invalid-request")
    assert [entry["code"] for entry in problem["errors"]] == [code]
    assert problem["errors"][0]["in"] == "query"


@pytest.mark.parametrize(
    ("path", "query", "text"),
    [
        ("board-feet", {"thickness": "1"}, "ERROR missing-member: "),
        ("board-feet", BOARD | {"width": "4-Mar"}, "ERROR spreadsheet-date: "),
        ("board-feet", BOARD | {"format": "xml"}, "ERROR not-one-of: "),
        ("nothing", {}, "ERROR not-found: "),
        ("sheets-needed", {"length": "3000", "width": "300"}, "ERROR values-do-not-go-together: "),
    ],
)
def test_in_a_cell_an_error_is_text_with_status_200(client, path, query, text):
    response = client.get(f"/v1/figures/{path}", params=query | {"errors": "inline"})
    assert response.status_code == 200
    assert response.headers["content-type"].startswith("text/plain")
    assert response.headers["cache-control"] == "no-store"
    assert response.text.startswith(text)
    assert "\n" not in response.text


def test_inline_is_for_figures_only(client):
    assert_problem(client.get("/v1/tables/nothing?errors=inline"), 404, "not-found")


def test_a_harmless_value_makes_a_cell_ask_anew(client):
    assert client.get("/v1/figures/board-feet", params=BOARD | {"fresh": "2", "format": "text"}).text == "4"


@pytest.mark.parametrize("name", sorted(FIGURES))
def test_the_address_of_every_figure_fits_a_cell(client, name):
    """A cell's address may have 2,048 characters in the most limited of the common spreadsheets."""
    query = FIGURE_QUERIES[name] | {"format": "text", "errors": "inline"}
    response = client.get(f"/v1/figures/{name}", params=query)
    assert float(response.text) == pytest.approx(
        client.get(f"/v1/figures/{name}", params=FIGURE_QUERIES[name]).json()["value"]
    )
    assert len(str(response.request.url)) < 300
