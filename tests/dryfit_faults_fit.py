"""Deliberate faults of sizes, promises and fit."""

from math import cos, radians, tan

from dryfit_fault import fault
from dryfit_pieces import bench, block, box, tray
from pieces import build
from scantling.board import Promise
from scantling.board.chain import Chain, Link


@fault("size-wrong", ("left", "right"), value=900)
def a_wider_promise():
    piece = bench()
    piece.promises[0] = Promise("size", (), ("x",), 905.0)
    return piece


@fault("size-wrong", ("front", "lid"), value=300)
def a_lower_promise():
    piece = box()
    piece.promises[-1] = Promise("size", (), ("z",), 299.9)
    return piece


@fault("gap-wrong", ("shelf", "seat"), value=6)
def a_shelf_moved_after_it_was_placed():
    piece = bench()
    shelf = piece.part("shelf", 600, 200, "ply").lay("x", "y").put(xc=450, yc=150)
    shelf.against("face", piece.parts["seat"], "back", gap=5)
    shelf.shift((0, 0, -1))
    piece.loose(shelf, piece.parts["seat"], clearance=6)
    return piece


@fault("gap-wrong", ("stop", "seat"), value=2)
def a_stop_that_no_longer_touches():
    piece = bench()
    piece.promises = []
    stop = piece.part("stop", 200, 60, "ply").lay("x", "z").put(xc=450, y0=0)
    stop.against("near", piece.parts["seat"], "face").shift((0, 0, 2))
    piece.loose(stop, piece.parts["seat"], clearance=2)
    return piece


@fault("not-flush", ("apron", "seat"), value=-3)
def an_apron_proud_of_the_seat():
    piece = bench()
    piece.promises = []
    apron = piece.part("apron", 600, 60, "ply").lay("x", "z").put(xc=450, z1=400)
    _flush_front(apron, piece.parts["seat"])
    apron.shift((0, -3, 0))
    piece.glue(apron, piece.parts["seat"])
    return piece


@fault("not-flush", ("apron", "seat"), value=12)
def an_apron_too_far_in():
    piece = bench()
    apron = piece.part("apron", 600, 60, "ply").lay("x", "z").put(xc=450, z1=400)
    _flush_front(apron, piece.parts["seat"], inset=10)
    apron.shift((0, 2, 0))
    piece.glue(apron, piece.parts["seat"])
    return piece


def _flush_front(apron, seat, inset=0.0):
    side = "face" if apron.plane("face").normal[1] < 0 else "back"
    apron.flush(side, seat, "near", inset=inset)


@fault("not-clear", ("rail", "heater"), value=10)
def a_heater_too_close():
    piece = bench()
    heater = block(piece, "heater", (100, 60), (400, 120, 150 - 18 - 10))
    foot = block(piece, "foot", (382, 60), (18, 120, 150 - 18 - 10))
    piece.glue(foot, heater)
    piece.glue(foot, piece.parts["left"])
    piece.promises.append(Promise("clear", ("rail", "heater"), (), 25.0))
    return piece


@fault("not-clear", ("front", "lid"), value=0)
def a_lid_that_shall_not_touch():
    piece = box()
    piece.promises.append(Promise("clear", ("front", "lid"), (), 3.0))
    return piece


@fault("off-the-floor", ("rail",), value=150)
def a_rail_in_the_air():
    piece = bench()
    piece.promises.append(Promise("floor", ("left", "right", "rail"), (), 0.0))
    return piece


@fault("off-the-floor", ("bottom",), value=0)
def a_bottom_without_its_gap():
    piece = box()
    piece.promises.append(Promise("floor", ("bottom",), (), 20.0))
    return piece


@fault("chain-stale", ("rail",), value=864)
def a_chain_that_was_not_told():
    piece = bench()
    links = (Link("left", 18), Link("rail", 866), Link("right", 18))
    piece.chains = [Chain("width", 902, links, "rail")]
    return piece


@fault("chain-stale", ("lid",), value=300)
def a_chain_with_an_old_lid():
    piece = box()
    piece.chain("depth", 310, [("lid", 310)], "lid")
    return piece


@fault("chains-disagree", value=901)
def two_totals_for_one_width():
    piece = bench()
    piece.chain("width", 901, [("all", 901)], "all")
    return piece


@fault("chains-disagree", value=299)
def two_totals_for_one_depth():
    piece = box()
    piece.chain("depth", 300, [("outside", 300)], "outside")
    piece.chain("depth", 299, [("inside", 264), ("sheets", 35)], "inside")
    return piece


@fault("chains-disagree", ("left", "right"), value=901)
def a_second_width_under_another_name():
    """Both run from side to side, so one rules, whatever they are called."""
    piece = bench()
    piece.chain("room between the sides", 901, [("left", 18), ("room", 865), ("right", 18)], "room")
    return piece


@fault("chains-disagree", ("side left", "side right"), value=763)
def a_bookcase_with_two_widths():
    piece = build("bookcase")
    piece.chain("shelf and sides", 763, [("side left", 18), ("shelf", 727), ("side right", 18)], "shelf")
    return piece


