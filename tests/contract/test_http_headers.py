"""Headers that every answer carries, caching of catalogues, HEAD and OPTIONS, sub-paths, and the offline docs page."""

import re

import pytest

from contract.contract_helpers import FakeSeam, client_for

NESTING = {"parts": [{"id": "a", "length": 300}], "stock": [{"id": "s", "length": 2440}]}
CATALOGUES = [
    "/v1",
    "/v1/tables",
    "/v1/tables/materials",
    "/v1/findings",
    "/v1/problems",
    "/v1/figures",
    "/openapi.json",
]


@pytest.mark.parametrize("path", [*CATALOGUES, "/livez", "/readyz", "/docs", "/nowhere"])
def test_every_answer_carries_id_timing_and_nosniff(client, path):
    response = client.get(path)
    assert re.fullmatch(r"[0-9a-f]{32}", response.headers["x-request-id"])
    assert re.fullmatch(r"(\w+;dur=[0-9.]+, )*total;dur=[0-9.]+", response.headers["server-timing"])
    assert response.headers["x-content-type-options"] == "nosniff"
    assert response.headers["cache-control"]


@pytest.mark.parametrize("given", ["abc-123_X.y", "0" * 64])
def test_a_request_id_of_the_client_is_kept(client, given):
    assert client.get("/livez", headers={"x-request-id": given}).headers["x-request-id"] == given


@pytest.mark.parametrize("given", ["", "a b", "x" * 65, "a\tb", "<script>", "ü"])
def test_a_request_id_that_would_spoil_a_log_is_replaced(client, given):
    answered = client.get("/livez", headers={"x-request-id": given.encode()}).headers["x-request-id"]
    assert re.fullmatch(r"[0-9a-f]{32}", answered)


@pytest.mark.parametrize("path", CATALOGUES)
def test_catalogues_have_an_etag_that_saves_the_body(client, path):
    first = client.get(path)
    assert first.headers["cache-control"] == "public, max-age=3600"
    etag = first.headers["etag"]
    for sent in (etag, f"W/{etag}", f'"other", {etag}', "*"):
        again = client.get(path, headers={"if-none-match": sent})
        assert again.status_code == 304
        assert again.content == b""
        assert again.headers["etag"] == etag
    assert client.get(path, headers={"if-none-match": '"other"'}).content == first.content


def test_json_and_csv_have_different_etags(client):
    assert client.get("/v1/tables").headers["etag"] != client.get("/v1/tables?format=csv").headers["etag"]


def test_computed_answers_are_not_stored():
    seam = FakeSeam(nestings=lambda request: {"layouts": [], "unplaced": []})
    with client_for(seam) as client:
        response = client.post("/v1/nestings", json=NESTING)
    assert response.headers["cache-control"] == "no-store"
    assert "etag" not in response.headers
    assert "work;dur=" in response.headers["server-timing"]


@pytest.mark.parametrize("path", [*CATALOGUES, "/livez", "/docs"])
def test_head_is_get_without_the_body(client, path):
    get, head = client.get(path), client.head(path)
    assert (head.status_code, head.content) == (200, b"")
    for name in ("content-type", "etag"):
        assert head.headers.get(name) == get.headers.get(name)


@pytest.mark.parametrize(("path", "allow"), [("/v1/tables", "GET, HEAD, OPTIONS"), ("/v1/projects", "OPTIONS, POST")])
def test_options_tells_the_methods(client, path, allow):
    response = client.options(path)
    assert (response.status_code, response.content, response.headers["allow"]) == (204, b"", allow)


def test_a_spreadsheet_cell_gets_through_with_a_query_that_is_wrong(client):
    """LibreOffice Calc sends OPTIONS and HEAD before GET, and gives up when OPTIONS is refused (measured on 7.4.7)."""
    address = "/v1/figures/board-feet?thickness=rubbish"
    assert client.options(address).status_code == 204
    assert client.head(address).status_code == 200
    assert client.get(address).status_code == 422


def test_large_answers_are_compressed_on_request(client):
    response = client.get("/v1/tables/materials", headers={"accept-encoding": "gzip"})
    assert response.headers["content-encoding"] == "gzip"
    plain = client.get("/v1/tables/materials", headers={"accept-encoding": "identity"})
    assert "content-encoding" not in plain.headers
    assert plain.json() == response.json()


def test_other_origins_are_not_let_in_by_default(client):
    response = client.get("/v1", headers={"origin": "http://elsewhere.example"})
    assert "access-control-allow-origin" not in response.headers


def test_an_origin_on_the_list_may_read_the_headers_it_needs():
    with client_for(FakeSeam(), cors_origins=("http://shop.local",)) as client:
        response = client.get("/livez", headers={"origin": "http://shop.local"})
    assert response.headers["access-control-allow-origin"] == "http://shop.local"
    assert "Retry-After" in response.headers["access-control-expose-headers"]


def test_the_documentation_page_needs_no_other_place(client):
    page = client.get("/docs")
    addresses = re.findall(r'(?:src|href)="([^"]+)"', page.text)
    assert len(addresses) >= 3
    assert not re.search(r"https?://|//cdn", page.text)
    for address in addresses:
        assert client.get(address).status_code == 200, address
    assert "/openapi.json" in page.text


@pytest.mark.parametrize("prefix", ["", "/shop"])
def test_links_follow_a_sub_path(prefix):
    with client_for(FakeSeam(), root_path="/shop") as client:
        links = client.get(f"{prefix}/v1").json()["links"]
        assert links["tables"]["href"] == "/shop/v1/tables"
        page = client.get(f"{prefix}/docs").text
        assert "/shop/openapi.json" in page and "/shop/docs/assets/swagger-ui.css" in page
        assert client.get(f"{prefix}/docs/assets/swagger-ui.css").status_code == 200
        assert client.get(f"{prefix}/openapi.json").json()["servers"][0]["url"] == "/shop"


def test_every_link_of_the_service_leads_somewhere(client):
    for name, link in client.get("/v1").json()["links"].items():
        expected = 405 if "POST" in link["title"] else 200
        if name not in ("modules", "plugins"):  # these need the plugin host; their own tests ask them
            assert client.get(link["href"]).status_code == expected, name


def test_no_time_and_no_request_id_stands_in_an_answer(client):
    for path in CATALOGUES:
        first = client.get(path, headers={"x-request-id": "one"})
        second = client.get(path, headers={"x-request-id": "two"})
        assert first.content == second.content
