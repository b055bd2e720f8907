"""Arms of a seat: pressed down, and pushed level at the place where arm, posts and joints are weakest."""

from collections.abc import Mapping
from dataclasses import replace

from scantling.board import Part
from scantling.board.vector import Vector
from scantling.findings import Finding, Severity
from scantling.mechanics.back_joint import BackJoint, check_back_joint
from scantling.mechanics.fastener_check import FastenerCheck
from scantling.mechanics.loads import Load, arm_load, arm_side_load
from scantling.mechanics.notice import LOCAL, notice

from .check_row import CheckRow, row_of_load
from .circumstances import Circumstances
from .flow import load_flow
from .joints import joint_name
from .members import SHORT_MM, Pressed, checked, checked_towards, spread, unsupported
from .posts import PostLoad, holders_of, joint_row, post_checks, test_capacity
from .spans import Spans, Ways
from .structure import Structure

ARM_PAD_MM = 100.0  # what presses an arm in a test; practice
LEVEL_PUSH_MM = 25.4  # what pushes it: BIFMA X5.4-2012 section 9, a 1 in loading device
LEAST_LEVER_MM = 20.0
GLUE_NOT_COUNTED = "glue on the end of a post is not counted"


def arm_checks(
    ways: Ways, who: Circumstances, checks: Mapping[str, FastenerCheck]
) -> tuple[list[CheckRow], list[Finding]]:
    """Check the arms an author declared under the published loads: down on them, and level across them.

    `checks` are the fastener checks by joint id.
    """
    structure = ways.structure
    arms = [id for case in structure.assembly.loads if case.kind == "arm" for id in case.parts]
    rows, findings = _pressed_down(ways, arms, who)
    if not arms:
        return rows, findings
    load = arm_side_load(who.use, _between(structure, arms))
    level: list[Pressed] = []
    posts: dict[str, PostLoad] = {}
    weak: dict[str, Finding] = {}
    for id in arms:
        spans = ways.of(id)
        if spans is None:
            continue
        out = _outward(structure, structure.part(id))
        level += _level(spans, load)
        for by in dict.fromkeys(b for rest in spans.rests for b in rest.by):
            more, found = _pin(structure, (id, by), load, checks)
            rows, weak = rows + more, {**{f.message: f for f in found}, **weak}
            posts.setdefault(structure.part(by).name, _pushed_post(structure, structure.part(id), by, load, out))
    more, found = checked_towards(level, who, [], _outward(structure, structure.part(arms[0])))
    rows, findings = rows + more, findings + found + list(weak.values())[:1]
    for post in posts.values():
        more, found = post_checks(structure, post, who, checks)
        rows += more
        findings += found
    return rows, findings


def _pressed_down(ways: Ways, arms: list[str], who: Circumstances) -> tuple[list[CheckRow], list[Finding]]:
    pressed: list[Pressed] = []
    rows: list[CheckRow] = []
    load = arm_load(who.use)
    for id in arms:
        spans, part = ways.of(id), ways.structure.part(id)
        if spans is None:
            rows.append(unsupported(part))
            continue
        middle = part.frame.point((part.length / 2, part.width / 2, part.thickness))
        rows += [_lost(part, load) for _ in sorted(load_flow(ways, [(id, load.force_n, middle)]).lost)[:1]]
        for start, end in spans.clear():
            case = spread(load, 1.0, ARM_PAD_MM, end - start)
            pressed.append(Pressed(part, spans, end - start, "uniform-simple", case))
        out = max(spans.overhangs())
        if out > SHORT_MM:
            pressed.append(Pressed(part, spans, out - ARM_PAD_MM / 2, "end-cantilever", load))
    return checked(pressed, who, rows)


def _lost(part: Part, load: Load) -> CheckRow:
    note = "what presses on this arm comes to a part that nothing holds up"
    return CheckRow("load path", part.name, (part.id,), note=note, **row_of_load(load))


def _level(spans: Spans, load: Load) -> list[Pressed]:
    """Return an arm pushed level: in the middle of each stretch between its posts, and at the end that stands out."""
    found = [
        Pressed(spans.part, spans, end - start, "uniform-simple", spread(load, 1.0, LEVEL_PUSH_MM, end - start))
        for start, end in spans.clear()
    ]
    out = max(spans.overhangs())
    if out > SHORT_MM:
        found.append(Pressed(spans.part, spans, out, "end-cantilever", load))
    return found


def _between(structure: Structure, arms: list[str]) -> float:
    """Return the width between the arms of a seat, mm; of a seat with one arm or none beside it, the whole width."""
    low, high = structure.assembly.bounds()
    sides = sorted((structure.part(id).x0 + structure.part(id).x1) / 2 for id in arms)
    return max(sides[-1] - sides[0] if len(sides) > 1 else high[0] - low[0], 1.0)


def _outward(structure: Structure, arm: Part) -> Vector:
    low, high = structure.assembly.bounds()
    return (1.0 if arm.x0 + arm.x1 > low[0] + high[0] else -1.0, 0.0, 0.0)


def _pushed_post(structure: Structure, arm: Part, by: str, load: Load, out: Vector) -> PostLoad:
    """Return a post that gets all of the push where somebody leans on the arm right over it."""
    holders, root = holders_of(structure, by, {arm.id})
    low, high = arm.bounds()
    alone = replace(load, label=f"{load.label}, over one post")
    return PostLoad(
        structure.part(by), alone, (low[2] + high[2]) / 2, holders, root, out, "arm joint", "arm-joint-weak"
    )


def _pin(
    structure: Structure, pair: tuple[str, str], load: Load, checks: Mapping[str, FastenerCheck]
) -> tuple[list[CheckRow], list[Finding]]:
    """Check the screws of an arm on a post, pushed level by all of the load; they turn nothing."""
    joints = {j.id for j in structure.joined(*pair)}
    screws = [f for f in structure.assembly.fasteners.values() if f.joint in joints and f.kind == "wood screw"]
    name = joint_name(structure, pair)
    if not screws:
        return [], []
    holds, code, missing = test_capacity(checks.get(screws[0].joint), sheared=True)
    if holds is None:
        note = f"{GLUE_NOT_COUNTED}; {missing}"
        return [CheckRow("arm on its post, screws", name, pair, note=note, **row_of_load(load))], []
    share = replace(load, force_n=load.force_n / len(screws))
    joint = BackJoint(name, ((0.0, 1.0),), True, holds, "ultimate", code, posts=1, parts=pair)
    result = check_back_joint(joint, share, 1.0)
    row = joint_row(result, "arm on its post", name, len(screws))
    row = replace(row, governing=f"{len(screws)} screws, pushed level; {GLUE_NOT_COUNTED}", load=load.label)
    if result.ratio <= 1:
        return [row], []
    text = (
        f"{pair[0][:1].upper()}{pair[0][1:]} on {pair[1]}: {load.label} pushes its {len(screws)} screws with "
        f"{load.force_n:.0f} N; they yield at {holds * len(screws):.0f} N ({GLUE_NOT_COUNTED}). {LOCAL}"
    )
    remedy = "Take longer or thicker screws or one more, a dowel in the end of the post, or a cleat under the arm."
    return [row], [
        notice("arm-joint-weak", text, severity=Severity.WARNING, parts=pair, value=load.force_n,
               limit=holds * len(screws), unit="N", source=load.source, remedy=remedy)
    ]  # fmt: skip
