"""A seat run with a leaning back: n cushions side by side on ribs, posts leaning, arms or none."""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil, cos, radians, sin, tan
from typing import Literal

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
    angle,
    choice,
    count,
    cushion,
    length,
    rise_over_run,
    snap,
)

from .cushions import not_measured, row_slack, sitting_depth, stopped_and_drained

SLAT_GAP = 5.0  # drains, and stays out of the 7 to 12 mm finger band of EN 581-1
LEAST_SLAT = 45.0
FOOT_CLEAR = 30.0  # the post's end grain stays off the ground
BACK_SLAT_START = 60.0  # above the deck, so that leaves and water fall through


@dataclass(frozen=True)
class LeaningSeatParameters(Parameters):
    """Everything is derived from the cushions, the height somebody sits at and the lean."""

    bays: int = count(2, least=1, most=4, says="How many seats side by side.")
    seat_cushion: CushionSize = cushion(560, 560, 120, says="The seat cushion as bought.")
    back_cushion: CushionSize = cushion(
        560, 450, 120, says="The back cushion as bought; depth is its height.", sink=0.2
    )
    cushion_gap: float = length(0, least=-15, most=30, says="Gap beside each cushion; negative squeezes soft foam.")
    seat_height: float = length(430, least=330, most=520, says="Height somebody sits at, with the cushion compressed.")
    lean: float = angle(12, least=5, most=25, says="Lean of the back from upright; also as rise over run, 1 in 5.")
    back_height: float = length(420, least=250, most=700, says="Height of the back above the bare seat.")
    arms: str = choice("both", "both", "left", "right", "none", says="Arms as seen from the front.")
    arm_height: float = length(200, least=150, most=280, says="Arm above the compressed cushion.")
    lip: float = length(12, least=0, most=30, says="Front rail above the bare seat: it stops the cushion sliding.")


class LeaningSeat(Module[LeaningSeatParameters]):
    """Ribs of plywood carry a deck of slats; posts glued and screwed to the ribs carry the leaning back."""

    id = "leaning-seat"
    title = "Seat run with a leaning back"
    sentence = (
        "A run of one to four cushioned seats for outdoors: plywood ribs, board slats, leaning posts, arms or none."
    )
    family = "seating"
    when_not = "Not for use on a balcony rail, on wheels, or where the run must fold or be lifted by one person weekly."
    parameters = LeaningSeatParameters
    grows = ("bays", "back_height")
    roles = {
        "frame": Role("Ribs and rails, from plywood with a waterproof bond.", "birch-plywood", 18, 17.1, 18.5),
        "slat": Role("Seat and back slats and arms.", "western-red-cedar", 19, 18.0, 20.0, "board", 89),
        "post": Role("Leaning posts and arm posts.", "douglas-fir", 38, 37.0, 39.0, "board", 89),
        "cleat": Role("Cleats that carry the seat slats.", "douglas-fir", 38, 37.0, 39.0, "board", 38),
    }
    sources = (
        "Seat height 16 to 18 in, back to 15°: WOOD magazine, Must-have measurements for comfortable seating",
        "Arm height about 250 mm above the seat: trade figures, near ANSUR II elbow rest height, median 233 to 246 mm",
        "Gaps outside 7 to 12 mm: EN 581-1:2017, screening only",
    )

    def build(self, build: Build[LeaningSeatParameters]) -> Assembly:
        """Return the seat run."""
        return _SeatRun(self.start(build), build).built()


