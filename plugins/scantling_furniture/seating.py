"""A seat run with a leaning back: n cushions side by side on ribs, posts leaning, arms or none."""

from dataclasses import dataclass
from math import tan

from scantling.kit import Assembly, AssemblyError, Build, Module, Part, choice, count, length, rise_over_run, snap

from .cushions import not_measured, row_slack, sitting_depth, stopped_and_drained
from .seat_set import ALL_ROUND, FOOT_CLEAR, RAIL, ROLES, SLAT_GAP, SeatLines, SeatSetParameters, side_towards


@dataclass(frozen=True)
class LeaningSeatParameters(SeatSetParameters):
    """Everything is derived from the cushions, the height somebody sits at and the lean."""

    bays: int = count(2, least=1, most=4, says="How many seats side by side.")
    cushion_gap: float = length(0, least=-15, most=30, says="Gap beside each cushion; negative squeezes soft foam.")
    arms: str = choice("both", "both", "left", "right", "none", says="Arms as seen from the front.")
    joins: str = choice(
        "none", "none", "left", "right", "both", says="Ends bolted to a neighbour, as seen from the front; bare ones."
    )
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
    roles = ROLES
    sources = (
        "Seat height 16 to 18 in, back to 15°: WOOD magazine, Must-have measurements for comfortable seating",
        "Arm height about 250 mm above the seat: trade figures, near ANSUR II elbow rest height, median 233 to 246 mm",
        "Gaps outside 7 to 12 mm: EN 581-1:2017, screening only",
    )

    def build(self, build: Build[LeaningSeatParameters]) -> Assembly:
        """Return the seat run."""
        return _SeatRun(self.start(build), build).built()


