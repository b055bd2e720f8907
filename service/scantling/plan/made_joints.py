"""Joints without screws on the way to the floor: shoulders of housings, bolts in bored holes, what is not judged."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from scantling.board import Hole, Joint, JointKind, Part
from scantling.board.vector import Vector, dot, scale, sub
from scantling.findings import Finding
from scantling.mechanics.connection import FastenerJoint, Loads
from scantling.mechanics.dowel_check import WEAKEST
from scantling.mechanics.dowels import dowel_bond, dowel_pull_out, screening_pull, screening_shear
from scantling.mechanics.fastener import bolt
from scantling.mechanics.housed import Housing, check_housing
from scantling.mechanics.nds_connection import CODE, nds_capacity
from scantling.mechanics.notice import LOCAL, notice
from scantling.mechanics.stack import Interval, read_stack
from scantling.mechanics.validity import OutOfValidity
from scantling.mechanics.wood import Wood
from scantling.tables import Status

from .check_row import CheckRow, row_of_load
from .circumstances import Circumstances
from .flow import Pair
from .joints import Demand, joint_name
from .part_woods import wood_of_part
from .structure import LOOKS_DOWN, Structure

BOLT_PLAY_MM = 1.0  # a bolt's hole is this much wider: NDS 2018 12.1.3, 1/32 to 1/16 in
SQUARE = 0.9
NEAR_MM = 1.0
DOWELS = "tests of glued dowels (BioResources 2018, 2020) and yield of a birch pin, screened"
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


def housing_rows(
    structure: Structure, demands: Iterable[Demand], who: Circumstances
) -> tuple[list[CheckRow], list[Finding]]:
    """Check what rests on the shoulder of a housing: the pressure of a shelf's edge on the wood under it."""
    rows: list[CheckRow] = []
    findings: list[Finding] = []
    for demand in demands:
        if not any(j.kind is JointKind.HOUSED for j in structure.joined(*demand.pair)):
            continue
        area = sum(p.area for p in structure.patches(*demand.pair) if p.normal[2] < LOOKS_DOWN)
        name = joint_name(structure, demand.pair)
        try:
            woods = [wood_of_part(structure.part(id), "length", "flat") for id in demand.pair]
            strengths = [w.service(demand.load.duration, who.service_class) for w in woods]
            pressed = min(zip(strengths, woods, strict=True), key=lambda one: one[0].bearing)
            housing = Housing(
                f"{demand.pair[0]} in {demand.pair[1]}", area, pressed[0].bearing,
                f"{pressed[0].code}; {pressed[1].source}", pressed[0].status_of("bearing"), demand.pair,
            )  # fmt: skip
            result = check_housing(housing, demand.load, demand.pressing_n)
        except (ValueError, LookupError) as error:
            rows.append(CheckRow("housing", name, demand.pair, note=str(error), **row_of_load(demand.load)))
            continue
        findings += result.findings()
        rows.append(
            CheckRow(
                "housing",
                name,
                demand.pair,
                result.demand_n,
                result.capacity_n,
                "N",
                code=housing.code,
                governing=f"pressure on {area:.0f} mm2 of shoulder; glue not added",
                ratio=result.ratio,
                bound=demand.bound,
                status=housing.status.value,
                **row_of_load(demand.load),
            )
        )
    return rows, findings


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


