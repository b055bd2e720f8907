"""A loose lid with somebody on its edge: what it takes to tip it, and where its cleats catch, by trigonometry."""

from math import asin, atan2, degrees, hypot

import pytest

from dryfit_pieces import empty
from scantling.board import Cushion
from scantling.dryfit import DryfitSettings, verify
from scantling.dryfit.loose import lying
from scantling.dryfit.order import Assembling
from scantling.dryfit.scene import Scene
from scantling.findings import Severity

DEEP, TALL, OVER = 282.0, 40.0, 120.0


def stool(play, cleat=TALL):
    """Two walls 264 apart inside carry a lid that reaches 120 beyond them; a cleat under it at either wall, inside."""
    piece = empty()
    base = piece.part("base", 400, 300, "ply").lay("x", "y").put(x0=0, y0=0, z0=0)
    walls = []
    for name, y in (("front", {"y0": 0}), ("back", {"y1": 300})):
        wall = piece.part(name, 400, 282, "ply").lay("x", "z").put(x0=0, z0=18, **y)
        piece.glue(base, wall)
        walls.append(wall)
    lid = piece.part("lid", 400, 300 + 2 * OVER, "ply").lay("x", "y").put(x0=0, yc=150, z0=300)
    for wall in walls:
        piece.loose(lid, wall)
    for wall, y in zip(walls, ({"y0": 18 + play}, {"y1": 282 - play}), strict=True):
        strip = piece.part(f"cleat {wall.id}", 300, cleat, "ply").lay("x", "z").put(xc=200, z1=300, **y)
        piece.glue(strip, lid)
        piece.loose(strip, wall, clearance=play)
    piece.cushions.append(Cushion("seat", "seat", (0.0, -OVER, 318.0), 400.0, 540.0, 80.0, 50.0, False, "tied on"))
    return piece


def tips(piece):
    (found,) = lying(Assembling(Scene.of(piece, DryfitSettings())))
    return found


@pytest.mark.parametrize("play", [0.5, 1.0, 2.0])
def test_the_far_cleat_catches_once_its_play_is_used_up(play):
    """Tipping by a over the front edge, the lower rear corner of the far cleat, `282 - play` off and 40 below it, lies
    at (282 - play) cos a + 40 sin a, and meets the far wall at 282 and 0.05 of fit: a = asin(282.05/r) less its slope.
    """
    found = tips(stool(play))
    back = DEEP - play
    reach = hypot(back, TALL)
    meets = degrees(asin((DEEP + 0.05) / reach) - atan2(back, TALL))
    assert found.caught == pytest.approx(meets, abs=0.03)
    assert found.overhang == pytest.approx(OVER)


def test_with_more_play_than_the_cleat_can_take_up_it_tips():
    """The corner never reaches further than √(282² + 20²) from the edge it tips over."""
    play = 3.0
    assert hypot(DEEP - play, 20.0) - (DEEP - play) < play
    assert tips(stool(play, cleat=20.0)).caught is None


def test_a_lid_that_is_caught_rocks_and_one_that_is_not_throws_its_sitter():
    rocks = [f for f in verify(stool(1.0)).findings if f.code == "lid-tips"]
    assert [f.severity for f in rocks] == [Severity.WARNING] and "catch at" in rocks[0].message
    throws = [f for f in verify(stool(3.0, cleat=20.0)).findings if f.code == "lid-tips"]
    assert [f.severity for f in throws] == [Severity.ERROR] and "catch" not in throws[0].message
    # by hand: what holds it down is its own mass 150 from the front edge, against 120 - 50 outside
    lid = sum(p.mass_kg() for p in stool(3.0, cleat=20.0).parts.values() if "lid" in p.id or "cleat" in p.id)
    assert throws[0].value == pytest.approx(lid * 150 / 70, rel=0.01)
