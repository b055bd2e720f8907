"""What a nesting reads as in a spreadsheet, and what a caller may pin or wish of it, over HTTP."""

import copy
import csv
import io

import pytest

from contract.contract_helpers import assert_problem
from scantling.api.schemas.examples import NESTINGS

SHOP = NESTINGS["saws"]["value"]
PINNED = NESTINGS["pinned"]["value"]


def answered(client, request):
    response = client.post("/v1/nestings", json=request)
    assert response.status_code == 200, response.text
    return response.json()


def table(client, request, name):
    response = client.post(f"/v1/nestings?format=csv&table={name}", json=request)
    assert response.status_code == 200, response.text
    return list(csv.DictReader(io.StringIO(response.content.decode("utf-8-sig"))))


def test_the_list_of_cuts_names_saw_setting_piece_held_and_what_falls(client):
    answer, rows = answered(client, SHOP), table(client, SHOP, "cuts")
    cuts = [(n, cut) for n, layout in enumerate(answer["layouts"], 1) for cut in layout["cuts"]]
    assert [(int(row["layout"]), int(row["cut"])) for row in rows] == [(n, cut["number"]) for n, cut in cuts]
    for row, (_, cut) in zip(rows, cuts, strict=True):
        assert (row["saw"], row["held"]) == (cut["saw"], cut["held"]["name"])
        assert float(row["setting_mm"]) == cut["setting_mm"]
        assert row["falls"] == ("" if cut["falls"] is None else cut["falls"]["kind"])


def test_settings_are_listed_in_the_order_of_work_with_every_cut_once(client):
    rows = table(client, SHOP, "settings")
    cuts = [tuple(cut.split(".")) for row in rows for cut in row["cuts"].split()]
    listed = [(row["layout"], row["cut"]) for row in table(client, SHOP, "cuts")]
    assert sorted(cuts) == sorted(listed)
    assert [int(row["order"]) for row in rows] == list(range(1, len(rows) + 1))
    assert sum(int(row["number_of_cuts"]) for row in rows) == len(listed)


def test_layouts_offcuts_and_plans_are_tables(client):
    answer = answered(client, PINNED)
    layouts = table(client, PINNED, "layouts")
    assert [(x["stock"], int(x["count"]), int(x["stack"]), int(x["runs"])) for x in layouts] == [
        (x["stock"], x["count"], x["stack"], x["runs"]) for x in answer["layouts"]
    ]
    offcuts = table(client, PINNED, "offcuts")
    assert [float(o["length_mm"]) for o in offcuts] == [o["length_mm"] for o in answer["offcuts"]]
    plans = table(client, PINNED, "plans")
    assert [(p["name"], p["cost"], int(p["cuts"])) for p in plans] == [
        (p["name"], p["cost"], p["cuts"]) for p in answer["plans"]
    ]


def test_alike_sheets_are_stacked_only_when_asked_for(client):
    asked = answered(client, PINNED)
    alone = answered(client, {name: value for name, value in PINNED.items() if name != "stack"})
    assert {x["stack"] for x in alone["layouts"]} == {1}
    assert "stack-cutting" not in {f["code"] for f in alone["findings"]}
    stacked = [x for x in asked["layouts"] if x["stack"] > 1]
    assert stacked
    assert "stack-cutting" in {f["code"] for f in asked["findings"]}
    for layout in asked["layouts"]:
        assert layout["stack"] * 18 <= 60
        assert layout["stack"] <= 3
        assert layout["runs"] == -(-layout["count"] // layout["stack"])
    assert asked["cuts"] == sum(x["runs"] * len(x["cuts"]) for x in asked["layouts"]) < alone["cuts"]


def test_every_layout_of_an_answer_can_be_sent_back_as_it_is(client):
    for name in ("sheets", "boards", "saws", "pinned"):
        request = copy.deepcopy(NESTINGS[name]["value"])
        answer = answered(client, request)
        again = answered(client, request | {"layouts": answer["layouts"]})
        assert (again["cost"], again["unplaced"]) == (answer["cost"], answer["unplaced"])
        assert [x["placements"] for x in again["layouts"]] == [x["placements"] for x in answer["layouts"]]


def without(name):
    return {key: value for key, value in PINNED.items() if key != name}


BAD = {
    "kerf as wide as the sheet": (
        PINNED | {"saw": {"kerf": 12}, "stock": [PINNED["stock"][0] | {"width": 12}]},
        "kerf",
    ),
    "trim takes the sheet": (without("layouts") | {"saw": {"kerf": 3, "trim": 610}}, "/saw/trim"),
    "length of zero": (without("layouts") | {"parts": [PINNED["parts"][0] | {"length": 0}]}, "/parts/0/length"),
    "negative width": (without("layouts") | {"parts": [PINNED["parts"][0] | {"width": -1}]}, "/parts/0/width"),
    "negative kerf": (without("layouts") | {"saw": {"kerf": -3}}, "/saw/kerf"),
    "negative trim": (without("layouts") | {"saw": {"kerf": 3, "trim": -3}}, "/saw/trim"),
    "sheet of zero": (without("layouts") | {"stock": [PINNED["stock"][0] | {"length": 0}]}, "/stock/0/length"),
    "too many kinds": (
        without("layouts") | {"parts": [PINNED["parts"][0] | {"id": str(i), "quantity": 1} for i in range(501)]},
        "/parts",
    ),
    "too many pieces": (without("layouts") | {"parts": [PINNED["parts"][0] | {"quantity": 20_001}]}, "/parts"),
    "too many pieces in all": (
        without("layouts") | {"parts": [PINNED["parts"][0] | {"id": str(i), "quantity": 10_001} for i in range(2)]},
        "/parts",
    ),
    "pinned twice in one place": (
        PINNED | {"layouts": [{"stock": "sheet", "placements": [{"part": "shelf", "x_mm": 10, "y_mm": 10}] * 2}]},
        "/layouts/0",
    ),
    "pinned to no stock": (
        PINNED | {"layouts": [{"stock": "door", "placements": [{"part": "shelf", "x_mm": 10, "y_mm": 10}]}]},
        "/layouts/0/stock",
    ),
    "an aim twice": (PINNED | {"objective": {"order": ["money", "money"]}}, "/objective/order/1"),
    "no such aim": (PINNED | {"objective": {"order": ["beauty"]}}, "/objective/order/0"),
    "a worth below zero": (PINNED | {"objective": {"worth": -1}}, "/objective/worth"),
    "a stack of no size": (PINNED | {"stack": {}}, "/stack"),
    "a stack of one": (PINNED | {"stack": {"sheets": 1}}, "/stack/sheets"),
}


@pytest.mark.parametrize("name", BAD)
def test_what_cannot_be_nested_is_refused_with_its_place(client, name):
    request, place = BAD[name]
    body = assert_problem(client.post("/v1/nestings", json=request), 422, "invalid-request")
    assert any(place in error["pointer"] for error in body["errors"]), body["errors"]
