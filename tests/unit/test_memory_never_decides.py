"""A figure from memory may inform; it never makes an error finding, and both bases of load are never crossed."""

import pytest

from scantling.findings import Severity, catalogue
from scantling.mechanics.basis import DURATIONS
from scantling.mechanics.beams import rectangle
from scantling.mechanics.children import Chest, Opening, check_chest, check_opening
from scantling.mechanics.columns import Leg, check_leg
from scantling.mechanics.exposure import Outdoors, check_exposure
from scantling.mechanics.figures import figures, weakest
from scantling.mechanics.glue import GlueLine, check_glue
from scantling.mechanics.loads import Load, dropping, sitting
from scantling.mechanics.loads import test_load as published_load
from scantling.mechanics.members import Member, check_member
from scantling.mechanics.notice import notice
from scantling.mechanics.place import check_weight
from scantling.mechanics.strength import wood_values
from scantling.mechanics.tipping import SeatStance, check_rear
from scantling.tables import Status


@pytest.mark.parametrize("code", sorted(catalogue()))
def test_no_code_makes_an_error_from_memory(code):
    found = notice(code, "Something.", status=Status.MEMORY)
    assert found.severity is not Severity.ERROR
    assert "from memory" in found.message


def test_an_error_stays_one_on_figures_that_were_read():
    assert notice("member-over-strength", "Something.").severity is Severity.ERROR


def test_the_least_known_number_rules():
    assert weakest((Status.READ, Status.MEMORY, Status.DERIVED)) is Status.MEMORY
    assert weakest((Status.READ, Status.DERIVED)) is Status.DERIVED


def slat(material, thickness, width):
    wood = wood_values(material, thickness, width)
    return Member("A slat", rectangle(width, thickness), width, 1500, "centre-simple", wood)


def test_a_board_without_design_value_warns_at_most():
    result = check_member(slat("spruce-pine-fir", 19, 89), dropping())
    assert result.worst.ratio > 1
    assert {f.severity for f in result.findings()} == {Severity.WARNING}
    assert "without knots at mid-span" in result.findings()[0].message


def test_graded_lumber_decides():
    result = check_member(slat("douglas-fir", 38, 89), dropping())
    assert result.worst.ratio > 1
    assert Severity.ERROR in {f.severity for f in result.findings()}
    message = result.findings()[0].message
    assert "dropping" in message and "NDS 2018, load duration factor 1.6" in message and "design value" in message


def test_test_loads_meet_test_strength_and_service_loads_design_values():
    beam = slat("c24", 45, 95)
    tested = check_member(beam, published_load("home", "seat static"))
    used = check_member(beam, sitting(1))
    assert tested.strength.basis == "ultimate"
    assert used.strength.basis == "design"
    assert tested.strength.bending == 24
    assert used.strength.bending == pytest.approx(24 * 0.8 / 1.3)


def test_a_glue_line_refuses_a_test_load():
    line = GlueLine("A joint", 1000, ("long grain", "long grain"), (0.93, 0.93), clamped=True)
    with pytest.raises(ValueError, match="service load"):
        check_glue(line, published_load("home", "seat static"))


def test_rear_push_from_memory_only_warns():
    result = check_rear(SeatStance(200, 230, 430, load_mm=115, push_mm=730))
    assert not result.stands
    assert [f.severity for f in result.findings()] == [Severity.WARNING]


def test_lifting_from_memory_only_informs():
    assert {f.severity for f in check_weight(90).findings()} <= {Severity.WARNING, Severity.NOTE}


def test_read_rules_for_children_decide():
    assert check_opening(Opening("A gap", 150))[0].severity is Severity.ERROR
    chest = Chest(1200, 450, 380)
    assert [f.severity for f in check_chest(chest).findings()] == [Severity.ERROR]


def test_panel_class_from_memory_warns_and_treated_wood_decides():
    found = check_exposure(
        Outdoors("weather", panel_bond="interior", metal="electroplated zinc", treated=True)
    ).findings()
    by_code = {f.code: f.severity for f in found}
    assert by_code["bond-too-weak"] is Severity.WARNING
    assert by_code["fastener-rusts"] is Severity.ERROR


def test_leg_values_from_memory_warn():
    leg = Leg(19, 19, 700, "cantilever", 8.0, 3500, status=Status.MEMORY)
    assert [f.severity for f in check_leg(leg, 500).findings()] == [Severity.WARNING]


def test_every_figure_says_its_unit_and_source():
    for f in figures().values():
        assert f.unit and f.source, f.name


@pytest.mark.parametrize("word", ["", "forever"])
def test_a_load_names_a_known_duration(word):
    assert word not in DURATIONS
    with pytest.raises(ValueError, match="duration"):
        Load("books", 100, "service", word, 1.0, "stated", Status.READ)
