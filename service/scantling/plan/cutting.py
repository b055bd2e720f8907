"""From built pieces to a nesting job: what is cut from which stock, matched by material, thickness and board width."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from scantling.board import CutListRow, RoleMaterial, cut_list
from scantling.findings import Finding, Severity
from scantling.measure import RequestError, RequestProblem, parse_money, parse_thickness, pointer, snap
from scantling.nesting.boards_plain import plain_defects, refuse_defects
from scantling.nesting.nouns import UNITS_PER_MM, Cutting, Grain, Job, Piece, Stock, StockGrain
from scantling.nesting.pins import with_plain_pins
from scantling.nesting.plain import read_least_offcut, read_stacking, room_units, to_hundredths, to_units
from scantling.nesting.plans_plain import read_aims
from scantling.nesting.saws import Saws

from .building import Built
from .stop_marks import StopMark, stop_marks

SAME_THICKNESS_MM = 0.05
SAME_WIDTH_MM = 0.05
DEFAULT_SHEET_MM = (2440.0, 1220.0)  # the metric form of 4 × 8 ft, sold nearly everywhere; practice
DEFAULT_BOARDS_MM = (2440.0, 3050.0)  # 8 and 10 ft; practice


@dataclass(frozen=True, slots=True)
class Lot:
    """All that is cut from one material at one thickness (and, for boards, one width)."""

    label: str
    material: RoleMaterial

    @classmethod
    def of(cls, material: RoleMaterial) -> "Lot":
        """Return the lot a role's material belongs to."""
        size = f"{material.thickness:g}"
        if material.width is not None:
            size += f" × {material.width:g}"
        return cls(f"{material.material} {size} mm", material)


@dataclass(frozen=True, slots=True)
class Wanted:
    """One row of the project's cut list: its id in the nesting, the module it belongs to, how many, where cuts stop."""

    id: str
    module: str
    row: CutListRow
    quantity: int
    lot: Lot
    stops: tuple[StopMark, ...] = ()


def wanted(pieces: Iterable[Built], saws: Saws | None = None) -> list[Wanted]:
    """Return what must be cut for all pieces, module by module in the order given; `saws` make the stopped cuts."""
    rows = []
    for built in pieces:
        for row in cut_list(built.assembly):
            lot = Lot.of(built.assembly.materials[row.role])
            stops = stop_marks(built.assembly.parts[row.parts[0]], saws)
            count = len(row.parts) * built.quantity
            rows.append(Wanted(f"{built.id}: {row.parts[0]}", built.id, row, count, lot, stops))
    return rows


def nesting_job(
    rows: Sequence[Wanted], stock: Sequence[Mapping[str, Any]], cutting: Cutting, effort: int, seed: int
) -> tuple[Job, list[Finding]]:
    """Return the nesting job for the cut list and what was assumed.

    A caller's stock is matched by material, thickness and board width; a lot without any takes the sheets and boards
    sold nearly everywhere, without a price. Raises RequestError where a stock could be two thicknesses at once.
    """
    lots = {row.lot.label: row.lot for row in rows}
    findings: list[Finding] = []
    offered: list[Stock] = []
    problems: list[RequestProblem] = []
    for i, entry in enumerate(stock):
        problems += refuse_defects(entry, i)
        matching = [lot for lot in lots.values() if _matches(entry, lot)]
        if len(matching) > 1:
            names = " and ".join(lot.label for lot in matching)
            detail = f"{entry['id']!r} could be {names}; give its thickness (and board_width) so that it is one of them"
            problems.append(RequestProblem(pointer("stock", i, "thickness"), detail, "stock-ambiguous"))
        offered.extend(_stock(entry, lot) for lot in matching[:1])
        if not matching and "list" not in entry:  # of a shop's whole list nobody wonders what is not needed
            findings.append(_unused(entry, lots.values(), i))
    if problems:
        raise RequestError(problems)
    for lot in lots.values():
        if not any(s.material == lot.label for s in offered):
            offered.extend(_default_stock(lot))
            findings.append(_assumed(lot))
    pieces = tuple(_piece(row) for row in rows)
    return Job(pieces, tuple(offered), cutting, effort, seed), findings


def with_wishes(job: Job, request: Mapping[str, Any]) -> Job:
    """Return the job with what the request asks of its nesting: aims, stacks, layouts that stay as they are.

    Raises RequestError with the place of every pinned layout that contradicts the job.
    """
    objective = request.get("objective") or {}
    job = replace(
        job,
        aims=read_aims(objective),
        least_offcut=read_least_offcut(objective),
        stacking=read_stacking(request.get("stack")),
    )
    return with_plain_pins(job, request["layouts"]) if request.get("layouts") else job


