"""A chair of boards: upright legs, stiles that lean between two rails, slats for seat and back."""

from dataclasses import dataclass
from math import cos, radians, sin, tan

from scantling.kit import Assembly, Build, Module, Parameters, Part, Role, angle, length, snap

from .legs import slat_chain, slat_rows

SLAT_GAP = 5.0
LOW_RAIL = 150.0  # upper edge of the low side rails
STILE_FOOT = 70.0  # stiles end above the ground
BEHIND = 110.0  # rear legs behind the seat's end: they keep it from going over backwards
OFF_END = 2.0  # screws off the middle of the leg, further from the ends of the rails, which split
BACK_START = 120.0  # lowest back slat above the seat


@dataclass(frozen=True)
class ChairParameters(Parameters):
    """Sizes of the seat and its back."""

    width: float = length(480, least=420, most=560, says="Overall width.")
    seat_depth: float = length(430, least=380, most=480, says="Depth of the seat to the back.")
    seat_height: float = length(440, least=380, most=480, says="Height of the seat.")
    back_height: float = length(380, least=300, most=480, says="Height of the back above the seat.")
    lean: float = angle(10, least=5, most=15, says="Lean of the back from upright.")


class Chair(Module[ChairParameters]):
    """Every screw goes through a face into a face: no joint hangs by end grain."""

    id = "chair"
    title = "Chair"
    sentence = "A chair of boards for indoors or a dry terrace, its leaning stiles held by two rails on either side."
    family = "seating"
    when_not = "Not for tipping back on two legs, not for a dining set that must be light, and not left out all winter."
    parameters = ChairParameters
    roles = {
        "leg": Role("Legs.", "douglas-fir", 38, 30.0, 40.0, "board", 64),
        "rail": Role("Rails, and front and back.", "douglas-fir", 19, 18.0, 25.0, "board", 89),
        "stile": Role("Leaning stiles.", "douglas-fir", 38, 30.0, 40.0, "board", 64),
        "slat": Role("Slats of seat and back.", "douglas-fir", 19, 18.0, 22.0, "board", 89),
    }
    grows = ("width", "seat_depth", "back_height")
    sources = (
        "Seat 16 to 18 in high, 15 to 18 in deep; back 12 to 16 in, to 15°: WOOD magazine, Must-have measurements",
        "Edges within 120 mm of the seat eased: EN 581-1:2017, screening only",
    )

    def build(self, build: Build[ChairParameters]) -> Assembly:
        """Return the chair."""
        return _Chair(self.start(build), build).built()


