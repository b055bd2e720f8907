"""A corner seat that joins two seat runs at a right angle: backs on two sides, the lines of the runs."""

from dataclasses import dataclass
from math import atan, cos, degrees, sin, tan

from scantling.kit import Assembly, AssemblyError, Build, CushionSize, Module, Part, cushion, rise_over_run, snap

from .cushions import not_measured, row_slack, sitting_depth, stopped_and_drained
from .seat_set import ALL_ROUND, FOOT_CLEAR, RAIL, ROLES, SLAT_GAP, SeatLines, SeatSetParameters

MOST_FREE_MM = 350.0  # back slat beyond its last post


@dataclass(frozen=True)
class CornerSeatParameters(SeatSetParameters):
    """What the runs of the set take, and the narrower cushion that leans at the second back."""

    side_cushion: CushionSize = cushion(
        440, 450, 120, says="The back cushion at the left back; depth is its height.", sink=0.2
    )


class CornerSeat(Module[CornerSeatParameters]):
    """A square box of ribs; a back like those of the runs at the rear, and another, turned, at the left."""

    id = "corner-seat"
    title = "Corner seat between two runs"
    sentence = "A corner seat for outdoors that joins two seat runs at 90°, with backs on two sides."
    family = "seating"
    when_not = "Not alone: it has no arms, and nothing in front stops its cushion; not where the set must bend but 90°."
    parameters = CornerSeatParameters
    grows = ("back_height",)
    roles = ROLES
    sources = (
        "Heights, lean and cushions are those of the leaning seat, so that a set fits together",
        "The corner square is as wide as the seats are deep and seats one: plain geometry",
    )

    def build(self, build: Build[CornerSeatParameters]) -> Assembly:
        """Return the corner seat."""
        return _Corner(self.start(build), build).built()