class _SeatRun(SeatLines):
    """One seat run while it is being built; x to the right, y to the back, z up, origin at the front left foot."""

    def __init__(self, piece: Assembly, build: Build[LeaningSeatParameters]) -> None:
        super().__init__(piece, build)
        p = self.p = build.parameters
        self.width = snap(p.bays * p.seat_cushion.width.typical + (p.bays + 1) * p.cushion_gap)
        self.rows = self.deck_rows(self.ply + 3.0)  # behind the front rail
        self.has_arm = {"left": p.arms in ("both", "left"), "right": p.arms in ("both", "right")}
        self.joins = {"left": p.joins in ("both", "left"), "right": p.joins in ("both", "right")}
        for hand in ("left", "right"):
            if self.has_arm[hand] and self.joins[hand]:
                raise AssemblyError(
                    f"the {hand} end has an arm, so no neighbour is bolted to it; take one of the two away"
                )

    def built(self) -> Assembly:
        """Build in the order a maker would think of it."""
        self._ribs()
        self._neighbours()
        self._posts()
        self._cleats()
        self._rails()
        self.deck_slats(self.rows, 0.0, self.width, self.cleats)
        self._back_slats()
        for hand in ("left", "right"):
            if self.has_arm[hand]:
                self._arm(hand)
        self._cushions()
        self._promises()
        return self.piece

    def _ribs(self) -> None:
        """Stand a rib at both ends and between any two seats."""
        n, depth = self.p.bays, self.rib_end - self.ply
        self.ribs: list[Part] = []
        for i in range(n + 1):
            rib = self.piece.part(
                f"rib {i + 1}", depth, self.rib_top, "frame", name="rib", shows="both", seal=ALL_ROUND
            )
            rib.lay(length="y", width="z").put(x0=i * (self.width - self.ply) / n, y0=self.ply, z0=0)
            self.ribs.append(rib)
        self.piece.buy("plastic glide", 2 * (n + 1), "10 mm under each rib, front and back, so that its edge stays dry")

    def _neighbours(self) -> None:
        """Bore the end ribs for the bolts to a neighbour, on the lines every seat of the set bores on."""
        for hand, rib in (("left", self.ribs[0]), ("right", self.ribs[-1])):
            if self.joins[hand]:
                self.neighbour_holes(rib, [at - self.ply for at in self.bolts_back])

    def _posts(self) -> None:
        """Lean a post against each rib, both ends cut level, glued and held by two rows of screws."""
        self.posts: list[Part] = []
        for i, rib in enumerate(self.ribs):
            last = i == len(self.ribs) - 1
            post = self.post(f"post {i + 1}", rib.x0 if last else rib.x1 + self.post_t)
            post.against("back" if last else "face", rib, side_towards(rib, -1 if last else 1))
            for off in (-24.0, 24.0):
                self.piece.screws(rib, post, n=3, off=off, inset=60, role="holds", glued=True)
            self.posts.append(post)

    def _cleats(self) -> None:
        """Screw a cleat to the ribs under the deck, its screws between those that will hold the slats."""
        sides = [(rib, hand) for rib in self.ribs for hand in (-1, 1)][1:-1]
        self.cleats = [self.deck_cleat(rib, hand, f"cleat {i + 1}", self.rows) for i, (rib, hand) in enumerate(sides)]

    def _rails(self) -> None:
        """Close front and back with a rail, so that the run cannot rack sideways; the front one rises as a lip."""
        front = self.piece.part("front rail", self.width, RAIL + self.slat + self.p.lip, "frame", seal=ALL_ROUND)
        front.ease("far/face", "far/back").lay(length="x", width="z").put(x0=0, y1=self.ply, z1=self.deck + self.p.lip)
        back = self.piece.part("back rail", self.width, RAIL, "frame", seal=ALL_ROUND, shows="neither")
        back.lay(length="x", width="z").put(x0=0, y0=self.ribs[0].y1, z1=self.rib_top)
        for rib in self.ribs:
            self.piece.screws(front, rib, n=2, gauge=6, inset=30, role="holds", glued=True)
            self.piece.screws(back, rib, n=2, gauge=6, inset=30, role="holds", glued=True)
        self.front, self.back = front, back

    def _back_slats(self) -> None:
        """Screw the back slats to the posts, from above the deck to the top."""
        for i, z in enumerate(self.back_rows()):
            slat = self.back_slat(f"back slat {i + 1}", z, 0.0, self.width)
            slat.ease("end/face").against("back", self.posts[0], "near")
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
                f"{place} arm post {hand}",
                arm_top - self.slat - FOOT_CLEAR,
                self.post_w,
                "post",
                name="arm post",
                shows="both",
                seal=("start", "end"),
            )
            post.lay(length="z", width="y").put(
                z0=FOOT_CLEAR, **bounds, **({"x1": rib.x0} if hand == "left" else {"x0": rib.x1})
            )
            outside = side_towards(post, -1 if hand == "left" else 1)
            post.ease(f"near/{outside}", f"far/{outside}")
            self.piece.screws(rib, post, n=3, inset=70, shift=-10.0, role="holds", glued=True)
            posts.append(post)
        end = snap(self.back_at_deck + (arm_top - self.slat - self.deck) * tan(self.lean) - 5.0)
        arm = self.piece.part(f"arm {hand}", end - self.ply, self.slat_w, "slat", name="arm", wears=True)
        arm.ease("near/face", "far/face", "start/face", "start/back").lay(length="y", width="-x").put(
            y0=self.ply, z1=arm_top
        )
        arm.put(**({"x0": rib.x0 - self.post_t} if hand == "left" else {"x1": rib.x1 + self.post_t}))
        for post in posts:  # 2-1/2 in: six diameters and more in the post, so that a push across the arm is held
            self.piece.screws(arm, post, n=2, gauge=10, inset=20, role="locates", length=63.5)
        self.piece.carries(arm, kind="arm")

    def _cushions(self) -> None:
        """Place the cushions, and answer slack, depth, what stops them, and how water leaves."""
        p = self.p
        for i in range(p.bays):
            x = p.cushion_gap + i * (p.seat_cushion.width.typical + p.cushion_gap)
            seat, back = p.seat_cushion, p.back_cushion
            ends = [f"the {hand} end is open" for hand in ("left", "right") if not self.has_arm[hand]]
            sideways = "; ".join(ends) if ends else "the arms at the sides"
            stopped = f"back slats behind, a lip of {p.lip:.0f} mm in front, {sideways}"
            deep, thick, high = seat.depth.typical, back.thickness.typical, back.depth.typical
            bare = (x, self.ply, self.deck)
            self.lay_cushion("seat", i + 1, bare, seat, seat.width.typical, deep, seat.thickness.typical, stopped)
            behind = (x, self.back_at_deck - thick, self.deck + seat.loaded.typical)
            self.lay_cushion("back", i + 1, behind, back, back.width.typical, thick, high, stopped)
        row_slack(self.piece, self.width, p.bays, p.seat_cushion)
        not_measured(self.piece, p.seat_cushion, "seat")
        sitting_depth(self.piece, p.seat_cushion.depth.typical, p.back_cushion)
        stopped_and_drained(
            self.piece,
            f"Cushions are stopped by {stopped}.",
            f"Rain drains through the {SLAT_GAP:.0f} mm gaps of the seat and behind the front rail; air reaches the "
            "cushions from below and through the back.",
        )

    def _promises(self) -> None:
        """Promise the overall sizes, the chains that make them, and the cautions."""
        piece, arms = self.piece, sum(self.has_arm.values())
        arm_top = self.p.seat_height + self.p.arm_height if arms else 0.0
        piece.size(width=self.width + arms * self.post_t, height=max(self.top, arm_top))
        links = [("front arm post left", self.post_t)] if self.has_arm["left"] else []
        links.append(("seat slat 1", self.width))
        links += [("front arm post right", self.post_t)] if self.has_arm["right"] else []
        piece.chain("width", self.width + arms * self.post_t, links, "seat slat 1")
        self.deck_chain(self.rows)
        piece.caution(
            "Rated by computation only; test it low and slowly before anybody leans back. Not a climbing frame."
        )
        piece.caution(
            f"The back leans {self.p.lean:.1f}° ({rise_over_run(self.p.lean, run=400)}): keep it clear of rails."
        )
        if arms:
            piece.caution("Lift it by ribs and rails, never by the arms: their screws stand in end grain.")
        piece.caution("Ease every edge a sitter can reach, also from below.")
