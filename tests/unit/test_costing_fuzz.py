"""Whatever JSON comes in, a costing answers plain finite data or names the fault; it never fails in another way."""

import copy
import json

from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.costing import costings
from scantling.measure import RequestError

VALID = {
    "units": "mm",
    "currency": "EUR",
    "take_off": [
        {"id": "sheet", "kind": "sheet", "what": "plywood", "quantity": 3, "unit": "sheet", "used": 2.4, "on_hand": 1},
        {"id": "glue", "kind": "glue", "quantity": 0.4, "unit": "kg", "estimate": "spread of a table"},
        {"id": "screws", "kind": "screw", "quantity": 86},
    ],
    "prices": [
        {"id": "sheet", "price": "62.00", "pack": 1, "unit": "sheet", "taxed": True},
        {"kind": "screw", "price": "9.25", "pack": 50},
        {"kind": "glue", "price": "12.5", "pack": 750, "unit": "mL"},
    ],
    "labour": {"what": "making", "hours": 6.5, "rate": "39.00", "taxed": False},
    "tax": {"percent": 7, "included": False},
    "waste": {"screw": 10, "glue": {"yield": 80}},
    "mark_ups": [{"what": "overhead", "percent": 15}],
}
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=8,
)


def places(value, path=()):
    """Return the path of every member."""
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path, *(found for key, one in inside for found in places(one, (*path, key)))]


def answered(request):
    try:
        answer = costings(request)
    except RequestError as error:
        assert all(e.pointer == "" or e.pointer.startswith("/") for e in error.errors)
        return None
    return json.loads(json.dumps(answer, allow_nan=False))


@given(st.sampled_from(places(VALID)[1:]), JSON)
@settings(max_examples=400, deadline=None)
def test_any_member_may_be_anything(path, value):
    request = copy.deepcopy(VALID)
    at = request
    for key in path[:-1]:
        at = at[key]
    at[path[-1]] = value
    answered(request)


@given(JSON)
@settings(max_examples=100, deadline=None)
def test_the_request_may_be_anything(value):
    answered(value)


def test_extremes_of_the_accepted_are_computed():
    smallest, largest = 5e-324, 1_000_000
    for quantity in (smallest, largest):
        for pack in (smallest, largest):
            answer = answered(
                {
                    "take_off": [{"id": "a", "kind": "other", "quantity": quantity, "used": 0}],
                    "prices": [{"id": "a", "price": "999999999999.9999", "pack": pack}],
                    "labour": {"hours": 100_000, "rate": "999999999999.9999"},
                    "mark_ups": [{"what": "x", "percent": 1000}] * 20,
                }
            )
            assert answer["lines"][0]["packs"] >= 1
