"""A wall shelf: a board on a rail that is screwed to the wall, with brackets under it."""

from dataclasses import dataclass
from math import ceil

from scantling.kit import Assembly, Build, Module, Parameters, Role, count, length

RAIL = 80.0
BRACKET_SPAN = 600.0
BRACKET_IN = 60.0
SETBACK = 25.0  # brackets end behind the front edge


@dataclass(frozen=True)
class WallShelfParameters(Parameters):
    """Sizes of the shelf, and how many of them are made."""

    width: float = length(900, least=300, most=1800, says="Length of the shelf.")
    depth: float = length(220, least=120, most=350, says="Depth of the shelf; most books need 230 mm or less.")
    drop: float = length(180, least=120, most=300, says="How far the brackets reach down.")
    brackets: int = count(2, least=2, most=4, says="Brackets at least; more are added so that books do not bend it.")


class WallShelf(Module[WallShelfParameters]):
    """Brackets are screwed from behind and from above; no screw shows from the front, those in the shelf from above."""

    id = "wall-shelf"
    title = "Wall shelf"
    sentence = "A shelf of plywood on a rail along the wall and brackets sawn from the same sheet."
    family = "shelving"
    when_not = "Not on plasterboard between the studs, not over a bed, and not deeper where books stand on it."
    parameters = WallShelfParameters
    roles = {"board": Role("All parts.", "birch-plywood", 18, 17.1, 19.5)}
    grows = ("width", "depth", "drop")
    sources = ("Books every 32 to 36 in want a support under 3/4 in plywood: professionals asked, woodweb.com",)

    def build(self, build: Build[WallShelfParameters]) -> Assembly:
        """Return the shelf."""
        p, t, piece = build.parameters, build.thickness("board"), self.start(build)
        n = max(p.brackets, ceil((p.width - 2 * BRACKET_IN) / BRACKET_SPAN) + 1)
        shelf = piece.part("shelf", p.width, p.depth, "board", seal=("start", "end", "near"))
        shelf.ease("near/face", "near/back", "start/face", "start/back", "end/face", "end/back").lay("x", "y").put(
            x0=0, y0=0, z0=p.drop
        )
        rail = piece.part("rail", p.width - 40, RAIL, "board", closing=True).ease("near/face")
        rail.lay("x", "z").put(xc=p.width / 2, y1=p.depth, z1=p.drop)
        piece.screws(shelf, rail, pitch=200, inset=40, length=50.8, role="holds", glued=True)
        reach = p.depth - t - SETBACK
        for i in range(n):
            x = BRACKET_IN + i * (p.width - 2 * BRACKET_IN) / (n - 1)
            bracket = piece.part(f"bracket {i + 1}", p.drop, reach, "board", name="bracket", shows="both")
            bracket.corner("start", "near", along=p.drop - 45, across=reach * 0.35).ease("near/face", "near/back")
            bracket.lay("z", "y").put(xc=x, y1=rail.y0, z1=p.drop)
            piece.screws(
                rail, bracket, n=2, inset=28, shift=-16, length=50.8, role="holds", glued=True
            )  # below the others
            piece.screws(shelf, bracket, n=2, inset=25, length=50.8, role="holds", glued=True)
        piece.carries(shelf, kind="books")
        piece.hangs_on_wall("wall screw 6 x 80 mm")
        piece.buy("wall screw 6 x 80 mm", n, "through the rail beside each bracket, into studs or proper plugs")
        piece.size(p.width, p.depth, p.drop + t)
        piece.caution(
            "It hangs by the rail's screws: into studs or solid masonry, with plugs their maker rates for it."
        )
        piece.caution("Books weigh 25 to 30 kg a metre; nothing heavy over a bed or a child's place.")
        return piece
