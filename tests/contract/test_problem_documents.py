"""Every place an error can be born answers with a problem document (RFC 9457) and leaks nothing."""

import json

import pytest

from contract.contract_helpers import FakeSeam, assert_problem, client_for, pointers
from scantling.api.problems import KINDS, fragment, pointer
from scantling.measure import RequestError, RequestProblem
from scantling.work import AnswerTooLarge, Busy, NotRunning, OperationFailed, TimeLimit, WorkerDied

JSON = {"content-type": "application/json"}
NESTING = {"parts": [{"id": "a", "length": 300, "width": 200}], "stock": [{"id": "s", "length": 2440, "width": 1220}]}
INSIDE = "a-path-and-figures-of-ours"


def _raise(error):
    raise error


def _answer(error, operation="nestings", body=NESTING, path="/v1/nestings", **settings):
    seam = FakeSeam(**{operation: lambda request: _raise(error)})
    with client_for(seam, **settings) as client:
        return client.post(path, json=body)


@pytest.mark.parametrize(
    "body", [b"{", b'{"parts": [1,]}', b"", b"\xff\xfe", b'"\\ud800', b"[" * 100_000, b"nul", b"1" * 5000]
)
def test_a_body_that_is_not_json_is_a_400(client, body):
    response = client.post("/v1/nestings", content=body, headers=JSON)
    if body == b"":
        assert_problem(response, 422, "invalid-request")
    elif body == b"1" * 5000:
        assert response.status_code in (400, 422)
    else:
        assert_problem(response, 400, "not-json")


@pytest.mark.parametrize("body", ["[]", "3", "null", '"text"', "true"])
def test_json_that_is_no_object_is_a_422(client, body):
    problem = assert_problem(client.post("/v1/nestings", content=body, headers=JSON), 422, "invalid-request")
    assert problem["errors"][0]["pointer"] == "#"


@pytest.mark.parametrize(
    "headers",
    [
        {"content-type": "text/plain"},
        {"content-type": "application/x-www-form-urlencoded"},
        {"content-type": "multipart/form-data; boundary=x"},
        {"content-type": "application/xml"},
        {"content-type": ""},
        {"content-type": "application/json", "content-encoding": "gzip"},
    ],
)
def test_another_content_type_is_a_415_even_when_the_body_is_json(client, headers):
    response = client.post("/v1/nestings", content=json.dumps(NESTING), headers=headers)
    assert_problem(response, 415, "unsupported-media-type")


@pytest.mark.parametrize("kind", ["application/json", "application/json; charset=utf-8", "Application/JSON"])
def test_json_with_a_charset_is_taken(client, kind):
    response = client.post("/v1/nestings", content="{}", headers={"content-type": kind})
    assert_problem(response, 422, "invalid-request")


def test_a_body_over_the_limit_is_a_413_whether_its_length_is_told_or_not(client):
    large = b'{"name": "' + b"x" * 3_000_000 + b'"}'
    problem = assert_problem(client.post("/v1/nestings", content=large, headers=JSON), 413, "too-large")
    assert "2097152" in problem["detail"]

    def pieces():
        for start in range(0, len(large), 65536):
            yield large[start : start + 65536]

    assert_problem(client.post("/v1/nestings", content=pieces(), headers=JSON), 413, "too-large")


def test_a_lying_content_length_is_no_way_in(client):
    assert client.post("/v1/nestings", content=b"{}", headers=JSON | {"content-length": "9" * 40}).status_code == 413


def test_unknown_addresses_are_404_with_the_names_there_are(client):
    assert_problem(client.get("/v2/nothing"), 404, "not-found")
    assert_problem(client.get("/v1/"), 404, "not-found")
    assert "materials" in assert_problem(client.get("/v1/tables/timber"), 404, "not-found")["detail"]
    assert "board-feet" in assert_problem(client.get("/v1/figures/timber"), 404, "not-found")["detail"]
    assert_problem(client.get("/v1/problems/timber"), 404, "not-found")
    assert_problem(client.get("/docs/assets/nothing.js"), 404, "not-found")
    assert_problem(client.get("/docs/assets/../../secret"), 404, "not-found")


@pytest.mark.parametrize("method", ["DELETE", "PUT", "PATCH", "TRACE", "QUERY"])
def test_a_method_that_is_not_there_is_a_405_with_allow(client, method):
    response = client.request(method, "/v1/nestings")
    assert_problem(response, 405, "method-not-allowed")
    assert response.headers["allow"] == "OPTIONS, POST"
    response = client.request(method, "/v1/tables")
    assert response.headers["allow"] == "GET, HEAD, OPTIONS"


