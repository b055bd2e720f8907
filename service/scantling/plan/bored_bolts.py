"""Bolts read from the holes bored for them, and what they hold sideways."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from scantling.board import Hole, JointKind, Part
from scantling.board.vector import Vector, cross, dot, scale, sub
from scantling.findings import Finding
from scantling.mechanics.connection import FastenerJoint, Loads
from scantling.mechanics.fastener import bolt
from scantling.mechanics.nds_connection import CODE, nds_capacity
from scantling.mechanics.notice import LOCAL, notice
from scantling.mechanics.stack import Interval, read_stack
from scantling.mechanics.validity import OutOfValidity
from scantling.mechanics.wood import Wood

from .check_row import CheckRow, row_of_load
from .circumstances import Circumstances
from .flow import Pair
from .joints import Demand, joint_name
from .structure import Structure

BOLT_PLAY_MM = 1.0  # a bolt's hole is this much wider: NDS 2018 12.1.3, 1/32 to 1/16 in
SQUARE = 0.9
NEAR_MM = 1.0
THROUGH_MM = 150.0  # a bolt goes right through what is no thicker; practice
NO_NUT_MM = 60.0  # how deep a bolt reaches where no barrel nut is bored for it; practice


@dataclass(frozen=True, slots=True)
class BoltHole:
    """A bolt's way through two parts: its size mm, how much of the outer part it passes, how deep it sits beyond."""

    outer: str
    inner: str
    diameter: float
    through: float
    deep: float
    direction: Vector


def bolt_row(
    structure: Structure, demand: Demand, woods: Mapping[str, Wood], who: Circumstances
) -> tuple[CheckRow, list[Finding]] | None:
    """Check the bolts of two parts, read from the holes bored for them; None where none are bored."""
    bolts = list(bolts_between(structure, demand.pair))
    if not bolts:
        return None
    one, name = bolts[0], joint_name(structure, demand.pair)
    load = row_of_load(demand.load)
    try:
        capacity = nds_capacity(_bolted(structure, one, woods, who, demand))
    except OutOfValidity as error:
        return CheckRow("bolts", name, demand.pair, demand.force_n, unit="N", note=str(error), **load), []
    holds = capacity.lateral_n
    if holds is None or demand.pulling_n > demand.sideways_n:
        note = capacity.missing.get(
            "lateral", "a bolt pulled along itself holds by washer and nut: their makers' figures"
        )
        return CheckRow("bolts", name, demand.pair, demand.force_n, unit="N", note=note, **load), []
    what = f"{len(bolts)} of {one.diameter:.0f} mm"
    row = CheckRow(
        "bolts", name, demand.pair, demand.sideways_n, holds * len(bolts), "N", code=CODE,
        governing=f"{what}, yield mode {capacity.lateral_mode}", ratio=demand.sideways_n / (holds * len(bolts)),
        bound=demand.bound, status=capacity.status.value, note=capacity.missing.get("group", ""), **load,
    )  # fmt: skip
    if demand.sideways_n <= holds * len(bolts):
        return row, []
    text = (
        f"{demand.pair[0]} to {demand.pair[1]}: {what} hold {holds * len(bolts):.0f} N sideways ({CODE}, mode "
        f"{capacity.lateral_mode}); {demand.sideways_n:.0f} N come on them under {demand.load.label}. {LOCAL}"
    )
    found = notice(
        "bolts-over", text, status=capacity.status, parts=demand.pair, value=demand.sideways_n,
        limit=holds * len(bolts), unit="N", source="NDS 2018 12.3.1",
    )  # fmt: skip
    return row, [found]


def _bolted(
    structure: Structure, one: BoltHole, woods: Mapping[str, Wood], who: Circumstances, demand: Demand
) -> FastenerJoint:
    outer, inner = structure.part(one.outer), structure.part(one.inner)
    stretches = [
        Interval(p.id, p.material.material, a, b, p.grain_angle(one.direction))
        for p, a, b in ((outer, 0.0, one.through), (inner, one.through, one.through + one.deep))
    ]
    size = bolt(one.diameter, one.through + one.deep)
    stack = read_stack(stretches, length_mm=size.length_mm, head_depth_mm=0.0, thread_mm=0.0, threads_per_inch=None)
    return FastenerJoint(
        demand.pair[0], stack, (woods[outer.material.material], woods[inner.material.material]), size, "holds",
        loads=Loads(lateral_n=demand.sideways_n), wet=who.wet, duration=demand.load.duration,
    )  # fmt: skip


def bolts_between(structure: Structure, pair: Pair) -> Iterator[BoltHole]:
    """Yield the bolts that pass from one part into the other, by the holes bored for them."""
    patches = structure.patches(*pair)
    if not any(j.kind is JointKind.BOLTED for j in structure.joined(*pair)):
        return
    for a, b in (pair, pair[::-1]):
        outer, inner = structure.part(a), structure.part(b)
        found = []
        for hole in _bored(outer):
            at, direction = _axis(outer, hole)
            for patch in patches:
                along = dot(patch.normal, direction)
                if abs(along) > SQUARE and _within(at, direction, patch.corners):
                    way = direction if _towards(outer, inner, direction) else scale(direction, -1.0)
                    found.append(
                        BoltHole(
                            a, b, round(hole.diameter - BOLT_PLAY_MM, 1), outer.thickness, _depth(inner, at, way), way
                        )
                    )
                    break
        if found:
            yield from found
            return


def _bored(part: Part) -> list[Hole]:
    return [c for c in part.cuts if isinstance(c, Hole) and c.purpose == "bolt"]


def _axis(part: Part, hole: Hole) -> tuple[Vector, Vector]:
    """Return a point on a hole's axis and its direction, in space."""
    return part.frame.point((hole.x, hole.y, part.thickness)), part.frame.through


def _within(at: Vector, direction: Vector, corners: Iterable[Vector]) -> bool:
    """Whether a line along an axis passes the box round some corners, seen along it."""
    points = list(corners)
    for i in range(3):
        if abs(direction[i]) > SQUARE:
            continue
        if not min(c[i] for c in points) - NEAR_MM <= at[i] <= max(c[i] for c in points) + NEAR_MM:
            return False
    return True


def _towards(outer: Part, inner: Part, direction: Vector) -> bool:
    (a, b), (c, d) = outer.bounds(), inner.bounds()
    middle: Vector = ((c[0] + d[0] - a[0] - b[0]) / 2, (c[1] + d[1] - a[1] - b[1]) / 2, (c[2] + d[2] - a[2] - b[2]) / 2)
    return dot(middle, direction) > 0


def _depth(inner: Part, at: Vector, way: Vector) -> float:
    """Return how deep a bolt sits in the inner part, mm: to the barrel nut bored across it, else through it."""
    ends = [dot(c, way) for cell in inner.cells() for c in cell.corners]
    start, whole = min(ends), max(ends) - min(ends)
    reaches = []
    for hole in _bored(inner):
        point, across = _axis(inner, hole)
        off = sub(point, at)
        side = cross(way, across)
        if abs(dot(way, across)) < 0.1 and abs(dot(off, side)) <= hole.diameter / 2 + NEAR_MM:
            reaches.append(dot(point, way) - start)
    return min((r for r in reaches if r > 0), default=whole if whole <= THROUGH_MM else NO_NUT_MM)
