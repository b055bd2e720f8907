"""What to say about things that move: they run into something, pinch, fall shut, need room or are heavy to hold."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import asin, cos, degrees, hypot, radians, sin
from typing import Any

from scantling.board import Assembly, Motion
from scantling.board.vector import Vector, cross, dot, sub
from scantling.findings import Finding, Severity

from .motion import FINGER_MM, WALL, Swept, Wall, sweep
from .settings import DryfitSettings

GRAVITY = 9.80665  # m/s²
PAST_DEG = 5.0  # a lid that stands less than this past upright is knocked shut: practice
ON_MORE_DEG = 20.0  # how far past its travel something must stop a lid that leans on it
BEHIND_MM = 1.0
FINGERS = "EN 581-1:2017, 7 to 12 mm; screening only, not conformity"


@dataclass(frozen=True, slots=True)
class Weight:
    """How what swings weighs on its hinges: mass in kg, and the torque about the hinge line in N m.

    `hold` is the greatest torque towards shut on the way, what stays must hold at the worst; `open` is the torque
    when open, positive where gravity pulls it further open. `past` is how far past upright it stands, in degrees.
    """

    mass: float
    hold: float
    open: float
    past: float

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        return {"mass_kg": round(self.mass, 3), "hold_nm": round(self.hold, 2), "open_nm": round(self.open, 2),
                "past_upright_deg": round(self.past, 1)}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Moved:
    """A motion with all that is known of it: how it went, how it weighs, and what it leans against when open."""

    swept: Swept
    weight: Weight | None
    leans_on: str

    def to_plain(self) -> dict[str, Any]:
        """Return it as JSON members."""
        return {**self.swept.to_plain(), "weight": None if self.weight is None else self.weight.to_plain(),
                "leans_on": self.leans_on}  # fmt: skip


def moved(assembly: Assembly, motion: Motion, settings: DryfitSettings, walls: Sequence[Wall] = ()) -> Moved:
    """Sweep a motion, and see what holds it open."""
    swept = sweep(assembly, motion, settings, walls)
    weight = weight_of(assembly, swept) if motion.kind == "swing" and lifts(motion) else None
    leans = ""
    if weight is not None and not motion.held_by and not swept.clashes and weight.past >= PAST_DEG:
        further = sweep(assembly, motion, settings, walls, beyond=ON_MORE_DEG)
        leans = further.clashes[0] if further.clashes else ""
    return Moved(swept, weight, leans)


def lifts(motion: Motion) -> bool:
    """Whether the hinge line lies level, so that the part is lifted and can fall shut."""
    return abs(motion.axis[2]) < 0.5


def weight_of(assembly: Assembly, swept: Swept) -> Weight:
    """Return how what swings about a level line weighs on it."""
    motion, mass, moment = swept.motion, 0.0, (0.0, 0.0, 0.0)
    for id in swept.parts:
        part = assembly.parts[id]
        volume, centre = part.volume_and_centre()
        kg = volume * 1e-9 * part.material.density_kg_m3
        mass, moment = mass + kg, (moment[0] + kg * centre[0], moment[1] + kg * centre[1], moment[2] + kg * centre[2])
    way = 1.0 if motion.travel > 0 else -1.0
    if mass <= 0:
        return Weight(0.0, 0.0, 0.0, 0.0)
    arm = sub((moment[0] / mass, moment[1] / mass, moment[2] / mass), motion.point)
    axis: Vector = (motion.axis[0] * way, motion.axis[1] * way, motion.axis[2] * way)
    # torque about the axis is axis · (arm × weight): a part that follows the arm, and one a quarter turn on
    a, b = -dot(axis, cross(arm, (0.0, 0.0, 1.0))), -dot(axis, cross(cross(axis, arm), (0.0, 0.0, 1.0)))
    newtons = mass * GRAVITY / 1000.0
    travel = abs(motion.travel)
    steps = [radians(travel) * k / 180 for k in range(181)]
    hold = max(0.0, *(-(a * cos(t) + b * sin(t)) for t in steps)) * newtons
    at_end = a * cos(radians(travel)) + b * sin(radians(travel))
    size = hypot(a, b)
    past = 0.0 if size < 1e-9 else degrees(asin(max(-1.0, min(1.0, at_end / size))))
    return Weight(mass, hold, at_end * newtons, past)


def motion_findings(assembly: Assembly, found: Moved) -> Iterator[Finding]:
    """Report a motion that clashes, gaps that take fingers, a lid that can fall, and room it needs behind the piece."""
    swept, motion = found.swept, found.swept.motion
    sign, unit = ("°", "deg") if motion.kind == "swing" else (" mm", "mm")
    if swept.clashes:
        met = swept.clashes[0]
        who = motion.id if swept.hits in (motion.id, "") or met == WALL else f"{swept.hits} on {motion.id}"
        own = tuple(c for c in swept.clashes if c in assembly.parts)
        movers = (swept.hits,) if swept.hits in assembly.parts else motion.parts
        yield Finding(
            "motion-clashes", Severity.ERROR,
            f"{motion.id} opens {abs(swept.free):.0f}{sign} of {abs(motion.travel):.0f}{sign}, then {who} runs"
            f" into {'the wall' if met == WALL else met}.", (*movers, *own), at_mm=swept.at_mm,
            value=abs(swept.free), limit=abs(motion.travel), unit=unit,
            remedy="Move the hinge or slide, leave a gap, stop it before, or move what stands in the way.",
        )  # fmt: skip
    for gap in swept.narrow:
        beside = (gap.beside,) if gap.beside in assembly.parts else ()
        yield Finding(
            "moving-gap", Severity.WARNING,
            f"{gap.part} passes {gap.beside} {gap.gap:.1f} mm away: a finger goes in there and may not come out.",
            (gap.part, *beside), value=gap.gap, limit=FINGER_MM[0], unit="mm", source=FINGERS,
            remedy="Make the gap smaller than 7 mm or larger than 12 mm all the way.",
        )  # fmt: skip
    if not swept.clashes:
        yield from _held(found)
        yield from _behind(assembly, swept)


def _held(found: Moved) -> Iterator[Finding]:
    motion, weight = found.swept.motion, found.weight
    if weight is None or motion.held_by or found.leans_on:
        return
    if weight.past < PAST_DEG:
        words = f"it falls shut from {abs(motion.travel):.0f}° on hands and heads"
    else:
        words = f"past upright at {abs(motion.travel):.0f}° it falls on open"
    yield Finding(
        "nothing-holds-open", Severity.WARNING,
        f"Nothing holds {motion.id} open: {words}.", motion.parts, value=weight.hold, unit="N m", source="practice",
        remedy=f"Fit stays that hold {weight.hold:.0f} N m together, a strap, a chain, or hinges that close softly.",
    )  # fmt: skip


def _behind(assembly: Assembly, swept: Swept) -> Iterator[Finding]:
    """A piece stands with its back to a wall as a rule: say how far off its lid or door keeps it."""
    back = assembly.bounds()[1][1]
    out = swept.high[1] - back
    if out > BEHIND_MM:
        yield Finding(
            "opens-behind", Severity.NOTE,
            f"Open, {swept.motion.id} reaches {out:.0f} mm behind the piece: keep it that far off a wall.",
            swept.motion.parts, value=out, limit=0.0, unit="mm", source="plain geometry",
            remedy="Leave that much room behind it, or stop the lid before.",
        )  # fmt: skip
