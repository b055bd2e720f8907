"""Layouts with their pieces in another order, at the same cost, so that fewer sizes have to be set on the saw.

The last piece of a row that is used up needs no setting of its own: it is what the cut before it leaves. So the size
that is set nowhere else comes last.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from .nouns import Job, Layout, Nesting, Node, Offcut, Placement

_Sizes = Counter[tuple[str, int]]  # (axis, size) → how many cuts would be set to it


def arranged(job: Job, nesting: Nesting) -> Nesting:
    """Return the nesting with rows put in an order that asks for fewer sizes; pinned layouts and groups stay."""
    grouped = frozenset(p.id for p in job.pieces if p.group is not None)
    fixed = [i for i, layout in enumerate(nesting.layouts) if layout.tree is None or layout in job.pinned]
    sizes: _Sizes = Counter()
    for layout in nesting.layouts:
        if layout.tree is not None:
            _count(layout.tree, sizes)
    layouts = [
        layout if i in fixed or layout.tree is None else _relaid(layout, _ordered(layout.tree, sizes, grouped))
        for i, layout in enumerate(nesting.layouts)
    ]
    return replace(nesting, layouts=tuple(layouts))


def _size(node: Node, axis: str) -> int:
    return node.along_x if axis == "x" else node.along_y


def _is_waste(node: Node) -> bool:
    return not node.children and node.part is None and not node.kept


def _used_up(node: Node) -> bool:
    """Tell whether every child of a branch is wanted, so that the last is left over by the cut before it."""
    return len(node.children) > 1 and not any(_is_waste(c) or c.kept for c in node.children)


def _count(node: Node, sizes: _Sizes) -> None:
    if node.axis is not None:
        wanted = [c for c in node.children if not _is_waste(c) and not c.kept]
        for child in wanted[:-1] if _used_up(node) else wanted:
            sizes[node.axis, _size(child, node.axis)] += 1
    for child in node.children:
        _count(child, sizes)


def _ordered(node: Node, sizes: _Sizes, grouped: frozenset[str]) -> Node:
    """Return a node whose used-up rows end with the size that is set least often; `sizes` is kept up."""
    children = tuple(_ordered(c, sizes, grouped) for c in node.children)
    axis = node.axis
    if axis is None or not _used_up(node) or any(p in grouped for c in children for p in _parts(c)):
        return replace(node, children=children)
    sizes.subtract((axis, _size(c, axis)) for c in children[:-1])
    twins = Counter(_size(c, axis) for c in children)

    def set_elsewhere(i: int) -> int:
        size = _size(children[i], axis)
        return sizes[axis, size] + twins[size] - 1

    last = min(range(len(children)), key=lambda i: (set_elsewhere(i), -i))
    order = [*children[:last], *children[last + 1 :], children[last]]
    sizes.update((axis, _size(c, axis)) for c in order[:-1])
    return _in_a_row(node, axis, order, children)


def _in_a_row(node: Node, axis: str, order: list[Node], before: tuple[Node, ...]) -> Node:
    """Return a branch whose children lie in a new order, as far apart as they did."""
    gaps = [_begin(b, axis) - _begin(a, axis) - _size(a, axis) for a, b in pairwise(before)]
    at = _begin(before[0], axis)
    moved = []
    for index, child in enumerate(order):
        moved.append(_moved(child, axis, at - _begin(child, axis)))
        at += _size(child, axis) + (gaps[index] if index < len(gaps) else 0)
    return replace(node, children=tuple(moved))


def _begin(node: Node, axis: str) -> int:
    return node.x if axis == "x" else node.y


def _moved(node: Node, axis: str, by: int) -> Node:
    children = tuple(_moved(c, axis, by) for c in node.children)
    if axis == "x":
        return replace(node, x=node.x + by, children=children)
    return replace(node, y=node.y + by, children=children)


def _parts(node: Node) -> Iterator[str]:
    if node.part is not None:
        yield node.part
    for child in node.children:
        yield from _parts(child)


def _ends(node: Node) -> Iterator[Node]:
    if not node.children:
        yield node
    for child in node.children:
        yield from _ends(child)


def _relaid(layout: Layout, tree: Node) -> Layout:
    """Return the layout as the tree has it."""
    own = {(p.part, p.turned): p for p in layout.placements}
    placements: list[Placement] = []
    offcuts: list[Offcut] = []
    for node in _ends(tree):
        if node.part is not None:
            placements.append(replace(own[node.part, node.turned], x=node.x, y=node.y))
        elif node.kept:
            offcuts.append(Offcut(node.x, node.y, node.along_x, node.along_y))
    return replace(layout, placements=tuple(placements), offcuts=tuple(offcuts), tree=tree)
