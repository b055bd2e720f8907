"""Labels for parts: number, id, name, size, grain and face, what it meets, where it goes, and a QR code with the id."""

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.drawing.lettering import fitted_size, shortened
from scantling.drawing.pdf import Page
from scantling.drawing.shapes import Blocks, Box, Drawing, Segments, Shape, Text, shifted

from .dossier import CutRow, Dossier

PAD = 2.0
MARK_MM = 7.0
ID_MM = 4.0
BODY_MM = 2.6
MASK = 3
QUIET = 4  # light modules round the code, ISO/IEC 18004


@dataclass(frozen=True, slots=True)
class LabelText:
    """What one label says."""

    code: str
    mark: str
    id: str
    lines: tuple[str, ...]


def label_texts(dossier: Dossier) -> Iterator[LabelText]:
    """Yield a label for every single part of every piece, copies of a piece numbered."""
    for row in dossier.rows:
        for copy in range(row.piece.quantity):
            for id in row.plain["ids"]:
                number = f" #{copy + 1}" if row.piece.quantity > 1 else ""
                lines = tuple(_lines(row, id, dossier))
                yield LabelText(f"{row.piece.id}: {id}{number}", row.mark, f"{id}{number}", lines)


def _lines(row: CutRow, id: str, dossier: Dossier) -> Iterator[str]:
    plain, show = row.plain, dossier.options.sizes.show
    yield f"{row.piece.id} · {row.piece.assembly.parts[id].name}"
    yield f"{show(plain['length_mm'])} × {show(plain['width_mm'])} × {plain['thickness_mm']:g} mm"
    shows = {"face": "face shows", "both": "both faces show", "neither": "hidden"}[plain["shows"]]
    hand = f" · {plain['hand']} hand" if plain["hand"] else ""
    fit = " · fit to the work" if plain["closing"] else ""
    yield f"{plain['material']} · {shows}{hand}{fit}"
    met = _meets(row, id)
    if met:
        yield f"meets {', '.join(met)}"
    step = _step(row, id)
    if step:
        yield f"goes in at step {step}"


def _meets(row: CutRow, id: str) -> list[str]:
    joints = row.piece.assembly.joints.values()
    return list(dict.fromkeys(p for j in joints if id in j.parts for p in j.parts if p != id))


def _step(row: CutRow, id: str) -> int | None:
    for number, step in enumerate(row.piece.answer["steps"], 1):
        if id in step.get("brings", step.get("parts", ())):
            return number
    return None


def label_pages(dossier: Dossier) -> list[Page]:
    """Return the sheets of labels on the caller's grid."""
    grid, paper = dossier.options.labels, dossier.options.paper
    labels = list(label_texts(dossier))
    per_sheet = grid.across * grid.down
    pages = []
    for start in range(0, len(labels), per_sheet):
        shapes: list[Shape] = []
        for i, label in enumerate(labels[start : start + per_sheet]):
            x = grid.left + (i % grid.across) * (grid.width + grid.gap_x)
            y = grid.top + (i // grid.across) * (grid.height + grid.gap_y)
            shapes += [shifted(s, x, y) for s in label_shapes(label, grid.width, grid.height)]
        title = "Labels" if start == 0 else ""
        marks = (("Labels", 0),) if start == 0 else ()
        pages.append(Page(Drawing(paper.width, paper.height, title or "Labels", tuple(shapes)), marks))
    return pages


def label_shapes(label: LabelText, width: float, height: float) -> list[Shape]:
    """Return one label, its corner at the origin: words left, the code right, cut marks at its corners."""
    side = min(height - 2 * PAD, width * 0.34)
    shapes: list[Shape] = [_corners(width, height), _code(label.code, width - PAD - side, (height - side) / 2, side)]
    room = width - side - 3 * PAD
    y = PAD
    if label.mark:
        shapes.append(Text(PAD, y + MARK_MM / 2, label.mark, MARK_MM, bold=True))
    mark = Text(0, 0, label.mark, MARK_MM, bold=True).width + 2.0 if label.mark else 0.0
    size = max(2.4, fitted_size(label.id, room - mark, ID_MM, True))
    shapes.append(Text(PAD + mark, y + MARK_MM / 2, shortened(label.id, room - mark, size, True), size, bold=True))
    y += MARK_MM + 1.0
    for line in label.lines:
        if y + BODY_MM > height - PAD:
            break
        shapes.append(Text(PAD, y + BODY_MM / 2, shortened(line, room, BODY_MM), BODY_MM))
        y += BODY_MM * 1.4
    return shapes


def _corners(width: float, height: float) -> Segments:
    tick = 2.0
    lines = []
    for x, dx in ((0.0, tick), (width, -tick)):
        for y, dy in ((0.0, tick), (height, -tick)):
            lines += [(x, y, x + dx, y), (x, y, x, y + dy)]
    return Segments(tuple(lines), "fold")


def _code(text: str, x: float, y: float, side: float) -> Blocks:
    """Return a QR code as black bars, one for each run of dark modules.

    The mask is fixed: trying all eight takes most of the time of a packet, and every reader undoes any mask.
    """
    import segno

    matrix = segno.make(text, error="m", micro=False, boost_error=False, mask=MASK).matrix
    step = side / (len(matrix) + 2 * QUIET)
    bars: list[Box] = []
    for j, row in enumerate(matrix):
        start: int | None = None
        top = y + (j + QUIET) * step
        for i, dark in enumerate([*row, 0]):
            if dark and start is None:
                start = i
            elif not dark and start is not None:
                bars.append((x + (start + QUIET) * step, top, x + (i + QUIET) * step, top + step))
                start = None
    return Blocks(tuple(bars))
