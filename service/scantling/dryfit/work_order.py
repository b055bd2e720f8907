"""The order of work: each step of assembly with which way the work lies, how it is held, and what comes before it.

Of all attitudes the ones are taken in which screws go downwards, parts are laid on rather than held up, and the work
stands by itself; and of all such ways the one that turns the work least often (a shortest path over the steps).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from scantling.board import Assembly, Easing, JointKind, Part, Recess

from .attitude import ATTITUDES, Attitude, Footing
from .frame_proofs import Frames
from .order import Order, OrderStep
from .scene import Scene
from .settings import DryfitSettings
from .step_words import SIDE_WORDS, brought, eased_words, largest, listed, step_text

HANGS = "as it will hang"
FREE = ("loose", "clipped", "sliding", "hinged")
ALONG = 0.7  # within about 45°
TURN_COST = 3.0
UNSTABLE_COST = 2.0


@dataclass(frozen=True, slots=True)
class WorkStep:
    """One step of work: what comes before it, which way the work lies, how it is held, and the proof at its end."""

    number: int
    text: str
    attitude: str
    turned: bool
    before: tuple[str, ...]
    held: tuple[str, ...]
    proof: str | None

    def to_plain(self) -> dict[str, Any]:
        """Return the step as JSON members."""
        return {
            "number": self.number,
            "text": self.text,
            "attitude": self.attitude,
            "turned": self.turned,
            "before": list(self.before),
            "held": list(self.held),
            "proof": self.proof,
        }


def plan_work(assembly: Assembly, order: Order, settings: DryfitSettings) -> list[WorkStep]:
    """Return the order of work for an order of assembly; empty where there is no order."""
    scene = Scene.of(assembly, settings)
    footing = Footing(scene)
    attitudes = _attitudes(scene, footing, order.steps)
    met: set[str] = set()
    frames = Frames(scene)
    found = []
    for i, (step, attitude) in enumerate(zip(order.steps, attitudes, strict=True)):
        same_work = i > 0 and bool(set(order.steps[i - 1].built) & set(step.built))
        turned = same_work and attitudes[i - 1] is not attitude
        fresh = [p for p in step.built if p not in met]
        met.update(fresh)
        before = _before([assembly.parts[p] for p in fresh])
        follows = same_work and _glued(assembly, order.steps[i - 1]) and not _folded(assembly, step)
        if _glued(assembly, step) and not follows:
            how = "the screws started by hand" if step.fasteners else "with clamps or tape as it will be pressed"
            before = (*before, f"Try it dry, {how}, before any glue is spread.")
        held = _held(scene, footing, step, attitude, settings.hands)
        proof = frames.proof(step, last=i == len(order.steps) - 1)
        text = step_text(step, scene, attitude)
        lies = HANGS if assembly.hung_by and attitude is ATTITUDES[0] else attitude.says
        found.append(WorkStep(step.number, text, lies, turned, before, held, proof))
    return found


def _attitudes(scene: Scene, footing: Footing, steps: Sequence[OrderStep]) -> list[Attitude]:
    """Choose an attitude for every step: the cheapest sequence, turning included."""
    if not steps:
        return []
    costs = [[_cost(scene, footing, s, a) for a in ATTITUDES] for s in steps]
    best, came = [costs[0]], [[0] * len(ATTITUDES)]
    for i in range(1, len(steps)):
        turn = TURN_COST if set(steps[i - 1].built) & set(steps[i].built) else 0.0
        row, origin = [], []
        for k in range(len(ATTITUDES)):
            ways = [(best[-1][j] + (0.0 if j == k else turn), j != k, j) for j in range(len(ATTITUDES))]
            least = min(ways)
            row.append(least[0] + costs[i][k])
            origin.append(least[2])
        best.append(row)
        came.append(origin)
    k = min(range(len(ATTITUDES)), key=lambda j: (best[-1][j], j))
    chosen = [k]
    for i in range(len(steps) - 1, 0, -1):
        k = came[i][k]
        chosen.append(k)
    return [ATTITUDES[k] for k in reversed(chosen)]


def _cost(scene: Scene, footing: Footing, step: OrderStep, attitude: Attitude) -> float:
    """Return how awkward a step is in an attitude: screws upwards, parts held up, work that does not stand."""
    cost = 0.0
    down = attitude.down
    drives = {scene.assembly.fasteners[f].direction for f in step.fasteners}
    for d in drives:
        cost = max(cost, _awkward(_dot(d, down), 2.0, 9.0))
    if step.off is not None and step.brings:
        comes_down = -_dot(step.off, down)
        rests = comes_down < -ALONG and footing.lowest(
            _indexes(scene, step.brings), _indexes(scene, step.built), attitude
        )
        loose = not step.fasteners and all(scene.assembly.joints[j].kind.value in FREE for j in step.joints)
        cost += _awkward(comes_down, 9.0, 12.0) if loose else _rests(step) if rests else _awkward(comes_down, 1.0, 6.0)
    if not footing.stands(_indexes(scene, step.built), attitude):
        cost += UNSTABLE_COST
    return cost


def _rests(step: OrderStep) -> float:
    """Return how awkward it is to set the work down on a part: little where screws go in from above, else much."""
    return 1.0 if step.fasteners else 5.0


def _indexes(scene: Scene, ids: Sequence[str]) -> list[int]:
    return [scene.index[p] for p in ids]


def _awkward(downwards: float, sideways: float, upwards: float) -> float:
    return 0.0 if downwards > ALONG else sideways if downwards > -ALONG else upwards


def _dot(a: Sequence[float], b: Sequence[float]) -> float:
    return sum(x * y for x, y in zip(a, b, strict=True))


def _glued(assembly: Assembly, step: OrderStep) -> bool:
    return any(assembly.joints[j].glued for j in step.joints)


def _folded(assembly: Assembly, step: OrderStep) -> bool:
    return any(assembly.joints[j].kind is JointKind.FOLDED_MITRE for j in step.joints)


def _before(parts: Sequence[Part]) -> tuple[str, ...]:
    """Say what is done to parts before they are brought, alike ones together."""
    rows: dict[str, list[str]] = {}
    for part in parts:
        for job in _jobs(part):
            rows.setdefault(job, []).append(part.id)
    if not parts:
        return ()
    label = f"Label {listed([p.id for p in parts])}."
    return (label, *(f"{listed(ids)}: {job}." for job, ids in rows.items()))


def _jobs(part: Part) -> list[str]:
    recesses = [c for c in part.cuts if isinstance(c, Recess)]
    jobs = []
    if recesses:
        kinds = sorted({c.kind for c in recesses})
        jobs.append(
            f"cut the {len(recesses)} recesses ({listed(kinds)})" if len(recesses) > 1 else f"cut the {kinds[0]}"
        )
    eased = [c.edge for c in part.cuts if isinstance(c, Easing)]
    if eased:
        jobs.append(f"ease {eased_words(eased)}")
    if part.shows != "neither":
        jobs.append("sand what will be seen")
    if part.seal:
        jobs.append(f"seal the {listed([SIDE_WORDS[s] for s in part.seal])}, with tape where glue goes")
    return jobs


def _held(scene: Scene, footing: Footing, step: OrderStep, attitude: Attitude, hands: int) -> tuple[str, ...]:
    """Say what holds the work and what is brought, for as many people as there are."""
    said = []
    base = [p for p in step.built if p not in step.brings]
    if base and not footing.stands(_indexes(scene, base), attitude):
        what = listed(base) if len(base) < 4 else f"the work round {largest(scene, base)}"
        said.append(f"Clamp {what} to the bench, or prop it up: as it lies it would tip over.")
    if step.off is None or not step.brings:
        return tuple(said)
    comes_down, what = -_dot(step.off, attitude.down), brought(step, scene)
    who = "a second person" if hands > 1 else "a clamp or a cleat screwed on for the time being"
    if comes_down < -ALONG:
        if footing.lowest(_indexes(scene, step.brings), _indexes(scene, step.built), attitude):
            said.append(f"Lay {what} on the bench and set the work down on it.")
        else:
            said.append(f"A prop or {who} holds {what} up from below.")
    elif comes_down < ALONG and step.fasteners:
        said.append(f"{who[0].upper()}{who[1:]} holds {what} until the first two screws are in.")
    return tuple(said)