def _matches(entry: Mapping[str, Any], lot: Lot) -> bool:
    material = lot.material
    if entry.get("material", material.material) != material.material:
        return False
    if ("width" not in entry) is not (material.stock_kind == "board"):
        return False
    if "board_width" in entry and material.width is not None and abs(entry["board_width"] - material.width) > 1.0:
        return False
    if "thickness" not in entry:
        return True
    thickness = parse_thickness(entry["thickness"])
    least, most = (material.least, material.most) if material.assumed else (material.thickness, material.thickness)
    return thickness.least <= most + SAME_THICKNESS_MM and thickness.most >= least - SAME_THICKNESS_MM


def _stock(entry: Mapping[str, Any], lot: Lot) -> Stock:
    width = room_units(entry["width"]) if "width" in entry else None
    stock = _plain_stock(entry["id"], entry["length"], width, lot)
    price = parse_money(entry["price"]) if "price" in entry else None
    return replace(
        stock,
        price=price,
        quantity=entry.get("quantity"),
        offcut=entry.get("offcut", False),
        defects=plain_defects(entry.get("defects")),
    )


def _default_stock(lot: Lot) -> list[Stock]:
    if lot.material.stock_kind == "board":
        return [_plain_stock(f"{lot.label} board {x:.0f}", x, None, lot) for x in DEFAULT_BOARDS_MM]
    length, width = DEFAULT_SHEET_MM
    return [_plain_stock(f"{lot.label} sheet {length:.0f} × {width:.0f}", length, room_units(width), lot)]


def _plain_stock(id: str, length: float, width: int | None, lot: Lot) -> Stock:
    grain = StockGrain.ALONG if lot.material.has_grain else StockGrain.NONE
    board_width = None if lot.material.width is None else units(lot.material.width)
    thickness = units(lot.material.thickness)
    return Stock(id, room_units(length), width, lot.label, thickness, grain=grain, board_width=board_width)


def _piece(row: Wanted) -> Piece:
    grain = Grain(row.row.grain) if row.lot.material.has_grain else Grain.ANY
    thickness = units(row.lot.material.thickness)
    if row.lot.material.stock_kind == "board":
        piece = Piece(row.id, to_units(row.row.length), None, row.quantity, grain, row.lot.label, thickness)
        return replace(piece, **_slopes(row), one_face=row.row.shows == "face")
    piece = Piece(
        row.id, to_units(row.row.length), to_units(row.row.width), row.quantity, grain, row.lot.label, thickness
    )
    bevels: dict[str, Any] = {
        f"{s.side}_bevel": to_hundredths(s.bevel) for s in row.row.settings if s.bevel and s.at == 0
    }
    return replace(piece, **bevels)


def _slopes(wanted: Wanted) -> dict[str, Any]:
    """Return how the ends of a part slope, from the saw settings of its ends.

    A part narrower than its board, and an end that is cut in from the blank's, are cut from a square blank.
    """
    slopes: dict[str, Any] = {}
    board = wanted.lot.material.width
    if board is None or abs(wanted.row.width - board) > SAME_WIDTH_MM:
        return slopes
    for s in wanted.row.settings:
        if s.side not in ("start", "end") or s.at != 0 or f"{s.side}_slope" in slopes:
            continue
        leans = 1 if s.side == "end" else -1  # the long point of an end at the far edge, or of a start at the near one
        across = leans if s.long_edge == "far" else -leans
        through = leans if s.long_face == "face" else -leans
        slopes[f"{s.side}_slope"] = across * to_hundredths(s.mitre)
        slopes[f"{s.side}_bevel"] = through * to_hundredths(s.bevel)
    return slopes


def _assumed(lot: Lot) -> Finding:
    length, width = DEFAULT_SHEET_MM
    sheet = f"sheets of {length:.0f} × {width:.0f} mm"
    boards = " and ".join(f"{x:.0f}" for x in DEFAULT_BOARDS_MM)
    what = sheet if lot.material.stock_kind == "sheet" else f"boards of {boards} mm"
    return Finding(
        "stock-assumed",
        Severity.WARNING,
        f"No stock is given for {lot.label}; {what} without a price are assumed.",
        source="sizes sold nearly everywhere, practice",
        remedy="List the sheets and boards your shop sells, with sizes and prices.",
    )


def _unused(entry: Mapping[str, Any], lots: Iterable[Lot], index: int) -> Finding:
    names = ", ".join(sorted(lot.label for lot in lots))
    return Finding(
        "stock-not-needed",
        Severity.NOTE,
        f"Nothing is cut from {entry['id']!r}; what is needed is {names}.",
        pointer=pointer("stock", index),
        remedy="Check its material, thickness and whether it has a width (a sheet) or none (a board).",
    )


def units(mm: float) -> int:
    """Return a length as the nesting counts it: whole hundredths of a millimetre."""
    return round(snap(mm) * UNITS_PER_MM)