def test_an_accept_that_cannot_be_met_is_a_406_that_lists_what_there_is(client):
    problem = assert_problem(client.get("/v1/findings", headers={"accept": "image/png"}), 406, "not-acceptable")
    assert problem["available"] == ["application/json", "text/csv"]
    problem = assert_problem(client.get("/v1", headers={"accept": "text/csv"}), 406, "not-acceptable")
    assert problem["available"] == ["application/json"]
    response = client.post("/v1/nestings", json=NESTING, headers={"accept": "audio/ogg"})
    assert_problem(response, 406, "not-acceptable")


def test_a_406_comes_before_any_work():
    seam = FakeSeam(nestings=lambda request: {})
    with client_for(seam) as client:
        client.post("/v1/nestings", json=NESTING, headers={"accept": "image/png"})
    assert seam.asked == []


def test_a_host_that_is_not_ours_is_refused(client):
    assert_problem(client.get("/v1", headers={"host": "attacker.example"}), 400, "host-not-allowed")
    assert_problem(client.get("/v1", headers={"host": ""}), 400, "host-not-allowed")
    assert client.get("/v1", headers={"host": "TESTSERVER:8000"}).status_code == 200


def test_an_ipv6_host_is_read_with_its_brackets():
    with client_for(FakeSeam(), allowed_hosts=("[::1]",)) as client:
        assert client.get("/livez", headers={"host": "[::1]:8000"}).status_code == 200
        assert_problem(client.get("/livez", headers={"host": "[::2]:8000"}), 400, "host-not-allowed")


def test_a_disallowed_preflight_is_a_problem_too():
    with client_for(FakeSeam(), cors_origins=("http://shop.local",)) as client:
        ask = {"access-control-request-method": "POST", "origin": "http://elsewhere.example"}
        assert_problem(client.options("/v1/nestings", headers=ask), 400, "origin-not-allowed")
        response = client.options("/v1/nestings", headers=ask | {"origin": "http://shop.local"})
        assert response.status_code == 200
        assert response.headers["access-control-allow-origin"] == "http://shop.local"


def test_a_full_house_is_a_503_with_retry_after():
    response = _answer(Busy("nestings", 7))
    assert_problem(response, 503, "busy")
    assert response.headers["retry-after"] == "7"


def test_an_overrun_is_a_503_that_names_the_limit():
    assert "20 seconds" in assert_problem(_answer(TimeLimit("nestings", 20)), 503, "time-limit")["detail"]


def test_workers_that_do_not_run_are_a_503():
    assert_problem(_answer(NotRunning("nestings")), 503, "not-ready")


def test_an_answer_too_large_is_a_422():
    problem = assert_problem(_answer(AnswerTooLarge("nestings", 99, 10)), 422, "answer-too-large")
    assert "99" in problem["detail"]


@pytest.mark.parametrize(
    "error",
    [
        RuntimeError(INSIDE),
        WorkerDied("nestings", 9),
        OperationFailed("nestings", "it raised ValueError", log=INSIDE),
    ],
)
def test_a_failure_inside_is_a_500_that_tells_nothing(error):
    response = _answer(error)
    assert_problem(response, 500, "internal")
    assert INSIDE not in response.text
    assert "Error" not in response.text


def test_a_plugin_that_fails_is_named():
    problem = assert_problem(_answer(OperationFailed("nestings", "it raised", culprit="oddments")), 500, "internal")
    assert problem["plugin"] == "oddments"
    assert "oddments" in problem["detail"]


def test_what_an_operation_finds_wrong_is_a_422_at_its_pointer():
    errors = [RequestProblem("/stock/0/a~1b é", "the price is missing", "stock-ambiguous")]
    problem = assert_problem(_answer(RequestError(errors)), 422, "invalid-request")
    assert problem["errors"] == [
        {"pointer": "#/stock/0/a~1b%20%C3%A9", "detail": "the price is missing", "code": "stock-ambiguous"}
    ]


def test_a_client_with_too_many_jobs_gets_a_429():
    nested = {}

    def twice(request):
        nested["second"] = client.post("/v1/nestings", json=NESTING) if "second" not in nested else None
        return {}

    seam = FakeSeam(nestings=twice)
    with client_for(seam, jobs_per_client=1) as client:
        client.app.state.calls._running["testclient"] = 1
        assert_problem(client.post("/v1/nestings", json=NESTING), 429, "too-many-requests")


