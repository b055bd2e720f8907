"""Prints the digest of every answer of the service, one a line: run in two processes, the lines must be the same."""

import hashlib
import json
import sys

from starlette.testclient import TestClient

from scantling.api import Settings, create_app
from scantling.api.openapi import operations
from scantling.api.schemas.examples import FIGURE_QUERIES
from scantling.demo import demo_project
from scantling.work import InlineSeam

LONG = ("/v1/projects", "/v1/modules/{module}/proofs")  # one form of these is enough
VALUES = {"module": "storage-footstool", "table": "materials", "slug": "invalid-request"}


def answers(client):
    """Return every answer with a name: catalogues, figures, and every example, as JSON and as CSV."""
    document = client.get("/openapi.json")
    yield "openapi", document
    for path, method, operation in operations(document.json()):
        address = path.format_map(VALUES)
        if method == "get":
            yield path, client.get(address, params=FIGURE_QUERIES.get(path.rsplit("/", 1)[1], {}))
            continue
        for name, example in operation["requestBody"]["content"]["application/json"]["examples"].items():
            for form in ("json",) if path in LONG else ("json", "csv"):
                yield f"{path} {name} {form}", client.post(address, json=example["value"], params={"format": form})
    yield "demo", client.post("/v1/projects", json=demo_project())


def main():
    """Print name, status, what stopped the search, and digest."""
    app = create_app(Settings(allowed_hosts=("testserver",), access_log=False), InlineSeam())
    with TestClient(app) as client:
        for name, response in answers(client):
            stopped = "time" if b'"stopped_by":"time"' in response.content else "-"
            digest = hashlib.sha256(response.content).hexdigest()
            sys.stdout.write(json.dumps([name, response.status_code, stopped, digest]) + "\n")


if __name__ == "__main__":
    main()
