"""Posts pushed at a height: as cantilevers, and the joint that holds each: glue that is sheared, else the screws."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from scantling.board import Part
from scantling.board.vector import Vector, dot
from scantling.findings import Finding
from scantling.mechanics.back_joint import BackJoint, BackJointResult, check_back_joint
from scantling.mechanics.beams import rectangle
from scantling.mechanics.fastener_check import FastenerCheck
from scantling.mechanics.glue import credited_area
from scantling.mechanics.lateral import reductions
from scantling.mechanics.loads import Load
from scantling.mechanics.members import Member, check_member

from .check_row import CheckRow, row_of_load
from .circumstances import Circumstances
from .flow import Pair
from .joints import PLY_SHARE, joint_name, surface_of, unsound
from .members import member_row, one_finding
from .part_woods import wood_of_part
from .structure import Structure, depth_towards

ALONE = "the glue line is sound and carries this joint; the screws clamp it and are not added: for information."
YIELD = "yield by 5 % offset, NDS 2018 12.3.1 without its reduction term, a test held to minutes"
PEELED = 0.7  # cosine: pushed this square to it, a glue line is peeled and not sheared


@dataclass(frozen=True, slots=True)
class PostLoad:
    """One post: what pushes it at a height and which way, and the parts that hold it below.

    `joint` names its joint in rows, `code` the finding where that is too weak.
    """

    post: Part
    load: Load
    push_z: float
    holders: tuple[str, ...]
    root_z: float
    out: Vector
    joint: str = "back joint"
    code: str = "back-joint-weak"


def holders_of(structure: Structure, id: str, bearers: set[str]) -> tuple[tuple[str, ...], float]:
    """Return the parts that hold a post, the one it meets most first, and the height up to which they do."""
    reached = structure.reached_without(id)
    areas: dict[str, float] = {}
    root = structure.part(id).z0
    for other, patch in structure.contacts.get(id, ()):
        if other in reached and other not in bearers and structure.rigid(id, other) and abs(patch.normal[2]) < 0.7:
            areas[other] = areas.get(other, 0.0) + patch.area
            root = max(root, *(c[2] for c in patch.corners))
    return tuple(sorted(areas, key=lambda o: (-round(areas[o], 1), o))), root


def post_checks(
    structure: Structure, one: PostLoad, who: Circumstances, checks: Mapping[str, FastenerCheck]
) -> tuple[list[CheckRow], list[Finding]]:
    """Check one post as a cantilever above what holds it, and the joint it is held by."""
    rows: list[CheckRow] = []
    findings: list[Finding] = []
    lever = one.push_z - one.root_z
    if lever > 20.0:
        more, found = _post_bends(one, lever, who)
        rows += more
        findings += found
    if not one.holders:
        note = "nothing that reaches the floor holds it: declare the joint"
        return [*rows, CheckRow(one.joint, one.post.name, (one.post.id,), note=note)], findings
    pair = (one.post.id, one.holders[0])
    glue = _glue_row(structure, pair, one, who)
    screws, found = _screws(structure, pair, one, checks)
    held_by_glue = glue is not None and glue.ratio is not None and glue.ratio <= 1
    if held_by_glue:
        screws = [replace(r, ratio=None, note=f"{ALONE} {r.note}".strip()) for r in screws]
    rows += [r for r in (glue, *screws) if r is not None]
    return rows, findings + ([] if held_by_glue else found)


def _post_bends(one: PostLoad, lever: float, who: Circumstances) -> tuple[list[CheckRow], list[Finding]]:
    part = one.post
    depth, width, way = depth_towards(part, one.out)
    try:
        wood = wood_of_part(part, "length", way)
        member = Member(
            part.id[:1].upper() + part.id[1:], rectangle(width, depth), width, lever, "end-cantilever", wood,
            held_mm=0.0, service_class=who.service_class, parts=(part.id,),
        )  # fmt: skip
        result = check_member(member, one.load)
    except (ValueError, LookupError) as error:
        return [CheckRow("bending", part.name, (part.id,), note=str(error), **row_of_load(one.load))], []
    return [member_row(result, part.name)], list(one_finding(result))


def _screws(
    structure: Structure, pair: Pair, one: PostLoad, checks: Mapping[str, FastenerCheck]
) -> tuple[list[CheckRow], list[Finding]]:
    """Check the screws of a back joint alone, as if there were no glue."""
    joints = {j.id for j in structure.joined(*pair)}
    screws = [f for f in structure.assembly.fasteners.values() if f.joint in joints and f.kind == "wood screw"]
    if len(screws) < 2:
        return [], []
    sheared = abs(dot(screws[0].direction, one.out)) < 0.7
    push, side = (0, 1) if abs(one.out[0]) > 0.5 else (1, 0)
    spots = tuple((f.head[push if sheared else side], f.head[2]) for f in screws)
    middle = sum(z for _, z in spots) / len(spots)
    low = min((c[2] for p in structure.patches(*pair) for c in p.corners), default=structure.part(pair[0]).z0)
    holds, code, missing = test_capacity(checks.get(screws[0].joint), sheared)
    name = joint_name(structure, pair)
    if holds is None:
        return [CheckRow(f"{one.joint}, screws", name, pair, note=missing, **row_of_load(one.load))], []
    spots = spots if sheared else tuple((x, z - low) for x, z in spots)
    joint = BackJoint(
        f"{one.post.id[:1].upper()}{one.post.id[1:]} to {pair[1]}", spots, not sheared, holds, "ultimate", code,
        posts=1, parts=pair, finding=one.code,
    )  # fmt: skip
    result = check_back_joint(joint, one.load, max(one.push_z - (middle if sheared else low), 1.0))
    return [joint_row(result, one.joint, name, len(screws))], list(result.findings())


def joint_row(result: BackJointResult, joint: str, name: str, count: int) -> CheckRow:
    """Return the screws of a post's joint as a row; `joint` is what such a joint is called."""
    j = result.joint
    return CheckRow(
        f"{joint}, screws", name, j.parts, result.worst_n, j.capacity_n, "N", code=j.code,
        governing=f"the worst of {count} screws, without glue; moment {result.moment_nmm / 1000:.0f} N m",
        ratio=result.ratio, status=result.load.status.value, **row_of_load(result.load),
    )  # fmt: skip


