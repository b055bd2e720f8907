"""A dining table: angle legs, aprons with a kerf for clips, a top of sheet or of boards that is free to move."""

from dataclasses import dataclass

from scantling.kit import Assembly, Build, Finding, Module, Parameters, Role, Severity, choice, length

from .legs import Frame

BEARER_SPAN = 800.0
KNEES = 635.0  # 25 in clear below the apron
MOVES = 0.01  # of a board top's depth between a dry and a damp season, rounded up: practice


@dataclass(frozen=True)
class DiningTableParameters(Parameters):
    """Overall sizes, and what the top is made of."""

    width: float = length(1600, least=700, most=2200, says="Length of the top; 600 to 700 mm a place.")
    depth: float = length(850, least=650, most=1100, says="Depth of the top.")
    height: float = length(745, least=700, most=780, says="Height of the top.")
    overhang: float = length(40, least=0, most=100, says="Top over the legs all round.")
    top: str = choice("sheet", "sheet", "boards", says="Top of one sheet, or of boards glued edge to edge.")


class DiningTable(Module[DiningTableParameters]):
    """The top lies on the aprons and is held by clips alone, so that a solid one can swell and shrink."""

    id = "dining-table"
    title = "Dining table"
    sentence = "A dining table on angle legs; the top of sheet or solid boards is held by clips that let it move."
    family = "tables"
    when_not = (
        "Not for outdoors: the top is closed and its clips rust; and not as a workbench, it is not braced for it."
    )
    parameters = DiningTableParameters
    roles = {
        "leg": Role("Leg boards.", "douglas-fir", 38, 30.0, 45.0, "board", 89),
        "apron": Role("Aprons and bearers.", "douglas-fir", 19, 18.0, 25.0, "board", 89),
        "sheet": Role("Top, where it is a sheet.", "birch-plywood", 18, 17.1, 25.0),
        "board": Role("Top, where it is of boards.", "ash", 26, 18.0, 32.0, "board", 140),
    }
    grows = ("width", "depth", "height")
    sources = (
        "Height 29 to 30 in, 25 in clear below the apron: Fine Woodworking, Table Design, p. 30; Lang, Drawing Tables",
        "24 to 30 in a place: trade figures",
        "A board top moves by about a hundredth of its depth: practice",
    )

    def build(self, build: Build[DiningTableParameters]) -> Assembly:
        """Return the table."""
        p, piece = build.parameters, self.start(build)
        role = "sheet" if p.top == "sheet" else "board"
        thick = build.thickness(role)
        frame = Frame(piece, build, p.width - 2 * p.overhang, p.depth - 2 * p.overhang, p.height - thick)
        under = frame.built(clips=True)
        frame.bearers(under, BEARER_SPAN)
        tops = frame.clipped(under, role, p.overhang, boards=p.top == "boards")
        piece.carries(*tops, kind="mass", amount=75.0)
        piece.size(p.width, p.depth, p.height)
        between = frame.width - 2 * frame.leg_t
        left, right = ((f"front {side} leg side", frame.leg_t) for side in ("left", "right"))
        piece.chain("width", frame.width, [left, ("front apron", between), right], "front apron")
        knees(piece, p.height - thick - frame.apron_w)
        if p.top == "boards":
            piece.caution(
                f"A top of boards moves by up to {MOVES * p.depth:.0f} mm over its depth from season to season: leave "
                "that room at the clips, never screw or glue it to the aprons; finish both its faces alike, or it cups."
            )
        piece.caution("Do not climb or sit on it: the ends stand out beyond the legs.")
        piece.caution("Two people turn it over; a top this size is heavy and pinches fingers.")
        return piece


def knees(piece: Assembly, clear: float) -> None:
    """Note how much room is left under the apron where it is less than tall people want."""
    if clear < KNEES:
        piece.note(
            Finding(
                "knee-room-small",
                Severity.NOTE,
                f"Under the apron {clear:.0f} mm are clear; {KNEES:.0f} mm suit tall people.",
                value=clear,
                limit=KNEES,
                unit="mm",
                source="Fine Woodworking, Table Design, p. 30: about 25 in",
                remedy="Raise the table, or take narrower aprons.",
            )
        )
