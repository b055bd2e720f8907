"""What stands in the way of a glue-up: clamps too short or too few, glue that skins over; each with a way out."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from scantling.findings import Finding, Severity

from .scene import Scene

if TYPE_CHECKING:
    from .glueing import Clamp, Glue, Squeeze, Stage

WAY_OUT = "Hold it with screws from the hidden side, wedges against a fence, or weights on a caul."


def glue_findings(
    scene: Scene,
    stages: "Sequence[Stage]",
    alone: "Sequence[Stage]",
    clamps: "Sequence[Clamp]",
    glue: "Glue",
    share: float,
) -> Iterator[Finding]:
    """Report what no splitting mends, of stages as planned and of every joint by itself; alike ones are told once."""
    found = [f for stage in stages for s in stage.squeezes for f in _clamps(scene, s, clamps)]
    found += [f for stage in alone for f in _time(scene, stage, glue, share)]
    seen: set[tuple[str, ...]] = set()
    for f in found:
        key = (f.code, *sorted({scene.assembly.parts[p].name for p in f.parts}))
        if key not in seen:
            seen.add(key)
            yield f


def _clamps(scene: Scene, need: "Squeeze", clamps: "Sequence[Clamp]") -> Iterator[Finding]:
    suiting = [c for c in clamps if c.suits(need)]
    parts = tuple(dict.fromkeys(p for j in need.joints for p in scene.assembly.joints[j].parts))
    what = " and ".join(repr(j) for j in need.joints[:2]) + (" and more" if len(need.joints) > 2 else "")
    if not suiting:
        long_enough = [c.throat for c in clamps if c.reach >= need.opening]
        deep, throat = bool(long_enough), max(long_enough, default=0.0)
        longest = max((c.reach for c in clamps), default=0.0)
        reach = f", and reach {need.inwards:.0f} mm in from the edge" if need.inwards >= 1 else ""
        caul = ", cauls and all" if need.cauls else ""
        yield Finding(
            "clamps-too-short", Severity.WARNING,
            f"No clamp spans {what}: it must open {need.opening:.0f} mm{caul}{reach}.", parts,
            value=need.inwards if deep else need.opening, limit=throat if deep else longest,
            unit="mm", source="plain geometry", remedy=WAY_OUT,
        )  # fmt: skip
    elif need.clamps > (have := sum(c.count for c in suiting)):
        yield Finding(
            "clamps-too-few", Severity.WARNING,
            f"{what} wants {need.clamps} clamps that open {need.opening:.0f} mm; there are {have}.", parts,
            value=float(need.clamps), limit=float(have), unit="clamps", source="practice",
            remedy="Use stiffer cauls, screws as clamps where they stay hidden, or borrow clamps.",
        )  # fmt: skip


def _time(scene: Scene, alone: "Stage", glue: "Glue", share: float) -> Iterator[Finding]:
    if alone.minutes > share * glue.open_min:
        joint = alone.joints[0]
        yield Finding(
            "open-time-too-short", Severity.WARNING,
            f"{joint!r} takes about {alone.minutes:.0f} minutes to spread and close; {glue.id} stays open"
            f" {glue.open_min:.0f}.", scene.assembly.joints[joint].parts, value=alone.minutes,
            limit=share * glue.open_min, unit="min", source="spreading and clamping times are assumed",
            remedy="Take a slower glue, or spread with a second person.",
        )  # fmt: skip
