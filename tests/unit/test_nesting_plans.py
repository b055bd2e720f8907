"""Which plan is chosen: the caller's aims in their order, the cheapest always shown, more effort never dearer."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scantling.nesting import Cutting, Grain, Job, Nesting, Piece, Stock, StoppedBy, Trim, nest, nestings
from scantling.nesting.alike import cut_alike
from scantling.nesting.arrange import arranged
from scantling.nesting.checker import check_nesting
from scantling.nesting.measuring import measure
from scantling.nesting.nest_for_saws import nest_for_saws
from scantling.nesting.nouns import Aim, Layout, Measures, Node, Objective, Offcut, Placement
from scantling.nesting.plans import Candidate, choice_in_words, choose

KITCHEN = {
    "parts": [
        {"id": "side", "length": 720.0, "width": 560.0, "quantity": 8},
        {"id": "shelf", "length": 764.0, "width": 540.0, "quantity": 9},
        {"id": "door", "length": 716.0, "width": 397.0, "quantity": 8},
        {"id": "rail", "length": 764.0, "width": 100.0, "quantity": 8, "grain": "any"},
        {"id": "drawer", "length": 500.0, "width": 150.0, "quantity": 16, "grain": "any"},
    ],
    "stock": [
        {"id": "sheet", "length": 2440.0, "width": 1220.0, "price": "62.00"},
        {"id": "half", "length": 1220.0, "width": 1220.0, "price": "34.00"},
    ],
    "saw": {"kerf": 3.2, "trim": 10.0},
    "effort": "quick",
}
JOB = Job((), (), Cutting(), 1)
EMPTY = Nesting((), (), None, None, False, 0, StoppedBy.EFFORT)


def candidate(objective, remainder=(0, 0), settings=1, cuts=1, layouts=1, missing=0, beyond=0):
    measures = Measures(missing, beyond, objective, remainder, settings, cuts, layouts)
    return Candidate(replace(EMPTY, objective=objective, cost=objective), measures)


def picked(candidates, order=tuple(Aim), worth=200):
    nesting = choose(replace(JOB, aims=Objective(order, worth)), candidates)
    assert [p.chosen for p in nesting.plans] == [True] + [False] * (len(nesting.plans) - 1)
    return nesting


def test_costs_within_the_worth_count_as_equal_and_the_cheapest_is_still_shown():
    cheap, easy = candidate(100_000, settings=9, cuts=30), candidate(102_000, settings=4, cuts=20)
    found = picked([cheap, easy])
    assert found.objective == 102_000
    assert [(p.name, p.measures.objective) for p in found.plans] == [
        ("easier to cut", 102_000),
        ("cheapest", 100_000),
    ]
    assert [f.code for f in found.findings] == ["cheaper-plan"]
    assert picked([cheap, candidate(102_001, settings=4)]).objective == 100_000  # 2 % and a hundredth of a cent
    assert picked([cheap, easy], worth=0).objective == 100_000


@pytest.mark.parametrize(
    ("order", "wanted"),
    [
        ((Aim.MONEY, Aim.REMAINDER, Aim.SETTINGS), 101_000),
        ((Aim.MONEY, Aim.SETTINGS, Aim.REMAINDER), 100_500),
        ((Aim.MONEY, Aim.CUTS), 100_000),
        ((Aim.MONEY, Aim.LAYOUTS), 100_700),
        ((Aim.SETTINGS, Aim.MONEY), 150_000),
        ((Aim.MONEY,), 100_000),
    ],
)
def test_the_order_of_the_aims_is_the_callers(order, wanted):
    candidates = [
        candidate(100_000, (500, 100), settings=9, cuts=10, layouts=5),
        candidate(101_000, (900, 900), settings=9, cuts=11, layouts=5),
        candidate(100_500, (10, 10), settings=3, cuts=12, layouts=5),
        candidate(100_700, (10, 10), settings=4, cuts=12, layouts=1),
        candidate(150_000, (10, 10), settings=1, cuts=12, layouts=4),
    ]
    assert picked(candidates, order).objective == wanted
    assert picked(candidates[::-1], order).objective == wanted


def test_nothing_missing_and_cuts_the_saws_can_make_come_before_every_aim():
    whole = candidate(200_000, settings=9)
    assert picked([candidate(100_000, missing=1), whole]).objective == 200_000
    assert picked([candidate(100_000, beyond=1), whole]).objective == 200_000


def test_the_answer_names_its_plans_and_what_they_take():
    answer = nestings(KITCHEN)
    chosen = answer["plans"][0]
    assert (chosen["chosen"], chosen["cost"]) == (True, answer["cost"])
    assert chosen["cuts"] == answer["cuts"]
    assert chosen["settings"] == len(answer["settings"])
    assert chosen["remainder"] is not None
    largest = max(o["length_mm"] * o["width_mm"] for o in answer["offcuts"])
    assert chosen["remainder"]["length_mm"] * chosen["remainder"]["width_mm"] == pytest.approx(largest)
    easier = nestings(KITCHEN | {"objective": {"order": ["money", "settings", "cuts"]}})["plans"][0]
    assert easier["settings"] <= chosen["settings"]
    for other in answer["plans"][1:]:
        again = nestings(KITCHEN | {"layouts": other["layouts"]})
        assert again["cost"] == other["cost"]
        assert [x["placements"] for x in again["layouts"]] == [x["placements"] for x in other["layouts"]]


sizes = st.tuples(st.integers(100, 900), st.integers(60, 500), st.integers(1, 6), st.sampled_from(list(Grain)))


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(sizes, min_size=1, max_size=6), st.integers(0, 10), st.sampled_from([1_000, 5_000, 20_000]))
def test_more_effort_never_gives_worse_by_what_is_promised(sizes, worth, effort):
    """Promised: no more is missing, the cheapest is not dearer, the chosen within the worth of the cheapest."""
    pieces = tuple(Piece(f"p{i}", n * 100, w * 100, q, g) for i, (n, w, q, g) in enumerate(sizes))
    stock = (Stock("full", 122_000, 122_000, price=30_000, quantity=6), Stock("half", 122_000, 61_000, price=16_000))
    job = Job(pieces, stock, Cutting(320, Trim(500, 500, 500, 500)), effort, aims=Objective(worth=worth * 100))
    before = None
    for times in (1, 3, 9):
        found = nest_for_saws(replace(job, effort=effort * times), None, nest)
        assert check_nesting(job, found) == ()
        cheapest = min(p.measures.objective for p in found.plans)
        assert found.objective * 100 <= cheapest * (100 + worth)
        assert found.objective == found.plans[0].measures.objective
        now = (sum(u.quantity for u in found.unplaced), cheapest)
        assert before is None or now <= before
        before = now


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(sizes, min_size=2, max_size=6), st.randoms(use_true_random=False))
def test_the_order_of_the_request_does_not_matter_to_the_plan(sizes, random):
    pieces = [Piece(f"p{i}", n * 100, w * 100, q, g) for i, (n, w, q, g) in enumerate(sizes)]
    stock = [Stock("full", 122_000, 122_000, price=30_000), Stock("half", 122_000, 61_000, price=16_000)]
    job = Job(tuple(pieces), tuple(stock), Cutting(320), 3_000)
    random.shuffle(pieces)
    random.shuffle(stock)
    shuffled = replace(job, pieces=tuple(pieces), stock=tuple(stock))
    assert nest_for_saws(shuffled, None, nest) == nest_for_saws(job, None, nest)


def row(*sizes: int) -> Layout:
    """A sheet 1000 mm wide, used up by a row of parts along x with a kerf of 2 mm between them."""
    at, children, placements = 0, [], []
    for i, size in enumerate(sizes):
        children.append(Node(at, 0, size, 50_000, part=f"p{size}"))
        placements.append(Placement(f"p{size}", at, 0, size, 50_000))
        at += size + (200 if i < len(sizes) - 1 else 0)
    return Layout("s", 1, tuple(placements), (), Node(0, 0, at, 50_000, "x", tuple(children)))


def test_the_size_that_is_set_nowhere_else_is_what_the_last_cut_leaves():
    """Two sheets in rows of 300, 300, 396 and 300, 696 with 2 mm kerf: with 300 set once, nothing else need be set."""
    layouts = (row(39_600, 30_000, 30_000), row(69_800, 30_000))
    stock = Stock("s", 100_000, 50_000, price=1)
    pieces = tuple(Piece(f"p{n}", n, 50_000, q) for n, q in ((39_600, 1), (30_000, 3), (69_800, 1)))
    job = Job(pieces, (stock,), Cutting(200), 1)
    nesting = Nesting(layouts, (), 2, 2, True, 0, StoppedBy.PROOF, objective=2, objective_bound=2)
    assert check_nesting(job, nesting) == ()
    assert measure(job, nesting, None).settings == 3
    better = arranged(job, nesting)
    assert check_nesting(job, better) == ()
    assert measure(job, better, None).settings == 1
    assert [p.part for p in better.layouts[0].placements] == ["p30000", "p30000", "p39600"]


def test_sheets_with_the_same_parts_are_cut_alike():
    one, other = row(49_900, 49_900), row(49_900, 49_900)
    twisted = replace(
        other,
        placements=(replace(other.placements[0], y=0), replace(other.placements[1], y=0)),
        offcuts=(Offcut(0, 0, 1, 1),),
    )
    job = Job((Piece("p49900", 49_900, 50_000, 4),), (Stock("s", 100_000, 50_000, price=1),), Cutting(200), 1)
    nesting = Nesting((one, twisted), (), 2, 2, True, 0, StoppedBy.PROOF, objective=2, objective_bound=2)
    alike = cut_alike(job, nesting)
    assert [layout.count for layout in alike.layouts] == [2]
    assert cut_alike(job, replace(nesting, layouts=(one,))).layouts == (one,)


def test_equal_sheets_of_equal_parts_come_out_as_one_layout():
    """36 parts of 764 × 380 mm, nine to a sheet of 2440 × 1220 mm: four sheets, all cut alike."""
    request = KITCHEN | {"parts": [{"id": "shelf", "length": 764.0, "width": 380.0, "quantity": 36}]}
    answer = nestings(request)
    assert [x["count"] for x in answer["layouts"]] == [4]


def test_the_choice_is_told_in_words_for_a_summary():
    cheap, easy = candidate(100_000, settings=9, cuts=30), candidate(102_000, settings=4, cuts=20)
    assert choice_in_words(picked([cheap, easy]).plans) == (
        "this plan is easier to cut: 4 saw settings, 20 cuts; cheapest, 10.00: 9 saw settings, 30 cuts"
    )
    assert choice_in_words(picked([cheap]).plans) == ""
