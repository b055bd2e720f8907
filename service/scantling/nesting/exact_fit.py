"""Rows that fit on paper with nothing to spare.

Every saw cut is off by a little and panels come out a little short. A row is called an exact fit when what is left
in it is less than its cuts times the cutting error and the sheet's shortfall. Both figures are common practice, not
published data.
"""

from collections import Counter
from dataclasses import dataclass, replace

from scantling.findings import Finding, Severity

from .nouns import Job, Layout, Nesting, Node, Piece

SHORTFALL = 159  # 1/16 in; how much smaller a panel may be than its name, practice
_MOST_FINDINGS = 3


@dataclass(frozen=True, slots=True)
class Row:
    """Pieces side by side along an axis: how much room is left and how much would be prudent."""

    axis: str
    parts: tuple[str, ...]
    slack: int
    margin: int
    cuts: int


def tight_rows(job: Job, layout: Layout) -> list[Row]:
    """Return the rows of a layout that leave less than is prudent, the tightest first."""
    if layout.tree is None:
        return []
    node = inside_trim(layout.tree)
    rows = _rows(node, {"x": 0, "y": 0}, job)
    return sorted((r for r in rows if r.slack < r.margin), key=lambda r: (r.slack - r.margin, r.parts))


def inside_trim(root: Node) -> Node:
    """The usable part of a sheet: what is left when only one child bears parts and the others are trim."""
    node = root
    while node.children:
        bearing = [c for c in node.children if parts_of(c)]
        others = [c for c in node.children if c not in bearing]
        if len(bearing) != 1 or any(c.kept for c in others):
            return node
        node = bearing[0]
    return node


def _rows(node: Node, spare: dict[str, int], job: Job) -> list[Row]:
    """All rows below a node; `spare` is by how much the node itself could still grow along each axis."""
    bearing = [c for c in node.children if parts_of(c)]
    if not bearing or node.axis is None:
        return []
    kerf, axis = job.cutting.kerf, node.axis
    used = sum(extent_of(c, axis) for c in bearing) + (len(bearing) - 1) * kerf
    slack = extent_of(node, axis) - used + spare[axis]
    cuts = len(bearing) - (slack == 0)
    rows = []
    if len(bearing) > 1:
        names = tuple(dict.fromkeys(p for c in bearing for p in parts_of(c)))
        margin = cuts * job.cutting.cutting_error + shortfall(job, axis)
        rows.append(Row(axis, names, slack, margin, cuts))
    inner = {**spare, axis: slack}
    return rows + [row for child in bearing for row in _rows(child, inner, job)]


def shortfall(job: Job, axis: str) -> int:
    """By how much a sheet may be short along an axis after the trim has taken its share."""
    trim = job.cutting.trim
    off = trim.start + trim.end if axis == "x" else trim.near + trim.far
    return max(0, SHORTFALL - off)


def extent_of(node: Node, axis: str) -> int:
    """Extent of a node along an axis."""
    return node.along_x if axis == "x" else node.along_y


def parts_of(node: Node) -> tuple[str, ...]:
    """The parts on a node, in order."""
    if node.part is not None:
        return (node.part,)
    return tuple(p for c in node.children for p in parts_of(c))


def has_tight_rows(job: Job, nesting: Nesting) -> bool:
    """True where any row of any layout leaves less than is prudent."""
    return any(tight_rows(job, layout) for layout in nesting.layouts)


def with_margin(job: Job) -> Job:
    """The same job as a careful person would lay it out: cuts wider by the error, sheets short by the shortfall."""
    short_x, short_y = shortfall(job, "x"), shortfall(job, "y")
    stock = tuple(
        s if s.width is None else replace(s, length=max(1, s.length - short_x), width=max(1, s.width - short_y))
        for s in job.stock
    )
    cutting = replace(job.cutting, kerf=job.cutting.kerf + job.cutting.cutting_error)
    return replace(job, stock=stock, cutting=cutting)


