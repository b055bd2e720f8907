"""The pictures a plan can be seen as, by name: what `?view=` picks."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from scantling.drawing.assembling import step_pictures
from scantling.drawing.dimension import level_chain, upright_chain
from scantling.drawing.explode import exploded
from scantling.drawing.isometric import bodies_of, picture
from scantling.drawing.lettering import wrapped
from scantling.drawing.screw_map import screw_maps
from scantling.drawing.shapes import Drawing, Text, shifted
from scantling.drawing.view import FRONT, PLAN, SIDE, View

from .dossier import Dossier, Piece
from .labels import label_pages
from .layouts import layout_drawings
from .packet import apart_labels, row_drawing
from .place import place_drawing

WIDTH_MM, HEIGHT_MM = 190.0, 150.0
DIMENSION_MM = 16.0

Views = Callable[[Dossier], list[tuple[str, Drawing]]]


def _isometric(dossier: Dossier) -> list[tuple[str, Drawing]]:
    return [
        (p.id, picture(bodies_of(p.assembly), WIDTH_MM, HEIGHT_MM, title=p.title, labels=apart_labels(p)))
        for p in dossier.pieces
    ]


def _exploded(dossier: Dossier) -> list[tuple[str, Drawing]]:
    found = []
    for p in dossier.pieces:
        bodies = bodies_of(p.assembly, exploded(p.assembly, p.brings()))
        title = f"{p.title}, drawn apart"
        found.append((p.id, picture(bodies, WIDTH_MM, HEIGHT_MM + 30, title=title, labels=apart_labels(p))))
    return found


def _from(view: View) -> Views:
    return lambda dossier: [(p.id, sized_view(p, dossier, view)) for p in dossier.pieces]


def sized_view(piece: Piece, dossier: Dossier, view: View, width: float = WIDTH_MM, height: float = 110.0) -> Drawing:
    """Return a piece from above, the front or the side with its overall sizes."""
    low, high = piece.assembly.bounds()
    size = [b - a for a, b in zip(low, high, strict=True)]
    wide, tall = (abs(sum(s * a for s, a in zip(size, axis, strict=True))) for axis in (view.right, view.up))
    side = DIMENSION_MM * (2.0 if dossier.options.sizes.also is None else 3.0)
    room = (width - side - DIMENSION_MM, height - 2 * DIMENSION_MM)
    scale = min(room[0] / wide, room[1] / tall)
    drawn_w, drawn_h = wide * scale, tall * scale
    left, top = side, DIMENSION_MM / 2 + 6.0
    inside = picture(bodies_of(piece.assembly), drawn_w + 4.0, drawn_h + 4.0, view=view)
    shapes = [shifted(s, left - 2.0, top - 2.0) for s in inside.shapes]
    bottom = top + drawn_h
    sizes = dossier.options.sizes
    along = level_chain(
        "across", [0.0, wide], sizes, lambda p: left + p * scale, bottom + 6.0, lambda _: bottom,
        down=True, room=(2.0, width - 2.0),
    )  # fmt: skip
    beside = upright_chain(
        "up the page", [0.0, tall], sizes, lambda p: bottom - p * scale, left - 5.0, lambda _: left,
        left=True, room=(top, bottom),
    )  # fmt: skip
    title = f"{piece.title}, {view.name}"
    words = [Text(0, 3.0, title, 4.0, bold=True)]
    if view is PLAN:
        words.append(Text(left + drawn_w / 2, bottom + 2.6, "front", 2.8, "middle"))
    page = bottom + 6.0 + along.depth + 3.0
    return Drawing(width, page, title, (*words, *shapes, *along.shapes, *beside.shapes), (along.chain, beside.chain))


def _drawings(dossier: Dossier) -> list[tuple[str, Drawing]]:
    return [(row.plain["id"], row_drawing(row, dossier, WIDTH_MM)) for row in dossier.rows]


def _screws(dossier: Dossier) -> list[tuple[str, Drawing]]:
    return [
        (p.id, drawing)
        for p in dossier.pieces
        for drawing in screw_maps(p.assembly, dossier.options.sizes, list(p.assembly.parts), WIDTH_MM)
    ]


def _steps(dossier: Dossier) -> list[tuple[str, Drawing]]:
    found = []
    for p in dossier.pieces:
        steps = p.answer["steps"]
        for i, drawing in enumerate(step_pictures(p.assembly, p.brings(), WIDTH_MM, 100.0), 1):
            name = f"{p.id} {i}" if len(dossier.pieces) > 1 else str(i)
            found.append((name, _headed(drawing, f"Step {i}: {steps[i - 1]['text']}")))
    return found


def _headed(drawing: Drawing, words: str) -> Drawing:
    """Return a drawing with a heading of a few lines above it."""
    lines = wrapped(words, drawing.width, 3.4)
    head = len(lines) * 4.8 + 2.0
    texts = [Text(0, 2.4 + i * 4.8, line, 3.4) for i, line in enumerate(lines)]
    shapes = (*texts, *(shifted(s, 0.0, head) for s in drawing.shapes))
    return Drawing(drawing.width, drawing.height + head, words, shapes)


def _layouts(dossier: Dossier) -> list[tuple[str, Drawing]]:
    if dossier.nesting is None:
        return []
    drawings = layout_drawings(dossier.nesting, dossier.options.sizes.tape, WIDTH_MM)
    return [(str(i), drawing) for i, drawing in enumerate(drawings, 1)]


def _labels(dossier: Dossier) -> list[tuple[str, Drawing]]:
    return [(str(i), page.drawing) for i, page in enumerate(label_pages(dossier), 1)]


def _place(dossier: Dossier) -> list[tuple[str, Drawing]]:
    return [("place", place_drawing(dossier, WIDTH_MM))]


PARTS_VIEWS: Mapping[str, Views] = MappingProxyType(
    {
        "isometric": _isometric,
        "exploded": _exploded,
        "plan": _from(PLAN),
        "front": _from(FRONT),
        "side": _from(SIDE),
        "drawings": _drawings,
        "screws": _screws,
        "steps": _steps,
        "labels": _labels,
    }
)
NESTING_VIEWS: Mapping[str, Views] = MappingProxyType({"layouts": _layouts})
PROJECT_VIEWS: Mapping[str, Views] = MappingProxyType({**PARTS_VIEWS, **NESTING_VIEWS, "place": _place})
