"""Which saw makes which cut: limits stated and usual, weight, the hand saw, the seller's saw, faces, bevels."""

from dataclasses import replace
from math import cos, radians

import pytest

from scantling.findings import Severity, catalogue
from scantling.measure import RequestError
from scantling.nesting.cutting_findings import find_cutting
from scantling.nesting.nouns import Cutting, Job, Layout, Node, Piece, Placement, Stock
from scantling.nesting.saw_profile import usual_limits
from scantling.nesting.saws import Operation, SawKind, Saws, bevelled_kerf, parse_saws, usual_saw
from scantling.nesting.sequence import cut_sequence
from scantling.nesting.sheet_face import mirrored_y, sheet_face
from scantling.tables import Status

TABLE = {"id": "bench saw", "kind": "table saw", "kerf": 3.0, "rip": 600, "crosscut": 500}
TRACK = {"id": "rail saw", "kind": "track saw", "kerf": 2.2, "guide": 2800}
MITRE = {"id": "chop saw", "kind": "mitre saw", "kerf": 2.4, "crosscut": 300}
SELLER = {"id": "seller", "kind": "panel saw", "kerf": 3.2, "most_cuts": 2, "least_width": 300}

RIP = Operation(rip=True, travel=244_000, wanted=30_000, other=91_000, thickness=1800)
CROSSCUT = Operation(rip=False, travel=10_000, wanted=60_000, other=90_000, thickness=1800)


def chosen(saws: list[dict[str, object]], operation: Operation, **others: float) -> tuple[str, str, int]:
    choice = parse_saws(saws, **others).choose(operation)  # type: ignore[arg-type]
    return choice.saw.id, choice.method, choice.setting


def test_rips_go_to_the_fence_and_narrow_crosscuts_to_the_stop() -> None:
    shop = [TABLE, TRACK, MITRE]
    assert chosen(shop, RIP) == ("bench saw", "fence", 30_000)
    assert chosen(shop, CROSSCUT) == ("chop saw", "stop", 60_000)
    assert chosen(shop, replace(CROSSCUT, travel=35_000)) == ("bench saw", "stop", 60_000)
    assert chosen(shop, replace(CROSSCUT, travel=122_000, wanted=70_000)) == ("rail saw", "guide", 70_000)


def test_a_strip_wider_than_the_fence_reaches_goes_to_the_guide_or_is_set_from_the_other_side() -> None:
    wide = replace(RIP, wanted=80_000, other=41_000)
    assert chosen([TABLE], wide) == ("bench saw", "fence", 41_000)
    assert chosen([TABLE, TRACK], replace(wide, other=80_000)) == ("rail saw", "guide", 80_000)


def test_a_heavy_sheet_is_not_pushed_over_a_table_saw_by_one_person() -> None:
    sheet = replace(RIP, mass_kg=36.0)
    assert chosen([TABLE, TRACK], sheet)[0] == "rail saw"
    assert chosen([TABLE, TRACK], sheet, people=2)[0] == "bench saw"
    alone = parse_saws([TABLE]).choose(sheet)
    assert (alone.saw.id, alone.too_heavy) == ("bench saw", True)


def test_the_seller_takes_the_heavy_first_cuts_only_and_so_many() -> None:
    sheet = replace(RIP, mass_kg=36.0, wanted=60_000)
    assert chosen([TABLE, SELLER], sheet)[0] == "seller"
    assert chosen([TABLE, SELLER], replace(sheet, fresh=False))[0] == "bench saw"
    assert chosen([TABLE, SELLER], replace(sheet, seller_cuts=2))[0] == "bench saw"
    assert chosen([TABLE, SELLER], replace(sheet, wanted=25_000))[0] == "bench saw"


def test_a_short_piece_is_left_to_the_hand_saw() -> None:
    """Popular Woodworking, November 2007, p. 55: no machine work on stock up to 12 in (305 mm) long."""
    stub = Operation(rip=False, travel=5_000, wanted=12_000, other=15_000, thickness=1800)
    choice = parse_saws([TABLE, MITRE]).choose(stub)
    assert (choice.saw.kind, choice.by_hand) == (SawKind.HAND, True)
    assert {o.limit for o in choice.obstacles} == {"least_piece"}
    assert chosen([TABLE, MITRE], replace(stub, other=19_000))[0] == "chop saw"


def test_a_strip_narrower_than_half_an_inch_is_not_ripped() -> None:
    assert parse_saws([TABLE]).choose(replace(RIP, wanted=1200, other=200_000)).by_hand


