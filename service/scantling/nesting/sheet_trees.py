"""From the kernel's numbers to cut trees: tidied, put in a standard order, placed on the sheet, named.

Inside this file a tree is in the kernel's measure (one kerf in every size) until it is placed.
"""

from dataclasses import dataclass

from .nouns import Cutting, Node, Stock
from .sheets import Kind, Shape, SheetProblem


@dataclass(frozen=True, slots=True, order=True)
class Leaf:
    """A piece: `kind` and, for a member of a group, `member` = its index among the pieces (else -1)."""

    size: Shape
    kind: int
    member: int
    turned: bool


@dataclass(frozen=True, slots=True)
class Branch:
    """Children side by side along `axis` (0 x, 1 y), then `rest`. `fixed` keeps the children's order."""

    size: Shape
    axis: int
    children: tuple["Branch | Leaf", ...]
    rest: int
    fixed: bool = False


Tree = Branch | Leaf


def read_solution(numbers: list[int], problem: SheetProblem) -> list[tuple[int, Tree]]:
    """Return (stock index, tidied tree) of every sheet of a kernel solution (kernel/store.c)."""
    sheets = []
    at = 0
    while at < len(numbers):
        stock = numbers[at]
        tree, at = _read(numbers, at + 1, problem.sizes[stock], problem.kinds)
        sheets.append((stock, tree))
    return sheets


def _read(numbers: list[int], at: int, size: Shape, kinds: tuple[Kind, ...]) -> tuple[Tree, int]:
    """Read the branch that starts at `at`, whose size is known from its parent."""
    axis, count = -1 - numbers[at], numbers[at + 2]
    at += 3
    children: list[Tree] = []
    for _ in range(count):
        if numbers[at] >= 0:
            children.append(_read_piece(numbers[at], numbers[at + 1], kinds))
            at += 2
        else:
            extent = numbers[at + 1]
            inner = (extent, size[1]) if axis == 0 else (size[0], extent)
            child, at = _read(numbers, at, inner, kinds)
            children.append(child)
    return tidy(size, axis, children), at


def _read_piece(index: int, shape: int, kinds: tuple[Kind, ...]) -> Tree:
    kind = kinds[index]
    block, size = kind.blocks[shape], kind.shapes[shape]
    if len(block.members) == 1:
        return Leaf(size, index, -1, block.turned)
    axis = 0 if block.axis == "x" else 1
    children: list[Tree] = []
    for member, (length, width) in zip(block.members, kind.member_sizes, strict=True):
        own = (width, length) if block.turned else (length, width)
        leaf = Leaf(own, index, member, block.turned)
        spare = size[1 - axis] - own[1 - axis]
        room = (own[0], size[1]) if axis == 0 else (size[0], own[1])
        children.append(Branch(room, 1 - axis, (leaf,), spare) if spare else leaf)
    return Branch(size, axis, tuple(children), 0, fixed=True)


def tidy(size: Shape, axis: int, children: list[Tree]) -> Tree:
    """Make a branch without idle levels, larger children first: the standard form by which layouts are compared."""
    flat: list[Tree] = []
    for child in children:
        if isinstance(child, Branch) and child.axis == axis and not child.fixed:
            flat.extend(child.children)
        else:
            flat.append(child)
    rest = size[axis] - sum(c.size[axis] for c in flat)
    if len(flat) == 1 and rest == 0:
        return flat[0]
    flat.sort(key=sort_key)
    return Branch(size, axis, tuple(flat), rest)


def sort_key(tree: Tree) -> tuple[object, ...]:
    """Larger first; among equals by what is inside, so that the order never depends on the search."""
    if isinstance(tree, Leaf):
        return (-tree.size[0] * tree.size[1], tree.size, 0, tree.kind, tree.member, tree.turned)
    inner = tuple(sort_key(c) for c in tree.children)
    return (-tree.size[0] * tree.size[1], tree.size, 1 + tree.axis, tree.rest, inner)


def leaves(tree: Tree) -> list[Leaf]:
    """Every piece of a tree, in order."""
    if isinstance(tree, Leaf):
        return [tree]
    return [leaf for child in tree.children for leaf in leaves(child)]


@dataclass(slots=True)
class Placer:
    """Puts a tidied tree on a sheet in 0.01 mm and names its pieces; `names` are taken in the order of the leaves."""

    cutting: Cutting
    least_offcut: tuple[int, int]
    names: list[str]

    def place_sheet(self, stock: Stock, tree: Tree) -> Node:
        """Return the whole sheet as cut: trim off first, then the tree."""
        trim = self.cutting.trim
        return self.trimmed_sheet(stock, self._node(tree, trim.start, trim.near))

    def trimmed_sheet(self, stock: Stock, inner: Node) -> Node:
        """Return the whole sheet, its trim cut off, with what is inside the trim already cut up."""
        trim, width = self.cutting.trim, stock.width or 0
        inner = self._trimmed(inner, trim.near, trim.far, width, "y")
        return self._trimmed(inner, trim.start, trim.end, stock.length, "x")

    def _trimmed(self, inner: Node, before: int, after: int, whole: int, axis: str) -> Node:
        """Wrap a node in the cuts that take the trim off along one axis; trim narrower than the kerf is sawdust."""
        if not before and not after:
            return inner
        kerf = self.cutting.kerf
        parts = []
        for start, extent in ((0, before - kerf), (whole - after + kerf, after - kerf)):
            if extent <= 0:
                continue
            if axis == "x":
                parts.append(Node(start, inner.y, extent, inner.along_y))
            else:
                parts.append(Node(inner.x, start, inner.along_x, extent))
        parts.append(inner)
        parts.sort(key=lambda n: n.x if axis == "x" else n.y)
        if axis == "x":
            return Node(0, inner.y, whole, inner.along_y, "x", tuple(parts))
        return Node(inner.x, 0, inner.along_x, whole, "y", tuple(parts))

    def _node(self, tree: Tree, x: int, y: int) -> Node:
        kerf = self.cutting.kerf
        along_x, along_y = tree.size[0] - kerf, tree.size[1] - kerf
        if isinstance(tree, Leaf):
            return Node(x, y, along_x, along_y, part=self.names.pop(0), turned=tree.turned)
        children = []
        at = [x, y]
        for child in tree.children:
            children.append(self._node(child, at[0], at[1]))
            at[tree.axis] += child.size[tree.axis]
        spare = tree.rest - kerf
        if spare > 0:
            size = (spare, along_y) if tree.axis == 0 else (along_x, spare)
            children.append(Node(at[0], at[1], size[0], size[1], kept=worth_keeping(size, self.least_offcut)))
        return Node(x, y, along_x, along_y, "xy"[tree.axis], tuple(children))


def worth_keeping(size: Shape, least: tuple[int, int]) -> bool:
    """Tell whether a remainder is as large as is worth keeping, either way round."""
    return min(size) >= min(least) and max(size) >= max(least)
