"""Which representation is answered, and what a CSV looks like when a spreadsheet opens it."""

import csv
import io

import pytest

from contract.contract_helpers import FakeSeam, client_for
from scantling.api.csvtable import cell, write
from scantling.api.negotiate import choose
from scantling.api.problems import Problem

NESTING = {"parts": [{"id": "a", "length": 300, "width": 200}], "stock": [{"id": "s", "length": 2440, "width": 1220}]}
BOTH = ("json", "csv")


@pytest.mark.parametrize(
    ("accept", "chosen"),
    [
        (None, "json"),
        ("", "json"),
        ("*/*", "json"),
        ("application/json", "json"),
        ("text/csv", "csv"),
        ("text/*", "csv"),
        ("TEXT/CSV", "csv"),
        ("text/csv; charset=utf-8; header=present", "csv"),
        ("text/csv;q=0.5, application/json;q=0.4", "csv"),
        ("text/csv;q=0.5, application/json", "json"),
        ("text/csv, application/json", "json"),  # equal quality: the service's own order
        ("application/json;q=0, */*", "csv"),
        ("image/png, */*;q=0.1", "json"),
        ("text/csv;q=0.001, image/png", "csv"),
        ("text/csv;q=rubbish, application/json;q=0.2", "json"),
        (",,text/csv,", "csv"),
    ],
)
def test_accept_is_read_with_its_qualities(accept, chosen):
    """RFC 9110 section 12.5.1: the most specific range that names a type gives its quality; 0 means not wanted."""
    assert choose(accept, BOTH) == chosen


@pytest.mark.parametrize("accept", ["image/png", "application/json;q=0", "text/html, application/pdf", "nonsense"])
def test_what_cannot_be_met_is_refused(accept):
    with pytest.raises(Problem) as caught:
        choose(accept, ("json",))
    assert caught.value.extra["available"] == ["application/json"]


def test_format_stands_for_accept(client):
    csv_answer = client.get("/v1/findings", headers={"accept": "text/csv"})
    assert client.get("/v1/findings?format=csv", headers={"accept": "application/json"}).content == csv_answer.content
    assert client.get("/v1/findings?format=json", headers={"accept": "text/csv"}).json()["findings"]


def test_answers_vary_by_accept_and_encoding(client):
    response = client.get("/v1/tables/materials")
    assert {"accept", "accept-encoding"} <= {word.strip().lower() for word in response.headers["vary"].split(",")}


def test_a_csv_says_what_it_is(client):
    response = client.get("/v1/tables/materials?format=csv")
    assert response.headers["content-type"] == "text/csv; charset=utf-8; header=present"
    assert response.headers["content-disposition"] == 'attachment; filename="materials.csv"'
    lines = response.content.split(b"\r\n")
    assert lines[-1] == b"" and b"\n" not in b"".join(lines)


def test_units_stand_in_the_names_of_columns(client):
    header = client.get("/v1/tables/screw_gauges?format=csv").text.splitlines()[0].split(",")
    assert "diameter [in]" in header and "bending_yield [psi]" in header


def test_a_table_as_csv_holds_what_it_holds_as_json(client):
    rows = client.get("/v1/tables/materials").json()["rows"]
    read = list(csv.DictReader(io.StringIO(client.get("/v1/tables/materials?format=csv").text, newline="")))
    assert len(read) == len(rows) > 10
    for one, other in zip(rows, read, strict=True):
        assert other["id"] == one["id"]
        assert float(other["density [kg/m3]"]) == one["density"]


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", "\n", "＝"])
def test_no_cell_of_text_starts_a_formula(start):
    """OWASP Application Security Verification Standard 5.0, 1.2.10; and what Calc runs when it opens a CSV."""
    text = f"{start}1+1"
    rows = list(csv.reader(io.StringIO(write(["a"], [[text]]).decode(), newline="")))
    read = rows[1][0]
    assert read == "'" + text


def test_numbers_stay_numbers():
    assert cell(-3.5) == "-3.5"
    assert cell(18.0) == "18"
    assert cell(1e-05) == "1e-05"
    assert cell(2**53) == "9007199254740992"
    assert cell(None) == ""
    assert cell(True) == "true"
    assert cell(["a", "b"]) == "a; b"


def test_cells_are_quoted_as_rfc_4180_tells():
    assert cell('13 3/4"') == '"13 3/4"""'
    assert cell("a,b") == '"a,b"'
    assert cell(["a, b", 'c "d"', "=e"]) == '"a, b; c ""d""; \'=e"'
    assert cell(" a") == '" a"'
    assert write(["a", "b"], [["x\r\ny", 1.5]], separator=";", decimal=",") == b'a;b\r\n"x\r\ny";1,5\r\n'


def test_hostile_ids_come_back_as_text():
    placement = {"part": "=HYPERLINK(1)", "x_mm": 0.0, "y_mm": 0.0, "length_mm": 1.0, "width_mm": 1.0, "turned": False}
    layout = {"stock": "@s", "count": 1, "placements": [placement]}
    seam = FakeSeam(nestings=lambda request: {"layouts": [layout], "unplaced": []})
    with client_for(seam) as client:
        text = client.post("/v1/nestings?format=csv", json=NESTING).text
    assert text.splitlines()[1] == "1,'@s,1,'=HYPERLINK(1),0,0,1,1,false"


def test_a_table_is_picked_by_name():
    seam = FakeSeam(nestings=lambda request: {"layouts": [], "unplaced": [{"part": "a", "quantity": 2, "reason": "r"}]})
    with client_for(seam) as client:
        response = client.post("/v1/nestings?format=csv&table=unplaced", json=NESTING)
    assert response.text.splitlines() == ["part,quantity,reason,nearest_stock,excess_mm", "a,2,r,,"]
    assert 'filename="nestings-unplaced.csv"' in response.headers["content-disposition"]


def test_a_cut_list_tells_the_saw_settings(client):
    path, body = "/v1/modules/storage-footstool/parts", {"parameters": {}}
    rows = client.post(path, json=body).json()["parts"]
    table = list(csv.DictReader(io.StringIO(client.post(f"{path}?format=csv", json=body).text, newline="")))
    told = [row["saw_settings"] for row in table]
    assert told == ["; ".join(setting["text"] for setting in row["saw_settings"]) for row in rows]


def test_saw_settings_of_one_part_stand_in_one_cell():
    settings = [{"side": "start", "text": "mitre 30 at the start"}, {"side": "end", "text": "bevel 5 at the end"}]
    seam = FakeSeam(parts=lambda request: {"parts": [{"id": "slat", "saw_settings": settings}]})
    with client_for(seam) as client:
        text = client.post("/v1/modules/m/parts?format=csv", json={}).text
    (row,) = csv.DictReader(io.StringIO(text, newline=""))
    assert row["saw_settings"] == "mitre 30 at the start; bevel 5 at the end"


def test_what_a_nesting_noticed_is_a_table(client):
    short = {**NESTING, "saws": [{"id": "jig", "kind": "jigsaw", "kerf": 2, "guide": 300, "depth": 12}]}
    found = client.post("/v1/nestings", json=short).json()["findings"]
    text = client.post("/v1/nestings?format=csv&table=findings", json=short).text
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert [(row["severity"], row["code"]) for row in rows] == [(one["severity"], one["code"]) for one in found]
    assert rows
