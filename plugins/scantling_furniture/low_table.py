"""A low table for outdoors: a slatted top on angle legs."""

from dataclasses import dataclass

from scantling.kit import Assembly, Build, Module, Parameters, Role, length

from .legs import Frame, slat_chain


@dataclass(frozen=True)
class LowTableParameters(Parameters):
    """Overall sizes of the top, and its height."""

    width: float = length(900, least=450, most=1400, says="Length of the top.")
    depth: float = length(550, least=400, most=900, says="Depth of the top.")
    height: float = length(400, least=280, most=520, says="Height of the top; near that of the seats around it.")
    overhang: float = length(20, least=0, most=30, says="Top over the legs all round.")


class LowTable(Module[LowTableParameters]):
    """Legs of two boards each, aprons inside them, slats with gaps screwed on top."""

    id = "low-table"
    title = "Low table"
    sentence = "A low table for outdoors: angle legs, aprons, a top of slats that drains."
    family = "tables"
    when_not = "Not as a seat or a step, and not indoors under hot dishes: drinks run through the gaps."
    parameters = LowTableParameters
    roles = {
        "leg": Role("Leg boards.", "western-red-cedar", 19, 18.0, 25.0, "board", 89),
        "apron": Role("Aprons, bearers and their cleats.", "western-red-cedar", 19, 18.0, 25.0, "board", 89),
        "slat": Role("Slats of the top.", "western-red-cedar", 19, 18.0, 25.0, "board", 89),
    }
    grows = ("width", "depth", "height")
    sources = (
        "Height 14 to 19 in, near the seats around it: common practice",
        "Edges eased, gaps outside 7 to 12 mm: EN 581-1:2017, screening only",
    )

    def build(self, build: Build[LowTableParameters]) -> Assembly:
        """Return the table."""
        p, slat, piece = build.parameters, build.thickness("slat"), self.start(build)
        under = Frame(piece, build, p.width - 2 * p.overhang, p.depth - 2 * p.overhang, p.height - slat)
        slats = under.slatted(under.built(), "slat", slat, p.overhang)
        slat_chain(piece, slats)
        piece.carries(*slats, kind="mass", amount=40.0)
        piece.size(p.width, p.depth, p.height)
        piece.caution("Not a seat and not a step: nobody has loaded it as one.")
        piece.caution("Ease every edge within reach; a table edge meets shins and small heads.")
        return piece
