"""A cabinet: drawers on bought slides above a pair of inset doors, a screwed back that keeps it square."""

from dataclasses import dataclass
from math import ceil

from scantling.kit import Assembly, AssemblyError, Build, Module, Parameters, Role, count, length, snap

from .drawer import drawer

DADO = 6.0  # a third of 18 mm, the most a dado should take; practice
PLINTH = 70.0
REVEAL = 3.0  # round inset fronts; 1/16 to 1/8 in by different hands, and plywood hardly moves
LEAST_DOOR = 200.0
PIN, PIN_DEEP, PIN_IN, PIN_STEP = 5.0, 10.0, 37.0, 32.0  # holes of shelf pins, from door and back; practice
CUP, CUP_DEEP, CUP_IN = 35.0, 13.0, 22.5  # centre of a hinge cup from the edge; practice, its maker's sheet overrules
CUP_END = 90.0  # from the ends of a door, less on a low one
OPENS = 105.0  # degrees, what inset cup hinges do
SLIDES = (600, 550, 500, 450, 400, 350, 300, 250)  # mm, as sold
GRAVITY = 9.80665
OPEN_DRAWER_N = 222.4  # 50 lb on one open drawer, ASTM F2057 before 2023, screening
TALL = 686.0  # 27 in: storage from here on is fixed to the wall


@dataclass(frozen=True)
class CabinetParameters(Parameters):
    """Overall sizes, and how many drawers lie above the doors."""

    width: float = length(800, least=450, most=1000, says="Overall width.")
    height: float = length(850, least=500, most=1400, says="Overall height.")
    depth: float = length(450, least=320, most=650, says="Overall depth; the slides are chosen to fit it.")
    drawers: int = count(1, least=0, most=3, says="Drawers above the doors.")
    front: float = length(140, least=100, most=220, says="Height of a drawer front.")
    slide: float = length(12.7, least=10, most=16, says="Room each slide takes beside the drawer: its maker's sheet.")


class Cabinet(Module[CabinetParameters]):
    """Sides with housed bottom and shelf, a top screwed on, inset fronts with an even reveal."""

    id = "cabinet"
    title = "Cabinet with doors and drawers"
    sentence = "A cabinet of plywood with inset doors below and drawers on bought slides above."
    family = "storage"
    when_not = "Not before the slides and hinges lie on the bench: their makers' sheets overrule the sizes here."
    parameters = CabinetParameters
    roles = {
        "case": Role("Case, doors and drawer fronts.", "birch-plywood", 18, 17.1, 18.5),
        "drawer": Role("Sides of the drawers.", "birch-plywood", 15, 14.0, 15.5),
        "thin": Role("Back, and the bottoms of the drawers.", "birch-plywood", 6, 5.5, 6.7),
    }
    grows = ("width", "height", "depth")
    sources = (
        "Half an inch each side for side-mounted slides, drawer half an inch under the opening: trade figures",
        "Fix storage of 27 in and more to the wall: 16 CFR 1261 and ASTM F2057-23 for clothing storage, screening only",
    )

    def build(self, build: Build[CabinetParameters]) -> Assembly:
        """Return the cabinet."""
        return _Cabinet(self.start(build), build).built()


