"""The measuring sheet, from the parameters: what to measure before buying, where, how often and with what."""

from collections.abc import Iterator
from typing import Any

from .dossier import Dossier, Piece, Plain
from .page import Column, Flow

COLUMNS = (
    Column("what", 3, bold=True),
    Column("where and how", 4.6),
    Column("with, how often", 3),
    Column("planned", 2.6),
    Column("measured", 3.6),
)
BLANK = "______"


def measuring_sheet(flow: Flow, dossier: Dossier) -> None:
    """Write the measuring sheet."""
    flow.section("Measure before you buy", room=40)
    flow.text(
        "Go through this sheet first and write the readings down; then give them to the plan, and print the papers "
        "anew. Where readings differ, give all of them: the plan works with the least and the greatest."
    )
    sheets: dict[tuple[tuple[str, ...], ...], list[str]] = {}
    for piece in dossier.pieces:
        found = tuple(tuple(row) for row in (*_parameters(piece, dossier), *_thicknesses(piece, dossier)))
        sheets.setdefault(found, []).append(piece.title)
    for rows, names in sheets.items():  # pieces planned from the same sizes share a table
        if rows:
            flow.section(", ".join(names), level=1, bookmark=False, room=30)
            flow.table(COLUMNS, rows)
    if dossier.nesting is not None:
        flow.section("The place: the least rules", level=1, bookmark=False, room=30)
        flow.table(COLUMNS, list(_place(dossier)))
    _kerf(flow)


def _place(dossier: Dossier) -> Iterator[list[str]]:
    """Yield what to measure of the place: each wall at three heights, its corner, the floor, the way in."""
    place = dossier.request.get("place") or {}
    walls = place.get("walls") or [{"id": "the wall"}]
    show = dossier.options.sizes.show
    for i, wall in enumerate(walls):
        for height, where in (("floor", "above the skirting"), ("seat", "at seat height"), ("back", "at back height")):
            planned = show(wall[height]) if height in wall else ""
            yield [f"{wall['id']}: {height}", f"from end to end, {where}", "tape, twice", planned, f"{BLANK} {BLANK}"]
        corner = wall.get("corner")
        if corner or i < len(walls) - 1:
            planned = " / ".join(show(corner[n]) for n in ("first", "second", "diagonal")) if corner else ""
            how = "a leg on each wall from the corner, and across between their ends"
            yield [f"{wall['id']}: its right corner", how, "tape, at seat height", planned, f"{BLANK} {BLANK} {BLANK}"]
    yield ["the floor", "down from one level line, where the feet stand", "level and rule", "", f"{BLANK} {BLANK}"]
    ways = place.get("way_in") or [{"id": "the narrowest door"}]
    for way in ways:
        planned = f"{show(way['width'])} × {show(way['height'])}" if "width" in way else ""
        yield [way["id"], "clear width and height, the leaf wide open", "tape", planned, f"{BLANK} {BLANK}"]


def _parameters(piece: Piece, dossier: Dossier) -> Iterator[list[str]]:
    described = dossier.describes.get(piece.answer["module"], {})
    for name, value in piece.answer["parameters"].items():
        kind = described.get(name, {})
        title = name.replace("_", " ")
        says = kind.get("description", "")
        if isinstance(value, dict):
            yield from _cushion(title, value, dossier)
        elif kind.get("x-quantity") == "length":
            yield [title, says, "tape, twice", dossier.options.sizes.show(value), BLANK]
        elif kind.get("x-quantity") == "angle":
            yield [title, says, "sliding bevel, or rise over run with a rule", f"{value:.1f}°", BLANK]


def _cushion(title: str, value: dict[str, Any], dossier: Dossier) -> Iterator[list[str]]:
    how = {
        "width": "across the middle and near both ends, as it lies",
        "depth": "from front to back, in three places",
        "thickness": "laid flat, a board on it, at the four corners",
        "loaded": "on a hard floor with somebody sitting on it",
    }
    for name, words in how.items():
        size = value.get(name)
        if size is None:
            continue
        show = dossier.options.sizes.tape.show
        low, high = show(size["least"]), show(size["most"])
        band = low if low == high else f"{low} to {high}"
        done = " (assumed)" if size["status"] == "assumed" else ""
        yield [f"{title}: {name}", words, "tape, every cushion", band + done, f"{BLANK} {BLANK} {BLANK}"]


def _thicknesses(piece: Piece, dossier: Dossier) -> Iterator[list[str]]:
    for role, m in _used(piece):
        planned = f"{m['thickness_mm']:g} mm" + (" (assumed)" if m["assumed"] else "")
        where = "near three corners of every sheet" if m["stock_kind"] == "sheet" else "at both ends of three boards"
        yield [
            f"{role}: {m['material']}",
            f"thickness, {where}",
            "caliper, three times",
            planned,
            f"{BLANK} {BLANK} {BLANK}",
        ]
        if m.get("board_width_mm"):
            width = dossier.options.sizes.show(m["board_width_mm"])
            yield [f"{role}: board width", "in the middle and near both ends", "rule or caliper", width, BLANK]


def _used(piece: Piece) -> Iterator[tuple[str, Plain]]:
    roles = {p.material.role for p in piece.assembly.parts.values()}
    for role, m in piece.answer["assembly"]["materials"].items():
        if role in roles:
            yield role, m


def _kerf(flow: Flow) -> None:
    flow.section("Your kerf, with one test cut", level=1, bookmark=False, room=30)
    flow.text(
        "For each saw: take an offcut about 300 mm long, measure its length to 0.1 mm with a caliper or a steel rule, "
        "cut it in two anywhere, and measure both pieces. Kerf = whole less both pieces. Use the blade you cut with."
    )
    rows = [[f"saw {i}", BLANK, BLANK, BLANK, BLANK] for i in (1, 2, 3)]
    heads = ("saw", "whole", "first piece", "second piece", "kerf")
    flow.table([Column(h, 2) for h in heads], rows)
