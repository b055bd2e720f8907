"""The client against a service that answers what a test tells it to: problems, retries, quantities, batches."""

import ast
import json
import pickle
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import httpx2
import pint
import pytest

import scantling_client
from scantling_client import BadQuantity, Client, Failed, Problem, ScantlingError, ServiceUnreachable, run_batch

PACKAGE = Path(scantling_client.__file__).parent
PROBLEM = {
    "type": "/v1/problems/invalid-request",
    "title": "Request does not fit",
    "status": 422,
    "detail": "2 members do not fit.",
    "errors": [
        {"pointer": "#/modules/0/parameters/bays", "detail": "9 lies outside 1 to 8", "code": "bad-parameter"},
        {"in": "query", "name": "length", "detail": "'x' is no length", "code": "bad-text"},
    ],
}


def replies(*answers):
    """Return a client whose service gives these answers one after the other (the last for ever), and what it got."""
    sent = []

    def answer(request):
        sent.append(request)
        one = answers[min(len(sent), len(answers)) - 1]
        if isinstance(one, Exception):
            raise one
        return one

    return Client("http://shop.test", transport=httpx2.MockTransport(answer)), sent


def refusal(status, kind="busy", **headers):
    return httpx2.Response(status, json={"type": f"/v1/problems/{kind}", "title": kind}, headers=headers)


OK = httpx2.Response(200, json={"summary": []})


@pytest.fixture
def naps(monkeypatch):
    """Return the seconds slept, without sleeping."""
    slept = []
    monkeypatch.setattr("tenacity.nap.time.sleep", slept.append)
    return slept


def test_a_problem_names_every_member_at_fault():
    shop, _ = replies(httpx2.Response(422, json=PROBLEM, headers={"X-Request-ID": "abc"}))
    with pytest.raises(Problem) as caught:
        shop.plan({"modules": []})
    problem = caught.value
    assert (problem.status, problem.kind, problem.request_id) == (422, "invalid-request", "abc")
    assert [(e.pointer, e.code) for e in problem.errors] == [
        ("#/modules/0/parameters/bays", "bad-parameter"),
        ("query: length", "bad-text"),
    ]
    text = str(problem)
    for words in ("422 Request does not fit", "2 members do not fit", "#/modules/0/parameters/bays: 9 lies", "abc"):
        assert words in text


@pytest.mark.parametrize("body", [b"<html>Bad gateway</html>", b"[]", b'"no"', b"{}", b""])
def test_an_answer_that_is_no_problem_document_is_still_a_problem(body):
    shop, _ = replies(httpx2.Response(500, content=body))
    with pytest.raises(Problem) as caught:
        shop.modules()
    assert caught.value.status == 500
    assert "500" in str(caught.value)
    assert caught.value.errors == ()


def test_errors_travel_between_processes():
    before = Problem(422, PROBLEM, "abc", 3.0)
    after = pickle.loads(pickle.dumps(before))  # noqa: S301 - our own
    assert str(after) == str(before)
    assert after.errors == before.errors
    assert after.retry_after == 3.0


@pytest.mark.parametrize("status", [429, 502, 503, 504])
def test_what_may_pass_is_tried_again(naps, status):
    shop, sent = replies(refusal(status), refusal(status), OK)
    assert shop.plan({"modules": []}) == {"summary": []}
    assert len(sent) == 3
    assert len(naps) == 2


def test_it_gives_up_after_four_tries_and_says_why(naps):
    shop, sent = replies(refusal(503, "busy", **{"Retry-After": "2"}))
    with pytest.raises(Problem) as caught:
        shop.plan({"modules": []})
    assert len(sent) == 4
    assert caught.value.kind == "busy"
    assert caught.value.retry_after == 2.0


@pytest.mark.parametrize("seconds", [1, 7, 45])
def test_it_waits_as_long_as_the_service_asks(naps, seconds):
    shop, sent = replies(refusal(429, **{"Retry-After": str(seconds)}), OK)
    shop.plan({"modules": []})
    assert len(sent) == 2
    assert naps == [seconds]


@pytest.mark.parametrize(
    "answer",
    [
        refusal(503, "time-limit", **{"Retry-After": "2"}),  # the same request runs into the same limit
        refusal(503, "busy", **{"Retry-After": "3600"}),
        refusal(422, "invalid-request"),
        refusal(500, "internal"),
        refusal(413, "too-large"),
    ],
)
def test_what_would_be_in_vain_is_not_tried_again(naps, answer):
    shop, sent = replies(answer)
    with pytest.raises(Problem):
        shop.plan({"modules": []})
    assert len(sent) == 1
    assert not naps


@pytest.mark.parametrize(
    ("error", "tries"),
    [
        (httpx2.ConnectError("refused"), 4),
        (httpx2.ConnectTimeout("too slow"), 4),
        (httpx2.RemoteProtocolError("the service hung up"), 4),
        (httpx2.ReadTimeout("still computing"), 1),
    ],
)
def test_a_service_that_gives_no_answer_is_unreachable(naps, error, tries):
    shop, sent = replies(error)
    with pytest.raises(ServiceUnreachable, match=r"no answer from http://shop\.test: \w+"):
        shop.modules()
    assert len(sent) == tries
    assert not shop.ready()


