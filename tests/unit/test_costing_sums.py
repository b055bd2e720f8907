"""Costing adds up: what is shown, line by line, gives the total that is shown, whatever is asked."""

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.costing import costings

MONEY = st.integers(0, 10_000_000).map(lambda n: f"{n // 10_000}.{n % 10_000:04d}")
QUANTITY = st.integers(1, 2_000_000).map(lambda n: n / 1000)
PERCENT = st.integers(0, 4000).map(lambda n: n / 100)


@st.composite
def requests(draw):
    ids = [f"line {n}" for n in range(draw(st.integers(1, 6)))]
    kinds = st.sampled_from(["sheet", "board", "screw", "glue", "finish", "cushion", "hardware", "other"])
    take_off = [
        {"id": one, "kind": draw(kinds), "quantity": draw(QUANTITY), "on_hand": draw(st.sampled_from([0, 0, 2.5]))}
        for one in ids
    ]
    prices = [
        {"id": one, "price": draw(MONEY), "pack": draw(st.none() | QUANTITY), "taxed": draw(st.booleans())}
        for one in draw(st.lists(st.sampled_from(ids), unique=True))
    ]
    request = {
        "take_off": take_off,
        "prices": prices,
        "tax": {"percent": draw(PERCENT), "included": draw(st.booleans())},
        "waste": draw(st.dictionaries(kinds, PERCENT, max_size=3)),
        "mark_ups": [{"what": "overhead", "percent": draw(PERCENT)}],
    }
    if draw(st.booleans()):
        request["labour"] = {"hours": draw(QUANTITY), "rate": draw(st.none() | MONEY), "taxed": draw(st.booleans())}
    return request


@given(requests())
@settings(max_examples=150, deadline=None)
def test_the_lines_add_up_to_the_total(request):
    answer = costings(request)
    for column in ("as_bought", "as_used"):
        shown = sum(Decimal(line[column]) for line in answer["lines"] if line[column] is not None)
        assert shown == Decimal(answer[column]["total"])
    assert answer["as_bought"]["total"] == answer["total"]["amount"]
    for line in answer["lines"]:
        assert line["as_bought"] is None or len(line["as_bought"].split(".")[1]) == 2


@given(requests())
@settings(max_examples=100, deadline=None)
def test_nothing_is_dropped_and_enough_is_bought(request):
    answer = costings(request)
    priced = {price["id"] for price in request["prices"]}
    goods = [line for line in answer["lines"] if line["kind"] not in ("labour", "tax", "mark-up")]
    assert [line["id"] for line in goods] == [line["id"] for line in request["take_off"]]
    missing = {line["id"] for line in request["take_off"]} - priced
    assert {line["id"] for line in answer["unknown"] if line["kind"] != "labour"} == missing
    work = request.get("labour")
    assert answer["total"]["lower_bound"] == bool(missing or (work and work["rate"] is None))
    for line in goods:
        assert line["bought"] + line["on_hand"] >= line["needed_with_waste"] - 1e-3
        if line["packs"]:
            assert (line["packs"] - 1) * line["pack"] < line["needed_with_waste"] - line["on_hand"] + 1e-3


def test_every_line_has_the_same_flat_columns():
    answer = costings(
        {
            "take_off": [{"id": "a", "kind": "sheet", "quantity": 1}, {"id": "b", "kind": "glue", "quantity": 2}],
            "prices": [{"id": "a", "price": "10.00"}],
            "labour": {"hours": 2, "rate": "30.00"},
            "tax": {"percent": 5},
            "mark_ups": [{"what": "overhead", "percent": 10}],
        }
    )
    columns = [list(line) for line in answer["lines"]]
    assert len(columns) == 5
    assert all(one == columns[0] for one in columns)
    assert all(not isinstance(value, dict | list) for line in answer["lines"] for value in line.values())
    assert [line["kind"] for line in answer["lines"]] == ["sheet", "glue", "labour", "tax", "mark-up"]


def test_halves_of_a_cent_go_up_line_by_line():
    # 0.005 and 0.005: each line shows 0.01, so the total is 0.02 although the exact sum is 0.01.
    take_off = [{"id": i, "kind": "other", "quantity": 1} for i in ("a", "b")]
    prices = [{"id": i, "price": "0.005"} for i in ("a", "b")]
    answer = costings({"take_off": take_off, "prices": prices})
    assert [line["as_bought"] for line in answer["lines"]] == ["0.01", "0.01"]
    assert answer["total"]["amount"] == "0.02"


def test_tax_that_prices_include_is_shown_and_not_added():
    # Arithmetic: of 119.00 with 19 % tax inside, 19.00 is tax.
    request = {"take_off": [{"id": "a", "kind": "sheet", "quantity": 1}], "prices": [{"id": "a", "price": "119.00"}]}
    answer = costings({**request, "tax": {"percent": 19, "included": True}})
    assert answer["as_bought"]["tax"] == "19.00"
    assert answer["total"]["amount"] == "119.00"
    assert [line["kind"] for line in answer["lines"]] == ["sheet"]
    added = costings({**request, "tax": {"percent": 19}})
    assert (added["as_bought"]["tax"], added["total"]["amount"]) == ("22.61", "141.61")


def test_tax_falls_on_taxed_lines_only():
    answer = costings(
        {
            "take_off": [{"id": i, "kind": "other", "quantity": 1} for i in ("a", "b")],
            "prices": [{"id": "a", "price": "100.00"}, {"id": "b", "price": "50.00", "taxed": False}],
            "labour": {"hours": 1, "rate": "40.00"},
            "tax": {"percent": 7},
        }
    )
    assert answer["as_bought"]["tax"] == "7.00"
    assert answer["total"]["amount"] == "197.00"


def test_the_same_request_gives_the_same_answer():
    request = {
        "take_off": [{"id": f"{n}", "kind": "screw", "quantity": n + 1} for n in range(20)],
        "prices": [{"kind": "screw", "price": "9.25", "pack": 50}],
        "waste": {"screw": 10},
    }
    assert str(costings(request)) == str(costings(request))


def test_tax_on_what_is_used_from_the_shelf_has_its_line():
    # Nothing is bought, so the tax as bought is nothing; what is used is worth 10.00 and 0.70 of tax.
    answer = costings(
        {
            "take_off": [{"id": "a", "kind": "sheet", "quantity": 1, "on_hand": 1}],
            "prices": [{"id": "a", "price": "10.00"}],
            "tax": {"percent": 7},
        }
    )
    assert answer["total"]["amount"] == "0.00"
    assert answer["as_used"]["total"] == "10.70"
    assert [line["as_used"] for line in answer["lines"]] == ["10.00", "0.70"]
