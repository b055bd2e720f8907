"""Deliberate faults of screws: where they run, how far they reach, and what they enter."""

from dataclasses import replace

from dryfit_fault import fault
from dryfit_pieces import bench, block, box, change, corner, empty, moved, of_joint, post
from scantling.board import Recess


@fault("screw-in-the-air", ("seat", "left"), ("S1",))
def a_screw_above_the_bench():
    piece = bench()
    moved(piece, "S1", (0, 0, 500))
    return piece


@fault("screw-in-the-air", ("left", "rail"), ("S5",))
def a_screw_beside_the_bench():
    piece = bench()
    moved(piece, "S5", (-300, 0, 0))
    return piece


@fault("screw-hits-part", ("cover",), ("S1",))
def a_cover_forgotten_in_the_stack():
    piece = bench()
    piece.promises = []
    piece.glue(block(piece, "cover", (60, 100), (0, 0, 418), "thin"), piece.parts["seat"])
    x, y, z = piece.fasteners["S1"].head
    change(piece, "S1", head=(x, y, z + 9), length=piece.fasteners["S1"].length + 9)
    return piece


@fault("screw-hits-part", ("panel",), ("S1",))
def a_panel_left_out_of_the_stack():
    piece = empty()
    front = piece.part("front", 200, 100, "ply").put(z0=0)
    panel = piece.part("panel", 200, 100, "thin").put(z0=18)
    back = piece.part("back", 200, 100, "ply").put(z0=27)
    piece.screws(front, back, through=[panel], n=1, role="clamps", glued=True)
    change(piece, "S1", parts=("front", "back"))
    return piece


@fault("screw-misses-part", ("left",), ("S1",))
def a_screw_beside_its_side():
    piece = bench()
    moved(piece, "S1", (60, 0, 0))
    return piece


@fault("screw-misses-part", ("rail",), ("S4", "S5"))
def screws_that_do_not_reach():
    piece = bench()
    for f in of_joint(piece, "left", "rail"):
        change(piece, f, length=16.0)
    return piece


@fault("screw-head-off", ("seat",), ("S2",), value=2)
def a_head_that_floats():
    piece = bench()
    moved(piece, "S2", (0, 0, 2))
    change(piece, "S2", length=piece.fasteners["S2"].length + 2)
    return piece


@fault("screw-head-off", ("front",), ("S14",), value=0.3)
def a_head_not_quite_home():
    piece = box()
    moved(piece, "S14", (0, -0.3, 0))
    return piece


@fault("screw-crosses-air", ("spacer", "wall"), ("S1",), value=5)
def a_screw_over_a_gap():
    piece = empty()
    wall = piece.part("wall", 200, 100, "pine").put(z0=0)
    spacer = piece.part("spacer", 200, 100, "ply").put(z0=43)
    foot = piece.part("foot", 200, 61, "ply").lay("x", "z").put(y0=100, z0=0)
    piece.glue(foot, wall)
    piece.glue(foot, spacer)
    piece.join("screws", spacer, wall, clearance=5)
    piece.fasteners["S1"] = replace(_screw(), parts=("spacer", "wall"), joint="spacer to wall")
    return piece


@fault("screw-crosses-air", ("lath", "wall"), ("S1",), value=6)
def a_screw_over_a_groove():
    piece = empty()
    wall = piece.part("wall", 200, 100, "pine").put(z0=0)
    wall.cut(Recess("groove", -1, 201, 40, 60, 32, 39))
    lath = piece.part("lath", 200, 100, "ply").put(z0=38)
    piece.join("screws", lath, wall, glued=True)
    piece.fasteners["S1"] = replace(_screw(), head=(100, 50, 56), parts=("lath", "wall"), joint="lath to wall")
    return piece


def _screw():
    source = bench()
    return replace(
        source.fasteners["S1"], head=(100, 50, 61), direction=(0, 0, -1), length=50.8, head_depth=0.0
    )  # fmt: skip


@fault("screw-point-out", ("front",), ("S19", "S20"), value=1 + 63.5 - 38 - 18)
def cleat_screws_through_the_front():
    piece = box()
    for f in of_joint(piece, "cleat", "front"):
        change(piece, f, length=63.5)
    return piece


@fault("screw-point-out", ("back", "wall"), ("S1",), value=1 + 44.45 - 36)
def a_screw_into_the_wall_behind():
    piece = empty()
    front = piece.part("front", 200, 100, "ply").put(z0=0)
    back = piece.part("back", 200, 100, "ply").put(z0=18)
    piece.glue(back, piece.part("wall", 200, 100, "ply").put(z0=36))
    piece.screws(front, back, n=1, role="clamps", glued=True, length=44.45)
    return piece


@fault("screw-point-close", ("front",), ("S19", "S20"), value=1)
def cleat_screws_nearly_through():
    piece = box()
    for f in of_joint(piece, "cleat", "front"):
        change(piece, f, length=38 + 18 - 1 - 1.0)
    return piece


@fault("screw-point-close", ("back",), ("S1",), value=0.5)
def a_point_just_under_the_skin():
    piece = empty()
    front = piece.part("front", 200, 100, "ply").put(z0=0)
    back = piece.part("back", 200, 100, "ply").put(z0=18)
    piece.screws(front, back, n=1, role="clamps", glued=True)
    change(piece, "S1", length=35.5 - 1)
    return piece