class _Chair:
    """The chair while it is built; x to the right, y to the back, its front left foot at the origin."""

    def __init__(self, piece: Assembly, build: Build[ChairParameters]) -> None:
        p = self.p = build.parameters
        self.piece, self.lean = piece, radians(p.lean)
        self.leg_t, self.leg_w = build.thickness("leg"), build.board_width("leg")
        self.rail_t, self.rail_w = build.thickness("rail"), build.board_width("rail")
        self.stile_t, self.stile_w = build.thickness("stile"), build.board_width("stile")
        self.slat, self.slat_w = build.thickness("slat"), build.board_width("slat")
        self.deck = snap(p.seat_height - self.slat)  # top of the rails
        self.stile_at_seat = p.seat_depth + self.slat / cos(self.lean)
        self.depth = snap(p.seat_depth + BEHIND)
        self.top = p.seat_height + p.back_height

    def stile_front(self, z: float) -> float:
        """Return the y of the stiles' front edges at a height."""
        return self.stile_at_seat + (z - self.p.seat_height) * tan(self.lean)

    def built(self) -> Assembly:
        """Build two sides, join them at front and back, then the seat and the back."""
        self.stiles: list[Part] = []
        self.seat_rails: list[Part] = []
        legs = {}
        for hand in ("left", "right"):
            legs[hand] = self._side(hand)
        for place, y in (("front", {"y0": 0.0}), ("back", {"y1": self.depth})):
            board = self.piece.part(f"{place} rail", self.p.width, self.rail_w, "rail", closing=True).ease("near/face")
            board.lay("x" if place == "front" else "-x", "z").put(x0=0, z1=self.deck, **y)
            for hand in ("left", "right"):
                off = OFF_END if hand == "left" else -OFF_END
                leg = legs[hand][place == "back"]
                self.piece.screws(board, leg, n=2, inset=32, off=off, role="holds", glued=True)
        self._seat()
        self._back()
        self._promises()
        return self.piece

    def _side(self, hand: str) -> tuple[Part, Part]:
        """Two legs, two rails inside them, and a stile inside the rails."""
        new, left = self.piece.part, hand == "left"

        def inside(part: Part, off: float) -> Part:
            return part.put(**({"x0": off} if left else {"x1": self.p.width - off}))

        legs = []
        for place, y in (("front", {"y0": self.rail_t}), ("back", {"y1": self.depth - self.rail_t})):
            leg = new(f"{place} leg {hand}", self.deck, self.leg_w, "leg", name="leg", shows="both", seal=("start",))
            leg.ease("near/face", "near/back", "far/face", "far/back").lay("z", "y" if left else "-y")
            legs.append(inside(leg.put(z0=0, **y), 0.0))
        rails = []
        for name, high in (("seat rail", self.deck), ("low rail", LOW_RAIL)):
            rail = new(f"{name} {hand}", self.depth - 2 * self.rail_t, self.rail_w, "rail", name=name)
            rail.ease("near/face", "near/back").lay("-y" if left else "y", "z").put(y0=self.rail_t, z1=high)
            inside(rail, self.leg_t)
            for leg in legs:
                self.piece.screws(rail, leg, n=2, inset=28, shift=-14, role="clamps", glued=True)
            rails.append(rail)
        stile = self._stile(hand)
        inside(stile, self.leg_t + self.rail_t)
        for rail in rails:
            self.piece.screws(stile, rail, n=2, inset=30, role="clamps", glued=True)
        self.stiles.append(stile)
        self.seat_rails.append(rails[0])
        return legs[0], legs[1]

    def _stile(self, hand: str) -> Part:
        """A stile, both ends cut level."""
        run = (self.top - STILE_FOOT + self.stile_w * sin(self.lean)) / cos(self.lean)
        stile = self.piece.part(
            f"stile {hand}", run, self.stile_w, "stile", name="stile", shows="both", seal=("start", "end")
        )
        stile.saw("start", mitre=self.p.lean, long_edge="near").saw("end", mitre=self.p.lean, long_edge="far")
        stile.ease("far/face", "far/back")  # the edges that hands find behind the back
        stile.lay((0.0, sin(self.lean), cos(self.lean)), (0.0, cos(self.lean), -sin(self.lean)))
        return stile.at(("start", "near", "back"), (0.0, self.stile_front(STILE_FOOT), STILE_FOOT))

    def _seat(self) -> None:
        """Slats of one width from the front edge to the stiles, screwed to the side rails."""
        zone = snap(self.stile_front(self.deck) - 3.0)
        n, width = slat_rows(zone, self.slat_w)
        slats = []
        for i in range(n):
            slat = self.piece.part(f"seat slat {i + 1}", self.p.width, width, "slat", name="seat slat", wears=True)
            slat.ease("near/face", "far/face", "near/back", "start/face", "end/face")
            slat.lay("x", "y").put(x0=0, y0=snap(i * (width + SLAT_GAP)), z0=self.deck)
            for rail in self.seat_rails:
                self.piece.screws(slat, rail, n=2, inset=22, length=50.8, role="holds")
            slats.append(slat)
        slat_chain(self.piece, slats)
        self.piece.carries(*slats, kind="sitter")

    def _back(self) -> None:
        """Slats across the stiles, from above the seat to the top."""
        rise = self.top - self.slat * sin(self.lean) - self.p.seat_height - BACK_START
        along = rise / cos(self.lean)
        n = max(2, int((along + 60) // (self.slat_w + 60)))
        pitch = (along - self.slat_w) / (n - 1)
        slats = []
        for i in range(n):
            z = self.p.seat_height + BACK_START + i * pitch * cos(self.lean)
            slat = self.piece.part(
                f"back slat {i + 1}", self.p.width, self.slat_w, "slat", name="back slat", wears=True
            )
            slat.ease("near/face", "far/face", "far/back", "start/face", "end/face")
            slat.lay("x", (0.0, sin(self.lean), cos(self.lean)))
            slat.at(("start", "near", "back"), (0.0, self.stile_front(z), z))
            for stile in self.stiles:
                self.piece.screws(slat, stile, n=2, inset=20, role="holds")
            slats.append(slat)
        self.piece.carries(*slats, kind="leaning")

    def _promises(self) -> None:
        self.piece.size(width=self.p.width, height=self.top)
        self.piece.buy("plastic glide", 4, "under the legs, so that their end grain stays dry and the floor whole")
        self.piece.caution("Rated by computation only; sit on it low and slowly first. Four feet on the floor.")
        self.piece.caution("Ease every edge a sitter can reach, also from below.")
