"""The order of assembly: the tree of taking apart, read backwards as steps a person can follow."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from scantling.board import JointKind
from scantling.board.vector import dot

from .access import Reach
from .disassembly import Node, Puzzle, Screwed, bits
from .scene import Scene
from .sliding import Direction, Sweeps
from .step_words import step_text

# joints without fasteners that hold a part once made, so that what is built stays in one piece; a folded mitre is
# left out, since its sides are best finished flat before they are folded
HOLDING = (JointKind.GLUE, JointKind.HOUSED, JointKind.DOWELS, JointKind.NAILS, JointKind.BOLTED)
SCRAPES_MM = 150.0  # glue that is dragged along further than this is wiped off: practice
ALONG_GLUE = 0.1
DOWN_FIRST: tuple[Direction, ...] = (
    (0.0, 0.0, 1.0), (0.0, -1.0, 0.0), (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, -1.0),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class OrderStep:
    """One step: the parts it brings, one by one if alike, to what of the piece, from where, and what is driven.

    `off` is the direction in which they would come off again: they arrive against it; None where no straight way was
    found. `tools` names the tool of each fastener. `joints` are those made in this step, `built` all parts that stand
    together after it.
    """

    number: int
    brings: tuple[str, ...]
    to: tuple[str, ...]
    off: Direction | None
    fasteners: tuple[str, ...]
    tools: tuple[str, ...]
    joints: tuple[str, ...]
    built: tuple[str, ...] = ()
    text: str = ""

    def to_plain(self) -> dict[str, Any]:
        """Return the step as JSON members."""
        return {
            "number": self.number,
            "text": self.text,
            "brings": list(self.brings),
            "to": list(self.to),
            "comes_along": None if self.off is None else [round(0.0 - c, 4) for c in self.off],
            "fasteners": [{"id": f, "tool": t} for f, t in zip(self.fasteners, self.tools, strict=True)],
            "joints": list(self.joints),
        }


@dataclass(frozen=True, slots=True)
class Order:
    """An order in which the piece can be built; `feasible` is False, and `steps` empty, where there is none.

    `tool_of` says which tool reaches each fastener in that order.
    """

    feasible: bool
    steps: tuple[OrderStep, ...]
    tools: tuple[tuple[str, str], ...]

    def to_plain(self) -> dict[str, Any]:
        """Return the order as JSON members."""
        count: dict[str, int] = {}
        for _, tool in self.tools:
            count[tool] = count.get(tool, 0) + 1
        return {"feasible": self.feasible, "steps": [s.to_plain() for s in self.steps], "tools": count}


class Assembling:
    """The search for an order in one scene: what is screwed, what blocks it, and where parts can slide."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.driven = [i for i, f in enumerate(scene.fasteners) if f.kind != "dowel"]
        fasteners = tuple(scene.fasteners[i] for i in self.driven)
        self.fasteners = fasteners
        self.reach = Reach(scene.soup, fasteners, scene.settings.tools, scene.settings.fit)
        self.sweeps = Sweeps(scene.soup, scene.settings.fit)
        screwed = {f.joint for f in fasteners}
        held = [j for j in scene.assembly.joints.values() if j.kind in HOLDING and j.id not in screwed]
        self.puzzle = Puzzle(
            [
                *(Screwed(self.mask(f.parts), f.joint) for f in fasteners),
                *(Screwed(self.mask(j.parts), j.id) for j in held),
            ],
            len(scene.settings.tools),
            self._blocked_by,
            self._ways_of,
            self._runs_into,
            [pair for _, pair in scene.meetings],
            self._scrapes,
        )

    def _blocked_by(self, tie: int, tool: int) -> int:
        """Return what keeps a tool off a fastener; joints without fasteners, which follow these, need no tool."""
        return self.reach.blocked_by(tie, tool) if tie < len(self.fasteners) else 0

    def _runs_into(self, group: int, direction: Direction) -> int:
        """Return the parts a group meets on its way; parts that share space are told elsewhere, not here."""
        blocked = self.sweeps.group_blocked_by(group, direction)
        for i, j in self._overlapping:
            if group >> i & 1 != group >> j & 1:
                blocked &= ~(1 << (j if group >> i & 1 else i))
        return blocked

    def _scrapes(self, part: int, way: Direction, rest: int) -> bool:
        """Whether a part comes in by sliding far along a glued housing, which wipes the glue out of it."""
        for i, j in self._housings:
            if part >> i & 1 == part >> j & 1 or not (rest >> i & 1 or rest >> j & 1):
                continue
            for p in self.scene.patches((i, j)):
                heights = [dot(c, way) for c in p.corners]
                if abs(dot(p.normal, way)) < ALONG_GLUE and max(heights) - min(heights) > SCRAPES_MM:
                    return True
        return False

    @cached_property
    def _housings(self) -> list[tuple[int, int]]:
        """Pairs of parts that are glued into each other."""
        return [pair for j, pair in self.scene.meetings if j.glued and j.kind is JointKind.HOUSED]

    @cached_property
    def _overlapping(self) -> list[tuple[int, int]]:
        return [(c[0], c[1]) for c in self.scene.colliding]

    @cached_property
    def neighbours(self) -> list[int]:
        """For each part, the parts any joint ties it to, as bits."""
        found = [0] * len(self.scene.parts)
        for i, j in self.puzzle.links:
            found[i] |= 1 << j
            found[j] |= 1 << i
        return found

    def mask(self, ids: Sequence[str]) -> int:
        """Return a set of parts as bits."""
        found = 0
        for i in ids:
            found |= 1 << self.scene.index[i]
        return found

    def _ways_of(self, piece: int, rest: int) -> Iterator[Direction]:
        """Yield ways to try a piece off: back along its screws, then off what it touches, then up, then any."""
        for part in bits(piece):
            for head, point, direction in self._screws_at[part]:
                other = point if piece & head else head
                if not piece & other and rest & other:
                    yield direction if piece & point else _reversed(direction)
        touching = []
        for part in bits(piece):
            touching += [(area, n) for other, area, n in self._contacts_at[part] if rest >> other & 1]
        if touching:
            yield _mean(touching)
            yield from (n for _, n in sorted(touching, key=lambda t: (-t[0], t[1])))
        yield from DOWN_FIRST

    @cached_property
    def _screws_at(self) -> list[list[tuple[int, int, Direction]]]:
        """For each part, the screws in it: head part and holding part as bits, and direction; one a row."""
        found: list[dict[tuple[int, int, Direction], None]] = [{} for _ in self.scene.parts]
        for f in self.fasteners:
            row = (self.mask(f.parts[:1]), self.mask(f.parts[-1:]), _tidy(f.direction))
            for end in (f.parts[0], f.parts[-1]):
                found[self.scene.index[end]][row] = None
        return [list(rows) for rows in found]

    @cached_property
    def _contacts_at(self) -> list[list[tuple[int, float, Direction]]]:
        """For each part, what it touches: the other part, area in mm², and the normal that leads away from it."""
        found: list[list[tuple[int, float, Direction]]] = [[] for _ in self.scene.parts]
        for (i, j), patches in self.scene.contacts.items():
            patch = patches[0]
            if abs(patch.least_gap) <= self.scene.settings.fit:
                normal, area = _tidy(patch.normal), round(patch.area, 3)
                found[j].append((i, area, normal))
                found[i].append((j, area, _reversed(normal)))
        return found

    def order(self) -> Order:
        """Search for an order; what cannot be reached or slid is left in `puzzle`."""
        root = self.puzzle.solve((1 << len(self.scene.parts)) - 1)
        if self.puzzle.stuck:
            return Order(False, (), ())
        made = _Forward(self)
        made.build(root)
        tools = tuple((f, t) for s in made.steps for f, t in zip(s.fasteners, s.tools, strict=True))
        return Order(True, tuple(made.numbered()), tools)


