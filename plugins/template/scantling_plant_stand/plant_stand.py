"""A plant stand: a top on two sides, with a rail between them that keeps the stand square."""

from dataclasses import dataclass

from scantling.kit import Assembly, AssemblyError, Build, Module, Parameters, Role, length

RAIL = 80.0  # mm, width of the rail


@dataclass(frozen=True)
class PlantStandParameters(Parameters):
    """What a caller may ask for; every one has a default, a range and a sentence."""

    width: float = length(420, least=250, most=900, says="Overall width from left to right.")
    depth: float = length(260, least=150, most=450, says="Overall depth from front to back.")
    height: float = length(380, least=200, most=500, says="Overall height.")
    overhang: float = length(20, least=0, most=60, says="Top beyond the sides at each end.")


class PlantStand(Module[PlantStandParameters]):
    """Four parts from one sheet; every size follows from the parameters and the thickness as measured."""

    id = "plant-stand"
    title = "Plant stand"
    sentence = "A low stand for pots: a top on two sides, with a rail between them."
    family = "stands"
    when_not = "Not a stool: it is not made to be sat or stood on."
    parameters = PlantStandParameters
    roles = {"panel": Role("All parts, from plywood.", "birch-plywood", 18, 17.0, 19.0)}
    grows = ("width", "depth", "height")
    sources = ("Sizes: common practice for stands of one or two pots",)

    def build(self, build: Build[PlantStandParameters]) -> Assembly:
        """Return the stand: x runs to the right, y to the back, z up from the floor, all in mm."""
        p, t = build.parameters, build.thickness("panel")
        between = p.width - 2 * p.overhang - 2 * t
        if between < 100:
            raise AssemblyError(f"{between:.0f} mm between the sides is too little; take less overhang or more width")
        piece = self.start(build)

        top = piece.part("top", p.width, p.depth, "panel", seal=("start", "end", "near", "far"))
        top.ease("near/face", "far/face", "start/face", "end/face")
        top.lay(length="x", width="y").put(x0=0, y0=0, z1=p.height)

        # The show face is the one the board's thickness points to: length × width, by the right hand.
        left = piece.part("left side", p.height - t, p.depth, "panel", name="side", seal=("start", "near", "far"))
        left.lay(length="z", width="y").put(x0=p.overhang, y0=0, z0=0)
        right = piece.part("right side", p.height - t, p.depth, "panel", name="side", seal=("start", "near", "far"))
        right.lay(length="z", width="-y").put(x1=p.width - p.overhang, y0=0, z0=0)

        rail = piece.part("rail", between, RAIL, "panel", closing=True)
        rail.lay(length="x", width="z").put(x0=left.x1, yc=p.depth / 2, z1=p.height - t)

        ends = [piece.screws(side, rail, n=2, role="holds", glued=True, inset=20) for side in (left, right)]
        # An even number, so that none of these meets the rail's screws in the middle.
        tops = [piece.screws(top, side, n=4, role="clamps", glued=True, inset=30) for side in (left, right)]

        piece.carries(top, kind="mass", amount=25)  # kg: two large pots, just watered
        piece.step("Glue and screw the rail between the sides, flush with their upper ends.", [left, right, rail], ends)
        piece.step("Lay the top on with the same overhang at both ends, glue and screw it.", [top], tops)
        piece.size(width=p.width, depth=p.depth, height=p.height)
        piece.chain("width", p.width, [("overhang", p.overhang), ("left side", t), ("rail", between),
                                       ("right side", t), ("overhang", p.overhang)], "rail")  # fmt: skip
        piece.caution("A wet pot and its plant weigh more than they look: load the stand before trusting it.")
        return piece