class _Cabinet:
    """The cabinet while it is built; x to the right, y to the back, its front left corner at the origin."""

    def __init__(self, piece: Assembly, build: Build[CabinetParameters]) -> None:
        p = self.p = build.parameters
        self.piece = piece
        self.t, self.thin = build.thickness("case"), build.thickness("thin")
        self.inner, self.deep = snap(p.width - 2 * self.t), snap(p.depth - self.thin)
        self.floor = PLINTH + self.t
        self.over = snap(p.drawers * (p.front + REVEAL) + REVEAL) if p.drawers else 0.0  # opening over the doors
        self.shelf_z = snap(p.height - self.t - self.over - self.t) if p.drawers else p.height - self.t
        self.door = snap(self.shelf_z - self.floor - 2 * REVEAL)
        if self.door < LEAST_DOOR:
            raise AssemblyError(
                f"{p.drawers} drawers of {p.front:.0f} mm leave doors of {self.door:.0f} mm; {LEAST_DOOR:.0f} mm are "
                "the least: have fewer or lower drawers, or a higher cabinet"
            )

    def built(self) -> Assembly:
        """Build case, back, doors, drawers."""
        self._case()
        self._back()
        self._doors()
        run = self._run()
        for i in range(self.p.drawers):
            self._drawer(i, run)
        self._promises()
        return self.piece

    def _case(self) -> None:
        """Stand the sides, house what lies between them, screw the top on."""
        p, t, new = self.p, self.t, self.piece.part
        tall = snap(p.height - t)
        self.left = new("side left", tall, self.deep, "case", name="side", seal=("start",)).ease("near/face")
        self.left.lay("z", "y").put(x0=0, y0=0, z0=0)
        self.right = new("side right", tall, self.deep, "case", name="side", seal=("start",)).lay("z", "-y")
        self.right.ease("far/face").put(x1=p.width, y0=0, z0=0)
        self.boards = [("bottom", PLINTH)] + ([("shelf under drawers", self.shelf_z)] if p.drawers else [])
        for id, z in self.boards:
            board = (
                new(id, self.inner + 2 * DADO, self.deep, "case", name="housed board").ease("near/face").lay("x", "y")
            )
            board.put(xc=p.width / 2, y0=0, z0=z)
            for side in (self.left, self.right):
                self.piece.housed(board, side)
        plinth = new("plinth", self.inner, PLINTH, "case", closing=True).lay("x", "z").put(x0=t, y0=40, z0=0)
        top = new("top", p.width, self.deep, "case").lay("x", "y").put(x0=0, y0=0, z0=tall)
        top.ease("near/face", "start/face", "end/face")
        for side in (self.left, self.right):
            self.piece.screws(side, plinth, n=2, gauge=6, inset=18, role="clamps", glued=True)
            self.piece.screws(top, side, pitch=140, inset=45, role="clamps", glued=True)
        self.loose = new("loose shelf", self.inner - 2, self.deep - t - 30, "case", shows="both").lay("x", "y")
        self.loose.ease("near/face").put(xc=p.width / 2, y1=self.deep - 5, z0=self.floor + self.door / 2)
        for side in (self.left, self.right):
            self.piece.loose(self.loose, side, clearance=1.0)
        for k in range(-2, 3):
            z = snap(self.loose.z0 - PIN / 2 + k * PIN_STEP)  # the pin of the middle row touches the shelf
            for y in (self.t + PIN_IN, self.deep - PIN_IN):
                self.left.hole(z, y, PIN, depth=PIN_DEEP, into="back", purpose="shelf pin")
                self.right.hole(z, self.deep - y, PIN, depth=PIN_DEEP, into="back", purpose="shelf pin")
        self.piece.buy("shelf pin 5 mm", 4, "under the loose shelf, in rows of holes bored before the case is closed")

    def _back(self) -> None:
        p = self.p
        back = self.piece.part("back", p.height - PLINTH, p.width, "thin", shows="neither").lay("z", "x")
        back.put(x0=0, y0=self.deep, z1=p.height)
        held = [self.left, self.right, self.piece.parts["top"], *(self.piece.parts[id] for id, _ in self.boards)]
        for part in held:
            self.piece.screws(back, part, pitch=200, gauge=6, inset=45, length=31.75, role="holds")

    def _doors(self) -> None:
        """Hang a pair of doors, or one where the opening is narrow, inside the case."""
        n = 2 if self.inner >= 500 else 1
        wide = snap((self.inner - (n + 1) * REVEAL) / n)
        each, end = (2 if self.door < 900 else 3), min(CUP_END, self.door / 4)
        for i in range(n):
            name = {1: "door", 2: f"door {'left' if i == 0 else 'right'}"}[n]
            door = self.piece.part(name, self.door, wide, "case", name="door", shows="both")
            door.ease("near/face", "far/face", "start/face", "end/face", size=2).lay("z", "-x")
            door.put(x0=self.t + REVEAL + i * (wide + REVEAL), y0=0, z0=self.floor + REVEAL)
            side, edge = (self.right, "near") if i else (self.left, "far")
            for k in range(each):
                x, y = end + k * (self.door - 2 * end) / (each - 1), CUP_IN if i else wide - CUP_IN
                door.hole(x, y, CUP, depth=CUP_DEEP, into="back", purpose="hinge cup")
            self.piece.hinge(door, side, edge=("face", edge), towards="-y", opens=OPENS, clearance=REVEAL)
        self.piece.buy(
            "inset cup hinge", n * each, "bore its cup by the maker's sheet; try the reveal on one door first"
        )
        self.piece.buy("handle", n + self.p.drawers, "with screws as long as the front is thick")

    def _run(self) -> int:
        """Return the longest slide that fits and that the empty case holds up with a child's pull on it, in mm."""
        mass, centre = self.piece.mass_and_centre()
        holds = mass * GRAVITY * centre[1] / OPEN_DRAWER_N - self.t
        fits = [run for run in SLIDES if run <= self.deep - self.t - 10]
        return next((run for run in fits if run <= holds), SLIDES[-1])

    def _drawer(self, i: int, run: int) -> None:
        """Hang a drawer between the sides: its box on slides, its front screwed on from inside."""
        p, piece = self.p, self.piece
        z = self.shelf_z + self.t + REVEAL + i * (p.front + REVEAL)
        front = piece.part(f"drawer front {i + 1}", self.inner - 2 * REVEAL, p.front, "case", name="drawer front")
        front.ease("near/face", "far/face", "start/face", "end/face", size=2).lay("x", "z")
        front.put(xc=p.width / 2, y0=0, z0=z)
        wide, high = self.inner - 2 * p.slide, p.front - 30
        box = drawer(
            piece, f"drawer {i + 1}", wide, float(run), high, (self.t + p.slide, self.t, z + 12), "drawer", "thin"
        )
        piece.screws(box["front"], front, n=ceil(wide / 300) + 1, gauge=6, inset=60, role="clamps")
        sides = ((box["left"], self.left), (box["right"], self.right))
        piece.slide(*sides, towards="-y", by=run, clearance=p.slide, id=f"drawer {i + 1}")
        piece.buy(f"pair of drawer slides {run} mm, full extension", 1, f"{p.slide:g} mm each side")

    def _promises(self) -> None:
        p, piece = self.p, self.piece
        piece.carries(*(piece.parts[id] for id, _ in self.boards), kind="other shelf", amount=40.0)
        piece.carries(piece.parts["top"], kind="mass", amount=30.0)
        piece.size(p.width, p.depth, p.height)
        piece.chain("width", p.width, [("side left", self.t), ("plinth", self.inner), ("side right", self.t)], "plinth")
        if p.height >= TALL or p.drawers:
            piece.buy("wall strap with screws", 2, "into studs or proper plugs, before anything is put in")
        piece.caution("Fix it to the wall: open drawers pull it over, and children climb them.")
        if p.drawers:
            piece.caution(
                "The slides are so short that the empty case stands with 50 lb on one open drawer; longer ones only "
                "where it is strapped to the wall."
            )
        piece.caution("Cut fronts after the case stands: measure the opening, then leave the reveal all round.")