def test_a_service_that_is_not_ready_says_why():
    seam = FakeSeam()
    seam.ready = False
    with client_for(seam) as client:
        problem = assert_problem(client.get("/readyz"), 503, "not-ready")
        assert problem["checks"][0] == {"name": "workers", "ok": False, "detail": "starting or stopping"}
        assert client.get("/livez").status_code == 200


def test_faults_of_a_body_are_all_told_with_their_places(client):
    body = {
        "parts": [{"id": "=SUM(A1)", "length": 46085, "width": "5' 3/4", "quantity": 0, "colour/tone": 1}],
        "stock": [{"id": "s", "length": [], "thickness": {"status": "measured", "least": "x", "most": 18}}],
        "currency": "dollars",
        "effort": "heroic",
    }
    problem = assert_problem(client.post("/v1/nestings", json=body), 422, "invalid-request")
    assert pointers(problem) == {
        "#/currency": "bad-text",
        "#/effort": "not-one-of",
        "#/parts/0/id": "bad-text",
        "#/parts/0/length": "spreadsheet-date",
        "#/parts/0/width": "mark-missing",
        "#/parts/0/quantity": "out-of-range",
        "#/parts/0/colour~1tone": "unknown-member",
        "#/stock/0/length": "wrong-type",
        "#/stock/0/thickness/least": "bad-length",
    }


def test_rules_between_members_have_their_own_codes(client):
    body = {
        "units": "mm",
        "parts": [{"id": "a", "length": "3/4"}, {"id": "a", "length": "70 ft"}, {"id": "b", "length": "0.01 mm"}],
        "stock": [{"id": "s", "length": 2000, "thickness": {"status": "assumed", "least": 19, "most": 17}}],
    }
    problem = assert_problem(client.post("/v1/nestings", json=body), 422, "invalid-request")
    assert pointers(problem) == {
        "#/parts/0/length": "unit-missing",
        "#/parts/1/length": "length-out-of-range",
        "#/parts/2/length": "length-out-of-range",
        "#/stock/0/thickness": "least-above-most",
        "#/parts/1/id": "id-repeated",
    }


def test_more_faults_than_fifty_are_cut_short(client):
    body = {"parts": [{"id": f"p{i}", "length": -1} for i in range(400)], "stock": [{"id": "s", "length": 1}]}
    problem = assert_problem(client.post("/v1/nestings", json=body), 422, "invalid-request")
    assert len(problem["errors"]) == 50


def test_query_values_are_named(client):
    problem = assert_problem(client.get("/v1/findings?format=xml"), 422, "invalid-request")
    assert problem["errors"][0]["in"] == "query"
    assert problem["errors"][0]["name"] == "format"
    response = client.post("/v1/nestings?table=lines&format=csv", json=NESTING)
    assert assert_problem(response, 422, "invalid-request")["errors"][0]["name"] == "table"


@pytest.mark.parametrize("prefix", ["", "/shop"])
def test_types_follow_a_sub_path_whether_the_proxy_strips_it_or_not(prefix):
    with client_for(FakeSeam(), root_path="/shop") as client:
        assert client.get(f"{prefix}/nothing").json()["type"] == "/shop/v1/problems/not-found"
        assert client.get(f"{prefix}/docs/assets/nothing").json()["type"] == "/shop/v1/problems/not-found"


def test_each_kind_of_problem_can_be_fetched(client):
    listed = client.get("/v1/problems").json()["problems"]
    assert [kind["slug"] for kind in listed] == list(KINDS)
    for kind in listed:
        assert client.get(kind["type"]).json() == kind
        assert kind["meaning"] and kind["remedy"] and kind["example"]


def test_pointers_are_escaped_as_rfc_6901_tells():
    # RFC 6901 sections 5 and 6: the examples of the standard, as JSON strings and as URI fragments.
    for member, plain, as_fragment in (
        ("", "/", "#/"),
        ("a/b", "/a~1b", "#/a~1b"),
        ("c%d", "/c%d", "#/c%25d"),
        ("e^f", "/e^f", "#/e%5Ef"),
        ("g|h", "/g|h", "#/g%7Ch"),
        ("i\\j", "/i\\j", "#/i%5Cj"),
        ('k"l', '/k"l', "#/k%22l"),
        (" ", "/ ", "#/%20"),
        ("m~n", "/m~0n", "#/m~0n"),
    ):
        assert pointer([member]) == plain
        assert fragment(plain) == as_fragment
    assert pointer(["foo", 0]) == "/foo/0"
