"""Mass, centre of gravity and tipping against plain statics."""

from math import atan, degrees

import pytest

from dryfit_pieces import bench, empty
from scantling.dryfit import DryfitSettings, Load, verify
from scantling.dryfit.balance import balance, sitters
from scantling.dryfit.scene import Scene


def stands(piece, **settings):
    return balance(Scene.of(piece, DryfitSettings(**settings)))


def tips(found, load="empty"):
    return {t.towards: t.angle for t in found.tips if t.load == load}


def test_a_board_on_its_face_tips_at_the_arctangent_of_half_its_width_over_half_its_height():
    piece = empty()
    piece.part("board", 600, 400, "ply").put(x0=0, y0=0, z0=0)
    found = stands(piece)
    assert found.mass == pytest.approx(0.6 * 0.4 * 0.018 * 680)
    assert found.centre == pytest.approx((300, 200, 9))
    angles = tips(found)
    assert angles["forwards"] == angles["backwards"] == pytest.approx(degrees(atan(200 / 9)))
    assert angles["to the left"] == pytest.approx(degrees(atan(300 / 9)))


def test_a_person_at_the_edge_moves_the_common_centre_of_gravity():
    """Moments about the floor: 20.2 kg of bench at its middle, 100 kg at 30 mm from the front, seat at 418 mm."""
    piece = bench()
    mass, centre = piece.mass_and_centre()
    found = stands(piece, loads=(Load("sitter", 100.0, (450.0, 30.0, 418.0)),))
    y = (mass * centre[1] + 100 * 30) / (mass + 100)
    z = (mass * centre[2] + 100 * 418) / (mass + 100)
    assert tips(found, "sitter")["forwards"] == pytest.approx(degrees(atan(y / z)))


def test_somebody_beyond_the_feet_tips_it_over():
    fit = verify(bench(), DryfitSettings(loads=(Load("reacher", 300.0, (450.0, -60.0, 418.0)),)))
    (finding,) = [f for f in fit.findings if f.code == "tips-over"]
    assert finding.value < 0 and "forwards" in finding.message


def test_legs_support_their_hull_and_what_hangs_in_the_air_does_not():
    piece = empty()
    for k, (x, y) in enumerate(((0, 0), (500, 0), (250, 400))):
        piece.part(f"leg {k}", 400, 38, "pine").lay("z", "x").put(x0=x, y0=y, z0=0)
    piece.part("top", 800, 600, "ply").put(x0=-100, y0=-50, z0=400)
    support = stands(piece).support
    assert {(round(x), round(y)) for x, y in support} == {(0, 0), (538, 0), (538, 38), (288, 438), (250, 438), (0, 38)}


def test_sitters_come_from_the_seat_cushions():
    from scantling.board import Cushion

    piece = bench()
    piece.cushions = [
        Cushion("pad", "seat", (0.0, 0.0, 418.0), 900.0, 300.0, 60.0, 40.0, True, "nothing"),
        Cushion("rest", "back", (0.0, 280.0, 418.0), 900.0, 60.0, 400.0, 30.0, True, "nothing"),
    ]
    middle, front = sitters(piece, 90.0)
    assert middle.at == (450, 150, 458) and front.at == (450, 100, 458) and middle.mass_kg == 90


def test_cushions_weigh_in_once_their_density_is_told():
    """A cushion of 900 × 300 × 60 mm at 40 kg/m³ is 0.648 kg with its middle 30 mm above the seat at 418 mm."""
    from scantling.board import Cushion

    piece = bench()
    piece.cushions = [Cushion("pad", "seat", (0.0, 0.0, 418.0), 900.0, 300.0, 60.0, 40.0, True, "nothing")]
    mass, centre = piece.mass_and_centre()
    shown = stands(piece, loads=())
    assert shown.cushions == pytest.approx(0.648)
    z = (mass * centre[2] + 0.648 * 448) / (mass + 0.648)
    assert tips(shown, "cushions")["forwards"] == pytest.approx(degrees(atan(150 / z)))
    edge = (Load("sitter", 100.0, (450.0, 30.0, 418.0)),)
    without, told = stands(piece, loads=edge), stands(piece, loads=edge, cushion_kg_m3=400.0)
    assert tips(told, "sitter")["forwards"] > tips(without, "sitter")["forwards"]


def test_cushions_are_judged_only_by_a_density_the_caller_gives():
    from scantling.board import Cushion

    piece = bench()
    piece.cushions = [Cushion("pad", "seat", (0.0, -900.0, 418.0), 900.0, 300.0, 600.0, 500.0, True, "nothing")]
    assert "tips-over" not in {f.code for f in verify(piece, DryfitSettings(loads=())).findings}
    told = [f for f in verify(piece, DryfitSettings(loads=(), cushion_kg_m3=500.0)).findings if f.code == "tips-over"]
    assert [f.message for f in told] == ["With its cushions it falls over forwards."]


def test_a_piece_on_the_wall_is_not_asked_whether_it_stands():
    piece = empty()
    piece.part("board", 600, 200, "ply").lay("x", "z").put(x0=0, y0=0, z0=0)
    piece.part("shelf", 600, 200, "ply").put(x0=0, y1=0, z0=182)
    piece.glue(piece.parts["board"], piece.parts["shelf"])
    assert {"tips-over", "tips-easily", "no-footing"} & {f.code for f in verify(piece).findings}
    piece.hangs_on_wall("wall screw 6 x 80 mm")
    fit = verify(piece)
    assert not {"tips-over", "tips-easily", "no-footing"} & {f.code for f in fit.findings}
    assert fit.balance.hung_by == "wall screw 6 x 80 mm" and fit.balance.tips == ()