class _Corner(SeatLines):
    """The seat while it is built. Its left back is a run's back, turned a quarter to the left and moved by `side`."""

    def __init__(self, piece: Assembly, build: Build[CornerSeatParameters]) -> None:
        super().__init__(piece, build)
        self.p = build.parameters
        self.side = snap(self.rib_end + self.ply)  # outside of the box, both ways
        self.square = self.back_at_deck  # clear on the bare seat, both ways
        self.foot = snap(self.post_front(FOOT_CLEAR) - 4.0)  # in front of both backs' posts at their feet
        self.rows = self.deck_rows(0.0)
        free = self.post_front(self.top) - self.foot
        if free > MOST_FREE_MM:
            raise AssemblyError(
                f"the back slats would reach {free:.0f} mm past their last post into the corner, {MOST_FREE_MM:.0f} mm "
                "are the most; take less lean, a lower back or a lower seat"
            )

    def built(self) -> Assembly:
        """Build the box, its posts, the deck, then both backs, which cover the screws of the posts."""
        self._box()
        self._posts()
        cleats = [self.deck_cleat(self.right, -1, "cleat right", self.rows)]
        cleats.append(self.deck_cleat(self.middle, 1, "cleat left", self.rows))
        self.deck_slats(self.rows, self.side - self.deck_end, self.side, cleats)
        self._backs()
        self._neighbours()
        self._cushions()
        self._promises()
        return self.piece

    def _rib(self, id: str, length: float, along: str, **place: float) -> Part:
        rib = self.piece.part(id, snap(length), self.rib_top, "frame", name=id, shows="both", seal=ALL_ROUND)
        return rib.lay(length=along, width="z").put(z0=0, **place)

    def _box(self) -> None:
        """Front panel and three ribs behind it, a stub between two of them, a rail that closes the back."""
        inside = self.side - 2 * self.ply
        self.front = self._rib("front panel", self.side, "x", x0=0, y0=0)
        self.right = self._rib("right rib", inside, "y", x1=self.side, y0=self.ply)
        self.left = self._rib("left rib", inside, "y", x0=0, y0=self.ply)
        self.middle = self._rib("middle rib", inside, "y", x0=snap(self.side - self.foot), y0=self.ply)
        self.stub = self._rib(
            "stub rib", self.middle.x0 - self.left.x1, "x", x0=self.left.x1, y1=self.foot - self.post_t
        )
        self.stub.closing = True
        rail = self.piece.part("back rail", self.side, RAIL, "frame", seal=ALL_ROUND, shows="neither")
        rail.lay(length="x", width="z").put(x0=0, y1=self.side, z1=self.rib_top)
        for rib in (self.left, self.middle, self.right):
            self.piece.screws(self.front, rib, n=3, gauge=6, inset=35, role="holds", glued=True)
            self.piece.screws(rail, rib, n=2, gauge=6, inset=30, role="holds", glued=True)
        for rib in (self.left, self.middle):
            self.piece.screws(rib, self.stub, n=3, gauge=6, inset=50, role="holds", glued=True)
        self.piece.buy("plastic glide", 6, "10 mm under the three ribs, front and back, so that their edges stay dry")

    def _posts(self) -> None:
        """Two posts lean back against the outer ribs, two lean left against front panel and stub."""
        self.rear = [
            self.post("rear post left", self.left.x1 + self.post_t),
            self.post("rear post right", self.right.x0),
        ]
        self.turned = [
            self._turned(self.post("left post front", self.ply + self.post_t)),
            self._turned(self.post("left post rear", self.foot)),
        ]
        for rib, post in zip((self.left, self.right, self.front, self.stub), self.rear + self.turned, strict=True):
            for off in (-24.0, 24.0):
                self.piece.screws(rib, post, n=3, off=off, inset=60, role="holds", glued=True)

    def _turned(self, part: Part) -> Part:
        """Turn what was made for the rear back into the left one: a run's back becomes the left."""
        return part.turn("z", 90.0, (0.0, 0.0, 0.0)).shift((self.side, 0.0, 0.0))

    def _backs(self) -> None:
        """Rear slats run to the outside of the left back; the left ones are mitred to lie against them."""
        mitre = atan(sin(self.lean))
        for i, z in enumerate(self.back_rows()):
            outside = min(self.left.x0, self.side - self.post_front(z) - self.slat_w * sin(self.lean))
            rear = self.back_slat(f"rear back slat {i + 1}", z, outside, self.side - outside).ease("end/face")
            short = self.post_front(z) - self.slat * cos(self.lean) - self.slat * sin(self.lean) * tan(self.lean)
            left = self.back_slat(f"left back slat {i + 1}", z, 0.0, short + self.slat_w * tan(mitre))
            self._turned(left.saw("end", mitre=degrees(mitre), long_edge="far"))
            for slat, posts in ((rear, self.rear), (left, self.turned)):
                for post in posts:
                    self.piece.screws(slat, post, n=2, inset=20, role="holds")

    def _neighbours(self) -> None:
        """Bore right rib and front panel for the bolts to the runs, on the lines every seat of the set bores on."""
        self.neighbour_holes(self.right, [at - self.ply for at in self.bolts_back])
        self.neighbour_holes(self.front, [self.side - at for at in self.bolts_back])

    def _cushions(self) -> None:
        """Seat cushion in the square, one cushion at the rear back and a narrower one in front of it at the left."""
        seat, back, side = self.p.seat_cushion, self.p.back_cushion, self.p.side_cushion
        left, top = self.side - self.square, self.deck + seat.loaded.typical
        stopped = "back slats at two sides, the neighbouring cushions at the others"
        wide, deep, rear_y = seat.width.typical, seat.depth.typical, self.square - back.thickness.typical
        self.lay_cushion(
            "seat", 1, (left, self.square - deep, self.deck), seat, wide, deep, seat.thickness.typical, stopped
        )
        sizes = (back.width.typical, back.thickness.typical, back.depth.typical)
        self.lay_cushion("back", 1, (left, rear_y, top), back, *sizes, stopped)
        sizes = (side.thickness.typical, side.width.typical, side.depth.typical)
        self.lay_cushion("back", 2, (left, rear_y - side.width.typical, top), side, *sizes, stopped)
        row_slack(self.piece, self.square, 1, seat, "The corner square")
        row_slack(self.piece, rear_y, 1, side, "The second back beside the first cushion")
        not_measured(self.piece, seat, "seat")
        sitting_depth(self.piece, seat.depth.typical, back)
        stopped_and_drained(
            self.piece,
            f"Cushions are stopped by {stopped}.",
            f"Rain drains through the {SLAT_GAP:.0f} mm gaps of the seat; air reaches the cushions from below and "
            "through both backs.",
        )

    def _promises(self) -> None:
        piece = self.piece
        piece.size(height=self.top)
        inside = self.side - 2 * self.ply
        links = [("front panel", self.ply), ("middle rib", inside), ("back rail", self.ply)]
        piece.chain("depth of the box", self.side, links, "middle rib")
        self.deck_chain(self.rows)
        piece.caution("Bolt it to both runs where they stand, two bolts each, never glued: alone it is no seat.")
        piece.caution(
            "Rated by computation only; test it low and slowly before anybody leans back. Not a climbing frame."
        )
        piece.caution(
            f"Both backs lean {self.p.lean:.1f}° ({rise_over_run(self.p.lean, run=400)}): keep them clear of rails."
        )
        piece.caution("To renew a rear back slat, unscrew the left one of its row first: it lies over a screw head.")
        piece.caution("Ease every edge a sitter can reach, also from below.")
