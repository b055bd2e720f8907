"""Doors of the room, windows, sockets and the ceiling: what a piece stands in front of, in the swing of, or under."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import hypot
from typing import Any

from scantling.findings import Finding
from scantling.mechanics.figures import figure
from scantling.mechanics.floor_plan import Point, leaf_clearance
from scantling.mechanics.notice import notice
from scantling.mechanics.place import check_door_swing

from .arrangement import FLUSH_MM, Arrangement
from .poses import Stood, WallLine
from .room import Room

AGAINST_MM = 150.0  # what stands no farther off a wall covers what is on it; practice
SOCKET_MM = 60.0  # half the width of a socket or switch; practice


@dataclass(frozen=True, slots=True)
class Leaf:
    """A door of the room on the plan: its hinge, its leaf shut and open, mm, and the wall it is in."""

    id: str
    wall: str
    hinge: Point
    shut: Point
    opened: Point
    width: float
    inwards: bool


def leaves_of(arrangement: Arrangement) -> list[Leaf]:
    """Return the doors of the room on the plan."""
    return [_leaf(line, door) for line in arrangement.lines for door in line.wall.doors]


def _leaf(line: WallLine, door: Mapping[str, Any]) -> Leaf:
    at, width, inwards = door["at"], door["width"], door.get("opens", "in") == "in"
    hinge = (line.at[0] + line.along[0] * at, line.at[1] + line.along[1] * at)
    way = 1.0 if door.get("hinge", "left") == "left" else -1.0
    out = 1.0 if inwards else -1.0
    shut = (hinge[0] + line.along[0] * width * way, hinge[1] + line.along[1] * width * way)
    opened = (hinge[0] + line.out[0] * width * out, hinge[1] + line.out[1] * width * out)
    return Leaf(door["id"], line.wall.id, hinge, shut, opened, width, inwards)


def door_findings(arrangement: Arrangement) -> list[Finding]:
    """Say which pieces stand in the swing of a door of the room, or in front of one."""
    found: list[Finding] = []
    for leaf in leaves_of(arrangement):
        along, out = _towards(leaf.hinge, leaf.shut), _towards(leaf.hinge, leaf.opened)
        for stood in arrangement.stood:
            near = leaf_clearance(leaf.hinge, along, out, stood.outline) if leaf.inwards else leaf.width
            swing = () if near > leaf.width - FLUSH_MM else check_door_swing(leaf.width, near, 0.0).findings()
            said = [replace(f, message=f"{stood.name} stands in the swing of {leaf.id}. {f.message}") for f in swing]
            if not said and _in_front(leaf, arrangement, stood):
                said = [_said("door-blocked", stood, f"{stood.name} stands in front of {leaf.id}.", 0.0, leaf.width)]
            found += [replace(f, parts=(stood.name,)) for f in said]
    return found


def _said(code: str, stood: Stood, text: str, value: float, limit: float) -> Finding:
    return notice(code, text, parts=(stood.name,), value=value, limit=limit, unit="mm", source="geometry")


def _towards(a: Point, b: Point) -> Point:
    length = hypot(b[0] - a[0], b[1] - a[1])
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length


def _in_front(leaf: Leaf, arrangement: Arrangement, stood: Stood) -> bool:
    """Whether a piece stands against the opening of a door, so near that nobody gets past."""
    line = next(one for one in arrangement.lines if one.wall.id == leaf.wall)
    a, b = sorted((line.along_at(leaf.hinge), line.along_at(leaf.shut)))
    return _covers(line, stood, a, b) and min(line.off(p) for p in stood.outline) < figure("walkway-secondary").si / 2


def _covers(line: WallLine, stood: Stood, start: float, end: float) -> bool:
    spots = [line.along_at(p) for p in stood.outline]
    return (
        min(spots) < end - FLUSH_MM and max(spots) > start + FLUSH_MM and min(line.off(p) for p in stood.outline) > -1
    )


def wall_findings(arrangement: Arrangement) -> list[Finding]:
    """Say which pieces stand in front of windows and sockets."""
    found = []
    for line in arrangement.lines:
        near = [s for s in arrangement.stood if min(line.off(p) for p in s.outline) <= AGAINST_MM]
        for stood in near:
            top = stood.assembly.bounds()[1][2]
            for w in line.wall.windows:
                if top > w["sill"] and _covers(line, stood, w["at"], w["at"] + w["width"]):
                    text = f"{stood.name} is {top:.0f} mm tall; the sill of {w['id']} is {w['sill']:.0f} mm high."
                    found.append(_said("covers-window", stood, text, top, w["sill"]))
            for s in line.wall.sockets:
                if top > s["height"] and _covers(line, stood, s["at"] - SOCKET_MM, s["at"] + SOCKET_MM):
                    text = f"{stood.name} covers {s['id']}, {s['height']:.0f} mm above the floor."
                    found.append(_said("covers-socket", stood, text, s["height"], top))
    return found


def ceiling_findings(arrangement: Arrangement, room: Room) -> list[Finding]:
    """Say what is too tall for the ceiling, or too tall to be tipped up under it; each module once."""
    found: list[Finding] = []
    if room.ceiling is None:
        return found
    for stood in arrangement.stood:
        _, deep, tall = (b - a for a, b in zip(*stood.assembly.bounds(), strict=True))
        if stood.stand.copy > 1:
            continue
        if tall > room.ceiling:
            text = f"{stood.name} is {tall:.0f} mm tall; the ceiling is {room.ceiling:.0f} mm high."
            found.append(_said("does-not-fit-place", stood, text, tall, room.ceiling))
        elif hypot(deep, tall) > room.ceiling:
            swept = hypot(deep, tall)
            text = f"{stood.name} sweeps {swept:.0f} mm as it is tipped up; the ceiling is {room.ceiling:.0f} mm high."
            found.append(_said("cannot-tilt-up", stood, text, swept, room.ceiling))
    return found
