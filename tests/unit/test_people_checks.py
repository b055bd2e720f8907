"""Seats against sitters, children's openings and chests, glue, weather, places and cautions: what is said and when."""

import pytest

from scantling.findings import Severity
from scantling.mechanics.cautions import Work, check_work, held_long_enough, noise_minutes_osha, rip_help
from scantling.mechanics.children import (
    Chest,
    Opening,
    check_bunk,
    check_chest,
    check_moving_gap,
    check_opening,
    lid_torque,
)
from scantling.mechanics.exposure import (
    Outdoors,
    asked_for,
    check_exposure,
    exposure_class,
    metal_corrodes,
    wood_decays,
)
from scantling.mechanics.glue import GlueLine, carrier, check_glue, clamp_force, credited_area, dowel_bond
from scantling.mechanics.loads import Load, sitting
from scantling.mechanics.seating import Seat, Sitter, check_knees, check_seat, check_table
from scantling.mechanics.upholstery import effective_depth, loaded_height
from scantling.mechanics.validity import OutOfValidity
from scantling.tables import Status

IN = 25.4


def sofa(**changes):
    sizes = {"kind": "sofa", "hard_height_mm": 330, "depth_mm": 560, "width_mm": 1800, "places": 3}
    sizes |= {"cushion_mm": 127, "sink": 0.55, "back_cushion_mm": 110, "tilt_deg": 5, "seat_to_back_deg": 108}
    return Seat(**(sizes | changes))


def test_an_ordinary_sofa_says_nothing():
    result = check_seat(sofa())
    assert result.loaded_mm == pytest.approx(330 + 127 * 0.45)
    assert result.findings() == ()
    assert "ANSUR" in result.assumed[0]


def test_misses_are_one_grouped_note_for_a_population():
    found = check_seat(sofa(hard_height_mm=520, seat_to_back_deg=125, width_mm=1200)).findings()
    assert [(f.code, f.severity) for f in found] == [("seat-unusual", Severity.NOTE)]
    assert all(word in found[0].message for word in ("loaded seat height", "seat to back", "width for each", "ANSUR"))


def test_the_households_own_sitters_come_first():
    short = Sitter("Ada", knee_back_mm=355, seat_depth_mm=430, hip_mm=380, elbow_mm=200, mass_kg=58)
    result = check_seat(sofa(hard_height_mm=420), (short,))
    assert [(f.code, f.severity) for f in result.findings()] == [("seat-misses-sitter", Severity.WARNING)]
    assert "the people who sit here" in result.findings()[0].message
    assert result.assumed == ()


def test_arms_are_set_against_elbows():
    assert check_seat(sofa(arm_mm=230)).findings() == ()
    assert "arm above the loaded seat" in check_seat(sofa(arm_mm=400)).findings()[0].message


def test_easy_to_rise_from_sits_higher():
    low = check_seat(
        sofa(kind="easy to rise from", hard_height_mm=360, cushion_mm=40, tilt_deg=3, seat_to_back_deg=105)
    )
    high = check_seat(
        sofa(kind="easy to rise from", hard_height_mm=455, cushion_mm=40, tilt_deg=3, seat_to_back_deg=105)
    )
    assert "loaded seat height" in low.findings()[0].message
    assert high.findings() == ()


def test_unknown_kind_names_the_kinds():
    with pytest.raises(ValueError, match="lounge"):
        check_seat(sofa(kind="throne"))


def test_cushion_arithmetic():
    """24 in seat cushion, 6 in back cushion: 18 in to sit on; 27 less 6: 21 in (worked out)."""
    assert effective_depth(24 * IN, 6 * IN) / IN == pytest.approx(18)
    assert effective_depth(27 * IN, 6 * IN) / IN == pytest.approx(21)
    assert loaded_height(368, 127, 0.5) == pytest.approx(431.5)
    with pytest.raises(OutOfValidity):
        loaded_height(368, 127, 1.5)


@pytest.mark.parametrize(("apron", "codes"), [(610, ["thigh-room-tight"]), (640, ["thigh-room-small"]), (665, [])])
def test_thighs_under_a_table(apron, codes):
    assert [f.code for f in check_table(apron, 445)] == codes


