"""Deliberate faults of order, steps, balance and loose parts."""

from dryfit_fault import fault
from dryfit_pieces import bench, block, box, empty
from scantling.board import Cushion, Recess, Step
from scantling.dryfit import Load
from scantling.measure import Tape


@fault("screw-unreachable", ("slat", "rail"), ("S1", "S2"), also=("screw-head-hidden",))
def heads_under_each_other():
    """Panel to rail under the slat, panel to slat under the rail: neither can be driven first."""
    piece = empty()
    panel = piece.part("panel", 300, 200, "ply").put(x0=0, y0=0, z0=0)
    slat = piece.part("slat", 300, 89, "pine").put(x0=0, y0=50, z0=18)
    rail = piece.part("rail", 300, 89, "pine").put(x0=0, y0=50, z1=0)
    piece.screws(panel, rail, n=1, shift=-60, length=44.45)
    piece.screws(panel, slat, n=1, shift=60, length=44.45)
    return piece


@fault("screw-unreachable", ("apron", "stile"), ("S1", "S2"), also=("screw-head-hidden",))
def rails_that_cover_each_others_heads():
    """A corner block between stile and apron: each is screwed from under the other."""
    piece = empty()
    heart = piece.part("heart", 300, 200, "thin").put(x0=0, y0=0, z0=0)
    stile = piece.part("stile", 300, 140, "oak").put(x0=0, y0=30, z0=9)
    apron = piece.part("apron", 300, 140, "oak").put(x0=0, y0=30, z1=0)
    piece.screws(heart, stile, n=1, shift=80, role="clamps", length=25.4)
    piece.screws(heart, apron, n=1, shift=-80, role="clamps", length=25.4)
    return piece


@fault("part-trapped", ("bolt",), also=("lid-tips",))
def a_waisted_bolt_in_a_closed_window():
    piece = empty()
    plate = piece.part("plate", 300, 200, "ply").put(x0=0, y0=0, z0=0)
    plate.cut(Recess("slot", 100, 160, 80, 98, -1, 19))
    bolt = piece.part("bolt", 100, 100, "ply").notch((41, 59), (-1, 20)).notch((41, 59), (80, 101)).lay("z", "x")
    bolt.put(xc=130, yc=89, zc=9)
    piece.loose(bolt, plate)
    piece.loose(bolt, piece.part("base", 300, 200, "ply").put(x0=0, y0=0, z1=bolt.z0))
    return piece


@fault("part-trapped", ("bolt",), also=("lid-tips",))
def a_bolt_in_a_window_under_a_lath():
    piece = a_waisted_bolt_in_a_closed_window()
    piece.glue(block(piece, "lath", (300, 40), (0, 0, 18)), piece.parts["plate"])
    return piece


def _steps(piece, *steps):
    piece.steps = [Step(text, parts, fasteners) for text, parts, fasteners in steps]
    return piece


@fault("step-blocked", ("post",), ("S19", "S20"))
def all_parts_first():
    """The post in front of the cleat stands in the way of the cleat's screws once everything is in place."""
    piece = box()
    blocker = piece.part("post", 200, 89, "pine").lay("x", "z").put(xc=218, y0=57.5, z0=100)
    piece.loose(blocker, piece.parts["cleat"], clearance=1.5)
    return _steps(
        piece,
        ("Put everything together.", tuple(piece.parts), ()),
        ("Drive all screws.", (), tuple(piece.fasteners)),
    )


@fault("step-blocked", ("under",), ("S11", "S12"))
def a_cleat_after_the_beam_beside_it():
    piece = bench()
    cleat = piece.part("cleat", 250, 60, "ply").lay("y", "z").put(x0=18, y0=0, z1=400)
    piece.screws(cleat, piece.parts["left"], n=2, inset=40, role="clamps", glued=True)
    under = piece.part("under", 250, 89, "pine").lay("y", "z").put(x0=56, y0=0, z1=400)
    piece.glue(under, piece.parts["seat"])
    return _steps(
        piece,
        ("Build the bench.", ("left", "rail", "right", "seat"), tuple(f"S{i}" for i in range(1, 11))),
        ("Glue the beam under the seat.", ("under",), ()),
        ("Screw the cleat.", ("cleat",), ("S11", "S12")),
    )


@fault("step-too-early", ("rail",), ("S4", "S5"))
def a_step_before_its_part():
    piece = bench()
    return _steps(
        piece,
        ("Screw the left side.", ("left",), ("S4", "S5")),
        ("Bring the rest.", ("rail", "right", "seat"), tuple(f for f in piece.fasteners if f not in ("S4", "S5"))),
    )


@fault("step-too-early", ("seat",), ("S1", "S2", "S3"))
def a_seat_screwed_before_it_is_there():
    piece = bench()
    first = ("S1", "S2", "S3")
    rest = tuple(f for f in piece.fasteners if f not in first)
    return _steps(
        piece,
        ("Stand the sides up.", ("left", "right", "rail"), first),
        ("Lay the seat on.", ("seat",), rest),
    )


@fault("steps-leave-out", (), ("S10",))
def a_screw_nobody_mentions():
    piece = bench()
    return _steps(piece, ("All of it.", tuple(piece.parts), tuple(f for f in piece.fasteners if f != "S10")))


@fault("steps-leave-out", ("lid",), ())
def a_lid_nobody_mentions():
    piece = box()
    parts = tuple(p for p in piece.parts if p != "lid")
    order = [
        ("Stand the sides up.", ("front", "left", "right", "back"), tuple(f"S{i}" for i in range(1, 13))),
        ("The cleat.", ("cleat",), ("S19", "S20")),
        ("The bottom from below.", ("bottom",), tuple(f"S{i}" for i in range(13, 19))),
    ]
    assert set(parts) == {p for _, ps, _ in order for p in ps}
    return _steps(piece, *order)