def exact_fit_findings(job: Job, nesting: Nesting, careful: Nesting | None) -> list[Finding]:
    """Tell of the tightest rows; `careful` is the nesting of the job with the margin (None: not tried).

    Where the margin costs no further sheet, one row is told and it is a note: a looser layout exists.
    """
    found: dict[tuple[str, ...], tuple[Row, Layout]] = {}
    for layout in nesting.layouts:
        for row in tight_rows(job, layout):
            if row.parts not in found or row.slack < found[row.parts][0].slack:
                found[row.parts] = (row, layout)
    tightest = sorted(found.values(), key=lambda x: (x[0].slack - x[0].margin, x[0].parts))
    loose = careful is not None and not careful.unplaced and count_sheets(careful) <= count_sheets(nesting)
    severity = Severity.NOTE if loose else Severity.WARNING
    shown = tightest[: 1 if loose else _MOST_FINDINGS]
    return [_tight(job, row, layout, nesting, careful, severity) for row, layout in shown]


def _tight(
    job: Job, row: Row, layout: Layout, nesting: Nesting, careful: Nesting | None, severity: Severity
) -> Finding:
    across = "length" if row.axis == "x" else "width"
    names = ", ".join(row.parts[:4]) + (" …" if len(row.parts) > 4 else "")
    message = (
        f"A row along the {across} of “{layout.stock}” ({names}) leaves {row.slack / 100:g} mm; {row.cuts} cuts that "
        f"may be {job.cutting.cutting_error / 100:g} mm off and a sheet that may be short want {row.margin / 100:g} mm."
    )
    if careful is not None:
        message += " " + _proofs(nesting, careful)
    return Finding(
        "exact-fit",
        severity,
        message,
        parts=row.parts,
        value=row.slack / 100,
        limit=row.margin / 100,
        unit="mm",
        source="practice",
        remedy=_smallest_change(job, row, layout),
    )


def _proofs(nesting: Nesting, careful: Nesting) -> str:
    exact, wary = count_sheets(nesting), count_sheets(careful)
    proved = "proved least" if nesting.proven_minimal else "not proved least"
    if careful.unplaced:
        return f"As sized: {exact} sheets ({proved}); with that margin some parts fit no sheet."
    again = "proved least" if careful.proven_minimal else "not proved least"
    return f"As sized: {exact} sheets ({proved}); with that margin: {wary} sheets ({again})."


def count_sheets(nesting: Nesting) -> int:
    """How many sheets a nesting takes."""
    return sum(layout.count for layout in nesting.layouts if layout.tree is not None)


def _smallest_change(job: Job, row: Row, layout: Layout) -> str:
    """Name the one size whose reduction gives the row its margin with the least change."""
    pieces = {p.id: p for p in job.pieces}
    counts: Counter[tuple[str, str]] = Counter()
    assert layout.tree is not None  # noqa: S101 - rows come from trees
    for placement in layout.placements:
        if placement.part in row.parts:
            along = "length" if (row.axis == "x") is not placement.turned else "width"
            counts[placement.part, along] += 1
    best: tuple[int, str, str] | None = None
    for name, word in sorted(counts):
        times = _most_in_row(layout.tree, name, row)
        if times:
            cut = -(-(row.margin - row.slack) // times)
            if best is None or cut < best[0]:
                best = (cut, name, word)
    if best is None:
        return "Trim less, use a thinner blade, or make one of these parts smaller."
    size = size_of(pieces[best[1]], best[2]) - best[0]
    return (
        f"Make “{best[1]}” {best[0] / 100:g} mm smaller in {best[2]} ({size / 100:g} mm) and it fits with the margin."
    )


def size_of(piece: Piece, word: str) -> int:
    """A piece's length or width."""
    return piece.length if word == "length" else piece.width or 0


def _most_in_row(node: Node, name: str, row: Row) -> int:
    """How many times a part stands side by side in the row of these parts."""
    bearing = [c for c in node.children if parts_of(c)]
    names = tuple(dict.fromkeys(p for c in bearing for p in parts_of(c)))
    if node.axis == row.axis and names == row.parts and len(bearing) > 1:
        return sum(set(parts_of(c)) == {name} for c in bearing)
    return max((_most_in_row(c, name, row) for c in node.children), default=0)
