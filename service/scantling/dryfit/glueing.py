"""Glue-ups split so that each can be spread, closed and clamped while the glue is open, with the clamps there are.

Times of spreading and clamping are working assumptions, said as such; open and clamp times are those of the glue's own
label. Pressure is not asked for: sources disagree, and closing the joint is what counts.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import Any

from scantling.board import Assembly, JointKind, ScrewRole
from scantling.findings import Finding

from .clamping import CAUL_MM, Press, inwards, one_stack, press_of, run_of, stack
from .glue_findings import glue_findings
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

    def suits(self, need: "Squeeze") -> bool:
        """Whether it opens over a stack and reaches in to its joints."""
        return self.reach >= need.opening and self.throat >= need.inwards


@dataclass(frozen=True, slots=True)
class Glue:
    """A glue as its label says: minutes it stays open, and minutes it must stay clamped."""

    id: str
    open_min: float
    clamp_min: float


@dataclass(frozen=True, slots=True)
class JointWork:
    """What one glued joint takes: dm² to spread, what presses it, minutes without clamps, and where clamps would sit.

    `clamps` and `cauls` are what it wants by itself; `built` are the parts (by index) that stand there by then.
    """

    joint: str
    parts: frozenset[int]
    step: int
    area_dm2: float
    press: Press
    clamps: int
    cauls: int
    pressed_by: str
    minutes: float
    built: frozenset[int]


@dataclass(frozen=True, slots=True)
class Squeeze:
    """Clamps set together across one stack: the joints they press, mm to open and to reach in, clamps and cauls."""

    joints: tuple[str, ...]
    opening: float
    inwards: float
    clamps: int
    cauls: int

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        return {
            "joints": list(self.joints),
            "opening_mm": round(self.opening, 1),
            "inwards_mm": round(self.inwards, 1),
            "clamps": self.clamps,
            "cauls": self.cauls,
        }


@dataclass(frozen=True, slots=True)
class Stage:
    """One glue-up: the steps and joints in it, what it needs, how long it takes, and how long it then waits.

    `waits` tells for every joint the minutes it must be left alone: those that screws press need not wait.
    """

    number: int
    steps: tuple[int, ...]
    joints: tuple[str, ...]
    squeezes: tuple[Squeeze, ...]
    pressed_by: tuple[str, ...]
    minutes: float
    wait_min: float
    waits: tuple[tuple[str, str, float], ...]

    @property
    def clamps(self) -> int:
        """How many clamps are set at once."""
        return sum(s.clamps for s in self.squeezes)

    @property
    def cauls(self) -> int:
        """How many cauls lie under them."""
        return sum(s.cauls for s in self.squeezes)

    def to_plain(self) -> dict[str, Any]:
        """Return the stage as JSON members."""
        return {
            "number": self.number,
            "steps": list(self.steps),
            "joints": list(self.joints),
            "clamps": self.clamps,
            "cauls": self.cauls,
            "stacks": [s.to_plain() for s in self.squeezes],
            "pressed_by": list(self.pressed_by),
            "minutes": round(self.minutes, 1),
            "wait_minutes": round(self.wait_min, 1),
            "waits": [{"joint": j, "pressed_by": by, "minutes": round(m, 1)} for j, by, m in self.waits],
        }


@dataclass(frozen=True, slots=True)
class GlueUp:
    """All glue-ups of a piece in order, and what stands in their way."""

    stages: tuple[Stage, ...]
    findings: tuple[Finding, ...]

    def to_plain(self) -> dict[str, Any]:
        """Return the glue-ups as JSON members."""
        return {"stages": [s.to_plain() for s in self.stages], "findings": [f.to_plain() for f in self.findings]}


class Gluing:
    """The glued joints of one scene, the glue, and the clamps there are."""

    def __init__(self, scene: Scene, order: Order, clamps: Sequence[Clamp], glue: Glue) -> None:
        self.scene, self.clamps, self.glue = scene, tuple(sorted(clamps, key=lambda c: (c.reach, c.throat, c.id))), glue
        self.works = [
            w
            for step in order.steps
            for ids in _alike(scene, step.joints)
            if (w := _work(scene, ids, step.number, frozenset(scene.index[p] for p in step.built))) is not None
        ]

    def stages(self) -> list[list[JointWork]]:
        """Return the joints in as few runs of neighbouring steps as open time and clamps allow."""
        stages: list[list[JointWork]] = []
        for number in dict.fromkeys(w.step for w in self.works):
            for part in self._split([w for w in self.works if w.step == number]):
                if stages and self.within([*stages[-1], *part]):
                    stages[-1].extend(part)
                else:
                    stages.append(list(part))
        return stages

    def _split(self, works: list[JointWork]) -> Iterator[list[JointWork]]:
        """Yield the joints of a step in as few parts as the open time and the clamps allow."""
        part: list[JointWork] = []
        for work in works:
            if part and not self.within([*part, work]):
                yield part
                part = []
            part.append(work)
        if part:
            yield part

    def within(self, works: Sequence[JointWork]) -> bool:
        """Whether joints can be spread, closed and clamped in one go."""
        squeezes = self.squeezes(works)
        return self.minutes(works, squeezes) <= SPARE_SHARE * self.glue.open_min and self._enough(squeezes)

    def minutes(self, works: Sequence[JointWork], squeezes: Sequence[Squeeze]) -> float:
        """Return how long a glue-up takes from the first spreading to the last clamp."""
        return sum(w.minutes for w in works) + CLAMP_MIN * sum(s.clamps for s in squeezes)

    def squeezes(self, works: Sequence[JointWork]) -> list[Squeeze]:
        """Return where clamps are set in a glue-up: once across every stack, whatever number of joints lie in it."""
        found: list[tuple[list[JointWork], tuple[float, float], frozenset[int]]] = []
        for work in (w for w in works if w.clamps):
            built = next(w.built for w in reversed(works) if work.parts <= w.built)
            reach = stack(work.press, built)
            for group, other, _ in found:
                if one_stack(group[0].press, work.press, other, reach):
                    group.append(work)
                    break
            else:
                found.append(([work], reach, built))
        return [self._squeeze(group, reach, built) for group, reach, built in found]

    def _squeeze(self, group: Sequence[JointWork], reach: tuple[float, float], built: frozenset[int]) -> Squeeze:
        cauls = max(w.cauls for w in group)
        opening = reach[1] - reach[0] + (2 * CAUL_MM if cauls else 0.0)
        deep = max(inwards(self.scene, w.press, reach, built) for w in group)
        return Squeeze(tuple(w.joint for w in group), opening, deep, max(w.clamps for w in group), cauls)

    def _enough(self, squeezes: Sequence[Squeeze]) -> bool:
        """Whether there are clamps for all stacks at once; one that no clamp spans is held otherwise, and reported."""
        left = {c.id: c.count for c in self.clamps}
        for need in sorted(squeezes, key=lambda s: (-s.opening, -s.inwards)):
            suiting = [c for c in self.clamps if c.suits(need)]
            wanted = need.clamps if suiting else 0
            for clamp in suiting:
                used = min(wanted, left[clamp.id])
                left[clamp.id] -= used
                wanted -= used
            if wanted:
                return False
        return True

    def stage(self, number: int, works: Sequence[JointWork]) -> Stage:
        """Return a glue-up of some joints."""
        squeezes = tuple(self.squeezes(works))
        waits = tuple((w.joint, w.pressed_by, 0.0 if w.pressed_by == "screws" else self.glue.clamp_min) for w in works)
        return Stage(
            number,
            tuple(dict.fromkeys(w.step for w in works)),
            tuple(w.joint for w in works),
            squeezes,
            tuple(sorted({w.pressed_by for w in works})),
            self.minutes(works, squeezes),
            max(m for *_, m in waits),
            waits,
        )


def glue_ups(assembly: Assembly, order: Order, clamps: Sequence[Clamp], glue: Glue, settings: DryfitSettings) -> GlueUp:
    """Split the glued joints of an order into stages that fit the open time of the glue and the clamps there are.

    A stage is a run of neighbouring steps; clamps come free after the clamp time. A joint that no stage can hold is
    put in one of its own and reported.
    """
    scene = Scene.of(assembly, settings)
    gluing = Gluing(scene, order, [replace(c, id=f"{i} {c.id}") for i, c in enumerate(clamps)], glue)
    stages = [gluing.stage(i, rows) for i, rows in enumerate(gluing.stages(), 1)]
    alone = [gluing.stage(0, [w]) for w in gluing.works]
    return GlueUp(tuple(stages), tuple(glue_findings(scene, stages, alone, clamps, glue, SPARE_SHARE)))


def _alike(scene: Scene, joints: Sequence[str]) -> list[tuple[str, ...]]:
    """Return glued joints grouped by the parts they join: two rows of screws in one pair of faces are spread once."""
    rows: dict[tuple[str, ...], list[str]] = {}
    for id in joints:
        joint = scene.assembly.joints[id]
        if joint.glued:
            rows.setdefault(joint.parts, []).append(id)
    return [tuple(row) for row in rows.values()]


def _work(scene: Scene, ids: tuple[str, ...], step: int, built: frozenset[int]) -> JointWork | None:
    pairs = sorted({pair for j, pair in scene.meetings if j.id == ids[0]})
    patches = [(pair, p) for pair in pairs for p in scene.patches(pair) if abs(p.least_gap) <= 2 * scene.settings.fit]
    if not patches:
        return None
    area = sum(p.area for _, p in patches) / MM2_PER_DM2
    _, main = max(patches, key=lambda t: (round(t[1].area, 3), t[0]))
    screws = [f for f in scene.fasteners if f.joint in ids and f.role in (ScrewRole.CLAMPS, ScrewRole.HOLDS)]
    clamps, cauls, by = 0, 0, "clamps"
    if screws:
        by = "screws"
    elif scene.assembly.joints[ids[0]].kind is JointKind.FOLDED_MITRE:
        by = "tape"
    else:
        run = run_of(main)
        clamps = max(1 if run < CLAMP_SPACING_MM / 2 else 2, ceil(run / CLAMP_SPACING_MM))
        cauls = 2 if run > CAUL_FROM_MM else 0
    minutes = SPREAD_MIN_PER_DM2 * area * BOTH_FACES + PLACE_MIN + SCREW_MIN * len(screws)
    parts = frozenset(i for pair in pairs for i in pair)
    return JointWork(ids[0], parts, step, area, press_of(scene, main), clamps, cauls, by, minutes, built | parts)
