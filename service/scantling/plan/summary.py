"""The first screen, at most seven lines: buildable or not, what to buy, cost, what to fix first, what was assumed."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from scantling.costing import Kind
from scantling.costing import summary as costing_summary
from scantling.findings import Finding, Severity
from scantling.measure import Tape
from scantling.nesting.plans import choice_in_words

from .building import Built
from .check_row import CheckRow, nearest_its_limit
from .placed import place_line

if TYPE_CHECKING:
    from .projects import Project

MOST_LINES = 7


def piece_summary(built: Built, findings: Sequence[Finding], tape: Tape, rows: Sequence[CheckRow] = ()) -> list[str]:
    """Return the summary of one piece."""
    low, high = built.assembly.bounds()
    size = " × ".join(tape.show(b - a) for a, b in zip(low, high, strict=True))
    mass = built.assembly.mass_and_centre()[0]
    assembly = built.assembly
    return [
        f"{built.module.title}: {size} (wide × deep × high), {mass:.1f} kg without cushions.",
        verdict(findings),
        f"{len(assembly.parts)} parts, {len(assembly.fasteners)} screws, {len(assembly.joints)} joints.",
        *nearest_its_limit(rows),
        *first_to_fix(findings, 2),
        *assumptions(findings),
    ][:MOST_LINES]


def verdict(findings: Sequence[Finding]) -> str:
    """Return whether it can be built as it stands, in one sentence."""
    errors = sum(f.severity is Severity.ERROR for f in findings)
    warnings = sum(f.severity is Severity.WARNING for f in findings)
    if errors:
        return f"Not to be built yet: {_count(errors, 'error')} to mend, {_count(warnings, 'warning')} to weigh."
    if warnings:
        return f"Can be built; {_count(warnings, 'warning')} to weigh first."
    return "Can be built: nothing found that stands against it."


def first_to_fix(findings: Sequence[Finding], most: int) -> list[str]:
    """Return the worst findings as lines, each code once."""
    lines, seen = [], set()
    for finding in findings:
        if finding.severity is Severity.NOTE or finding.code in seen or finding.code in ASSUMED:
            continue
        seen.add(finding.code)
        word = "Fix first" if finding.severity is Severity.ERROR else "Weigh"
        lines.append(f"{word}: {finding.message}")
    return lines[:most]


ASSUMED = ("thickness-assumed", "cushion-not-measured", "stock-assumed", "saw-assumed")


def assumptions(findings: Sequence[Finding]) -> list[str]:
    """Return one line about what was assumed, or none."""
    counted = [f.code.replace("-", " ") for f in findings if f.code in ASSUMED]
    if not counted:
        return []
    each = ", ".join(f"{word} ({counted.count(word)})" for word in dict.fromkeys(counted))
    return [f"Assumed, not measured: {each}."]


def _count(n: int, word: str) -> str:
    return f"{n} {word}" if n == 1 else f"{n} {word}s"


def project_summary(project: "Project") -> list[str]:
    """Return the summary of a whole plan."""
    pieces = ", ".join(f"{p.quantity} × {p.id}" if p.quantity > 1 else p.id for p in project.pieces)
    parts = sum(w.quantity for w in project.rows)
    mass = sum(p.assembly.mass_and_centre()[0] * p.quantity for p in project.pieces)
    return [
        f"{project.name}: {pieces}; {parts} parts, {mass:.0f} kg of wood.",
        verdict(project.findings),
        f"Buy {stock_line(project)}.",
        cost_line(project),
        *place_line(project.placed, project.tape),
        *first_to_fix(project.findings, 2),
        *assumptions(project.findings),
        *nearest_its_limit(_named_rows(project)),
    ][:MOST_LINES]


def _named_rows(project: "Project") -> list[CheckRow]:
    """Return the checks of all pieces with the piece named before what was checked."""
    pairs = zip(project.pieces, project.checked, strict=True)
    return [replace(row, subject=f"{piece.id}: {row.subject}") for piece, checked in pairs for row in checked.rows]


def cost_line(project: "Project") -> str:
    """Return what it costs, or that nothing was priced."""
    if not any(line.price for line in project.costing.lines):
        return "No price is given for anything, so there is no cost."
    return costing_summary(project.costing)[0]


def stock_line(project: "Project") -> str:
    """Return what stock to buy in words, and whether fewer would do."""
    bought = [line for line in project.take_off.lines if line.kind in (Kind.SHEET, Kind.BOARD)]
    words = ", ".join(
        f"{int(line.quantity - line.on_hand)} × {line.id}" for line in bought if line.quantity > line.on_hand
    )
    proof = "proven least" if project.nesting.proven_minimal else "not proven least"
    missing = sum(u.quantity for u in project.nesting.unplaced)
    short = f"; {missing} parts fit on none of it" if missing else ""
    plans = choice_in_words(project.nesting.plans)
    return f"{words or 'nothing'} ({proof}{short}{plans and '; '}{plans})"
