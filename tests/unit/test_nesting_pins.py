"""Layouts and parts that the caller pins: kept as they are, taken from demand and stock, refused where they contradict.

The sizes are worked out by hand: sheets of 1000 × 600 mm, kerf 4 mm, trim 10 mm all round, so 980 × 580 mm inside.
"""

import copy

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scantling.measure import RequestError
from scantling.nesting import Cutting, Grain, Job, Piece, Stock, Trim, nest, nestings, read_job
from scantling.nesting.checker import check_nesting
from scantling.nesting.pinned_tree import Locked, tree_of

REQUEST = {
    "parts": [
        {"id": "side", "length": 480.0, "width": 280.0, "quantity": 6},
        {"id": "rail", "length": 300.0, "width": 90.0, "quantity": 4, "grain": "any"},
    ],
    "stock": [{"id": "sheet", "length": 1000.0, "width": 600.0, "price": "20.00", "quantity": 3}],
    "saw": {"kerf": 4.0, "trim": 10.0},
    "effort": "quick",
}


def pinned(*layouts, **changes):
    return copy.deepcopy(REQUEST) | changes | {"layouts": list(layouts)}


def at(part, x, y, **more):
    return {"part": part, "x_mm": x, "y_mm": y} | more


def sheet(*placements, **more):
    return {"stock": "sheet", "placements": list(placements)} | more


def test_a_pinned_layout_is_kept_and_only_the_rest_is_nested():
    answer = nestings(pinned(sheet(at("side", 510.0, 10.0), at("rail", 10.0, 300.0))))
    first = answer["layouts"][0]
    assert [(p["part"], p["x_mm"], p["y_mm"]) for p in sorted(first["placements"], key=lambda p: p["part"])] == [
        ("rail", 10.0, 300.0),
        ("side", 510.0, 10.0),
    ]
    placed = [p["part"] for x in answer["layouts"] for p in x["placements"] for _ in range(x["count"])]
    assert (placed.count("side"), placed.count("rail")) == (6, 4)
    assert answer["unplaced"] == []
    # 4 sides fill one sheet (2 × 480 + 4 ≤ 980, 2 × 280 + 4 ≤ 580); with one pinned, 5 are left for two more sheets.
    assert answer["cost"] == "60.00"
    assert sum(x["count"] for x in answer["layouts"]) == 3


def test_an_answer_pinned_whole_comes_back_as_it_was_without_any_search():
    answer = nestings(REQUEST)
    again = nestings(REQUEST | {"layouts": answer["layouts"]})
    assert [x["placements"] for x in again["layouts"]] == [x["placements"] for x in answer["layouts"]]
    assert (again["cost"], again["work"], again["unplaced"]) == (answer["cost"], 0, [])


def test_a_pinned_board_is_kept():
    request = {
        "parts": [{"id": "rail", "length": 900.0, "quantity": 4}],
        "stock": [{"id": "board", "length": 2000.0, "price": "5.00"}],
        "saw": {"kerf": 3.0},
        "layouts": [{"stock": "board", "placements": [{"part": "rail", "x_mm": 1000.0}]}],
    }
    answer = nestings(request)
    assert answer["layouts"][0]["placements"][0]["x_mm"] == 1000.0
    # one rail on the pinned board, then two on each board: 3 left, 2 boards
    assert (answer["cost"], answer["unplaced"]) == ("15.00", [])


def test_pinned_sheets_are_taken_from_the_stock_there_is():
    whole = sheet(at("rail", 10.0, 10.0), count=2)
    answer = nestings(
        pinned(whole, parts=[REQUEST["parts"][0] | {"quantity": 8}, REQUEST["parts"][1] | {"quantity": 2}])
    )
    used = sum(x["count"] for x in answer["layouts"])
    assert used == 3
    assert [u["part"] for u in answer["unplaced"]] == ["side"]
    assert answer["unplaced"][0]["quantity"] == 4


