"""A side table with a shelf, and a stool: the underframe of the tables, small."""

from dataclasses import dataclass

from scantling.kit import Assembly, Build, Module, Parameters, Role, length

from .legs import Frame, slat_chain

SHELF_UP = 130.0
CLEAT = 36.0  # 2 in screws through it stay inside the shelf


@dataclass(frozen=True)
class SideTableParameters(Parameters):
    """Overall sizes."""

    width: float = length(450, least=340, most=700, says="Width of the top.")
    depth: float = length(450, least=340, most=700, says="Depth of the top.")
    height: float = length(560, least=400, most=760, says="Height of the top, near the arm of the seat beside it.")
    overhang: float = length(10, least=0, most=30, says="Top over the legs all round.")


class SideTable(Module[SideTableParameters]):
    """Angle legs and aprons; a shelf on cleats between the legs; a top held by clips."""

    id = "side-table"
    title = "Side table"
    sentence = "A side table of plywood and boards with a shelf between its legs."
    family = "tables"
    when_not = (
        "Not outdoors, where its closed top and shelf hold water, and not as a stool: it is higher than it is wide."
    )
    parameters = SideTableParameters
    roles = {
        "leg": Role("Leg boards.", "douglas-fir", 19, 18.0, 25.0, "board", 64),
        "apron": Role("Aprons, and the cleats under the shelf.", "douglas-fir", 19, 18.0, 25.0, "board", 64),
        "sheet": Role("Top and shelf.", "birch-plywood", 18, 17.1, 18.5),
    }
    grows = ("width", "depth", "height")
    sources = ("Height 20 to 30 in, a little above the arm of the chair: Lang, Drawing Tables",)

    def build(self, build: Build[SideTableParameters]) -> Assembly:
        """Return the table."""
        p, sheet, piece = build.parameters, build.thickness("sheet"), self.start(build)
        frame = Frame(piece, build, p.width - 2 * p.overhang, p.depth - 2 * p.overhang, p.height - sheet)
        under = frame.built(clips=True)
        frame.clipped(under, "sheet", p.overhang)
        t, up = frame.leg_t, SHELF_UP
        shelf = piece.part("shelf", frame.width - 2 * t, frame.depth - 2 * (t + frame.apron_t), "sheet", closing=True)
        shelf.ease("near/face", "far/face", "start/face", "end/face").lay("x", "y").put(x0=t, yc=frame.depth / 2, z0=up)
        for x, side in (("left", "-y"), ("right", "y")):
            cleat = piece.part(
                f"shelf cleat {x}", shelf.width - 10, CLEAT, "apron", name="shelf cleat", shows="neither"
            )
            cleat.lay(side, "z").put(yc=frame.depth / 2, z1=up)
            cleat.put(**({"x0": t} if x == "left" else {"x1": frame.width - t}))
            for y in ("front", "back"):
                leg = under.legs[f"{y} {x}"][1]
                piece.screws(cleat, leg, n=1, gauge=6, role="clamps", glued=True)
            piece.screws(cleat, shelf, n=2, inset=40, role="clamps")
        piece.carries(piece.parts["top"], kind="mass", amount=30.0)
        piece.carries(shelf, kind="mass", amount=15.0)
        piece.size(p.width, p.depth, p.height)
        piece.caution("Not a stool and not a step: it is narrow for its height.")
        return piece


@dataclass(frozen=True)
class StoolParameters(Parameters):
    """Overall sizes."""

    width: float = length(380, least=340, most=500, says="Width of the seat.")
    depth: float = length(340, least=320, most=450, says="Depth of the seat.")
    height: float = length(450, least=300, most=480, says="Height of the seat.")


class Stool(Module[StoolParameters]):
    """Angle legs, aprons, and slats screwed on: it may stand in the rain."""

    id = "stool"
    title = "Stool"
    sentence = "A stool with a slatted seat on angle legs, for outdoors or in."
    family = "seating"
    when_not = "Not higher than it is given here, and not to stand on: a bar stool needs rails and splayed legs."
    parameters = StoolParameters
    roles = {
        "leg": Role("Leg boards.", "douglas-fir", 19, 18.0, 25.0, "board", 64),
        "apron": Role("Aprons.", "douglas-fir", 19, 18.0, 25.0, "board", 89),
        "slat": Role("Slats of the seat.", "douglas-fir", 19, 18.0, 25.0, "board", 89),
    }
    grows = ("width", "depth", "height")
    sources = (
        "Seat height 16 to 18 in, width 16 to 20 in: WOOD magazine, Must-have measurements for comfortable seating",
        "Edges within 120 mm of the seat eased, gaps outside 7 to 12 mm: EN 581-1:2017, screening only",
    )

    def build(self, build: Build[StoolParameters]) -> Assembly:
        """Return the stool."""
        p, slat, piece = build.parameters, build.thickness("slat"), self.start(build)
        frame = Frame(piece, build, p.width, p.depth, p.height - slat)
        slats = frame.slatted(frame.built(), "slat", slat, 0.0)
        slat_chain(piece, slats)
        piece.carries(*slats, kind="sitter")
        piece.size(p.width, p.depth, p.height)
        piece.caution("To sit on, not to stand on; sit in the middle.")
        piece.caution("Ease every edge a sitter can reach, also from below.")
        return piece
