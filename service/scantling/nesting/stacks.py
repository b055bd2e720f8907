"""Sheets of one layout cut on top of each other, where the caller asks for it and the saws reach through."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from scantling.findings import Finding, Severity

from .cutting_findings import beyond_saws
from .nouns import Job, Layout
from .saws import Saws
from .sequence import Cut, cut_sequence

Densities = Mapping[str, float] | None


def in_stacks(layout: Layout, job: Job, saws: Saws | None, densities: Densities = None) -> tuple[tuple[Cut, ...], int]:
    """Return the cuts of a layout and how many sheets lie on each other; 1 unless the job asks for stacks.

    The stack is as high as the job allows, less where a saw would not cut through it, where more would be left to the
    hand saw, or where it would be too heavy for the saw a single sheet goes over.
    """
    alone = cut_sequence(layout, job, saws, densities)
    for sheets in range(_most(layout, job), 1, -1):
        cuts = cut_sequence(layout, _thicker(job, layout.stock, sheets), saws, densities)
        if _burden(cuts) <= _burden(alone):
            return cuts, sheets
    return alone, 1


def runs_of(layout: Layout, stack: int) -> int:
    """Return how often the cuts of a layout are made."""
    return -(-layout.count // stack)


def stack_findings(layouts: Sequence[Layout], stacks: Sequence[int], job: Job) -> tuple[Finding, ...]:
    """Return the caution that goes with stacks."""
    findings = []
    for number, (layout, stack) in enumerate(zip(layouts, stacks, strict=True), start=1):
        if stack < 2:
            continue
        thickness = next(s.thickness for s in job.stock if s.id == layout.stock)
        findings.append(
            Finding(
                "stack-cutting",
                Severity.NOTE,
                f"Layout {number} is cut in stacks of {stack}: an error of the first cut is in all {stack} sheets.",
                value=None if thickness is None else stack * thickness / 100,
                unit=None if thickness is None else "mm",
                source="practice",
                remedy="Tape or clamp the stack so that no sheet can shift, keep screws out of the cuts, cut one sheet "
                "first if a size matters, and let waste lie below: the last face tears.",
            )
        )
    return tuple(findings)


def _most(layout: Layout, job: Job) -> int:
    stock = next(s for s in job.stock if s.id == layout.stock)
    if job.stacking is None or stock.width is None:
        return 1
    most = layout.count if job.stacking.sheets is None else min(layout.count, job.stacking.sheets)
    if job.stacking.thickness is not None:
        most = min(most, job.stacking.thickness // stock.thickness) if stock.thickness else 1
    return most


def _thicker(job: Job, stock: str, sheets: int) -> Job:
    return replace(
        job,
        stock=tuple(
            replace(s, thickness=None if s.thickness is None else s.thickness * sheets) if s.id == stock else s
            for s in job.stock
        ),
    )


def _burden(cuts: Sequence[Cut]) -> tuple[int, int, int, int]:
    """Return what a stack must not make worse: cuts beyond the saws, by hand, past a limit, too heavy."""
    return (
        len(beyond_saws(cuts)),
        sum(c.by_hand for c in cuts),
        sum(len(c.obstacles) for c in cuts),
        sum(c.too_heavy for c in cuts),
    )
