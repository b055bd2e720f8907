"""From searched trees to layouts: alike sheets merged with a count, pieces named, offcuts listed."""

from collections import Counter
from dataclasses import dataclass

from .nouns import Job, Layout, Node, Offcut, Piece, Placement
from .sheet_trees import Leaf, Placer, Tree, leaves, sort_key
from .sheets import SheetProblem, cut_size


@dataclass(slots=True)
class Names:
    """Which parts still want a piece: for each kind, [piece index, how many] in order."""

    wanted: list[list[list[int]]]

    @classmethod
    def of(cls, problem: SheetProblem) -> "Names":
        """Everything the problem asks for."""
        return cls([[list(owner) for owner in k.owners] for k in problem.kinds])

    def most_copies(self, slots: Counter[int], copies: int) -> int:
        """The most copies of a sheet in which every place can be taken by one and the same part."""
        low, high = 1, copies
        while low < high:
            middle = (low + high + 1) // 2
            if all(sum(n // middle for _, n in self.wanted[k]) >= count for k, count in slots.items()):
                low = middle
            else:
                high = middle - 1
        return low

    def take(self, kind: int, copies: int) -> int:
        """Take `copies` of the first part of a kind that has so many; returns the piece's index."""
        for owner in self.wanted[kind]:
            if owner[1] >= copies:
                owner[1] -= copies
                return owner[0]
        raise AssertionError("a layout holds more of a part than was asked for")

    def left(self) -> Counter[int]:
        """How many of each piece index were not taken."""
        return Counter({i: n for kind in self.wanted for i, n in kind if n})


def build_layouts(
    problem: SheetProblem, solution: list[tuple[int, Tree]], job: Job, pieces: tuple[Piece, ...]
) -> tuple[list[Layout], Counter[int]]:
    """Return the layouts of a solution and how many of each piece index it leaves out."""
    names = Names.of(problem)
    patterns = Counter(solution)
    order = sorted(patterns, key=lambda p: (-patterns[p], p[0], sort_key(p[1])))
    layouts = []
    for stock, tree in order:
        remaining = patterns[stock, tree]
        found = leaves(tree)
        slots = Counter(leaf.kind for leaf in found if leaf.member < 0)
        while remaining:
            copies = names.most_copies(slots, remaining)
            indices = [_take(names, leaf, copies) for leaf in found]
            _take_groups(names, found)
            layouts.append(_layout(problem, stock, tree, copies, [pieces[i] for i in indices], job))
            remaining -= copies
    layouts.sort(key=lambda x: (-x.count, x.stock))
    return layouts, names.left()


def _take(names: Names, leaf: Leaf, copies: int) -> int:
    return leaf.member if leaf.member >= 0 else names.take(leaf.kind, copies)


def _take_groups(names: Names, found: list[Leaf]) -> None:
    """A group that lies on a sheet is there with all its members."""
    for kind in {leaf.kind for leaf in found if leaf.member >= 0}:
        for owner in names.wanted[kind]:
            owner[1] = 0


def _layout(problem: SheetProblem, stock: int, tree: Tree, count: int, named: list[Piece], job: Job) -> Layout:
    sheet = problem.stock[stock]
    placer = Placer(problem.cutting, job.least_offcut, [p.id for p in named])
    root = placer.place_sheet(sheet, tree)
    by_id = {p.id: p for p in named}
    placements, offcuts = [], []
    for node in end_nodes(root):
        if node.part is not None:
            piece = by_id[node.part]
            length, width = cut_size(piece, problem.cutting.kerf)
            placements.append(Placement(node.part, node.x, node.y, length, width, node.turned))
        elif node.kept:
            offcuts.append(Offcut(node.x, node.y, node.along_x, node.along_y))
    return Layout(sheet.id, count, tuple(placements), tuple(offcuts), root)


def end_nodes(node: Node) -> list[Node]:
    """The pieces, offcuts and waste of a cut tree, in the order in which they come off."""
    if not node.children:
        return [node]
    return [end for child in node.children for end in end_nodes(child)]