@fault("tips-over", loads=(Load("person on the end", 100.0, (890.0, 150.0, 418.0)),))
def a_bench_on_feet_too_close_together():
    piece = empty()
    base = piece.part("base", 300, 300, "ply").lay("x", "y").put(xc=450, y0=0, z0=0)
    stem = piece.part("stem", 382, 280, "ply").lay("z", "y").put(xc=450, yc=150, z0=18)
    seat = piece.part("seat", 900, 300, "ply").lay("x", "y").put(x0=0, y0=0, z0=400)
    piece.glue(base, stem)
    piece.glue(stem, seat)
    return piece


@fault("tips-over")
def a_shelf_that_hangs_over():
    piece = empty()
    base = piece.part("base", 100, 300, "ply").lay("x", "y").put(x0=0, y0=0, z0=0)
    stem = piece.part("stem", 300, 300, "ply").lay("z", "y").put(x0=0, y0=0, z0=18)
    arm = piece.part("arm", 600, 300, "ply").lay("x", "y").put(x0=0, y0=0, z0=318)
    piece.glue(base, stem)
    piece.glue(stem, arm)
    return piece


@fault("tips-easily")
def a_tall_thin_screen():
    piece = empty()
    base = piece.part("base", 600, 60, "ply").lay("x", "y").put(x0=0, yc=0, z0=0)
    screen = piece.part("screen", 600, 1500, "ply").lay("x", "z").put(x0=0, yc=0, z0=18)
    piece.glue(base, screen)
    return piece


@fault("tips-easily", tip_least_deg=30.0)
def a_bench_asked_to_stand_on_a_slope():
    return bench()


@fault("no-footing")
def a_board_on_its_edge():
    piece = empty()
    a = piece.part("a", 300, 100, "ply").put(x0=0, y0=0, z0=0)
    b = piece.part("b", 300, 100, "ply").put(x0=0, y0=0, z0=18)
    piece.glue(a, b)
    for part in (a, b):
        part.turn("x", 20, (0, 0, 0))
    return piece


@fault("no-footing")
def a_board_on_its_corner():
    piece = empty()
    a = piece.part("a", 300, 100, "ply").put(x0=0, y0=0, z0=0)
    b = piece.part("b", 300, 100, "ply").put(x0=0, y0=0, z0=18)
    piece.glue(a, b)
    for part in (a, b):
        part.turn("x", 20, (0, 0, 0)).turn("y", 20, (0, 0, 0))
    return piece


def _with_a_cushion(piece, z):
    piece.cushions = [Cushion("pad", "seat", (0.0, 0.0, z), 436.0, 300.0, 60.0, 40.0, True, "nothing")]
    return piece


@fault("loose-part-slides", ("lid",), value=4)
def a_lid_without_cleats_under_a_cushion():
    return _with_a_cushion(box(), 300.0)


@fault("loose-part-slides", ("pad",), value=4)
def a_pad_left_lying_on_the_seat():
    piece = bench()
    piece.promises = []
    piece.loose(block(piece, "pad", (100, 100), (300, 100, 418)), piece.parts["seat"])
    return piece


def _stool_with_a_wide_lid(overhang):
    piece = empty()
    base = piece.part("base", 436, 300, "ply").put(x0=0, y0=0, z0=0)
    for k, x in enumerate((100, 318)):
        wall = piece.part(f"wall {k}", 264, 300, "ply").lay("z", "y").put(x0=x, y0=0, z0=18)
        piece.glue(base, wall)
    lid = piece.part("lid", 236 + 2 * overhang, 300, "ply").put(xc=218, y0=0, z0=282)
    for k in (0, 1):
        piece.loose(lid, piece.parts[f"wall {k}"])
    for k, (x, y) in enumerate(((118, 0), (118, 262))):
        stop = piece.part(f"stop {k}", 200, 38, "pine").lay("x", "y").put(x0=x, y0=y, z1=282)
        piece.glue(stop, lid)
    return piece


@fault("lid-tips", ("lid", "stop 0", "stop 1"), also=("loose-part-slides",), person_kg=60.0)
def a_lid_far_beyond_its_walls():
    return _with_a_cushion(_stool_with_a_wide_lid(90.0), 300.0)


@fault("lid-tips", ("lid", "stop 0", "stop 1"), also=("loose-part-slides",))
def a_lid_a_little_beyond_its_walls():
    return _stool_with_a_wide_lid(60.0)


@fault("tape-rounding", ("rail",), value=864 - 863.55, tape=Tape.parse("1 mm"), open_limit=0.0)
def a_rail_between_two_marks():
    """A rail of 863.55 mm, cut at 864: it does not go in by 0.45 mm (at a limit of nothing)."""
    return _glued_bench(863.55)


def _glued_bench(run):
    piece = empty()
    left = piece.part("left", 400, 300, "ply").lay("z", "y").put(x0=0, y0=0, z0=0)
    rail = piece.part("rail", run, 89, "ply").lay("x", "z").put(x0=18, yc=150, z0=150)
    right = piece.part("right", 400, 300, "ply").lay("z", "y").put(x0=18 + run, y0=0, z0=0)
    piece.glue(left, rail)
    piece.glue(right, rail)
    return piece


@fault("tape-rounding", ("rail",), value=860.45 - 860, tape=Tape.parse("1 mm"))
def a_rail_cut_half_a_mark_short():
    return _glued_bench(860.45)
