"""The figures for a spreadsheet cell: a fixed list of small questions, each computed on the spot.

`FIGURES[name].answer({"width": "13 3/4 in", ...})` reads the text and answers; every figure states what it computes.
"""

from math import hypot
from types import MappingProxyType

from . import counts, mitre, splay
from .angle import rise, rise_over_run
from .figure import COLUMNS, Figure, FigureAnswer, Parameter
from .length import LIMIT_MM
from .tape import TAPES, Tape

__all__ = ["COLUMNS", "FIGURES", "Figure", "FigureAnswer", "Parameter"]

_TAPE = Parameter("tape", "choice", "The step lengths are shown on.", "0.5 mm", "1/16 in", choices=tuple(TAPES))
_KERF = Parameter("kerf", "length", "What the saw takes in one cut.", "1/8 in", most=15.0)
_TRIM = Parameter("trim", "length", "What is taken off every end or edge of the stock first.", "0 mm", most=500.0)
_SIDES = Parameter("sides", "count", "The number of equal sides.", "4", least=3, most=64)
_QUANTITY = Parameter("quantity", "count", "How many are wanted.", "1", least=1, most=100_000)


def _size(
    name: str,
    sentence: str,
    default: str | None = None,
    default_in: str | None = None,
    *,
    unit: str = "",
    least: float = 1.0,
    most: float = LIMIT_MM,
) -> Parameter:
    """Return a parameter for a length of wood, at least 1 mm where nothing else is said."""
    return Parameter(name, "length", sentence, default, default_in, unit, least=least, most=most)


def _angle_row(what: str, value: float) -> tuple[str, float, str, str]:
    return what, value, "deg", f"{value:.2f}°"


def _length_row(what: str, mm: float, tape: Tape) -> tuple[str, float, str, str]:
    return what, mm, "mm", tape.show_with_error(mm)


def _count_row(what: str, count: int) -> tuple[str, float, str, str]:
    return what, count, "", str(count)


def _board_feet(thickness: float, width: float, length: float, quantity: int) -> FigureAnswer:
    one = counts.board_feet(thickness / 25.4, width / 25.4, length / 304.8)
    rows = (
        ("all", one * quantity, "bf", f"{one * quantity:.2f} board feet"),
        ("one board", one, "bf", f"{one:.2f} board feet"),
    )
    note = "By nominal sizes: thickness and width in inches, length in feet, divided by 12. Yards may round up."
    return FigureAnswer(one * quantity, "bf", rows[0][3], rows, note)


def _mitre_and_bevel(sides: int, slope: float, slope_from: str) -> FigureAnswer:
    pitch = slope if slope_from == "flat" else 90.0 - slope
    saw = mitre.compound_mitre(sides, pitch)
    rows = (
        _angle_row("mitre", saw.mitre),
        _angle_row("bevel", saw.bevel),
        _angle_row("mitre gauge, square = 90", 90.0 - saw.mitre),
        _angle_row("corner seen from above", 180.0 - 360.0 / sides),
    )
    note = "Board flat on the saw. Mitre from a square crosscut, bevel from an upright blade. Try it on scrap first."
    return FigureAnswer(saw.mitre, "deg", f"mitre {saw.mitre:.2f}°, bevel {saw.bevel:.2f}°", rows, note)


def _sheets_needed(
    length: float,
    width: float,
    quantity: int,
    sheet_length: float,
    sheet_width: float,
    kerf: float,
    trim: float,
    grain: str,
) -> FigureAnswer:
    inside = (sheet_length - 2 * trim, sheet_width - 2 * trim)
    found = counts.sheet_yield(*inside, length, width, kerf, grain)
    if not found.count:
        raise ValueError(
            f"a piece of {length:g} x {width:g} mm does not fit a sheet of {inside[0]:g} x {inside[1]:g} mm "
            f"inside its trim, with grain {grain}"
        )
    sheets = counts.sheets_needed(quantity, found.count)
    least = counts.sheets_needed(quantity, found.bound)
    pattern = " and ".join(f"{b.along} x {b.across}{' turned' if b.turned else ''}" for b in found.blocks)
    rows = (
        _count_row("sheets", sheets),
        ("pieces on one sheet", found.count, "", f"{found.count} ({pattern})"),
        _count_row("never fewer sheets than", least),
        _count_row("pieces on the last sheet", quantity - (sheets - 1) * found.count),
    )
    note = (
        "The best of a plain grid, pieces turned or not, and two grids side by side, by through cuts only, all sheets "
        "alike. Where it is not proven the least, a nesting may find a better layout."
    )
    text = f"{sheets} sheet{'s' if sheets > 1 else ''}, {found.count} pieces each"
    return FigureAnswer(sheets, "", text, rows, note, proven=sheets == least)


