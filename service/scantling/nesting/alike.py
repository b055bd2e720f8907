"""Sheets that hold the same parts, cut alike: one layout made several times instead of several layouts."""

from collections import Counter
from dataclasses import replace

from .nouns import Job, Layout, Nesting, Node


def cut_alike(job: Job, nesting: Nesting) -> Nesting:
    """Return the nesting with sheets of one stock and the same parts all cut by the simplest of their layouts.

    Pinned layouts stay as they are, and others may be cut like them. The cost does not change.
    """
    classes: dict[tuple[str, tuple[tuple[str, int], ...]], list[Layout]] = {}
    for layout in nesting.layouts:
        if layout.tree is not None:
            classes.setdefault(_holds(layout), []).append(layout)
    chosen = {key: _simplest(layouts, job) for key, layouts in classes.items()}
    counts: Counter[int] = Counter()
    merged: list[Layout] = []
    for layout in nesting.layouts:
        kept = layout if layout.tree is None or layout in job.pinned else chosen[_holds(layout)]
        place = next((i for i, other in enumerate(merged) if other is kept), None)
        if place is None:
            place = len(merged)
            merged.append(kept)
        counts[place] += layout.count
    layouts = tuple(x if counts[i] == x.count else replace(x, count=counts[i]) for i, x in enumerate(merged))
    return nesting if layouts == nesting.layouts else replace(nesting, layouts=layouts)


def _holds(layout: Layout) -> tuple[str, tuple[tuple[str, int], ...]]:
    return layout.stock, tuple(sorted(Counter(p.part for p in layout.placements).items()))


def _simplest(layouts: list[Layout], job: Job) -> Layout:
    """Return the layout with the fewest cuts, then the largest offcut; a pinned one before all."""

    def rank(layout: Layout) -> tuple[bool, int, int]:
        largest = max((o.along_x * o.along_y for o in layout.offcuts), default=0)
        return layout not in job.pinned, _cuts(layout.tree), -largest

    return min(layouts, key=rank)


def _cuts(node: Node | None) -> int:
    if node is None or not node.children:
        return 0
    return len(node.children) - 1 + sum(_cuts(c) for c in node.children)
