"""A bed that comes apart: bolted side rails between head and foot, slats on ledgers, beams under wide ones."""

from dataclasses import dataclass
from itertools import product
from math import floor

from scantling.kit import Assembly, Build, Module, Parameters, Part, Role, length, snap

ROOM = 10.0  # round the mattress, for the bedclothes
SLAT_PITCH = 150.0  # so that at most 70 mm stay open between slats 89 mm wide; makers of foam ask for that or less
BEAM_FROM = 788.0  # a beam for every so much from ledger to ledger: one person of 110 kg on a slat of 19 mm, NDS 2018
OFF_END = 3.0  # slat screws off the middle of the ledger, further from the ends of the slats, which split
FOOT_END = 60.0  # foot above the slats
BOLT, NUT, NUT_IN = 9.0, 12.0, 60.0  # M8 through board and post, barrel nut across the rail


@dataclass(frozen=True)
class BedParameters(Parameters):
    """The mattress, as measured, and heights."""

    mattress_width: float = length(1400, least=800, most=1800, says="Width of the mattress.")
    mattress_length: float = length(2000, least=1800, most=2100, says="Length of the mattress.")
    deck: float = length(300, least=220, most=400, says="Top of the slats above the floor.")
    head: float = length(850, least=500, most=1100, says="Height of the head end.")


class Bed(Module[BedParameters]):
    """Head and foot are made up whole; four rails' ends are bolted, so that it goes through a door in parts."""

    id = "bed-with-slats"
    title = "Bed with slats"
    sentence = (
        "A bed around a mattress: head and foot of boards, bolted side rails, screwed slats, beams under wide ones."
    )
    family = "beds"
    when_not = "Not as a bunk or a loft bed, which need guards; not for a cot; buy the mattress first."
    parameters = BedParameters
    roles = {
        "post": Role("Posts, beam and its legs.", "douglas-fir", 38, 37.0, 40.0, "board", 89),
        "rail": Role("Side rails.", "douglas-fir", 38, 37.0, 40.0, "board", 140),
        "board": Role("Boards of head and foot.", "douglas-fir", 19, 18.0, 25.0, "board", 140),
        "slat": Role("Slats.", "douglas-fir", 19, 18.0, 25.0, "board", 89),
        "ledger": Role("Ledgers under the slats.", "douglas-fir", 38, 37.0, 40.0, "board", 38),
    }
    grows = ("mattress_width", "mattress_length", "head")
    sources = (
        "Mattress sizes are those of the mattress: trade sizes differ by half an inch",
        "No more than 70 mm between slats: mattress makers' advice, practice",
    )

    def build(self, build: Build[BedParameters]) -> Assembly:
        """Return the bed."""
        return _Bed(self.start(build), build).built()