CONTRADICTIONS = {
    "overlap": (pinned(sheet(at("side", 10.0, 10.0), at("side", 400.0, 10.0))), "/layouts/0", "overlap"),
    "closer than the kerf": (
        pinned(sheet(at("side", 10.0, 10.0), at("side", 493.0, 10.0))),
        "/layouts/0",
        "closer than the kerf",
    ),
    "not inside the trim": (pinned(sheet(at("side", 9.0, 10.0))), "/layouts/0", "outside the trimmed sheet"),
    "grain turned": (pinned(sheet(at("side", 10.0, 10.0, turned=True))), "/layouts/0", "grain the wrong way"),
    "another size": (pinned(sheet(at("side", 10.0, 10.0, length_mm=500.0))), "/layouts/0", "cut 500.00 mm long"),
    "no through-cut": (  # a pinwheel of four rails round a hole
        pinned(
            sheet(
                at("rail", 10.0, 10.0),
                at("rail", 320.0, 10.0, turned=True),
                at("rail", 110.0, 320.0),
                at("rail", 10.0, 110.0, turned=True),
            )
        ),
        "/layouts/0",
        "no through-cut",
    ),
    "more than asked for": (
        pinned(*[sheet(*[at("rail", 10.0 + 310.0 * i, 10.0) for i in range(3)])] * 2),
        "/layouts/1/placements/1/part",
        "more of 'rail' are pinned",
    ),
    "more sheets than there are": (
        pinned(sheet(at("side", 10.0, 10.0), count=4)),
        "/layouts/0/count",
        "4 of 'sheet' are pinned here, 3 are left",
    ),
    "unknown stock": (pinned({"stock": "door", "placements": [at("side", 10.0, 10.0)]}), "/layouts/0/stock", "door"),
    "unknown part": (pinned(sheet(at("leg", 10.0, 10.0))), "/layouts/0/placements/0/part", "leg"),
    "pinned elsewhere": (
        pinned(
            sheet(at("side", 10.0, 10.0)),
            parts=[REQUEST["parts"][0] | {"stock": "other"}],
            stock=[*REQUEST["stock"], {"id": "other", "length": 900.0, "width": 600.0, "price": "18.00"}],
        ),
        "/layouts/0",
        "was to come from other",
    ),
    "too many stages": (
        pinned(
            sheet(at("rail", 10.0, 10.0), at("rail", 10.0, 104.0), at("side", 314.0, 10.0)),
            saw={"kerf": 4.0, "trim": 10.0, "stages": 1},
        ),
        "/layouts/0",
        "stages",
    ),
    "a group that is pinned in part": (
        pinned(
            sheet(at("side", 10.0, 10.0)),
            parts=[REQUEST["parts"][0] | {"group": "front", "quantity": 2}],
        ),
        "/layouts/0",
        "1 of its 2 members",
    ),
}


@pytest.mark.parametrize("name", CONTRADICTIONS)
def test_pins_that_contradict_are_refused_with_their_place_before_any_work(name):
    request, place, words = CONTRADICTIONS[name]
    with pytest.raises(RequestError) as refused:
        read_job(request)  # reading alone: no search has begun
    first = refused.value.errors[0]
    assert first.pointer == place
    assert words in first.detail


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(
        st.tuples(st.integers(60, 700), st.integers(40, 500), st.integers(1, 4), st.sampled_from(list(Grain))),
        min_size=1,
        max_size=5,
    ),
    st.sampled_from([0, 100, 317]),
    st.sampled_from([Trim(), Trim(1000, 500, 300, 0)]),
    st.sampled_from(["either", "along", "across"]),
)
def test_any_layout_of_ours_can_be_pinned(sizes, kerf, trim, first):
    """The tree of a pinned layout is worked out from its placements alone; the checker holds it to the cuts."""
    pieces = tuple(Piece(f"p{i}", n * 100, w * 100, q, g) for i, (n, w, q, g) in enumerate(sizes))
    job = Job(pieces, (Stock("s", 120_000, 80_000, price=1),), Cutting(kerf, trim, None, first), 2_000)
    found = nest(job)
    for layout in found.layouts:
        trees = []
        for axis in "xy":
            trees.append(tree_of(layout.placements, job.stock[0], job.cutting, job.least_offcut, axis))
        assert all(tree.along_x == 120_000 for tree in trees)
    plain = {
        "parts": [
            {"id": p.id, "length": p.length / 100, "width": p.width / 100, "quantity": p.quantity, "grain": p.grain}
            for p in pieces
        ],
        "stock": [{"id": "s", "length": 1200.0, "width": 800.0, "price": "0.0001"}],
        "saw": {
            "kerf": kerf / 100,
            "trim": {side: getattr(trim, side) / 100 for side in ("start", "end", "near", "far")},
            "first_cut": first,
        },
        "effort": 2_000,
        "layouts": [
            {
                "stock": "s",
                "count": layout.count,
                "placements": [at(p.part, p.x / 100, p.y / 100, turned=p.turned) for p in layout.placements],
            }
            for layout in found.layouts
        ],
    }
    if not plain["layouts"]:
        return
    kept = read_job(plain)
    again = nest(kept)
    assert check_nesting(kept, again) == ()
    assert again.objective == found.objective


def test_a_pinwheel_is_told_to_be_locked():
    job = read_job(REQUEST)
    wheel = CONTRADICTIONS["no through-cut"][0]["layouts"][0]["placements"]
    from scantling.nesting.nouns import Placement

    placements = tuple(
        Placement("rail", round(p["x_mm"] * 100), round(p["y_mm"] * 100), 30_000, 9_000, p.get("turned", False))
        for p in wheel
    )
    with pytest.raises(Locked, match="rail"):
        tree_of(placements, job.stock[0], job.cutting, job.least_offcut, "x")