class _SeatRun:
    """One seat run while it is being built; x to the right, y to the back, z up, origin at the front left foot."""

    def __init__(self, piece: Assembly, build: Build[LeaningSeatParameters]) -> None:
        p = self.p = build.parameters
        self.piece = piece
        self.ply, self.slat = build.thickness("frame"), build.thickness("slat")
        self.post_t, self.post_w = build.thickness("post"), build.board_width("post")
        self.cleat_t, self.cleat_w = build.thickness("cleat"), build.board_width("cleat")
        self.slat_w = build.board_width("slat")
        self.width = snap(p.bays * p.seat_cushion.width.typical + (p.bays + 1) * p.cushion_gap)
        self.deck = snap(p.seat_height - p.seat_cushion.loaded.typical)
        self.rib_top = snap(self.deck - self.slat)
        if self.rib_top < 150:
            raise AssemblyError(
                f"the bare seat would stand {self.deck:.0f} mm high, which leaves ribs of {self.rib_top:.0f} mm; "
                "raise the seat height or take a thinner cushion (ribs of 150 mm are the least)"
            )
        self.lean = radians(p.lean)
        self.deck_front = self.ply + 3.0
        self.back_at_deck = snap(self.ply + p.seat_cushion.depth.typical)
        self.post_front_at_deck = self.back_at_deck + self.slat / cos(self.lean)
        self.top = snap(self.deck + p.back_height)
        self.has_arm = {"left": p.arms in ("both", "left"), "right": p.arms in ("both", "right")}

    def post_front(self, z: float) -> float:
        """Return the y of the posts' front edges at a height."""
        return self.post_front_at_deck + (z - self.deck) * tan(self.lean)

    def built(self) -> Assembly:
        """Build in the order a maker would think of it."""
        self._ribs()
        self._posts()
        self._cleats()
        self._rails()
        self._deck_slats()
        self._back_slats()
        for hand in ("left", "right"):
            if self.has_arm[hand]:
                self._arm(hand)
        self._cushions()
        self._promises()
        return self.piece

    def _ribs(self) -> None:
        """Stand a rib at both ends and between any two seats."""
        n = self.p.bays
        depth = snap(self.post_front(self.rib_top) + self.post_w / cos(self.lean) + 8.0 - self.ply)
        self.ribs: list[Part] = []
        for i in range(n + 1):
            rib = self.piece.part(
                f"rib {i + 1}", depth, self.rib_top, "frame", name="rib", shows="both", seal=("near",)
            )
            rib.lay(length="y", width="z").put(x0=i * (self.width - self.ply) / n, y0=self.ply, z0=0)
            self.ribs.append(rib)
        self.piece.buy("plastic glide", 2 * (n + 1), "10 mm under each rib, front and back, so that its edge stays dry")

    def _posts(self) -> None:
        """Lean a post against each rib, both ends cut level, glued and held by two rows of screws."""
        up = (0.0, sin(self.lean), cos(self.lean))
        back = (0.0, cos(self.lean), -sin(self.lean))
        run = (self.top - FOOT_CLEAR + self.post_w * sin(self.lean)) / cos(self.lean)
        self.posts: list[Part] = []
        for i, rib in enumerate(self.ribs):
            last = i == len(self.ribs) - 1
            post = self.piece.part(f"post {i + 1}", run, self.post_w, "post", name="leaning post", shows="neither")
            post.saw("start", mitre=self.p.lean, long_edge="near").saw("end", mitre=self.p.lean, long_edge="far")
            side = rib.x0 if last else rib.x1 + self.post_t
            post.lay(length=up, width=back)
            post.at(("start", "near", "back"), (side, self.post_front(FOOT_CLEAR), FOOT_CLEAR))
            post.against("back" if last else "face", rib, _side(rib, -1 if last else 1))
            for off in (-24.0, 24.0):
                self.piece.screws(rib, post, n=3, off=off, inset=60, role="holds", glued=True)
            self.posts.append(post)

    def _cleats(self) -> None:
        """Screw a cleat to the ribs under the deck, its screws between those that will hold the slats."""
        self.rows = self._deck_rows()
        start = self.ply
        end = self.deck_end()
        self.cleats: list[Part] = []
        for i, rib in enumerate(self.ribs):
            for hand in (-1, 1):
                if (i == 0 and hand < 0) or (i == len(self.ribs) - 1 and hand > 0):
                    continue
                name = f"cleat {len(self.cleats) + 1}"
                cleat = self.piece.part(name, end - start, self.cleat_w, "cleat", name="deck cleat", shows="neither")
                cleat.lay(length="y", width="z").put(y0=start, z1=self.rib_top)
                cleat.put(**({"x1": rib.x0} if hand < 0 else {"x0": rib.x1}))
                self._pull_up(cleat, rib, 9.0 * hand)
                self.cleats.append(cleat)

    def _pull_up(self, cleat: Part, rib: Part, shift: float) -> None:
        """Screw a cleat to its rib under the gaps between slats; the two sides of a rib are set apart by `shift`."""
        middle = (cleat.y0 + cleat.y1) / 2
        for (y, width), _next in list(pairwise(self.rows))[::2]:
            gap = y + width + SLAT_GAP / 2
            side = _side(cleat, -1 if shift > 0 else 1)
            self.piece.screws(cleat, rib, n=1, shift=gap - middle + shift, role="clamps", glued=True, side=side)

    def _rails(self) -> None:
        """Close front and back with a rail, so that the run cannot rack sideways; the front one rises as a lip."""
        height = 120.0
        front = self.piece.part(
            "front rail", self.width, height + self.slat + self.p.lip, "frame", seal=("near", "far")
        )
        front.ease("far/face", "far/back").lay(length="x", width="z").put(x0=0, y1=self.ply, z1=self.deck + self.p.lip)
        back = self.piece.part("back rail", self.width, height, "frame", seal=("near", "far"), shows="neither")
        back.lay(length="x", width="z").put(x0=0, y0=self.ribs[0].y1, z1=self.rib_top)
        for rib in self.ribs:
            self.piece.screws(front, rib, n=2, gauge=6, inset=30, role="holds", glued=True)
            self.piece.screws(back, rib, n=2, gauge=6, inset=30, role="holds", glued=True)
        self.front, self.back = front, back

    def deck_end(self) -> float:
        """Return where deck and cleats end: clear of the posts, which come forward towards the floor."""
        return snap(self.post_front(self.rib_top - self.cleat_w) - 2.0)

    def _deck_rows(self) -> list[tuple[float, float]]:
        """Return where each seat slat starts and how wide it is; the last ones are ripped to what is left."""
        zone, pitch = self.deck_end() - self.deck_front, self.slat_w + SLAT_GAP
        count = ceil((zone + SLAT_GAP) / pitch - 1e-9)
        rest = zone - (count - 1) * pitch
        last = [rest] if rest >= LEAST_SLAT or count < 2 else [(rest + self.slat_w) / 2] * 2
        rows, y = [], self.deck_front
        for width in [self.slat_w] * (count - len(last)) + last:
            rows.append((y, snap(width)))
            y = snap(y + snap(width) + SLAT_GAP)
        return rows

    def _deck_slats(self) -> None:
        """Lay the seat slats across the cleats with open gaps; the rearmost are ripped to what is left."""
        for i, (y, width) in enumerate(self.rows):
            ripped = width < self.slat_w
            slat = self.piece.part(
                f"seat slat {i + 1}", self.width, width, "slat", name="seat slat", closing=False, wears=True
            )
            slat.ease("near/face", "far/face").lay(length="x", width="y").put(x0=0, y0=y, z0=self.rib_top)
            for cleat in self.cleats:
                self.piece.screws(slat, cleat, n=1 if ripped else 2, inset=20, role="holds")

    def _back_slats(self) -> None:
        """Screw the back slats to the posts, from above the deck to the top."""
        up = (0.0, sin(self.lean), cos(self.lean))
        rise = self.top - self.slat * sin(self.lean) - self.deck - BACK_SLAT_START  # the face edge tips up by the lean
        along_post = rise / cos(self.lean)
        rows = max(2, int((along_post + 40) // (self.slat_w + 40)))
        gap = (along_post - rows * self.slat_w) / (rows - 1)
        post = self.posts[0]
        for i in range(rows):
            slat = self.piece.part(f"back slat {i + 1}", self.width, self.slat_w, "slat", name="back slat", wears=True)
            slat.ease("near/face", "far/face").lay(length="x", width=up)
            up_from_deck = BACK_SLAT_START / cos(self.lean) + i * (self.slat_w + gap)
            z = self.deck + up_from_deck * cos(self.lean)
            slat.at(("start", "near", "back"), (0.0, self.post_front(z), z)).against("back", post, "near")
            for other in self.posts:
                self.piece.screws(slat, other, n=2, inset=20, role="holds")

    def _arm(self, hand: str) -> None:
        """Stand two arm posts outside the end rib and lay the arm on them."""
        rib = self.ribs[0] if hand == "left" else self.ribs[-1]
        arm_top = snap(self.p.seat_height + self.p.arm_height)
        rear_y = snap(self.post_front(0.0) - 20.0)
        posts = []
        for place, bounds in (("front", {"y0": self.ply + 20.0}), ("rear", {"y1": rear_y})):
            post = self.piece.part(
                f"{place} arm post {hand}", arm_top - self.slat, self.post_w, "post", name="arm post", shows="both"
            )
            post.lay(length="z", width="y").put(
                z0=0, **bounds, **({"x1": rib.x0} if hand == "left" else {"x0": rib.x1})
            )
            self.piece.screws(rib, post, n=3, inset=70, shift=-10.0, role="holds", glued=True)
            posts.append(post)
        end = snap(self.back_at_deck + (arm_top - self.slat - self.deck) * tan(self.lean) - 5.0)
        arm = self.piece.part(f"arm {hand}", end - self.ply, self.slat_w, "slat", name="arm", wears=True)
        arm.ease("near/face", "far/face").lay(length="y", width="-x").put(y0=self.ply, z1=arm_top)
        arm.put(**({"x0": rib.x0 - self.post_t} if hand == "left" else {"x1": rib.x1 + self.post_t}))
        for post in posts:
            self.piece.screws(arm, post, n=2, inset=20, role="locates")

    def _cushions(self) -> None:
        """Place the cushions, and answer slack, depth, what stops them, and how water leaves."""
        p = self.p
        for i in range(p.bays):
            x = p.cushion_gap + i * (p.seat_cushion.width.typical + p.cushion_gap)
            seat, back = p.seat_cushion, p.back_cushion
            ends = [f"the {hand} end is open" for hand in ("left", "right") if not self.has_arm[hand]]
            sideways = "; ".join(ends) if ends else "the arms at the sides"
            stopped = f"back slats behind, a lip of {p.lip:.0f} mm in front, {sideways}"
            self._lay_cushion(
                "seat", i, (x, self.ply, self.deck), seat, seat.depth.typical, seat.thickness.typical, stopped
            )
            behind = (x, self.back_at_deck - back.thickness.typical, self.deck + seat.loaded.typical)
            self._lay_cushion("back", i, behind, back, back.thickness.typical, back.depth.typical, stopped)
        row_slack(self.piece, self.width, p.bays, p.seat_cushion)
        not_measured(self.piece, p.seat_cushion, "seat")
        sitting_depth(self.piece, p.seat_cushion.depth.typical, p.back_cushion)
        stopped_and_drained(
            self.piece,
            f"Cushions are stopped by {stopped}.",
            f"Rain drains through the {SLAT_GAP:.0f} mm gaps of the seat and behind the front rail; air reaches the "
            "cushions from below and through the back.",
        )

    def _lay_cushion(
        self,
        kind: Literal["seat", "back"],
        i: int,
        origin: tuple[float, float, float],
        size: CushionSize,
        deep: float,
        high: float,
        stopped: str,
    ) -> None:
        name = f"{kind} cushion {i + 1}"
        loaded = size.loaded.typical
        cushion = Cushion(name, kind, origin, size.width.typical, deep, high, loaded, size.assumed, stopped)
        self.piece.cushions.append(cushion)

    def _promises(self) -> None:
        """Promise the overall sizes, the chains that make them, and the cautions."""
        piece, arms = self.piece, sum(self.has_arm.values())
        arm_top = self.p.seat_height + self.p.arm_height if arms else 0.0
        piece.size(width=self.width + arms * self.post_t, height=max(self.top, arm_top))
        links = [("left arm post", self.post_t)] if self.has_arm["left"] else []
        links.append(("seat slats", self.width))
        links += [("right arm post", self.post_t)] if self.has_arm["right"] else []
        piece.chain("width", self.width + arms * self.post_t, links, "seat slats")
        deep = [(f"seat slat {i + 1}", piece.parts[f"seat slat {i + 1}"].width) for i in range(len(self.rows))]
        gaps: list[tuple[str, float]] = [("gaps between slats", (len(self.rows) - 1) * SLAT_GAP)]
        total = snap(sum(size for _, size in [*deep, *gaps]))
        piece.chain("deck", total, [*deep, *gaps], deep[-1][0])
        piece.caution(
            "Rated by computation only; test it low and slowly before anybody leans back. Not a climbing frame."
        )
        piece.caution(
            f"The back leans {self.p.lean:.1f}° ({rise_over_run(self.p.lean, run=400)}): keep it clear of rails."
        )
        piece.caution("Ease every edge a sitter can reach, also from below.")


def _side(part: Part, towards: int) -> str:
    """Return the face of a standing part that looks along x (1) or against it (−1)."""
    return "face" if (part.plane("face").normal[0] > 0) is (towards > 0) else "back"
