"""Shelving: a bookcase of plywood, its shelves housed in the sides, a thin back that keeps it square."""

from dataclasses import dataclass

from scantling.kit import Assembly, Build, Module, Parameters, Role, count, length, snap

DADO = 6.0  # a third of 18 mm, the most a dado should take; practice
PLINTH = 70.0


@dataclass(frozen=True)
class BookcaseParameters(Parameters):
    """What goes in it: its width between the sides, how deep and how many shelves."""

    width: float = length(760, least=300, most=860, says="Overall width; wider shelves sag under books.")
    height: float = length(1100, least=500, most=2000, says="Overall height.")
    depth: float = length(280, least=180, most=400, says="Overall depth; most books need 230 mm or less.")
    shelves: int = count(3, least=1, most=6, says="Shelves between bottom and top.")


class Bookcase(Module[BookcaseParameters]):
    """Two sides, housed bottom, shelves and top, a plinth, and a screwed back."""

    id = "bookcase"
    title = "Bookcase"
    sentence = "A bookcase of plywood with housed shelves and a screwed back that keeps it square."
    family = "storage"
    when_not = "Not without fixing it to the wall where children live, and not wider where it is to carry books."
    parameters = BookcaseParameters
    roles = {
        "case": Role("Sides, shelves, top and plinth.", "birch-plywood", 18, 17.1, 18.5),
        "back": Role("Thin back.", "birch-plywood", 6, 5.5, 6.7),
    }
    grows = ("width", "height", "depth", "shelves")
    sources = ("Depth 9 to 14 in, height 48 to 84 in: trade figures", "Dado no more than a third of the wood: practice")

    def build(self, build: Build[BookcaseParameters]) -> Assembly:
        """Return the bookcase."""
        p, t, thin, piece = build.parameters, build.thickness("case"), build.thickness("back"), self.start(build)
        deep, inner = snap(p.depth - thin), snap(p.width - 2 * t)
        left = piece.part("side left", p.height, deep, "case").ease("near/face").lay("z", "y").put(x0=0, y0=0, z0=0)
        right = piece.add(left.mirrored("x", p.width / 2, "side right"))
        rise = (p.height - PLINTH - t) / (p.shelves + 1)
        for i in range(p.shelves + 2):
            name = {0: "bottom", p.shelves + 1: "top"}.get(i, f"shelf {i}")
            board = piece.part(name, inner + 2 * DADO, deep, "case", closing=i == 0).ease("near/face")
            board.lay("x", "y").put(xc=p.width / 2, y0=0, z0=snap(PLINTH + i * rise))
            for side in (left, right):
                piece.housed(board, side)
        plinth = (
            piece.part("plinth", inner, PLINTH, "case", closing=True).lay("x", "z").put(xc=p.width / 2, y0=30, z0=0)
        )
        for side in (left, right):
            piece.screws(side, plinth, n=2, gauge=6, inset=20, role="clamps", glued=True)
        back = piece.part("back", p.height - PLINTH, p.width, "back", shows="neither").lay("z", "x")
        back.put(x0=0, y0=deep, z1=p.height)
        for part in (left, right, *(q for q in piece.parts.values() if q.name[:3] in ("she", "top", "bot"))):
            piece.screws(back, part, pitch=200, gauge=6, inset=40, length=31.75, role="holds")
        shelves = [piece.parts[f"shelf {i + 1}"] for i in range(p.shelves)]
        piece.carries(piece.parts["bottom"], *shelves, kind="books")
        piece.size(p.width, p.depth, p.height)
        piece.chain("width", p.width, [("side left", t), ("plinth", inner), ("side right", t)], "plinth")
        piece.buy("wall strap with screws", 2, "from the top into studs or proper plugs, before any book is put in")
        piece.caution("Fix it to the wall: a bookcase tips when a child climbs it, whatever its height.")
        return piece
