"""The order of assembly as a proof: the piece is taken apart, group by group, and the tree of it read backwards.

A group of parts is held together by its screws. A screw can be undone when no part of its own group stands in the way
of a driver. Undo all such screws, let the group fall into smaller ones, slide these away, and go on inside each.
Taking something away never puts anything in the way, so the greedy way is complete: where it sticks, no order exists,
and the stuck screws with what blocks them are the reason. Groups of parts are bits of an int by part index.

Folds, clips and loose parts hold nothing here: such joints are made when two groups meet. Glue and housings hold like
screws that nothing ever blocks, so they never hide an order.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from .sliding import Direction

MOST_ROWS = 24  # rows tried one by one for the one that makes a group stick: each is a search of its own


@dataclass(frozen=True, slots=True)
class Screwed:
    """One screw of the puzzle: the parts it holds together, as bits, and its row (any sortable name)."""

    parts: int
    row: str = ""


@dataclass(slots=True)
class Node:
    """A group of parts and how it comes apart: `undone` (screw, tool) first, then `children` leave in order.

    `ways` are the directions in which the children slide off, None for the last one, which stays, and for trapped
    ones. A node without children is one part, or a group that sticks.
    """

    parts: int
    undone: list[tuple[int, int]] = field(default_factory=list)
    children: list["Node"] = field(default_factory=list)
    ways: list[Direction | None] = field(default_factory=list)


@dataclass(slots=True)
class Puzzle:
    """What is to be taken apart. `blocked_by(screw, tool)` answers bits; `ways_of(group, rest)` directions to try.

    `slides_into(group, direction)` answers the parts a group runs into on its way. `links` are pairs of parts any
    joint ties, so that what is built stays in one piece where it can. `scrapes(part, direction, rest)` says of a way
    that it wipes off glue, so that another part had better go first.
    """

    screws: Sequence[Screwed]
    tools: int
    blocked_by: Callable[[int, int], int]
    ways_of: Callable[[int, int], Iterable[Direction]]
    slides_into: Callable[[int, Direction], int]
    links: Sequence[tuple[int, int]] = ()
    scrapes: Callable[[int, Direction, int], bool] = lambda part, way, rest: False
    stuck: list[tuple[int, list[int]]] = field(default_factory=list)
    trapped: list[list[int]] = field(default_factory=list)
    _linked: dict[int, int] = field(default_factory=dict)
    _held: dict[int, list[int]] = field(default_factory=dict, repr=False)

    def solve(self, parts: int) -> Node:
        """Take a group of parts apart; `stuck` and `trapped` hold what could not be."""
        return self._apart(parts, [q for q, s in enumerate(self.screws) if s.parts & ~parts == 0], [])

    def _apart(self, group: int, fastened: list[int], undone: list[tuple[int, int]]) -> Node:
        node = Node(group, undone)
        pieces = components(group, [self.screws[q].parts for q in fastened])
        if len(pieces) == 1 and fastened:
            whole = group
            group, fastened = self._one_by_one(node, group, fastened)
            pieces = components(group, [self.screws[q].parts for q in fastened])
            if group != whole:  # what is left is a group of its own
                node.children.append(self._apart(group, fastened, []))
                node.ways.append(None)
                return node
        while len(pieces) == 1 and fastened:
            free = self._free(group, fastened)
            if not free:
                self.stuck.append((group, fastened))
                return node
            node.undone.extend(free)
            gone = {q for q, _ in free}
            fastened = [q for q in fastened if q not in gone]
            pieces = components(group, [self.screws[q].parts for q in fastened])
        if len(pieces) > 1:
            self._peel(node, pieces, fastened)
        return node

    def _one_by_one(self, node: Node, group: int, fastened: list[int]) -> tuple[int, list[int]]:
        """Take single parts off a group while what is left holds together, the last named part first.

        Built forwards this adds part by part in the order the author named them, which people follow best.
        """
        while group.bit_count() > 1:
            chosen = self._next_single(group, fastened)
            if chosen is None:
                break
            part, way, screws = chosen
            node.undone.extend(screws)
            gone = {q for q, _ in screws}
            fastened = [q for q in fastened if q not in gone]
            group &= ~part
            node.children.append(Node(part))
            node.ways.append(way)
        return group, fastened

    def _next_single(self, group: int, fastened: list[int]) -> tuple[int, Direction, list[tuple[int, int]]] | None:
        """Choose the part to take off next with the first tool alone; other tools come in where groups are split."""
        near, inside = self._neighbours(fastened), set(fastened)
        second: tuple[int, Direction, list[tuple[int, int]]] | None = None
        for i in reversed(list(bits(group))):
            part = 1 << i
            if not still_together(group, i, near):
                continue
            holding = [q for q in self._screws_of(i) if q in inside]
            if any(self.blocked_by(q, 0) & group for q in holding):
                continue
            way = self._way(part, group & ~part)
            if way is None:
                continue
            chosen = part, way, [(q, 0) for q in holding]
            if not self.scrapes(part, way, group & ~part):
                return chosen
            second = second or chosen
        return second

    def _screws_of(self, part: int) -> list[int]:
        """Return the screws that hold a part, in order."""
        if not self._held:
            for q, screw in enumerate(self.screws):
                for i in bits(screw.parts):
                    self._held.setdefault(i, []).append(q)
        return self._held.get(part, [])

    def _neighbours(self, fastened: list[int]) -> dict[int, int]:
        near: dict[int, int] = {}
        for tie in {self.screws[q].parts for q in fastened}:
            for i in bits(tie):
                near[i] = near.get(i, 0) | tie
        return near

    def _free(self, group: int, fastened: list[int]) -> list[tuple[int, int]]:
        """Return the screws the first tool that undoes any can undo, of those fastened in a group."""
        for tool in range(self.tools):
            free = [(q, tool) for q in fastened if self.blocked_by(q, tool) & group == 0]
            if free:
                return free
        return []

    def _peel(self, node: Node, pieces: list[int], fastened: list[int]) -> None:
        """Slide the pieces of a group away one by one; what cannot leave stays together and is undone further."""
        rest = node.parts
        left = sorted(pieces, key=lambda p: (p.bit_count(), -low_bit(p)))
        while len(left) > 1:
            chosen = self._next_off(left, rest)
            if chosen is None:
                self._core(node, left, rest, fastened)
                return
            piece, way = chosen
            left.remove(piece)
            rest &= ~piece
            self._child(node, piece, way, fastened)
        self._child(node, left[0], None, fastened)

    def _child(self, node: Node, piece: int, way: Direction | None, fastened: list[int]) -> None:
        node.children.append(self._apart(piece, [q for q in fastened if self.screws[q].parts & ~piece == 0], []))
        node.ways.append(way)

    def _next_off(self, left: list[int], rest: int) -> tuple[int, Direction] | None:
        """Choose the piece to slide off next: small ones first, and none that breaks the rest in two if possible."""
        second: tuple[int, Direction] | None = None
        before = self._clusters(rest, left, 0)
        for piece in left:
            way = self._way(piece, rest & ~piece)
            if way is None:
                continue
            if self._clusters(rest & ~piece, left, piece) <= before:
                return piece, way
            second = second or (piece, way)
        return second

    def _way(self, piece: int, rest: int) -> Direction | None:
        tried: set[Direction] = set()
        for direction in self.ways_of(piece, rest):
            if direction not in tried and self.slides_into(piece, direction) & rest == 0:
                return direction
            tried.add(direction)
        return None

    def _clusters(self, rest: int, left: list[int], gone: int) -> int:
        """Return into how many clusters that hang together by joints the pieces but one fall."""
        if not self._linked:
            for i, j in self.links:
                self._linked[i] = self._linked.get(i, 0) | 1 << j
                self._linked[j] = self._linked.get(j, 0) | 1 << i
        whole = {i: piece for piece in left if piece != gone for i in bits(piece)}
        count, unseen = 0, rest
        while unseen:
            count += 1
            frontier = unseen & -unseen
            while frontier:
                unseen &= ~frontier
                reached = 0
                for i in bits(frontier):
                    reached |= self._linked.get(i, 0) | whole[i]
                frontier = reached & unseen
        return count

    def _core(self, node: Node, left: list[int], rest: int, fastened: list[int]) -> None:
        """Go on inside pieces that cannot leave each other as they are."""
        inside = [q for q in fastened if self.screws[q].parts & ~rest == 0]
        free = self._free(rest, inside)
        if free:
            gone = {q for q, _ in free}
            node.children.append(self._apart(rest, [q for q in inside if q not in gone], list(free)))
            node.ways.append(None)
            return
        self.trapped.append(left)
        for piece in left:
            self._child(node, piece, None, fastened)

    def guilty(self) -> list[list[int]]:
        """Return, for every group that sticks, the screws whose rows would each let it come apart if they were gone.

        Where no single row would, all screws that are stuck.
        """
        found = []
        for group, fastened in self.stuck:
            rows = sorted({self.screws[q].row for q in fastened})[:MOST_ROWS]
            enough = [r for r in rows if self._apart_without(group, fastened, r)]
            found.append([q for q in fastened if self.screws[q].row in enough] or fastened)
        return found

    def _apart_without(self, group: int, fastened: list[int], row: str) -> bool:
        trial = Puzzle(self.screws, self.tools, self.blocked_by, self.ways_of, self.slides_into, self.links)
        trial._apart(group, [q for q in fastened if self.screws[q].row != row], [])
        return not trial.stuck


def components(group: int, ties: Sequence[int]) -> list[int]:
    """Return the sets of parts that ties (each a set of parts) hold together, by their lowest part."""
    found: list[int] = []
    for tie in dict.fromkeys(ties):
        joined = tie
        for c in [c for c in found if c & tie]:
            found.remove(c)
            joined |= c
        found.append(joined)
    tied = 0
    for c in found:
        tied |= c
    found += [1 << i for i in bits(group & ~tied)]
    return sorted(found, key=low_bit)


def still_together(group: int, gone: int, near: dict[int, int]) -> bool:
    """Whether a group that holds together still does when a part leaves; `near` gives the parts tied to each.

    It does when the neighbours of that part still reach each other; looked for round about them first.
    """
    group &= ~(1 << gone)
    wanted = near.get(gone, 0) & group
    seen = frontier = wanted & -wanted
    while wanted & ~seen and frontier:
        fresh = 0
        for i in bits(frontier):
            fresh |= near.get(i, 0)
        frontier = fresh & group & ~seen
        seen |= frontier
    return wanted & ~seen == 0


def bits(group: int) -> Iterator[int]:
    """Yield the indexes of the parts in a group, lowest first."""
    while group:
        low = group & -group
        yield low.bit_length() - 1
        group ^= low


def low_bit(group: int) -> int:
    """Return the lowest part of a group."""
    return (group & -group).bit_length() - 1
