"""The place of a project over HTTP: what is refused and with which words and pointer, and what comes back."""

import math

import pytest

RUN = {"id": "run", "module": "leaning-seat", "parameters": {"bays": 1, "arms": "left", "joins": "right"}}
CORNER = {"id": "corner", "module": "corner-seat", "parameters": {}}
STANDS = [{"module": "run", "wall": "a"}, {"module": "corner", "wall": "a", "corner": True}]
WALLS = [{"id": "a", "floor": 1500, "seat": 1500, "back": 1500}, {"id": "b", "floor": 2000}]


def post(client, place, modules=(RUN, CORNER), **more):
    body = {"units": "mm", "modules": list(modules), "place": place, "effort": "quick", **more}
    return client.post("/v1/projects", json=body)


def test_the_answer_says_where_each_piece_stands(client):
    response = post(client, {"walls": WALLS, "stands": STANDS})
    assert response.status_code == 200, response.text
    place = response.json()["place"]
    assert [p["module"] for p in place["pieces"]] == ["run", "corner"]
    assert [p["turn_deg"] for p in place["pieces"]] == [0, 90]
    (joint,) = place["joints"]
    assert (joint["between"], joint["bolts"], joint["apart_mm"]) == (["run", "corner"], 2, 0)
    assert place["steps"][0].startswith("Set corner into the corner of a and b")
    assert any("Do not glue" in step for step in place["steps"])
    fits = {f["height"]: f for f in place["walls"][0]["fits"]}
    assert set(fits) == {"floor", "seat", "back"}
    overall = {m["id"]: m["overall"] for m in response.json()["modules"]}
    taken = overall["run"]["width_mm"] + overall["corner"]["depth_mm"]
    assert fits["back"]["set_mm"] == pytest.approx(taken, abs=0.2)
    assert fits["back"]["slack_least_mm"] <= 1500 - taken <= fits["back"]["slack_most_mm"] + 0.2


def test_nothing_stands_where_nothing_was_said(client):
    assert post(client, {"exposure": "outdoors"}).json()["place"] is None


FAULTS = [
    ({"walls": WALLS, "stands": [{"module": "sofa", "wall": "a"}]}, "/place/stands/0/module", "unknown-id"),
    ({"walls": WALLS, "stands": [{"module": "run", "wall": "z"}]}, "/place/stands/0/wall", "unknown-id"),
    ({"walls": WALLS, "stands": [STANDS[0], STANDS[0]]}, "/place/stands/1/module", "values-do-not-go-together"),
    ({"walls": WALLS, "stands": [{"module": "run"}]}, "/place/stands/0/x", "needed-here"),
    ({"walls": WALLS, "stands": [{"module": "run", "x": 5}]}, "/place/stands/0/y", "needed-here"),
    ({"walls": WALLS, "stands": [{"module": "run", "wall": "a", "x": 5}]}, "/place/stands/0/x", "contradiction"),
    ({"walls": WALLS, "stands": [{"module": "run", "corner": True}]}, "/place/stands/0/wall", "needed-here"),
    (
        {"walls": WALLS, "stands": [{"module": "corner", "wall": "b", "corner": True}]},
        "/place/stands/0/corner",
        "needed-here",
    ),
    ({"walls": [WALLS[0], WALLS[0]]}, "/place/walls/1/id", "id-repeated"),
    (
        {"walls": [{**WALLS[0], "corner": {"first": 300, "second": 400, "diagonal": 900}}, WALLS[1]]},
        "/place/walls/0/corner/diagonal",
        "values-do-not-go-together",
    ),
    (
        {"walls": [{**WALLS[0], "corner": {"first": 300, "second": 400, "diagonal": 150}}, WALLS[1]]},
        "/place/walls/0/corner/diagonal",
        "values-do-not-go-together",
    ),
    (
        {"walls": [{**WALLS[0], "corner": {"first": 300, "second": 400, "diagonal": 500}}]},
        "/place/walls/0/corner",
        "unknown-id",
    ),
    (
        {"walls": [{**WALLS[0], "doors": [{"id": "door", "at": 1600, "width": 800}]}]},
        "/place/walls/0/doors/0/at",
        "out-of-range-here",
    ),
    ({"floor": {"fall": 5}}, "/place/floor/towards", "needed-here"),
    (
        {"floor": {"readings": [{"x": i, "y": i, "below": 5} for i in (0, 500, 900)]}},
        "/place/floor/readings",
        "values-do-not-go-together",
    ),
]


@pytest.mark.parametrize(("place", "pointer", "code"), FAULTS, ids=[f"{p} {c}" for _, p, c in FAULTS])
def test_what_cannot_be_is_refused_with_its_place(client, place, pointer, code):
    response = post(client, place)
    assert response.status_code == 422, response.text
    (fault,) = response.json()["errors"]
    assert (fault["pointer"], fault["code"]) == (f"#{pointer}", code)


def test_lengths_of_the_place_are_read_in_the_units_of_the_request(client):
    """59 1/16 in is 1500.19 mm."""
    wall = {"id": "a", "floor": "59 1/16 in", "seat": "1500 mm", "back": 59}
    body = {"units": "in", "modules": [RUN], "place": {"walls": [wall], "stands": STANDS[:1]}, "effort": "quick"}
    fits = client.post("/v1/projects", json=body).json()["place"]["walls"][0]["fits"]
    assert [f["run_mm"] for f in fits] == pytest.approx([1500.2, 1500, 1498.6], abs=0.05)


