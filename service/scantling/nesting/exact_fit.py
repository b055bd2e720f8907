"""Layouts that fit only if every cut is on its line and the stock is not a hair short.

A row of parts needs their sizes and a kerf between them. Each cut may be off by the cutting error, and a panel may be
short by what its standard allows; where what is left over is less than that, the layout is an exact fit.
"""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache

from scantling.findings import Finding, Severity
from scantling.tables import load_table

from .nouns import Cutting, Job, Layout, Nesting, Node, Stock

_LIMIT = 6  # findings, the tightest first


@dataclass(frozen=True, slots=True)
class Tightness:
    """How much is left along one axis of a layout, what it should be, and the parts of the tightest row (0.01 mm)."""

    axis: str
    left: int
    margin: int
    cuts: int
    row: tuple[str, ...]

    @property
    def short(self) -> int:
        """How much is wanting; nothing when not above 0."""
        return self.margin - self.left


@cache
def panel_shortfall() -> int:
    """Return by how much a panel may be shorter than it is called, in 0.01 mm (PS 1, tolerance on size)."""
    rows = load_table("panel_tolerances").rows
    inches = next(row.number("value") for row in rows if row.text("what") == "length and width, under")
    return round(inches * 2540)


def tight_axes(layout: Layout, stock: Stock, cutting: Cutting) -> list[Tightness]:
    """Return the axes along which a layout is an exact fit."""
    found = []
    for axis in ("x",) if layout.tree is None else ("x", "y"):
        size, row, cuts = _longest_row(layout, axis, cutting.kerf)
        room = _room(stock, axis, cutting)
        margin = cuts * cutting.cutting_error + _shortfall(stock, axis, cutting)
        if row and room - size < margin:
            found.append(Tightness(axis, room - size, margin, cuts, row))
    return found


def find_exact_fits(job: Job, nesting: Nesting, again: Callable[[Job], Nesting] | None = None) -> list[Finding]:
    """Return a finding for each exact fit, naming the smallest change of one part that gives it its margin.

    `again` nests a job; with it, what the same parts need when the margin is kept is worked out once and told.
    """
    stocks = {s.id: s for s in job.stock}
    tight = [
        (number, layout, t)
        for number, layout in enumerate(nesting.layouts, start=1)
        for t in tight_axes(layout, stocks[layout.stock], job.cutting)
    ]
    if not tight:
        return []
    with_it = "" if again is None else _told(nesting, again(with_margin(job)))
    tight.sort(key=lambda x: (-x[2].short, x[0], x[2].axis))
    return [_finding(number, layout, t, with_it) for number, layout, t in tight[:_LIMIT]]


def with_margin(job: Job) -> Job:
    """Return the job with every kerf wider by the cutting error and every panel shorter by what it may be short."""
    cutting = replace(job.cutting, kerf=job.cutting.kerf + job.cutting.cutting_error)
    stock = tuple(
        replace(
            s,
            length=s.length - _shortfall(s, "x", job.cutting),
            width=None if s.width is None else s.width - _shortfall(s, "y", job.cutting),
        )
        for s in job.stock
    )
    return replace(job, cutting=cutting, stock=stock)


def _longest_row(layout: Layout, axis: str, kerf: int) -> tuple[int, tuple[str, ...], int]:
    """Return the size of the row that needs most along an axis, kerfs included, its parts, and its cuts."""
    if layout.tree is not None:
        return _row_of(layout.tree, axis, kerf)
    parts = sorted(layout.placements, key=lambda p: p.x)
    if not parts:
        return 0, (), 0
    whole = parts[-1].x + parts[-1].length - parts[0].x
    return whole, tuple(p.part for p in parts), len(parts) - 1


def _row_of(node: Node, axis: str, kerf: int) -> tuple[int, tuple[str, ...], int]:
    if node.part is not None:
        return (node.along_x if axis == "x" else node.along_y), (node.part,), 0
    rows = [row for child in node.children if (row := _row_of(child, axis, kerf))[1]]
    if not rows:
        return 0, (), 0
    if node.axis != axis:
        return max(rows, key=lambda r: (r[0], r[2]))
    size = sum(r[0] for r in rows) + (len(rows) - 1) * kerf
    return size, tuple(part for r in rows for part in r[1]), sum(r[2] for r in rows) + len(rows) - 1


def _room(stock: Stock, axis: str, cutting: Cutting) -> int:
    trim = cutting.trim
    if axis == "x":
        return stock.length - trim.start - trim.end
    return (stock.width or 0) - trim.near - trim.far


def _shortfall(stock: Stock, axis: str, cutting: Cutting) -> int:
    """Return how much shorter than called a stock may be; what is on hand was measured, and trim makes up for it."""
    if stock.width is None or stock.offcut:
        return 0
    trim = cutting.trim.end if axis == "x" else cutting.trim.far
    return max(0, panel_shortfall() - trim)


def _finding(number: int, layout: Layout, tight: Tightness, with_it: str) -> Finding:
    part, times = max(Counter(tight.row).items(), key=lambda item: (item[1], item[0]))
    change = -(-tight.short // times)
    along = "length" if tight.axis == "x" else "width"
    row = ", ".join(f"{n} × {p}" for p, n in Counter(tight.row).items())
    return Finding(
        "exact-fit",
        Severity.WARNING,
        f"Layout {number} of {layout.stock}: {row} leave {tight.left / 100:g} mm along its {along}; {tight.cuts} cuts "
        f"and the stock's own tolerance may take {tight.margin / 100:g} mm.{with_it}",
        parts=tuple(sorted(set(tight.row))),
        value=tight.left / 100,
        limit=tight.margin / 100,
        unit="mm",
        source="cutting error as stated or 0.5 mm a cut (practice); panels 1/16 in under, PS 1",
        remedy=f"Measure the stock; or make {part} {change / 100:g} mm smaller along the {along} of the stock.",
    )


def _told(nesting: Nesting, safe: Nesting) -> str:
    """Say what the margin would cost."""
    count, safe_count = (sum(x.count for x in n.layouts) for n in (nesting, safe))
    if safe.unplaced and not nesting.unplaced:
        return " With that margin not every part finds a place."
    proof = ", proved" if safe.proven_minimal else ""
    if safe_count == count and safe.objective == nesting.objective:
        return f" There is a way with that margin from as much stock ({count}{proof}): nest with it."
    return f" With that margin it takes {safe_count} instead of {count}{proof}."
