"""Glue-ups split so that each can be spread, closed and clamped while the glue is open, with the clamps there are.

Times of spreading and clamping are working assumptions, said as such; open and clamp times are those of the glue's own
label. Pressure is not asked for: sources disagree, and closing the joint is what counts.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any

from scantling.board import Assembly, JointKind, Patch, ScrewRole
from scantling.board.vector import dot, norm, sub
from scantling.findings import Finding, Severity

from .contacts import Pair
from .order import Order
from .scene import Scene
from .settings import DryfitSettings

CLAMP_SPACING_MM = 200.0  # common advice for clamps with cauls: practice
CAUL_FROM_MM = 300.0  # joints longer than this are pressed through a straight caul: practice
MM2_PER_DM2 = 1e4
BOTH_FACES = 2
SPREAD_MIN_PER_DM2 = 0.1  # about a minute for ten square decimetres with a roller or brush: assumed
PLACE_MIN = 0.5  # to bring a part and set it in place: assumed
CLAMP_MIN = 0.5  # to set one clamp: assumed
SCREW_MIN = 0.15  # to drive one screw that is started: assumed
SPARE_SHARE = 0.8  # of the open time that is planned with; the rest is for what goes wrong: practice


@dataclass(frozen=True, slots=True)
class Clamp:
    """Clamps of one kind: how far they open, how deep they reach in from an edge, both mm, and how many there are."""

    id: str
    reach: float
    throat: float
    count: int


@dataclass(frozen=True, slots=True)
class Glue:
    """A glue as its label says: minutes it stays open, and minutes it must stay clamped."""

    id: str
    open_min: float
    clamp_min: float


@dataclass(frozen=True, slots=True)
class JointWork:
    """What one glued joint takes: dm² to spread, mm to span and to reach in, clamps and cauls, and what presses it."""

    joint: str
    step: int
    area_dm2: float
    span: float
    inwards: float
    clamps: int
    cauls: int
    pressed_by: str
    minutes: float


@dataclass(frozen=True, slots=True)
class Stage:
    """One glue-up: the steps and joints in it, what it needs, how long it takes, and how long it then waits."""

    number: int
    steps: tuple[int, ...]
    joints: tuple[str, ...]
    clamps: int
    cauls: int
    pressed_by: tuple[str, ...]
    minutes: float
    wait_min: float

    def to_plain(self) -> dict[str, Any]:
        """Return the stage as JSON members."""
        return {
            "number": self.number,
            "steps": list(self.steps),
            "joints": list(self.joints),
            "clamps": self.clamps,
            "cauls": self.cauls,
            "pressed_by": list(self.pressed_by),
            "minutes": round(self.minutes, 1),
            "wait_minutes": round(self.wait_min, 1),
        }


@dataclass(frozen=True, slots=True)
class GlueUp:
    """All glue-ups of a piece in order, and what stands in their way."""

    stages: tuple[Stage, ...]
    findings: tuple[Finding, ...]

    def to_plain(self) -> dict[str, Any]:
        """Return the glue-ups as JSON members."""
        return {"stages": [s.to_plain() for s in self.stages], "findings": [f.to_plain() for f in self.findings]}


def glue_ups(assembly: Assembly, order: Order, clamps: Sequence[Clamp], glue: Glue, settings: DryfitSettings) -> GlueUp:
    """Split the glued joints of an order into stages that fit the open time of the glue and the clamps there are.

    A stage is a run of neighbouring steps; clamps come free after the clamp time. A joint that no stage can hold is
    put in one of its own and reported.
    """
    scene = Scene.of(assembly, settings)
    works = [w for step in order.steps for ids in _alike(scene, step.joints) if (w := _work(scene, ids, step.number))]
    have, longest = sum(c.count for c in clamps), max((c.reach for c in clamps), default=0.0)
    stages: list[list[JointWork]] = []
    for number in dict.fromkeys(w.step for w in works):
        for part in _split([w for w in works if w.step == number], glue, have):
            fits = stages and _within([*stages[-1], *part], glue, have)
            if fits:
                stages[-1].extend(part)
            else:
                stages.append(list(part))
    findings = [f for w in works for f in _faults(scene, w, clamps, have, longest, glue)]
    return GlueUp(tuple(_stage(i, rows, glue) for i, rows in enumerate(stages, 1)), tuple(_once(findings, scene)))


def _split(works: list[JointWork], glue: Glue, have: int) -> Iterator[list[JointWork]]:
    """Yield the joints of a step in as few parts as the open time and the clamps allow."""
    part: list[JointWork] = []
    for work in works:
        if part and not _within([*part, work], glue, have):
            yield part
            part = []
        part.append(work)
    if part:
        yield part


def _within(works: Sequence[JointWork], glue: Glue, have: int) -> bool:
    return sum(w.minutes for w in works) <= SPARE_SHARE * glue.open_min and sum(w.clamps for w in works) <= have


def _stage(number: int, works: Sequence[JointWork], glue: Glue) -> Stage:
    needs_wait = any(w.clamps or w.pressed_by == "tape" for w in works)
    return Stage(
        number,
        tuple(dict.fromkeys(w.step for w in works)),
        tuple(w.joint for w in works),
        sum(w.clamps for w in works),
        sum(w.cauls for w in works),
        tuple(sorted({w.pressed_by for w in works})),
        sum(w.minutes for w in works),
        glue.clamp_min if needs_wait else 0.0,
    )


def _alike(scene: Scene, joints: Sequence[str]) -> list[tuple[str, ...]]:
    """Return glued joints grouped by the parts they join: two rows of screws in one pair of faces are spread once."""
    rows: dict[tuple[str, ...], list[str]] = {}
    for id in joints:
        joint = scene.assembly.joints[id]
        if joint.glued:
            rows.setdefault(joint.parts, []).append(id)
    return [tuple(row) for row in rows.values()]


def _work(scene: Scene, ids: tuple[str, ...], step: int) -> JointWork | None:
    pairs = sorted({pair for j, pair in scene.meetings if j.id == ids[0]})
    patches = [(pair, p) for pair in pairs for p in scene.patches(pair) if abs(p.least_gap) <= 2 * scene.settings.fit]
    if not patches:
        return None
    area = sum(p.area for _, p in patches) / MM2_PER_DM2
    pair, main = max(patches, key=lambda t: (round(t[1].area, 3), t[0]))
    screws = [f for f in scene.fasteners if f.joint in ids and f.role in (ScrewRole.CLAMPS, ScrewRole.HOLDS)]
    clamps, cauls, by = 0, 0, "clamps"
    if screws:
        by = "screws"
    elif scene.assembly.joints[ids[0]].kind is JointKind.FOLDED_MITRE:
        by = "tape"
    else:
        run = _length(main)
        clamps = max(1 if run < CLAMP_SPACING_MM / 2 else 2, ceil(run / CLAMP_SPACING_MM))
        cauls = 2 if run > CAUL_FROM_MM else 0
    minutes = SPREAD_MIN_PER_DM2 * area * BOTH_FACES + PLACE_MIN + CLAMP_MIN * clamps + SCREW_MIN * len(screws)
    return JointWork(
        ids[0], step, area, _span(scene, pair, main), _inwards(scene, pair, main), clamps, cauls, by, minutes
    )


def _length(patch: Patch) -> float:
    """Return the longest distance between two corners of a patch."""
    return max(norm(sub(p, q)) for p in patch.corners for q in patch.corners)


def _span(scene: Scene, pair: Pair, patch: Patch) -> float:
    """Return what a clamp must span: both parts of a joint, measured square to it."""
    heights = [dot(c, patch.normal) for i in pair for cell in scene.parts[i].cells() for c in cell.corners]
    return max(heights) - min(heights)


def _inwards(scene: Scene, pair: Pair, patch: Patch) -> float:
    """Return how far in from an edge of the part it is pressed through a joint begins; 0 where it runs out there.

    Clamps sit where it begins; a bowed or stiff caul presses the rest.
    """
    part = scene.parts[pair[0]]
    normal = [abs(dot(patch.normal, e)) for e in (part.frame.along, part.frame.across, part.frame.through)]
    across = [k for k in range(3) if k != normal.index(max(normal))]
    corners = [part.frame.local(c) for c in patch.corners]
    return max(0.0, min(min(c[k], part.size[k] - c[k]) for c in corners for k in across))


def _faults(
    scene: Scene, w: JointWork, clamps: Sequence[Clamp], have: int, longest: float, glue: Glue
) -> Iterator[Finding]:
    joint = scene.assembly.joints[w.joint]
    if w.clamps and not any(c.reach >= w.span and c.throat >= w.inwards for c in clamps):
        deep = any(c.reach >= w.span for c in clamps)
        throat = max((c.throat for c in clamps), default=0.0)
        yield Finding(
            "clamps-too-short", Severity.WARNING,
            f"No clamp spans {w.joint!r}: {w.span:.0f} mm to span, {w.inwards:.0f} mm in from the edge.", joint.parts,
            value=w.inwards if deep else w.span, limit=throat if deep else longest,
            unit="mm", source="plain geometry",
            remedy="Hold it with screws from the hidden side, wedges against a fence, or weights on a caul.",
        )  # fmt: skip
    elif w.clamps > have:
        yield Finding(
            "clamps-too-few", Severity.WARNING,
            f"{w.joint!r} wants {w.clamps} clamps at {CLAMP_SPACING_MM:.0f} mm; there are {have}.", joint.parts,
            value=float(w.clamps), limit=float(have), unit="clamps", source="practice",
            remedy="Use stiffer cauls, screws as clamps where they stay hidden, or borrow clamps.",
        )  # fmt: skip
    if w.minutes > SPARE_SHARE * glue.open_min:
        yield Finding(
            "open-time-too-short", Severity.WARNING,
            f"{w.joint!r} takes about {w.minutes:.0f} minutes to spread and close; {glue.id} stays open"
            f" {glue.open_min:.0f}.", joint.parts, value=w.minutes, limit=SPARE_SHARE * glue.open_min, unit="min",
            source="spreading and clamping times are assumed",
            remedy="Take a slower glue, or spread with a second person.",
        )  # fmt: skip


def _once(findings: Sequence[Finding], scene: Scene) -> Iterator[Finding]:
    """Tell findings of one code about parts of the same names once."""
    seen: set[tuple[str, ...]] = set()
    for f in findings:
        key = (f.code, *sorted(scene.assembly.parts[p].name for p in f.parts))
        if key not in seen:
            seen.add(key)
            yield f
