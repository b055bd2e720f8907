"""Fixtures of the contract tests."""

import pytest

from contract.contract_helpers import client_for


@pytest.fixture(scope="session")
def client():
    """Return a client of the whole service, computing in this process."""
    with client_for() as one:
        yield one


@pytest.fixture(scope="session")
def document(client):
    """Return the OpenAPI document as it is served."""
    return client.get("/openapi.json").json()