@fault("screw-shallow", ("left",), ("S1", "S2", "S3"), value=13)
def short_seat_screws():
    piece = bench()
    for f in of_joint(piece, "seat", "left"):
        change(piece, f, length=30.0)
    return piece


@fault("screw-shallow", ("rail",), ("S4",), value=5)
def a_screw_with_only_its_point_in_the_wood():
    piece = bench()
    change(piece, "S4", length=22.0)
    return piece


@fault("screw-breaks-out", ("left", "seat"), ("S1",), value=1)
def a_screw_out_of_the_sheet():
    piece = bench()
    moved(piece, "S1", (-8, 0, 0))
    return piece


@fault("screw-breaks-out", ("rail",), ("S5",), value=1.5)
def a_screw_along_the_rails_face():
    piece = bench()
    moved(piece, "S5", (0, -7.5, 0))
    return piece


@fault("screw-near-edge", ("left",), ("S1", "S2"), value=6)
def seat_screws_off_the_middle():
    piece = bench()
    for f in ("S1", "S2"):
        moved(piece, f, (3, 0, 0))
    return piece


@fault("screw-near-edge", ("left", "rail"), ("S4",), value=7)
def a_screw_near_the_end_of_a_panel():
    piece = bench()
    piece.parts["rail"].put(z0=0)
    for f in of_joint(piece, "left", "rail") + of_joint(piece, "right", "rail"):
        moved(piece, f, (0, 0, -150))
    moved(piece, "S4", (0, 0, 7 - piece.fasteners["S4"].head[2]))
    return piece


@fault("screw-near-edge", ("seat",), ("S1",), value=7)
def a_screw_near_the_front_of_the_seat():
    piece = bench()
    moved(piece, "S1", (0, 7 - piece.fasteners["S1"].head[1], 0))
    piece.parts["left"].put(y0=-20)
    piece.promises = []
    return piece


@fault("screw-near-end", ("upright",), ("S1", "S2"), value=14)
def post_screws_too_low():
    piece = post()
    for f in ("S1", "S2"):
        moved(piece, f, (0, 0, -5))
    return piece


@fault("screw-near-end", ("slat",), ("S11", "S12"), value=12)
def a_slat_screwed_at_its_very_end():
    piece = bench()
    piece.promises = []
    slat = piece.part("slat", 400, 89, "oak").lay("x", "y").put(x0=200, y0=0, z0=418)
    piece.screws(slat, piece.parts["seat"], n=2, inset=12, role="clamps", glued=True)
    return piece


@fault("screw-in-end-grain", ("rail",), ("S4", "S5", "S9", "S10"))
def a_rail_hung_on_end_grain():
    return bench(rail_of="pine")


@fault("screw-in-end-grain", ("upright",), ("S1",))
def a_top_held_by_a_post():
    piece = empty()
    foot = piece.part("foot", 300, 300, "ply").put(x0=0, y0=0, z0=0)
    upright = piece.part("upright", 300, 89, "pine").lay("z", "x").put(x0=100, y0=100, z0=18)
    piece.glue(foot, upright)
    top = piece.part("top", 300, 300, "ply").put(x0=0, y0=0, z0=318)
    piece.screws(top, upright, n=1)
    return piece


@fault("screw-in-weak-edge", ("left", "right", "rail"), tuple(f"S{i}" for i in range(1, 11)))
def a_bench_of_fibreboard():
    return bench("mdf")


@fault("screw-in-weak-edge", ("left", "right", "bottom"), tuple(f"S{i}" for i in range(1, 19)))
def a_box_of_fibreboard():
    return box("mdf")


@fault("screw-head-hidden", ("seat", "pad"), ("S1",))
def a_pad_over_a_sunk_head():
    piece = bench()
    piece.glue(block(piece, "pad", (60, 60), (0, 20, 418), "thin"), piece.parts["seat"])
    piece.promises = []
    return piece


@fault("screw-head-hidden", ("front", "plate"), ("S14",))
def a_plate_on_a_proud_head():
    piece = box()
    plate = piece.part("plate", 60, 17, "thin").lay("x", "z").put(xc=218, y1=0, z0=0)
    piece.glue(plate, piece.parts["front"])
    change(piece, "S14", head_depth=0.0)
    piece.promises = []
    return piece


@fault("screws-meet", ("seat", "left"), ("S1", "S11"))
def a_second_screw_on_the_first():
    piece = bench()
    f = piece.fasteners["S1"]
    piece.fasteners["S11"] = replace(f, id="S11", head=(f.head[0], f.head[1] + 3, f.head[2]))
    return piece


@fault("screws-meet", ("front", "side", "stud"), ("S2", "S4"), value=0.5 - 4.17)
def screws_from_two_sides_at_one_height():
    piece = corner()
    z, y = piece.fasteners["S2"].head[2], piece.fasteners["S4"].head[1]
    change(piece, "S2", head=(20.0, -18.0, z), diameter=4.17)
    change(piece, "S4", head=(-18.0, y, z + 0.5), diameter=4.17)
    return piece


@fault("pilot-needed", fasteners=("S1", "S2", "S3", "S6", "S7", "S8"))
def seat_screws_into_edges():
    piece = bench()
    for f in of_joint(piece, "left", "rail") + of_joint(piece, "right", "rail"):
        del piece.fasteners[f]
    return piece


@fault("pilot-needed", fasteners=("S1",))
def a_screw_into_end_grain_only_to_locate():
    piece = a_top_held_by_a_post()
    change(piece, "S1", role=piece.fasteners["S1"].role.__class__("locates"))
    return piece
