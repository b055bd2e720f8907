"""Answers as drawings and files over HTTP: each is what its media type says, and the same each time."""

import io
import json
from xml.etree import ElementTree
from zipfile import ZipFile

import pytest

from contract.contract_helpers import FakeSeam, assert_problem, client_for
from scantling.api.drawn import view_pattern
from scantling.papers.forms import FORMATS, KINDS, offered, views
from scantling.work import InlineSeam, Limits

STOOL = {"parameters": {}}
NESTING = {
    "parts": [{"id": "side", "length": 600, "width": 300, "quantity": 3}],
    "stock": [{"id": "sheet", "length": 2440, "width": 1220}],
    "effort": "quick",
}
SET = {
    "name": "one stool",
    "modules": [{"id": "stool", "module": "storage-footstool", "parameters": {}}],
    "effort": "quick",
}
ASKED = {
    "parts": ("/v1/modules/storage-footstool/parts", STOOL),
    "nesting": ("/v1/nestings", NESTING),
    "project": ("/v1/projects", SET),
}
STARTS = {"svg": b"<svg", "pdf": b"%PDF-", "dxf": b"  0", "xlsx": b"PK", "zip": b"PK", "glb": b"glTF", "step": b"ISO"}
CASES = [(kind, name) for kind in KINDS for name, media in FORMATS.items() if media in offered(kind)]


@pytest.fixture(scope="module")
def shop():
    with client_for(InlineSeam(Limits(time_limit=60.0))) as client:
        yield client


@pytest.mark.parametrize(("kind", "name"), CASES)
def test_every_form_is_what_its_media_type_says(shop, kind, name):
    path, body = ASKED[kind]
    by_query = shop.post(f"{path}?format={name}", json=body)
    assert by_query.status_code == 200, by_query.text
    assert by_query.headers["content-type"] == FORMATS[name]
    assert by_query.content.startswith(STARTS[name])
    assert by_query.headers["content-disposition"].endswith(f'.{name}"')
    assert "accept" in by_query.headers["vary"].lower()
    by_header = shop.post(path, json=body, headers={"accept": FORMATS[name]})
    assert by_header.content == by_query.content


def test_a_dxf_may_be_asked_for_by_its_older_name(shop):
    answer = shop.post("/v1/nestings", json=NESTING, headers={"accept": "application/dxf"})
    assert answer.headers["content-type"] == FORMATS["dxf"]


def test_every_form_stands_in_the_contract(document):
    paths = {"parts": "/v1/modules/{module}/parts", "nesting": "/v1/nestings", "project": "/v1/projects"}
    for kind, path in paths.items():
        content = set(document["paths"][path]["post"]["responses"]["200"]["content"])
        assert content == {"application/json", "text/csv", *offered(kind)}


def test_an_svg_may_run_nothing(shop):
    answer = shop.post("/v1/nestings?format=svg", json=NESTING)
    assert answer.headers["content-security-policy"].startswith("default-src 'none'")
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert ElementTree.fromstring(answer.text).tag.endswith("svg")  # noqa: S314 - our own output


def test_a_view_and_one_item_of_it(shop):
    path, body = ASKED["parts"]
    whole = shop.post(f"{path}?format=svg&view=steps", json=body)
    one = shop.post(f"{path}?format=svg&view=steps:2", json=body)
    assert "Step 2:" in one.text and "Step 1:" not in one.text and "Step 1:" in whole.text


@pytest.mark.parametrize("query", ["format=svg&view=packet", "format=glb&view=plan", "format=svg&view=steps:999"])
def test_a_view_that_is_not_there_is_refused_by_name(shop, query):
    path, body = ASKED["parts"]
    problem = assert_problem(shop.post(f"{path}?{query}", json=body), 422, "invalid-request")
    assert problem["errors"][0]["in"] == "query" and problem["errors"][0]["name"] == "view"
    assert problem["errors"][0]["code"] == "values-do-not-go-together"


def test_a_form_that_is_not_offered_is_refused_before_any_work():
    seam = FakeSeam()
    with client_for(seam) as client:
        for query, accept in (("?format=glb", None), ("", "model/step")):
            headers = {"accept": accept} if accept else {}
            problem = assert_problem(
                client.post(f"/v1/nestings{query}", json=NESTING, headers=headers), 406, "not-acceptable"
            )
            assert "image/svg+xml" in problem["available"] and "model/step" not in problem["available"]
        assert client.post("/v1/nestings?view=nonsense", json=NESTING).status_code == 422
    assert seam.jobs == 0 and not seam.asked


def test_papers_are_the_callers(shop):
    path, body = ASKED["project"]
    papers = {"paper": "a4", "stamp": "built", "as_built": "As planned.", "author": "A. Maker", "also": "1 mm"}
    answer = shop.post(f"{path}?format=zip", json={**body, "papers": papers})
    with ZipFile(io.BytesIO(answer.content)) as archive:
        assert json.loads(archive.read("manifest.json"))["stamp"] == "built"
        assert b"papers" not in archive.read("project.json")
    plain = shop.post(path, json={**body, "papers": papers})
    assert plain.json() == shop.post(path, json=body).json()  # without effect on JSON


@pytest.mark.parametrize(
    ("papers", "pointer"),
    [
        ({"stamp": "built"}, "#/papers/as_built"),
        ({"labels": {"across": 9, "width": 60}}, "#/papers/labels"),
        ({"paper": "a5"}, "#/papers/paper"),
    ],
)
def test_papers_that_cannot_be_are_pointed_at(shop, papers, pointer):
    path, body = ASKED["parts"]
    problem = assert_problem(shop.post(f"{path}?format=pdf", json={**body, "papers": papers}), 422, "invalid-request")
    assert [e["pointer"] for e in problem["errors"]] == [pointer]


def test_an_unknown_module_is_not_found_in_any_form(shop):
    for query in ("", "?format=svg"):
        assert_problem(shop.post(f"/v1/modules/no-such/parts{query}", json=STOOL), 404, "not-found")


@pytest.mark.parametrize("kind", KINDS)
def test_the_published_pattern_takes_every_view(kind):
    import re

    pattern = re.compile(view_pattern(kind))
    for media in offered(kind):
        for view in views(kind, media):
            assert pattern.fullmatch(view) and pattern.fullmatch(f"{view}:rib 1")
    assert not pattern.fullmatch("nonsense")
