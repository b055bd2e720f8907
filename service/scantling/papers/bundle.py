"""Everything of a plan in one ZIP file, with a manifest that names every file, what it is, its size and its SHA-256."""

import hashlib
import json
import re
from collections.abc import Iterator
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from scantling.drawing.dxf import Copies, layouts_dxf, parts_dxf
from scantling.drawing.glb import to_glb
from scantling.drawing.pdf import to_pdf
from scantling.drawing.shapes import Drawing
from scantling.drawing.step import to_step
from scantling.drawing.svg import to_svg

from .dossier import Dossier
from .forms import Kind
from .labels import label_pages
from .packet import packet
from .pictures import NESTING_VIEWS, PROJECT_VIEWS
from .workbook import workbook

MADE = (1980, 1, 1, 0, 0, 0)  # the earliest date a ZIP file can hold; the same plan gives the same bytes
DRAWN = ("isometric", "exploded", "plan", "drawings", "screws", "steps")
LONGEST_NAME = 48


def bundle(kind: Kind, dossier: Dossier) -> bytes:
    """Return the ZIP file."""
    files = dict(_files(kind, dossier))
    listed = [
        {"file": name, "what": what, "bytes": len(data), "sha256": hashlib.sha256(data).hexdigest()}
        for name, (what, data) in files.items()
    ]
    manifest = {"name": dossier.name, "stamp": dossier.options.stamp, "files": listed}
    out = BytesIO()
    with ZipFile(out, "w", ZIP_DEFLATED) as archive:
        _store(archive, "manifest.json", _json(manifest))
        for name, (_, data) in files.items():
            _store(archive, name, data)
    return out.getvalue()


def _store(archive: ZipFile, name: str, data: bytes) -> None:
    info = ZipInfo(name, MADE)
    info.compress_type = ZIP_DEFLATED
    info.create_system = 3
    info.external_attr = 0o644 << 16
    archive.writestr(info, data)


def _json(value: object) -> bytes:
    return (json.dumps(value, indent=2, ensure_ascii=False, sort_keys=True) + "\n").encode("utf-8")


def file_name(text: str) -> str:
    """Return text as the stem of a file name every system takes: ASCII letters, digits and hyphens."""
    plain = re.sub(r"[^A-Za-z0-9]+", "-", text).strip("-").lower()
    return plain[:LONGEST_NAME].strip("-") or "drawing"


def _files(kind: Kind, dossier: Dossier) -> Iterator[tuple[str, tuple[str, bytes]]]:
    if dossier.request:
        yield "project.json", ("what was asked for", _json(dossier.request))
    yield "plan.json", ("the plan as data", _json(dossier.plan))
    if kind != "nesting":
        yield "packet.pdf", ("everything to take to the shop", packet(dossier))
        yield "labels.pdf", ("labels for the parts", to_pdf(label_pages(dossier), f"{dossier.name}, labels"))
        yield "workbook.xlsx", ("take-off, cut list and costs", workbook(dossier))
        rows = [Copies(r.part, r.plain["id"], r.plain["quantity"]) for r in dossier.rows]
        yield "parts.dxf", ("parts at true size", parts_dxf(rows))
    if dossier.nesting is not None:
        yield "layouts.dxf", ("layouts at true size", layouts_dxf(dossier.nesting["layouts"]))
    for name in DRAWN if kind != "nesting" else ():
        yield from _drawn(name, PROJECT_VIEWS[name](dossier))
    if kind == "project":
        yield from _drawn("place", PROJECT_VIEWS["place"](dossier))
    if dossier.nesting is not None:
        yield from _drawn("layouts", NESTING_VIEWS["layouts"](dossier))
    for i, piece in enumerate(dossier.pieces, 1):
        stem = f"{i:02d}-{file_name(piece.id)}"
        yield f"models/{stem}.glb", (f"{piece.id} in three dimensions", to_glb(piece.assembly))
        yield f"models/{stem}.step", (f"{piece.id} as solids", to_step(piece.assembly))


def _drawn(folder: str, drawings: list[tuple[str, Drawing]]) -> Iterator[tuple[str, tuple[str, bytes]]]:
    for i, (name, drawing) in enumerate(drawings, 1):
        yield f"{folder}/{i:03d}-{file_name(name)}.svg", (drawing.title, to_svg(drawing).encode("utf-8"))