def _pieces_per_board(
    board_length: float, piece: float, quantity: int, kerf: float, trim: float, cut_last: str, tape: str
) -> FigureAnswer:
    inside = board_length - 2 * trim
    count = counts.pieces_in_length(inside, piece, kerf, cut_last=cut_last == "yes")
    if not count:
        raise ValueError(f"a piece of {piece:g} mm does not fit a board of {inside:g} mm inside its trim")
    rest = counts.left_over(inside, piece, kerf, count)
    boards = counts.sheets_needed(quantity, count)
    rows = (
        _count_row("pieces from one board", count),
        _count_row("boards for the quantity", boards),
        _length_row("left of a full board", rest, TAPES[tape]),
    )
    note = "Every cut takes its kerf. What is left is measured after the last cut."
    return FigureAnswer(count, "", f"{count} pieces, {rows[2][3]} left", rows, note)


def _equal_strips(width: float, count: int, kerf: float, trim: float, tape: str) -> FigureAnswer:
    step = TAPES[tape]
    exact = counts.equal_width(width - 2 * trim, count, kerf)
    if exact < 1.0:
        raise ValueError(f"{count} strips and {count - 1} kerfs of {kerf:g} mm leave nothing of {width:g} mm")
    down = step.down(exact)
    rows = (
        _length_row("widest equal strip", exact, step),
        ("on the tape, rounded down", down, "mm", step.show(down)),
        _length_row("left over then", width - 2 * trim - count * down - (count - 1) * kerf, step),
    )
    note = "Rounded down, so that the last strip is not the narrow one."
    return FigureAnswer(exact, "mm", f"{step.show(down)} (exactly {exact:.2f} mm)", rows, note)


def _leg_splay(height: float, out: float, out_side: float, tape: str) -> FigureAnswer:
    leg = splay.splay_from_set_out(height, out, out_side)
    rows = (
        _angle_row("true lean from plumb", leg.resultant),
        _angle_row("cut at head and foot, seen from the side", leg.front),
        _angle_row("cut at head and foot, seen from the front", leg.side),
        _angle_row("sightline from the sideways direction", leg.sightline),
        _length_row("length along the leg", leg.length, TAPES[tape]),
    )
    note = "The cuts at head and foot are parallel. Height is plumb, not along the leg."
    return FigureAnswer(leg.resultant, "deg", f"{leg.resultant:.2f}° from plumb", rows, note)


def _mitre_error(sides: int, joint: float, gap: float) -> FigureAnswer:
    error = mitre.mitre_error(sides, joint, gap)
    rows = (
        ("for one cut", error.per_cut, "deg", f"{error.per_cut:.3f}°"),
        (f"for all {2 * sides} cuts", error.total, "deg", f"{error.total:.2f}°"),
        ("gap for one cut", gap / (2 * sides), "mm", f"{gap / (2 * sides):.2f} mm"),
    )
    note = "As if every cut were wrong by the same angle the same way, which is what a badly set fence does."
    return FigureAnswer(error.per_cut, "deg", f"{error.per_cut:.3f}° a cut", rows, note)


def _lean(angle: float, run: float, tape: str) -> FigureAnswer:
    up = rise(angle, run)
    rows = (_length_row("rise", up, TAPES[tape]), _length_row("along the slope", hypot(run, up), TAPES[tape]))
    return FigureAnswer(up, "mm", rise_over_run(angle, run, TAPES[tape]), rows, "Set a bevel gauge by it.")


