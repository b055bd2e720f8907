"""How strictly a piece is put together reaches the dry fit from every request that has one."""

STUBBY = {"id": "stubby", "title": "stubby driver", "barrels": [{"start_mm": 0, "end_mm": 100, "radius_mm": 60}]}
CLIMBER = {"id": "climber", "mass_kg": 100, "at_mm": [-900, 300, 880]}


def posted(client, path, body):
    response = client.post(path, json=body)
    assert response.status_code == 200, response.text
    return response.json()


def codes(answer):
    return {f["code"] for f in answer["findings"]}


def test_what_rounding_may_open_is_an_input_of_parts(client):
    """What passes at the usual 0.4 mm is told at a thousandth."""
    usual = posted(client, "/v1/modules/work-table/parts", {"tape": "1/16 in"})
    strict = posted(client, "/v1/modules/work-table/parts", {"tape": "1/16 in", "dry_fit": {"open_limit_mm": 0.001}})
    assert "tape-rounding" not in codes(usual)
    (told,) = [f for f in strict["findings"] if f["code"] == "tape-rounding"]
    assert told["limit"] == 0.001 and 0.001 < told["value"] <= 0.4


def test_what_rounding_may_open_is_an_input_of_projects(client):
    table = {"modules": [{"id": "t", "module": "work-table"}]}
    strict = posted(client, "/v1/projects", {**table, "dry_fit": {"open_limit_mm": 0.001}})
    assert "tape-rounding" in codes(strict)
    assert "tape-rounding" not in codes(posted(client, "/v1/projects", table))


def test_drivers_of_the_shop_reach_the_plan(client):
    table = {"modules": [{"id": "t", "module": "side-table"}], "dry_fit": {"tools": [STUBBY]}}
    found = [f for f in posted(client, "/v1/projects", table)["findings"] if f["code"] == "screw-unreachable"]
    assert found and all("stubby driver" in f["message"] for f in found)


def test_somebody_at_a_stated_point_of_one_piece_tips_that_piece(client):
    pieces = [{"id": "t", "module": "work-table", "loads": [CLIMBER]}, {"id": "u", "module": "work-table"}]
    tips = [f for f in posted(client, "/v1/projects", {"modules": pieces})["findings"] if f["code"] == "tips-over"]
    assert [f["message"].split(":")[0] for f in tips] == ["t"] and "climber" in tips[0]["message"]


def test_a_setting_out_of_range_is_pointed_at(client):
    body = {"modules": [{"id": "t", "module": "work-table"}], "dry_fit": {"open_limit_mm": -1}}
    response = client.post("/v1/projects", json=body)
    assert response.status_code == 422
    assert [e["pointer"] for e in response.json()["errors"]] == ["#/dry_fit/open_limit_mm"]
    response = client.post("/v1/modules/work-table/parts", json={"dry_fit": {"tape": "1/7 in"}})
    assert response.status_code == 422 and response.json()["errors"][0]["pointer"] == "#/dry_fit/tape"
