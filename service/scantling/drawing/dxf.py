"""Writes parts and layouts as DXF at true size in mm: units in the header and in every block, a test square, layers
by operation.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from io import StringIO
from typing import Any

from scantling.board import Hole, Part, Recess, SawCut

MILLIMETRES = 4  # $INSUNITS, AutoCAD DXF reference
TEST_SQUARE_MM = 100.0
GAP_MM = 50.0
ROW_MM = 3000.0
TEXT_MM = 12.0
LAYERS = {
    "OUTLINE": 7, "BEVEL": 3, "NOTCH": 1, "DADO": 5, "GROOVE": 5, "RABBET": 5, "SLOT": 1, "HOLE": 6, "STOCK": 8,
    "PART": 7, "OFFCUT": 3, "CUT": 1, "TEXT": 2, "TEST": 4,
}  # fmt: skip
FIXED_DATE = 2440587.5  # a Julian date, so that the same drawing gives the same bytes


@dataclass(frozen=True, slots=True)
class Copies:
    """A part as drawn once, and how many are cut of it."""

    part: Part
    name: str
    quantity: int


def parts_dxf(rows: Sequence[Copies]) -> bytes:
    """Return the parts, show face up, each as a block of its own, set out in rows."""
    document, space = _started()
    x = y = height = 0.0
    for number, row in enumerate(rows, 1):
        block = document.blocks.new(f"PART_{number:03d}")
        block.block_record.dxf.units = MILLIMETRES
        _part(block, row.part)
        _label(block, f"{row.name} ({row.quantity} off)", 0.0, -TEXT_MM * 1.6)
        if x > 0 and x + row.part.length > ROW_MM:
            x, y, height = 0.0, y - height - GAP_MM, 0.0
        space.add_blockref(block.name, (x, y - row.part.width), dxfattribs={"layer": "OUTLINE"})
        x, height = x + row.part.length + GAP_MM, max(height, row.part.width + 2 * TEXT_MM)
    return _finished(document, space)


def layouts_dxf(layouts: Sequence[Mapping[str, Any]]) -> bytes:
    """Return cutting layouts from their plain form, one under another; cuts lie on the middle of their kerf."""
    document, space = _started()
    y = 0.0
    for number, layout in enumerate(layouts, 1):
        block = document.blocks.new(f"LAYOUT_{number:03d}")
        block.block_record.dxf.units = MILLIMETRES
        width = layout.get("width_mm") or 100.0
        _layout(block, layout, width)
        _label(block, f"Layout {number}: {layout['count']} x {layout['stock']}", 0.0, width + TEXT_MM * 0.6)
        y -= width + 3 * TEXT_MM
        space.add_blockref(block.name, (0.0, y), dxfattribs={"layer": "STOCK"})
    return _finished(document, space)


def _started() -> tuple[Any, Any]:
    from ezdxf import filemanagement
    from ezdxf._options import options

    options.write_fixed_meta_data_for_testing = True  # no dates and no names of the day in the file
    document: Any = filemanagement.new("R2010", setup=False, units=MILLIMETRES)
    document.header["$MEASUREMENT"] = 1
    for name, colour in LAYERS.items():
        document.layers.add(name, color=colour)
    space: Any = document.modelspace()
    space.units = MILLIMETRES
    return document, space


def _finished(document: Any, space: Any) -> bytes:  # noqa: ANN401 - the library's own types
    """Add the test square, fix what changes from run to run, and return the file."""
    side = TEST_SQUARE_MM
    corner = (-side - GAP_MM, 0.0)
    _rectangle(space, corner[0], corner[1], side, side, "TEST")
    _label(space, f"{side:g} mm", corner[0], corner[1] - TEXT_MM * 1.6)
    for name in ("$TDCREATE", "$TDUCREATE", "$TDUPDATE", "$TDUUPDATE"):
        document.header[name] = FIXED_DATE
    for name in ("$FINGERPRINTGUID", "$VERSIONGUID"):
        document.header[name] = "{00000000-0000-0000-0000-000000000000}"
    out = StringIO()
    document.write(out)
    return out.getvalue().encode("utf-8")


def _part(block: Any, part: Part) -> None:  # noqa: ANN401 - the library's own types
    face = _sawn(part, part.thickness)
    _polyline(block, face, "OUTLINE")
    back = _sawn(part, 0.0)
    if any(isinstance(c, SawCut) and c.bevel > 0 for c in part.cuts):
        _polyline(block, back, "BEVEL")
    for cut in part.cuts:
        if isinstance(cut, Recess):
            x0, x1 = max(0.0, cut.x0), min(part.length, cut.x1)
            y0, y1 = max(0.0, cut.y0), min(part.width, cut.y1)
            _rectangle(block, x0, y0, x1 - x0, y1 - y0, cut.kind.upper())
        elif isinstance(cut, Hole):
            block.add_circle((cut.x, cut.y), cut.diameter / 2, dxfattribs={"layer": "HOLE"})


def _sawn(part: Part, z: float) -> list[tuple[float, float]]:
    """Return the outline of the blank after its saw cuts, at a height in the thickness."""
    ring = [(0.0, 0.0), (part.length, 0.0), (part.length, part.width), (0.0, part.width)]
    for cut in part.cuts:
        if isinstance(cut, SawCut):
            plane = cut.plane(part.size)
            nx, ny, nz = plane.normal
            ring = list(_inside(ring, nx, ny, plane.offset - nz * z))
    return ring


def _inside(ring: Sequence[tuple[float, float]], nx: float, ny: float, offset: float) -> Iterable[tuple[float, float]]:
    heights = [nx * x + ny * y - offset for x, y in ring]
    for i, (x, y) in enumerate(ring):
        h0, h1 = heights[i], heights[(i + 1) % len(ring)]
        if h0 <= 1e-9:
            yield x, y
        if (h0 < -1e-9 and h1 > 1e-9) or (h0 > 1e-9 and h1 < -1e-9):
            x1, y1 = ring[(i + 1) % len(ring)]
            t = h0 / (h0 - h1)
            yield x + (x1 - x) * t, y + (y1 - y) * t


def _layout(block: Any, layout: Mapping[str, Any], width: float) -> None:  # noqa: ANN401 - the library's own types
    _rectangle(block, 0.0, 0.0, layout["length_mm"], width, "STOCK")
    for p in layout["placements"]:
        long, wide = p["length_mm"], p.get("width_mm") or width
        w, h = (wide, long) if p.get("turned") else (long, wide)
        x, y = p["x_mm"], p.get("y_mm", 0.0)
        if p.get("near_mm"):  # a piece of board with sloped ends
            (a, b), (c, d) = p["near_mm"], p["far_mm"]
            _polyline(block, [(a, y), (b, y), (d, y + h), (c, y + h)], "PART")
        else:
            _rectangle(block, x, y, w, h, "PART")
        _label(block, p["part"], x + 4.0, y + h / 2, min(TEXT_MM, h * 0.6))
    for o in layout["offcuts"]:
        height = o.get("width_mm") or width
        _rectangle(block, o["x_mm"], o.get("y_mm", 0.0), o["length_mm"], height, "OFFCUT")
    for cut in layout["cuts"]:
        held, at = cut["held"], cut["at_mm"] + cut["kerf_mm"] / 2
        if cut.get("near_mm") is not None:
            near, far = (cut[edge] + cut["kerf_mm"] / 2 for edge in ("near_mm", "far_mm"))
            ends = ((near, 0.0), (far, width))
        elif cut["axis"] == "x":
            ends = ((at, held["y_mm"]), (at, held["y_mm"] + (held["along_y_mm"] or width)))
        else:
            ends = ((held["x_mm"], at), (held["x_mm"] + held["along_x_mm"], at))
        block.add_line(*ends, dxfattribs={"layer": "CUT"})


def _rectangle(block: Any, x: float, y: float, w: float, h: float, layer: str) -> None:  # noqa: ANN401 - ezdxf has no types for it
    _polyline(block, [(x, y), (x + w, y), (x + w, y + h), (x, y + h)], layer)


def _polyline(block: Any, points: Sequence[tuple[float, float]], layer: str) -> None:  # noqa: ANN401 - ezdxf has no types for it
    block.add_lwpolyline(points, close=True, dxfattribs={"layer": layer})


def _label(block: Any, text: str, x: float, y: float, height: float = TEXT_MM) -> None:  # noqa: ANN401 - ezdxf has no types for it
    words = "".join(c if c.isprintable() else " " for c in text)
    block.add_text(words, height=height, dxfattribs={"layer": "TEXT", "insert": (x, y)})