def dowel_row(structure: Structure, demand: Demand, woods: Mapping[str, Wood]) -> tuple[CheckRow, list[Finding]] | None:
    """Check the dowels placed between two parts by what tests found and what a wooden pin bears: it only warns."""
    joints = {j.id for j in structure.joined(*demand.pair)}
    dowels = [f for f in structure.assembly.fasteners.values() if f.joint in joints and f.kind == "dowel"]
    if not dowels:
        return None
    one, name, load = dowels[0], joint_name(structure, demand.pair), row_of_load(demand.load)
    pulled = demand.pulling_n > demand.sideways_n
    try:
        holds = _one_dowel(one.diameter, one.length / 2, [_gravity(structure, id, woods) for id in demand.pair], pulled)
    except (ValueError, LookupError) as error:
        return CheckRow("dowels", name, demand.pair, demand.force_n, unit="N", note=str(error), **load), []
    what = f"{len(dowels)} of {one.diameter:g} mm"
    row = CheckRow(
        "dowels", name, demand.pair, demand.force_n, holds * len(dowels), "N", code=DOWELS,
        governing=f"{what}, {'pulled' if pulled else 'pushed sideways'}", ratio=demand.force_n / (holds * len(dowels)),
        bound=demand.bound, status=Status.MEMORY.value, note="no standard designs glued dowels", **load,
    )  # fmt: skip
    if demand.force_n <= holds * len(dowels):
        return row, []
    text = (
        f"{demand.pair[0]} to {demand.pair[1]}: {what} are reckoned to carry {holds * len(dowels):.0f} N "
        f"({DOWELS}); {demand.force_n:.0f} N come on them under {demand.load.label}."
    )
    found = notice(
        "dowels-over", text, status=Status.MEMORY, parts=demand.pair, value=demand.force_n,
        limit=holds * len(dowels), unit="N", source=DOWELS,
    )  # fmt: skip
    return row, [found]


def _one_dowel(diameter: float, depth: float, gravities: list[float], pulled: bool) -> float:
    if pulled:
        return screening_pull(dowel_pull_out(diameter, depth, dowel_bond(WEAKEST).value))
    return screening_shear(diameter, (depth, depth), (gravities[0], gravities[1]))


def _gravity(structure: Structure, id: str, woods: Mapping[str, Wood]) -> float:
    wood = woods[structure.part(id).material.material]
    if wood.bearing is None:
        raise ValueError(f"no specific gravity of {wood.title.lower()} is published: give your own")
    return wood.bearing.value


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
        side = _cross(way, across)
        if abs(dot(way, across)) < 0.1 and abs(dot(off, side)) <= hole.diameter / 2 + NEAR_MM:
            reaches.append(dot(point, way) - start)
    return min((r for r in reaches if r > 0), default=whole if whole <= THROUGH_MM else NO_NUT_MM)


def _cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def unjudged(structure: Structure, demand: Demand) -> CheckRow:
    """Return the row of a joint no figure of the tables covers, and what to declare so that one does."""
    joints = structure.joined(*demand.pair)
    kinds = ", ".join(dict.fromkeys(j.kind.value for j in joints)) or "contact only"
    note = f"no published capacity is in the tables for this joint ({kinds}): {demand.force_n:.0f} N come on it"
    note += "".join(dict.fromkeys(_wanted(j) for j in joints))
    return CheckRow(
        "joint", joint_name(structure, demand.pair), demand.pair, demand.force_n, unit="N", bound=demand.bound,
        note=note, **row_of_load(demand.load),
    )  # fmt: skip


def _wanted(joint: Joint) -> str:
    wanted = {
        JointKind.DOWELS: "; place its dowels (size and number) and they are reckoned",
        JointKind.NAILS: "; place its nails (size and number) and they are reckoned",
        JointKind.BOLTED: "; bore its holes for bolts and they are reckoned",
    }
    return wanted.get(joint.kind, "")


def nothing_counts(alike: Sequence[Demand], why: str) -> Finding:
    """Return the finding of alike joints a load comes on where nothing may be counted on to hold it."""
    demand = max(alike, key=lambda d: d.force_n)
    a, b = demand.pair
    more = len(alike) - 1
    so = "" if not more else f" (so it is in {more} other joint{'s' if more > 1 else ''})"
    text = (
        f"{a} to {b}: {why}, and no screw, shoulder or dowel carries it: {demand.force_n:.0f} N come on it under "
        f"{demand.load.label}{so}."
    )
    parts = tuple(dict.fromkeys(id for d in alike for id in d.pair))
    return notice("joint-holds-nothing", text, parts=parts, value=demand.force_n, unit="N",
                  source="Wood Handbook, FPL-GTR-190, chapter 10")  # fmt: skip


def pressing(demand: Demand, newton: float) -> Demand:
    """Return what presses on a joint from above under the same load."""
    return replace(demand, sideways_n=0.0, pulling_n=0.0, pressing_n=newton)
