"""What a dry fit is told beside the piece: drivers, loads, limits, and what moves; checked against plain geometry."""

import copy
from math import asin, atan2, degrees, hypot

import pytest

from dryfit_pieces import bench, empty
from scantling.api.schemas.examples import DRY_FITS
from scantling.board import assembly_to_plain

LID = DRY_FITS["lid"]["value"]


def fit(client, **changed):
    response = client.post("/v1/dry-fits", json={**copy.deepcopy(LID), **changed})
    assert response.status_code == 200, response.text
    return response.json()


def refused(client, **changed):
    response = client.post("/v1/dry-fits", json={**copy.deepcopy(LID), **changed})
    assert response.status_code == 422, response.text
    return [error["pointer"] for error in response.json()["errors"]]


def motion(**changed):
    return {**LID["motions"][0], **changed}


def test_a_lid_meets_the_wall_where_geometry_says(client):
    """Open by 90 degrees and b more, the far upper edge of the lid (300 x 18 mm) leans 300 sin b + 18 cos b behind the
    hinge line; the wall is 30 mm behind it."""
    (swept,) = fit(client)["motions"]
    meets = 90 + degrees(asin(30 / hypot(300, 18)) - atan2(18, 300))
    assert swept["clashes_with"] == ["wall"]
    assert -swept["free"] == pytest.approx(meets, abs=0.05)  # the fit is 0.05 mm of 300
    assert swept["at_mm"][1] == pytest.approx(330, abs=0.3)


def test_without_a_wall_it_opens(client):
    (swept,) = fit(client, motions=[motion(walls=None)])["motions"]
    assert swept["free"] == -110
    assert swept["clashes_with"] == []


def test_a_drawer_pushed_the_wrong_way_clashes_at_once(client):
    (swept,) = fit(client, motions=[motion(kind="slide", axis=[0, 0, -1], travel=50)])["motions"]
    assert swept["clashes_with"] == ["bottom"]
    assert swept["free"] == pytest.approx(0.05, abs=0.06)  # the fit
    assert swept["least_gap_mm"] is None


def test_a_motion_needs_parts_a_direction_and_a_travel(client):
    assert refused(client, motions=[motion(travel=0)]) == ["#/motions/0/travel"]
    assert refused(client, motions=[motion(axis=[1, 1, 1])]) == ["#/motions/0/axis"]
    assert refused(client, motions=[motion(parts=["flap"])]) == ["#/motions/0/parts"]


def test_a_load_moves_the_centre_of_gravity(client):
    def balance(loads):
        return fit(client, settings={"loads": loads})["balance"]

    assert balance([]) != balance([{"id": "jar", "mass_kg": 20, "at_mm": [20, 20, 36]}])


@pytest.mark.parametrize(
    ("settings", "at"),
    [
        ({"fit_mm": 2}, "/settings/fit_mm"),
        ({"near_mm": -1}, "/settings/near_mm"),
        ({"tools": []}, "/settings/tools"),
        ({"loads": [{"id": "a", "mass_kg": 0, "at_mm": [0, 0, 0]}]}, "/settings/loads/0/mass_kg"),
        ({"screw_gap_mm": 60}, "/settings/screw_gap_mm"),
    ],
)
def test_settings_out_of_range_are_refused_with_their_place(client, settings, at):
    assert refused(client, settings=settings) == [f"#{at}"]


def test_what_rounding_may_open_is_an_input_and_what_it_opens_is_shown_either_way(client):
    """A rail of 860.45 mm between two sides, cut at 860: 0.45 mm, glued. Told above a limit of 0.4, not of 0.5."""
    piece = empty()
    left = piece.part("left", 400, 300, "ply").lay("z", "y").put(x0=0, y0=0, z0=0)
    rail = piece.part("rail", 860.45, 89, "ply").lay("x", "z").put(x0=18, yc=150, z0=150)
    right = piece.part("right", 400, 300, "ply").lay("z", "y").put(x0=878.45, y0=0, z0=0)
    for side in (left, right):
        piece.glue(side, rail)
    for settings, told in (({}, True), ({"open_limit_mm": 0.5}, False)):
        body = {"assembly": assembly_to_plain(piece), "settings": {"tape": "1 mm", **settings}}
        answer = client.post("/v1/dry-fits", json=body).json()
        assert ("tape-rounding" in {f["code"] for f in answer["findings"]}) is told
        assert [(g["part"], round(g["error_mm"], 2)) for g in answer["rounding"]["gaps"]] == [("rail", -0.45)]


def test_chains_are_answered_with_their_place(client):
    answer = client.post("/v1/dry-fits", json={"assembly": assembly_to_plain(bench())}).json()
    (chain,) = answer["chains"]
    assert (chain["axis"], chain["from_mm"], chain["to_mm"], chain["ruled_by"]) == ([1, 0, 0], 0, 900, None)
    assert answer["rounding"] is None