def test_a_corner_out_of_square_is_told_with_where_the_gap_is(client):
    """Legs of 1 m and a diagonal of 2·sin(44.5°) m: 89°. Behind the corner stays sin(1°) of its side."""
    corner = {"first": 1000, "second": 1000, "diagonal": 2000 * math.sin(math.radians(44.5))}
    answer = post(client, {"walls": [{**WALLS[0], "corner": corner}, WALLS[1]], "stands": STANDS}).json()
    (said,) = [f for f in answer["findings"] if f["code"] == "gap-behind"]
    assert said["value"] == pytest.approx(answer["place"]["largest_gap"]["gap_mm"], abs=0.1)
    side = answer["modules"][1]["overall"]["width_mm"]
    assert said["value"] == pytest.approx(side * math.sin(math.radians(1)), abs=0.2)
    assert "89.0°" in said["message"] and "b behind corner" in said["message"]


def test_the_way_in_says_how_it_goes_and_where_it_is_parted(client):
    long = {"id": "run", "module": "leaning-seat", "parameters": {"bays": 4}}
    stairs = [{"id": "cellar", "kind": "stairs", "width": 800, "height": 1900, "turn": 800}]
    answer = post(client, {"way_in": stairs}, modules=[long]).json()
    (said,) = [f for f in answer["findings"] if f["code"] == "will-not-go-in"]
    assert "cellar (stairs)" in said["message"]
    assert "parted at rib" in said["remedy"] and "kg and" in said["remedy"]
    wide = [{"id": "gate", "kind": "gate", "width": 2600, "height": 1900}]
    codes = {f["code"] for f in post(client, {"way_in": wide}, modules=[long]).json()["findings"]}
    assert not codes & {"will-not-go-in", "goes-in-tilted"}


def test_a_lift_takes_what_fits_inside(client):
    short = {"id": "run", "module": "leaning-seat", "parameters": {"bays": 1, "arms": "none"}}
    for length, stays_out in ((500, True), (900, False)):
        lift = [{"id": "lift", "kind": "lift", "width": 850, "height": 2000, "length": length}]
        codes = {f["code"] for f in post(client, {"way_in": lift}, modules=[short]).json()["findings"]}
        assert ("will-not-go-in" in codes) is stays_out, length


def test_the_households_own_sitters_come_through_the_door(client):
    people = [{"id": "Ada", "knee_back_height": 360, "seat_depth": 430, "hip": 390, "elbow": 210, "mass": 60}]
    answer = client.post("/v1/projects", json={"modules": [RUN], "people": people, "effort": "quick"}).json()
    (said,) = [f for f in answer["findings"] if f["code"].startswith("seat-misses")]
    assert "(Ada)" in said["message"] and said["severity"] == "warning"
    assert not [f for f in answer["findings"] if f["code"] == "seat-unusual"]


@pytest.mark.parametrize("sits", ["dining", "sofa", "lounge", "easy to rise from"])
def test_how_one_sits_picks_the_angles_that_suit(client, sits):
    """Trade tables, seat to back: dining 104 to 108, sofa 106 to 112, lounge 112 to 120 degrees."""
    low = {"dining": 104, "sofa": 106, "lounge": 112, "easy to rise from": 104}[sits]
    answer = client.post("/v1/projects", json={"modules": [{**RUN, "sits": sits}], "effort": "quick"}).json()
    rows = {r["subject"]: r for r in answer["modules"][0]["checks"] if r["check"] == "suits its sitters"}
    assert rows["seat to back"]["demand"] == pytest.approx(102)  # a level seat and the lean of 12 degrees
    assert rows["seat to back"]["capacity"] == low
    assert len([f for f in answer["findings"] if f["code"] == "seat-unusual"]) == 1  # one grouped note a piece


def test_thighs_at_the_projects_own_table(client):
    """Chair 440 under a table clear to 638: 198 mm, and 230 for a thigh of 215 with 15 of clothing."""
    modules = [{"id": "chair", "module": "chair"}, {"id": "table", "module": "dining-table"}]
    thick = [{"id": "Ben", "thigh": 215}]
    body = {"modules": modules, "people": thick, "effort": "quick"}
    found = {f["code"]: f for f in client.post("/v1/projects", json=body).json()["findings"]}
    assert (found["thigh-room-tight"]["value"], found["thigh-room-tight"]["limit"]) == (198, 230)
    answer = client.post("/v1/projects", json={**body, "people": [{"id": "Ada", "thigh": 150}]}).json()
    slim = {f["code"] for f in answer["findings"]}
    assert not slim & {"thigh-room-tight", "thigh-room-small"}


def test_a_seat_is_not_fitted_to_a_small_child(client):
    mo = {"id": "Mo", "knee_back_height": 250, "seat_depth": 280, "hip": 240}
    codes = [
        {f["code"] for f in client.post("/v1/projects", json={"modules": [RUN], "people": [who]}).json()["findings"]}
        for who in (mo, {**mo, "child": True})
    ]
    assert ["seat-misses-sitter" in found for found in codes] == [True, False]