def test_a_dropped_connection_is_made_again(naps):
    shop, sent = replies(httpx2.RemoteProtocolError("the service hung up"), OK)
    assert shop.plan({}) == {"summary": []}
    assert len(sent) == 2


def test_names_stay_one_step_of_the_path():
    shop, sent = replies(OK)
    shop.table("../plugins?x=1")
    assert sent[0].url.raw_path == b"/v1/tables/..%2Fplugins%3Fx%3D1"


def test_csv_is_asked_for_by_media_type_and_table():
    shop, sent = replies(httpx2.Response(200, text="a,b\r\n1,2\r\n"))
    assert shop.nest_csv({"parts": []}, table="unplaced") == "a,b\r\n1,2\r\n"
    assert sent[0].headers["Accept"] == "text/csv"
    assert sent[0].url.params["table"] == "unplaced"


def test_the_key_is_sent_where_there_is_one():
    sent = []
    transport = httpx2.MockTransport(lambda request: sent.append(request) or OK)
    Client("http://shop.test", api_key="k", transport=transport).plan({})
    Client("http://shop.test", transport=transport).plan({})
    assert sent[0].headers["X-API-Key"] == "k"
    assert "X-API-Key" not in sent[1].headers


# ---------------------------------------------------------------------- quantities


def posted(value):
    shop, sent = replies(OK)
    shop.plan({"value": value})
    return json.loads(sent[0].content)["value"]


ureg = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("quantity", "written"),
    [
        (ureg.Quantity(18, "mm"), "18.0000 mm"),
        (ureg.Quantity(0.75, "inch"), "19.0500 mm"),
        (ureg.Quantity(2, "ft"), "609.6000 mm"),
        (ureg.Quantity(1.2, "m"), "1200.0000 mm"),
        (ureg.Quantity(12.5, "degree"), 12.5),
        (ureg.Quantity(1, "kg"), 1.0),
        (ureg.Quantity(150, "newton"), 150.0),
    ],
)
def test_a_quantity_is_written_as_the_service_reads_it(quantity, written):
    assert posted(quantity) == written
    assert posted([{"a": (quantity,)}]) == [{"a": [written]}]


def test_radians_and_pounds_are_converted():
    assert posted(ureg.Quantity(3.141592653589793, "radian")) == pytest.approx(180)
    assert posted(ureg.Quantity(1, "lbf")) == pytest.approx(4.4482216152605)  # NIST SP 811, B.8, exact by definition
    assert posted(ureg.Quantity(1, "lb")) == pytest.approx(0.45359237)  # NIST SP 811, B.8, exact by definition


@pytest.mark.parametrize("unit", ["second", "m**2", "dimensionless", "kelvin"])
def test_a_quantity_without_use_is_refused(unit):
    with pytest.raises(BadQuantity, match="neither a length, an angle, a force nor a mass"):
        posted({"a": ureg.Quantity(3, unit)})
    assert issubclass(BadQuantity, ScantlingError)
    assert issubclass(BadQuantity, ValueError)


@pytest.mark.parametrize("plain", [18, 0.75, "3/4 in", None, True, ["a", 1], {"a": {"b": [1.5]}}])
def test_what_is_plain_passes_as_it_is(plain):
    assert posted(plain) == plain


# ---------------------------------------------------------------------- batches


def test_a_batch_keeps_its_order_and_one_failure_stops_nothing():
    def call(request):
        if request["n"] == 2:
            raise Problem(422, PROBLEM)
        if request["n"] == 3:
            return posted(ureg.Quantity(1, "second"))
        return request["n"] * 10

    with ThreadPoolExecutor(3) as pool:
        answers = list(run_batch(call, [{"n": n} for n in range(6)], pool))
    assert [a for a in answers if not isinstance(a, Failed)] == [0, 10, 40, 50]
    refused, useless = answers[2], answers[3]
    assert (refused.request, refused.error.status) == ({"n": 2}, 422)
    assert isinstance(useless.error, BadQuantity)


def test_a_fault_of_the_program_is_not_hidden_in_a_batch():
    with ThreadPoolExecutor(1) as pool, pytest.raises(KeyError):
        list(run_batch(lambda request: request["missing"], [{}], pool))


# ---------------------------------------------------------------------- what it is made of


def test_it_imports_nothing_of_the_service_and_little_else():
    allowed = {*sys.stdlib_module_names, "httpx2", "stamina", "scantling_client"}
    for path in sorted(PACKAGE.glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = []
            if isinstance(node, ast.Import):
                names = [alias.name for alias in node.names]
            elif isinstance(node, ast.ImportFrom) and not node.level:
                names = [node.module]
            for name in names:
                assert name.split(".")[0] in allowed, f"{path.name} imports {name}"


def test_importing_it_loads_neither_the_service_nor_pint():
    heavy = ("scantling", "pint", "numpy", "pydantic")
    code = f"import sys, scantling_client; print([name for name in {heavy} if name in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
