"""The packet: everything taken to the shop as one PDF, the project file attached."""

import json
from typing import Any

from scantling.drawing.explode import exploded
from scantling.drawing.flat import part_drawing
from scantling.drawing.flat_notes import working_face
from scantling.drawing.isometric import Label, bodies_of, picture
from scantling.drawing.pdf import Page, to_pdf
from scantling.drawing.screw_map import screw_maps
from scantling.drawing.shapes import Drawing

from .assembly_steps import assembly_steps
from .buying import buying
from .cautions import cautions
from .cover import cover
from .cutting_list import cutting_list
from .dossier import CutRow, Dossier, Piece
from .drilling import drilling
from .finishing import care, glue_and_finish
from .jigs import jigs
from .labels import label_pages
from .layouts import layout_drawings
from .measuring import measuring_sheet
from .page import MARGIN_MM, Flow, scaled_to
from .place import in_its_place


def packet(dossier: Dossier) -> bytes:
    """Return the packet as a PDF file; the same dossier gives the same bytes."""
    files = {"project.json": _json(dossier.request)} if dossier.request else {}
    return to_pdf(packet_pages(dossier), dossier.name, author=dossier.options.author, attachments=files)


def packet_pages(dossier: Dossier) -> list[Page]:
    """Return the pages of the packet in the order they are needed in the shop."""
    flow = Flow(dossier.options.paper, _footer(dossier))
    cover(flow, dossier)
    flow.new_page()
    measuring_sheet(flow, dossier)
    flow.new_page()
    in_its_place(flow, dossier)
    flow.new_page()
    buying(flow, dossier)
    flow.new_page()
    cutting_list(flow, dossier)
    _layouts(flow, dossier)
    _parts(flow, dossier)
    _screws(flow, dossier)
    jigs(flow, dossier)
    for piece in dossier.pieces:
        _apart(flow, piece)
    assembly_steps(flow, dossier)
    flow.new_page()
    glue_and_finish(flow, dossier)
    cautions(flow, dossier)
    care(flow, dossier)
    return [*flow.pages(), *label_pages(dossier)]


def _footer(dossier: Dossier) -> str:
    options = dossier.options
    words = [dossier.name, options.stamp, options.version, options.date]
    return " · ".join(w for w in words if w)


def _json(value: Any) -> bytes:  # noqa: ANN401 - whatever was posted
    return (json.dumps(value, indent=2, ensure_ascii=False, sort_keys=True) + "\n").encode("utf-8")


def _layouts(flow: Flow, dossier: Dossier) -> None:
    if dossier.nesting is None or not dossier.nesting["layouts"]:
        return
    flow.turn()  # sheets are twice as long as wide
    flow.section("Layouts", room=60)
    tape, height = dossier.options.sizes.tape, flow.bottom - MARGIN_MM
    for drawing in layout_drawings(dossier.nesting, tape, flow.width, height - flow.y + MARGIN_MM):
        flow.need(drawing.height)
        flow.marks.append((drawing.title, 1))
        flow.put(scaled_to(drawing, flow.width, height), gap=7.0)
    flow.turn()


def _parts(flow: Flow, dossier: Dossier) -> None:
    flow.new_page()
    flow.section("Part drawings", room=60)
    for row in dossier.rows:
        drawing = row_drawing(row, dossier, flow.width)
        flow.need(drawing.height)
        flow.marks.append((drawing.title, 1))
        flow.put(scaled_to(drawing, flow.width, flow.bottom - MARGIN_MM), gap=7.0)


def row_drawing(row: CutRow, dossier: Dossier, width: float) -> Drawing:
    """Return the drawing of a row of the cut list."""
    more = [f"{row.plain['hand']} hand; the other is {row.plain['twin']}."] if row.plain["hand"] else []
    up = working_face(row.part)
    return part_drawing(row.part, dossier.options.sizes, heading=row.heading, more=more, up=up, width=width)


def _screws(flow: Flow, dossier: Dossier) -> None:
    if not any(p.assembly.fasteners for p in dossier.pieces):
        return
    flow.new_page()
    flow.section("Where the screws go", room=60)
    drilling(flow, dossier)
    for piece in dossier.pieces:
        drawings = screw_maps(piece.assembly, dossier.options.sizes, list(piece.assembly.parts), flow.width)
        if drawings:
            flow.section(piece.title, level=1, room=60)
        for drawing in drawings:
            flow.put(scaled_to(drawing, flow.width, flow.bottom - MARGIN_MM), gap=7.0)


def _apart(flow: Flow, piece: Piece) -> None:
    flow.section(f"{piece.title}, drawn apart", room=150)
    moves = exploded(piece.assembly, piece.brings())
    bodies = bodies_of(piece.assembly, moves)
    flow.put(picture(bodies, flow.width, min(flow.room, 170.0), labels=apart_labels(piece)))


def apart_labels(piece: Piece) -> list[Label]:
    """Return a label for each kind of part of a piece, with how many there are."""
    names: dict[str, list[str]] = {}
    for part in piece.assembly.parts.values():
        names.setdefault(part.name, []).append(part.id)
    return [Label(_named(name, ids), tuple(ids)) for name, ids in names.items()]


def _named(name: str, ids: list[str]) -> str:
    return ids[0] if len(ids) == 1 else f"{name} ({len(ids)})"
