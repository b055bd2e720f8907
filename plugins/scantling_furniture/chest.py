"""A chest with a hinged lid: it has air, nothing that locks, and a lid that stays where it is left."""

from dataclasses import dataclass

from scantling.kit import Assembly, Build, Module, Parameters, Part, Role, length, snap

GAP = 3.0  # soft pads hold the lid off the box; under the 8 mm that catches fingers indoors, EN 14749
LIP = 20.0  # lid beyond the front and the ends, to lift it by
VENT = 40.0  # 1257 mm² each, where 650 mm² are asked for
OPENS = 95.0  # degrees; the supports take it a little past upright and no further
VENTS_APART = 170.0
VENT_DOWN = 70.0
EDGES = ("start", "end", "near", "far")
DRAIN = 6.0  # below the 7 to 12 mm finger band of EN 581-1
LOAD = 60.0  # kg of things in it: practice
GRAVITY = 9.80665


@dataclass(frozen=True)
class ChestParameters(Parameters):
    """What goes in it: the clear inside."""

    width: float = length(1000, least=450, most=1500, says="Clear inside from left to right.")
    depth: float = length(420, least=300, most=700, says="Clear inside from front to back.")
    height: float = length(380, least=200, most=600, says="Clear inside from bottom to lid.")


class Chest(Module[ChestParameters]):
    """Front and back over the ends, a bottom between them, runners under it, a lid on hinges and two supports."""

    id = "chest-with-lid"
    title = "Chest with lid"
    sentence = "A chest of plywood with a hinged lid that is held open, vents at both ends, and runners under it."
    family = "storage"
    when_not = (
        "Not with a lock or a catch, and not where children play unless its lid is left off; not rainproof: its lid "
        "lets air in."
    )
    parameters = ChestParameters
    roles = {
        "panel": Role("Sides, lid and bottom, from plywood with a waterproof bond.", "birch-plywood", 18, 17.1, 18.5),
        "runner": Role("Runners that keep it off the ground.", "douglas-fir", 38, 30.0, 40.0, "board", 38),
    }
    grows = ("width", "depth", "height")
    sources = (
        "From 1.1 cubic feet: vents, no latch, a lid held at any height: CPSC 1982; ASTM F834 abstract, screening only",
        "Two vents of 650 mm² 150 mm apart from 0.03 m³: EN 71-style text, screening only",
    )

    def build(self, build: Build[ChestParameters]) -> Assembly:
        """Return the chest."""
        p, t, up, piece = build.parameters, build.thickness("panel"), build.thickness("runner"), self.start(build)
        outside, depth, tall = snap(p.width + 2 * t), snap(p.depth + 2 * t), snap(p.height + t)
        self._walls(piece, p, t, up, tall)
        bottom = piece.part("bottom", p.width, p.depth, "panel", shows="neither", closing=True, seal=EDGES)
        for x, y in ((60, 60), (60, p.depth - 60), (p.width - 60, 60), (p.width - 60, p.depth - 60)):
            bottom.hole(x, y, DRAIN, purpose="drain")
        bottom.lay("x", "y").put(x0=t, y0=t, z0=up)
        for side in ("front", "back", "left end", "right end"):
            piece.screws(piece.parts[side], bottom, pitch=180, inset=75, role="holds")  # no glue: a wet one comes out
        piece.carries(bottom, kind="mass", amount=LOAD)
        for name, at in (("left", {"x0": t + 60}), ("right", {"x1": outside - t - 60})):
            runner = piece.part(
                f"runner {name}", depth, build.board_width("runner"), "runner", name="runner", wears=True
            )
            runner.seal = EDGES
            runner.lay("y", "-x").put(y0=0, z0=0, **at)
            piece.screws(bottom, runner, n=3, inset=110, role="holds")
        lid = piece.part("lid", outside + 2 * LIP, depth + LIP, "panel", wears=True, seal=EDGES)
        lid.ease(*(f"{side}/{face}" for side in EDGES for face in ("face", "back")))
        lid.lay("x", "y").put(xc=outside / 2, y1=depth, z0=up + tall + GAP)
        back, stays = piece.parts["back"], "two lid supports that hold it wherever it is let go"
        piece.hinge(lid, back, edge=("far", "back"), towards="z", opens=OPENS, clearance=GAP, held_by=stays)
        for side in ("front", "left end", "right end"):
            piece.loose(lid, piece.parts[side], clearance=GAP)
        self._bought(piece, lid)
        piece.size(outside + 2 * LIP, depth + LIP, up + tall + GAP + t)
        piece.chain("width", outside, [("left end", t), ("bottom", p.width), ("right end", t)], "bottom")
        piece.chain("depth", depth, [("front", t), ("left end", p.depth), ("back", t)], "left end")
        return piece

    def _walls(self, piece: Assembly, p: ChestParameters, t: float, up: float, tall: float) -> None:
        """Front and back over the ends, glued and screwed; the vents are in the ends, where no wall covers both."""
        long = p.width + 2 * t
        front = piece.part("front", long, tall, "panel", seal=EDGES).ease(
            "far/face", "far/back", "start/face", "end/face"
        )
        front.lay("x", "z")
        back = piece.part("back", long, tall, "panel", seal=EDGES).lay("-x", "z")
        front.put(x0=0, y0=0, z0=up)
        back.put(x0=0, y0=p.depth + t, z0=up)
        for name, x in (("left end", {"x0": 0.0}), ("right end", {"x1": long})):
            end = piece.part(name, p.depth, tall, "panel", name="end", seal=EDGES).ease("far/face", "far/back")
            for y in (p.depth / 2 - VENTS_APART / 2, p.depth / 2 + VENTS_APART / 2):
                end.hole(y, tall - VENT_DOWN, VENT, purpose="vent")
            end.lay("-y" if name == "left end" else "y", "z").put(y0=t, z0=up, **x)
            for wall in (front, back):
                piece.screws(wall, end, pitch=120, inset=40, role="clamps", glued=True)

    def _bought(self, piece: Assembly, lid: Part) -> None:
        """Hinges, and supports strong enough for the lid: its weight at half its depth."""
        torque = lid.mass_kg() * GRAVITY * lid.width / 2000
        piece.buy("butt hinge 75 mm", 2 if lid.length < 1200 else 3, "on back and lid, screws shorter than the plywood")
        piece.buy("lid support", 2, f"hold the lid wherever it is let go, {torque:.0f} N m together, not by friction")
        piece.buy("soft pad 3 mm", 4, "between lid and box: air gets in, fingers are spared")
        piece.caution("Children hide in chests: no lock, no catch, vents left free, a lid that cannot fall shut.")
        piece.caution(
            "The lid pinches: fit the supports before anybody uses the chest, and see that they hold it anywhere."
        )
        piece.caution("Not a seat unless the lid is thick enough for it; long lids bend under a sitter.")
