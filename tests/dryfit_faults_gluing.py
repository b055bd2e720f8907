"""Deliberate faults of gluing: clamps that do not reach, too few of them, and glue that skins over too soon."""

from dryfit_fault import fault
from dryfit_pieces import empty
from pieces import build
from scantling.dryfit import Clamp, Glue, glue_ups, verify

LONG = Clamp("long", 1600.0, 300.0, 8)
SLOW = Glue("slow", 40.0, 60.0)


def glued(*clamps, glue=SLOW):
    """Ask what stands in the way of gluing a piece up with these clamps and this glue."""

    def ask(piece, settings):
        return glue_ups(piece, verify(piece, settings).order, clamps, glue, settings).findings

    return ask


HOUSED = tuple(f"{board}" for board in ("bottom", "shelf 1", "shelf 2", "shelf 3", "top"))


@fault(
    "clamps-too-short", (*HOUSED[:1], "side left", "side right"), value=760.0, ask=glued(Clamp("short", 600, 100, 8))
)
def a_bookcase_wider_than_the_clamps_open():
    """Side to side it is 760 mm; the shelves that follow are the same to a woodworker and told with the first."""
    piece = build("bookcase")
    for id in ("shelf 1", "shelf 2", "shelf 3", "top"):
        for joint in [j for j in piece.joints.values() if j.kind == "housed" and id in j.parts]:
            del piece.joints[joint.id]
            piece.screws(
                piece.parts[joint.parts[1]], piece.parts[id], n=2, gauge=6, inset=60, role="clamps", glued=True
            )
    return piece


@fault("clamps-too-short", ("base", "cleat"), value=130.0, ask=glued(Clamp("shallow", 300, 100, 8)))
def a_cleat_deeper_in_than_the_throat():
    piece = empty()
    base = piece.part("base", 600, 400, "ply").put(x0=0, y0=0, z0=0)
    piece.glue(base, piece.part("cleat", 200, 60, "ply").put(x0=200, y0=130, z0=18))
    return piece


@fault(
    "clamps-too-few",
    ("front left leg", "front left leg side"),
    value=5.0,
    ask=glued(Clamp("long", 1600, 300, 4), Clamp("tiny", 50, 50, 20)),
)
def a_leg_of_a_work_table_with_four_clamps():
    """844 mm of leg at 200 mm want five; small ones that do not span it do not count. One leg is kept for the test."""
    piece = build("work-table")
    keep = ("front left leg", "front left leg side")
    return _only(piece, *keep)


@fault("clamps-too-few", ("one", "two"), value=4.0, ask=glued(Clamp("bar", 400, 100, 3)))
def two_boards_with_three_clamps():
    return _edge_glued(700)


@fault("open-time-too-short", ("one", "two"), value=3.03, ask=glued(LONG, glue=Glue("contact", 2.0, 10.0)))
def two_boards_and_a_glue_that_grabs():
    return _edge_glued(700)


@fault(
    "open-time-too-short",
    ("front left leg", "front left leg side"),
    ask=glued(LONG, glue=Glue("quick", 3.0, 20.0)),
)
def a_leg_of_a_work_table_and_a_quick_glue():
    return _only(build("work-table"), "front left leg", "front left leg side")


def _edge_glued(length):
    piece = empty()
    one, two = (piece.part(id, length, 89, "pine").put(x0=0, y0=89 * k, z0=0) for k, id in enumerate(("one", "two")))
    piece.glue(one, two)
    return piece


def _only(piece, *keep):
    """Take all other parts out of a piece, and what names them."""
    piece.parts = {id: part for id, part in piece.parts.items() if id in keep}
    piece.joints = {id: j for id, j in piece.joints.items() if set(j.parts) <= set(keep)}
    piece.fasteners = {id: f for id, f in piece.fasteners.items() if set(f.parts) <= set(keep)}
    piece.promises, piece.chains, piece.loads = [], [], []
    return piece
