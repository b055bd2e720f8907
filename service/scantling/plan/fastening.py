"""What the screws of a piece hold: each row of screws read from the placed parts and checked like one in a request."""

from collections.abc import Iterator, Mapping
from typing import Any

from scantling.board import Assembly, Fastener, ray_through
from scantling.mechanics.connection import FastenerJoint
from scantling.mechanics.fastener import wood_screw
from scantling.mechanics.fastener_check import FastenerCheck, check_joint
from scantling.mechanics.stack import Interval, read_stack
from scantling.mechanics.wood import Wood

GUARD_MM = 1e-6


def fastener_rows(assembly: Assembly, woods: Mapping[str, Wood], wet: bool) -> list[FastenerCheck]:
    """Return one check for each row of wood screws: the screws of one joint in one size and role.

    The stack is read along the first screw of the row; `woods` are by material id. `wet` takes wet service.
    """
    return [check_joint(_joint(assembly, woods, row, wet)) for row in _rows(assembly)]


def rows_to_plain(checks: list[FastenerCheck]) -> list[dict[str, Any]]:
    """Return the checks as short rows: what bites where, what one screw holds, and the window of lengths."""
    rows = []
    for check in checks:
        plain: dict[str, Any] = check.to_plain()
        kept = ("id", "fastener", "role", "point", "bite", "pilot", "clearance_hole", "capacity", "length_window")
        rows.append({name: plain[name] for name in kept} | {"count": check.joint.count})
    return rows


def _rows(assembly: Assembly) -> Iterator[list[Fastener]]:
    rows: dict[tuple[str, int, float, str], list[Fastener]] = {}
    for f in assembly.fasteners.values():
        if f.kind == "wood screw":
            rows.setdefault((f.joint, f.gauge, round(f.length, 3), f.role.value), []).append(f)
    yield from rows.values()


def _joint(assembly: Assembly, woods: Mapping[str, Wood], row: list[Fastener], wet: bool) -> FastenerJoint:
    screw = row[0]
    intervals = _intervals(assembly, screw)
    size = wood_screw(screw.gauge, screw.length)
    stack = read_stack(
        intervals,
        length_mm=screw.length,
        head_depth_mm=screw.head_depth,
        thread_mm=size.thread_mm,
        threads_per_inch=size.threads_per_inch,
    )
    met = tuple(woods[i.material] for i in intervals)
    return FastenerJoint(screw.joint, stack, met, size, screw.role.value, len(row), wet=wet, pilot=True)


def _intervals(assembly: Assembly, screw: Fastener) -> list[Interval]:
    """Return the stretches of wood along a screw, from the surface its head sits on."""
    intervals = []
    for name in screw.parts:
        part = assembly.parts[name]
        grain = part.grain_angle(screw.direction)
        for enter, leave in ray_through(part, screw.head, screw.direction):
            if leave > GUARD_MM:
                intervals.append(Interval(name, part.material.material, max(0.0, enter), leave, grain))
                break
    return sorted(intervals, key=lambda i: i.entry_mm)