def test_thick_wood_needs_depth_and_depth_falls_with_the_cosine_of_the_bevel() -> None:
    """A 10 in table saw: 3 1/8 in upright, 2.21 in at 45° by the cosine rule (university shop page)."""
    saw = usual_saw(SawKind.TABLE)
    assert saw.depth == pytest.approx(3.125 * 2540, abs=1)
    assert saw.depth_at(45) == pytest.approx(2.21 * 2540, abs=1)
    assert saw.depth_at(30) == pytest.approx(3.125 * 2540 * cos(radians(30)), abs=1)
    stated = parse_saws([TABLE | {"depth": 80}]).saws[0]
    assert stated.depth_at(45) == pytest.approx(8000 * cos(radians(45)), abs=1)
    thick = replace(RIP, thickness=8000)
    assert parse_saws([TABLE]).choose(thick).by_hand
    assert parse_saws([TABLE]).choose(replace(RIP, thickness=6000, bevel=45.0)).by_hand
    assert not parse_saws([TABLE]).choose(replace(RIP, thickness=5500, bevel=45.0)).by_hand
    assert parse_saws([TABLE]).choose(replace(RIP, bevel=46.0)).by_hand


def test_a_remembered_limit_asks_and_never_refuses() -> None:
    """No guide length is stated, so the usual 1400 mm (practice) only asks for the saw's own figure."""
    unstated = {"id": "rail saw", "kind": "track saw", "kerf": 2.2}
    choice = parse_saws([unstated]).choose(RIP)
    assert (choice.saw.id, choice.by_hand) == ("rail saw", False)
    assert [(o.limit, o.refuses) for o in choice.obstacles] == [("guide", False)]
    assert parse_saws([unstated | {"guide": 1400}]).choose(RIP).by_hand


def test_every_usual_limit_has_a_source_and_memory_is_marked() -> None:
    for kind in SawKind:
        assert {"kerf", "error"} <= usual_limits(kind).keys()
    assert usual_limits(SawKind.TABLE)["rip"][1] is Status.MEMORY
    assert usual_limits(SawKind.MITRE)["crosscut"] == (pytest.approx(139.7), Status.READ)


def test_a_tilted_blade_takes_its_kerf_over_the_cosine() -> None:
    assert bevelled_kerf(300, 0) == 300
    assert bevelled_kerf(300, 45) == 425  # 3.00 / cos 45° = 4.243 mm, rounded up
    assert bevelled_kerf(318, 60) == 636


@pytest.mark.parametrize(
    ("entry", "pointer", "code"),
    [
        ({"id": "x", "kind": "chain saw", "kerf": 3}, "/saws/0/kind", "unknown-kind"),
        ({"kind": "table saw", "kerf": 3}, "/saws/0/id", "missing"),
        ({"id": "x", "kind": "table saw", "kerf": -1}, "/saws/0/kerf", "out-of-range"),
        ({"id": "x", "kind": "table saw", "kerf": float("nan")}, "/saws/0/kerf", "out-of-range"),
        ({"id": "x", "kind": "table saw", "kerf": "3"}, "/saws/0/kerf", "out-of-range"),
        ({"id": "x", "kind": "table saw", "kerf": 3, "rip": True}, "/saws/0/rip", "out-of-range"),
        ({"id": "x", "kind": "table saw", "kerf": 3, "colour": "red"}, "/saws/0/colour", "unknown-member"),
        ({"id": "x", "kind": "table saw", "kerf": 3, "bevel_limit": 75}, "/saws/0/bevel_limit", "out-of-range"),
        ({"id": "x", "kind": "panel saw", "kerf": 3, "most_cuts": 1.5}, "/saws/0/most_cuts", "out-of-range"),
        ({"id": "x", "kind": "table saw", "kerf": 3, "tilts": "up"}, "/saws/0/tilts", "unknown-side"),
        ({"id": "x", "kind": "table saw", "kerf": 3, "setting_error": -0.5}, "/saws/0/setting_error", "out-of-range"),
    ],
)
def test_a_bad_saw_is_pointed_at(entry: dict[str, object], pointer: str, code: str) -> None:
    with pytest.raises(RequestError) as caught:
        parse_saws([entry])
    assert [(e.pointer, e.code) for e in caught.value.errors] == [(pointer, code)]
    assert "accepted" in caught.value.errors[0].detail


def test_two_saws_with_one_id_are_refused_and_all_faults_are_named_at_once() -> None:
    with pytest.raises(RequestError) as caught:
        parse_saws([TABLE, TABLE, MITRE | {"kerf": 0}])
    assert [e.pointer for e in caught.value.errors] == ["/saws/1/id", "/saws/2/kerf"]


