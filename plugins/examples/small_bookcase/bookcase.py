"""A small bookcase: shelves housed in two sides, and a screwed back that keeps it square."""

from dataclasses import dataclass

from scantling.kit import Assembly, Build, Module, Parameters, Role, count, length


@dataclass(frozen=True)
class Sizes(Parameters):
    """What a caller may ask for."""

    width: float = length(700, least=300, most=760, says="Overall width; wider shelves sag under books.")
    height: float = length(900, least=500, most=1500, says="Overall height.")
    shelves: int = count(2, least=1, most=3, says="Shelves between bottom and top.")


class SmallBookcase(Module[Sizes]):
    """Sides, shelves and a back."""

    id, title, family, parameters, grows = "small-bookcase", "Small bookcase", "storage", Sizes, ("width", "height")
    sentence, when_not = "A bookcase for paperbacks.", "Not without fixing it to the wall where children live."
    sources = ("250 mm deep for paperbacks, housings a third of the wood: common practice",)
    roles = {"case": Role("Case.", "birch-plywood", 18, 17, 19), "back": Role("Back.", "birch-plywood", 6, 5.5, 6.7)}

    def build(self, build: Build[Sizes]) -> Assembly:
        """Return the bookcase."""
        p, t, piece = build.parameters, build.thickness("case"), self.start(build)
        left = piece.part("left side", p.height, 250, "case", seal=("start",)).lay("z", "y").put(x0=0, y0=0, z0=0)
        right = piece.add(left.mirrored("x", p.width / 2, "right side"))
        back = piece.part("back", p.height, p.width, "back", closing=True).lay("z", "x").put(x0=0, y0=250, z0=0)
        for i in range(p.shelves + 2):
            board = piece.part(f"board {i + 1}", p.width - 2 * t + 12, 250, "case", name="board").lay("x", "y")
            board.put(xc=p.width / 2, y0=0, z0=40 + i * (p.height - 40 - t) / (p.shelves + 1))
            [piece.housed(board, side) for side in (left, right)]
            piece.screws(back, board, pitch=200, gauge=6, inset=40)
        piece.carries(*(part for part in piece.parts.values() if part.name == "board"), kind="books")
        piece.size(p.width, 250 + build.thickness("back"), p.height)
        piece.caution("Fix it to the wall: a bookcase tips when a child climbs it.")
        return piece