def test_knees():
    assert check_knees(640) == ()
    assert [f.code for f in check_knees(600)] == ["knee-room-small"]


@pytest.mark.parametrize(
    ("clear", "codes"),
    [
        (5, []),
        (15, ["opening-traps-finger"]),
        (60, []),
        (88, []),
        (100, ["opening-traps-head"]),
        (228, ["opening-traps-head"]),
        (240, []),
    ],
)
def test_openings(clear, codes):
    assert [f.code for f in check_opening(Opening("A gap", clear))] == codes


def test_openings_without_children_and_outdoors():
    assert check_opening(Opening("A gap", 150, children=False)) == ()
    assert [f.code for f in check_opening(Opening("A hole", 10, children=False, outdoor=True))] == [
        "opening-traps-finger"
    ]
    assert check_opening(Opening("A shallow hole", 10, depth_mm=5, children=False, outdoor=True)) == ()


def test_moving_gaps():
    assert [f.code for f in check_moving_gap("The flap", 2, 20)] == ["moving-gap-squeezes"]
    assert (
        check_moving_gap("The flap", 26, 60)
        == check_moving_gap("The slide", 2, 6)
        == check_moving_gap("Fixed", 15, 15)
        == ()
    )
    assert [f.code for f in check_moving_gap("The arm", 5, 20, outdoor=True)] == ["moving-gap-squeezes"]


def test_chests():
    bare = Chest(1219, 457, 381, lid_kg=4.536, lid_depth_mm=457.2)
    assert [f.code for f in check_chest(bare).findings()] == ["chest-needs-air", "lid-can-drop"]
    good = Chest(1219, 457, 381, (700, 700), 200, 4.536, 457.2, support_nm=12)
    assert check_chest(good).findings() == ()
    latched = Chest(1219, 457, 381, (700, 700), 200, latch=True)
    assert "latches" in check_chest(latched).findings()[0].message
    assert check_chest(Chest(300, 300, 300, lid_kg=4.5, lid_depth_mm=300)).findings() == ()


def test_lid_torque():
    """18 in lid of 10 lb: 90 in lb, 63.6 at 45 degrees (worked out; the shop rule is depth times weight over two)."""
    inch_pound = 4.448222 * IN / 1000
    assert lid_torque(10 * 0.45359237, 18 * IN) / inch_pound == pytest.approx(90, rel=1e-4)
    assert lid_torque(10 * 0.45359237, 18 * IN, 45) / inch_pound == pytest.approx(63.64, rel=1e-3)


def test_bunks():
    assert [f.code for f in check_bunk(1000, 100)] == ["guard-too-low"]
    assert check_bunk(1000, 130) == check_bunk(700, 0) == ()


def joint(**changes):
    members = {"title": "Side to bottom", "area_mm2": 18 * 400, "surfaces": ("long grain", "long grain")}
    return GlueLine(**(members | {"shear_mpa": (0.93, 1.24), "clamped": True} | changes))


def test_glue_takes_the_weaker_wood_and_never_end_grain():
    result = check_glue(joint(), sitting(1), 5000)
    assert result.capacity_n == pytest.approx(18 * 400 * 0.93)
    assert result.findings() == ()
    assert [f.code for f in check_glue(joint(), sitting(1), 9000).findings()] == ["glue-line-over"]
    for changes in ({"surfaces": ("end grain", "long grain")}, {"clamped": False}):
        answer = check_glue(joint(**changes), sitting(1), 100)
        assert not answer.credited
        assert [f.code for f in answer.findings()] == ["glue-no-credit"]


def test_ply_edges_count_by_their_plies():
    assert credited_area(1000, ("ply edge", "panel face"), 0.6) == pytest.approx(600)
    with pytest.raises(ValueError, match="long grain"):
        credited_area(1000, ("ply edge", "glass"))


def test_white_glue_creeps_under_books():
    books = Load("books", 500, "service", "long", 1.0, "stated", Status.READ)
    assert [f.code for f in check_glue(joint(), books).findings()] == ["glue-creeps"]
    assert check_glue(joint(glue="epoxy"), books).findings() == ()