def two_strips(material: str | None = "birch-plywood") -> tuple[Layout, Job]:
    """A sheet of 2440 × 1220 mm ripped into two strips, 450 mm and the rest."""
    first = Node(0, 0, 244_000, 45_000, part="narrow")
    second = Node(0, 45_320, 244_000, 76_680, part="wide")
    root = Node(0, 0, 244_000, 122_000, "y", (first, second))
    placements = (Placement("narrow", 0, 0, 244_000, 45_000), Placement("wide", 0, 45_320, 244_000, 76_680))
    stock = Stock("sheet", 244_000, 122_000, material, 1800)
    pieces = (Piece("narrow", 244_000, 45_000), Piece("wide", 244_000, 76_680))
    return Layout("sheet", 1, placements, (), root), Job(pieces, (stock,), Cutting(kerf=320), 1)


def findings(saws: Saws) -> dict[str, Severity]:
    layout, job = two_strips()
    cuts = cut_sequence(layout, job, saws)
    found = find_cutting((layout,), (cuts,), job, saws)
    assert all(f.code in catalogue() for f in found)
    return {f.code: f.severity for f in found}


def test_a_layout_beyond_the_saws_says_which_part_and_what_would_help() -> None:
    small = parse_saws([TABLE | {"rip": 250}, TRACK | {"guide": 1400}])
    layout, job = two_strips()
    finding, floor = find_cutting((layout,), (cut_sequence(layout, job, small),), job, small)
    assert floor.code == "cut-on-the-floor"
    assert (finding.code, finding.severity) == ("cut-beyond-saws", Severity.ERROR)
    assert finding.parts == ("narrow", "wide")
    assert "longest cut along the guide 1400 mm, needed 2440 mm" in finding.message
    assert "longer guide" in (finding.remedy or "")
    assert "straight strip" in (finding.remedy or "")


def test_what_can_be_cut_raises_no_error() -> None:
    floor = {"cut-on-the-floor": Severity.NOTE}  # the whole sheet weighs more than one person lifts
    assert findings(parse_saws([TABLE | {"error": 0.2}, TRACK | {"error": 0.4}])) == floor
    assert findings(parse_saws([TABLE | {"error": 0.2}, TRACK | {"error": 0.4}], carry_kg=60)) == {}
    assert findings(parse_saws([TABLE | {"error": 0.2}])) == {"piece-too-heavy": Severity.WARNING}
    assert (
        findings(parse_saws([{"id": "t", "kind": "track saw", "kerf": 2.2}]))
        == {"cut-limit-unknown": Severity.WARNING} | floor
    )


def test_a_kerf_wider_than_the_layout_is_an_error() -> None:
    assert findings(parse_saws([TRACK | {"kerf": 3.5}]))["kerf-wider-than-layout"] is Severity.ERROR


def test_a_narrow_rip_wants_a_push_stick() -> None:
    first = Node(0, 0, 100_000, 4_000, part="lath")
    root = Node(0, 0, 100_000, 60_000, "y", (first, Node(0, 4_320, 100_000, 55_680)))
    job = Job((Piece("lath", 100_000, 4_000),), (Stock("s", 100_000, 60_000),), Cutting(320), 1)
    layout = Layout("s", 1, (Placement("lath", 0, 0, 100_000, 4_000),), (), root)
    saws = parse_saws([TABLE])
    (finding,) = find_cutting((layout,), (cut_sequence(layout, job, saws),), job, saws)
    assert finding.code == "push-stick"
    assert "push block" in finding.message


def test_a_rough_saw_at_finished_sizes_is_noted() -> None:
    saws = parse_saws([{"id": "c", "kind": "circular saw", "kerf": 2.0, "guide": 2600}])
    assert findings(saws) == {"rough-cut": Severity.NOTE, "cut-on-the-floor": Severity.NOTE}


def test_the_good_face_lies_as_the_saw_wants_it_and_the_drawing_is_mirrored() -> None:
    """Table saw: good face up; portable circular saw: good face down (APA, Building Hints)."""
    layout, job = two_strips(material=None)
    for saw, face, mirrored in ((TABLE, "face", False), ({"kind": "circular saw", "guide": 2600}, "back", True)):
        saws = parse_saws([saw | {"id": "s", "kerf": 3.0}])
        lies = sheet_face(cut_sequence(layout, job, saws), saws)
        assert (lies.face_up, lies.mirrored, lies.saw) == (face, mirrored, "s")
    assert mirrored_y(0, 45_000, 122_000) == 77_000
    unknown = sheet_face(cut_sequence(layout, job), None)
    assert (unknown.face_up, unknown.mirrored) == (None, False)


def test_the_side_the_blade_tilts_to_is_told() -> None:
    layout, job = two_strips(material=None)
    saws = parse_saws([TABLE | {"tilts": "left"}])
    assert sheet_face(cut_sequence(layout, job, saws), saws).to_plain()["tilts"] == "left"
