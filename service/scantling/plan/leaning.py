"""Leaning back: the slats of a back as beams, its posts as cantilevers, and the joint each post is held by."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from scantling.board import Part
from scantling.board.vector import Vector, dot
from scantling.findings import Finding
from scantling.mechanics.back_joint import BackJoint, BackJointResult, check_back_joint
from scantling.mechanics.beams import rectangle
from scantling.mechanics.fastener_check import FastenerCheck
from scantling.mechanics.glue import credited_area
from scantling.mechanics.lateral import reductions
from scantling.mechanics.loads import Load, test_load
from scantling.mechanics.members import Member, check_member
from scantling.mechanics.tipping import rear_points

from .check_row import CheckRow, row_of_load
from .circumstances import Circumstances
from .flow import Pair
from .joints import PLY_SHARE, joint_name, surface_of, unsound
from .members import Pressed, checked_towards, member_row, one_finding, spread, wood_of_part
from .spans import Spans, lies_along, spans_of
from .structure import Structure, Support, depth_towards
from .surfaces import PAD, Surface, share_under

INNER_POST = 11 / 16  # of a load on each side, what the middle one of three supports gets; statics of two equal spans
NOTHING_BEHIND = "no part stands behind this cushion, so what is leant on is not known"
ALONE = "the glue line is sound and carries this joint; the screws clamp it and are not added: for information."
YIELD = "yield by 5 % offset, NDS 2018 12.3.1 without its reduction term, a test held to minutes"


@dataclass(frozen=True, slots=True)
class PostLoad:
    """One post of a back: what pushes it at a height and which way, and the parts that hold it below."""

    post: Part
    load: Load
    push_z: float
    holders: tuple[str, ...]
    root_z: float
    out: Vector


def lean_checks(
    structure: Structure,
    backs: Sequence[Surface],
    seat_z: float,
    who: Circumstances,
    checks: Mapping[str, FastenerCheck],
) -> tuple[list[CheckRow], list[Finding]]:
    """Check the backs: slats, posts and their joints under the published back load at the published height.

    Backs that look one way are leant on at once, those at the side of a corner by themselves. `seat_z` is the height
    somebody sits at, mm; `checks` the screw checks by joint id.
    """
    rows: list[CheckRow] = []
    findings: list[Finding] = []
    for out in dict.fromkeys(back.out for back in backs):
        more, found = _one_way(structure, [b for b in backs if b.out == out], seat_z, who, checks)
        rows += more
        findings += [f for f in found if f.message not in {g.message for g in findings}]
    return rows, findings


def _one_way(
    structure: Structure,
    backs: Sequence[Surface],
    seat_z: float,
    who: Circumstances,
    checks: Mapping[str, FastenerCheck],
) -> tuple[list[CheckRow], list[Finding]]:
    load, out = test_load(who.use, "back static"), backs[0].out
    bearers = {id: surface for surface in backs for id, _ in surface.shares}
    lost = [CheckRow("back", b.id, note=NOTHING_BEHIND) for b in backs if not b.shares]
    ways = {id: spans_of(structure, id, _behind(structure, id, set(bearers), out)) for id in bearers}
    rows, findings = _slats(structure, bearers, ways, load, who)
    rows += lost
    top = max((structure.part(id).z1 for id in bearers), default=seat_z)
    push_z = rear_points(max(seat_z, 1.0), 0.0, max(top, seat_z, 1.0))[1]
    for group in _alike(_posts(structure, backs, ways, load, push_z)):
        more, found = _post(structure, group, who, checks)
        rows += more
        findings += found
    return rows, findings


def _behind(structure: Structure, id: str, bearers: set[str], out: Vector) -> list[Support]:
    """Return what stands behind a part of a back, or else the rigid joints that hold its ends."""
    found = [(o, p) for o, p in structure.contacts.get(id, ()) if o not in bearers]
    behind = [Support(id, o, p, True) for o, p in found if dot(p.normal, out) > 0.5]
    fast = [s for s in behind if structure.rigid(id, s.by)]
    return fast or behind or [Support(id, o, p, False) for o, p in found if structure.rigid(id, o)]


def _slats(
    structure: Structure,
    bearers: Mapping[str, Surface],
    ways: Mapping[str, Spans | None],
    load: Load,
    who: Circumstances,
) -> tuple[list[CheckRow], list[Finding]]:
    pressed: list[Pressed] = []
    for id, surface in bearers.items():
        spans = ways[id]
        if spans is None or lies_along(spans) or not spans.clear():
            continue
        span = max(b - a for a, b in spans.clear())
        share = share_under(structure.part(id), surface, PAD, (surface.side, 2))
        pressed.append(Pressed(structure.part(id), spans, span, "uniform-simple", spread(load, share, PAD[0], span)))
    return checked_towards(pressed, who, [], next(iter(bearers.values())).out) if bearers else ([], [])


def _posts(
    structure: Structure, backs: Sequence[Surface], ways: Mapping[str, Spans | None], load: Load, push_z: float
) -> list[PostLoad]:
    """Return what each post of a back gets when everybody leans back at once."""
    force: dict[str, float] = {}
    for surface in backs:
        way = next((w for id, _ in surface.shares if (w := ways[id]) is not None and len(w.rests) > 1), None)
        if way is None:
            continue
        for place in surface.places():
            x, y, z = surface.middle
            at = way.at((place, y, z) if surface.side == 0 else (x, place, z))
            for by, part_of in _shares_of_posts(way, at):
                force[by] = force.get(by, 0.0) + part_of * load.force_n
    bearers = {id for surface in backs for id, _ in surface.shares}
    found = []
    for id, newton in force.items():
        holders, root = _holders(structure, id, bearers)
        found.append(PostLoad(structure.part(id), replace(load, force_n=newton), push_z, holders, root, backs[0].out))
    return found


def _shares_of_posts(way: Spans, at: float) -> list[tuple[str, float]]:
    near = way.neighbours(at)
    if len(near) == 1:
        return [(near[0].by[0], 1.0)]
    a, b = near
    second = (at - a.middle) / (b.middle - a.middle)
    shares = [(a, 1 - second), (b, second)]
    inner = way.rests[1:-1]
    return [(r.by[0], max(s, INNER_POST) if r in inner else s) for r, s in shares]


def _holders(structure: Structure, id: str, bearers: set[str]) -> tuple[tuple[str, ...], float]:
    """Return the parts that hold a post, the one it meets most first, and the height up to which they do."""
    reached = structure.reached_without(id)
    areas: dict[str, float] = {}
    root = structure.part(id).z0
    for other, patch in structure.contacts.get(id, ()):
        if other in reached and other not in bearers and structure.rigid(id, other) and abs(patch.normal[2]) < 0.7:
            areas[other] = areas.get(other, 0.0) + patch.area
            root = max(root, *(c[2] for c in patch.corners))
    return tuple(sorted(areas, key=lambda o: (-round(areas[o], 1), o))), root


def _alike(posts: Sequence[PostLoad]) -> list[PostLoad]:
    """Return the worst of each name of post."""
    worst: dict[str, PostLoad] = {}
    for one in posts:
        if one.post.name not in worst or one.load.force_n > worst[one.post.name].load.force_n:
            worst[one.post.name] = one
    return list(worst.values())


def _post(
    structure: Structure, one: PostLoad, who: Circumstances, checks: Mapping[str, FastenerCheck]
) -> tuple[list[CheckRow], list[Finding]]:
    rows: list[CheckRow] = []
    findings: list[Finding] = []
    lever = one.push_z - one.root_z
    if lever > 20.0:
        more, found = _post_bends(one, lever, who)
        rows += more
        findings += found
    if not one.holders:
        note = "nothing that reaches the floor holds it: declare the joint"
        return [*rows, CheckRow("back joint", one.post.name, (one.post.id,), note=note)], findings
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
    low = structure.part(pair[0]).z0
    holds, code, missing = _test_capacity(checks.get(screws[0].joint), sheared)
    name = joint_name(structure, pair)
    if holds is None:
        return [CheckRow("back joint, screws", name, pair, note=missing, **row_of_load(one.load))], []
    spots = spots if sheared else tuple((x, z - low) for x, z in spots)
    joint = BackJoint(
        f"{one.post.id[:1].upper()}{one.post.id[1:]} to {pair[1]}", spots, not sheared, holds, "ultimate", code,
        posts=1, parts=pair,
    )  # fmt: skip
    result = check_back_joint(joint, one.load, max(one.push_z - (middle if sheared else low), 1.0))
    return [_joint_row(result, name, len(screws))], list(result.findings())


def _joint_row(result: BackJointResult, name: str, count: int) -> CheckRow:
    j = result.joint
    return CheckRow(
        "back joint, screws", name, j.parts, result.worst_n, j.capacity_n, "N", code=j.code,
        governing=f"the worst of {count} screws, without glue; moment {result.moment_nmm / 1000:.0f} N m",
        ratio=result.ratio, status=result.load.status.value, **row_of_load(result.load),
    )  # fmt: skip


def _test_capacity(check: FastenerCheck | None, sheared: bool) -> tuple[float | None, str, str]:
    """Return what one screw holds in a test, N, by which rule, or why that is not known."""
    if check is None:
        return None, "", "no screw of it could be checked"
    size, capacity = check.joint.size, check.capacity
    if not sheared:
        code = "mean ultimate withdrawal, Wood Handbook chapter 8"
        return check.ultimate_withdrawal_n, code, capacity.missing.get("withdrawal", "no handbook value for this wood")
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
    if credited <= 0 or lets_go:
        note = f"glue is not counted: {lets_go or 'end grain or plies across the joint'}; the screws are checked alone"
        return CheckRow("back joint, glue line", name, pair, note=note, **row_of_load(one.load))
    try:
        shear = min(wood_of_part(p, "length", "flat").test().shear for p in (post, holder))
    except (ValueError, LookupError) as error:
        return CheckRow("back joint, glue line", name, pair, note=str(error), **row_of_load(one.load))
    local = [post.frame.local(c) for p in patches for c in p.corners]
    long, wide = (max(c[i] for c in local) - min(c[i] for c in local) for i in (0, 1))
    middle = sum(c[2] for p in patches for c in p.corners) / sum(len(p.corners) for p in patches)
    moment = one.load.force_n * max(one.push_z - middle, 0.0)
    turning = moment * ((long**2 + wide**2) ** 0.5 / 2) / (credited * (long**2 + wide**2) / 12)
    stress = turning + one.load.force_n / credited
    return CheckRow(
        "back joint, glue line", name, pair, stress, shear, "N/mm2",
        code="shear of the weaker wood in a short test, lower 5 %",
        governing=f"{credited / 100:.0f} cm2 glued, without screws; moment {moment / 1000:.0f} N m",
        ratio=stress / shear, status=one.load.status.value, **row_of_load(one.load),
    )  # fmt: skip
