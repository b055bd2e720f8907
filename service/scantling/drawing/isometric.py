"""Pictures of a piece in space: whole, drawn apart, or with some parts emphasised; labels beside it with leaders."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from scantling.board import Assembly
from scantling.board.cell import box, polygon_centre
from scantling.board.vector import Vector, add, along

from .hidden import NOWHERE, Body, Shadows, visible_lines
from .lettering import shortened
from .rims import rims
from .shapes import Circle, Drawing, Path, Segments, Shape, Text
from .spacing import spread
from .view import FRONT_RIGHT, ISOMETRIC, View, as_array

LABEL_MM = 3.2  # letter height, read at arm's length
LABEL_STEP = 4.2
LEADER_GAP = 3.0
PAD = 2.0
OFF_SURFACE_MM = 0.1
SEEN_WELL = 0.6  # of the surface that looks at the eye; then the usual view will do
WIDEST_COLUMN = 0.34  # of the paper, for the labels on one side


@dataclass(frozen=True, slots=True)
class Label:
    """A word beside the picture and the bodies any of which it may point at."""

    text: str
    bodies: tuple[str, ...]
    bold: bool = False


def bodies_of(assembly: Assembly, offsets: Mapping[str, Vector] | None = None) -> list[Body]:
    """Return the parts of a piece as bodies, each moved by its offset in mm."""
    moves = offsets or {}
    return [Body.of(p.id, p.cells(), moves.get(p.id, NOWHERE), rims(p)) for p in assembly.parts.values()]


def cushion_bodies(assembly: Assembly) -> list[Body]:
    """Return the bought cushions of a piece as bodies, as thick as they are bought."""
    sides = ("cushion",) * 6
    return [
        Body.of(c.id, (box(c.origin, add(c.origin, (c.width, c.depth, c.thickness)), sides),))
        for c in assembly.cushions
    ]


def picture(
    bodies: Sequence[Body],
    width: float,
    height: float,
    *,
    view: View = FRONT_RIGHT,
    title: str = "",
    strokes: Mapping[str, str] | None = None,
    labels: Iterable[Label] = (),
    size: float = LABEL_MM,
) -> Drawing:
    """Return a picture that fits into width × height mm of paper; `strokes` names the line style of a body by its id.

    Labels stand in columns left and right of the picture; one whose bodies are all hidden points at nothing and gets
    a note that says so.
    """
    lines = visible_lines(bodies, view)
    styles = strokes or {}
    placed = _anchored(bodies, view, list(labels))
    left, right = _columns(placed, lines_box(lines), size, width)
    scale, ox, oy = _fitted(lines_box(lines), width - left - right, height)
    ox += left
    by_style: dict[str, list[tuple[float, float, float, float]]] = {}
    for s in lines:
        x0, y0, x1, y1 = s.line
        style = styles.get(bodies[s.body].id, "thin" if styles else "outline")
        by_style.setdefault(style, []).append((x0 * scale + ox, y0 * scale + oy, x1 * scale + ox, y1 * scale + oy))
    shapes: list[Shape] = [Segments(tuple(by_style[k]), k) for k in sorted(by_style, key=lambda k: (k == "new", k))]
    shapes += _lettered(placed, scale, ox, oy, (left, right), width, height, size)
    return Drawing(width, height, title, tuple(shapes))


def lines_box(lines: Sequence[object]) -> tuple[float, float, float, float]:
    """Return the box round what is drawn, in mm of the piece."""
    numbers = [s.line for s in lines]  # type: ignore[attr-defined]
    if not numbers:
        return (0.0, 0.0, 1.0, 1.0)
    xs = [x for n in numbers for x in (n[0], n[2])]
    ys = [y for n in numbers for y in (n[1], n[3])]
    return (min(xs), min(ys), max(xs), max(ys))


def _fitted(box: tuple[float, float, float, float], width: float, height: float) -> tuple[float, float, float]:
    """Return scale and shift that put a box into the middle of width × height mm."""
    x0, y0, x1, y1 = box
    scale = min((width - 2 * PAD) / max(x1 - x0, 1e-6), (height - 2 * PAD) / max(y1 - y0, 1e-6))
    return scale, width / 2 - scale * (x0 + x1) / 2, height / 2 - scale * (y0 + y1) / 2


@dataclass(frozen=True, slots=True)
class _Placed:
    label: Label
    at: tuple[float, float] | None  # in mm of the piece, on the paper


def _anchored(bodies: Sequence[Body], view: View, labels: list[Label]) -> list[_Placed]:
    """Find for every label a point of its bodies that is seen: the one nearest the middle of those that are."""
    if not labels:
        return []
    shadows = Shadows(bodies, view)
    index = {b.id: b for b in bodies}
    placed = []
    for label in labels:
        at = None
        for id in label.bodies:
            points = _surface(index[id], view)
            if not points:
                continue
            array = as_array(points)
            flat = view.flat(array)[~shadows.hides(array)]
            if len(flat):
                middle = flat.mean(axis=0)
                best = flat[((flat - middle) ** 2).sum(axis=1).argmin()]
                at = (float(best[0]), float(best[1]))
                break
        placed.append(_Placed(label if at else replace(label, text=f"{label.text} (behind)"), at))
    return placed


def _surface(body: Body, view: View) -> list[Vector]:
    """Return points a little in front of the faces that look at the eye: their middles and half-way to the corners."""
    points: list[Vector] = []
    lift = along(body.offset, view.towards, OFF_SURFACE_MM)
    for cell in body.cells:
        for face in cell.faces:
            n = face.plane.normal
            if face.name == "inner" or sum(a * b for a, b in zip(n, view.towards, strict=True)) < 0.05:
                continue
            c = polygon_centre(face.corners)
            around = [c]
            for share in (0.45, 0.8):
                around += [tuple(a + (b - a) * share for a, b in zip(c, k, strict=True)) for k in face.corners]  # type: ignore[misc]
            points += [(p[0] + lift[0], p[1] + lift[1], p[2] + lift[2]) for p in around]
    return points


def seen_share(bodies: Sequence[Body], view: View, ids: Iterable[str]) -> float:
    """Return which share of the sampled surface of some bodies is seen from a view; for choosing the view of a step."""
    wanted = set(ids)
    points = [p for b in bodies if b.id in wanted for p in _surface(b, view)]
    if not points:
        return 0.0
    return 1.0 - float(Shadows(bodies, view).hides(as_array(points)).mean())


def best_view(bodies: Sequence[Body], ids: Sequence[str]) -> View:
    """Return the view that shows most of some bodies; the usual one unless another is clearly better."""
    usual = seen_share(bodies, ISOMETRIC[0], ids)
    if usual >= SEEN_WELL:
        return ISOMETRIC[0]
    shares = [usual, *(seen_share(bodies, view, ids) for view in ISOMETRIC[1:])]
    best = max(range(len(shares)), key=lambda i: (round(shares[i], 6), -i))
    return ISOMETRIC[best] if shares[best] > usual + 0.15 else ISOMETRIC[0]


def _columns(
    placed: Sequence[_Placed], box: tuple[float, float, float, float], size: float, width: float
) -> tuple[float, float]:
    """Return the widths of the columns left and right of the picture, each at most a quarter of the paper."""
    widths = [0.0, 0.0]
    for side, group in enumerate(_sides(placed, box)):
        for p in group:
            text = Text(0, 0, p.label.text, size, bold=p.label.bold)
            widths[side] = max(widths[side], min(text.width, width * WIDEST_COLUMN) + LEADER_GAP + 1)
    return widths[0], widths[1]


def _sides(placed: Sequence[_Placed], box: tuple[float, float, float, float]) -> tuple[list[_Placed], list[_Placed]]:
    middle = (box[0] + box[2]) / 2
    seen = [p for p in placed if p.at is not None]
    by_x = sorted(seen, key=lambda p: (p.at[0] if p.at else middle, p.label.text))
    half = len(by_x) // 2
    while half < len(by_x) and by_x[half].at is not None and by_x[half].at[0] < middle and half < 0.7 * len(by_x):  # type: ignore[index]
        half += 1
    order = sorted
    left = order(by_x[:half], key=lambda p: (p.at[1] if p.at else 0.0, p.label.text))
    right = order(by_x[half:], key=lambda p: (p.at[1] if p.at else 0.0, p.label.text))
    return left, right + [p for p in placed if p.at is None]


def _lettered(
    placed: Sequence[_Placed], scale: float, ox: float, oy: float, columns: tuple[float, float],
    width: float, height: float, size: float,
) -> list[Shape]:  # fmt: skip
    shapes: list[Shape] = []
    if not placed:
        return shapes
    seen = [p.at for p in placed if p.at is not None]
    middle = (width + columns[0] - columns[1]) / 2
    fake = ((middle - ox) / scale, 0.0, (middle - ox) / scale, 0.0)
    step = max(LABEL_STEP, size * 1.3) if seen else LABEL_STEP
    for side, group in enumerate(_sides(placed, fake)):
        most = int(height // step)
        rows = group[:most]
        wanted = [(p.at[1] * scale + oy) if p.at else height for p in rows]
        ys = spread(wanted, [step] * len(rows), 0.0, height)
        for p, y in zip(rows, ys, strict=True):
            x = columns[0] - LEADER_GAP if side == 0 else width - columns[1] + LEADER_GAP
            room = columns[side] - LEADER_GAP
            text = shortened(p.label.text, room, size, p.label.bold)
            shapes.append(Text(x, y, text, size, "end" if side == 0 else "start", bold=p.label.bold))
            if p.at is not None:
                tip = (p.at[0] * scale + ox, p.at[1] * scale + oy)
                start = (x + 0.8, y) if side == 0 else (x - 0.8, y)
                shapes += [Path((start, tip), "leader"), Circle(*tip, 0.5, "none", "black")]
    return shapes
