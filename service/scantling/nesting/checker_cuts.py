"""Whether rectangles can be sawn apart: the part of the independent checker that looks at one sheet's geometry.

Nothing here is shared with the search. A rectangle is (x, y, along_x, along_y, name) in 0.01 mm.
"""

from bisect import insort

from .nouns import Cutting, Node

Rectangle = tuple[int, int, int, int, str]
_X, _Y = 0, 1


def find_crowded(rectangles: list[Rectangle], kerf: int) -> str | None:
    """Return words for one pair of rectangles that overlap or lie closer than the kerf, or None.

    A sweep along x: a rectangle is compared only with those whose x range, widened by the kerf, reaches it.
    """
    active: list[tuple[int, int]] = []  # (end along x, index), sorted by end
    order = sorted(range(len(rectangles)), key=lambda i: rectangles[i])
    for i in order:
        x, y, _, along_y, name = rectangles[i]
        while active and active[0][0] + kerf <= x:
            active.pop(0)
        for end, j in active:
            other = rectangles[j]
            if other[1] < y + along_y + kerf and y < other[1] + other[3] + kerf:
                touching = end > x and other[1] < y + along_y and y < other[1] + other[3]
                how = "overlap" if touching else f"lie closer than the kerf of {_mm(kerf)}"
                return f"{other[4]} at {_at(other)} and {name} at {_at(rectangles[i])} {how}"
        insort(active, (x + rectangles[i][2], i))
    return None


def find_locked(rectangles: list[Rectangle], kerf: int) -> str | None:
    """Return words for a group that no through-cut can take apart, or None when all come free.

    Taking any cut that is free never locks another (what can be cut stays cuttable with fewer pieces), so every
    free cut is taken at once, along y and along x in turn.
    """
    heaps = [rectangles]
    while heaps:
        heap = heaps.pop()
        if len(heap) < 2:
            continue
        for axis in (_X, _Y):
            slices = _slices(heap, axis, kerf)
            if len(slices) > 1:
                heaps.extend(slices)
                break
        else:
            names = ", ".join(f"{r[4]} at {_at(r)}" for r in heap[:4])
            return f"no through-cut takes these {len(heap)} pieces apart: {names}"
    return None


def _slices(heap: list[Rectangle], axis: int, kerf: int) -> list[list[Rectangle]]:
    """Split rectangles wherever a blade of the kerf passes across `axis` without touching any."""

    def begin(r: Rectangle) -> int:
        return r[0] if axis == _X else r[1]

    def end(r: Rectangle) -> int:
        return r[0] + r[2] if axis == _X else r[1] + r[3]

    ordered = sorted(heap, key=begin)
    slices = [[ordered[0]]]
    reach = end(ordered[0])
    for r in ordered[1:]:
        if begin(r) >= reach + kerf:
            slices.append([r])
        else:
            slices[-1].append(r)
        reach = max(reach, end(r))
    return slices


def walk_tree(root: Node, kerf: int) -> tuple[list[Node], list[str]]:
    """Follow the stated cuts from the whole sheet down; return the leaves and every cut that cannot be made."""
    leaves: list[Node] = []
    faults: list[str] = []
    nodes = [root]
    while nodes:
        node = nodes.pop()
        if node.along_x < 0 or node.along_y < 0:
            faults.append(f"the cuts leave a piece of negative size at {_corner(node)}")
        if not node.children:
            if node.axis is not None:
                faults.append(f"the cut at {_corner(node)} leaves no pieces")
            leaves.append(node)
            continue
        if node.part is not None or node.kept:
            faults.append(f"{node.part or 'an offcut'} at {_corner(node)} is cut up further")
        if node.axis not in ("x", "y"):
            faults.append(f"the cut at {_corner(node)} has no direction")
            continue
        faults.extend(_faults_of_cut(node, kerf))
        nodes.extend(reversed(node.children))
    return leaves, faults


