"""What the screws of a piece hold: each row of screws read from the placed parts and checked like one in a request."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from scantling.board import Assembly, Fastener, ray_through
from scantling.dryfit.screws import ScrewFit
from scantling.findings import Finding, Severity
from scantling.mechanics.connection import FastenerJoint
from scantling.mechanics.fastener import FastenerSize, bolt, dowel, round_nail, wood_screw
from scantling.mechanics.fastener_check import FastenerCheck, check_joint
from scantling.mechanics.stack import Interval, read_stack
from scantling.mechanics.wood import Wood

from .joints import Demand, loads_of

GUARD_MM = 1e-6


def fastener_rows(
    assembly: Assembly,
    woods: Mapping[str, Wood],
    wet: bool,
    demands: Mapping[str, Demand] | None = None,
    fits: Sequence[ScrewFit] = (),
) -> list[FastenerCheck]:
    """Return one check for each row of screws, nails, dowels or bolts: those of one joint in one size and role.

    The stack is read along the first screw of the row; `woods` are by material id. `wet` takes wet service; `demands`
    are what joints must hold, by joint id; `fits` what the dry fit already knows of the screws. Rows that
    are alike in wood, size, role and load are worked out once.
    """
    known: dict[tuple[Any, ...], FastenerCheck] = {}
    by_screw = {fit.fastener.id: fit for fit in fits}
    sizes: dict[tuple[str, int, float, float], FastenerSize] = {}
    checks = []
    for row in _rows(assembly):
        intervals = _clear(_intervals(assembly, row[0], by_screw.get(row[0].id)))
        if not intervals or intervals[-1].part != row[0].parts[-1]:
            continue  # it meets nothing to hold it: the dry fit says so
        kind = (row[0].kind, row[0].gauge, row[0].diameter, row[0].length)
        size = sizes[kind] = sizes.get(kind) or size_of(row[0])
        joint = _joint(intervals, woods, row, wet, (demands or {}).get(row[0].joint), size)
        key = _likeness(joint)
        if key not in known:
            known[key] = check_joint(joint)
        checks.append(_of_joint(known[key], joint))
    return checks


def fastening_findings(checks: Sequence[FastenerCheck]) -> list[Finding]:
    """Return what was noticed about the screws: once for rows that are alike, naming all their joints."""
    alike: dict[tuple[Any, ...], list[FastenerCheck]] = {}
    for check in checks:
        alike.setdefault(_likeness(check.joint), []).append(check)
    found = [f for group in alike.values() for f in _together(group)]
    return [*(f for f in found if f.severity is not Severity.NOTE), *_one_of_each(found)]


def _one_of_each(found: Sequence[Finding]) -> list[Finding]:
    """Return one note of each code for the whole piece: notes about screws are read once."""
    notes: dict[str, list[Finding]] = {}
    for finding in found:
        if finding.severity is Severity.NOTE:
            notes.setdefault(finding.code, []).append(finding)
    gathered = []
    for group in notes.values():
        parts = tuple(dict.fromkeys(p for f in group for p in f.parts))
        fasteners = tuple(dict.fromkeys(s for f in group for s in f.fasteners))
        more = len(fasteners) - 1
        message = group[0].message if not more else f"{group[0].message.rstrip('.')} (so it is in {_joints(more)})."
        gathered.append(replace(group[0], message=message, parts=parts, fasteners=fasteners))
    return gathered


def _joints(n: int) -> str:
    return "1 other joint" if n == 1 else f"{n} other joints"


def _together(group: Sequence[FastenerCheck]) -> Iterator[Finding]:
    """Yield the findings of alike joints once, at all their parts; they are worked out on the first."""
    first, others = group[0], group[1:]
    at = tuple(b.part for check in others for b in check.joint.stack.layers)
    joints = tuple(check.joint.id for check in others)
    for finding in first.findings:
        parts = tuple(dict.fromkeys((*finding.parts, *at)))
        fasteners = tuple(dict.fromkeys((*finding.fasteners, *joints)))
        message = finding.message
        if others and finding.severity is not Severity.NOTE:
            message = f"{message.rstrip('.')} (so it is in {_joints(len(others))})."
        yield replace(finding, message=message, parts=parts, fasteners=fasteners)


def _rows(assembly: Assembly) -> Iterator[list[Fastener]]:
    rows: dict[tuple[str, str, int, float, str], list[Fastener]] = {}
    for f in assembly.fasteners.values():
        rows.setdefault((f.joint, f.kind, f.gauge, round(f.length, 3), f.role.value), []).append(f)
    yield from rows.values()


def size_of(fastener: Fastener) -> FastenerSize:
    """Return a placed fastener as the checks take it. Raises ValueError for a size outside the tables of its kind."""
    if fastener.kind == "wood screw":
        return wood_screw(fastener.gauge, fastener.length)
    if fastener.kind == "nail":
        return round_nail(fastener.diameter, fastener.length, None)
    return (dowel if fastener.kind == "dowel" else bolt)(fastener.diameter, fastener.length)


def _likeness(joint: FastenerJoint) -> tuple[Any, ...]:
    """Return what two rows of screws must share to be one check: woods, stack, size, role, count and load."""
    layers = tuple((round(b.entry_mm, 1), round(b.exit_mm, 1), b.grain) for b in joint.stack.layers)
    woods = tuple(w.id for w in joint.woods)
    loads = (round(joint.loads.withdrawal_n, 1), round(joint.loads.lateral_n, 1), joint.duration)
    return (layers, woods, joint.size.label, round(joint.stack.head_mm, 2), joint.role, joint.count, joint.wet, loads)


def _of_joint(check: FastenerCheck, joint: FastenerJoint) -> FastenerCheck:
    """Return a check as that of another joint alike in everything but its name; its findings are those of the first."""
    return check if check.joint.id == joint.id else replace(check, joint=joint)


def _joint(
    intervals: list[Interval],
    woods: Mapping[str, Wood],
    row: list[Fastener],
    wet: bool,
    demand: Demand | None,
    size: FastenerSize,
) -> FastenerJoint:
    screw = row[0]
    stack = read_stack(
        intervals,
        length_mm=screw.length,
        head_depth_mm=screw.head_depth,
        thread_mm=size.thread_mm,
        threads_per_inch=size.threads_per_inch,
    )
    met = tuple(woods[i.material] for i in intervals)
    loads, duration = loads_of(demand if screw.role == "holds" else None)
    return FastenerJoint(
        screw.joint, stack, met, size, screw.role.value, len(row), loads=loads, wet=wet, duration=duration, pilot=True
    )


def _clear(intervals: list[Interval]) -> list[Interval]:
    """Return stretches that follow each other: where parts overlap, which the dry fit reports, the first one counts."""
    clear: list[Interval] = []
    for one in sorted(intervals, key=lambda i: i.entry_mm):
        entry = max(one.entry_mm, clear[-1].exit_mm) if clear else one.entry_mm
        if one.exit_mm > entry + GUARD_MM:
            clear.append(one if entry == one.entry_mm else replace(one, entry_mm=entry))
    return clear


def _intervals(assembly: Assembly, screw: Fastener, fit: ScrewFit | None) -> list[Interval]:
    """Return the stretches of wood along a screw, from the surface its head sits on: as the dry fit found them."""
    if fit is not None and all(name in fit.met for name in screw.parts):
        stretches = dict(zip(reversed(fit.met), reversed(fit.stack), strict=True))
        return [
            Interval(
                name,
                assembly.parts[name].material.material,
                max(0.0, stretches[name].enter),
                stretches[name].leave,
                assembly.parts[name].grain_angle(screw.direction),
            )
            for name in screw.parts
        ]
    intervals = []
    for name in screw.parts:
        part = assembly.parts[name]
        grain = part.grain_angle(screw.direction)
        for enter, leave in ray_through(part, screw.head, screw.direction):
            if leave > GUARD_MM:
                intervals.append(Interval(name, part.material.material, max(0.0, enter), leave, grain))
                break
    return sorted(intervals, key=lambda i: i.entry_mm)
