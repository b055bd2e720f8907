"""What the seats of a set share, so that runs and corner fit beside each other: parameters, roles, lines and slats."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, cos, radians, sin, tan
from typing import Any, Literal

from scantling.kit import (
    Assembly,
    AssemblyError,
    Build,
    Cushion,
    CushionSize,
    Parameters,
    Part,
    Role,
    angle,
    cushion,
    length,
    snap,
)

from .legs import with_gaps

SLAT_GAP = 5.0  # drains, and stays out of the 7 to 12 mm finger band of EN 581-1
LEAST_SLAT = 45.0
FOOT_CLEAR = 30.0  # the post's end grain stays off the ground
BACK_SLAT_START = 60.0  # above the deck, so that leaves and water fall through
RAIL = 120.0
ALL_ROUND = ("start", "end", "near", "far")  # rain comes through the gaps onto every edge of the plywood
BOLT = 9.0  # clearance hole of an M8 bolt, ISO 273 medium series
BOLTS_AT = (0.2, 0.55)  # of the clear depth from the front: clear of posts, cleats and the ribs of the corner

ROLES = {
    "frame": Role("Ribs and rails, from plywood with a waterproof bond.", "birch-plywood", 18, 17.1, 18.5),
    "slat": Role("Seat and back slats and arms.", "western-red-cedar", 19, 18.0, 20.0, "board", 89),
    "post": Role("Leaning posts and arm posts.", "douglas-fir", 38, 37.0, 39.0, "board", 89),
    "cleat": Role("Cleats that carry the seat slats.", "douglas-fir", 38, 37.0, 39.0, "board", 38),
}


@dataclass(frozen=True)
class SeatSetParameters(Parameters):
    """What every seat of a set takes; give all seats of a set the same."""

    seat_cushion: CushionSize = cushion(560, 560, 120, says="The seat cushion as bought.")
    back_cushion: CushionSize = cushion(
        560, 450, 120, says="The back cushion as bought; depth is its height.", sink=0.2
    )
    seat_height: float = length(430, least=330, most=520, says="Height somebody sits at, with the cushion compressed.")
    lean: float = angle(12, least=5, most=25, says="Lean of the back from upright; also as rise over run, 1 in 5.")
    back_height: float = length(420, least=250, most=700, says="Height of the back above the bare seat.")


class SeatLines:
    """Heights, depths and planes of a seat, y to the back from the front of its front rail, z up from the floor."""

    def __init__(self, piece: Assembly, build: Build[Any]) -> None:
        p: SeatSetParameters = build.parameters
        self.piece = piece
        self.ply, self.slat, self.slat_w = build.thickness("frame"), build.thickness("slat"), build.board_width("slat")
        self.post_t, self.post_w = build.thickness("post"), build.board_width("post")
        self.cleat_t, self.cleat_w = build.thickness("cleat"), build.board_width("cleat")
        self.deck = snap(p.seat_height - p.seat_cushion.loaded.typical)
        self.rib_top = snap(self.deck - self.slat)
        if self.rib_top < 150:
            raise AssemblyError(
                f"the bare seat would stand {self.deck:.0f} mm high, which leaves ribs of {self.rib_top:.0f} mm; "
                "raise the seat height or take a thinner cushion (ribs of 150 mm are the least)"
            )
        self.lean_degrees, self.lean = p.lean, radians(p.lean)
        self.back_at_deck = snap(self.ply + p.seat_cushion.depth.typical)
        self.post_front_at_deck = self.back_at_deck + self.slat / cos(self.lean)
        self.top = snap(self.deck + p.back_height)
        self.rib_end = snap(self.post_front(self.rib_top) + self.post_w / cos(self.lean) + 8.0)
        self.deck_end = snap(self.post_front(self.rib_top - self.cleat_w) - 2.0)  # clear of the posts below it

    def post_front(self, z: float) -> float:
        """Return the y of the posts' front edges at a height."""
        return self.post_front_at_deck + (z - self.deck) * tan(self.lean)

    def post(self, id: str, x1: float) -> Part:
        """Lean a post back, both ends cut level, its right side at x1."""
        run = (self.top - FOOT_CLEAR + self.post_w * sin(self.lean)) / cos(self.lean)
        up, back = (0.0, sin(self.lean), cos(self.lean)), (0.0, cos(self.lean), -sin(self.lean))
        lean = self.lean_degrees
        post = self.piece.part(
            id, run, self.post_w, "post", name="leaning post", shows="neither", seal=("start", "end")
        )
        post.saw("start", mitre=lean, long_edge="near").saw("end", mitre=lean, long_edge="far")
        return post.lay(length=up, width=back).at(
            ("start", "near", "back"), (x1, self.post_front(FOOT_CLEAR), FOOT_CLEAR)
        )

    def neighbour_holes(self, part: Part, depth_at: Sequence[float]) -> None:
        """Bore a side for the bolts to its neighbour, all at one height; `depth_at` are places along the part.

        Every seat of a set bores on these lines, so that the holes of neighbours meet.
        """
        for at in depth_at:
            part.hole(at, self.rib_top / 2, BOLT, purpose="bolt")

    @property
    def bolts_back(self) -> tuple[float, float]:
        """Return how far behind the front of a seat the bolts to a neighbour go through, mm."""
        near, far = (share * self.back_at_deck for share in BOLTS_AT)
        return near, far

    def deck_rows(self, start: float) -> list[tuple[float, float]]:
        """Return where each seat slat starts and how wide it is; the last ones are ripped to what is left."""
        zone, pitch = self.deck_end - start, self.slat_w + SLAT_GAP
        count = ceil((zone + SLAT_GAP) / pitch - 1e-9)
        rest = zone - (count - 1) * pitch
        last = [rest] if rest >= LEAST_SLAT or count < 2 else [(rest + self.slat_w) / 2] * 2
        rows, y = [], start
        for width in [self.slat_w] * (count - len(last)) + last:
            rows.append((y, snap(width)))
            y = snap(y + snap(width) + SLAT_GAP)
        return rows

    def back_rows(self) -> list[float]:
        """Return the heights at which the lower back edges of the back slats lie, from above the deck to the top."""
        rise = self.top - self.slat * sin(self.lean) - self.deck - BACK_SLAT_START  # the face edge tips up by the lean
        along_post = rise / cos(self.lean)
        rows = max(2, int((along_post + 40) // (self.slat_w + 40)))
        pitch = (along_post - self.slat_w) / (rows - 1)
        return [self.deck + BACK_SLAT_START + i * pitch * cos(self.lean) for i in range(rows)]

    def back_slat(self, id: str, z: float, x0: float, length: float) -> Part:
        """Lay a back slat on the plane of the posts, its lower back edge at a height."""
        slat = self.piece.part(id, length, self.slat_w, "slat", name="back slat", wears=True)
        slat.ease("near/face", "far/face", "far/back", "start/face")  # the top is gripped from behind, too
        slat.lay(length="x", width=(0.0, sin(self.lean), cos(self.lean)))
        return slat.at(("start", "near", "back"), (x0, self.post_front(z), z))

    def deck_cleat(self, rib: Part, hand: int, id: str, rows: Sequence[tuple[float, float]]) -> Part:
        """Screw a cleat to the left (−1) or right (1) of a rib under the gaps between slats, out of the slats' way."""
        cleat = self.piece.part(id, self.deck_end - self.ply, self.cleat_w, "cleat", name="deck cleat", shows="neither")
        cleat.lay(length="y", width="z").put(y0=self.ply, z1=self.rib_top)
        cleat.put(**({"x1": rib.x0} if hand < 0 else {"x0": rib.x1}))
        middle, shift = (cleat.y0 + cleat.y1) / 2, 9.0 * hand  # the two sides of a rib are set apart
        for (y, width), _next in list(pairwise(rows))[::2]:
            at = y + width + SLAT_GAP / 2 - middle + shift
            self.piece.screws(cleat, rib, n=1, shift=at, role="clamps", glued=True, side=side_towards(cleat, -hand))
        return cleat

    def deck_slats(self, rows: Sequence[tuple[float, float]], x0: float, x1: float, cleats: Sequence[Part]) -> None:
        """Screw the seat slats to the cleats with open gaps between them."""
        for i, (y, width) in enumerate(rows):
            ripped = width < self.slat_w
            slat = self.piece.part(f"seat slat {i + 1}", x1 - x0, width, "slat", name="seat slat", wears=True)
            slat.ease("near/face", "far/face", "start/face", "end/face").lay(length="x", width="y")
            slat.put(x0=x0, y0=y, z0=self.rib_top)
            for cleat in cleats:
                self.piece.screws(slat, cleat, n=1 if ripped else 2, inset=21, role="holds")

    def deck_chain(self, rows: Sequence[tuple[float, float]]) -> None:
        """Record the chain of slats and gaps that fills the deck; the last slat is ripped to fit."""
        deep = [(f"seat slat {i + 1}", width) for i, (_, width) in enumerate(rows)]
        links = with_gaps(deep)
        self.piece.chain("deck", snap(sum(size for _, size in links)), links, deep[-1][0])

    def lay_cushion(
        self,
        kind: Literal["seat", "back"],
        i: int,
        origin: tuple[float, float, float],
        size: CushionSize,
        wide: float,
        deep: float,
        high: float,
        stopped: str,
    ) -> None:
        """Place a cushion as a box."""
        name, loaded = f"{kind} cushion {i}", size.loaded.typical
        self.piece.cushions.append(Cushion(name, kind, origin, wide, deep, high, loaded, size.assumed, stopped))


def side_towards(part: Part, towards: int) -> str:
    """Return the face of a standing part that looks along x (1) or against it (−1)."""
    return "face" if (part.plane("face").normal[0] > 0) is (towards > 0) else "back"
