"""Every operation in the table is really there and takes what the table says it takes."""

import inspect

import pytest

from scantling.work import OPERATIONS

KEYWORDS = {
    "host": {"host"},
    "modules": {"modules"},
    "extras": {"extras"},
    "progress": {"progress", "seconds"},
    "lists": set(),
}


@pytest.mark.parametrize("name", OPERATIONS)
def test_an_operation_can_be_called_as_the_seam_calls_it(name):
    operation = OPERATIONS[name]
    signature = inspect.signature(operation.load())
    wanted = {keyword: None for need in operation.needs for keyword in KEYWORDS[need]}
    signature.bind({}, **wanted)  # raises TypeError where it does not fit


@pytest.mark.parametrize("name", OPERATIONS)
def test_an_operation_asks_for_all_that_it_could_use(name):
    operation = OPERATIONS[name]
    parameters = inspect.signature(operation.load()).parameters
    offered = {keyword: need for need, keywords in KEYWORDS.items() for keyword in keywords}
    assert {offered[p] for p in parameters if p in offered} <= set(operation.needs)