def test_clamps_and_dowels():
    """1.5 x 24 in at 150 psi: 5,400 lb of clamp force (worked out); a dowel holds pi d L tau."""
    assert clamp_force(24 * IN, 1.5 * IN, 150 * 0.006894757) / 4.448222 == pytest.approx(5400, rel=1e-4)
    assert dowel_bond(8, 25, 4.9) == pytest.approx(3.14159 * 8 * 25 * 4.9, rel=1e-5)
    with pytest.raises(OutOfValidity, match=r"3\.0 to 8\.6"):
        dowel_bond(8, 25, 12)


def test_exposure_words():
    assert exposure_class("indoors") == "dry"
    assert exposure_class("indoors", damp_room=True) == "damp"
    assert exposure_class("outdoors", roof=True) == "sheltered"
    assert exposure_class("outdoors", rain=True) == "weather"
    assert exposure_class("outdoors", rain=True, salt_miles=3) == "coast"
    with pytest.raises(ValueError, match="indoors or outdoors"):
        exposure_class("moon")
    assert asked_for("weather")[1] == "D4 glue (EN 204)"


def test_a_well_made_garden_bench_is_let_be():
    bench = Outdoors(
        "weather",
        panel_bond="marine",
        glue="D4",
        metal="stainless A2",
        woods=("white-oak",),
        edges_sealed=True,
        feet_raised=True,
        flat_tops=("seat",),
        pitched=True,
    )
    assert check_exposure(bench).findings() == ()


def test_an_indoor_bench_put_outdoors_is_told_what_it_lacks():
    found = check_exposure(
        Outdoors("weather", "interior", "D2", "plain steel", flat_tops=("seat",), closed_boxes=("box",))
    )
    codes = [f.code for f in found.findings()]
    assert codes == [
        "bond-too-weak",
        "glue-too-weak",
        "fastener-rusts",
        "seal-edges",
        "water-stands",
        "off-the-ground",
        "box-needs-vent",
    ]
    assert check_exposure(Outdoors("dry", "interior", "D1", "plain steel")).findings() == ()


def test_tannin_stains():
    oak = Outdoors("damp", metal="electroplated zinc", woods=("white-oak",))
    assert "black stains" in check_exposure(oak).findings()[0].message
    assert wood_decays(22) and not wood_decays(18)
    assert metal_corrodes(18) and not metal_corrodes(10)
    with pytest.raises(ValueError, match="stainless a2"):
        check_exposure(Outdoors("damp", metal="mithril"))


def test_cautions_apply_where_they_apply():
    quiet = check_work(Work())
    assert quiet == ()
    job = Work(("table saw",), ("white-oak",), treated=True, narrowest_rip_mm=40, shortest_held_mm=200)
    codes = [f.code for f in check_work(job)]
    assert codes == ["dust", "noise", "kickback", "push-stick", "small-piece", "treated-wood"]
    rest = Work(oil_finish=True, lids=True, tall_mm=900, carries_people=True)
    assert [f.code for f in check_work(rest)] == ["oily-rags", "lid", "tip-over", "loads-screened"]
    for caution in check_work(rest):
        assert "Local codes and licensed practice decide" in caution.message
        assert len(caution.message) < 200


@pytest.mark.parametrize(("width", "wants"), [(10, "never"), (40, "push block"), (100, "push stick"), (200, "nothing")])
def test_narrow_rips(width, wants):
    assert rip_help(width) == wants


def test_held_pieces():
    assert held_long_enough(305) and not held_long_enough(300)


@pytest.mark.parametrize(("level", "minutes"), [(90, 480), (95, 240), (100, 120)])
def test_osha_minutes(level, minutes):
    """OSHA 29 CFR 1910.95, 5 dB exchange, from memory."""
    assert noise_minutes_osha(level) == pytest.approx(minutes)


def test_glue_and_screws_are_never_added():
    glued = check_glue(joint(), sitting(1), 100)
    assert carrier(glued, 900) == ("glue", pytest.approx(18 * 400 * 0.93))
    assert carrier(check_glue(joint(clamped=False), sitting(1), 100), 900) == ("screws", 900)
