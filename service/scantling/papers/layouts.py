"""Cutting layouts as drawings: the stock as the person at the saw sees it, its parts, and its cuts in ringed numbers.

x runs along the stock's length to the right; the near edge lies at the bottom, next to the person. A sheet that lies
with its good face down is drawn mirrored, as it is seen.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from scantling.drawing.hatch import hatched
from scantling.drawing.lettering import shortened, text_width, wrapped
from scantling.drawing.shapes import Box, Circle, Drawing, Path, Segments, Shape, Text, rectangle
from scantling.drawing.svg import to_svg
from scantling.measure import Tape

from .cut_rings import OnPaper, meet, ringed_cuts

WIDTH_MM, HEIGHT_MM = 180.0, 150.0  # of the paper a layout may take
BOARD_STRIP_MM = 13.0  # a board is drawn as a strip of this height
EDGE_MM = 6.5  # round the stock, for the numbers of cuts that begin at its edge
HEAD_MM = 4.2
BODY_MM = 3.0
ID_MM = 3.6  # letters of a part's id: read at arm's length
LEAST_ID_MM = 2.6
MARK_MM = 4.6
LEAST_MARK_MM = 2.2
SHIFTS = (0.0, *(way * k / 40 for k in range(1, 19) for way in (1, -1)))  # shares of a part, for its words


def layout_svgs(nesting: Mapping[str, Any], tape: Tape) -> dict[str, str]:
    """Return file name → SVG for every layout of a nesting answer."""
    drawings = layout_drawings(nesting, tape)
    return {f"layout-{i:02d}.svg": to_svg(drawing) for i, drawing in enumerate(drawings, 1)}


def layout_drawings(
    nesting: Mapping[str, Any], tape: Tape, width: float = WIDTH_MM, height: float = HEIGHT_MM
) -> list[Drawing]:
    """Return a drawing of every layout of a nesting answer."""
    layouts, marks = nesting["layouts"], marks_of(nesting)
    bound = bound_text(nesting)
    return [
        layout_drawing(layout, i, len(layouts), tape, marks=marks, bound=bound, width=width, height=height)
        for i, layout in enumerate(layouts, 1)
    ]


def marks_of(nesting: Mapping[str, Any]) -> dict[str, str]:
    """Return a short number for every part id, in the order the layouts meet them."""
    ids = dict.fromkeys(p["part"] for layout in nesting["layouts"] for p in layout["placements"])
    return {id: str(n) for n, id in enumerate(ids, 1)}


def bound_text(nesting: Mapping[str, Any]) -> str:
    """Return in words how near the whole nesting is to the least that is possible."""
    if nesting.get("proven_minimal"):
        return (
            "no cheaper set of stock is possible (proven)" if nesting.get("cost") else "no less stock would do (proven)"
        )
    if nesting.get("cost") is not None and nesting.get("bound") is not None:
        text = (
            f"all stock {nesting['cost']}, proven not below {nesting['bound']} {nesting.get('currency', '')}".rstrip()
        )
        least = nesting.get("two_stage_bound")
        deeper = least is not None and Decimal(least) > Decimal(nesting["bound"])
        return f"{text}, in two stages of cuts not below {least}" if deeper else text
    return f"within {100 * nesting.get('gap', 0.0):.1f} % of the least stock that is possible"


def layout_drawing(
    layout: Mapping[str, Any],
    number: int,
    of: int,
    tape: Tape,
    *,
    marks: Mapping[str, str] | None = None,
    bound: str = "",
    width: float = WIDTH_MM,
    height: float = HEIGHT_MM,
) -> Drawing:
    """Return one layout as a drawing at most width × height mm; the numbers of parts that are too small for their
    names are explained below it."""
    known = marks or marks_of({"layouts": [layout]})
    heading = _heading(layout, number, of, tape, bound, width)
    legend = _legend(layout, known, tape, width)
    head = sum(t.size * 1.45 for t in heading)
    foot = len(legend) * BODY_MM * 1.4 + 9.0
    paper = _paper(layout, width, head, height - head - foot)
    bottom = paper.y + paper.width * paper.scale_y
    rings, taken = ringed_cuts(layout, paper)
    shapes: list[Shape] = [*heading, *_stock(layout, paper, tape, taken)]
    for placed in layout["placements"]:
        shapes += _part(placed, paper, known, tape, taken)
    shapes += [*rings, *_below(layout, paper, bottom + EDGE_MM + 2.5)]
    y = bottom + EDGE_MM + 8.0
    for line in legend:
        shapes.append(Text(0, y, line, BODY_MM))
        y += BODY_MM * 1.4
    title = f"Layout {number} of {of}: {layout['stock']}"
    return Drawing(width, y, title, tuple(shapes))


def _paper(layout: Mapping[str, Any], width: float, head: float, room: float) -> OnPaper:
    length, across = layout["length_mm"], layout.get("width_mm")
    top = head + EDGE_MM
    if not across:
        return OnPaper(EDGE_MM, top, (width - 2 * EDGE_MM) / length, BOARD_STRIP_MM, length, 1.0, False)
    scale = min((width - 2 * EDGE_MM) / length, max(30.0, room - 2 * EDGE_MM) / across)
    return OnPaper((width - length * scale) / 2, top, scale, scale, length, across, bool(layout.get("mirrored")))


def _heading(layout: Mapping[str, Any], number: int, of: int, tape: Tape, bound: str, width: float) -> list[Text]:
    size = tape.show(layout["length_mm"])
    if layout.get("width_mm"):
        size += f" × {tape.show(layout['width_mm'])}"
    times = f"{layout['count']} × " if layout["count"] > 1 else ""
    texts = wrapped(f"Layout {number} of {of}: {times}{layout['stock']}, {size}", width, HEAD_MM, True)
    lines = [(line, HEAD_MM, True) for line in texts]
    cuts = layout["cuts"]
    words = [f"{len(layout['placements'])} parts"]
    if cuts:
        words.append(f"{len(cuts)} cuts, kerf {cuts[0]['kerf_mm']:g} mm")
    if layout.get("stack", 1) > 1:
        words.append(f"cut in stacks of {layout['stack']}, {layout['runs']} times over")
    kept = [_size(o, layout, tape) for o in layout["offcuts"]]
    words.append(f"left to keep: {', '.join(kept)}" if kept else "nothing left worth keeping")
    if bound:
        words.append(bound)
    lines += [(line, BODY_MM, False) for line in wrapped("; ".join(words) + ".", width, BODY_MM)]
    if layout.get("face_up"):
        lines += [(line, BODY_MM, False) for line in wrapped(_face_words(layout), width, BODY_MM)]
    shapes, y = [], 0.0
    for line, size_mm, bold in lines:
        shapes.append(Text(0, y + size_mm * 0.7, line, size_mm, bold=bold))
        y += size_mm * 1.45
    return shapes


def _face_words(layout: Mapping[str, Any]) -> str:
    words = "Show side up" if layout["face_up"] == "face" else "Show side down, drawn as you see it from above"
    if layout.get("saw"):
        words += f", for the {layout['saw']}"
        if layout.get("tilts"):
            words += f" (its blade tilts to the {layout['tilts']})"
    against = layout.get("against") or ()
    if against:
        words += f"; score or tape the line of cut {', '.join(str(n) for n in against)} first"
    return words + "."


def _size(offcut: Mapping[str, Any], layout: Mapping[str, Any], tape: Tape) -> str:
    text = tape.show(offcut["length_mm"])
    return f"{text} × {tape.show(offcut['width_mm'])}" if layout.get("width_mm") else text


def _stock(layout: Mapping[str, Any], paper: OnPaper, tape: Tape, taken: Sequence[Box]) -> list[Shape]:
    """Draw the stock hatched as waste, and over it the offcuts worth keeping."""
    x, y, w, h = paper.box(0.0, 0.0, paper.length, paper.width)
    shapes: list[Shape] = [rectangle(x, y, w, h, "heavy", "white"), Segments(hatched(x, y, w, h), "hatch")]
    for offcut in layout["offcuts"]:
        bx = paper.box(
            offcut["x_mm"], offcut.get("y_mm", 0.0), offcut["length_mm"], offcut.get("width_mm") or paper.width
        )
        shapes.append(rectangle(*bx, "kept", "white"))
        words = f"keep {_size(offcut, layout, tape)}"
        shapes += _lettered(bx, [words], 3.0, 2.2, taken) or _lettered(bx, ["keep"], 3.0, 2.2, taken)
    return shapes


def _part(
    placed: Mapping[str, Any], paper: OnPaper, marks: Mapping[str, str], tape: Tape, taken: list[Box]
) -> list[Shape]:
    long, wide = placed["length_mm"], placed.get("width_mm") or paper.width
    w, h = (wide, long) if placed.get("turned") else (long, wide)
    box = paper.box(placed["x_mm"], placed.get("y_mm", 0.0), w, h)
    size = tape.show(long) if not placed.get("width_mm") else f"{tape.show(long)} × {tape.show(wide)}"
    shapes: list[Shape] = [rectangle(*box, "outline", "white")]
    if placed.get("near_mm"):
        outline, box = _sloped(placed["near_mm"], placed["far_mm"], paper)
        shapes = [outline]
    mark, name = marks[placed["part"]], placed["part"]
    for lines, wanted, least in (
        ([f"{mark}  {name}", size], ID_MM, LEAST_ID_MM),
        ([f"{mark}  {name}  {size}"], ID_MM, LEAST_ID_MM),
        ([mark, size], MARK_MM, LEAST_ID_MM),
        ([mark], MARK_MM, LEAST_MARK_MM),
        ([mark], LEAST_MARK_MM, 0.5),
    ):
        lettered = _lettered(box, lines, wanted, least, taken)
        if lettered:
            return shapes + lettered
    return shapes


def _sloped(near: Sequence[float], far: Sequence[float], paper: OnPaper) -> tuple[Path, Box]:
    """Return the outline of a piece of board with sloped ends, and the rectangle inside it as x, y, width, height."""
    (x0, top, x1, height), (x2, _, x3, _) = (paper.box(a, 0.0, b - a, paper.width) for a, b in (near, far))
    x1, x3, bottom = x0 + x1, x2 + x3, top + height
    outline = Path(((x0, bottom), (x1, bottom), (x3, top), (x2, top)), "outline", True, "white")
    left, right = max(x0, x2), min(x1, x3)
    return outline, (left, top, max(right - left, 0.0), height)


def _lettered(
    box: tuple[float, float, float, float], lines: Sequence[str], wanted: float, least: float, taken: Sequence[Box]
) -> list[Shape]:
    """Return lines of text in a rectangle, along its longer side or level, clear of what is taken; [] if too small."""
    x, y, w, h = box
    best: tuple[float, bool] | None = None
    for upright in (False, True) if h <= w * 1.5 else (True, False):
        run, rise = (h, w) if upright else (w, h)
        widest = max(text_width(line, 1.0, True) for line in lines)
        size = min(wanted, (run - 1.0) / widest, (rise - 0.4) / (1.3 * len(lines) - 0.25))
        if size >= least and (best is None or size > best[0] + 0.4):
            best = (size, upright)
    if best is None:
        return []
    size, upright = best
    for along in SHIFTS:
        for across in (0.0, 0.2, -0.2):
            dx, dy = (across * w, along * h) if upright else (along * w, across * h)
            texts = [
                Text(
                    x + w / 2 + dx + (step if upright else 0.0), y + h / 2 + dy + (0.0 if upright else step),
                    line, size, "middle", upright, bold=i == 0,
                )
                for i, line in enumerate(lines)
                for step in ((i - (len(lines) - 1) / 2) * size * 1.3,)
            ]  # fmt: skip
            boxes = [t.box() for t in texts]
            inside = all(b[0] >= x and b[1] >= y and b[2] <= x + w and b[3] <= y + h for b in boxes)
            if inside and not any(meet(b, other) for b in boxes for other in taken):
                return list(texts)
    if size > least + 0.3:
        return _lettered(box, lines, max(least, size * 0.85), least, taken)
    return []


def _below(layout: Mapping[str, Any], paper: OnPaper, y: float) -> list[Shape]:
    """Draw the grain arrow and say where places are counted from."""
    x, left = paper.x, paper.x + 14.0
    corner = (paper.x, paper.y if paper.mirrored else paper.bottom)
    where = "far" if paper.mirrored else "near"
    arrow = ((left, y), (left + 22, y))
    heads = tuple(
        (tip, y, tip - way * 2.2, y + rise) for tip, way in ((left + 22, 1), (left, -1)) for rise in (0.9, -0.9)
    )
    shapes: list[Shape] = [
        Text(x, y, "grain", BODY_MM),
        Path(arrow, "thin"),
        Segments(heads, "thin"),
        Circle(*corner, 0.9, "none", "black"),
    ]
    legend = "hatched: waste; dashed: kept; ringed: cuts in order; dot: corner that places are counted from"
    if layout.get("width_mm"):
        legend += f" ({where} edge)" if paper.mirrored else ""
    shapes.append(Text(left + 26, y, legend, 2.6))
    return shapes


def _legend(layout: Mapping[str, Any], marks: Mapping[str, str], tape: Tape, width: float) -> list[str]:
    """Return the lines that tell which number is which part."""
    counts: dict[str, list[Any]] = {}
    for p in layout["placements"]:
        size = tape.show(p["length_mm"]) + (f" × {tape.show(p['width_mm'])}" if p.get("width_mm") else "")
        entry = counts.setdefault(p["part"], [0, size])
        entry[0] += 1
    words = [f"{marks[id]} = {n} × {id}, {size}" for id, (n, size) in counts.items()]
    lines: list[str] = []
    for word in words:
        if lines and text_width(f"{lines[-1]};  {word}", BODY_MM) <= width:
            lines[-1] += f";  {word}"
        else:
            lines.append(shortened(word, width, BODY_MM))
    return lines