def _faults_of_cut(node: Node, kerf: int) -> list[str]:
    """Check one set of parallel cuts: each edge to edge, one kerf between neighbours, nothing outside the piece."""
    faults = []
    along_x = node.axis == "x"
    start, size = (node.x, node.along_x) if along_x else (node.y, node.along_y)
    reach = start
    for index, child in enumerate(node.children):
        across = (child.y, child.along_y) if along_x else (child.x, child.along_x)
        if across != ((node.y, node.along_y) if along_x else (node.x, node.along_x)):
            faults.append(f"the cut beside {_corner(child)} does not run from edge to edge")
        begin = child.x if along_x else child.y
        gap = begin - reach
        if index == 0 and not 0 <= gap <= kerf:
            faults.append(f"the first piece at {_corner(child)} leaves {_mm(gap)} unaccounted for before it")
        if index > 0 and gap != kerf:
            faults.append(
                f"the pieces on either side of {_corner(child)} lie {_mm(gap)} apart, the kerf is {_mm(kerf)}"
            )
        reach = begin + (child.along_x if along_x else child.along_y)
    if not 0 <= start + size - reach <= kerf:
        faults.append(f"the cuts of the piece at {_corner(node)} do not add up to its size")
    return faults


def find_wrong_stages(root: Node, cutting: Cutting) -> list[str]:
    """Check the limit on turns of direction and the direction of the first cut. Trimming is not counted."""
    faults = []
    bearing = _nodes_with_parts(root)
    stages = _stages(root, bearing)
    if cutting.stages is not None and stages > cutting.stages:
        faults.append(f"the cuts need {stages} stages, only {cutting.stages} allowed")
    if cutting.first_cut in ("along", "across"):
        wanted = "y" if cutting.first_cut == "along" else "x"
        axis = _first_axis(root, cutting, bearing)
        if axis not in (None, wanted):
            faults.append(f"the first cut should run {cutting.first_cut} the sheet")
    return faults


def _nodes_with_parts(root: Node) -> set[int]:
    """Return the identities of the nodes that hold any part."""
    order = [root]
    for node in order:  # grows while it is walked: parents before children
        order.extend(node.children)
    bearing: set[int] = set()
    for node in reversed(order):
        if node.part is not None or any(id(c) in bearing for c in node.children):
            bearing.add(id(node))
    return bearing


def _stages(root: Node, bearing: set[int]) -> int:
    """Return how many stages of parallel cuts part the pieces from each other; trimming a piece is none."""
    deepest = 0
    stack: list[tuple[Node, str | None, int]] = [(root, None, 0)]
    while stack:
        here, axis, depth = stack.pop()
        children = [c for c in here.children if id(c) in bearing]
        if len(children) > 1 and here.axis != axis:
            axis, depth = here.axis, depth + 1
        deepest = max(deepest, depth)
        stack.extend((c, axis, depth) for c in children)
    return deepest


def _first_axis(root: Node, cutting: Cutting, bearing: set[int]) -> str | None:
    """Return the axis of the first cut that does more than trim the sheet, or None when there is none."""
    trim = cutting.trim
    left, right = root.x + trim.start, root.x + root.along_x - trim.end
    low, high = root.y + trim.near, root.y + root.along_y - trim.far
    node = root
    while True:
        children = [c for c in node.children if id(c) in bearing]
        if not children:
            return None
        if len(children) > 1 or any(c.kept for c in node.children):
            return node.axis
        child = children[0]
        if node.axis == "x" and (child.x > left or child.x + child.along_x < right):
            return "x"
        if node.axis == "y" and (child.y > low or child.y + child.along_y < high):
            return "y"
        node = child


def _mm(units: int) -> str:
    return f"{units / 100:.2f} mm"


def _at(rectangle: Rectangle) -> str:
    return f"({_mm(rectangle[0])}, {_mm(rectangle[1])})"


def _corner(node: Node) -> str:
    return f"({_mm(node.x)}, {_mm(node.y)})"
