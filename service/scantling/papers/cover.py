"""The first pages: what it is, how large and heavy, what it costs, what it must not be used for, and the plan stamp."""

from scantling.drawing.isometric import bodies_of, cushion_bodies, picture
from scantling.drawing.shapes import Drawing

from .dossier import Dossier, Piece
from .page import Column, Flow

PAIR, MOST_ACROSS = 2, 4  # pictures in a row
ONE_MM, PAIR_MM, ROW_MM = 95.0, 70.0, 42.0  # their height
LONGEST = 260  # characters of a line
STAMPS = {
    "computed": "COMPUTED: worked out, not yet checked by a person and not built.",
    "checked": "CHECKED: somebody has gone through this plan; it has not been built.",
    "built": "BUILT: this has been built as recorded below.",
}
SCREENED = (
    "Figures are screened against published values; that is no certificate and no conformity with any standard. "
    "Local codes and a licensed practitioner come first where somebody could be hurt."
)


def cover(flow: Flow, dossier: Dossier) -> None:
    """Write the cover."""
    plan = dossier.plan
    flow.section(dossier.name, room=60)
    for line in plan["summary"][1:]:
        flow.text(_brief(line))
    _pictures(flow, dossier)
    rows = [
        [
            piece.title,
            piece.answer["overall"]["width_text"],
            piece.answer["overall"]["depth_text"],
            piece.answer["overall"]["height_text"],
            f"{piece.answer['mass_kg']:.1f} kg",
        ]
        for piece in dossier.pieces
    ]
    columns = [Column("piece", 4, bold=True), Column("wide", 2), Column("deep", 2), Column("high", 2)]
    flow.table([*columns, Column("wood, each", 2, "end")], rows)
    if dossier.costing:
        flow.text(f"Cost as bought: {dossier.costing['total']['text']}.", bold=True)
    flow.section("Must not be used for", level=1, bookmark=False, room=12)
    said: dict[str, list[str]] = {}
    for piece in dossier.pieces:
        said.setdefault(piece.answer["cautions"][-1], []).append(piece.id)
    for caution, names in said.items():
        flow.bullet(f"{', '.join(names)}: {caution}")
    _stamp(flow, dossier)


def _brief(line: str) -> str:
    """Return a line of the summary cut to what a cover holds; the whole of it stands under the findings."""
    return line if len(line) <= LONGEST else f"{line[:LONGEST].rsplit(' ', 1)[0]} … (all of it under the findings)"


def _pictures(flow: Flow, dossier: Dossier) -> None:
    """Draw the pieces beside each other: up to two large, more of them small, four to a row."""
    across = min(len(dossier.pieces), MOST_ACROSS)
    width = flow.width if across == 1 else flow.width / across - 2.0
    height = ONE_MM if across == 1 else PAIR_MM if across == PAIR else ROW_MM
    drawings = [_in_use(p, width, height) for p in dossier.pieces]
    for i in range(0, len(drawings), across):
        flow.row(drawings[i : i + across])


def _in_use(piece: Piece, width: float, height: float) -> Drawing:
    """Draw a piece with its cushions on, these in thin lines."""
    wood, cushions = bodies_of(piece.assembly), cushion_bodies(piece.assembly)
    strokes = {**{b.id: "outline" for b in wood}, **{b.id: "thin" for b in cushions}}
    return picture([*wood, *cushions], width, height, title=piece.title, strokes=strokes)


def _stamp(flow: Flow, dossier: Dossier) -> None:
    options = dossier.options
    flow.section("Stamp of this plan", level=1, bookmark=False, room=16)
    flow.text(STAMPS[options.stamp], bold=True)
    if options.as_built:
        flow.text(f"As built: {options.as_built}")
    words = (("Version", options.version), ("Date", options.date), ("Author", options.author))
    told = [f"{name}: {value}" for name, value in (*words, ("Licence", options.licence)) if value]
    flow.text(" · ".join(told) if told else "No version, date or author was given.")
    flow.text(SCREENED)