def test_capacity(check: FastenerCheck | None, sheared: bool) -> tuple[float | None, str, str]:
    """Return what one screw holds in a test, N, by which rule, or why that is not known."""
    if check is None:
        return None, "", "no screw of it could be checked"
    size, capacity = check.joint.size, check.capacity
    if not sheared:
        code = "mean ultimate withdrawal, Wood Handbook chapter 8"
        if check.ultimate_withdrawal_n is None:
            return None, code, capacity.missing.get("withdrawal", "no handbook value for this wood")
        pull, draw = capacity.pull_through_n, capacity.withdrawal_n
        if pull is None or draw is None or pull >= draw:
            return check.ultimate_withdrawal_n, code, ""
        # The head pulls through first: the same share of the handbook's value as of the design values.
        return (
            check.ultimate_withdrawal_n * pull / draw,
            f"{code}, less by the head's pull-through (NDS 2018 12.2.5)",
            "",
        )
    if capacity.lateral_n is None or size.shear_mm is None:
        return None, "", capacity.missing.get("lateral", "no published lateral value")
    up = reductions(size.diameter_mm, size.shear_mm, 90.0).bending / capacity.factors["load duration"]
    return capacity.lateral_n * up, YIELD, ""


def _glue_row(structure: Structure, pair: Pair, one: PostLoad, who: Circumstances) -> CheckRow | None:
    """Check the glue line of a back joint alone: shear from push and turning on the outline of the contact."""
    if not any(j.glued for j in structure.joined(*pair)):
        return None
    patches = structure.patches(*pair)
    if not patches:
        return None
    post, holder = (structure.part(id) for id in pair)
    surfaces = (surface_of(post, patches[0]), surface_of(holder, patches[0]))
    credited = sum(credited_area(p.area, surfaces, PLY_SHARE) for p in patches)
    name = joint_name(structure, pair)
    lets_go = unsound(structure, pair, who)
    if abs(dot(patches[0].normal, one.out)) > PEELED:
        lets_go = "pushed this way it is peeled, and no standard gives a value for that"
    if credited <= 0 or lets_go:
        note = f"glue is not counted: {lets_go or 'end grain or plies across the joint'}; the screws are checked alone"
        return CheckRow(f"{one.joint}, glue line", name, pair, note=note, **row_of_load(one.load))
    try:
        shear = min(wood_of_part(p, "length", "flat").test().shear for p in (post, holder))
    except (ValueError, LookupError) as error:
        return CheckRow(f"{one.joint}, glue line", name, pair, note=str(error), **row_of_load(one.load))
    local = [post.frame.local(c) for p in patches for c in p.corners]
    long, wide = (max(c[i] for c in local) - min(c[i] for c in local) for i in (0, 1))
    middle = sum(c[2] for p in patches for c in p.corners) / sum(len(p.corners) for p in patches)
    moment = one.load.force_n * max(one.push_z - middle, 0.0)
    turning = moment * ((long**2 + wide**2) ** 0.5 / 2) / (credited * (long**2 + wide**2) / 12)
    stress = turning + one.load.force_n / credited
    return CheckRow(
        f"{one.joint}, glue line", name, pair, stress, shear, "N/mm2",
        code="shear of the weaker wood in a short test, lower 5 %",
        governing=f"{credited / 100:.0f} cm2 glued, without screws; moment {moment / 1000:.0f} N m",
        ratio=stress / shear, status=one.load.status.value, **row_of_load(one.load),
    )  # fmt: skip
