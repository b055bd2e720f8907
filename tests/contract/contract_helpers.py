"""What the contract tests share: an application with a seam of their own, and the shape of a problem."""

import json
import re
from collections.abc import Callable, Mapping
from typing import Any

from starlette.testclient import TestClient

from scantling.api import Settings, create_app
from scantling.api.problems import KINDS
from scantling.api.rules import CROSS_FIELD_RULES, SCHEMA_CODES
from scantling.work import InlineSeam, Limits

HOST = "testserver"
POINTER = re.compile(r"#(/([^~/]|~[01])*)*")


class FakeSeam:
    """A seam whose operations are functions of the test; counts what it was asked."""

    def __init__(self, **operations: Callable[[dict[str, Any]], Any]) -> None:
        self.limits = Limits()
        self.ready = True
        self.jobs = 0
        self.asked: list[tuple[str, dict[str, Any]]] = []
        self.operations = {name.replace("_", "-"): function for name, function in operations.items()}

    async def start(self, warm=()) -> None:
        """Start nothing."""

    async def stop(self) -> None:
        """Stop nothing."""

    async def run(self, operation: str, request: dict[str, Any], progress=None) -> dict[str, Any]:
        """Answer as `run_json`, read."""
        return json.loads(await self.run_json(operation, request, progress))

    async def run_json(self, operation: str, request: dict[str, Any], progress=None) -> bytes:
        """Answer with the test's function, which may be a coroutine function."""
        self.asked.append((operation, request))
        answer = self.operations[operation](request)
        return json.dumps(await answer if hasattr(answer, "__await__") else answer).encode()


def client_for(seam=None, **settings) -> TestClient:
    """Return a client of an application with this seam; use it as a context so that it starts and stops."""
    settings.setdefault("allowed_hosts", (HOST,))
    settings.setdefault("access_log", False)
    app = create_app(Settings(**settings), seam or InlineSeam(Limits(time_limit=4.0)))
    return TestClient(app, raise_server_exceptions=False)


def assert_problem(response, status: int, slug: str) -> Mapping[str, Any]:
    """Check that a response is a whole problem document of this kind and return it."""
    assert response.status_code == status, response.text
    assert response.headers["content-type"] == "application/problem+json"
    assert response.headers["cache-control"] == "no-store"
    assert response.headers["x-content-type-options"] == "nosniff"
    body = response.json()
    kind = KINDS[slug]
    assert body["type"].endswith(f"/v1/problems/{slug}")
    assert body["title"] == kind.title
    assert body["status"] == status == kind.status
    assert body["detail"] and "Traceback" not in body["detail"]
    assert body["instance"].startswith("urn:uuid:")
    assert body["request_id"] == response.headers["x-request-id"]
    for entry in body.get("errors", ()):
        assert_entry(entry)
    if status == 422 and slug == "invalid-request":
        assert body["errors"]
    if status in (429, 503):
        assert int(response.headers["retry-after"]) == body["retry_after"] >= 1
    return body


def assert_entry(entry: Mapping[str, Any]) -> None:
    """Check one entry of `errors`: a place, a sentence, and a code that is published."""
    assert entry["detail"]
    assert entry["code"] in SCHEMA_CODES or entry["code"] in CROSS_FIELD_RULES, entry
    if "pointer" in entry:
        assert POINTER.fullmatch(entry["pointer"]), entry
        assert "in" not in entry and "name" not in entry
    else:
        assert entry["in"] in ("query", "path", "header")
        assert "name" in entry


def pointers(body: Mapping[str, Any]) -> dict[str, str]:
    """Return the codes of a problem's entries by pointer."""
    return {entry["pointer"]: entry["code"] for entry in body["errors"]}
