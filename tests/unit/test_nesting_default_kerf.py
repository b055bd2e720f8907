"""Without a kerf of its own a nesting takes the widest of the shop's saws, so that any of them can cut the layout."""

from scantling.nesting.plain import read_job

REQUEST = {
    "parts": [{"id": "p", "length": 500.0, "width": 300.0}],
    "stock": [{"id": "s", "length": 2440.0, "width": 1220.0}],
}
SAWS = [{"id": "a", "kind": "table saw", "kerf": 2.4}, {"id": "b", "kind": "hand saw", "kerf": 1.0}]


def test_the_widest_saw_sets_the_kerf():
    assert read_job({**REQUEST, "saws": SAWS}).cutting.kerf == 240


def test_a_stated_kerf_rules():
    assert read_job({**REQUEST, "saws": SAWS, "saw": {"kerf": 3.0}}).cutting.kerf == 300


def test_a_common_kerf_where_nobody_says():
    assert read_job(REQUEST).cutting.kerf == 320
