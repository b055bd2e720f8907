"""Can it be built in the order somebody wrote down? The steps are replayed; the first that cannot be done is named."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from scantling.findings import Finding, Severity

from .disassembly import bits
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


def replay(assembling: Assembling, acts: Sequence[Act]) -> Iterator[Blocked]:
    """Yield every step whose fasteners cannot be driven, in order.

    What is built so far is the parts brought that joints tie together; a fastener is tried with every tool against
    the parts of its own sub-assembly.
    """
    number = {f.id: q for q, f in enumerate(assembling.fasteners)}
    scene, placed = assembling.scene, 0
    for step, act in enumerate(acts, 1):
        placed |= assembling.mask(act.parts)
        early, late, absent, behind = [], [], 0, 0
        for name in act.fasteners:
            q = number.get(name)
            if q is None:
                continue  # a dowel needs no driver
            needed = assembling.puzzle.screws[q].parts
            if needed & ~placed:
                early.append(name)
                absent |= needed & ~placed
                continue
            built = _tied_to(needed, placed, assembling)
            blocking = [assembling.reach.blocked_by(q, t) & built for t in range(assembling.puzzle.tools)]
            if all(blocking):
                late.append(name)
                behind |= min(blocking, key=lambda b: (b.bit_count(), b))
        if early:
            yield Blocked(step, tuple(early), scene.ids(*bits(absent)), True)
        if late:
            yield Blocked(step, tuple(late), scene.ids(*bits(behind)), False)


def _tied_to(parts: int, placed: int, assembling: Assembling) -> int:
    """Return the sub-assembly some parts belong to: all parts in place that joints tie to them."""
    group, frontier = parts, parts
    while frontier:
        fresh = 0
        for i in bits(frontier):
            fresh |= assembling.neighbours[i]
        frontier = fresh & placed & ~group
        group |= frontier
    return group


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
