"""Can it be built in the order somebody wrote down? The steps are replayed; the first that cannot be done is named."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from scantling.findings import Finding, Severity

from .disassembly import bits, components
from .order import Assembling
from .step_words import listed, spanned


@dataclass(frozen=True, slots=True)
class Act:
    """One step to replay: the parts it brings and the fasteners it drives."""

    parts: tuple[str, ...]
    fasteners: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Blocked:
    """A step (counted from 1) that cannot be done: which fasteners, and the parts in the way or not there yet."""

    step: int
    fasteners: tuple[str, ...]
    parts: tuple[str, ...]
    missing: bool


class _Bench:
    """What stands on the bench: sub-assemblies as bits of parts, merged as steps join them."""

    def __init__(self, assembling: Assembling) -> None:
        self.a = assembling
        self.groups: list[int] = []

    @property
    def placed(self) -> int:
        """All parts brought so far."""
        found = 0
        for g in self.groups:
            found |= g
        return found

    def bring(self, named: int, driven: Sequence[int]) -> None:
        """Put the parts a step names in place. What a step names together is joined together.

        New parts screwed to each other and to nothing that is there are a sub-assembly made aside: they join the rest
        only when a later step names both, or a screw ties them. Any other new part joins all it meets at once.
        """
        before, new = list(self.groups), named & ~self.placed
        self.groups += [1 << i for i in bits(new)]
        inside = [1 << i | 1 << j for i, j in self.a.puzzle.links if named >> i & 1 and named >> j & 1]
        self._join(inside + [q & self.placed for q in driven])
        for group in list(self.groups):
            if not group & new or any(group & old for old in before):
                continue
            if any(q & ~group == 0 for q in driven):
                continue
            reach = 0
            for i in bits(group & new):
                reach |= self.a.neighbours[i]
            self._join([1 << i | group for i in bits(reach & self.placed)])

    def _join(self, ties: Sequence[int]) -> None:
        self.groups = components(self.placed, [*self.groups, *(t for t in ties if t)])

    def group_of(self, parts: int) -> int:
        """Return all that stands together with any of some parts."""
        found = parts
        for g in self.groups:
            if g & parts:
                found |= g
        return found


def replay(assembling: Assembling, acts: Sequence[Act]) -> Iterator[Blocked]:
    """Yield every step whose fasteners cannot be driven, in order.

    A fastener is tried with every tool against the parts of its own sub-assembly so far.
    """
    number = {f.id: q for q, f in enumerate(assembling.fasteners)}
    scene, bench = assembling.scene, _Bench(assembling)
    for step, act in enumerate(acts, 1):
        screws = [(f, number[f]) for f in act.fasteners if f in number]  # a dowel needs no driver
        bench.bring(assembling.mask(act.parts), [assembling.puzzle.screws[q].parts for _, q in screws])
        early, late, absent, behind = [], [], 0, 0
        for name, q in screws:
            needed = assembling.puzzle.screws[q].parts
            if needed & ~bench.placed:
                early.append(name)
                absent |= needed & ~bench.placed
                continue
            built = bench.group_of(needed)
            blocking = [assembling.reach.blocked_by(q, t) & built for t in range(assembling.puzzle.tools)]
            if all(blocking):
                late.append(name)
                behind |= min(blocking, key=lambda b: (b.bit_count(), b))
        if early:
            yield Blocked(step, tuple(early), scene.ids(*bits(absent)), True)
        if late:
            yield Blocked(step, tuple(late), scene.ids(*bits(behind)), False)


def given_order_findings(assembling: Assembling) -> Iterator[Finding]:
    """Report the first step of the assembly's own that cannot be done, and what its steps leave out."""
    steps = assembling.scene.assembly.steps
    if not steps:
        return
    acts = [Act(s.parts, s.fasteners) for s in steps]
    blocked = next(replay(assembling, acts), None)
    if blocked is not None:
        yield _first_blocked(assembling, blocked)
    yield from _left_out(assembling, acts)


def _first_blocked(assembling: Assembling, b: Blocked) -> Finding:
    steps = assembling.scene.assembly.steps
    where = f"Step {b.step} ({steps[b.step - 1].text.rstrip('.')}) cannot be done: "
    head = assembling.scene.assembly.fasteners[b.fasteners[0]].head
    if b.missing:
        return Finding(
            "step-too-early", Severity.ERROR,
            f"{where}it drives {spanned(b.fasteners)} before {listed(b.parts)} is in place.",
            b.parts, b.fasteners, None, head, float(b.step), None, "step", None,
            "Bring the part first, or drive these fasteners in a later step.",
        )  # fmt: skip
    return Finding(
        "step-blocked", Severity.ERROR,
        f"{where}{listed(b.parts)} stands behind the heads of {spanned(b.fasteners)}.",
        b.parts, b.fasteners, None, head, float(b.step), None, "step", None,
        "Drive them before that part comes, as the computed order does.",
    )  # fmt: skip


def _left_out(assembling: Assembling, acts: Sequence[Act]) -> Iterator[Finding]:
    scene = assembling.scene
    named = {p for a in acts for p in a.parts}
    driven = {f for a in acts for f in a.fasteners}
    parts = tuple(p.id for p in scene.parts if p.id not in named)
    fasteners = tuple(f.id for f in scene.fasteners if f.id not in driven)
    if parts or fasteners:
        what = [listed(parts)] if parts else []
        what += [f"the fasteners {spanned(fasteners)}"] if fasteners else []
        yield Finding(
            "steps-leave-out", Severity.WARNING, f"No step mentions {' or '.join(what)}.", parts, fasteners,
            remedy="Add them to the step in which they come, or leave the steps out to have them computed.",
        )  # fmt: skip