def _tidy(v: Direction) -> Direction:
    return (round(v[0], 6) + 0.0, round(v[1], 6) + 0.0, round(v[2], 6) + 0.0)


def _reversed(v: Direction) -> Direction:
    return (0.0 - v[0], 0.0 - v[1], 0.0 - v[2])


def _mean(weighted: Sequence[tuple[float, Direction]]) -> Direction:
    """Return the direction that leads away from all contacts at once, weighted by their areas."""
    x, y, z = (sum(w * n[k] for w, n in weighted) for k in range(3))
    size = (x * x + y * y + z * z) ** 0.5
    return _tidy((x / size, y / size, z / size)) if size > 1e-6 else weighted[0][1]


class _Forward:
    """Reads a tree of taking apart backwards."""

    def __init__(self, assembling: Assembling) -> None:
        self.a = assembling
        self.steps: list[OrderStep] = []
        self.open_joints = {j.id: (j, assembling.mask(j.parts)) for j in assembling.scene.assembly.joints.values()}

    def build(self, node: Node) -> None:
        """Append the steps that build a group: its base first, then each piece in the order they must arrive."""
        if not node.children:
            return
        waiting = list(node.undone)
        base = node.children[-1]
        self.build(base)
        built = base.parts
        pairs = list(zip(node.children[:-1], node.ways[:-1], strict=True))
        if not pairs and not waiting:
            return
        for child, way in reversed(pairs):
            self.build(child)
            together = built | child.parts
            driven = [(q, t) for q, t in waiting if self.a.puzzle.screws[q].parts & ~together == 0]
            self._emit(child.parts, built, way, driven, waiting)
            built = together
        if any(q < len(self.a.fasteners) for q, _ in waiting):
            self._emit(0, built, None, list(waiting), waiting)

    def _emit(
        self, brings: int, to: int, way: Direction | None, driven: Sequence[tuple[int, int]],
        waiting: list[tuple[int, int]],
    ) -> None:  # fmt: skip
        for pair in driven:
            waiting.remove(pair)
        chosen = sorted((q, t) for q, t in driven if q < len(self.a.fasteners))
        scene = self.a.scene
        made = [j for j, parts in self.open_joints.values() if parts & ~(brings | to) == 0]
        for j in made:
            del self.open_joints[j.id]
        met = [p for j in made for p in j.parts if brings >> scene.index[p] & 1 == 0]
        tools = scene.settings.tools
        step = OrderStep(
            0,
            scene.ids(*bits(brings)),
            tuple(dict.fromkeys(met)) or scene.ids(*bits(to))[:1],
            way,
            tuple(self.a.fasteners[q].id for q, _ in chosen),
            tuple(tools[t].id for _, t in chosen),
            tuple(j.id for j in made),
            scene.ids(*bits(brings | to)),
        )
        self.steps.append(step)

    def numbered(self) -> Iterator[OrderStep]:
        """Yield the steps with their numbers and words, alike ones in a row gathered."""
        for number, step in enumerate(_gathered(self.steps, self.a.scene), 1):
            yield replace(step, number=number, text=step_text(step, self.a.scene))


def _gathered(steps: Sequence[OrderStep], scene: Scene) -> Iterator[OrderStep]:
    """Join neighbouring steps that bring one part each of the same name from the same side to the same parts."""
    held: OrderStep | None = None
    for step in steps:
        if held is not None and _same_work(held, step, scene):
            held = replace(
                held,
                brings=held.brings + step.brings,
                to=tuple(dict.fromkeys((*held.to, *step.to))),
                fasteners=held.fasteners + step.fasteners,
                tools=held.tools + step.tools,
                joints=held.joints + step.joints,
                built=step.built,
            )
            continue
        if held is not None:
            yield held
        held = step
    if held is not None:
        yield held


def _same_work(a: OrderStep, b: OrderStep, scene: Scene) -> bool:
    if len(b.brings) != 1 or a.off != b.off or set(a.brings) & set(b.to):
        return False
    names = {scene.assembly.parts[p].name for p in (*a.brings, *b.brings)}
    kinds = [[scene.assembly.joints[j].kind for j in s.joints] for s in (a, b)]
    return len(names) == 1 and set(kinds[0]) == set(kinds[1]) and JointKind.FOLDED_MITRE not in kinds[0]