@fault("chain-open", ("end left", "end right"), value=1200)
def a_bench_whose_chain_forgot_its_web():
    piece = build("plain-bench")
    piece.chains = []
    piece.chain("width", 36, [("end left", 18), ("end right", 18)], "end left")
    return piece


@fault("chain-open", ("seat", "left"))
def a_chain_that_turns_a_corner():
    piece = bench()
    piece.chain("along and up", 1300, [("seat", 900), ("left", 400)], "seat")
    return piece


@fault("chain-open", ("front leg left", "front strip top"), also=("screw-head-hidden",), value=560)
def a_footstool_strip_counted_with_its_gap_twice():
    piece = build("storage-footstool")
    piece.chains = piece.chains[1:]
    links = [("front leg left", 70), ("play", 2), ("front strip top", 420), ("front leg right", 70)]
    piece.chain("front side", 562, links, "front strip top")
    return piece


@fault("parts-overlap", ("left", "brace"), value=5)
def a_brace_into_the_side():
    piece = bench()
    brace = block(piece, "brace", (100, 60), (13, 20, 382))
    piece.glue(brace, piece.parts["seat"])
    return piece


@fault("parts-overlap", ("rail", "brace"), value=0.07)
def a_corner_that_just_bites():
    piece = bench()
    brace = block(piece, "brace", (864, 60), (18, 159 - 0.07, 150))
    piece.glue(brace, piece.parts["left"])
    return piece


@fault("joint-apart", ("rail", "right"), value=0.06)
def a_rail_a_hair_too_short():
    piece = bench()
    rail = piece.parts["rail"]
    rail.length -= 0.06
    rail._local = rail._world = None
    piece.chains = []
    return piece


@fault("joint-apart", ("lid", "front"), value=4)
def a_lid_in_the_air():
    piece = box()
    piece.joints = {k: j for k, j in piece.joints.items() if "lid" not in j.parts or "front" in j.parts}
    piece.parts["lid"].shift((0, 0, 4))
    piece.promises = []
    return piece


@fault("joint-gapes", ("one", "two"), value=18 / cos(radians(45)) * tan(radians(1)))
def a_mitre_one_degree_off():
    return tray(off=1.0)


@fault("joint-gapes", ("arm", "left"), value=100 * tan(radians(1)))
def an_arm_cut_out_of_square():
    piece = bench()
    piece.promises = []
    arm = piece.part("arm", 300, 100, "ply").saw("end", mitre=1, long_edge="near").lay("x", "y")
    arm.put(x1=0, y0=100, z0=100)
    piece.glue(arm, piece.parts["left"])
    return piece


@fault("joint-small", ("lip", "seat"), value=60)
def a_lip_glued_to_nothing_much():
    piece = bench()
    piece.promises = []
    lip = piece.part("lip", 60, 40, "ply").lay("x", "z").put(x0=400, y1=0, z1=401)
    piece.glue(lip, piece.parts["seat"])
    return piece


@fault("joint-small", ("lid", "catch"), value=90)
def a_catch_on_the_very_edge():
    piece = box()
    catch = piece.part("catch", 40, 18, "ply").lay("x", "y").put(x1=5, y1=200, z0=300)
    piece.glue(catch, piece.parts["lid"])
    piece.promises = []
    return piece


@fault("clearance-lost", ("front", "stop"), value=2)
def a_lid_stop_too_close():
    piece = box()
    stop = piece.part("stop", 150, 40, "ply").lay("x", "z").put(xc=218, y0=20, z1=282)
    piece.glue(stop, piece.parts["lid"])
    piece.loose(stop, piece.parts["front"], clearance=3)
    return piece


@fault("clearance-lost", ("left", "drawer"), value=0.2)
def a_drawer_without_play():
    piece = bench()
    drawer = piece.part("drawer", 300, 90, "ply").lay("y", "z").put(x0=18.2, y0=0, z0=270)
    piece.join("sliding", drawer, piece.parts["left"], clearance=0.5)
    return piece


@fault("near-miss", ("left", "brace"), value=0.5)
def a_brace_half_a_millimetre_short():
    piece = bench()
    piece.glue(block(piece, "brace", (100, 60), (18.5, 20, 382)), piece.parts["seat"])
    return piece


@fault("near-miss", ("bottom", "shelf"), value=0.9)
def a_packing_piece_that_does_not_reach():
    piece = box()
    shelf = block(piece, "shelf", (100, 60), (100, 222, 18.9))
    piece.glue(shelf, piece.parts["back"])
    return piece


@fault("part-adrift", ("tile",))
def a_tile_nobody_fixed():
    piece = bench()
    block(piece, "tile", (100, 60), (400, 0, 0))
    return piece


@fault("part-adrift", ("tray side", "tray base"))
def two_parts_glued_only_to_each_other():
    piece = bench()
    base = block(piece, "tray base", (100, 60), (400, 0, 0))
    side = block(piece, "tray side", (100, 60), (400, 0, 18))
    piece.glue(base, side)
    return piece
