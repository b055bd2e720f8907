"""The take-off: everything the project must have, from sheets to the last screw."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from scantling.board import Assembly, Hardware, patches
from scantling.costing.nouns import Kind, Price, TakeOffLine
from scantling.costing.quantities import box_of, glue_line, screw_lines
from scantling.nesting.nouns import Job, Nesting, Stock

from .building import Built
from .finishing import finish_take_off

SPARE_SCREWS = Fraction(1, 10)  # a tenth more, for those that snap and those that roll away; practice
JOINED_MM = 0.5


@dataclass(frozen=True, slots=True)
class TakeOff:
    """The lines to have, and the prices that came with them (of stock)."""

    lines: tuple[TakeOffLine, ...]
    prices: tuple[Price, ...]


def take_off(
    pieces: Sequence[Built],
    job: Job,
    nesting: Nesting,
    request: Mapping[str, Any],
    at_the_place: Iterable[Hardware] = (),
) -> TakeOff:
    """Return the take-off of a project: stock, screws, glue, finish, cushions and hardware.

    `at_the_place` is what the joints between neighbours take, each counted once.
    """
    stock, prices = _stock_lines(job, nesting)
    lines = [*stock, *_screws(pieces)]
    glued = sum(glued_area_mm2(b.assembly) * b.quantity for b in pieces)
    if glued > 0:
        lines.append(glue_line("glue", glued, request.get("glue", {}).get("kind", "cross-linking PVA")))
    finish = request.get("finish")
    if finish is not None:
        area = sum(surface_mm2(b.assembly) * b.quantity for b in pieces)
        lines.append(finish_take_off(area, finish))
    lines += [*_cushions(pieces), *_hardware(pieces, at_the_place)]
    return TakeOff(tuple(lines), tuple(prices))


def _stock_lines(job: Job, nesting: Nesting) -> tuple[list[TakeOffLine], list[Price]]:
    """Return one line a stock that was cut, with the share that is used up, and its price where it has one."""
    lines, prices = [], []
    for stock in job.stock:
        count = sum(layout.count for layout in nesting.layouts if layout.stock == stock.id)
        if not count:
            continue
        used = count - _kept(stock, nesting)
        kind = Kind.BOARD if stock.width is None else Kind.SHEET
        on_hand = Fraction(count if stock.offcut else 0)
        what = f"{stock.material}, {_size(stock)}"
        lines.append(TakeOffLine(stock.id, kind, what, Fraction(count), "piece", used, on_hand))
        if stock.price is not None:
            prices.append(Price(stock.price, stock.id))
    return lines, prices


def _kept(stock: Stock, nesting: Nesting) -> Fraction:
    """Return how many whole pieces of stock the offcuts worth keeping amount to, by area or length."""
    kept = 0
    for layout in nesting.layouts:
        if layout.stock == stock.id:
            kept += layout.count * sum(o.along_x * (o.along_y if stock.width else 1) for o in layout.offcuts)
    return Fraction(kept, stock.length * (stock.width or 1))


def _size(stock: Stock) -> str:
    if stock.width is None:
        return f"{stock.length / 100:.0f} mm long"
    return f"{stock.length / 100:.0f} × {stock.width / 100:.0f} mm"


def _screws(pieces: Iterable[Built]) -> list[TakeOffLine]:
    counts: Counter[tuple[int, float]] = Counter()
    for built in pieces:
        for fastener in built.assembly.fasteners.values():
            if fastener.kind == "wood screw":
                counts[fastener.gauge, round(fastener.length, 3)] += built.quantity
    return screw_lines(counts)


def boxes(lines: Iterable[TakeOffLine], pieces: Iterable[Built]) -> dict[str, int]:
    """Return how many screws the usual box of each screw line holds."""
    sizes = {
        f"screw {f.gauge} x {round(f.length, 3):g} mm": box_of(f.gauge, f.length)
        for built in pieces
        for f in built.assembly.fasteners.values()
    }
    return {line.id: box for line in lines if (box := sizes.get(line.id)) is not None}


def _cushions(pieces: Iterable[Built]) -> list[TakeOffLine]:
    counts: Counter[tuple[str, float, float, float]] = Counter()
    for built in pieces:
        for c in built.assembly.cushions:
            high, deep = (c.depth, c.thickness) if c.kind == "seat" else (c.thickness, c.depth)
            counts[c.kind, c.width, high, deep] += built.quantity
    return [
        TakeOffLine(f"{kind} cushion {w:g} x {d:g} x {t:g} mm", Kind.CUSHION, f"{kind} cushion", Fraction(n), "piece")
        for (kind, w, d, t), n in sorted(counts.items())
    ]


def _hardware(pieces: Iterable[Built], more: Iterable[Hardware]) -> list[TakeOffLine]:
    counts: Counter[str] = Counter()
    for item in more:
        counts[item.what] += item.quantity
    for built in pieces:
        for item in built.assembly.hardware:
            counts[item.what] += item.quantity * built.quantity
    return [TakeOffLine(what, Kind.HARDWARE, what, Fraction(n), "piece") for what, n in sorted(counts.items())]


def glued_area_mm2(assembly: Assembly) -> float:
    """Return the area glue is spread on: the patches where the parts of glued joints touch, each pair once."""
    pairs = {
        tuple(sorted((a, b)))
        for joint in assembly.joints.values()
        if joint.glued
        for a, b in zip(joint.parts, joint.parts[1:], strict=False)
    }
    total = 0.0
    for a, b in sorted(pairs):
        found = patches(assembly.parts[a], assembly.parts[b])
        total += sum(p.area for p in found if p.least_gap <= JOINED_MM)
    return total


def surface_mm2(assembly: Assembly) -> float:
    """Return the whole surface of all parts as blanks, edges too: what a finish must cover if all is coated."""
    return sum(
        2 * (p.length * p.width + p.length * p.thickness + p.width * p.thickness) for p in assembly.parts.values()
    )