class _Bed:
    """The bed while it is built; head at the back, the foot's front left corner at the origin."""

    def __init__(self, piece: Assembly, build: Build[BedParameters]) -> None:
        p = self.p = build.parameters
        self.piece = piece
        self.post_t, self.post_w = build.thickness("post"), build.board_width("post")
        self.rail_t, self.rail_w = build.thickness("rail"), build.board_width("rail")
        self.board_t, self.board_w = build.thickness("board"), build.board_width("board")
        self.ledger_t, self.ledger_w = build.thickness("ledger"), build.board_width("ledger")
        self.slat, self.slat_w = build.thickness("slat"), build.board_width("slat")
        self.inner = snap(p.mattress_width + 2 * ROOM)
        self.width = snap(self.inner + 2 * self.rail_t)
        self.run = snap(p.mattress_length + 2 * ROOM)  # of the side rails, between foot and head
        self.beams = int((self.inner - self.ledger_w) // BEAM_FROM)
        self.slats_z = snap(p.deck - self.slat)
        zone = self.run - self.slat_w - 40
        self.count = floor(zone / SLAT_PITCH) + 1
        self.pitch = zone / (self.count - 1)

    def built(self) -> Assembly:
        """Head and foot, rails between them, ledgers, beam, slats."""
        self._end("foot", snap(self.p.deck + FOOT_END), 0.0)
        self._end("head", self.p.head, self.post_t + self.run)
        rails = [self._rail("left"), self._rail("right")]
        carriers = [self._ledger(rail, i) for i, rail in enumerate(rails)]
        carriers += [self._beam(i) for i in range(self.beams)]
        self._slats(carriers)
        self._promises()
        return self.piece

    def _end(self, end: str, tall: float, y: float) -> None:
        """Two posts, boards across their outer faces from under the rails to the top."""
        posts = []
        for hand, x in (("left", {"x0": 0.0}), ("right", {"x1": self.width})):
            post = self.piece.part(f"{end} post {hand}", tall, self.post_w, "post", name=f"{end} post", seal=("start",))
            post.ease("near/face", "far/face", "near/back", "far/back").lay("z", "-x").put(y0=y, z0=0, **x)
            x_bolt = self.rail_t / 2 if hand == "right" else self.post_w - self.rail_t / 2
            for z in self._bolts():
                post.hole(self._rail_z() + z, x_bolt, BOLT, purpose="bolt")
            posts.append(post)
        room = tall - self._rail_z()  # the lowest board lies over the rails' ends, and the bolts go through it
        n = max(1, floor((room + 30) / (self.board_w + 30)))
        gap = (room - n * self.board_w) / (n - 1) if n > 1 else 0.0
        for i in range(n):
            board = self.piece.part(f"{end} board {i + 1}", self.width, self.board_w, "board", name="end board")
            board.ease("near/face", "far/face", "far/back", "start/face", "end/face").lay(
                "x" if end == "foot" else "-x", "z"
            )
            board.put(x0=0, z0=self._rail_z() + i * (self.board_w + gap), **self._outside(end, y))
            if i == 0:
                for across, up in product((self.rail_t / 2, self.width - self.rail_t / 2), self._bolts()):
                    board.hole(across, up, BOLT, purpose="bolt")
            for post in posts:
                self.piece.screws(board, post, n=2, inset=30, role="holds")

    def _outside(self, end: str, y: float) -> dict[str, float]:
        return {"y1": y} if end == "foot" else {"y0": y + self.post_t}

    def _rail_z(self) -> float:
        """Lower edge of the side rails: their upper edge holds the mattress by 40 mm."""
        return snap(self.p.deck + 40 - self.rail_w)

    def _bolts(self) -> tuple[float, float]:
        """Heights of the bolts above the rails' lower edges."""
        return 40.0, self.rail_w - 40.0

    def _rail(self, hand: str) -> Part:
        """A side rail between the posts, its ends bored for bolts, with holes for the barrel nuts."""
        rail = self.piece.part(f"side rail {hand}", self.run, self.rail_w, "rail", name="side rail", closing=True)
        for y in self._bolts():
            for x in (NUT_IN, self.run - NUT_IN):
                rail.hole(x, y, NUT, purpose="bolt")
        rail.ease("far/face", "far/back", "near/face").lay("-y" if hand == "left" else "y", "z")
        rail.put(y0=self.post_t, z0=self._rail_z(), **({"x0": 0.0} if hand == "left" else {"x1": self.width}))
        for end in ("foot", "head"):
            self.piece.join("bolted", rail, self.piece.parts[f"{end} post {hand}"])
        return rail

    def _ledger(self, rail: Part, i: int) -> Part:
        ledger = self.piece.part(
            f"ledger {i + 1}", self.run - 10, self.ledger_w, "ledger", name="ledger", shows="neither"
        )
        ledger.lay("-y" if i == 0 else "y", "z").put(yc=(rail.y0 + rail.y1) / 2, z1=self.slats_z)
        ledger.put(**({"x0": rail.x1} if i == 0 else {"x1": rail.x0}))
        middle = (ledger.y0 + ledger.y1) / 2
        for k in range(self.count - 1):  # between the slats, whose screws come down from above
            at = self.post_t + 20 + k * self.pitch + (self.slat_w + self.pitch) / 2 - middle
            self.piece.screws(ledger, rail, n=1, shift=at, length=63.5, role="holds", glued=True)
        return ledger

    def _beam(self, number: int) -> Part:
        """A beam on edge under the slats, standing on three legs of its own."""
        id = "beam" if number == 0 else f"beam {number + 1}"
        beam = self.piece.part(id, self.run - 4, self.post_w, "post", name="beam", shows="neither")
        across = self.rail_t + self.inner * (number + 1) / (self.beams + 1)
        beam.lay("y", "z").put(xc=across, y0=self.post_t + 2, z1=self.slats_z)
        for i, y in enumerate((beam.y0 + 150, (beam.y0 + beam.y1) / 2, beam.y1 - 150)):
            leg = self.piece.part(f"{id} leg {i + 1}", self.slats_z - 20, self.post_w, "post", name="beam leg")
            leg.lay("z", "y").put(x0=beam.x1, yc=y, z0=0)
            self.piece.screws(leg, beam, n=2, inset=15, length=63.5, role="holds", glued=True)
        return beam

    def _slats(self, carriers: list[Part]) -> None:
        """Slats across, screwed to the ledgers, so that they come out one by one."""
        slats = []
        for i in range(self.count):
            slat = self.piece.part(f"slat {i + 1}", self.inner - 4, self.slat_w, "slat", name="slat", wears=True)
            slat.ease("near/face", "far/face").lay("x", "y")
            slat.put(xc=self.width / 2, y0=self.post_t + 20 + i * self.pitch, z0=self.slats_z)
            for carrier, n, off in zip(carriers, (1, 1, 2, 2), (OFF_END, -OFF_END, 0.0, 0.0), strict=False):
                self.piece.screws(slat, carrier, n=n, off=off, gauge=8, length=50.8, role="holds")
            slats.append(slat)
        self.piece.carries(*slats, kind="sitter")

    def _promises(self) -> None:
        piece = self.piece
        piece.size(width=self.width, height=max(self.p.head, snap(self.p.deck + FOOT_END)))
        left, right = ((f"side rail {hand}", self.rail_t) for hand in ("left", "right"))
        piece.chain("width", self.width, [left, ("room for the mattress", self.inner), right], "room for the mattress")
        piece.buy(
            "M8 x 140 bolt with barrel nut and washer", 8, "two at each end of each side rail; tighten after a month"
        )
        piece.buy("plastic glide", 4 + 3 * self.beams, "under the posts and the legs of the beam")
        piece.caution("Not a bunk: higher beds need guards and a ladder by the rules for them.")
        piece.caution(
            "Bore post and rail together, marked as a pair, and 30 mm past the nut; tighten the bolts after a month."
        )
        piece.caution("Rated by computation only; sit on every slat before anybody sleeps on it.")
