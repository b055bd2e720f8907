"""Does a piece fit its place and go in: its footprint, the way in, who carries it, where it comes apart."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from scantling.board import Assembly, JointKind
from scantling.findings import Finding
from scantling.mechanics.figures import figure
from scantling.mechanics.notice import notice
from scantling.mechanics.place import Run, check_run, check_walkway, check_weight
from scantling.mechanics.way_in import Way, check_way_in

from .check_row import CheckRow
from .circumstances import Circumstances
from .standing import hull
from .structure import RIGID, Structure

NICHE_MM = 150.0  # what is left in front of a piece that fills its niche is no walkway; practice


@dataclass(frozen=True, slots=True)
class Halves:
    """The pieces a piece of furniture comes apart into when its bolts are out: their masses in kg."""

    masses_kg: tuple[float, ...]


def place_checks(structure: Structure, who: Circumstances) -> tuple[list[CheckRow], list[Finding]]:
    """Check a piece in its place and on its way there."""
    assembly = structure.assembly
    low, high = assembly.bounds()
    wide, deep, tall = (b - a for a, b in zip(low, high, strict=True))
    findings: list[Finding] = []
    rows: list[CheckRow] = []
    if "width" in who.place:
        room = who.place["width"]
        findings += check_run(Run(room, room, room), wide).findings()
        rows.append(_row("place", "width of the place", wide, room))
    if "depth" in who.place:
        room = who.place["depth"]
        findings += _depth(deep, room)
        rows.append(_row("place", "depth of the place", deep, room))
    mass = structure.mass_and_centre()[0]
    halves = halves_of(assembly)
    if "door_width" in who.place:
        height = who.place.get("door_height", figure("house-door-height").si)
        way = Way("The door", who.place["door_width"], height)
        outline = side_outline(assembly)
        found = check_way_in(wide, deep, tall, (way,), outline_mm=outline).findings()
        findings += [_in_parts(f, mass, halves) for f in found]
    return rows, [*findings, *check_weight(mass, halves.masses_kg if len(halves.masses_kg) > 1 else ()).findings()]


def _row(check: str, subject: str, demand: float, room: float) -> CheckRow:
    return CheckRow(
        check, subject, demand=demand, capacity=room, unit="mm", basis="measured", code="the place as measured",
        governing="the piece with its lean", ratio=demand / room,
    )  # fmt: skip


def _depth(deep: float, room: float) -> tuple[Finding, ...]:
    if deep > room:
        text = f"The place is {room:.0f} mm deep and the piece {deep:.0f} mm with its lean."
        return (notice("does-not-fit-place", text, value=deep, limit=room, unit="mm", source="measured"),)
    left = room - deep
    return check_walkway("walkway-secondary", left).findings() if left > NICHE_MM else ()


def _in_parts(finding: Finding, mass: float, halves: Halves) -> Finding:
    """Return what does not go in with the weight of the parts it would be carried in as."""
    if finding.code != "will-not-go-in":
        return finding
    words = " and ".join(f"{m:.0f} kg" for m in halves.masses_kg)
    if len(halves.masses_kg) > 1:
        return replace(finding, remedy=f"Take out its bolts: apart it weighs {words}.")
    return replace(
        finding,
        remedy=f"Build it as two parts bolted together in their place, about {mass / 2:.0f} kg each, or measure the"
        " door with its leaf taken off.",
    )


def side_outline(assembly: Assembly) -> tuple[tuple[float, float], ...]:
    """Return the corners of a piece seen from its end, (y, z) in mm, as their convex outline."""
    corners = [(c[1], c[2]) for p in assembly.parts.values() for cell in p.cells() for c in cell.corners]
    return tuple(hull(corners))


def halves_of(assembly: Assembly) -> Halves:
    """Return the masses of what a piece comes apart into when its bolts are out, heaviest first."""
    fast = [j.parts for j in assembly.joints.values() if j.kind in RIGID and j.kind is not JointKind.BOLTED]
    groups = _groups(list(assembly.parts), fast)
    bolted = {id for j in assembly.joints.values() if j.kind is JointKind.BOLTED for id in j.parts}
    masses = [sum(assembly.parts[id].mass_kg() for id in g) for g in groups if bolted & set(g)]
    return Halves(tuple(sorted(masses, reverse=True)))


def _groups(ids: Sequence[str], ties: Sequence[Sequence[str]]) -> list[list[str]]:
    """Return the groups of ids that ties hold together, in order."""
    root = {id: id for id in ids}

    def find(id: str) -> str:
        while root[id] != id:
            id = root[id]
        return id

    for tie in ties:
        for other in tie[1:]:
            root[find(other)] = find(tie[0])
    groups: dict[str, list[str]] = {}
    for id in ids:
        groups.setdefault(find(id), []).append(id)
    return list(groups.values())
