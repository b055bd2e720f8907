"""Storage pieces: a footstool with folded-mitre corner legs, thin sides with applied strips, and a loose lid."""

from dataclasses import dataclass

from scantling.kit import (
    Assembly,
    AssemblyError,
    Build,
    Cushion,
    CushionSize,
    Module,
    Parameters,
    Part,
    Role,
    cushion,
    length,
    snap,
)

from .cushions import not_measured, stopped_and_drained

LEG_STRIP = 70.0
GROUND_CLEAR = 40.0
STRIP_HEIGHT = 60.0
CLEAT_HEIGHT = 40.0
LID_PLAY = 3.0
BOTTOM_PLAY = 1.5
DRAIN_HOLE = 6.0  # below the 7 to 12 mm finger band of EN 581-1
FINGER_HOLE = 30.0
LOAD = 15.0  # kg of things in it: practice
EDGES = ("start", "end", "near", "far")
VENT, VENT_X, VENT_Y = 30.0, 65.0, 45.0  # 707 mm² each and 158 mm apart, where 650 mm² and 150 mm are asked for


@dataclass(frozen=True)
class StorageFootstoolParameters(Parameters):
    """The box follows the cushion that lies on its lid."""

    top_cushion: CushionSize = cushion(560, 460, 100, says="The cushion on the lid, as bought.")
    height: float = length(400, least=280, most=500, says="Height of the top with the cushion compressed.")
    overhang: float = length(0, least=0, most=20, says="Cushion over the edge of the lid all round.")


class StorageFootstool(Module[StorageFootstoolParameters]):
    """Four flat sides are made on the bench, folded together at the mitred legs, closed with a loose bottom and lid."""

    id = "storage-footstool"
    title = "Storage footstool"
    sentence = (
        "A cushioned footstool that stores: folded-mitre legs, thin sides, applied strips, a loose lid on cleats."
    )
    family = "storage"
    when_not = "Not as a step to stand on, and not as a toy chest: the lid is loose and the box is large."
    parameters = StorageFootstoolParameters
    grows = ("height",)
    roles = {
        "frame": Role(
            "Legs, strips, cleats and lid, from plywood with a waterproof bond.", "birch-plywood", 18, 17.1, 18.5
        ),
        "panel": Role("Thin sides and bottom.", "birch-plywood", 9, 8.5, 9.5),
    }
    sources = (
        "Height an inch or two below the compressed seat, 14 to 17 in: common practice",
        "Boxes of 1.1 cubic feet and more are treated as chests: ASTM F834 / F2598 abstract, screening only",
    )

    def build(self, build: Build[StorageFootstoolParameters]) -> Assembly:
        """Return the footstool."""
        return _Footstool(self.start(build), build).built()