def _polygon(sides: int, across: float, tape: str) -> FigureAnswer:
    side, corners = mitre.polygon_side(sides, across), mitre.polygon_across_corners(sides, across)
    rows = (
        _length_row("side", side, TAPES[tape]),
        _length_row("twice the distance from the middle to a corner", corners, TAPES[tape]),
        _angle_row("mitre", mitre.frame_mitre(sides)),
    )
    note = "Across is twice the distance from the middle to a side, which for an even count is flat to flat."
    return FigureAnswer(side, "mm", TAPES[tape].show_with_error(side), rows, note)


_LIST = (
    Figure(
        "board-feet",
        "Board feet of boards by their nominal sizes: thickness x width in inches x length in feet / 12.",
        (
            _size("thickness", "Nominal thickness; a bare number is inches.", unit="in"),
            _size("width", "Nominal width; a bare number is inches.", unit="in"),
            _size("length", "Length; a bare number is feet.", unit="ft"),
            _QUANTITY,
        ),
        _board_feet,
    ),
    Figure(
        "mitre-and-bevel",
        "Saw settings for a frame or box of n equal sides that stand upright, lean, or lie flat.",
        (
            _SIDES,
            Parameter("slope", "angle", "How far the sides lean; also as 1 in 4.", "0", most=90.0),
            Parameter(
                "slope_from",
                "choice",
                "What the slope is measured from: upright (0 = a box) or flat (0 = a picture frame).",
                "upright",
                choices=("upright", "flat"),
            ),
        ),
        _mitre_and_bevel,
    ),
    Figure(
        "sheets-needed",
        "How many sheets a number of equal pieces takes.",
        (
            _size("length", "Length of one piece.", least=5.0),
            _size("width", "Width of one piece.", least=5.0),
            _QUANTITY,
            _size("sheet_length", "Length of a sheet; its grain runs along it.", "2440 mm", "96 in", most=10_000.0),
            _size("sheet_width", "Width of a sheet.", "1220 mm", "48 in", most=10_000.0),
            _KERF,
            _TRIM,
            Parameter(
                "grain",
                "choice",
                "Where the grain of the piece runs relative to its length; any if the piece may be turned.",
                "any",
                choices=("any", "along", "across"),
            ),
        ),
        _sheets_needed,
    ),
    Figure(
        "pieces-per-board",
        "How many equal pieces one board gives, what is left of it, and how many boards a quantity takes.",
        (
            _size("board_length", "Length of the board."),
            _size("piece", "Length of one piece."),
            _QUANTITY,
            _KERF,
            _TRIM,
            Parameter(
                "cut_last",
                "choice",
                "Whether the last piece too must be cut at its far end (yes) or may end where the board ends (no).",
                "no",
                choices=("no", "yes"),
            ),
            _TAPE,
        ),
        _pieces_per_board,
    ),
    Figure(
        "equal-strips",
        "The widest equal strips that a sheet or board gives.",
        (
            _size("width", "What is to be divided."),
            Parameter("count", "count", "How many strips.", least=1, most=1000),
            _KERF,
            _TRIM,
            _TAPE,
        ),
        _equal_strips,
    ),
    Figure(
        "leg-splay",
        "Angles and length of a leg from how far its foot is set out.",
        (
            _size("height", "Height of the leg, plumb."),
            Parameter("out", "length", "How far the foot is set out to the front."),
            Parameter("out_side", "length", "How far the foot is set out sideways.", "0 mm"),
            _TAPE,
        ),
        _leg_splay,
    ),
    Figure(
        "mitre-error",
        "How wrong each cut of a mitred frame may be until the last joint shows a gap.",
        (
            _SIDES,
            _size("joint", "Length of the mating face of one joint."),
            Parameter("gap", "length", "The gap that is still allowed, at the open end of the joint.", "1/64 in"),
        ),
        _mitre_error,
    ),
    Figure(
        "lean",
        "An angle as a rise over a run, to set a bevel gauge by.",
        (
            Parameter("angle", "angle", "The angle.", most=89.0),
            _size("run", "The run to measure the rise over.", "600 mm", "24 in"),
            _TAPE,
        ),
        _lean,
    ),
    Figure(
        "polygon",
        "Side and corner measure of a regular polygon.",
        (_SIDES, _size("across", "Twice the distance from the middle to a side."), _TAPE),
        _polygon,
    ),
)

FIGURES = MappingProxyType({figure.name: figure for figure in _LIST})
