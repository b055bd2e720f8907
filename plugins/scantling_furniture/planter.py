"""Planters: walls with folded mitres all round, posts in the corners, a drained bottom on cleats, feet."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, cos, pi, radians, sin, tan
from typing import Any

from scantling.kit import Assembly, AssemblyError, Build, Module, Parameters, Part, Role, count, length, snap

FOOT = 25.0  # walls off the ground
FEET_LONG = 60.0  # feet carry the cleats that carry the bottom
PLAY = 3.0  # round the bottom: water runs off at its edge as well
DRAIN = 12.0
LOWER = -4.0  # screws of the feet, away from the end of the foot, where it splits
FOOT_SPAN = 500.0  # of cleat to a foot, so that wet earth does not shear the cleats
FOOT_NAMES = (("",), (" left", " right"), (" left", " middle", " right"))
RIM = 30.0  # from the top down to the posts, covered by earth
WET_EARTH = 1.6  # kg a litre: practice
EDGES = ("start", "end", "near", "far")

ROLES = {
    "wall": Role("Walls and bottom, from plywood with a waterproof bond.", "marine-plywood", 18, 17.1, 18.5),
    "post": Role("Posts in the corners.", "western-red-cedar", 38, 35.0, 40.0, "board", 89),
    "beam": Role("Cleats and feet.", "western-red-cedar", 38, 35.0, 40.0, "board", 38),
}
SOURCES = (
    "Walls meet at half of 360° over their number: plane geometry",
    "Wet earth at 1.6 kg a litre, holes of 12 mm: common practice",
)
WHEN_NOT = "Not on a balcony before somebody who may judge it has: earth is heavy; and not without a liner."


@dataclass(frozen=True, slots=True)
class Wall:
    """One wall of a ring: its outside length, the direction it looks in degrees, and how far out it stands, in mm."""

    length: float
    looks: float
    out: float


@dataclass(frozen=True)
class PlanterSquareParameters(Parameters):
    """Outside sizes."""

    width: float = length(600, least=250, most=1200, says="Outside from left to right.")
    depth: float = length(400, least=250, most=600, says="Outside from front to back.")
    height: float = length(400, least=300, most=600, says="Height above the ground.")


class PlanterSquare(Module[PlanterSquareParameters]):
    """Four walls."""

    id = "planter-square"
    title = "Planter with four sides"
    sentence = "A planter of waterproof plywood with four folded-mitre corners, posts inside them and a drained bottom."
    family = "planters"
    when_not = WHEN_NOT
    parameters = PlanterSquareParameters
    roles = ROLES
    grows = ("width", "depth", "height")
    sources = SOURCES

    def build(self, build: Build[PlanterSquareParameters]) -> Assembly:
        """Return the planter."""
        p = build.parameters
        sides = ((p.width, p.depth / 2), (p.depth, p.width / 2)) * 2
        ring = [Wall(size, -90.0 + 90.0 * i, out) for i, (size, out) in enumerate(sides)]
        return _Planter(self.start(build), build, ring, p.height).built()


@dataclass(frozen=True)
class PlanterPolygonParameters(Parameters):
    """How many sides, how long, how high."""

    sides: int = count(6, least=4, most=8, says="How many walls.")
    side: float = length(280, least=160, most=400, says="Outside length of one wall.")
    height: float = length(400, least=300, most=600, says="Height above the ground.")


class PlanterPolygon(Module[PlanterPolygonParameters]):
    """Four to eight walls of one length."""

    id = "planter-polygon"
    title = "Planter with many sides"
    sentence = "A planter of waterproof plywood with four to eight equal walls and folded-mitre corners."
    family = "planters"
    when_not = WHEN_NOT
    parameters = PlanterPolygonParameters
    roles = ROLES
    grows = ("sides", "side", "height")
    sources = SOURCES

    def build(self, build: Build[PlanterPolygonParameters]) -> Assembly:
        """Return the planter."""
        p = build.parameters
        out = p.side / 2 / tan(pi / p.sides)
        ring = [Wall(p.side, -90.0 + 360.0 * i / p.sides, out) for i in range(p.sides)]
        return _Planter(self.start(build), build, ring, p.height).built()


class _Planter:
    """A planter while it is built, its middle over the origin, its first wall to the front."""

    def __init__(self, piece: Assembly, build: Build[Any], ring: Sequence[Wall], height: float) -> None:
        self.piece, self.ring, self.height, self.n = piece, ring, height, len(ring)
        self.t, self.beam_t, self.beam_w = build.thickness("wall"), build.thickness("beam"), build.board_width("beam")
        self.half = 180.0 / self.n  # a wall turns this far into each of its corners
        self.post_t, self.post_w, self.feet = build.thickness("post"), build.board_width("post"), 0
        self.floor = FEET_LONG + self.beam_w + self.t  # top of the bottom

    def built(self) -> Assembly:
        """Fold the walls, then posts into the corners, feet and cleats, and the bottom from above."""
        self.walls = [self._wall(i) for i in range(self.n)]
        for i in range(self.n):
            self.piece.fold(self.walls[i], self.walls[(i + 1) % self.n])
        for i in range(self.n):
            self._post(i)
        self._bottom([self._foot_and_cleat(i) for i in range(self.n)])
        self._promises()
        return self.piece

    def _placed(self, part: Part, i: int) -> Part:
        """Turn a part made for the front wall to another wall."""
        return part.turn("z", self.ring[i].looks + 90.0, (0.0, 0.0, 0.0))

    def _wall(self, i: int) -> Part:
        wall = self.ring[i]
        part = self.piece.part(
            f"wall {i + 1}", wall.length, self.height - FOOT, "wall", name=f"wall {wall.length:.0f} mm", seal=EDGES
        )
        part.saw("start", bevel=self.half).saw("end", bevel=self.half).ease("far/face", "far/back")
        part.lay("x", "z").put(xc=0, y0=-wall.out, z0=FOOT)
        return self._placed(part, i)

    def _post(self, i: int) -> None:
        """Screw a post into a corner from both walls: glue alone does not hold wet earth, and posts come out again."""
        wall, lean = self.ring[i], 90.0 - 2 * self.half  # of the post's edge along the next wall, from square
        inside = wall.length / 2 - self.t * tan(radians(self.half))
        run = 2 * inside - 2 * self.beam_t * tan(radians(self.half)) - 10
        if 2 * inside < self.post_w + 1.2 * self.post_t + 5 or run < self.beam_w:
            raise AssemblyError(
                f"walls of {wall.length:.0f} mm are too short for a post in each corner; make them longer"
            )
        tall = self.height - RIM - self.floor - 5
        post = self.piece.part(f"post {i + 1}", tall, self.post_w, "post", name="corner post", shows="neither")
        post.seal = ("start", "end")
        if lean > 0:
            post.saw("near", bevel=lean, long_face="back")
        post.lay("z", "-x").put(y0=-wall.out + self.t, z0=self.floor + 5)
        post.shift((inside - post.pt("start", "near", "face")[0], 0.0, 0.0))
        self._placed(post, i)
        inset = min(40.0, tall / 4)
        self.piece.screws(self.walls[i], post, pitch=160, inset=inset, shift=12.0, length=50.8, role="holds")
        k = (i + 1) % self.n  # this wall meets the post aslant: a thinner screw, nearer the corner, keeps inside it
        away = radians(self.ring[k].looks + 90.0)
        off = -7.0 if max(cos(away), sin(away), key=lambda c: round(abs(c), 9)) > 0 else 7.0
        self.piece.screws(
            self.walls[k],
            post,
            pitch=160,
            inset=inset,
            off=off if lean > 0 else 0.0,
            shift=-12.0,
            gauge=6,
            role="holds",
        )

    def _foot_and_cleat(self, i: int) -> Part:
        """Glue a cleat inside a wall for the bottom to lie on, and feet under the cleat."""
        wall, narrower = self.ring[i], 2 * tan(radians(self.half))
        run = snap(wall.length - (self.t + self.beam_t) * narrower - 10)
        cleat = self.piece.part(f"cleat {i + 1}", run, self.beam_w, "beam", name="cleat", shows="neither")
        cleat.seal = ("start", "end")
        self._placed(cleat.lay("x", "z").put(xc=0, y0=-wall.out + self.t, z0=FEET_LONG), i)
        self.piece.screws(cleat, self.walls[i], pitch=200, inset=min(30.0, run / 4), role="clamps", glued=True)
        feet = min(3, ceil(run / FOOT_SPAN))
        for j, name in enumerate(FOOT_NAMES[feet - 1]):
            foot = self.piece.part(
                f"foot {i + 1}{name}", FEET_LONG, self.beam_w, "beam", name="foot", wears=True, seal=("start", "end")
            )
            x = run * ((j + 0.5) / feet - 0.5)
            self._placed(foot.lay("z", "-x").put(xc=x, y0=-wall.out + self.t, z0=0), i)
            self.piece.screws(self.walls[i], foot, n=2, inset=10, off=LOWER, length=50.8, role="holds")
            self.piece.loose(foot, cleat)
            self.feet += 1
        return cleat

    def _bottom(self, cleats: Sequence[Part]) -> None:
        """Lay the bottom on the cleats, its corners cut off where there are more than four, with holes in it."""
        corners = self._corners()
        low, high = ([f(c[k] for c in corners) for k in (0, 1)] for f in (min, max))
        long, wide = high[0] - low[0], high[1] - low[1]
        bottom = self.piece.part("bottom", long, wide, "wall", shows="neither", wears=True, seal=EDGES)
        for wall in self.ring:
            nx, ny = cos(radians(wall.looks)), sin(radians(wall.looks))
            if min(abs(nx), abs(ny)) > 1e-9:
                x1, y1 = (high[0] if nx > 0 else low[0]), (high[1] if ny > 0 else low[1])
                out = wall.out - self.t - PLAY
                along, across = abs(x1 - (out - ny * y1) / nx), abs(y1 - (out - nx * x1) / ny)
                bottom.corner("end" if nx > 0 else "start", "far" if ny > 0 else "near", along=along, across=across)
        ring = min(w.out for w in self.ring) * 0.45
        for k in range(6):
            turn = radians(60.0 * k + 15.0)
            bottom.hole(ring * cos(turn) - low[0], ring * sin(turn) - low[1], DRAIN, purpose="drain")
        bottom.lay("x", "y").put(x0=low[0], y0=low[1], z0=self.floor - self.t)
        for cleat in cleats:
            self.piece.loose(bottom, cleat)

    def _corners(self) -> list[tuple[float, float]]:
        """Return the corners of the bottom: where the planes inside neighbouring walls meet."""
        found = []
        for i, wall in enumerate(self.ring):
            nxt = self.ring[(i + 1) % self.n]
            a, b = radians(wall.looks), radians(nxt.looks)
            r, q, det = wall.out - self.t - PLAY, nxt.out - self.t - PLAY, sin(b - a)
            found.append(((r * sin(b) - q * sin(a)) / det, (q * cos(a) - r * cos(b)) / det))
        return found

    def _promises(self) -> None:
        piece = self.piece
        litres = sum(w.length * w.out / 2 for w in self.ring) * (self.height - self.floor) / 1e6
        piece.carries(piece.parts["bottom"], kind="mass", amount=litres * WET_EARTH)
        piece.size(height=self.height)
        piece.chain("height", self.height, [("off the ground", FOOT), ("wall 1", self.height - FOOT)], "wall 1")
        piece.buy("plastic glide", self.feet, "under the feet, so that their end grain stays dry")
        piece.buy("planter liner", 1, f"for about {litres:.0f} litres, holed over the drain holes")
        piece.caution(
            f"Full of wet earth it weighs about {litres * WET_EARTH:.0f} kg more: fill it where it stays, and have "
            "somebody who may judge it look at a balcony or roof first."
        )
        piece.caution(
            "The upper edges of plywood drink rain: seal them three times, or cap them; plug the heads of screws, "
            "those of the posts in wax, so that they still come out."
        )
        piece.caution(
            "Take screws of stainless steel or hot-dip galvanized ones: wet earth rusts others, and cedar turns black "
            "around them."
        )
        piece.caution("For food plants take plywood, glue and finish that their makers pass for it.")
