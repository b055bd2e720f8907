"""Jobs that miss a sheet by a hair: which sizes, cut slightly smaller, would save one.

A drawing without kerf shows the layout that only just fails; the rows that overflow once the blade has a width say
which sizes must give way, and the smaller sizes are nested again before anything is claimed.
"""

from collections import Counter
from collections.abc import Callable
from dataclasses import replace

from scantling.findings import Finding, Severity

from .exact_fit import count_sheets, extent_of, inside_trim, parts_of, size_of
from .nouns import Job, Nesting, Node

Shrink = dict[tuple[str, str], int]  # (part, length or width) → by how much smaller, in 0.01 mm


def without_kerf(job: Job) -> Job:
    """The same job cut by a blade without width: what a careless drawing would show."""
    return replace(job, cutting=replace(job.cutting, kerf=0))


def smaller_parts(job: Job, drawn: Nesting) -> Shrink:
    """By how much which sizes must shrink for layouts drawn without kerf to be cut: (part, length or width) → units."""
    shrink: Shrink = {}
    for layout in drawn.layouts:
        if layout.tree is not None:
            _shrink_rows(inside_trim(layout.tree), job.cutting.kerf, shrink)
    return shrink


def _shrink_rows(node: Node, kerf: int, shrink: Shrink) -> None:
    bearing = [c for c in node.children if parts_of(c)]
    if not bearing or node.axis is None:
        return
    axis = node.axis
    over = sum(extent_of(c, axis) for c in bearing) + (len(bearing) - 1) * kerf - extent_of(node, axis)
    if over > 0:
        sizes = Counter(extent_of(c, axis) for c in bearing)
        extent, times = max(sizes.items(), key=lambda x: (x[1], x[0]))
        less = -(-over // times)
        for child in bearing:
            if extent_of(child, axis) == extent:
                _shrink_to(child, axis, extent - less, shrink)
    for child in bearing:
        _shrink_rows(child, kerf, shrink)


def _shrink_to(node: Node, axis: str, most: int, shrink: Shrink) -> None:
    """Have every part below a node fit into `most` along the axis."""
    if node.part is not None:
        over = extent_of(node, axis) - most
        word = "length" if (axis == "x") is not node.turned else "width"
        if over > 0:
            shrink[node.part, word] = max(over, shrink.get((node.part, word), 0))
    for child in node.children:
        if node.axis != axis:
            _shrink_to(child, axis, most, shrink)


def shrunk(job: Job, shrink: Shrink) -> Job:
    """The job with those sizes reduced."""
    pieces = []
    for piece in job.pieces:
        length = piece.length - shrink.get((piece.id, "length"), 0)
        width = None if piece.width is None else piece.width - shrink.get((piece.id, "width"), 0)
        pieces.append(replace(piece, length=length, width=width))
    return replace(job, pieces=tuple(pieces))


def least_shrink(job: Job, shrink: Shrink, saves: Callable[[Shrink], bool]) -> Shrink:
    """Take back as much of each change as still saves a sheet; sizes that are equal change together."""
    pieces = {p.id: p for p in job.pieces}
    sizes = sorted({(word, size_of(pieces[name], word)) for name, word in shrink})
    least = dict(shrink)
    for word, size in sizes:
        same = [key for key in least if key[1] == word and size_of(pieces[key[0]], word) == size]
        low, high = 0, max(least[key] for key in same)
        while high - low > 1:
            middle = (low + high) // 2
            if saves({**least, **dict.fromkeys(same, middle)}):
                high = middle
            else:
                low = middle
        least.update(dict.fromkeys(same, high))
    return least


def nearly_fits_finding(job: Job, nesting: Nesting, smaller: Nesting, shrink: Shrink) -> Finding:
    """Say which slightly smaller sizes would save a sheet."""
    pieces = {p.id: p for p in job.pieces}
    by_size: dict[tuple[str, int, int], list[str]] = {}
    for (name, word), less in sorted(shrink.items()):
        size = size_of(pieces[name], word)
        by_size.setdefault((word, size, size - less), []).append(name)
    changes = [
        f"{', '.join(names)} {new / 100:g} mm or less in {word} instead of {old / 100:g}"
        for (word, old, new), names in sorted(by_size.items())
    ]
    fewer = count_sheets(nesting) - count_sheets(smaller)
    what = f"{count_sheets(smaller)} instead of {count_sheets(nesting)} sheets" if fewer > 0 else "a lower cost"
    message = f"It would take {what} if these were cut smaller: {'; '.join(changes)}."
    parts = tuple(sorted({name for name, _ in shrink}))
    least = min(shrink.values()) / 100
    return Finding("nearly-fits", Severity.NOTE, message, parts=parts, value=least, unit="mm", remedy=None)
