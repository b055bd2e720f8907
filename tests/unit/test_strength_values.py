"""Reference values by material: which table serves, where it ends, and the lower of two derivations for boards."""

import pytest

from scantling.mechanics.beams import rectangle
from scantling.mechanics.loads import sitting
from scantling.mechanics.members import Member, check_member, fixes, shared_by
from scantling.mechanics.panels import layup, ply_moduli, ply_share
from scantling.mechanics.strength import board_bending, wood_values
from scantling.mechanics.validity import OutOfValidity
from scantling.tables import Status, UnknownRowError, load_table

PSI = 0.006894757


def test_lumber_takes_its_size_factor():
    """NDS Supplement 2018 Table 4A: Douglas Fir-Larch No. 2, 900 psi; a 2x4 has CF 1.5, laid flat Cfu 1.1 as well."""
    assert wood_values("douglas-fir", 38.1, 88.9).bending == pytest.approx(900 * 1.5 * PSI, rel=1e-6)
    assert wood_values("douglas-fir", 38.1, 88.9, flat=True).bending == pytest.approx(900 * 1.5 * 1.1 * PSI, rel=1e-6)


def test_boards_take_the_lower_of_two_derivations():
    clear = 12_400 * (1 - 1.645 * 0.16) / 2.1
    assert board_bending(12_400 * PSI, 900 * PSI) == pytest.approx(900 * PSI)
    assert board_bending(12_400 * PSI, None) == pytest.approx(clear * PSI)
    board = wood_values("douglas-fir", 19, 140)
    assert board.bending == pytest.approx(900 * PSI, rel=1e-6)
    assert board.status is Status.MEMORY and "without knots" in board.note


def test_hardwood_boards_stand_on_clear_wood_alone():
    """Cherry, 12,300 psi: 4,316 psi (29.8 MPa) clear: Wood Handbook Table 5-3, 5 % exclusion over 2.1."""
    assert wood_values("cherry", 19, 140).bending == pytest.approx(29.8, abs=0.05)


@pytest.mark.parametrize(
    ("material", "thickness"),
    [("birch-plywood", 6), ("birch-plywood", 25), ("osb", 30), ("mdf", 25), ("particleboard", 5)],
)
def test_panels_outside_their_tables_are_refused(material, thickness):
    with pytest.raises(OutOfValidity, match="accepted is"):
        wood_values(material, thickness, 300)


def test_solid_wood_never_spans_across_its_grain():
    with pytest.raises(ValueError, match="across its grain"):
        wood_values("white-oak", 19, 300, along=False)


def test_unknown_material_names_the_nearest():
    with pytest.raises(UnknownRowError) as caught:
        wood_values("douglas-firr", 38, 89)
    assert "douglas-fir" in caught.value.nearest


def test_every_solid_wood_answers_or_says_why_not():
    answered = 0
    for row in load_table("materials").rows:
        if row.text("kind") == "panel":
            continue
        try:
            values = wood_values(row.text("id"), 19, 89)
        except UnknownRowError as error:
            assert error.accepted
            continue
        answered += 1
        assert 3 < values.bending < 60 and 5000 < values.modulus < 16000
    assert answered > 40


def test_plies_along_and_across_add_up():
    """Both directions together hold the veneer: E along + E across = E0 + E90 for any crossed lay-up."""
    along, across = ply_moduli(layup(5, 18), 12_000, 1 / 30)
    assert along + across == pytest.approx(12_000 * (1 + 1 / 30))
    assert along > across
    assert ply_share(layup(5, 18), joint_along_face_grain=True) == pytest.approx(3 / 5)
    assert ply_share(layup(5, 18), joint_along_face_grain=False) == pytest.approx(2 / 5)


def test_panels_are_softer_across():
    along, across = (wood_values("softwood-plywood", 18.3, 300, along=way) for way in (True, False))
    assert across.modulus < along.modulus / 2
    assert "own span rating" in along.note


def test_what_would_mend_it_does_mend_it():
    wood = wood_values("c24", 38, 89)
    weak = Member("Rail", rectangle(38, 60), 38, 1800, "centre-simple", wood)
    result = check_member(weak, sitting(2), sag_ratio=300)
    assert result.findings()
    depth, span = fixes(result)
    deeper = Member("Rail", rectangle(38, depth), 38, 1800, "centre-simple", wood)
    shorter = Member("Rail", rectangle(38, 60), 38, span, "centre-simple", wood)
    for better in (deeper, shorter):
        again = check_member(better, sitting(2), sag_ratio=300)
        assert again.worst.ratio <= 1.001
        assert again.sag_mm <= 1.05 * (again.sag_limit_mm or 0)


def test_a_load_is_shared_no_thinner_than_one_person():
    assert shared_by(1, 5) == 1.0
    assert shared_by(3, 6) == pytest.approx(1 / 3)
    with pytest.raises(ValueError):
        shared_by(0, 3)


def test_a_tall_thin_board_on_edge_is_found_not_refused():
    wood = wood_values("douglas-fir", 19, 235)
    board = Member("A board on edge", rectangle(19, 235), 19, 2600, "uniform-simple", wood)
    result = check_member(board, sitting(1))
    assert "member-tips-sideways" in [f.code for f in result.findings()]
    held = Member("A held board", rectangle(19, 235), 19, 2600, "uniform-simple", wood, held_mm=300)
    assert "member-tips-sideways" not in [f.code for f in check_member(held, sitting(1)).findings()]


def test_graded_timber_loses_strength_when_tall_and_thin():
    wood = wood_values("c24", 50, 200)
    tall = Member("Joist", rectangle(50, 200), 50, 5000, "uniform-simple", wood)
    held = Member("Joist", rectangle(50, 200), 50, 5000, "uniform-simple", wood, held_mm=0)
    free, fast = (check_member(m, sitting(1)).stresses[0].allowed for m in (tall, held))
    assert free / fast == pytest.approx(0.602, abs=0.001)  # Benoit, Legrand, Tastet (2008), example 2.3.2
