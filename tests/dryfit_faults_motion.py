"""Deliberate faults of things that move: lids, doors and drawers of shipped pieces, each with one mistake."""

from dataclasses import replace

from dryfit_fault import fault
from dryfit_pieces import block, box
from pieces import build


def _hinged(piece, leaf, on, **told):
    """Hang a lid that lies loose on others: the hinge takes the place of its loose joint."""
    for joint in [j for j in piece.joints.values() if set(j.parts) == {leaf, on}]:
        del piece.joints[joint.id]
    piece.hinge(piece.parts[leaf], piece.parts[on], edge=("far", "back"), towards="z", **told)
    return piece


def _changed(piece, id, **change):
    piece.motions = [replace(m, **change) if m.id == id else m for m in piece.motions]
    return piece


@fault("motion-clashes", ("lid", "back"))
def hinges_let_into_the_back_too_deep():
    """The pins sit 15 mm inside the back and 12 mm under its edge: the lid's rear edge bites the back."""
    piece = build("chest-with-lid")
    x, y, z = piece.motions[0].point
    return _changed(piece, "lid", point=(x, y - 15.0, z - 12.0))


@fault("motion-clashes", ("drawer 1 back", "rail"))
def a_rail_that_hangs_into_the_drawer():
    """It hangs over the open box and clears it while shut; pulled out, the box's back runs into it."""
    piece = build("cabinet")
    top, rear = piece.parts["top"], piece.parts["drawer 1 back"]
    rail = piece.part("rail", 300, 60, "case").lay("x", "z").put(xc=400, y1=rear.y0 - 60, z1=top.z0)
    piece.glue(rail, top)
    return piece


@fault("motion-clashes", ("stop", "front panel"), also=("screw-head-hidden",))
def a_stop_under_a_lid_with_too_little_play_to_swing():
    """Hinged at the back, the stop's lower edge 78 mm under the lid swings 7 mm forwards before it is out."""
    piece = _hinged(build("storage-footstool"), "lid", "back leg left", opens=80, held_by="two lid stays")
    cleat, panel = piece.parts["lid cleat front"], piece.parts["front panel"]
    stop = piece.part("stop", 300, 60, "frame", shows="neither").lay("x", "z")
    stop.put(xc=280, y0=panel.y1 + 1.2, z1=cleat.z0)
    piece.glue(stop, cleat)
    piece.loose(stop, panel, clearance=1.2)
    return piece


@fault("moving-gap", ("drawer 1 left", "kicker"), value=11.5)
def a_kicker_a_finger_above_the_drawer():
    piece = build("cabinet")
    top, side = piece.parts["top"], piece.parts["drawer 1 left"]
    kicker = piece.part("kicker", 200, top.z0 - side.z1 - 11.5, "case").lay("y", "z")
    kicker.put(x1=side.x0 + 9.0, y0=side.y0 + 20, z1=top.z0)
    piece.glue(kicker, top)
    return piece


@fault("moving-gap", ("lid", "post"), value=9.0)
def a_post_a_finger_beside_the_lid():
    piece = _hinged(box(), "lid", "back", opens=100, held_by="a strap")
    foot = block(piece, "foot", (9, 100), (436, 100, 0), "pine")
    piece.glue(foot, piece.parts["right"])
    post = piece.part("post", 300, 89, "pine").lay("z", "y").put(x0=445, y0=105, z0=0)
    piece.glue(post, foot)
    piece.promises.clear()
    return piece


@fault("nothing-holds-open", ("lid",))
def a_lid_without_its_supports():
    return _changed(build("chest-with-lid"), "lid", held_by="")


@fault("nothing-holds-open", ("lid",), also=("screw-head-hidden",))
def a_hinged_lid_that_stops_short_of_upright():
    return _hinged(build("storage-footstool"), "lid", "back leg left", opens=80)


@fault("nothing-holds-open", ("door left",))
def a_door_hung_as_a_flap_without_a_stay():
    """Hinged along its lower edge it opens downwards, and nothing stops it level."""
    piece = build("cabinet")
    door = piece.parts["door left"]
    return _changed(piece, "door left", axis=(1.0, 0.0, 0.0), point=(0.0, door.y0, door.z0), travel=90.0)


@fault("opens-behind", ("lid",))
def a_lid_that_opens_far_over():
    return _changed(build("chest-with-lid"), "lid", travel=120.0 * (1 if _opens_forwards() else -1))


def _opens_forwards():
    return build("chest-with-lid").motions[0].travel > 0


@fault("opens-behind", ("lid",), also=("screw-head-hidden",))
def a_lid_of_a_footstool_past_upright():
    return _hinged(build("storage-footstool"), "lid", "back leg left", opens=100, held_by="two lid stays")
