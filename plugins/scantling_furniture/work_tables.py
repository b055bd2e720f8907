"""A work table that does not rack, and a desk: the underframe of the tables, stiffened."""

from dataclasses import dataclass

from scantling.kit import Assembly, Build, Module, Parameters, Role, length

from .dining_table import knees
from .legs import Frame

BEARER_SPAN = 600.0
SHELF_UP = 200.0


@dataclass(frozen=True)
class WorkTableParameters(Parameters):
    """Overall sizes."""

    width: float = length(1500, least=800, most=2400, says="Length of the top.")
    depth: float = length(650, least=500, most=900, says="Depth of the top.")
    height: float = length(880, least=700, most=1000, says="Height of the top: about that of the wrist, standing.")


class WorkTable(Module[WorkTableParameters]):
    """Heavy angle legs, aprons and lower rails on all sides, a doubled top, a shelf that braces the rails."""

    id = "work-table"
    title = "Work table"
    sentence = "A heavy work table with a doubled top, rails round its feet and a shelf."
    family = "tables"
    when_not = "Not for a vice that is planed against all day: bolt it to the wall, or build a bench with trestles."
    parameters = WorkTableParameters
    roles = {
        "leg": Role("Leg boards.", "douglas-fir", 38, 30.0, 45.0, "board", 89),
        "apron": Role("Aprons, rails and bearers.", "douglas-fir", 38, 30.0, 45.0, "board", 89),
        "sheet": Role("Both layers of the top, and the shelf.", "birch-plywood", 18, 17.1, 21.0),
    }
    grows = ("width", "depth", "height")
    sources = ("36 in for work standing up: Lang, Drawing Tables",)

    def build(self, build: Build[WorkTableParameters]) -> Assembly:
        """Return the table."""
        p, sheet, piece = build.parameters, build.thickness("sheet"), self.start(build)
        frame = Frame(piece, build, p.width, p.depth, p.height - 2 * sheet)
        under = frame.built()
        bearers = frame.bearers(under, BEARER_SPAN)
        lower = piece.part("lower top", p.width, p.depth, "sheet", shows="neither").lay("x", "y")
        lower.put(x0=0, y0=0, z0=frame.height)
        for beam in (*under.aprons.values(), *bearers):
            piece.screws(lower, beam, pitch=300, inset=70, length=50.8, role="holds")
        upper = piece.part("upper top", p.width, p.depth, "sheet", wears=True).lay("x", "y")
        upper.ease("near/face", "far/face", "start/face", "end/face").put(x0=0, y0=0, z0=lower.z1)
        for off in (-1, 1):
            piece.screws(upper, lower, pitch=400, inset=130, off=off * (p.depth / 2 - 110), role="clamps")
        rails = frame.ring("rail", SHELF_UP)
        shelf = piece.part("shelf", frame.width - 2 * frame.leg_t, frame.depth - 2 * frame.leg_t, "sheet")
        shelf.ease("near/face", "far/face", "start/face", "end/face").lay("x", "y").put(
            x0=frame.leg_t, y0=frame.leg_t, z0=SHELF_UP
        )
        for side in ("front", "back"):
            piece.screws(shelf, rails[side], pitch=300, inset=120, length=50.8, role="holds")
        piece.carries(lower, kind="mass", amount=200.0)
        piece.carries(shelf, kind="mass", amount=60.0)
        piece.size(p.width, p.depth, p.height)
        tops = [("lower top", sheet), ("upper top", sheet)]
        piece.chain("height", p.height, [("front left leg", frame.height), *tops], "front left leg")
        piece.caution("Fix it to the wall or the floor before a machine stands on it.")
        piece.caution("The upper sheet is screwed on so that it can be renewed: do not saw or drill over its screws.")
        return piece


@dataclass(frozen=True)
class DeskParameters(Parameters):
    """Overall sizes."""

    width: float = length(1200, least=800, most=1800, says="Length of the top.")
    depth: float = length(650, least=500, most=850, says="Depth of the top.")
    height: float = length(730, least=640, most=780, says="Height of the top; for typing an inch or two lower.")
    overhang: float = length(15, least=0, most=50, says="Top over the legs all round.")
    cable: float = length(60, least=25, most=80, says="Hole for cables at the back of the top.")


class Desk(Module[DeskParameters]):
    """The table's underframe with a rail low at the back and at both sides, and a top held by clips."""

    id = "desk"
    title = "Desk"
    sentence = "A desk on angle legs, with low rails at back and sides against racking and a hole for cables."
    family = "tables"
    when_not = "Not where the height must change: buy a lifting frame for that and put this top on it."
    parameters = DeskParameters
    roles = {
        "leg": Role("Leg boards.", "douglas-fir", 19, 18.0, 45.0, "board", 89),
        "apron": Role("Aprons, rails and bearers.", "douglas-fir", 19, 18.0, 25.0, "board", 89),
        "sheet": Role("Top.", "birch-plywood", 18, 17.1, 25.0),
    }
    grows = ("width", "depth", "height")
    sources = (
        "An inch or two lower than the dining table for writing, 25 to 26 in for keys: Lang, Drawing Tables",
        "720 to 740 mm for offices: HSA Ireland",
    )

    def build(self, build: Build[DeskParameters]) -> Assembly:
        """Return the desk."""
        p, sheet, piece = build.parameters, build.thickness("sheet"), self.start(build)
        frame = Frame(piece, build, p.width - 2 * p.overhang, p.depth - 2 * p.overhang, p.height - sheet)
        under = frame.built(clips=True)
        frame.bearers(under, BEARER_SPAN)
        (top,) = frame.clipped(under, "sheet", p.overhang)
        top.hole(p.width / 2 + BEARER_SPAN / 4, p.depth - p.overhang - frame.leg_t - frame.apron_t - 60, p.cable)
        frame.ring("rail", SHELF_UP, sides=("back", "left", "right"))
        piece.carries(top, kind="mass", amount=60.0)
        piece.size(p.width, p.depth, p.height)
        piece.chain("height", p.height, [("front left leg", frame.height), ("top", sheet)], "front left leg")
        knees(piece, p.height - sheet - frame.apron_w)
        piece.caution("Not to stand or sit on.")
        piece.caution("Lead cables so that nobody trips and none is pinched between desk and wall.")
        return piece