class _Footstool:
    """One footstool while it is being built; the corner of its front left leg stands at the origin."""

    def __init__(self, piece: Assembly, build: Build[StorageFootstoolParameters]) -> None:
        p = self.p = build.parameters
        self.piece = piece
        self.t, self.thin = build.thickness("frame"), build.thickness("panel")
        self.width = snap(p.top_cushion.width.typical - 2 * p.overhang)
        self.depth = snap(p.top_cushion.depth.typical - 2 * p.overhang)
        self.leg = snap(p.height - p.top_cushion.loaded.typical - self.t)
        if min(self.width, self.depth) < 250 or self.leg < 180:
            raise AssemblyError(
                f"a box {self.width:.0f} × {self.depth:.0f} mm on legs of {self.leg:.0f} mm is too small to join; "
                "250 mm each way and legs of 180 mm are the least"
            )

    def built(self) -> Assembly:
        """Build four flat sides, fold them, then bottom and lid."""
        names = (("front", 0), ("right", 1), ("back", 2), ("left", 3))
        self.sides = {name: self._side(name, turn) for name, turn in names}
        for (a, _), (b, _) in zip(names, (*names[1:], names[0]), strict=True):
            self.piece.fold(self.sides[a][1], self.sides[b][0])
        self._bottom()
        self._lid()
        self._cushion()
        self._promises()
        return self.piece

    def _side(self, name: str, turn: int) -> tuple[Part, Part, Part]:
        """Make one side as seen from outside (leg strips, panel behind, strips between), then turn it into its place.

        Returns the leg strips at the left and right end as seen from outside, and the panel.
        """
        long_side = turn % 2 == 0
        run = self.width if long_side else self.depth
        back = self.t + (0.0 if long_side else self.thin)
        new = self.piece.part
        legs = []
        for end, edge in (("left", "far"), ("right", "near")):
            leg = new(f"{name} leg {end}", self.leg, LEG_STRIP, "frame", name="leg strip", seal=("start", "end"))
            leg.saw(edge, bevel=45.0, long_face="face").lay(length="z", width="-x").put(y0=0, z0=0)  # type: ignore[arg-type]
            legs.append(leg.put(**({"x0": 0.0} if end == "left" else {"x1": run})))
        between = snap(run - 2 * LEG_STRIP)
        strips = []
        for place, z in (("bottom", GROUND_CLEAR), ("top", self.leg - STRIP_HEIGHT)):
            strip = new(f"{name} strip {place}", between, STRIP_HEIGHT, "frame", name="applied strip", closing=True)
            strips.append(strip.lay(length="x", width="z").put(x0=LEG_STRIP, y0=0, z0=z))
        panel = new(f"{name} panel", snap(run - 2 * back), self.leg - GROUND_CLEAR, "panel", name="side panel")
        panel.lay(length="x", width="z").put(x0=back, y0=self.t, z0=GROUND_CLEAR)
        cleat = new(
            f"{name} bottom cleat",
            snap(run - 2 * (self.t + self.thin) - 80),
            CLEAT_HEIGHT,
            "frame",
            name="bottom cleat",
            shows="neither",
        )
        cleat.lay(length="x", width="z").put(xc=run / 2, y0=self.t + self.thin, z0=GROUND_CLEAR + 10)
        corner = ((0.0, 0.0), (self.width, 0.0), (self.width, self.depth), (0.0, self.depth))[turn]
        for part in (*legs, *strips, panel, cleat):
            self._turned(part, turn, corner)
        self._fasten_side(legs, strips, panel, cleat)
        return legs[0], legs[1], panel

    def _fasten_side(self, legs: list[Part], strips: list[Part], panel: Part, cleat: Part) -> None:
        """Glue the side up flat, screwed from the inside so that no screw shows."""
        for leg in legs:
            self.piece.screws(panel, leg, n=3, gauge=6, inset=45, role="clamps", glued=True, head_depth=0.5)
        for strip, shift in zip(strips, (17.0, 0.0), strict=True):
            self.piece.screws(
                panel, strip, pitch=180, gauge=6, inset=40, role="clamps", glued=True, head_depth=0.5, off=shift
            )
        self.piece.screws(cleat, strips[0], through=[panel], pitch=180, gauge=6, inset=60, role="clamps", glued=True)

    def _turned(self, part: Part, turn: int, corner: tuple[float, float]) -> None:
        """Turn a part of a side by quarter turns about the upright corner line and move it to its corner."""
        part.turn("z", 90.0 * turn, (0.0, 0.0, 0.0))
        part.shift((corner[0], corner[1], 0.0))

    def _bottom(self) -> None:
        """Drop the bottom onto its cleats, with holes in it for water and for air: a child can hide in the box."""
        inside = self.t + self.thin
        wide, deep = self.width - 2 * (inside + BOTTOM_PLAY), self.depth - 2 * (inside + BOTTOM_PLAY)
        bottom = self.piece.part("bottom", wide, deep, "panel", shows="neither", seal=("start", "end", "near", "far"))
        for x, y in ((60, 60), (60, deep - 60), (wide - 60, 60), (wide - 60, deep - 60)):
            bottom.hole(x, y, DRAIN_HOLE, purpose="drain")
        for side in (-1, 1):  # no wall and no floor blocks them there
            bottom.hole(wide / 2 + side * VENT_X, deep / 2 + side * VENT_Y, VENT, purpose="vent")
        bottom.lay(length="x", width="y").put(xc=self.width / 2, yc=self.depth / 2, z0=GROUND_CLEAR + 10 + CLEAT_HEIGHT)
        self.piece.carries(bottom, kind="mass", amount=LOAD)
        for name in self.sides:
            self.piece.loose(bottom, self.piece.parts[f"{name} bottom cleat"])

    def _lid(self) -> None:
        """Lay the lid on the sides; cleats under it keep it in place with a little play."""
        lid = self.piece.part("lid", self.width, self.depth, "frame", wears=True, seal=("start", "end", "near", "far"))
        lid.ease(*(f"{side}/{face}" for side in EDGES for face in ("face", "back")))  # lifted from below as well
        lid.hole(self.width / 2, self.depth / 2, FINGER_HOLE, purpose="finger")
        lid.lay(length="x", width="y").put(x0=0, y0=0, z0=self.leg)
        inside = self.t + self.thin + LID_PLAY
        for name, y in (("front", {"y0": inside}), ("back", {"y1": self.depth - inside})):
            cleat = self.piece.part(
                f"lid cleat {name}", self.width - 2 * inside, CLEAT_HEIGHT, "frame", name="lid cleat", shows="neither"
            )
            cleat.lay(length="x", width="y").put(xc=self.width / 2, z1=self.leg, **y)
            self.piece.screws(cleat, lid, n=3, gauge=6, inset=60, role="clamps", glued=True)
            self.piece.loose(cleat, self.sides[name][2], clearance=LID_PLAY)
        for left, right, _panel in self.sides.values():
            self.piece.loose(lid, left)
            self.piece.loose(lid, right)

    def _cushion(self) -> None:
        p = self.p
        size = p.top_cushion
        stopped = "the lid has no rim: a non-slip mat or two hook strips keep the cushion from sliding"
        corner = (-p.overhang, -p.overhang, self.leg + self.t)
        wide, deep, thick = size.width.typical, size.depth.typical, size.thickness.typical
        loaded = size.loaded.typical
        cushion = Cushion("top cushion", "seat", corner, wide, deep, thick, loaded, size.assumed, stopped)
        self.piece.cushions.append(cushion)
        not_measured(self.piece, size, "top")
        stopped_and_drained(
            self.piece,
            stopped[0].upper() + stopped[1:] + ".",
            f"Four {DRAIN_HOLE:.0f} mm holes drain the bottom; the finger hole and the play under the lid let air in; "
            f"the sides stand {GROUND_CLEAR:.0f} mm off the ground.",
        )

    def _promises(self) -> None:
        piece = self.piece
        piece.size(width=self.width, depth=self.depth, height=self.leg + self.t)
        for name, run in (("front", self.width), ("left", self.depth)):
            strip = f"{name} strip top"
            links = [(f"{name} leg left", LEG_STRIP), (strip, run - 2 * LEG_STRIP), (f"{name} leg right", LEG_STRIP)]
            piece.chain(f"{name} side", run, links, strip)
        piece.buy("plastic glide", 4, "under the legs, so that their end grain stays dry")
        piece.caution("The lid is loose: fingers come first. Not a toy chest; keep small children from climbing in.")
        piece.caution("Not a step: sit on it or rest feet on it.")
