"""The tree of cuts put in the order of the shop: one long edge trued, all rips from it, each strip squared when cut.

A layout's tree trims the whole sheet first. Crosscutting a whole sheet to take 10 mm off its end is a hard cut that
nobody makes, so the trim is left on until the strip or column is cut, and falls off there.
"""

from dataclasses import replace

from .nouns import Cutting, Layout, Node, Stock

Box = tuple[int, int, int, int]  # x, y, along_x, along_y


def shop_tree(layout: Layout, stock: Stock, cutting: Cutting, true_first: bool = True) -> Node:
    """Return the cuts of a layout, sheet or board, as a tree from the whole stock in the order they are made.

    Every part keeps its place; waste and offcuts may take in trim that need not be cut off them. Where the first cuts
    run across, the long edge is trued before them, or without `true_first` on each column after them: for saws that
    cannot cut the whole length.
    """
    if layout.tree is None:
        return _board_tree(layout, stock, cutting.kerf)
    core = _inside_trim(layout.tree, cutting)
    whole: Box = (0, 0, stock.length, stock.width or 0)
    if core.axis == "y" or not true_first:
        return _extend(core, whole, cutting.kerf)
    body = _extend(core, (0, core.y, stock.length, whole[3] - core.y), cutting.kerf)
    if core.y == 0:
        return body
    return _branch(whole, "y", [body], cutting.kerf)


def _board_tree(layout: Layout, stock: Stock, kerf: int) -> Node:
    pieces = [Node(p.x, 0, p.length, 0, part=p.part) for p in layout.placements]
    offcuts = [Node(o.x, 0, o.along_x, 0, kept=True) for o in layout.offcuts]
    children: list[Node] = []
    for piece in sorted(pieces + offcuts, key=lambda n: n.x):
        if children:
            begin = children[-1].x + children[-1].along_x + kerf
            if piece.x - begin > kerf:
                children.append(Node(begin, 0, piece.x - begin - kerf, 0))
        children.append(piece)
    return _branch((0, 0, stock.length, 0), "x", children, kerf)


def is_waste(node: Node) -> bool:
    """Tell whether nothing of a node is kept."""
    return not node.children and node.part is None and not node.kept


def _inside_trim(root: Node, cutting: Cutting) -> Node:
    """Return the node that is left when the edges of the sheet are trimmed off."""
    trim = cutting.trim
    edges = {"x": max(trim.start, trim.end), "y": max(trim.near, trim.far)}
    node = root
    while node.axis is not None:
        kept = [c for c in node.children if not is_waste(c)]
        waste = [c.along_x if node.axis == "x" else c.along_y for c in node.children if is_waste(c)]
        if len(kept) != 1 or kept[0].part is not None or kept[0].kept or any(w > edges[node.axis] for w in waste):
            break
        node = kept[0]
    return node


def begin_of(node: Node, axis: str) -> int:
    """Return where a node starts along an axis."""
    return node.x if axis == "x" else node.y


def size_of(node: Node, axis: str) -> int:
    """Return how far a node goes along an axis."""
    return node.along_x if axis == "x" else node.along_y


def end_of(node: Node, axis: str) -> int:
    """Return where a node ends along an axis."""
    return begin_of(node, axis) + size_of(node, axis)


def _resized(node: Node, axis: str, begin: int, end: int) -> Node:
    if axis == "x":
        return replace(node, x=begin, along_x=end - begin)
    return replace(node, y=begin, along_y=end - begin)


def _extend(node: Node, box: Box, kerf: int) -> Node:
    """Return a node that fills a larger box: the added margin becomes waste that is cut off as late as possible."""
    if (node.x, node.y, node.along_x, node.along_y) == box:
        if node.axis is None:
            return node
        inner = [_extend(c, (c.x, c.y, c.along_x, c.along_y), kerf) for c in node.children]
        return _branch(box, node.axis, inner, kerf)
    x, y, along_x, along_y = box
    if node.axis is None and node.part is None:
        return replace(node, x=x, y=y, along_x=along_x, along_y=along_y)
    if node.axis == "x":
        children = [_extend(c, (c.x, y, c.along_x, along_y), kerf) for c in node.children]
        return _branch(box, "x", children, kerf)
    if node.axis == "y":
        children = [_extend(c, (x, c.y, along_x, c.along_y), kerf) for c in node.children]
        return _branch(box, "y", children, kerf)
    tall = _branch((node.x, y, node.along_x, along_y), "y", [node], kerf)
    return _branch(box, "x", [tall], kerf)


def _branch(box: Box, axis: str, children: list[Node], kerf: int) -> Node:
    """Return a branch over a box: like levels joined, margins filled with waste, neighbouring waste in one piece."""
    flat: list[Node] = []
    for child in children:
        flat.extend(child.children if child.axis == axis else [child])
    begin, end = (box[0], box[0] + box[2]) if axis == "x" else (box[1], box[1] + box[3])
    if begin_of(flat[0], axis) > begin + kerf:
        flat.insert(0, _resized(_blank(flat[0]), axis, begin, begin_of(flat[0], axis) - kerf))
    if end_of(flat[-1], axis) < end - kerf:
        flat.append(_resized(_blank(flat[-1]), axis, end_of(flat[-1], axis) + kerf, end))
    merged = [flat[0]]
    for child in flat[1:]:
        last = merged[-1]
        if is_waste(child) and (is_waste(last) or (last.kept and end_of(child, axis) == end)):
            merged[-1] = _resized(last, axis, begin_of(last, axis), end_of(child, axis))
        else:
            merged.append(child)
    for at, edge in ((0, begin), (-1, end)):
        if merged[at].axis is None and merged[at].part is None:
            sides = (edge, end_of(merged[at], axis)) if at == 0 else (begin_of(merged[at], axis), edge)
            merged[at] = _resized(merged[at], axis, *sides)
    only = merged[0]
    if len(merged) == 1 and (only.x, only.y, only.along_x, only.along_y) == box:
        return only
    return Node(*box, axis=axis, children=tuple(merged))


def _blank(node: Node) -> Node:
    """Return a piece of waste with a node's place and size."""
    return Node(node.x, node.y, node.along_x, node.along_y)
