"""Deliberate faults: each is a sound piece with one mistake made in it, and what the dry fit must say about it.

`parts` and `fasteners` are the ids that must be named; `also` are codes that are true as well, because of the mistake.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from math import cos, radians, tan

from dryfit_pieces import bench, block, box, change, corner, empty, moved, of_joint, post, tray
from scantling.board import Assembly, Promise, Recess, Step
from scantling.board.chain import Chain, Link
from scantling.dryfit import DryfitSettings, Load
from scantling.measure import Tape


@dataclass(frozen=True)
class Fault:
    """One mistake: the code to be found, how to build it, whom it names, and what follows from it."""

    code: str
    build: Callable[[], Assembly]
    parts: tuple[str, ...] = ()
    fasteners: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    value: float | None = None
    settings: DryfitSettings = field(default_factory=DryfitSettings)

    @property
    def name(self) -> str:
        """How tests call it."""
        return f"{self.code}-{self.build.__name__}"


FAULTS: list[Fault] = []


def fault(code, parts=(), fasteners=(), also=(), value=None, **settings):
    """Register a builder as a fault."""

    def register(build):
        FAULTS.append(Fault(code, build, parts, fasteners, also, value, DryfitSettings(**settings)))
        return build

    return register


# ---------------------------------------------------------------- sizes and promises


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


# ---------------------------------------------------------------- fit


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


# ---------------------------------------------------------------- screws


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


# ---------------------------------------------------------------- order, steps, balance


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
    from scantling.board import Cushion

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
